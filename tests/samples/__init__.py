"""Tests of samples."""
