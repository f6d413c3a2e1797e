"""Speech to text, fitted to short spoken notes."""
