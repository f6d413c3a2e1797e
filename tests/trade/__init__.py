"""Tests of trade."""
