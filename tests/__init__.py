"""Tests mirror the folders of the project."""
