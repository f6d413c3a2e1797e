"""Tests of paper."""
