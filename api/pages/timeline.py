"""One build in time order: its notes with their steps, and its photos; pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from api.pages.words import Piece, pieces
from journal.keep.views import NoteView, PhotoView, StepView
from journal.review.queries import Queries, queries
from journal.review.values import Row, Value, act, rows


@dataclass(frozen=True, slots=True)
class StepEntry:
    """A step with its act, its facts, and what to look at again."""

    view: StepView
    act: Value
    rows: tuple[Row, ...]
    queries: Queries


@dataclass(frozen=True, slots=True)
class Entry:
    """Something at a time: a note with its words and steps, or photos taken one after the other."""

    at: datetime
    note: NoteView | None = None
    words: tuple[Piece, ...] = ()
    steps: tuple[StepEntry, ...] = ()
    photos: tuple[PhotoView, ...] = ()
    new_day: bool = False

    @property
    def queries(self) -> bool:
        """Whether any of the steps asks to be looked at again."""
        return any(step.queries for step in self.steps)


def step_entry(step: StepView, confirm_below: float) -> StepEntry:
    """Return a step ready to be shown."""
    return StepEntry(step, act(step.record), rows(step.record), queries(step, confirm_below))


def note_entry(note: NoteView, steps: Iterable[StepView], confirm_below: float) -> Entry:
    """Return a note ready to be shown, with its steps."""
    words = note.transcript.words if note.transcript else ()
    shown = tuple(step_entry(step, confirm_below) for step in steps if not step.withdrawn)
    return Entry(note.recorded_at, note, tuple(pieces(note.text or "", words)), shown)


def photo_entry(photo: PhotoView) -> Entry:
    """Return a photo ready to be shown by itself."""
    return Entry(photo.photo.taken_at, photos=(photo,))


def _join_photos(entries: Iterable[Entry]) -> list[Entry]:
    joined: list[Entry] = []
    for entry in entries:
        last = joined[-1] if joined else None
        if last and last.photos and entry.photos and last.at.date() == entry.at.date():
            joined[-1] = Entry(last.at, photos=last.photos + entry.photos)
        else:
            joined.append(entry)
    return joined


def _mark_days(entries: Sequence[Entry]) -> list[Entry]:
    marked = []
    for i, entry in enumerate(entries):
        new_day = i == 0 or entries[i - 1].at.date() != entry.at.date()
        marked.append(Entry(entry.at, entry.note, entry.words, entry.steps, entry.photos, new_day))
    return marked


def timeline(
    notes: Iterable[NoteView], steps: Iterable[StepView], photos: Iterable[PhotoView], confirm_below: float
) -> list[Entry]:
    """Return the build's entries in time order, each first one of its day marked."""
    by_note: dict[int, list[StepView]] = defaultdict(list)
    for step in steps:
        by_note[step.note_id].append(step)
    entries = [note_entry(note, by_note[note.id], confirm_below) for note in notes]
    entries += map(photo_entry, photos)
    return _mark_days(_join_photos(sorted(entries, key=lambda entry: entry.at)))
