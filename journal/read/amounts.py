"""Amounts of material, and the areal weights of fabrics.

"400 g", "half a litre", "two percent", "three brushes" are amounts; "450 gram mat" and "300 gsm" are areal
weights and never amounts. A number that belongs to nothing else is an amount without a unit.
"""

from __future__ import annotations

from journal.read.findings import Amount, Areal, Findings, Found, NoteWords
from journal.read.measures import Measure, Measured, measure
from journal.read.nearby import sentence
from journal.read.number_words import PRONOUN_BEFORE, SMALL
from journal.read.numbers import Group
from journal.read.unit_words import FABRIC, LAYERS
from journal.record import Flag

_COUNTED_ELSEWHERE = frozenset(
    {"coat", "coats", "layer", "layers", "ply", "plies", "pass", "passes", "times", "halves", "half", "pieces",
     "sides", "corners", "colour", "colours", "more", "side", "hand", "hands", "people", "of", "at", "percent",
     "part", "o'clock", "past"}
)  # fmt: skip
_INSIDE = (("in",), ("into",), ("from",), ("to",), ("per",))
_HUMID = frozenset({"humidity", "humid", "rh", "relative"})
_SOLD = frozenset({150, 200, 225, 280, 290, 300, 380, 400, 450, 600, 800, 900, 1200})  # usual, common practice
_AREAL_LEAST, _AREAL_MOST = 20, 2500  # g/m2: from tissue to the heaviest roving


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the amounts and areal weights. Reads the findings before it, to leave alone what they took."""
    measured = measure(words.lower, words.locale)
    out = [item for one in measured.measures if (item := _amount(measured, one)) is not None]
    taken = _taken(found)
    out += [item for group in measured.bare if (item := _bare(measured, group, taken)) is not None]
    return sorted(out, key=lambda item: item.start)


def _amount(measured: Measured, one: Measure) -> Found | None:
    start, end = measured.scan.pieces.span(one.start, one.end)
    flags = (Flag("unit", one.why),) if one.why else ()
    if one.dimension == "areal":
        if one.low != one.high:
            flags = (*flags, Flag("layers", "a range of areal weights was said"))
        return Found("areal", start, end, Areal(one.low), "amounts.areal", one.confidence, flags)
    if not _is_amount(measured, one):
        return None
    value = Amount(abs(one.low), abs(one.high), one.unit.canonical, one.said, one.bound, one.rough)
    rule = "amounts.article-unit" if one.article else "amounts.number-unit"
    return Found("amount", start, end, value, rule, one.confidence, flags)


def _is_amount(measured: Measured, one: Measure) -> bool:
    texts = measured.scan.pieces.texts
    if one.dimension == "percent":
        return not _HUMID & set(texts[max(0, one.start - 4) : one.end + 3])
    if one.dimension == "count" and one.low == 1 and texts[max(0, one.start - 1) : one.start] in _INSIDE:
        return False  # "together in one cup"
    if one.dimension == "area":
        return texts[one.end : one.end + 1] == ("of",)
    return one.dimension in ("mass", "volume", "count")


def _taken(found: Findings) -> set[int]:
    """The tokens that a time, ratio or condition was read from."""
    items = found.of("ratio", "moment", "duration", "condition", "areal", "lot")
    return {token for item in items for token in range(item.start, item.end)}


def _bare(measured: Measured, group: Group, taken: set[int]) -> Found | None:
    texts = measured.scan.pieces.texts
    start, end = measured.scan.pieces.span(group.start, group.end)
    if group.name or group.numeral.form in ("ordinal", "fraction") or not taken.isdisjoint(range(start, end)):
        return None
    before = texts[max(0, group.start - 2) : group.start]
    following = texts[group.end : group.end + 3]
    if _is_fabric_weight(texts, group, before, following):
        return Found("areal", start, end, Areal(group.low), "amounts.bare-areal", 0.85)
    one = texts[group.start : group.end] == ("one",)
    if one or (following[:1] and following[0] in _COUNTED_ELSEWHERE - {"of", "at"}):
        return None
    if group.low <= 0 or (before and before[-1] in PRONOUN_BEFORE and group.low < 10):
        return None
    start, end = measured.scan.pieces.span(group.first, group.end)
    value = Amount(group.low, group.high, None, None, group.around.bound, group.around.rough)
    return Found("amount", start, end, value, "amounts.bare", 0.5)


def _is_fabric_weight(
    texts: tuple[str, ...], group: Group, before: tuple[str, ...], following: tuple[str, ...]
) -> bool:
    """Whether a bare number is g/m2: "450 mat", "two layers of 450", "300 mat, then two of 450"."""
    if group.range or not _AREAL_LEAST <= group.low <= _AREAL_MOST:
        return False
    if following and following[0] in FABRIC:
        return group.low >= 100 or following[0] in ("tissue", "veil")
    if group.low < 100 or following[:1] == ("of",):
        return False
    if len(before) == 2 and before[0] in LAYERS and before[1] in ("of", ","):
        return True
    near = set(sentence(texts, group.start, group.end, 14))
    again = before[-1:] == ("another",) or (before[-1:] == ("of",) and before[0] in SMALL)
    return group.low in _SOLD and again and bool(near & (FABRIC | LAYERS))
