"""How a bench writes ratios and layers: 100:29 for a ratio, 2x450@30 for two layers of 450 g/m2 at 30 % glass."""

from __future__ import annotations

from journal.trade.laminate import Ply
from journal.trade.limits import TradeError
from journal.trade.mix import MixRatio


def ratio_of(parts: str, by: str = "weight", densities: str = "") -> MixRatio:
    """Return the ratio written as "100:29", with the densities of its parts in g/ml ("1.15:0.95") if given."""
    return MixRatio(numbers_of("ratio", parts), by, numbers_of("densities", densities) if densities.strip() else ())


def numbers_of(field: str, text: str) -> tuple[float, ...]:
    """Return numbers written with colons between them. Raises TradeError naming the field."""
    try:
        return tuple(float(number) for number in text.split(":"))
    except ValueError:
        raise TradeError(field, f"must be numbers with colons between them, like 100:29, got {text!r}") from None


def ply_of(text: str) -> Ply:
    """Return the layers written as COUNTxGSM@PERCENT of glass by weight."""
    try:
        count, rest = text.split("x")
        gsm, percent = rest.split("@")
        return Ply(float(gsm), float(percent) / 100, int(count))
    except ValueError:
        raise TradeError("layers", f"must look like 2x450@30 (count, g/m2, percent of glass), got {text!r}") from None
