"""Points in time: "at ten past two", "half eight", "14:05", "ten minutes ago", "due at six"."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from journal.read.durations import is_offset
from journal.read.findings import Findings, Found, Moment, NoteWords
from journal.read.measures import Measure, Measured, measure
from journal.read.numerals import CERTAINTY, Numeral
from journal.read.pairs import CLOCK_BEFORE, MINUTES_TO, sense
from journal.record import Flag

_AT = frozenset({"at", "by", "till", "til", "until", "since", "@"})
_HALF = {"am": "am", "pm": "pm"}
_DAY_HALF = {"morning": "am", "afternoon": "pm", "evening": "pm", "tonight": "pm", "night": "pm"}
_DAYS = {"today": 0, "tomorrow": 1, "yesterday": -1, "tonight": 0}
_START = frozenset({"started", "start", "starting", "starts", "began", "since", "from", "begun", "begin"})
_END = frozenset({"finished", "finish", "done", "ended", "stopped", "till", "til", "until", "end", "completed"})
_DUE = frozenset({"due", "by", "ready", "before"})
_NAMED = {"noon": 12, "midday": 12, "midnight": 0}
_NOW = (("just", "now"), ("right", "now"), ("a", "moment", "ago"), ("moments", "ago"))
_STOPS = frozenset({".", ";", "then", "but", "and"})


@dataclass(frozen=True, slots=True)
class _Wall:
    """A time by the clock in the pieces [start, end)."""

    hour: int
    minute: int
    start: int
    end: int
    rule: str
    certainty: float
    doubt: str | None = None


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the points in time that were said, not yet resolved against the recording's time."""
    measured = measure(words.lower, words.locale)
    texts = measured.scan.pieces.texts
    out = [_offset(measured, one) for one in measured.of("time") if is_offset(texts, one)]
    walls = [wall for numeral in measured.scan.numerals if (wall := _wall(measured, numeral, words.locale))]
    walls += _named(texts)
    out += [_moment(measured, wall) for wall in walls]
    out += [
        Found("moment", *measured.scan.pieces.span(at, at + len(phrase)),
              Moment(offset_s=Fraction(0), hint=_hint(texts, at, at + len(phrase))), "moments.now", 0.8)
        for at in range(len(texts)) for phrase in _NOW if texts[at : at + len(phrase)] == phrase
    ]  # fmt: skip
    return sorted(out, key=lambda item: item.start)


def _offset(measured: Measured, one: Measure) -> Found:
    texts = measured.scan.pieces.texts
    ago = "ago" in texts[one.end : one.end + 3]
    end = texts.index("ago", one.end) + 1 if ago else one.end
    middle = (one.low + one.high) / 2
    start, stop = measured.scan.pieces.span(one.start, end)
    hint = _hint(texts, one.start, end) or (None if ago else "due")
    flags = (Flag("clock", "a range was said: its middle is kept"),) if one.low != one.high else ()
    value = Moment(offset_s=-middle if ago else middle, hint=hint)
    return Found("moment", start, stop, value, "moments.ago" if ago else "moments.in", one.confidence, flags)


