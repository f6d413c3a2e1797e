"""Tables, history, media and backups."""
