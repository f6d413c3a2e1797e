"""One file a noun: the pages."""
