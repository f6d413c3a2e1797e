"""Refusing numbers that no bench has: every error names the field and the limit."""

from __future__ import annotations

import math


class TradeError(ValueError):
    """A number that the arithmetic cannot use; `field` names it, the message says the limit."""

    def __init__(self, field: str, message: str) -> None:
        super().__init__(f"{field}: {message}")
        self.field = field


def positive(field: str, value: float) -> float:
    """Return the value if it is a finite number above zero; else TradeError."""
    if not math.isfinite(value) or value <= 0:
        raise TradeError(field, f"must be more than 0, got {value:g}")
    return value


def within(field: str, value: float, least: float, most: float) -> float:
    """Return the value if it lies in [least, most]; else TradeError."""
    if not math.isfinite(value) or not least <= value <= most:
        raise TradeError(field, f"must be between {least:g} and {most:g}, got {value:g}")
    return value


def given(field: str, value: float | None) -> float:
    """Return the value if there is one and it is above zero; else TradeError."""
    if value is None:
        raise TradeError(field, "is needed for this and was not given")
    return positive(field, value)
