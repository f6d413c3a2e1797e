"""Tests of the exchange format."""
