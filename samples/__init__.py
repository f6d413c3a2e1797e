"""The demo workshop, all of it invented, and the scripts that make its sounds and pictures."""
