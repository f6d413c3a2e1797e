"""What was commanded aloud, and what came of it: entries in the history of the note that it was said in."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import select

from journal.keep.history import History, write_down
from journal.keep.notes import find_note
from journal.keep.tables import ChangeRow
from journal.keep.texts import checked
from journal.keep.views import Change

_MOST = 10_000


class Commands(History):
    """The part of the store that keeps spoken commands."""

    def keep_command(self, note_id: int, words: str, outcome: dict[str, Any], at: datetime) -> None:
        """Write down a command said in a note and what came of it (a JSON object)."""
        with self.writing() as session:
            row = find_note(session, note_id)
            why = checked("words", words, _MOST)
            write_down(session, Change(at, row.who, "note", row.id, "command", why, None, outcome))

    def command_of(self, note_id: int) -> dict[str, Any] | None:
        """Return what came of the command in a note, None when it holds none."""
        found = self._last(note_id, "command")
        return None if found is None else found.after

    def cancel_note(self, note_id: int, words: str, at: datetime) -> None:
        """Write down that the speaker cancelled a note, in these words; the recording stays. Again changes nothing."""
        if self.cancelled(note_id) is not None:
            return
        with self.writing() as session:
            row = find_note(session, note_id, to_write=True)
            why = checked("words", words, _MOST)
            write_down(session, Change(at, row.who, "note", row.id, "cancelled", why, False, True))

    def cancelled(self, note_id: int) -> str | None:
        """Return the words that a note was cancelled with, None when it was not."""
        found = self._last(note_id, "cancelled")
        return None if found is None else found.why

    def _last(self, note_id: int, what: str) -> ChangeRow | None:
        of_it = select(ChangeRow).where(ChangeRow.noun == "note", ChangeRow.noun_id == note_id, ChangeRow.what == what)
        with self.reading() as session:
            return session.scalars(of_it.order_by(ChangeRow.id.desc()).limit(1)).first()
