"""What tells that a bare number is a temperature or a humidity, and of what: "shop's at nineteen", "RH 44"."""

from __future__ import annotations

from itertools import pairwise

from journal.read.nearby import nearest, sentence
from journal.read.number_words import SMALL

_OF: dict[str, str] = {
    word: of
    for of, words in {
        "shop": "shop room workshop ambient amb air outside garage studio bay",
        "resin": "resin tin pot mix drum hardener gelcoat epoxy batch bucket exotherm",
        "oven": "oven blanket postcure cabinet",
        "mould": "mould mold tool pattern surface plug moulds laminate shell",
    }.items()
    for word in words.split()
}
_KINDS: dict[str, str] = {
    word: kind
    for kind, words in {
        "temperature": "temperature temp temps temperatures shop room workshop warm cold ambient amb thermometer",
        "humidity": "humidity rh humid",
    }.items()
    for word in words.split()
}
_INSTRUMENTS = frozenset("thermocouple thermometer probe pyrometer infrared ir".split())
_FACES = frozenset({"surface", "outside", "skin"})
_READ = frozenset("at reads reading says showing hit".split())
DEGREES = frozenset({"degrees", "degree", "degc", "celsius", "°", "°c", "deg"})
HUMID = frozenset({"humidity", "rh", "humid", "relative", "damp", "muggy", "hygrometer"})
_TEMPERATURE = frozenset(
    {"temperature", "temp", "temps", "temperatures", "thermometer", "stat", "thermostat", "ambient", "amb"}
)
# "It was only sixteen", "cooler now, twenty two", "down to seventy eight": said of the weather in the shop.
_WEATHER = frozenset("warm warmer hot hotter cold colder cool cooler chilly mild freezing roasting boiling baking "
                     "nippy parky sweltering heater aircon".split())  # fmt: skip
_HERE = (("in", "here"), ("out", "here"), ("in", "there"), ("outside", "today"), ("out", "there"))
_PLACES = frozenset({"garage", "shed", "barn", "shop", "workshop", "room", "studio", "unit", "booth", "lab", "tent"})
IT = (("it", "'s"), ("it", "was"), ("it", "is"), ("its", "only"), ("only", "about"), ("it", "'d"))
_NOT_WEATHER = frozenset("grit sanded sand grams gram g kilo kg coat coats layer layers of percent past number pull "
                         "cast "
                         "casting minutes minute hours hour mm ml hardener catalyst resin to for".split())  # fmt: skip
_TOLD_BY = frozenset("already only still just , . 's is was about now nearly".split())
_NOT_AIR = _NOT_WEATHER - {"to"}
_FELL = frozenset({"dropped", "fell", "climbed", "rose"})
_MOVED_TO = (("down", "to"), ("up", "to"), ("dropped", "to"), ("fell", "to"), ("climbed", "to"), ("rose", "to"))
_WEATHER_REACH, _TEMPERATURE_REACH = 4, 7
_LINKS = frozenset({"at", "is", "'s", "was", "about", "reads", "reading", "says", "to", "of", "around", "now",
                    "only", "down", "up", "went", "on", "just", "still", "it", "stayed", "holding", "sitting", ":",
                    "the", "in", "set", "nearly"})  # fmt: skip
_HEATERS = frozenset(
    "heater heaters heat heating thermostat oven blanket ramp ramped cure cured curing cures bake baked postcure "
    "postcured hotbox incubator hours hour hrs h hr".split()
)
_AFTER_READING = frozenset(". , ; ! ? - and so but in out on with now today overnight here this when already rising "
                           "outside still according by because cos at or degrees going again that it "
                           "that's".split())  # fmt: skip


def cue_of(texts: tuple[str, ...], first: int, start: int, end: int) -> tuple[str, str | None] | None:
    """Return what the bare number in [start, end) measures, and of what; `first` is where "about" before it starts."""
    return (
        _linked_cue(texts, first, end)
        or _heated(texts, start, end)
        or _beside(texts[end : end + 3], first > 0 and texts[first - 1] in _TOLD_BY)
        or _by_instrument(texts[max(0, start - 1) : start], texts[end : end + 3])
        or _named(texts, start, end)
        or _weather(texts, start, end)
    )


def of_what(texts: tuple[str, ...], start: int, end: int, kind: str) -> str | None:
    """Return what a measured state is of: shop, resin, oven, mould, or None."""
    if texts[end : end + 2] == ("in", "here"):
        return "shop"
    found = nearest(texts, start, end, lambda at: None if _is_pot_life(texts, at) else _OF.get(texts[at]), 5)
    if kind == "humidity":
        return "shop" if found == "shop" else None
    return found


def _is_pot_life(texts: tuple[str, ...], at: int) -> bool:
    return texts[at] == "pot" and texts[at + 1 : at + 2] in (("life",), ("-",))


