"""Points in time: "at ten past two", "half eight", "14:05", "ten minutes ago", "due at six"."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from fractions import Fraction

from journal.read.clock_times import Wall, walls
from journal.read.days import day_words, weekday
from journal.read.findings import Findings, Found, Moment, NoteWords
from journal.read.measures import Measure, Measured, measure
from journal.read.no_durations import is_offset
from journal.record import Flag

_START = frozenset({"started", "start", "starting", "starts", "began", "since", "from", "begun", "begin"})
_END = frozenset(
    {
        "finished",
        "finish",
        "done",
        "ended",
        "stopped",
        "quit",
        "packed",
        "wrapped",
        "till",
        "til",
        "until",
        "end",
        "completed",
    }
)
_DUE = frozenset({"due", "by", "ready", "before", "should"})
_NOW = {"just": ("just", "now"), "right": ("right", "now"), "a": ("a", "moment", "ago"), "moments": ("moments", "ago")}
_LONG_AGO, _SOON = timedelta(hours=9), timedelta(hours=3)
_STOPS = frozenset({".", ";", "then", "but", "and"})


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the points in time that were said, not yet resolved against the recording's time."""
    measured = measure(words.lower, words.locale)
    texts = measured.scan.pieces.texts
    out = [_offset(measured, one) for one in measured.of("time") if is_offset(texts, one)]
    today = words.recorded_at.weekday() if words.recorded_at else None
    out += [_moment(measured, wall, today) for wall in walls(measured, words.locale)]
    out += [
        Found("moment", *measured.scan.pieces.span(at, at + len(phrase)),
              Moment(offset_s=Fraction(0), hint=_hint(texts, at, at + len(phrase))), "moments.now", 0.8)
        for at, text in enumerate(texts)
        if text in _NOW and texts[at : at + len(phrase := _NOW[text])] == phrase
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


def _moment(measured: Measured, wall: Wall, today: int | None) -> Found:
    texts = measured.scan.pieces.texts
    start, end, half, day = day_words(texts, wall.start, wall.end)
    if day is None and today is not None:
        start, end, day = weekday(texts, start, end, today)
    if wall.rule == "moments.named":
        half = "am" if wall.hour == 0 else "pm"
    if wall.hour is None or wall.hour > 12 or wall.hour == 0:
        half = None
    half = half or wall.half
    hint = wall.hint or _hint(texts, wall.start, end)
    value = Moment(wall.hour, wall.minute, half, day, None, hint)
    flags = (Flag("clock", wall.doubt),) if wall.doubt else ()
    span = measured.scan.pieces.span(start, end)
    return Found("moment", *span, value, wall.rule, wall.certainty, flags)


def _hint(texts: tuple[str, ...], start: int, end: int) -> str | None:
    for at in range(start - 1, max(-1, start - 9), -1):
        text = texts[at]
        if at < start - 5 and text not in _STOPS and text != "should":
            continue  # "should be good to demould at one"
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
    if moment.half == "am":
        hours = [hour % 12]
    elif moment.half == "pm":
        hours = [hour % 12 + 12]
    elif 1 <= hour <= 12:
        hours = [hour % 12, hour % 12 + 12]
    days = [moment.day] if moment.day is not None else [-1, 0, 1]
    midnight = recorded_at.replace(hour=0, minute=moment.minute, second=0, microsecond=0)
    return [(midnight + timedelta(days=day)).replace(hour=each) for day in days for each in hours]
