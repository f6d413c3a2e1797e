"""Speech to text: weights, windows fitted to short notes, shop glossary."""
