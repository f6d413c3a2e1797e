"""Times of day by the clock, as said: "ten past two", "half eight", "14:05", "three o'clock", "tonight"."""

from __future__ import annotations

from dataclasses import dataclass

from journal.read.measures import Measured
from journal.read.nearby import sentence
from journal.read.number_words import SMALL
from journal.read.numerals import CERTAINTY, Numeral
from journal.read.pairs import MINUTES_TO, sense

_AT = frozenset({"at", "by", "till", "til", "until", "since", "@"})
_CLOSING = frozenset(". ; , ? ! and but then in this tomorrow today yesterday tonight".split())
_GOES_ON = frozenset(
    "to : / - percent % parts part phr per x by degrees coats layers or times point past minutes after rpm grit "
    "end ends side sides corner corners place places point points go time edge".split()
)
_FIGURES = frozenset(
    "catalyst catalysed catalyzed hardener ratio weighed weighs weigh weighing percent reads reading rpm".split()
)
_SUBJECTS = frozenset("i we he she they it the so you".split())
_HALF = {"am": "am", "pm": "pm"}
_DAY_HALF = {"morning": "am", "afternoon": "pm", "evening": "pm", "tonight": "pm", "night": "pm"}
_DAYS = {"today": 0, "tomorrow": 1, "yesterday": -1, "tonight": 0}
_AFTER_TIME = frozenset({"in", "the", "this", "on", "at", "last"} | _DAYS.keys() | _DAY_HALF.keys())
_BEFORE_TIME = frozenset({"at", "this", "last", "about", "around", "by", "in", "the"} | _DAYS.keys() | _DAY_HALF.keys())
_NAMED = {"noon": 12, "midday": 12, "midnight": 0}
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_FUTURE = frozenset({"'ll", "will", "going", "gonna", "due", "next", "by", "needs", "need", "ready", "until", "till"})


@dataclass(frozen=True, slots=True)
class Wall:
    """A time by the clock in the pieces [start, end); `hour` is None for "quarter past" alone."""

    hour: int | None
    minute: int
    start: int
    end: int
    rule: str
    certainty: float
    doubt: str | None = None


def walls(measured: Measured, locale: str) -> list[Wall]:
    """Return the times of day of a note; the words of the day beside them are not yet taken along."""
    found: list[Wall] = []
    for numeral in measured.scan.numerals:
        wall = _wall(measured, numeral, locale)
        if wall is not None and not (found and numeral.start < found[-1].end):
            found.append(wall)
    return found + _named(measured.scan.pieces.texts)


def _wall(measured: Measured, numeral: Numeral, locale: str) -> Wall | None:
    """Return the time of day whose hour is this number ("ten past TWO", "half EIGHT", "TWO fifteen"), or None."""
    texts = measured.scan.pieces.texts
    if numeral.form in ("ordinal", "collective") or numeral.value < 0:
        return None
    if _in_measure(measured, numeral):
        return None
    return (
        _past_or_to(measured, numeral, locale)
        or _half(texts, numeral)
        or _past_the_hour(texts, numeral)
        or _colon(measured, numeral, locale)
        or _by_number(measured, numeral)
    )


def _in_measure(measured: Measured, numeral: Numeral) -> bool:
    return any(one.core <= numeral.start < one.end for one in measured.measures)


def _hour(numeral: Numeral, most: int = 12) -> int | None:
    value = numeral.value
    return int(value) if value.denominator == 1 and 1 <= value <= most else None


def _ending_at(measured: Measured, end: int) -> Numeral | None:
    return next((numeral for numeral in measured.scan.numerals if numeral.end == end), None)


def _past_or_to(measured: Measured, numeral: Numeral, locale: str) -> Wall | None:
    texts, at = measured.scan.pieces.texts, numeral.start - 1
    hour = _hour(numeral)
    if hour is None or at < 1 or texts[at] not in ("past", "to", "after", "of", "till"):
        return None
    minutes_said = texts[at - 1] in ("minutes", "mins")
    first = _ending_at(measured, at - (minutes_said or texts[at - 1] == "-"))
    if first is None or first.form == "ordinal":
        return None
    minutes = first.value * 60 if first.form == "fraction" else first.value
    if minutes.denominator != 1 or not 1 <= minutes <= 30:
        return None
    if texts[at] == "past":
        return Wall(hour, int(minutes), first.start, numeral.end, "moments.past", 0.95)
    if texts[at] != "to" or minutes == 30:
        return None
    doubt = None
    if not minutes_said:
        meaning = sense(measured.scan.pieces, first, numeral, locale)
        if meaning not in ("clock", "unclear") or (minutes not in MINUTES_TO and first.form != "fraction"):
            return None
        doubt = "may be a time of day or a ratio" if meaning == "unclear" else None
    before = (hour - 2) % 12 + 1
    return Wall(before, 60 - int(minutes), first.start, numeral.end, "moments.to", 0.45 if doubt else 0.9, doubt)


