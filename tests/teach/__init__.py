"""Tests of teach."""
