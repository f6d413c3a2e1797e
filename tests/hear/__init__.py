"""Tests of hear."""
