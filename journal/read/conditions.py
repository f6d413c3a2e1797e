"""Measured states: temperature, humidity, vacuum, pressure, thickness, area and length, and of what."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.read.findings import ConditionSaid, Findings, Found, NoteWords
from journal.read.measures import Measure, Measured, measure
from journal.read.nearby import nearest, sentence
from journal.read.number_words import STARTERS
from journal.read.numbers import Group
from journal.read.pressures import DRAWN_WORDS, Made, of_pressure
from journal.read.sizes import of_length
from journal.read.warm_things import MOVED, of_a_thing
from journal.read.warmth import DEGREES, HUMID, cue_of, of_what
from journal.record import CONDITION_UNITS, Flag

_NUMBER_WORDS = STARTERS - {"a", "an"}
_ROOMS = frozenset("shop workshop room shed garage studio booth temp temperature".split())
_NOT_DEGREES = (("percent",), ("%",), ("to",), (":",), ("past",), ("o'clock",), ("am",), ("pm",), ("parts",), ("/",))
_RATES = frozenset({"minute", "min", "hour", "hr", "second", "day"})
_LEAST_HUMID = 15
_SIZED = {"high": "length", "wide": "length", "long": "length", "tall": "length", "thick": "thickness"}
_LEAST_MM, _MOST_MM = 2, 3000
_LEAST_BARE_F = 45  # the record's settled reading for a shop in the United States
_LEAST_HEATED = 13  # an hour of the day is no more than 12
_MOST_BARE_C, _LEAST_BARE_C = 260, -20


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the conditions that were said. Call it last: a bare number may be a temperature ("shop's at nineteen")."""
    measured = measure(words.lower, words.locale)
    out = [item for one in measured.measures if (item := _condition(measured, one)) is not None]
    out += _other_sides(measured, out)
    out += _bare_sizes(measured, words.locale)
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


def _bare_sizes(measured: Measured, locale: str) -> list[Found]:
    """Read "walls next, 60 high", "sixty wide and six thick" in millimetres, and "down to minus 0.95" in bar."""
    texts = measured.scan.pieces.texts
    other = any(one.unit.name not in ("mm", "micron") for one in measured.of("length"))
    out = []
    for group in measured.bare:
        if group.name or group.range or group.numeral.form in ("ordinal", "fraction", "collective"):
            continue
        span = measured.scan.pieces.span(group.first, group.end)
        if -1 < group.low < 0 and not DRAWN_WORDS.isdisjoint(sentence(texts, group.start, group.end, 12)):
            flag = Flag("conditions", "no unit was said: taken for bar")
            said = ConditionSaid("vacuum", -1000 * group.low, "mbar", None)
            out.append(Found("condition", *span, said, "conditions.bare-vacuum", 0.7, (flag,)))
        kind = _SIZED.get(texts[group.end]) if group.end < len(texts) else None
        if kind and locale == "en-GB" and not other and _LEAST_MM <= group.low <= _MOST_MM:
            flag = Flag("conditions", "no unit was said: taken for mm")
            said = ConditionSaid(kind, group.low, "mm", None)
            out.append(Found("condition", *span, said, "conditions.bare-size", 0.7, (flag,)))
    return out


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
    after_degrees = texts[at - 1] in DEGREES or not _ROOMS.isdisjoint(_bare_reading(texts, at))
    return closed and 0 < at < one.start and after_degrees and one.low >= _LEAST_HUMID


def _bare_reading(texts: tuple[str, ...], end: int) -> tuple[str, ...]:
    """Return the words before a number without a unit that ends there: "clean room 's at twenty point five"."""
    at = end
    while at and (texts[at - 1] in _NUMBER_WORDS or texts[at - 1][:1].isdecimal() or texts[at - 1] == "-"):
        at -= 1
    return texts[max(0, at - 3) : at] if at < end else ()


def _area(texts: tuple[str, ...], one: Measure) -> Made | None:
    if texts[one.end : one.end + 1] == ("of",):
        return None
    return "area", _middle(one), None


_MAKERS = {
    "temperature": _temperature, "percent": _percent, "pressure": of_pressure, "length": of_length, "area": _area,
}  # fmt: skip


def _near(texts: tuple[str, ...], one: Measure, cues: frozenset[str], reach: int) -> bool:
    return nearest(texts, one.start, one.end, lambda at: texts[at] if texts[at] in cues else None, reach) is not None


def _bare(measured: Measured, group: Group, locale: str) -> Found | None:
    """Read "shop's at nineteen", "temperature nineteen point two", "humidity fifty five"."""
    texts = measured.scan.pieces.texts
    if group.name or group.numeral.form in ("ordinal", "collective", "fraction") or group.range:
        return None
    fahrenheit = locale == "en-US" and group.low >= _LEAST_BARE_F
    celsius = (group.low - 32) * Fraction(5, 9) if fahrenheit else group.low
    cue = cue_of(texts, group.first, group.start, group.end) or of_a_thing(
        texts, group.first, group.start, group.end, float(celsius)
    )
    if cue is None or texts[group.end : group.end + 1] in _NOT_DEGREES:
        return None
    kind, of = cue
    value = celsius if kind == "temperature" else group.low
    if kind == "humidity" and not 0 < value <= 100:
        return None
    led = texts[max(0, group.start - 2) : group.start]
    hour = led[-1:] == ("at",) or (led[-1:] == ("to",) and led[0] not in MOVED)
    least = _LEAST_HEATED if hour else _LEAST_BARE_C
    if kind == "temperature" and (group.low < least or not _LEAST_BARE_C <= value <= _MOST_BARE_C):
        return None
    start, end = measured.scan.pieces.span(group.first, group.end)
    said = ConditionSaid(kind, value, CONDITION_UNITS[kind], of)
    return Found("condition", start, end, said, f"conditions.bare-{kind}", 0.75)
