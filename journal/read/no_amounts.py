"""Figures that measure no material: prices, hardness, viscosity, torque, speeds, pages, and by how much one was off."""

from __future__ import annotations

from journal.read.measures import Measure
from journal.read.nearby import sentence

_SIGNS = frozenset({"£", "$", "€"})
_MONEY = frozenset(
    "quid euro euros dollar dollars buck bucks pence cents grand fiver tenner sterling usd eur gbp £ $ €".split()
)
_PAID = frozenset(
    "cost costs costing costed paid pay paying price prices priced charged charge charges spent worth invoice "
    "bill quoted quote".split()
)
# What follows or leads the figures of a data sheet, a machine or a book.
_FIGURES = frozenset(
    "rpm revs cps cp mpas centipoise centistokes poise cst shore barcol durometer newton newtons nm volt volts v watt "
    "watts kilowatt kilowatts kw amp amps hp horsepower hz denier tex years year people page pages knots mph "
    "d65".split()
)
_LED = frozenset("shore barcol durometer viscosity hardness page pages barcode phone extension torque torqued".split())
_SMALL = frozenset({"a", "d", "oo", "00", "is", "was", "about", "of", "to", "'s"})
_OFF = frozenset("over under short out light heavy adrift shy".split())
_CLOSED = frozenset({"", ".", ",", ";", "and", "but", "so", "on", "because", "which", "then"})


def is_price(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it is money, or what a price is for: "cost me 240 pounds", "9 euros a kilo", "$85 a gallon"."""
    before = texts[max(0, one.start - 3) : one.start]
    if _SIGNS & set(before[-1:]) or (one.article and _MONEY & set(before)):
        return True
    if one.said in ("pound", "pounds"):
        beside = set(sentence(texts, one.start, one.end, 6))
        return bool(beside & _PAID) and texts[one.end : one.end + 1] != ("of",)
    return one.article and bool(_SIGNS & set(texts[max(0, one.start - 4) : one.start]))


def is_error(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it says by how much a weight was off: "2 grams over", "out by 5 grams"."""
    if one.dimension not in ("mass", "volume"):
        return False
    after = texts[one.end : one.end + 2]
    behind = after[:1] and after[0] in _OFF and (after[1] if len(after) > 1 else "") in _CLOSED
    return bool(behind) or (
        texts[max(0, one.start - 1) : one.start] == ("by",)
        and bool(_OFF & set(texts[max(0, one.start - 4) : one.start]))
    )


def is_other_figure(texts: tuple[str, ...], start: int, end: int) -> bool:
    """Whether a bare number is a price or a figure of something else: "450 centipoise", "shore A 30", "page 45"."""
    before, after = texts[max(0, start - 3) : start], texts[end : end + 2]
    if _SIGNS & set(before[-1:]) or (_MONEY | _FIGURES) & set(after[:1]):
        return True
    skipped = 1 + (before[-1:] != () and before[-1] in _SMALL)  # "shore A 30", "viscosity is 900"
    return not _LED.isdisjoint(before[-skipped:])
