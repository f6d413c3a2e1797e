"""Tests of find."""
