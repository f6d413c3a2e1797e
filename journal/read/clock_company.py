"""What stands beside a number that may be a time of day, and what makes it none. Pure, of the words around it."""

from __future__ import annotations

from journal.read.days import DAY_HALF, DAYS, WEEKDAYS
from journal.read.number_words import SMALL
from journal.read.numerals import Numeral

CLOSING = frozenset(". ; , ? ! and but then in this tomorrow today yesterday tonight".split())
_PAUSES = frozenset({"um", "uh", "er", "erm"})
_RESINS = frozenset("resin gel gelcoat polyester vinylester ester topcoat flowcoat".split())
_LAID = frozenset({"on", "down"})
# Before "about one" these tell a time: "trim it about one", "started about two".
_TIMED = tuple((word,) for word in "it off out them started start finished finish began done opened popped".split())
_BOOKED = frozenset("scheduled booked set planned pencilled down due arranged".split())
_RUNNING = frozenset("heater heaters stove fan fans lamp lamps pump compressor radio heating oven".split())
_HOURS = frozenset({"hours", "hour", "hrs", "hr", "h"})


def led_by(texts: tuple[str, ...], start: int) -> str:
    """Return the word before a number, over a pause: "at, um, two thirty"."""
    at = start - 1
    if at >= 0 and not _PAUSES.isdisjoint(texts[max(0, at - 2) : at + 1]):
        while at > 0 and (texts[at] in _PAUSES or texts[at] == ","):
            at -= 1
    return texts[at] if at >= 0 else ""


def is_no_time(texts: tuple[str, ...], start: int, minute: int) -> bool:
    """Whether "two hours at one fifty" says how hot, or "resin at 1.25" its catalyst in percent."""
    hot = not _HOURS.isdisjoint(texts[max(0, start - 2) : start - 1])
    led = texts[max(0, start - 3) : start - 1]
    return hot or (bool(minute) and not _RESINS.isdisjoint(led) and led[-1] not in _LAID)  # "gel on at nine fifteen"


def measured_by(texts: tuple[str, ...], numeral: Numeral) -> bool:
    """Whether "by" gives a second side: "two by four", "2 by 2"."""
    before = texts[numeral.start - 2] if numeral.start > 1 else ""
    return before in SMALL or before[-1:].isdecimal()


def is_rough(texts: tuple[str, ...], numeral: Numeral, before: str, dated: bool) -> bool:
    """Whether a bare number is an hour by the word before it: "around seven", "trim it about one", "about nine
    tomorrow"."""
    closed = closes(texts, numeral.end)
    if before in ("around", "before", "after"):
        return closed
    led = texts[max(0, numeral.start - 2) : numeral.start - 1]
    if before == "for" and dated:
        return not _BOOKED.isdisjoint(texts[max(0, numeral.start - 5) : numeral.start])
    return before in ("about", "round") and (dated or (closed and led in _TIMED))


def is_not_told(texts: tuple[str, ...], start: int) -> bool:
    """Whether a time is named that it is not, or since when a heater has been on: "it ain't eight o'clock"."""
    led = texts[max(0, start - 2) : start]
    running = led[-1:] == ("since",) and not _RUNNING.isdisjoint(texts[max(0, start - 7) : start])
    return running or led[-1:] in (("n't",), ("not",)) or led in (("n't", "even"), ("not", "even"), ("n't", "yet"))


def closes(texts: tuple[str, ...], at: int) -> bool:
    """Whether nothing is left for the number to count."""
    return at >= len(texts) or texts[at] in CLOSING


def has_day(texts: tuple[str, ...], numeral: Numeral) -> bool:
    """Whether a day, or a part of one, is named beside the number: "about nine tomorrow"."""
    beside = {*texts[max(0, numeral.start - 4) : numeral.start], *texts[numeral.end : numeral.end + 3]}
    return bool(beside & (DAY_HALF.keys() | DAYS.keys() | set(WEEKDAYS)))
