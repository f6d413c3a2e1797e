"""Steps in force, and what people say about them: corrections, confirmations, withdrawals."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from journal.keep.corrections import corrected
from journal.keep.history import History, write_down
from journal.keep.index import Entry, index, leave_out, words_of_step
from journal.keep.lookup import find_build, find_mould
from journal.keep.tables import BuildRow, NoteRow, StepMaterialRow, StepObservationRow, StepRow
from journal.keep.texts import checked, checked_or_none
from journal.keep.times import Moment, local_or_none
from journal.keep.views import Change, FaultView, KeepError, NotKept, PullView, StepView
from journal.record import Step, step_from_json, step_to_json

NO_FAULT = ("good", "other")
_WHY_MOST = 10_000


class Steps(History):
    """The part of the store that keeps steps."""

    def steps(self, build_key: str | int) -> list[StepView]:
        """Return a build's steps in force, in the order they were spoken; withdrawn ones are left out."""
        with self.reading() as session:
            of_it = standing_steps().where(StepRow.build_id == find_build(session, build_key).id)
            return [step_view(row) for row in session.scalars(of_it)]

    def note_steps(self, note_id: int) -> list[StepView]:
        """Return one note's steps in force, withdrawn ones included."""
        with self.reading() as session:
            return note_steps(session, note_id)

    def step(self, step_id: int) -> StepView:
        """Return one step."""
        with self.reading() as session:
            return step_view(_find_step(session, step_id))

    def correct_step(
        self, step_id: int, changes: Mapping[str, Any], who: str | None, why: str, at: datetime
    ) -> StepView:
        """Put right what was read. What was heard and first read stays; the correction is a history entry.

        `changes` maps a field of the step record ("action", "ratio", "materials"), or a path into it
        ("materials.0.amount", "timings.1.seconds"), to its new JSON value; None takes the value out.
        Evidence is kept where the value had any. Flags on what was corrected go. Raises FieldError
        naming the field.
        """
        with self.writing() as session:
            row = _find_step(session, step_id, to_write=True)
            before, after = row.record, corrected(row.record, changes)
            if before == after:
                return step_view(row)
            _set_record(row, step_from_json(after))
            row.corrected = True
            why = checked("why", why, _WHY_MOST)
            write_down(session, Change(at, who, "step", row.id, "corrected", why, before, after))
            if not row.withdrawn:
                index(session, [step_entry(row)])
            return step_view(row)

    def confirm_step(self, step_id: int, who: str | None, at: datetime) -> StepView:
        """Say that a step is right as it stands."""
        with self.writing() as session:
            row = _find_step(session, step_id, to_write=True)
            row.confirmed, row.confirmed_by = Moment.of(at), checked_or_none("who", who)
            write_down(session, Change(at, who, "step", row.id, "confirmed", "", None, row.record))
            return step_view(row)

    def withdraw_step(self, step_id: int, who: str | None, why: str, at: datetime) -> StepView:
        """Say that no such act took place; the step leaves the build sheet and stays in the history."""
        with self.writing() as session:
            row = _find_step(session, step_id, to_write=True)
            row.withdrawn = True
            why = checked("why", why, _WHY_MOST)
            write_down(session, Change(at, who, "step", row.id, "withdrawn", why, False, True))
            leave_out(session, "step", [row.id])
            return step_view(row)

    def pulls(self, mould_key: str | int) -> list[PullView]:
        """Return the castings taken from a mould, in time order."""
        with self.reading() as session:
            of_it = standing_steps().join(BuildRow, BuildRow.id == StepRow.build_id)
            of_it = of_it.where(
                BuildRow.mould_id == find_mould(session, mould_key).id,
                StepRow.action == "pull",
                StepRow.status == "done",
            )
            return [_pull_view(row) for row in session.scalars(of_it)]

    def faults(self, mould_key: str | int | None = None, build_key: str | int | None = None) -> list[FaultView]:
        """Return what was found wrong, on a mould, on a build, or anywhere, in time order."""
        with self.reading() as session:
            faulty = select(StepObservationRow.step_id).where(StepObservationRow.kind.not_in(NO_FAULT))
            found = standing_steps().where(StepRow.id.in_(faulty), StepRow.status == "done")
            if mould_key is not None:
                found = found.join(BuildRow, BuildRow.id == StepRow.build_id)
                found = found.where(BuildRow.mould_id == find_mould(session, mould_key).id)
            if build_key is not None:
                found = found.where(StepRow.build_id == find_build(session, build_key).id)
            return [fault for row in session.scalars(found) for fault in _fault_views(row)]