def _wall(measured: Measured, numeral: Numeral, locale: str) -> _Wall | None:
    """Return the time of day whose hour is this number ("ten past TWO", "half EIGHT", "TWO fifteen"), or None."""
    texts = measured.scan.pieces.texts
    if numeral.form in ("ordinal", "collective") or numeral.value < 0:
        return None
    if _in_measure(measured, numeral):
        return None
    return (
        _past_or_to(measured, numeral, locale)
        or _half(texts, numeral)
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


def _past_or_to(measured: Measured, numeral: Numeral, locale: str) -> _Wall | None:
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
        return _Wall(hour, int(minutes), first.start, numeral.end, "moments.past", 0.95)
    if texts[at] != "to" or minutes == 30:
        return None
    doubt = None
    if not minutes_said:
        meaning = sense(measured.scan.pieces, first, numeral, locale)
        if meaning not in ("clock", "unclear") or (minutes not in MINUTES_TO and first.form != "fraction"):
            return None
        doubt = "may be a time of day or a ratio" if meaning == "unclear" else None
    before = (hour - 2) % 12 + 1
    return _Wall(before, 60 - int(minutes), first.start, numeral.end, "moments.to", 0.45 if doubt else 0.9, doubt)


def _half(texts: tuple[str, ...], numeral: Numeral) -> _Wall | None:
    """ "half eight" is half past eight in British speech."""
    at = numeral.start - 1
    hour = _hour(numeral)
    if hour is None or at < 0 or texts[at] != "half" or texts[max(0, at - 1) : at] in (("a",), ("and",), ("other",)):
        return None
    return _Wall(hour, 30, at, numeral.end, "moments.half", 0.9)


def _colon(measured: Measured, numeral: Numeral, locale: str) -> _Wall | None:
    """14:05"""
    texts = measured.scan.pieces.texts
    after = next((n for n in measured.scan.numerals if n.start == numeral.end + 1), None)
    if after is None or texts[numeral.end] != ":":
        return None
    meaning = sense(measured.scan.pieces, numeral, after, locale)
    if meaning not in ("clock", "unclear"):
        return None
    doubt = "may be a time of day or a ratio" if meaning == "unclear" else None
    return _Wall(
        int(numeral.value), int(after.value), numeral.start, after.end, "moments.colon", 0.45 if doubt else 0.97, doubt
    )


def _by_number(measured: Measured, numeral: Numeral) -> _Wall | None:
    """ "two fifteen", "2.15 pm", "at three", "three o'clock", "14.05"."""
    texts = measured.scan.pieces.texts
    before = texts[numeral.start - 1] if numeral.start else ""
    following = texts[numeral.end : numeral.end + 2]
    marked = bool(following) and following[0] in ("am", "pm", "o'clock")
    hour, minute = _hour_and_minute(texts, numeral)
    if hour is None or not (marked or before in CLOCK_BEFORE or before in _AT):
        return None
    end = numeral.end + (following[:1] == ("o'clock",))
    if marked:
        return _Wall(hour, minute, numeral.start, end, "moments.marked", 0.97)
    whole = numeral.halves is None and numeral.value.denominator == 1 and numeral.value < 100
    if before not in _AT or _goes_on(texts, numeral.end):
        return None
    if whole and (hour > 12 or (before == "by" and texts[max(0, numeral.start - 2)][-1:].isdecimal())):
        return None
    if numeral.form == "digits" and not whole and len(texts[numeral.start]) < 4:
        return None
    certainty = 0.75 if whole else 0.85
    rule = "moments.at-hour" if whole else "moments.at-time"
    return _Wall(hour, minute, numeral.start, end, rule, certainty * CERTAINTY[numeral.form])


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


def _goes_on(texts: tuple[str, ...], at: int) -> bool:
    """Whether more of a number or another sense follows: "at two percent", "at 4 to 1", "at 2 bar"."""
    following = texts[at] if at < len(texts) else ""
    return following in ("to", ":", "/", "-", "percent", "%", "parts", "part", "phr", "per", "x", "by", "degrees",
                         "coats", "layers", "or", "times", "point", "past", "minutes", "after")  # fmt: skip


def _named(texts: tuple[str, ...]) -> list[_Wall]:
    out = [_Wall(_NAMED[text], 0, at, at + 1, "moments.named", 0.95) for at, text in enumerate(texts) if text in _NAMED]
    out += [
        _Wall(12, 0, at, at + 3, "moments.named", 0.95)
        for at in range(len(texts) - 2)
        if texts[at : at + 3] == ("mid", "-", "day")
    ]
    return out


def _moment(measured: Measured, wall: _Wall) -> Found:
    texts = measured.scan.pieces.texts
    start, end, half, day = _day_words(texts, wall.start, wall.end)
    if wall.rule == "moments.named":
        half = "am" if wall.hour == 0 else "pm"
    if wall.hour > 12 or (wall.hour == 0):
        half = None
    hint = _hint(texts, wall.start, end)
    value = Moment(wall.hour, wall.minute, half, day, None, hint)
    flags = (Flag("clock", wall.doubt),) if wall.doubt else ()
    span = measured.scan.pieces.span(start, end)
    return Found("moment", *span, value, wall.rule, wall.certainty, flags)


def _day_words(texts: tuple[str, ...], start: int, end: int) -> tuple[int, int, str | None, int | None]:
    """Take along what says which half of the day and which day, behind and before the time."""
    half: str | None = None
    day: int | None = None
    if end < len(texts) and texts[end] in _HALF:
        half, end = _HALF[texts[end]], end + 1
    at = end
    while (
        at < min(end + 4, len(texts))
        and texts[at] in ("in", "the", "this", "on", "at", "last") | _DAYS.keys() | _DAY_HALF.keys()
    ):
        half, day, used = _day_word(texts, at, half, day)
        at += 1
        end = at if used else end
    back = start
    while (
        back > max(0, start - 5)
        and texts[back - 1]
        in ("at", "this", "last", "about", "around", "by", "in", "the") | _DAYS.keys() | _DAY_HALF.keys()
    ):
        back -= 1
        half, day, used = _day_word(texts, back, half, day)
        start = back if used else start
    return start, end, half, day


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


def _hint(texts: tuple[str, ...], start: int, end: int) -> str | None:
    for at in range(start - 1, max(-1, start - 6), -1):
        text = texts[at]
        if text in _DUE and not (text == "before" and at < start - 1):
            return "due"
        if text in _START:
            return "start"
        if text in _END:
            return "end"
        if text in _STOPS:
            break
    return None


def resolve(moment: Moment, recorded_at: datetime, status: str) -> datetime:
    """Return the time meant, in the zone of `recorded_at` (aware).

    The nearest time of day that fits: not later than the recording for a done step, not earlier for a
    planned one or one that is due; the nearest either way for any other. Five minutes of slack, for clocks
    that disagree. Raises ValueError for a naive `recorded_at`.
    """
    if recorded_at.tzinfo is None:
        raise ValueError("recorded_at has no time zone: give it one before moments are resolved against it")
    if moment.offset_s is not None:
        shifted = recorded_at.astimezone(UTC) + timedelta(seconds=float(moment.offset_s))
        return shifted.astimezone(recorded_at.tzinfo)
    slack = timedelta(minutes=5)
    candidates = _candidates(moment, recorded_at)
    if status == "planned" or moment.hint == "due":
        fitting = [at for at in candidates if at >= recorded_at - slack]
    elif status == "done":
        fitting = [at for at in candidates if at <= recorded_at + slack]
    else:
        fitting = candidates
    return min(fitting or candidates, key=lambda at: abs(at - recorded_at))


def _candidates(moment: Moment, recorded_at: datetime) -> list[datetime]:
    hour = moment.hour or 0
    hours = [hour]
    if moment.half == "am":
        hours = [hour % 12]
    elif moment.half == "pm":
        hours = [hour % 12 + 12]
    elif 1 <= hour <= 12:
        hours = [hour % 12, hour % 12 + 12]
    days = [moment.day] if moment.day is not None else [-1, 0, 1]
    midnight = recorded_at.replace(hour=0, minute=moment.minute, second=0, microsecond=0)
    return [(midnight + timedelta(days=day)).replace(hour=each) for day in days for each in hours]
