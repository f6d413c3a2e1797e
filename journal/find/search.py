"""Full-text search over notes, steps and builds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal, cast

from sqlalchemy import ColumnElement, Executable, Subquery, and_, func, literal, or_, select
from sqlalchemy.orm import Session, aliased, lazyload

from journal.find.fulltext import matches, pieces
from journal.find.query import Query, Synonyms
from journal.find.terms import Term, forgiving, terms_of
from journal.keep.packing import unpack_transcript
from journal.keep.store import Store
from journal.keep.tables import (
    BuildRow,
    HearingRow,
    MouldRow,
    NoteRow,
    SearchEntryRow,
    SearchWordRow,
    StepMaterialRow,
    StepRow,
)
from journal.keep.texts import words_of
from journal.keep.views import Outcome
from journal.record import Transcript

HitNoun = Literal["note", "step", "build"]
_LONG = 160  # letters of a text that is shown without a match in it


@dataclass(frozen=True, slots=True)
class Hit:
    """One thing found. `snippet` is its text in pieces, each with whether it matched.

    `noun_id` is the id of the note, step or build; `audio` the seconds to play, when there are any;
    `exact` is False when the words were only found by forgiving a misspelling or leaving words out.
    A higher `score` is a better match; scores compare within one search only. `at` is in the offset of
    the thing found.
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


def search(store: Store, query: Query, synonyms: Synonyms | None = None) -> list[Hit]:
    """Return what matches, best first; without words, what passes the filters, latest first.

    `synonyms` maps a name to the other names that count as the same (see `synonyms_of`). A note whose
    steps are found is found as its steps. No text a person types can break the search.
    """
    synonyms = synonyms or {}
    passing = _passing(query, synonyms)
    terms = terms_of(query.words, synonyms)
    with store.reading() as session:
        if not terms:
            return [] if query.words.strip() else _hits(session, passing, None, query.limit, True)
        for wanted, every in _ever_wider(session, terms):
            asked = matches(store.sqlite, wanted, every)
            hits = _hits(session, passing, asked, query.limit, exact=every and wanted is terms)
            if hits:
                return hits
    return []


def _ever_wider(session: Session, terms: list[Term]) -> Iterator[tuple[list[Term], bool]]:
    """Give the terms as typed, then with misspellings forgiven, then any one of them."""
    yield terms, True
    wider = forgiving(terms, session.scalars(select(SearchWordRow.word)))
    yield wider, True
    yield terms, False
    yield wider, False


def _passing(query: Query, synonyms: Synonyms) -> list[ColumnElement[bool]]:
    """Return the conditions of the filters."""
    passing: list[ColumnElement[bool]] = []
    if query.outcome:
        passing.append(BuildRow.outcome == query.outcome)
    if query.mould:
        passing.append(_names_mould(query.mould))
    if query.since:
        passing.append(SearchEntryRow.at >= query.since)
    if query.until:
        passing.append(SearchEntryRow.at < query.until)
    if query.material or query.action:
        passing.append(_has_step(query, synonyms))
    return passing


def _names_mould(asked: str) -> ColumnElement[bool]:
    words = [MouldRow.key.contains(word, autoescape=True) for word in words_of(asked)]
    return and_(*words) if words else MouldRow.name == asked


def _has_step(query: Query, synonyms: Synonyms) -> ColumnElement[bool]:
    """Return whether the step, or a step of the note or build found, is of that material and action."""
    step = aliased(StepRow)
    asked = [step.in_force, ~step.withdrawn]
    if query.action:
        asked.append(step.action == query.action.casefold())
    if query.material:
        name = " ".join(query.material.casefold().split())
        names = [_has_words(StepMaterialRow.name, each) for each in (name, *synonyms.get(name, ()))]
        asked.append(step.id.in_(select(StepMaterialRow.step_id).where(or_(*names))))
    # Three lists made once each: one correlated condition would be asked again for every entry.
    entry = SearchEntryRow
    return or_(
        entry.step_id.in_(select(step.id).where(*asked)),
        and_(entry.noun == "note", entry.note_id.in_(select(step.note_id).where(*asked))),
        and_(entry.noun == "build", entry.build_id.in_(select(step.build_id).where(*asked))),
    )


