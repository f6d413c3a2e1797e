"""The command line: app.py holds the commands, terminal.py what they print, demo.py the demo workshop."""
