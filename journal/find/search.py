"""Full-text search over notes, steps and builds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from journal.find.query import Query
from journal.keep.store import Store
from journal.keep.views import Outcome

HitNoun = Literal["note", "step", "build"]


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing found. `snippet` is its text in pieces, each with whether it matched.

    `noun_id` is the id of the note, step or build; `audio` the seconds to play, when there are any;
    `exact` is False when the words were only found by forgiving a misspelling or leaving words out.
    A higher `score` is a better match; scores compare within one search only.
    """

    noun: HitNoun
    noun_id: int
    build_key: str
    build_name: str
    mould_key: str
    mould_name: str
    outcome: Outcome
    at: datetime
    note_id: int | None
    step_id: int | None
    action: str | None
    snippet: tuple[tuple[str, bool], ...]
    audio: tuple[float, float] | None
    score: float
    exact: bool

    @property
    def text(self) -> str:
        """The snippet as plain text."""
        return "".join(piece for piece, _ in self.snippet)


def search(store: Store, query: Query, synonyms: Mapping[str, Sequence[str]] | None = None) -> list[Hit]:
    """Return what matches, best first; without words, what passes the filters, latest first.

    `synonyms` maps a name to the other names that count as the same (see `synonyms_of`). No text a
    person types can break the search.
    """
    raise NotImplementedError