def _heated(texts: tuple[str, ...], start: int, end: int) -> tuple[str, str | None] | None:
    """Return the temperature's cue of "heater's on at twenty two", "post-cured at 100", "4 hours at 140"."""
    if start < 2 or texts[start - 1] not in ("at", "to"):
        return None
    near = sentence(texts, start - 1, end, 7)
    before = set(sentence(texts, start - 1, start - 1, 7)[:8])
    heaters = _HEATERS - {"hours", "hour", "hrs", "h", "hr"} if texts[start - 1] == "to" else _HEATERS
    if not heaters & (before if texts[start - 1] == "to" else set(near)):
        return None
    return "temperature", "oven" if "oven" in near else None


def _named(texts: tuple[str, ...], start: int, end: int) -> tuple[str, str | None] | None:
    """Return the cue of "temperature in the workshop this morning, eighteen", "damp, eighty two on the dial"."""
    if texts[end : end + 1] and texts[end] not in _AFTER_READING:
        return None
    for at in range(start - 1, max(-1, start - 1 - _TEMPERATURE_REACH), -1):
        text = texts[at]
        number = text[:1].isdecimal() or (text in SMALL and texts[at - 1] not in ("this", "that"))
        if number or text in (".", ";") or text in _NOT_AIR:
            return None  # "humidity fifty eight, shop nineteen"
        if text in _TEMPERATURE:
            inside = next((_OF[word] for word in texts[at:start] if word in _OF), None)
            return "temperature", inside or of_what(texts, at, start, "temperature")
        if text in ("humidity", "rh") or (text in HUMID and texts[end : end + 2] == ("on", "the")):
            return "humidity", "shop" if text in ("damp", "muggy") else None
    return None


def _weather(texts: tuple[str, ...], start: int, end: int) -> tuple[str, str | None] | None:
    """Return the cue of "it was only sixteen", "garage is 64", "ninety one out here", "cooler now twenty two"."""
    lead, following = texts[max(0, start - _WEATHER_REACH) : start], texts[end : end + 2]
    if following[:1] and following[0] not in _AFTER_READING:
        return None
    near = set(lead) | set(following[:1])
    if near & _NOT_WEATHER - {"to", "for"} or (lead[-1:] == ("for",)):
        return None
    if following in _HERE:
        return "temperature", "shop"
    place = lead[-1:] == () or lead[-1] in _PLACES or (lead[-1] in _LINKS and lead[-2:-1] and lead[-2] in _PLACES)
    warm = _WEATHER & (set(lead) | set(texts[end : end + 6])) and "." not in lead
    said = any(pair in IT for pair in pairwise(lead))
    if lead and place and lead[-1] not in ("to", "of"):
        return "temperature", "shop"
    moved = (said or _FELL.intersection(lead)) and lead[-2:] in _MOVED_TO and following[:1] not in (("in",), ("on",))
    if moved or (warm and (said or "now" in lead or lead[-1:] in ((",",), ("about",)))):
        return "temperature", next(
            (_OF[word] for word in reversed(sentence(texts, start, start, 8)) if word in _OF), "shop"
        )
    return None


def _linked_cue(texts: tuple[str, ...], start: int, end: int) -> tuple[str, str | None] | None:
    """Return what a bare number measures, and of what, when nothing but small words stands between."""
    at = start - 1
    while at >= 0 and texts[at] in _LINKS and start - at < 5:
        at -= 1
    word = texts[at] if at >= 0 else ""
    read = word == "surface" and texts[start].isdecimal() is False and texts[start][:1].isdecimal()
    if read and not DEGREES.isdisjoint(texts):
        return "temperature", "mould"  # "mould surface 19.8"
    if at < start - 1 or word in _KINDS:
        if word in ("temperature", "temp", "humidity", "rh"):
            return _KINDS[word], of_what(texts, at, at + 1, _KINDS[word])
        if word in ("shop", "room", "workshop", "oven") and at < start - 1:
            return "temperature", _OF[word]
    return None


def _by_instrument(led: tuple[str, ...], following: tuple[str, ...]) -> tuple[str, str | None] | None:
    """Return the cue of "peaked at 41 on the thermocouple", "sitting at sixty-two on the surface"."""
    if following[:2] not in (("on", "the"), ("on", "a")) or not following[2:]:
        return None
    if following[2] in _FACES and led and led[0] in _READ:
        return "temperature", "mould"
    return ("temperature", None) if following[2] in _INSTRUMENTS else None


def _beside(following: tuple[str, ...], opens: bool) -> tuple[str, str | None] | None:
    """Return the cue behind a number: "61 in the shop", "65 RH"."""
    if following[:2] == ("in", "the") and following[2:] and following[2] in _PLACES and opens:
        return "temperature", "shop"  # "already twenty-six in the shed"
    if following[:2] in (("in", "here"),) or following in (("in", "the", "shop"), ("in", "the", "workshop")):
        return "temperature", "shop"
    if following[:1] == ("rh",) or following[:2] == ("relative", "humidity"):
        return "humidity", None
    return None
