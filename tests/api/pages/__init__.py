"""Tests of what the pages write, without a server."""