def standing_steps() -> Select[StepRow]:
    """Return the query of all steps in force and not withdrawn, in the order they were spoken."""
    standing = select(StepRow).where(StepRow.in_force, ~StepRow.withdrawn)
    in_order = standing.join(NoteRow, NoteRow.id == StepRow.note_id)
    return in_order.order_by(NoteRow.recorded_at, StepRow.note_id, StepRow.position)


def note_steps(session: Session, note_id: int) -> list[StepView]:
    """Return one note's steps in force, withdrawn ones included."""
    if session.get(NoteRow, note_id) is None:
        raise NotKept(f"there is no note {note_id}")
    of_it = select(StepRow).where(StepRow.note_id == note_id, StepRow.in_force)
    return [step_view(row) for row in session.scalars(of_it.order_by(StepRow.position))]


def step_row(note: NoteRow, position: int, step: Step, in_force: bool) -> StepRow:
    """Return a new row of a step as it was read."""
    record = step_to_json(step)
    row = StepRow(
        note=note,
        build_id=note.build_id,
        position=position,
        first_read=record,
        in_force=in_force,
        corrected=False,
        withdrawn=False,
    )
    _set_record(row, step)
    return row


def step_entry(row: StepRow) -> Entry:
    """Return what the full-text index holds of a step as it stands."""
    text = words_of_step(step_from_json(row.record))
    return Entry("step", row.id, row.build_id, row.act.utc, text, note_id=row.note_id, step_id=row.id)


def step_view(row: StepRow) -> StepView:
    """Return the view of a step."""
    return StepView(
        id=row.id,
        note_id=row.note_id,
        build_id=row.build_id,
        build_key=row.note.build.key,
        position=row.position,
        recorded_at=row.note.recorded.local,
        act_at=row.act.local,
        record=step_from_json(row.record),
        json=row.record,
        first_read=row.first_read,
        corrected=row.corrected,
        confirmed_by=row.confirmed_by,
        confirmed_at=local_or_none(row.confirmed),
        withdrawn=row.withdrawn,
    )


def _find_step(session: Session, step_id: int, to_write: bool = False) -> StepRow:
    row = session.get(StepRow, step_id, with_for_update={"of": StepRow} if to_write else None)
    if row is None:
        raise NotKept(f"there is no step {step_id}")
    if to_write and not row.in_force:
        raise KeepError(f"step {step_id} belongs to an earlier reading: its note was read again since")
    return row


def _set_record(row: StepRow, step: Step) -> None:
    """Make a step stand, in its row and in the rows that it is asked for by."""
    row.record = step_to_json(step)
    row.action, row.status = step.action, step.status
    row.act = _when(step, row.note)
    set_parts(row, step)


def set_parts(row: StepRow, step: Step) -> None:
    """Write the rows that a step is asked for by: its materials, layers and observations."""
    row.materials = [StepMaterialRow(name=use.name, part=use.part or "", lot=use.lot) for use in step.materials] + [
        StepMaterialRow(name=name, part="") for name in dict.fromkeys(x.name for x in step.layers)
    ]
    row.observations = [StepObservationRow(kind=seen.kind, text=seen.text) for seen in step.observations]


def _when(step: Step, note: NoteRow) -> Moment:
    """Return when an act took place: its start or end when one was said, else when the note was spoken."""
    if step.status == "done":
        for kind in ("start", "end"):
            for clock in step.clock:
                if clock.kind == kind:
                    return Moment.of(clock.at)
    return note.recorded


def _pull_view(row: StepRow) -> PullView:
    step = step_from_json(row.record)
    return PullView(
        step_id=row.id,
        build_key=row.note.build.key,
        number=step.pull,
        at=row.act.local,
        condition=tuple(seen.text for seen in step.observations),
        faults=tuple(seen.kind for seen in step.observations if seen.kind not in NO_FAULT),
    )


def _fault_views(row: StepRow) -> list[FaultView]:
    step = step_from_json(row.record)
    return [
        FaultView(
            step_id=row.id,
            note_id=row.note_id,
            build_key=row.note.build.key,
            at=row.act.local,
            kind=seen.kind,
            text=seen.text,
            places=tuple(place.text for place in step.places),
            on_pull=step.pull,
        )
        for seen in step.observations
        if seen.kind not in NO_FAULT
    ]
