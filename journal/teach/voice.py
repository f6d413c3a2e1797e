"""The maker's own words, with the note and the seconds that they are heard at. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from journal.keep.views import NoteView, StepView
from journal.record import Evidence, Step

_SENTENCE_END = re.compile(r"(?<=[.!?])\s+")


class _Evident(Protocol):
    @property
    def evidence(self) -> Evidence: ...


@dataclass(frozen=True, slots=True)
class Voice:
    """Words of a note: whose they are, when they were spoken, and the step that they belong to.

    `chars` is [start, end) in the note's text, `audio` seconds in its recording (None for typed notes and words
    that could not be placed).
    """

    text: str
    build_key: str
    note_id: int
    step_id: int
    at: datetime
    who: str | None
    chars: tuple[int, int]
    audio: tuple[float, float] | None


def step_voice(step: StepView, note: NoteView) -> Voice:
    """Return the sentences of a note that a step was read from; all of the note when they cannot be told."""
    text = note.text or ""
    spans = [each.chars for each in evidences(step.record) if 0 <= each.chars[0] < each.chars[1] <= len(text)]
    start, end = min((span[0] for span in spans), default=0), max((span[1] for span in spans), default=len(text))
    start, end = _to_sentences(text, start, end)
    return _voice(text[start:end].strip(), (start, end), _heard_at(note, start, end), step, note)


def phrase_voice(text: str, evidence: Evidence, step: StepView, note: NoteView) -> Voice:
    """Return a cue, a reason, a warning or an observation as it was said."""
    return _voice(text, evidence.chars, evidence.audio, step, note)


def evidences(step: Step) -> Iterator[Evidence]:
    """Yield where each value of a step comes from, the act first."""
    yield step.evidence
    parts: Iterable[Iterable[_Evident]] = (
        step.materials, step.layers, step.timings, step.clock, step.conditions, step.places, step.reasons, step.cues,
        step.warnings, step.observations, (step.ratio,) if step.ratio else (),
    )  # fmt: skip
    for values in parts:
        for value in values:
            yield value.evidence


def _voice(
    text: str, chars: tuple[int, int], audio: tuple[float, float] | None, step: StepView, note: NoteView
) -> Voice:
    return Voice(text, step.build_key, note.id, step.id, note.recorded_at, note.who, chars, audio)


def _to_sentences(text: str, start: int, end: int) -> tuple[int, int]:
    """Return the span widened to whole sentences."""
    breaks = [0, *(found.end() for found in _SENTENCE_END.finditer(text)), len(text)]
    return max((b for b in breaks if b <= start), default=0), min((b for b in breaks if b >= end), default=len(text))


def _heard_at(note: NoteView, start: int, end: int) -> tuple[float, float] | None:
    heard = note.transcript.words if note.transcript else ()
    words = [word for word in heard if word.chars[0] < end and word.chars[1] > start]
    return (words[0].start_s, words[-1].end_s) if words else None
