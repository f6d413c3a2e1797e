"""The way of a note, and of a question, from end to end."""
