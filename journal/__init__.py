"""Mouldbook: a voice-and-photo process journal for people who build moulds."""
