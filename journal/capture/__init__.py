"""Take in recordings and photos; the original is kept before anything reads it."""
