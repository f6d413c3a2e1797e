"""One file a noun: the programming interface."""
