"""The day, and the half of it, that stands beside a time: "tomorrow morning", "last night", "Friday"."""

from __future__ import annotations

from journal.read.nearby import sentence

_HALF = {"am": "am", "pm": "pm"}
DAY_HALF = {"morning": "am", "afternoon": "pm", "evening": "pm", "tonight": "pm", "night": "pm"}
DAYS = {"today": 0, "tomorrow": 1, "yesterday": -1, "tonight": 0}
_AFTER_TIME = frozenset({"in", "the", "this", "on", "at", "last", "morn"} | DAYS.keys() | DAY_HALF.keys())
_BEFORE_TIME = frozenset(
    {"at", "this", "last", "about", "around", "round", "roughly", "by", "in", "the", "morn"}
    | DAYS.keys()
    | DAY_HALF.keys()
)
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_FUTURE = frozenset("'ll will going gonna gon due next by needs need ready until till".split())


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
        if texts[at] not in WEEKDAYS:
            continue
        ahead = (WEEKDAYS.index(texts[at]) - today) % 7
        said = sentence(texts, at, at, 12)
        future = bool(_FUTURE & set(said)) and "last" not in texts[max(0, at - 1) : at]
        if future:
            return min(start, at), max(end, at + 1), ahead or 7  # "today" would have been said of today
        return min(start, at), max(end, at + 1), ahead - 7 if ahead else 0
    return start, end, None


def _day_word(
    texts: tuple[str, ...], at: int, half: str | None, day: int | None
) -> tuple[str | None, int | None, bool]:
    text = texts[at]
    before = texts[at - 1] if at else ""
    used = False
    if text in DAY_HALF and half is None:
        half, used = DAY_HALF[text], True
        if before == "this":
            day = 0 if day is None else day
        elif before == "last":
            day = -1
    if text == "morn" and before == "the" and day is None:
        day, used = 1, True
    if text in DAYS and day is None:
        day, used = DAYS[text], True
    return half, day, used
