"""Points in time: "at ten past two", "half eight", "14:05", "ten minutes ago", "due at six"."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from journal.read.clock_company import is_not_told
from journal.read.clock_times import Wall, walls
from journal.read.days import day_words, weekday
from journal.read.findings import Findings, Found, Moment, NoteWords
from journal.read.measures import Measure, Measured, measure
from journal.read.moment_hints import hint_of
from journal.read.no_durations import is_offset
from journal.record import Flag

_NOW = {"a": ("a", "moment", "ago"), "moments": ("moments", "ago")}
_SHOP_OPENS = 7
_LONG_AGO, _SOON = timedelta(hours=9), timedelta(hours=3)


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the points in time that were said, not yet resolved against the recording's time."""
    measured = measure(words.lower, words.locale)
    texts = measured.scan.pieces.texts
    out = [_offset(measured, one) for one in measured.of("time") if is_offset(texts, one)]
    today = words.recorded_at.weekday() if words.recorded_at else None
    told = [wall for wall in walls(measured, words.locale) if not is_not_told(texts, wall.start)]
    timed = (_moment(measured, wall, today) for wall in _with_hours(texts, told))
    # "This morning about quarter past": of which hour was not said.
    out += [item for item in timed if item.value.hour is not None or item.value.half is None]
    out += [
        Found("moment", *measured.scan.pieces.span(at, at + len(phrase)),
              Moment(offset_s=Fraction(0), hint=hint_of(texts, at)), "moments.now", 0.8)
        for at, text in enumerate(texts)
        if text in _NOW and texts[at : at + len(phrase := _NOW[text])] == phrase
    ]  # fmt: skip
    return sorted(out, key=lambda item: item.start)


def _with_hours(texts: tuple[str, ...], found: list[Wall]) -> list[Wall]:
    """Return the times, one without an hour in the hour told before it: "opened it at eight, the other at ten past"."""
    out: list[Wall] = []
    for wall in sorted(found, key=lambda one: one.start):
        last = out[-1] if out else None
        near = last is not None and last.hour is not None and "." not in texts[last.end : wall.start]
        if last is not None and last.hour is not None and wall.hour is None and near:
            corrected = wall.rule.endswith(".to-the-hour") and "that" in texts[last.end : wall.start]
            hour = last.hour - 1 if corrected else last.hour + (wall.minute < last.minute)
            wall = replace(wall, hour=hour or 12, half=wall.half or last.half)
        out.append(wall)
    return out


def _offset(measured: Measured, one: Measure) -> Found:
    texts = measured.scan.pieces.texts
    ago = "ago" in texts[one.end : one.end + 3]
    end = texts.index("ago", one.end) + 1 if ago else one.end
    middle = (one.low + one.high) / 2
    start, stop = measured.scan.pieces.span(one.start, end)
    hint = hint_of(texts, one.start) or (None if ago else "due")
    flags = (Flag("clock", "a range was said: its middle is kept"),) if one.low != one.high else ()
    value = Moment(offset_s=-middle if ago else middle, hint=hint)
    return Found("moment", start, stop, value, "moments.ago" if ago else "moments.in", one.confidence, flags)


def _moment(measured: Measured, wall: Wall, today: int | None) -> Found:
    texts = measured.scan.pieces.texts
    start, end, half, day = day_words(texts, wall.start, wall.end)
    if day is None and today is not None:
        start, end, day = weekday(texts, start, end, today)
    if wall.rule == "moments.named":
        half = "am" if wall.hour == 0 else "pm"
    if wall.hour is not None and (wall.hour > 12 or wall.hour == 0):
        half = None
    half = half or wall.half
    hint = wall.hint or hint_of(texts, wall.start)
    value = Moment(wall.hour, wall.minute, half, day, None, hint)
    flags = (Flag("clock", wall.doubt),) if wall.doubt else ()
    span = measured.scan.pieces.span(start, end)
    return Found("moment", *span, value, wall.rule, wall.certainty, flags)


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
    best = min(fitting or candidates, key=lambda at: abs(at - recorded_at))
    if moment.hint != "end" or status != "done" or recorded_at - best < _LONG_AGO:
        return best
    ahead = [at for at in candidates if timedelta() <= at - recorded_at <= _SOON]
    return min(ahead, default=best)  # "we finish at eleven", said at ten


def _candidates(moment: Moment, recorded_at: datetime) -> list[datetime]:
    if moment.hour is None:
        this_hour = recorded_at.replace(minute=moment.minute, second=0, microsecond=0)
        return [this_hour + timedelta(hours=hours) for hours in (-1, 0, 1)]
    hour = moment.hour
    hours = [hour]
    if moment.day and moment.half is None and 1 <= hour <= 12:
        hours = [hour if hour >= _SHOP_OPENS else hour + 12]  # "at four tomorrow"
    elif moment.half == "am":
        hours = [hour % 12]
    elif moment.half == "pm":
        hours = [hour % 12 + 12]
    elif 1 <= hour <= 12:
        hours = [hour % 12, hour % 12 + 12]
    days = [moment.day] if moment.day is not None else [-1, 0, 1]
    midnight = recorded_at.replace(hour=0, minute=moment.minute, second=0, microsecond=0)
    return [(midnight + timedelta(days=day)).replace(hour=each) for day in days for each in hours]
