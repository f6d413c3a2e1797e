"""Times of day by the clock, as said: "ten past two", "half eight", "14:05", "three o'clock", "tonight"."""

from __future__ import annotations

from dataclasses import dataclass

from journal.read.clock_company import CLOSING, closes, has_day, is_no_time, is_rough, led_by, measured_by
from journal.read.days import day_words
from journal.read.measures import Measured, is_hour_of_day
from journal.read.number_words import OH, SMALL
from journal.read.numerals import CERTAINTY, Numeral
from journal.read.pairs import MINUTES_TO, sense

_AT = frozenset({"at", "by", "till", "til", "until", "since", "@"})
_GOES_ON = frozenset(
    "to : / - percent % parts part phr per x by degrees coats layers or times point past minutes after rpm grit "
    "end ends side sides corner corners place places point points go time edge".split()
)
_WAYS = {"past": "past", "after": "past", "to": "to", "till": "to", "til": "to", "of": "to"}
_USUAL_MINUTES = frozenset({5, 10, 15, 20, 25})
_NOT_HALF_PAST = tuple((word,) for word in "a and other left right top bottom first second back front each".split())
_FIGURES = frozenset(
    "catalyst catalysed catalyzed hardener ratio weighed weighs weigh weighing percent reads reading rpm".split()
)
_TO_THE_HOUR = (("at",), ("by",), ("till",), ("until",), ("that",))  # "no, make that ten to"
_ON_THE_DOT = (("bang", "on"), ("dead", "on"), ("spot", "on"))
_TILL = frozenset({"till", "until", "til"})
_SUBJECTS = frozenset("i we he she they it the so you".split())
_NAMED = {"noon": 12, "midday": 12, "midnight": 0}


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
    half: str | None = None
    hint: str | None = None


def walls(measured: Measured, locale: str) -> list[Wall]:
    """Return the times of day of a note; the words of the day beside them are not yet taken along."""
    found: list[Wall] = []
    for numeral in measured.scan.numerals:
        wall = _wall(measured, numeral, locale)
        if wall is None or (found and numeral.start < found[-1].end):
            continue
        if found and wall.start <= found[-1].start:
            found.pop()  # the "ten" of "at ten of seven"
        found.append(wall)
    return [*found, *_spans(measured, found), *_named(measured.scan.pieces.texts)]


def _spans(measured: Measured, found: list[Wall]) -> list[Wall]:
    """Return both ends of "from 8 to 10 this morning", "between two and three this afternoon"."""
    texts, out = measured.scan.pieces.texts, []
    taken = {wall.start for wall in found}
    for group in measured.bare:
        first = next((n for n in measured.scan.numerals if n.start == group.start), None)
        if not group.range or first is None or first.end + 1 != group.numeral.start:
            continue
        hours = _hour(first), _hour(group.numeral)
        half = day_words(texts, group.end, group.end)[2]
        if None in hours or half is None or first.start in taken:
            continue
        out.append(Wall(hours[0], 0, first.start, first.end, "moments.span", 0.75, half=half, hint="start"))
        out.append(Wall(hours[1], 0, group.numeral.start, group.end, "moments.span", 0.75, hint="end"))
    return out


def _wall(measured: Measured, numeral: Numeral, locale: str) -> Wall | None:
    """Return the time of day whose hour is this number ("ten past TWO", "half EIGHT", "TWO fifteen"), or None."""
    texts = measured.scan.pieces.texts
    if numeral.form in ("ordinal", "collective") or numeral.value < 0:
        return None
    if _in_measure(measured, numeral) or _is_minutes_of_twenty(texts, numeral):
        return None
    if texts[numeral.end : numeral.end + 1] and texts[numeral.end] in _NAMED:
        return None  # "twelve noon"
    return (
        _past_or_to(measured, numeral, locale)
        or _half(texts, numeral)
        or _past_the_hour(texts, numeral)
        or _colon(measured, numeral, locale)
        or _military(texts, numeral)
        or _by_number(measured, numeral)
    )


