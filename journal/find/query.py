"""What is looked for: plain words and filters, from one line of text."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo

from journal.keep.views import Outcome
from journal.trade.material import Catalogue


@dataclass(frozen=True, slots=True)
class Query:
    """Plain words, and filters that all must hold. `limit` is the most hits returned.

    `material` is a catalogue name or the words used in a record; `mould` an id, key or name.
    `since` is inclusive, `until` exclusive; both are aware.
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
    Dates are YYYY, YYYY-MM or YYYY-MM-DD in `zone`. Raises QueryError on a value that no filter takes.
    """
    raise NotImplementedError


def synonyms_of(catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    """Return every name of a material and, for each, the other names of the same material."""
    raise NotImplementedError
