"""How apprentices come along on a build: tests taken, kinds of question got right, acts signed off. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from journal.keep.training_views import SignOffView, TestView
from journal.teach.question import KINDS, Marked
from journal.teach.voice import Voice


@dataclass(frozen=True, slots=True)
class Tally:
    """How many questions of a kind were asked in all tests, and how many were answered right."""

    kind: str
    right: int
    asked: int


@dataclass(frozen=True, slots=True)
class Progress:
    """One apprentice on one build. `signed` are the entries that stand, by item; `entries` all, as they were made."""

    apprentice: str
    tests: tuple[TestView, ...]
    tallies: tuple[Tally, ...]
    signed: tuple[SignOffView, ...]
    entries: tuple[SignOffView, ...]


def progress_of(tests: Sequence[TestView], entries: Sequence[SignOffView]) -> tuple[Progress, ...]:
    """Return how each apprentice comes along, by name; capitals do not count."""
    names: dict[str, str] = {}
    names_given = [test.apprentice for test in tests] + [entry.apprentice for entry in entries]
    for name in names_given:
        names.setdefault(name.casefold(), name)
    return tuple(_one(names[key], key, tests, entries) for key in sorted(names))


def _one(name: str, key: str, tests: Iterable[TestView], entries: Iterable[SignOffView]) -> Progress:
    own = tuple(test for test in tests if test.apprentice.casefold() == key)
    told = tuple(entry for entry in entries if entry.apprentice.casefold() == key)
    standing = {(entry.stage, entry.item): entry for entry in told}  # the latest on an item stands
    signed = tuple(entry for entry in standing.values() if entry.verdict == "signed")
    answers = [answer for test in own for answer in test.answers]
    return Progress(name, own, tuple(_tallies(answers)), signed, told)


def _tallies(answers: Sequence[dict[str, Any]]) -> Iterable[Tally]:
    for kind in KINDS:
        of_kind = [answer for answer in answers if answer.get("kind") == kind]
        if of_kind:
            yield Tally(kind, sum(bool(answer["right"]) for answer in of_kind), len(of_kind))


def answer_to_json(marked: Marked) -> dict[str, Any]:
    """Return a marked answer as it is kept: what was asked and answered, the right answer, why, and on what words."""
    question = marked.question
    return {
        "question": question.key,
        "kind": question.kind,
        "asked": question.asked,
        "options": [[option.letter, option.text] for option in question.options],
        "photos": [photo.id for photo in question.photos],
        "given": marked.given,
        "right": marked.right,
        "remark": marked.remark,
        "answer": question.answer,
        "reason": question.reason,
        "evidence": [_voice_to_json(voice) for voice in question.evidence],
    }


def _voice_to_json(voice: Voice) -> dict[str, Any]:
    return {
        "words": voice.text,
        "build": voice.build_key,
        "note_id": voice.note_id,
        "step_id": voice.step_id,
        "at": voice.at.isoformat(),
        "who": voice.who,
        "chars": list(voice.chars),
        "audio": None if voice.audio is None else [round(second, 2) for second in voice.audio],
    }
