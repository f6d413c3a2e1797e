"""What came of a mould, put on record by a person: opened, a pull, a fault, a repair, the end of its life.

It is kept as a typed note with one step, so that it is found, corrected, traced and counted like what was spoken.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from journal.keep.steps import NO_FAULT
from journal.keep.store import Store
from journal.keep.views import FieldError, NewNote, StepView
from journal.record import OBSERVATION_KINDS, Evidence, Observation, Phrase, Step
from journal.review.life import RETIRED

ACTS = {"opened": "demould", "pull": "pull", "fault": "check", "repair": "repair", RETIRED: "store"}
KINDS = tuple(ACTS)
FAULT_KINDS = tuple(kind for kind in OBSERVATION_KINDS if kind not in NO_FAULT)
READER = "a person's entry"
_RULE = "entered"
_CLOCKS_APART = timedelta(minutes=10)  # a phone's clock may run before the machine's


@dataclass(frozen=True, slots=True)
class NewOutcome:
    """Something that came of a mould. `at` is aware, `seen` a kind of observation, `number` that of a pull."""

    kind: str
    at: datetime
    words: str = ""
    seen: str | None = None
    place: str | None = None
    number: int | None = None
    who: str | None = None


def record_outcome(store: Store, build_key: str | int, new: NewOutcome, now: datetime) -> StepView:
    """Keep what came of a build, as a typed note with one step that its person has confirmed.

    Retiring the last making of a mould that is in use retires the mould. Raises NotKept, FieldError.
    """
    build = store.build(build_key)
    _check(new, now)
    if new.kind == "pull" and new.number is not None:
        same = [pull for pull in store.pulls(build.mould_id) if pull.build_key == build.key]
        there = next((pull for pull in same if pull.number == new.number), None)
        if there is not None:
            raise FieldError("number", f"pull {new.number} is on record already: correct step {there.step_id} instead")
    text, step = told(new)
    note, _ = store.add_note(build.id, NewNote(new.at, text=text, who=new.who, arrived_at=now))
    kept = store.note_steps(note.id) or store.keep_steps(note.id, [step], READER, now)
    confirmed = store.confirm_step(kept[0].id, new.who, now)
    if new.kind == RETIRED and build.outcome == "worked":
        _retire_mould(store, build.mould_id, new, now)
    return confirmed


def _retire_mould(store: Store, mould_id: int, new: NewOutcome, now: datetime) -> None:
    """Retire the mould when every making of it that worked has been retired."""
    worked = [build for build in store.builds(mould_id) if build.outcome == "worked"]
    if all(any(_says_retired(step) for step in store.steps(build.id)) for build in worked):
        store.set_mould_status(mould_id, "retired", now, new.who, new.words)


def _says_retired(step: StepView) -> bool:
    return any(seen.text.casefold().startswith(RETIRED) for seen in step.record.observations)


def _check(new: NewOutcome, now: datetime) -> None:
    if new.kind not in KINDS:
        raise FieldError("kind", f"{new.kind!r} is none of: {', '.join(KINDS)}")
    if new.at.tzinfo is None:
        raise FieldError("at", "has no offset from UTC: write it like 2026-04-24T11:00:00+01:00")
    if new.at > now + _CLOCKS_APART:
        raise FieldError("at", "lies ahead: say what has happened")
    if new.seen is not None and new.seen not in OBSERVATION_KINDS:
        raise FieldError("seen", f"{new.seen!r} is none of: {', '.join(OBSERVATION_KINDS)}")
    if new.kind == "fault" and new.seen not in FAULT_KINDS:
        raise FieldError("seen", f"say what kind of fault it is: {', '.join(FAULT_KINDS)}")
    if new.number is not None and (new.kind != "pull" or new.number < 1):
        raise FieldError("number", "is that of a pull, from 1 on")


def told(new: NewOutcome) -> tuple[str, Step]:
    """Return the note that says so, and its step; every value points to its words."""
    said = _Words()
    act = said.add(
        {"opened": "Opened", "pull": "Pull", "fault": "Found", "repair": "Repaired", RETIRED: "Retired"}[new.kind]
    )
    if new.number is not None:
        said.add(f" {new.number}")
    words = new.words.strip()
    seen: tuple[Observation, ...] = ()
    if new.kind == RETIRED:
        seen = (
            Observation("other", f"{RETIRED}: {words}" if words else RETIRED, said.add(f": {words}" if words else "")),
        )
    elif new.seen is not None:
        seen = (Observation(new.seen, words or new.seen, said.add(f": {new.seen}{', ' + words if words else ''}")),)
    elif words:
        seen = (Observation("other", words, said.add(f": {words}")),)
    places: tuple[Phrase, ...] = ()
    if new.place and new.place.strip():
        said.add("; at ")
        places = (Phrase(new.place.strip(), said.add(new.place.strip())),)
    step = Step(ACTS[new.kind], "done", act, places=places, observations=seen, pull=new.number)
    return f"{said.text}.", step


class _Words:
    """The words of a note as they are put together, and where in it each piece is."""

    def __init__(self) -> None:
        self.text = ""

    def add(self, piece: str) -> Evidence:
        start = len(self.text)
        self.text += piece
        shown = piece.lstrip(" :;,")
        start += len(piece) - len(shown)
        return (
            Evidence(shown, (start, len(self.text)), 1.0, _RULE)
            if shown
            else Evidence(self.text, (0, start), 1.0, _RULE)
        )
