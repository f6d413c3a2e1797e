"""The span of time that a line of plain words names: "last month", "in March", "since June", "before 2025". Pure."""

from __future__ import annotations

import calendar
import re
from dataclasses import dataclass
from datetime import datetime, timedelta

_MONTHS = {name.casefold(): n for n, name in enumerate(calendar.month_name) if name}
_MONTH = "|".join(_MONTHS)
_PERIODS = re.compile(
    rf"\b(?:(?P<days>yesterday|today)|(?P<span>last|this) (?P<unit>week|month|year)"
    rf"|(?P<way>in|during|since|after|before|from|until) (?P<last>last )?(?:(?P<month>{_MONTH})(?: (?P<of>\d{{4}}))?"
    rf"|(?P<year>\d{{4}})))\b"
)


@dataclass(frozen=True, slots=True)
class Period:
    """A span of time as it was said; `since` is inclusive, `until` exclusive, None is open."""

    words: str
    chars: tuple[int, int]
    since: datetime | None
    until: datetime | None


def period_in(text: str, now: datetime) -> Period | None:
    """Return the span of time that a line names, in the zone of `now`; None when it names none."""
    match = _PERIODS.search(text.casefold())
    if match is None:
        return None
    first, after = _named_period(match, now)
    way = match["way"]
    since = after if way == "after" else None if way in ("before", "until") else first
    until = first if way == "before" else None if way in ("since", "after", "from") else after
    return Period(match[0], match.span(), since, until)


def _named_period(match: re.Match[str], now: datetime) -> tuple[datetime, datetime]:
    """Return the first moment of the period said, and the first after it, in the zone of `now`."""
    today = now.replace(hour=0, minute=0, second=0, microsecond=0)
    if match["days"]:
        first = today - timedelta(days=match["days"] == "yesterday")
        return first, first + timedelta(days=1)
    if match["unit"] == "week":
        first = today - timedelta(days=today.weekday() + 7 * (match["span"] == "last"))
        return first, first + timedelta(days=7)
    if match["unit"] == "month":
        first = today.replace(day=1)
        return (_month_before(first), first) if match["span"] == "last" else (first, _month_after(first))
    if match["unit"] == "year" or match["year"]:
        year = int(match["year"]) if match["year"] else now.year - (match["span"] == "last")
        return today.replace(year=year, month=1, day=1), today.replace(year=year + 1, month=1, day=1)
    month = _MONTHS[match["month"]]
    year = int(match["of"]) if match["of"] else now.year - (month > now.month)
    first = today.replace(year=year, month=month, day=1)
    return first, _month_after(first)


def _month_after(first: datetime) -> datetime:
    return first.replace(year=first.year + first.month // 12, month=first.month % 12 + 1)


def _month_before(first: datetime) -> datetime:
    return first.replace(year=first.year - (first.month == 1), month=(first.month - 2) % 12 + 1)