def _past_the_hour(texts: tuple[str, ...], numeral: Numeral) -> Wall | None:
    """Return "quarter past", "twenty past" with no hour: that of the recording, or the one beside it."""
    minutes = numeral.value * 60 if numeral.form == "fraction" else numeral.value
    if texts[numeral.end : numeral.end + 1] != ("past",) or minutes not in (5, 10, 15, 20, 25, 30):
        return None
    if numeral.end + 1 < len(texts) and texts[numeral.end + 1] not in _CLOSING | _SUBJECTS | {"when"}:
        return None
    return Wall(None, int(minutes), numeral.start, numeral.end + 1, "moments.past-the-hour", 0.7)


def _half(texts: tuple[str, ...], numeral: Numeral) -> Wall | None:
    """ "half eight" is half past eight in British speech."""
    at = numeral.start - 1
    hour = _hour(numeral)
    if hour is None or at < 0 or texts[at] != "half" or texts[max(0, at - 1) : at] in (("a",), ("and",), ("other",)):
        return None
    return Wall(hour, 30, at, numeral.end, "moments.half", 0.9)


def _colon(measured: Measured, numeral: Numeral, locale: str) -> Wall | None:
    """14:05"""
    texts = measured.scan.pieces.texts
    after = next((n for n in measured.scan.numerals if n.start == numeral.end + 1), None)
    if after is None or texts[numeral.end] != ":":
        return None
    meaning = sense(measured.scan.pieces, numeral, after, locale)
    if meaning not in ("clock", "unclear"):
        return None
    doubt = "may be a time of day or a ratio" if meaning == "unclear" else None
    return Wall(
        int(numeral.value), int(after.value), numeral.start, after.end, "moments.colon", 0.45 if doubt else 0.97, doubt
    )


def _by_number(measured: Measured, numeral: Numeral) -> Wall | None:
    """ "two fifteen", "2.15 pm", "at three", "three o'clock", "14.05"."""
    texts = measured.scan.pieces.texts
    before = texts[numeral.start - 1] if numeral.start else ""
    following = texts[numeral.end : numeral.end + 2]
    marked = bool(following) and following[0] in ("am", "pm", "o'clock")
    hour, minute = _hour_and_minute(texts, numeral)
    dated = _dated(texts, numeral)
    rough = (before in ("around", "before", "after") and _closes(texts, numeral.end)) or (before == "about" and dated)
    from_to = before == "from" and following[:1] in (("till",), ("until",), ("til",))
    if hour is None or not (marked or rough or from_to or before in _AT):
        return None
    if (minutes := _minutes_beside(measured, numeral)) is not None and before in _AT:
        return Wall(hour, int(minutes.value), numeral.start, minutes.end, "moments.at-time", 0.8)
    end = numeral.end + (following[:1] == ("o'clock",))
    if marked:
        return Wall(hour, minute, numeral.start, end, "moments.marked", 0.97)
    whole = numeral.halves is None and numeral.value.denominator == 1 and numeral.value < 100
    if _goes_on(texts, numeral):
        return None
    if whole and (hour > 12 or (before == "by" and _measured_by(texts, numeral))):
        return None
    if numeral.form == "digits" and not whole and len(texts[numeral.start]) < 4:
        return None
    certainty = 0.6 if rough and not dated else 0.75 if whole else 0.85
    rule = "moments.at-hour" if whole else "moments.at-time"
    return Wall(hour, minute, numeral.start, end, rule, certainty * CERTAINTY[numeral.form])


def _minutes_beside(measured: Measured, numeral: Numeral) -> Numeral | None:
    """Return the minutes of "at ten ten", "at eleven fifteen", where hour and minutes are separate numbers."""
    after = next((n for n in measured.scan.numerals if n.start == numeral.end), None)
    if after is None or _hour(numeral) is None or after.form != "words" or _in_measure(measured, after):
        return None
    return after if after.value.denominator == 1 and 10 <= after.value <= 59 else None


