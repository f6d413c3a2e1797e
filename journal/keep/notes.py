"""Notes: what was said, what was heard in it, and what was read from it.

A note's row says how far it has come: kept, heard, read, or failed with the reason. Hearings and
readings are only ever added; the first of each is never altered.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from journal.keep.history import History
from journal.keep.views import HearingView, NewNote, NoteView, ReadingView, StepView
from journal.record import Step, Transcript


class Notes(History):
    """The part of the store that keeps notes."""

    def add_note(self, build_key: str | int, note: NewNote) -> tuple[NoteView, bool]:
        """Keep a note; False says that it was kept before (same bytes in this build, or same client key).

        Raises KeyReused when the client key comes with other content, FieldError on a bad value.
        """
        raise NotImplementedError

    def note(self, note_id: int) -> NoteView:
        """Return one note."""
        raise NotImplementedError

    def notes(self, build_key: str | int) -> list[NoteView]:
        """Return a build's notes in the order they were recorded."""
        raise NotImplementedError

    def notes_waiting(self) -> list[NoteView]:
        """Return the notes not yet read and not failed, in the order they were recorded."""
        raise NotImplementedError

    def keep_transcript(self, note_id: int, transcript: Transcript, at: datetime) -> NoteView:
        """Add a hearing, which is in force from now on; the state becomes heard."""
        raise NotImplementedError

    def keep_steps(
        self, note_id: int, steps: Sequence[Step], reader_version: str, at: datetime
    ) -> list[StepView]:
        """Add a reading; the state becomes read. Returns the note's steps in force.

        A new reading takes the place of the last one, unless a person has corrected, confirmed or
        withdrawn one of its steps: a person's word stands, and the new reading goes to the history.
        """
        raise NotImplementedError

    def fail_note(self, note_id: int, why: str, at: datetime) -> NoteView:
        """Say why a note could not be heard or read. What is kept of it stays."""
        raise NotImplementedError

    def retry_note(self, note_id: int, at: datetime, who: str | None = None) -> NoteView:
        """Put a failed note back in waiting: heard when there is a hearing or typed text, else kept."""
        raise NotImplementedError

    def hearings(self, note_id: int) -> list[HearingView]:
        """Return every hearing of a note, the first one first."""
        raise NotImplementedError

    def readings(self, note_id: int) -> list[ReadingView]:
        """Return every reading of a note as it was read, the first one first."""
        raise NotImplementedError
