"""Take in recordings, photos and text: what they are, whether they are whole, and when they were made."""