def _has_words(name: Any, asked: str) -> ColumnElement[bool]:
    return (literal(" ") + func.lower(name) + literal(" ")).contains(f" {asked} ", autoescape=True)


def _hits(
    session: Session, passing: list[ColumnElement[bool]], asked: Subquery | None, limit: int, exact: bool
) -> list[Hit]:
    # More than asked for, since notes that stand behind their steps go out again.
    rows = session.execute(_select(passing, asked, 4 * limit)).all()
    steps_of = {row.SearchEntryRow.note_id for row in rows if row.SearchEntryRow.noun == "step"}
    kept = [row for row in rows if row.SearchEntryRow.noun != "note" or row.SearchEntryRow.note_id not in steps_of]
    return [_hit(session, row, exact) for row in kept[:limit]]


def _select(passing: list[ColumnElement[bool]], asked: Subquery | None, most: int) -> Executable:
    found = (
        select(SearchEntryRow, BuildRow, StepRow, NoteRow)
        .join(BuildRow, BuildRow.id == SearchEntryRow.build_id)
        .join(MouldRow, MouldRow.id == BuildRow.mould_id)
        .outerjoin(StepRow, StepRow.id == SearchEntryRow.step_id)
        .outerjoin(NoteRow, NoteRow.id == SearchEntryRow.note_id)
        .where(*passing)
        .options(lazyload(StepRow.note), lazyload(NoteRow.build))
        .limit(most)
    )
    latest = (SearchEntryRow.at.desc(), SearchEntryRow.id.desc())
    if asked is None:
        return found.add_columns(literal(0.0).label("score"), literal("").label("marked")).order_by(*latest)
    scored = found.join(asked, asked.c.entry_id == SearchEntryRow.id)
    return scored.add_columns(asked.c.score, asked.c.marked).order_by(asked.c.score.desc(), *latest)


def _hit(session: Session, row: Any, exact: bool) -> Hit:
    entry, build, step = row.SearchEntryRow, row.BuildRow, row.StepRow
    snippet = pieces(row.marked) if row.marked else ((_short(entry.text), False),)
    moment = step.act if step else row.NoteRow.recorded if row.NoteRow else build.started
    return Hit(
        noun=cast(HitNoun, entry.noun),
        noun_id=entry.noun_id,
        build_key=build.key,
        build_name=build.name,
        mould_key=build.mould.key,
        mould_name=build.mould.name,
        outcome=cast(Outcome, build.outcome),
        at=moment.local,
        note_id=entry.note_id,
        step_id=entry.step_id,
        action=step.action if step else None,
        snippet=snippet,
        audio=_audio(session, row, snippet),
        score=float(row.score),
        exact=exact,
    )


def _short(text: str) -> str:
    return text if len(text) <= _LONG else text[:_LONG].rsplit(" ", 1)[0] + " …"


def _audio(session: Session, row: Any, snippet: tuple[tuple[str, bool], ...]) -> tuple[float, float] | None:
    if row.StepRow is not None:
        seconds = row.StepRow.record.get("audio")
        return (seconds[0], seconds[1]) if seconds else None
    if row.NoteRow is None:
        return None
    last = select(HearingRow.transcript).where(HearingRow.note_id == row.NoteRow.id)
    packed = session.scalar(last.order_by(HearingRow.number.desc()).limit(1))
    return _spoken_at(unpack_transcript(packed), snippet) if packed else None


def _spoken_at(transcript: Transcript, snippet: tuple[tuple[str, bool], ...]) -> tuple[float, float] | None:
    """Return the seconds of the first word that matched, to the end of the last one."""
    matched = {word for piece, hit in snippet if hit for word in words_of(piece)}
    spoken = [word for word in transcript.words if matched.intersection(words_of(word.text))]
    return (spoken[0].start_s, spoken[-1].end_s) if spoken else None
