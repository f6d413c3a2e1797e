"""Many builds at once: their steps, and what was spoken in them, in one query each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Select, case, func, select
from sqlalchemy.orm import aliased

from journal.keep.history import History
from journal.keep.tables import BuildRow, HearingRow, NoteRow, StepRow
from journal.keep.times import Moment
from journal.keep.views import StepView
from journal.record import step_from_json

_AT_ONCE = 500  # ids in one question: some databases take no more than 999 values


@dataclass(frozen=True, slots=True)
class Spoken:
    """Who spoke a note, when, and its words: typed, or heard in the hearing in force; "" until it is heard."""

    note_id: int
    build_id: int
    at: datetime
    who: str | None
    text: str


class Whole(History):
    """The part of the store that gives many builds at once."""

    def steps_of(self, build_ids: Sequence[int]) -> list[StepView]:
        """Return the steps in force of many builds, each build's in the order they were spoken; none withdrawn."""
        with self.reading() as session:
            return [
                _view(row)
                for ids in _portions(build_ids)
                for row in session.execute(_steps().where(StepRow.build_id.in_(ids)))
            ]

    def spoken_in(self, build_ids: Sequence[int]) -> list[Spoken]:
        """Return who spoke what in many builds, in the order they were recorded."""
        other = aliased(HearingRow)
        last = select(func.max(other.number)).where(other.note_id == NoteRow.id)
        heard = HearingRow.transcript["text"].as_string()
        found = (
            select(
                NoteRow.id,
                NoteRow.build_id,
                NoteRow.recorded_at,
                NoteRow.recorded_offset_s,
                NoteRow.who,
                NoteRow.typed_text,
                heard,
            )
            .outerjoin(HearingRow, (HearingRow.note_id == NoteRow.id) & (HearingRow.number == last.scalar_subquery()))
            .order_by(NoteRow.recorded_at, NoteRow.id)
        )
        with self.reading() as session:
            return [
                Spoken(note_id, build_id, Moment(at, offset).local, who, text or typed or "")
                for ids in _portions(build_ids)
                for note_id, build_id, at, offset, who, typed, text in session.execute(
                    found.where(NoteRow.build_id.in_(ids))
                )
            ]


def _portions(ids: Sequence[int]) -> Iterable[Sequence[int]]:
    return (ids[i : i + _AT_ONCE] for i in range(0, len(ids), _AT_ONCE))


def _steps() -> Select[Any]:
    """Return the query of the columns of steps: no rows are made of them, for there may be many thousands."""
    first_read = case((StepRow.corrected, StepRow.first_read))  # what nobody corrected stands as it was read
    return (
        select(
            StepRow.id, StepRow.note_id, StepRow.build_id, BuildRow.key, StepRow.position, NoteRow.recorded_at,
            NoteRow.recorded_offset_s, StepRow.act_at, StepRow.act_offset_s, StepRow.record,
            first_read.label("first_read"), StepRow.corrected, StepRow.confirmed_by, StepRow.confirmed_at,
            StepRow.confirmed_offset_s,
        )
        .select_from(StepRow)
        .join(NoteRow, NoteRow.id == StepRow.note_id)
        .join(BuildRow, BuildRow.id == StepRow.build_id)
        .where(StepRow.in_force, ~StepRow.withdrawn)
        .order_by(NoteRow.recorded_at, StepRow.note_id, StepRow.position)
    )  # fmt: skip


def _view(row: Any) -> StepView:
    confirmed = None if row.confirmed_at is None else Moment(row.confirmed_at, row.confirmed_offset_s).local
    return StepView(
        id=row.id,
        note_id=row.note_id,
        build_id=row.build_id,
        build_key=row.key,
        position=row.position,
        recorded_at=Moment(row.recorded_at, row.recorded_offset_s).local,
        act_at=Moment(row.act_at, row.act_offset_s).local,
        record=step_from_json(row.record),
        json=row.record,
        first_read=row.first_read if row.corrected else row.record,
        corrected=row.corrected,
        confirmed_by=row.confirmed_by,
        confirmed_at=confirmed,
        withdrawn=False,
    )
