"""Notes: what was said, what was heard in it, and what was read from it.

A note's row says how far it has come: kept, heard, read, or failed with the reason. Hearings and
readings are only ever added; the first of each is never altered.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import cast

from sqlalchemy import ColumnElement, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session, selectinload

from journal.keep.history import History, write_down
from journal.keep.index import Entry, index, leave_out
from journal.keep.lookup import find_build, kept_before
from journal.keep.packing import pack_clip, pack_transcript, unpack_clip, unpack_transcript
from journal.keep.steps import note_steps, step_entry, step_row
from journal.keep.tables import HearingRow, NoteRow, ReadingRow, StepRow
from journal.keep.texts import checked, checked_or_none
from journal.keep.times import Moment
from journal.keep.views import (
    Change,
    FieldError,
    HearingView,
    KeepError,
    NewNote,
    NoteState,
    NoteView,
    NotKept,
    ReadingView,
    StepView,
)
from journal.record import Step, Transcript, step_from_json

_TEXT_MOST = 100_000


class Notes(History):
    """The part of the store that keeps notes."""

    def add_note(self, build_key: str | int, note: NewNote) -> tuple[NoteView, bool]:
        """Keep a note; False says that it was kept before (same bytes in this build, or same client key).

        A recording starts as kept, typed text as heard. The same text typed again is another note
        unless its time is the same too. Raises KeyReused when the client key comes with other content,
        FieldError on a bad value.
        """
        new = _note_row(note)
        try:
            with self.writing() as session:
                build = find_build(session, build_key)
                kept = kept_before(session, build.id, new, NoteRow.content)
                if kept is not None:
                    return _note_view(kept), False
                new.build = build
                session.add(new)
                session.flush()
                after = {"build": build.key, "content": new.content, "typed": new.typed_text is not None}
                at = note.arrived_at or note.recorded_at
                write_down(session, Change(at, new.who, "note", new.id, "added", "", None, after))
                index_note(session, new)
                return _note_view(new), True
        except IntegrityError:  # another writer kept the same note in the same moment
            with self.reading() as session:
                build = find_build(session, build_key)
                kept = kept_before(session, build.id, _note_row(note), NoteRow.content)
                if kept is None:
                    raise
                return _note_view(kept), False

    def note(self, note_id: int) -> NoteView:
        """Return one note."""
        with self.reading() as session:
            return _note_view(find_note(session, note_id))

    def note_sent_as(self, client_key: str) -> NoteView | None:
        """Return the note that was sent under this key, or None when there is none yet."""
        with self.reading() as session:
            row = session.scalar(select(NoteRow).where(NoteRow.client_key == client_key))
            return None if row is None else _note_view(row)

    def notes(self, build_key: str | int) -> list[NoteView]:
        """Return a build's notes in the order they were recorded."""
        with self.reading() as session:
            return _note_views(session, NoteRow.build_id == find_build(session, build_key).id)

    def notes_waiting(self) -> list[NoteView]:
        """Return the notes not yet read and not failed, in the order they were recorded."""
        with self.reading() as session:
            return _note_views(session, NoteRow.state.in_(("kept", "heard")))

    def keep_transcript(self, note_id: int, transcript: Transcript, at: datetime) -> NoteView:
        """Add a hearing, which is in force from now on; the state becomes heard."""
        with self.writing() as session:
            row = find_note(session, note_id, to_write=True)
            if row.typed_text is not None:
                raise FieldError("transcript", f"note {note_id} was typed: there is nothing to hear")
            number = len(row.hearings) + 1
            packed = pack_transcript(transcript)
            row.hearings.append(HearingRow(number=number, heard=Moment.of(at), transcript=packed))
            before = row.hearings[-2].transcript["text"] if number > 1 else None
            write_down(session, Change(at, None, "note", row.id, "heard", transcript.model, before, transcript.text))
            _set_state(row, "heard")
            index_note(session, row)
            return _note_view(row)

    def keep_steps(self, note_id: int, steps: Sequence[Step], reader_version: str, at: datetime) -> list[StepView]:
        """Add a reading; the state becomes read. Returns the note's steps in force.

        A new reading takes the place of the last one, unless a person has corrected, confirmed or
        withdrawn one of its steps: a person's word stands, and the new reading goes to the history.
        """
        with self.writing() as session:
            row = find_note(session, note_id, to_write=True)
            if row.typed_text is None and not row.hearings:
                raise KeepError(f"note {note_id} has not been heard yet: keep a transcript first")
            in_force = _give_way(session, row)
            reading = ReadingRow(
                number=len(row.readings) + 1,
                reader_version=checked("reader_version", reader_version),
                in_force=in_force,
                moment=Moment.of(at),
            )
            reading.steps = [step_row(row, n, step, in_force) for n, step in enumerate(steps)]
            row.readings.append(reading)
            _set_state(row, "read")
            session.flush()
            if in_force:
                index(session, [step_entry(step) for step in reading.steps])
            after = {"reading": reading.number, "steps": len(steps), "in_force": in_force}
            write_down(session, Change(at, None, "note", row.id, "read", reader_version, None, after))
            return note_steps(session, row.id)

    def fail_note(self, note_id: int, why: str, at: datetime) -> NoteView:
        """Say why a note could not be heard or read. What is kept of it stays."""
        with self.writing() as session:
            row = find_note(session, note_id, to_write=True)
            write_down(session, Change(at, None, "note", row.id, "failed", why, row.state, "failed"))
            _set_state(row, "failed", why)
            return _note_view(row)

    def retry_note(self, note_id: int, at: datetime, who: str | None = None) -> NoteView:
        """Put a failed note back in waiting: heard when its words are known, else kept."""
        with self.writing() as session:
            row = find_note(session, note_id, to_write=True)
            if row.state == "failed":
                state: NoteState = "kept" if row.typed_text is None and not row.hearings else "heard"
                write_down(session, Change(at, who, "note", row.id, "retried", row.error, "failed", state))
                _set_state(row, state)
            return _note_view(row)

    def hearings(self, note_id: int) -> list[HearingView]:
        """Return every hearing of a note, the first one first."""
        with self.reading() as session:
            return [
                HearingView(row.number, row.heard.local, unpack_transcript(row.transcript))
                for row in find_note(session, note_id).hearings
            ]

    def readings(self, note_id: int) -> list[ReadingView]:
        """Return every reading of a note as it was read, the first one first."""
        with self.reading() as session:
            find_note(session, note_id)
            of_it = select(ReadingRow).where(ReadingRow.note_id == note_id).order_by(ReadingRow.number)
            return [
                ReadingView(
                    number=row.number,
                    read_at=row.moment.local,
                    reader_version=row.reader_version,
                    in_force=row.in_force,
                    steps=tuple(step_from_json(step.first_read) for step in row.steps),
                )
                for row in session.scalars(of_it.options(selectinload(ReadingRow.steps)))
            ]


