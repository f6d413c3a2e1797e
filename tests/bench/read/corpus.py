"""The labelled notes, and reading them in order as the shop would."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path

from journal.read.reader import Reader
from journal.read.recall import EMPTY, Memory
from journal.record import NoteText, Transcript, step_to_json
from tests.bench.facets import Row

CORPUS = Path(__file__).parents[2] / "corpus"
PARTS = ("work", "measure")


def note_text(note: Row, transcript: Transcript | None = None) -> NoteText:
    """Return a labelled note as the reader takes it: as typed, or as heard."""
    return NoteText(
        text=transcript.text if transcript else note["text"],
        recorded_at=datetime.fromisoformat(note["recorded_at"]),
        locale=note.get("locale", "en-GB"),
        transcript=transcript,
    )


def read_notes(
    reader: Reader, notes: Sequence[Row], heard: Mapping[str, Transcript] | None = None
) -> dict[str, list[Row]]:
    """Return the steps read from notes, by id; notes of a build in the light of its earlier ones."""
    memories: dict[str, Memory] = {}
    out = {}
    for note in notes:
        build = note.get("build")
        memory = memories.get(build, EMPTY) if build else EMPTY
        reading = reader.read(note_text(note, heard[note["id"]] if heard is not None else None), memory)
        if build:
            memories[build] = reading.memory
        out[note["id"]] = [step_to_json(step) for step in reading.steps]
    return out
