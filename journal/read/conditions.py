"""Measured states: temperature, humidity, vacuum, pressure, thickness, area and length, and of what."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from journal.read.findings import ConditionSaid, Findings, Found, NoteWords
from journal.read.measures import Measure, Measured, measure
from journal.read.nearby import nearest, sentence
from journal.read.numbers import Group
from journal.read.warmth import DEGREES, HUMID, IT, cue_of, of_what
from journal.record import CONDITION_UNITS, Flag

_VACUUM = frozenset(
    "pulling sucked air "
    "vacuum vac bag gauge pulled degas degassed degassing chamber pump mercury bagged drew draw pull".split()
)
_THICK = frozenset(
    "thick thickness film wet build gauge skin deep coat coats sprayed gel comb laminate measures".split()
)
_SIZED_TOOLS = frozenset(
    {"brush", "brushes", "roller", "rollers", "chip", "nozzle", "bolt", "bolts", "bit", "drill", "screw", "screws",
     "ply", "plywood", "board", "tube", "steel", "paddle", "disc", "pad", "tape", "hose", "pipe", "foam", "box",
     "mdf", "washer", "washers", "dowel", "dowels", "chopped", "strands", "putty", "bar"}
)  # fmt: skip
_CORES = frozenset({"core", "balsa", "honeycomb"})
_NO_FILM = frozenset("deviation tolerance hole holes drill drilled vised bolt bolts pin pins gap bit crack "
                     "warped warp bowed twist twisted step proud lifted shrunk shrinkage out".split())  # fmt: skip
_BUILT_UP = frozenset("sprayed spread trowelled layers layered plies slushed web shell skin".split())
_ACROSS = frozenset("wide long apart high tall across diameter radius square overlap of centres".split())
_TRIMMED = frozenset("cut trim trimmed back strip strips flange overlap overlapped overlapping from hole holes".split())
_NOT_DEGREES = (("percent",), ("%",), ("to",), (":",), ("past",), ("o'clock",), ("am",), ("pm",), ("parts",), ("/",))
_RATES = frozenset({"minute", "min", "hour", "hr", "second", "day"})
_LEAST_HUMID = 15
_LEAST_DEEP_BAR = Fraction(1, 5)
_DRAWN = frozenset("sucked vacuum degas degassed degassing pump chamber bag pulled air".split())
_GAUGES = frozenset({"gauge", "gage", "vacuum"})
_LOST = frozenset(
    "lost loses lose losing loss drop dropped drops dropping leak leaks leaked leaking rise rose test".split()
)
_LEAST_HEATED = 15  # an hour of the day is no more than 12
_LEAST_VACUUM_MBAR, _LEAST_DEEP_MBAR = 200, 300
_THIN_MM, _THIN_REACH = 3, 10  # a coat or a skin: nothing else in the shop is said to be so thin
_MOST_AGAIN_MM = 30  # "thickness 4.2 mm at the crown, 3.6 mm at the skirt"
_MOST_BARE_C, _LEAST_BARE_C = 200, -10
_ATMOSPHERE_MBAR = Fraction("1013.25")  # ISO 2533 standard atmosphere


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the conditions that were said. Call it last: a bare number may be a temperature ("shop's at nineteen")."""
    measured = measure(words.lower, words.locale)
    out = [item for one in measured.measures if (item := _condition(measured, one)) is not None]
    out += _other_sides(measured, out)
    taken = {token for item in found.of("ratio", "moment", "duration", "areal", "lot")
             for token in range(item.start, item.end)}  # fmt: skip
    for group in measured.bare:
        item = _bare(measured, group, words.locale)
        if item is not None and taken.isdisjoint(range(item.start, item.end)):
            out.append(item)
    return sorted(out, key=lambda item: item.start)


def _condition(measured: Measured, one: Measure) -> Found | None:
    texts = measured.scan.pieces.texts
    make = _MAKERS.get(one.dimension)
    said = make(texts, one) if make else None
    if said is None:
        return None
    flags = (Flag("conditions", one.why),) if one.why else ()
    if one.low != one.high:
        flags = (*flags, Flag("conditions", "a range was said: its middle is kept"))
    kind, value, doubt = said
    flags = (*flags, Flag("conditions", doubt)) if doubt else flags
    of = of_what(texts, one.start, one.end, kind) if kind in ("temperature", "humidity") else None
    start, end = measured.scan.pieces.span(one.start, one.end)
    payload = ConditionSaid(kind, value, CONDITION_UNITS[kind], of)
    return Found("condition", start, end, payload, f"conditions.{kind}", one.confidence, flags)