def _is_minutes_of_twenty(texts: tuple[str, ...], numeral: Numeral) -> bool:
    """Whether "five" belongs to the minutes of "five and twenty past ten"."""
    behind = texts[numeral.end : numeral.end + 3]
    return numeral.value == 5 and behind[:2] == ("and", "twenty") and behind[2:] in (("past",), ("to",))


def _in_measure(measured: Measured, numeral: Numeral) -> bool:
    return any(one.core <= numeral.start < one.end for one in measured.measures)


def _hour(numeral: Numeral, most: int = 12) -> int | None:
    value = numeral.value
    return int(value) if value.denominator == 1 and 1 <= value <= most else None


def _ending_at(measured: Measured, end: int) -> Numeral | None:
    return next((numeral for numeral in measured.scan.numerals if numeral.end == end), None)


def _past_or_to(measured: Measured, numeral: Numeral, locale: str) -> Wall | None:
    """Read "ten past two", "quarter to nine", "ten till two", and the American "quarter of three"."""
    texts, at = measured.scan.pieces.texts, numeral.start - 1
    hour = _hour(numeral)
    way = _way(texts, at, locale) if at >= 1 else None
    if way is None or hour is None:
        return None
    minutes_said = texts[at - 1] in ("minutes", "mins")
    first = _ending_at(measured, at - (minutes_said or texts[at - 1] == "-"))
    minutes = None if first is None else _minutes(first)
    if first is None or minutes is None:
        return None
    minutes, start = _with_five(texts, minutes, first.start)
    if texts[at] not in ("past", "to") and (_goes_on(texts, numeral) or minutes not in _USUAL_MINUTES):
        return None
    if way == "past":
        return Wall(hour, minutes, start, numeral.end, "moments.past", 0.95)
    doubt = None
    if not minutes_said and texts[at] == "to":
        meaning = sense(measured.scan.pieces, first, numeral, locale)
        if meaning not in ("clock", "unclear") or (minutes not in MINUTES_TO and first.form != "fraction"):
            return None
        doubt = "may be a time of day or a ratio" if meaning == "unclear" else None
    if minutes == 30:
        return None
    before = (hour - 2) % 12 + 1
    return Wall(before, 60 - minutes, start, numeral.end, "moments.to", 0.45 if doubt else 0.9, doubt)


def _way(texts: tuple[str, ...], at: int, locale: str) -> str | None:
    """Return past or to; "of" is "to" in American speech, and anywhere after "at"."""
    return None if texts[at] == "of" and locale != "en-US" and not _is_led(texts, at - 1) else _WAYS.get(texts[at])


def _with_five(texts: tuple[str, ...], minutes: int, start: int) -> tuple[int, int]:
    """Take the five of "five and twenty past" along."""
    five = minutes == 20 and texts[max(0, start - 2) : start] == ("five", "and")
    return (25, start - 2) if five else (minutes, start)


def _is_led(texts: tuple[str, ...], at: int) -> bool:
    """Whether "at" or "by" goes before the minutes: "at quarter of six", "by a quarter of nine"."""
    return bool(_AT & set(texts[max(0, at - 2) : at]))


def _minutes(numeral: Numeral) -> int | None:
    """The minutes before "past" or "to": a quarter, a half, or 1 to 30."""
    value = numeral.value * 60 if numeral.form == "fraction" else numeral.value
    whole = numeral.form not in ("ordinal", "collective") and value.denominator == 1
    return int(value) if whole and 1 <= value <= 30 else None


def _past_the_hour(texts: tuple[str, ...], numeral: Numeral) -> Wall | None:
    """Return "quarter past", "five to" with no hour: that of the recording, or the one beside it."""
    minutes, way = _minutes(numeral), texts[numeral.end : numeral.end + 1]
    if minutes is None or minutes % 5 or way not in (("past",), ("to",)):
        return None
    if numeral.end + 1 < len(texts) and texts[numeral.end + 1] not in CLOSING | _SUBJECTS | {"when"}:
        return None
    if way == ("to",):
        led = texts[max(0, numeral.start - 1) : numeral.start] in _TO_THE_HOUR
        return Wall(None, 60 - minutes, numeral.start, numeral.end + 1, "moments.to-the-hour", 0.7) if led else None
    return Wall(None, minutes, numeral.start, numeral.end + 1, "moments.past-the-hour", 0.7)


