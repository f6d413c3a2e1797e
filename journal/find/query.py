"""What is looked for: plain words and filters, from one line of text. Pure."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo
from typing import Any

from rapidfuzz import process

from journal.keep.views import OUTCOMES, Outcome
from journal.record import ACTIONS
from journal.trade.material import Catalogue

Synonyms = Mapping[str, Sequence[str]]


@dataclass(frozen=True, slots=True)
class Query:
    """Plain words, and filters that all must hold. `limit` is the most hits returned.

    `material` is a catalogue name or words of one ("epoxy"); `mould` a key, a name or words of one;
    words in double quotes must stand together. `since` is inclusive, `until` exclusive; both are aware.
    """

    words: str = ""
    material: str | None = None
    action: str | None = None
    mould: str | None = None
    outcome: Outcome | None = None
    since: datetime | None = None
    until: datetime | None = None
    limit: int = 30


class QueryError(ValueError):
    """A filter that cannot be understood; the message says what would be."""


def parse_query(text: str, catalogue: Catalogue, zone: tzinfo) -> Query:
    """Return the query of one line: `material:"glass cloth" action:brush outcome:worked since:2026-05 words`.

    Filters are material, action, mould, outcome, since and until; a value of several words is quoted.
    Dates are YYYY, YYYY-MM or YYYY-MM-DD in `zone`; until includes the day, month or year it names.
    Raises QueryError on a value that no filter takes.
    """
    readers: dict[str, Callable[[str], Any]] = {
        "material": lambda value: _material(value, catalogue),
        "action": lambda value: _one_of("action", value, ACTIONS),
        "mould": lambda value: value,
        "outcome": lambda value: _one_of("outcome", value, OUTCOMES),
        "since": lambda value: _period("since", value, zone)[0],
        "until": lambda value: _period("until", value, zone)[1],
    }
    filters: dict[str, Any] = {}

    def take(match: re.Match[str]) -> str:
        name, value = match["name"].lower(), (match["quoted"] or match["bare"] or "").strip()
        if name not in readers or not value:
            return match[0]  # "10:1" is no filter
        filters[name] = readers[name](value)
        return " "

    words = re.sub(r'(?<!\S)(?P<name>\w+):(?:"(?P<quoted>[^"]*)"|(?P<bare>[^\s"]+))(?!\S)', take, text)
    return Query(words=" ".join(words.split()), **filters)


def synonyms_of(catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    """Return the other names of each name of a material, and the materials that a general word stands for."""
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for material in catalogue.materials:
        names = [_plain(name) for name in (material.name, *material.synonyms)]
        for name in names:
            found[name] |= dict.fromkeys(other for other in names if other != name)
        for general in material.general:
            found[_plain(general)][_plain(material.name)] = None
    return {name: tuple(others) for name, others in found.items()}


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def _material(value: str, catalogue: Catalogue) -> str:
    material = catalogue.get(value)
    return material.name if material else _plain(value)


def _one_of(name: str, value: str, known: Sequence[str]) -> str:
    wanted = _plain(value.replace("_", " "))
    for each in known:
        if wanted in (each, each.replace(" ", "-")):
            return each
    near = process.extractOne(wanted, known)
    meant = f"did you mean {near[0]!r}? " if near and near[1] >= 70 else ""
    raise QueryError(f"{name}: {value!r} is not known; {meant}It is one of: {', '.join(known)}")


def _period(name: str, value: str, zone: tzinfo) -> tuple[datetime, datetime]:
    """Return the first moment of a day, month or year, and the first moment after it."""
    match = re.fullmatch(r"(\d{4})(?:-(\d{1,2}))?(?:-(\d{1,2}))?", value, re.ASCII)
    if match is None:
        raise QueryError(f"{name}: {value!r} is no date; give YYYY, YYYY-MM or YYYY-MM-DD")
    year, month, day = (int(group) if group else None for group in match.groups())
    try:
        first = datetime(year or 0, month or 1, day or 1, tzinfo=zone)
        if day:
            return first, first + timedelta(days=1)
        step = (first.month % 12 + 1, first.year + first.month // 12) if month else (1, first.year + 1)
        return first, first.replace(month=step[0], year=step[1])
    except (ValueError, OverflowError) as error:
        raise QueryError(f"{name}: there is no date {value!r}") from error
