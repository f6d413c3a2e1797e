"""What the full-text index holds of each build, note and step. Written with the rows, not after them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from sqlalchemy import delete, select
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from journal.keep.tables import SearchEntryRow, SearchWordRow
from journal.keep.texts import words_of
from journal.record import Phrase, Step

_WORD_MOST = 100


@dataclass(frozen=True, slots=True)
class Entry:
    """The words of one thing. `at` is in UTC."""

    noun: Literal["build", "note", "step"]
    noun_id: int
    build_id: int
    at: datetime
    text: str
    note_id: int | None = None
    step_id: int | None = None


def index(session: Session, entries: Iterable[Entry]) -> None:
    """Put entries into the index; an entry of the same thing is replaced."""
    words: set[str] = set()
    for entry in entries:
        row = session.scalar(
            select(SearchEntryRow).where(SearchEntryRow.noun == entry.noun, SearchEntryRow.noun_id == entry.noun_id)
        )
        if row is None:
            row = SearchEntryRow(noun=entry.noun, noun_id=entry.noun_id, build_id=entry.build_id)
            session.add(row)
        row.note_id, row.step_id, row.at, row.text = entry.note_id, entry.step_id, entry.at, entry.text
        words.update(word for word in words_of(entry.text) if len(word) <= _WORD_MOST)
    session.flush()
    _learn(session, words)


def leave_out(session: Session, noun: str, noun_ids: Iterable[int]) -> None:
    """Take things out of the index."""
    session.execute(
        delete(SearchEntryRow).where(SearchEntryRow.noun == noun, SearchEntryRow.noun_id.in_(list(noun_ids)))
    )


def _learn(session: Session, words: set[str]) -> None:
    if not words:
        return
    # One statement in a fixed order: two writers on PostgreSQL can then not wait for each other in a ring.
    rows = [{"word": word} for word in sorted(words)]
    if session.get_bind().dialect.name == "sqlite":
        session.execute(sqlite.insert(SearchWordRow).on_conflict_do_nothing(), rows)
    else:
        session.execute(postgresql.insert(SearchWordRow).values(rows).on_conflict_do_nothing())


def words_of_step(step: Step) -> str:
    """Return what a step is found by: the words heard, then what the record adds to them."""
    heard = step.evidence.heard
    phrases: tuple[Phrase, ...] = step.places + step.reasons + step.cues + step.warnings
    added = [
        step.action,
        *(use.name for use in step.materials),
        *(layer.name for layer in step.layers),
        *(phrase.text for phrase in phrases),
        *(f"{seen.kind}: {seen.text}" for seen in step.observations),
        *(f"lot {use.lot}" for use in step.materials if use.lot),
    ]
    new = dict.fromkeys(text for text in added if text.casefold() not in heard.casefold())
    return " · ".join(text for text in (heard, *new) if text)