def _measured_by(texts: tuple[str, ...], numeral: Numeral) -> bool:
    """Whether "by" gives a second side: "two by four", "2 by 2"."""
    before = texts[numeral.start - 2] if numeral.start > 1 else ""
    return before in SMALL or before[-1:].isdecimal()


def _closes(texts: tuple[str, ...], at: int) -> bool:
    """Whether nothing is left for the number to count."""
    return at >= len(texts) or texts[at] in _CLOSING


def _dated(texts: tuple[str, ...], numeral: Numeral) -> bool:
    beside = {*texts[max(0, numeral.start - 4) : numeral.start], *texts[numeral.end : numeral.end + 3]}
    return bool(beside & (_DAY_HALF.keys() | _DAYS.keys() | set(_WEEKDAYS)))


def _hour_and_minute(texts: tuple[str, ...], numeral: Numeral) -> tuple[int | None, int]:
    if numeral.halves is not None:
        hour, minute = numeral.halves
        return (hour, minute) if 1 <= hour <= 23 and minute <= 59 else (None, 0)
    digits = texts[numeral.start]
    if numeral.form == "digits" and numeral.end - numeral.start == 1:
        left, _, right = digits.partition(".")
        if len(right) == 2 and left.isdecimal() and int(left) <= 23 and int(right) <= 59:
            return int(left), int(right)
        if len(digits) == 4 and digits.isdecimal() and int(digits[:2]) <= 23 and int(digits[2:]) <= 59:
            return int(digits[:2]), int(digits[2:])
    return _hour(numeral, 23), 0


def _goes_on(texts: tuple[str, ...], numeral: Numeral) -> bool:
    """Whether another sense follows or goes before: "at two percent", "at one end", "catalyst at two"."""
    following = texts[numeral.end] if numeral.end < len(texts) else ""
    if following in _GOES_ON or _FIGURES & set(texts[max(0, numeral.start - 4) : numeral.start]):
        return True
    counted = following.endswith("s") and following.isalpha() and following not in ("is", "was", "this")
    return counted or (texts[numeral.start] == "one" and not _closes(texts, numeral.end) and following not in _SUBJECTS)


def _named(texts: tuple[str, ...]) -> list[Wall]:
    out = [Wall(_NAMED[text], 0, at, at + 1, "moments.named", 0.95) for at, text in enumerate(texts) if text in _NAMED]
    out += [
        Wall(12, 0, at, at + 3, "moments.named", 0.95)
        for at in range(len(texts) - 2)
        if texts[at : at + 3] == ("mid", "-", "day")
    ]
    return out


def day_words(texts: tuple[str, ...], start: int, end: int) -> tuple[int, int, str | None, int | None]:
    """Take along what says which half of the day and which day, behind and before the time."""
    half: str | None = None
    day: int | None = None
    if end < len(texts) and texts[end] in _HALF:
        half, end = _HALF[texts[end]], end + 1
    at = end
    while at < min(end + 4, len(texts)) and texts[at] in _AFTER_TIME:
        half, day, used = _day_word(texts, at, half, day)
        at += 1
        end = at if used else end
    back = start
    while back > max(0, start - 5) and texts[back - 1] in _BEFORE_TIME:
        back -= 1
        half, day, used = _day_word(texts, back, half, day)
        start = back if used else start
    return start - (texts[max(0, start - 1) : start] in (("this",), ("last",))), end, half, day


def weekday(texts: tuple[str, ...], start: int, end: int, today: int) -> tuple[int, int, int | None]:
    """Take along a day's name beside the time ("Friday morning about nine"), as days from the recording."""
    for at in (*range(start - 1, max(-1, start - 4), -1), *range(end, min(end + 2, len(texts)))):
        if texts[at] not in _WEEKDAYS:
            continue
        ahead = (_WEEKDAYS.index(texts[at]) - today) % 7
        said = sentence(texts, at, at, 12)
        future = bool(_FUTURE & set(said)) and "last" not in texts[max(0, at - 1) : at]
        return min(start, at), max(end, at + 1), ahead if future or not ahead else ahead - 7
    return start, end, None


def _day_word(
    texts: tuple[str, ...], at: int, half: str | None, day: int | None
) -> tuple[str | None, int | None, bool]:
    text = texts[at]
    before = texts[at - 1] if at else ""
    used = False
    if text in _DAY_HALF and half is None:
        half, used = _DAY_HALF[text], True
        if before == "this":
            day = 0 if day is None else day
        elif before == "last":
            day = -1
    if text in _DAYS and day is None:
        day, used = _DAYS[text], True
    return half, day, used
