"""Correct, compare, trace, and explain a fault."""
