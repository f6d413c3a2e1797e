"""Whether a pressure is above the atmosphere's or below it: air in a gun, a pressure pot, a vacuum bag."""

from __future__ import annotations

from fractions import Fraction

from journal.read.measures import Measure
from journal.read.nearby import nearest

Made = tuple[str, Fraction, str | None]

_VACUUM_WORDS = frozenset({"vacuum", "vac", "mercury"})
DRAWN_WORDS = _VACUUM_WORDS | frozenset(
    "pulling pulls pull pulled sucked sucking drew draw bag bagged gauge degas degassed degassing chamber pump".split()
)
_PRESSED = frozenset(
    "air airline airlines compressor compressed gun guns nozzle hvlp regulator line sprayed spray spraying shot hose "
    "blew blow blown blast popped popping pop pressure pressurised pressurized".split()
)
_GOES_OUT = (("out",), ("from",))
_DRAWING = frozenset("sucked sucking drew draw drawing pulled pulling pump pumped evacuated".split())
LOST = frozenset(
    "lost loses lose losing loss drop dropped drops dropping leak leaks leaked leaking rise rose test".split()
)
_ABSOLUTE = (("absolute",), ("abs",))
_OF_VACUUM = (("of", "vacuum"), ("of", "vac"), ("vacuum",), ("vac",))
_REACH = 6
_ATMOSPHERE_MBAR = Fraction("1013.25")  # ISO 2533 standard atmosphere
_MOST_VACUUM_BAR = Fraction("1.014")
_LEAST_DEEP_BAR = Fraction(1, 5)
_LEAST_VACUUM_MBAR, _LEAST_DEEP_MBAR = 200, 300


def of_pressure(texts: tuple[str, ...], one: Measure) -> Made:
    """Return the kind, the value (bar, or mbar below the atmosphere) and a doubt about it, for a measured pressure."""
    value = (one.low + one.high) / 2
    if value < _LEAST_DEEP_BAR and LOST & set(texts[max(0, one.start - 3) : one.start]):
        return "vacuum", abs(value) * 1000, "a change of vacuum was said, no level"
    if not _is_below(texts, one, value):
        return "pressure", value, None
    mbar = abs(value) * 1000
    if texts[one.end : one.end + 1] in _ABSOLUTE:
        return "vacuum", _ATMOSPHERE_MBAR - mbar, "an absolute pressure was said"
    doubt = "more than a full vacuum" if mbar > _MOST_VACUUM_BAR * 1000 else None
    if mbar < _LEAST_VACUUM_MBAR and value > 0:
        doubt = "so low a figure may be absolute pressure, not vacuum"
    return "vacuum", mbar, doubt


def _is_below(texts: tuple[str, ...], one: Measure, value: Fraction) -> bool:
    """Whether it is below the atmosphere. No vacuum is deeper than that, and air that opens or sprays presses."""
    said = any(texts[one.end : one.end + len(tail)] == tail for tail in _OF_VACUUM)
    if value < 0 or one.unit.name == "inHg" or said:
        return True
    if one.unit.name == "mbar" and value * 1000 >= _LEAST_DEEP_MBAR:
        return True  # no shop presses with so little
    way = nearest(texts, one.start, one.end, lambda at: _way(texts, at), _REACH)
    if value > _MOST_VACUUM_BAR or one.unit.name == "psi":
        return way == "below" and not _VACUUM_WORDS.isdisjoint(texts[max(0, one.start - 4) : one.start])
    return way == "below"


def _way(texts: tuple[str, ...], at: int) -> str | None:
    """Return which way a word says that it pressed: "of air" above, "sucked the air out" below."""
    text = texts[at]
    drawn = texts[at + 1 : at + 2] in _GOES_OUT or not _DRAWING.isdisjoint(texts[max(0, at - 3) : at])
    if text in DRAWN_WORDS or (text == "air" and drawn):
        return "below"
    return "above" if text in _PRESSED else None