def _other_sides(measured: Measured, sides: list[Found]) -> list[Found]:
    """Return the sides whose unit is said with the last one: "30 by 40 millimetres", "200 x 150 x 60 mm"."""
    out = []
    lengths = {one.start: one for one in measured.of("length")}
    spans = {measured.scan.pieces.span(one.start, one.end): one for one in lengths.values()}
    for group in reversed(measured.bare):
        by = measured.scan.pieces.texts[group.end : group.end + 1] in (("by",), ("x",))
        one = lengths.get(group.end + 1) if by else None
        if one is None or group.range:
            continue
        lengths[group.start] = one
        start, end = measured.scan.pieces.span(group.start, group.end)
        for side in sides:
            if spans.get((side.start, side.end)) is one:
                value = replace(side.value, value=one.unit.to_canonical(group.low))
                out.append(replace(side, start=start, end=end, value=value, rule="conditions.side"))
    return out


Made = tuple[str, Fraction, str | None]


def _middle(one: Measure) -> Fraction:
    return (one.low + one.high) / 2


def _temperature(texts: tuple[str, ...], one: Measure) -> Made | None:
    following = texts[one.end : one.end + 2]
    if len(following) > 1 and following[0] in ("a", "per", "/", "an") and following[1] in _RATES:
        return None  # "2 degrees a minute"
    if "dew" in texts[max(0, one.start - 4) : one.start]:
        return None  # "dew point's 9 degrees"
    return "temperature", _middle(one), None


def _percent(texts: tuple[str, ...], one: Measure) -> Made | None:
    if not _near(texts, one, HUMID, 5) and not is_beside_warmth(texts, one):
        return None
    return "humidity", _middle(one), None


