"""Tests of keep."""