def _half(texts: tuple[str, ...], numeral: Numeral) -> Wall | None:
    """Read "half eight", which is half past eight in British speech."""
    at = numeral.start - 1
    hour = _hour(numeral)
    if hour is None or at < 0 or texts[at] != "half" or texts[max(0, at - 1) : at] in _NOT_HALF_PAST:
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


def _military(texts: tuple[str, ...], numeral: Numeral) -> Wall | None:
    """Read "1430 hours", "oh seven thirty", "at 14h30"."""
    end = numeral.end
    if not is_hour_of_day(texts, numeral):
        led = texts[numeral.start] in OH and numeral.halves is not None and _is_led(texts, numeral.start)
        return Wall(*numeral.halves, numeral.start, end, "moments.military", 0.86) if led and numeral.halves else None
    hour, minute = divmod(int(numeral.value), 100)
    if texts[end] == "h" and texts[end + 1 : end + 2] and texts[end + 1].isdecimal():
        hour, minute, end = int(numeral.value), int(texts[end + 1]), end + 1
    return Wall(hour, minute, numeral.start, end + 1, "moments.military", 0.93) if minute < 60 else None


def _by_number(measured: Measured, numeral: Numeral) -> Wall | None:
    """Read "two fifteen", "2.15 pm", "at three", "three o'clock", "14.05"."""
    texts = measured.scan.pieces.texts
    before = led_by(texts, numeral.start)
    following = texts[numeral.end : numeral.end + 2]
    marked = bool(following) and following[0] in ("am", "pm", "o'clock")
    hour, minute = _hour_and_minute(texts, numeral)
    dated = has_day(texts, numeral)
    rough = is_rough(texts, numeral, before, dated)
    from_to = before == "from" and not _TILL.isdisjoint(texts[numeral.end : numeral.end + 4])
    led = texts[max(0, numeral.start - 2) : numeral.start]
    about_then = before in ("about", "around", "roughly") and not _AT.isdisjoint(led)  # "at about seven"
    before = "at" if led in _ON_THE_DOT or about_then else before
    if hour is None or not (marked or rough or from_to or before in _AT):
        return None
    if before == "at" and not marked and is_no_time(texts, numeral.start, minute):
        return None
    if (minutes := _minutes_beside(measured, numeral)) is not None and before in _AT:
        return Wall(hour, int(minutes.value), numeral.start, minutes.end, "moments.at-time", 0.8)
    end = numeral.end + (following[:1] == ("o'clock",))
    if marked:
        return Wall(hour, minute, numeral.start, end, "moments.marked", 0.97)
    whole = numeral.halves is None and numeral.value.denominator == 1 and numeral.value < 100
    if _goes_on(texts, numeral):
        return None
    if whole and (hour > 12 or (before == "by" and (following[:1] == ("of",) or measured_by(texts, numeral)))):
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
    after = texts[numeral.end + 1] if numeral.end + 1 < len(texts) else ""
    if following == "to" and after.isalpha() and after not in SMALL:
        return False  # "at four to put the second coat on"
    if following in _GOES_ON or _FIGURES & set(texts[max(0, numeral.start - 4) : numeral.start]):
        return True
    counted = following.endswith("s") and following.isalpha() and following not in ("is", "was", "this")
    return counted or (texts[numeral.start] == "one" and not closes(texts, numeral.end) and following not in _SUBJECTS)


def _named(texts: tuple[str, ...]) -> list[Wall]:
    out = [Wall(_NAMED[text], 0, at, at + 1, "moments.named", 0.95) for at, text in enumerate(texts) if text in _NAMED]
    out += [
        Wall(12, 0, at, at + 3, "moments.named", 0.95)
        for at in range(len(texts) - 2)
        if texts[at : at + 3] == ("mid", "-", "day")
    ]
    return out