def find_note(session: Session, note_id: int, to_write: bool = False) -> NoteRow:
    """Return the row of a note, locked against other writers when it is to be written. Raises NotKept."""
    row = session.get(NoteRow, note_id, with_for_update={"of": NoteRow} if to_write else None)
    if row is None:
        raise NotKept(f"there is no note {note_id}")
    return row


def _note_row(note: NewNote) -> NoteRow:
    if (note.clip is None) == (note.text is None):
        raise FieldError("text", "a note is either a recording or typed text, one of the two")
    text = checked_or_none("text", note.text, _TEXT_MOST)
    if note.clip is None and text is None:
        raise FieldError("text", "is empty: say or type something")
    return NoteRow(
        content=note.clip.sha256 if note.clip else _sum_of(text or "", note.recorded_at),
        client_key=checked_or_none("client_key", note.client_key),
        recorded=Moment.of(note.recorded_at),
        arrived=Moment.of(note.arrived_at or note.recorded_at),
        who=checked_or_none("who", note.who),
        device=checked_or_none("device", note.device),
        clip=pack_clip(note.clip) if note.clip else None,
        media_sha256=note.clip.sha256 if note.clip else None,
        typed_text=text,
        state="kept" if note.clip else "heard",
        error="",
    )


def _sum_of(text: str, recorded_at: datetime) -> str:
    # "Same again" typed twice is two notes, the same file of text added twice is one.
    utc = Moment.of(recorded_at).utc.astimezone(UTC)
    return hashlib.sha256(f"{utc.isoformat()}\n{text}".encode()).hexdigest()


def _give_way(session: Session, note: NoteRow) -> bool:
    """Take the last reading out of force, unless a person has spoken on its steps. False: it stands."""
    standing = list(session.scalars(select(StepRow).where(StepRow.note_id == note.id, StepRow.in_force)))
    if any(step.corrected or step.confirmed is not None or step.withdrawn for step in standing):
        return False
    for reading in note.readings:
        reading.in_force = False
    for step in standing:
        step.in_force = False
    leave_out(session, "step", [step.id for step in standing])
    return True


def _set_state(row: NoteRow, state: NoteState, error: str = "") -> None:
    row.state, row.error = state, error


def index_note(session: Session, row: NoteRow) -> None:
    """Put the words of a note into the full-text index; a note without words is in none."""
    text = _text(row)
    if text:
        index(session, [Entry("note", row.id, row.build_id, row.recorded.utc, text, note_id=row.id)])
    else:
        leave_out(session, "note", [row.id])


def _text(row: NoteRow) -> str | None:
    return row.hearings[-1].transcript["text"] if row.hearings else row.typed_text


def _note_views(session: Session, which: ColumnElement[bool]) -> list[NoteView]:
    """Return notes in the order they were recorded, with their hearings and readings fetched at once."""
    whole = select(NoteRow).options(selectinload(NoteRow.hearings), selectinload(NoteRow.readings))
    in_order = whole.where(which).order_by(NoteRow.recorded_at, NoteRow.id)
    return [_note_view(row) for row in session.scalars(in_order)]


def _note_view(row: NoteRow) -> NoteView:
    return NoteView(
        id=row.id,
        build_id=row.build_id,
        build_key=row.build.key,
        recorded_at=row.recorded.local,
        arrived_at=row.arrived.local,
        who=row.who,
        device=row.device,
        client_key=row.client_key,
        state=cast(NoteState, row.state),
        error=row.error,
        clip=unpack_clip(row.clip) if row.clip else None,
        text=_text(row),
        transcript=unpack_transcript(row.hearings[-1].transcript) if row.hearings else None,
        hearings=len(row.hearings),
        readings=len(row.readings),
    )
