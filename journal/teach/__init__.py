"""Training sheets and self-tests."""
