"""The command line: one function a command."""
