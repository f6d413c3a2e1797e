"""Things to keep, as the stages before would hand them over. Invented."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta, timezone
from fractions import Fraction
from threading import Barrier
from typing import Any

from journal.keep.store import Store
from journal.keep.views import BuildView, NewMould, NewNote, StepView
from journal.record import Clip, Evidence, MaterialUse, Observation, Photo, Phrase, Step, Transcript, Word

SUMMER = timezone(timedelta(hours=1))
AT = datetime(2026, 5, 4, 14, 10, tzinfo=SUMMER)


def minutes(count: float) -> datetime:
    return AT + timedelta(minutes=count)


def build_of(store: Store, name: str = "Niche", at: datetime = AT) -> BuildView:
    """Return a build of a mould of that name, both made when missing."""
    if name not in [mould.name for mould in store.moulds()]:
        store.add_mould(NewMould(name, "scallop shell niche", 2, "1.2 by 0.8 m", 1.2), at)
    return store.add_build(name, at)


def clip(content: str = "spoken", at: datetime = AT) -> Clip:
    sha256 = hashlib.sha256(content.encode()).hexdigest()
    return Clip(sha256, "audio/webm", 4000, 3.5, at, "given")


def photo(content: str = "seen", at: datetime = AT) -> Photo:
    sha256 = hashlib.sha256(content.encode()).hexdigest()
    return Photo(sha256, "image/jpeg", 9000, 400, 300, at, "file", ("blurred",))


def heard(text: str) -> Transcript:
    """Return a transcript of half a second a word."""
    words, start = [], 0
    for number, word in enumerate(text.split()):
        start = text.index(word, start)
        words.append(Word(word, (start, start + len(word)), number / 2, number / 2 + 0.5, 0.9))
        start += len(word)
    return Transcript(text, tuple(words), (), -0.2, len(words) / 2, "test model", ("one doubt",))


def evidence(words: str, start: int = 0, confidence: float = 0.8, rule: str = "test.rule") -> Evidence:
    return Evidence(words, (start, start + len(words)), confidence, rule, (0.5, 1.5))


def use(name: str, amount: float | None = None, unit: str | None = None, **more: Any) -> MaterialUse:
    exact = None if amount is None else Fraction(str(amount))
    return MaterialUse(name, evidence(name), amount=exact, unit=unit, **more)


def phrase(text: str) -> Phrase:
    return Phrase(text, evidence(text))


def seen(kind: str, text: str) -> Observation:
    return Observation(kind, text, evidence(text))


def step(action: str = "check", *uses: MaterialUse, words: str = "", **more: Any) -> Step:
    return Step(action, more.pop("status", "done"), evidence(words or action), uses, **more)


def spoken(store: Store, build: BuildView, text: str, *steps: Step, at: datetime = AT) -> tuple[int, list[StepView]]:
    """Keep, hear and read a recording; return the note's id and its steps."""
    note, _ = store.add_note(build.id, NewNote(at, clip=clip(text + at.isoformat(), at), who="lead maker"))
    store.keep_transcript(note.id, heard(text), at)
    return note.id, store.keep_steps(note.id, steps, "reader 1", at)


def at_once(*tasks: Callable[[], object]) -> list[object]:
    """Run tasks in threads that start together; the first error of any is raised."""
    barrier = Barrier(len(tasks))

    def run(task: Callable[[], object]) -> object:
        barrier.wait()
        return task()

    with ThreadPoolExecutor(len(tasks)) as pool:
        return [future.result() for future in [pool.submit(run, task) for task in tasks]]