def is_beside_warmth(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether a share alone follows how warm it is: "18 degrees, 60 percent.", "shop fifteen. Seventy percent."."""
    at = one.start
    while at and texts[at - 1] in (",", ".", "and", ";"):
        at -= 1
    closed = texts[one.end : one.end + 1] in ((), (".",), (",",), ("in",))
    after_degrees = texts[at - 1] in DEGREES or texts[max(0, at - 2) : at - 1] in (("shop",), ("workshop",))
    return closed and 0 < at < one.start and after_degrees and one.low >= _LEAST_HUMID


def _pressure(texts: tuple[str, ...], one: Measure) -> Made | None:
    value = _middle(one)
    if value < _LEAST_DEEP_BAR and _LOST & set(texts[max(0, one.start - 3) : one.start]):
        return "vacuum", abs(value) * 1000, "a change of vacuum was said, no level"
    deep = one.unit.name == "mbar" and value * 1000 >= _LEAST_DEEP_MBAR  # no shop presses with so little
    below = value < 0 or one.unit.name == "inHg" or deep or _near(texts, one, _VACUUM, 6)
    if not below:
        return "pressure", value, None
    mbar = abs(value) * 1000
    if texts[one.end : one.end + 1] in (("absolute",), ("abs",)):
        return "vacuum", _ATMOSPHERE_MBAR - mbar, "an absolute pressure was said"
    doubt = "more than a full vacuum" if mbar > 1014 else None
    if mbar < _LEAST_VACUUM_MBAR and value > 0:
        doubt = "so low a figure may be absolute pressure, not vacuum"
    return "vacuum", mbar, doubt


def _length(texts: tuple[str, ...], one: Measure) -> Made | None:
    following = texts[one.end : one.end + 2]
    if _CORES & set(following[-2:]) and "of" not in following:
        return "thickness", _middle(one), None  # "12 millimetre foam core"
    if _SIZED_TOOLS & set(following[:1]) or (following[:1] == ("-",) and _SIZED_TOOLS & set(following[1:])):
        return None
    if one.unit.name == "inch" and _is_vacuum_gauge(texts, one):
        inches = abs(_middle(one)) / one.unit.factor
        return "vacuum", inches * Fraction("33.86389"), None
    if _NO_FILM & set(texts[max(0, one.start - 6) : one.end + 6]):
        return "length", _middle(one), None
    fine = one.unit.name in ("micron", "thou") or _middle(one) <= 1
    reach = _THIN_REACH if _middle(one) <= _THIN_MM else 3
    again = _middle(one) <= _MOST_AGAIN_MM and "thickness" in sentence(texts, one.start, one.end, 14)
    laid = _middle(one) <= _MOST_AGAIN_MM and _is_built_up(texts, one)
    fine = fine or (_middle(one) <= _MOST_AGAIN_MM and _is_grown(texts, one))
    if fine or again or laid or (_middle(one) <= 100 and _near(texts, one, _THICK, reach)):
        return "thickness", _middle(one), None
    return "length", _middle(one), None


def _is_built_up(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it says how thick something was laid: "sprayed to 10 mm", "three layers, about half an inch"."""
    said = sentence(texts, one.start, one.end, 14)
    beside = set(texts[one.end : one.end + 2]) & _ACROSS
    return not beside and not _BUILT_UP.isdisjoint(said) and _TRIMMED.isdisjoint(said)


def _is_grown(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it says how thick coats have come to be: "two more coats, it's a good quarter inch over the nose now"."""
    led = texts[max(0, one.start - 5) : one.start]
    said = any(pair in IT for pair in pairwise(led)) or led[-2:] in (("up", "to"), ("now", "at"))
    coats = not {"coat", "coats", "skin"}.isdisjoint(sentence(texts, one.start, one.start, 30))
    return said and coats and _ACROSS.isdisjoint(texts[one.end : one.end + 2])


def _is_vacuum_gauge(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether inches are of mercury: below zero, or large beside a word of vacuum."""
    inches = _middle(one) / one.unit.factor
    read = 0 < inches < 10 and _near(texts, one, _GAUGES, 3)
    drawn = 20 <= inches <= 30 and not _DRAWN.isdisjoint(sentence(texts, one.start, one.start, 16))
    if drawn and texts[max(0, one.start - 1) : one.start] == ("at",):
        return True  # "sucked the air out of it, six minutes at twenty-nine inches"
    return inches < 0 or read or (10 <= inches <= 30 and _near(texts, one, _VACUUM, 8))


def _area(texts: tuple[str, ...], one: Measure) -> Made | None:
    if texts[one.end : one.end + 1] == ("of",):
        return None
    return "area", _middle(one), None


_MAKERS = {
    "temperature": _temperature, "percent": _percent, "pressure": _pressure, "length": _length, "area": _area,
}  # fmt: skip


def _near(texts: tuple[str, ...], one: Measure, cues: frozenset[str], reach: int) -> bool:
    return nearest(texts, one.start, one.end, lambda at: texts[at] if texts[at] in cues else None, reach) is not None


def _bare(measured: Measured, group: Group, locale: str) -> Found | None:
    """Read "shop's at nineteen", "temperature nineteen point two", "humidity fifty five"."""
    texts = measured.scan.pieces.texts
    if group.name or group.numeral.form in ("ordinal", "collective", "fraction") or group.range:
        return None
    cue = cue_of(texts, group.first, group.start, group.end)
    if cue is None:
        return None
    kind, of = cue
    value = group.low
    if texts[group.end : group.end + 1] in _NOT_DEGREES:
        return None
    if kind == "humidity":
        if not 0 < value <= 100:
            return None
    elif locale == "en-US" and value >= 45:
        value = (value - 32) * Fraction(5, 9)
    least = _LEAST_HEATED if texts[group.start - 1 : group.start] in (("at",), ("to",)) else _LEAST_BARE_C
    if kind == "temperature" and (group.low < least or not _LEAST_BARE_C <= value <= _MOST_BARE_C):
        return None
    start, end = measured.scan.pieces.span(group.first, group.end)
    said = ConditionSaid(kind, value, CONDITION_UNITS[kind], of)
    return Found("condition", start, end, said, f"conditions.bare-{kind}", 0.75)
