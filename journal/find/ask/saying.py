"""How answers are worded: short, and fit for reading aloud. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta, tzinfo

UNITS = {
    "g": "grams",
    "ml": "millilitres",
    "m2": "square metres",
    "mm": "millimetres",
    "percent": "percent",
    "count": "",
}


def number(value: float) -> str:
    """Return a number as a bench says it: whole from 50, one decimal from 5, else two; no idle zeros."""
    decimals = 0 if abs(value) >= 50 else 1 if abs(value) >= 5 else 2
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def plain(value: float) -> str:
    """Return a number as it was said, not rounded to a scale."""
    return f"{value:.6g}"


def quantity(value: float, unit: str | None) -> str:
    """Return a number with its unit in words, in kilograms and litres where those come out even."""
    if unit in ("g", "ml") and abs(value) >= 1000 and value % 100 == 0:
        return counted(value / 1000, "kilogram" if unit == "g" else "litre")
    return f"{number(value)} {UNITS.get(unit or 'g', unit or '')}".strip()


def parts(ratio: Sequence[float]) -> str:
    """Return a ratio: "100 to 28"."""
    return " to ".join(number(part) for part in ratio)


def lasting(span: timedelta) -> str:
    """Return a time in its two largest units: "1 hour 20 minutes", "10 minutes", "2 days"."""
    left = round(abs(span.total_seconds()) / 60)
    if left == 0:
        return "less than a minute"
    said = []
    for size, unit in ((1440, "day"), (60, "hour"), (1, "minute")):
        count, left = divmod(left, size)
        if count:
            said.append(f"{count} {unit}{'' if count == 1 else 's'}")
    return " ".join(said[:2])


def day(at: datetime, now: datetime) -> str:
    """Return the day of a time as one says it now: today, yesterday, tomorrow, "on the 23rd", "on 13 April"."""
    at = at.astimezone(now.tzinfo)
    days = (at.date() - now.date()).days
    near = {-1: "yesterday", 0: "today", 1: "tomorrow"}.get(days)
    if near:
        return near
    if abs(days) < 27 and (at.year, at.month) == (now.year, now.month):
        return f"on the {_ordinal(at.day)}"
    return f"on {at.day} {at:%B}" + ("" if at.year == now.year else f" {at.year}")


def moment(at: datetime, now: datetime) -> str:
    """Return a time with its day: "today at 14:30"."""
    return f"{day(at, now)} at {clock(at, now.tzinfo)}"


def time_of(at: datetime, now: datetime) -> str:
    """Return a time, with its day only when that is not today."""
    return clock(at, now.tzinfo) if day(at, now) == "today" else f"{clock(at, now.tzinfo)} {day(at, now)}"


def clock(at: datetime, zone: tzinfo | None) -> str:
    """Return the time of the shop's clock."""
    return f"{at.astimezone(zone):%H:%M}"


def listed(words: Iterable[str]) -> str:
    """Return words as a list: "a, b and c"."""
    items = list(words)
    return " and ".join(filter(None, (", ".join(items[:-1]), *items[-1:]))) if items else "nothing"


def counted(count: float, noun: str) -> str:
    """Return "1 layer", "2 layers"."""
    return f"{plain(count)} {noun}{'' if count == 1 else 's'}"


def sentence(text: str) -> str:
    """Return the words with a capital and a full stop."""
    text = " ".join(text.split())
    return f"{text[:1].upper()}{text[1:]}" + ("" if text.endswith((".", "?", "!")) else ".")


def _ordinal(number: int) -> str:
    ending = "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"
