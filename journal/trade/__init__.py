"""The shop's arithmetic: pure functions of numbers, with units in their names."""
