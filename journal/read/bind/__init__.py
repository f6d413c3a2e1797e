"""Bind the facts of a note to the acts they were said of."""
