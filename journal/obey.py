"""People's words over the record: corrections by hand, and what was commanded aloud, applied when its note is read.

What is commanded is evidence like any note: its recording and its words are kept, the history of the step that it
corrects points to them, and the history of its own note says what came of it. What cannot be placed for certain
changes nothing and is queried on the step that it seems to be about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from journal.keep.corrections import corrected
from journal.keep.views import FieldError, NoteView, StepView
from journal.read.checks import queries
from journal.read.commands import Command, commands_in
from journal.read.fitting import Fit, NoFit, fitting
from journal.read.pipeline import find_all
from journal.read.unit_words import BY_FIRST as UNIT_WORDS
from journal.record import Flag, NoteText, Step, step_from_json, step_to_json
from journal.review import values
from journal.shop import Shop


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a command, in words that are read aloud; `applied` False when it is queried instead.

    `steps` are the ids of the steps that it changed or queries.
    """

    kind: str
    said: str
    applied: bool
    steps: tuple[int, ...] = ()


# ---- by hand -----------------------------------------------------------------------------------------


def correct(shop: Shop, step_id: int, changes: dict[str, Any], who: str | None, why: str) -> StepView:
    """Correct a step: a new entry in its history; what was heard and first read stays. Raises FieldError.

    The corrected numbers are queried anew, so that a correction cannot bring in what a foreman would flag.
    """
    if "flags" not in changes:
        changes = changes | {"flags": _flags_after(shop, shop.store.step(step_id).record, changes)}
    return shop.store.correct_step(step_id, changes, who, why, shop.now())


def _flags_after(shop: Shop, step: Step, changes: dict[str, Any]) -> list[dict[str, str]]:
    after = step_from_json(corrected(step_to_json(step), changes))
    settled, asked = queries(step, shop.catalogue), queries(after, shop.catalogue)
    return _flags_json([*(flag for flag in after.flags if flag not in settled), *asked])


def _flags_json(flags: Sequence[Flag]) -> list[dict[str, str]]:
    return [{"field": flag.field, "why": flag.why} for flag in dict.fromkeys(flags)]


# ---- aloud -------------------------------------------------------------------------------------------


def commanded(shop: Shop, note: NoteText) -> tuple[Command, ...]:
    """Return the commands in the words of a note."""
    words = shop.reader.words(note)
    return commands_in(words, find_all(words))


def obey(shop: Shop, note: NoteView, text: NoteText, commands: Sequence[Command]) -> None:
    """Do what was commanded in a note that has just been read; again, it does nothing."""
    if shop.store.command_of(note.id) is not None:
        return
    for command in commands:
        words = text.text[slice(*command.chars)].strip()
        if command.kind == "cancel":
            shop.store.cancel_note(note.id, words, shop.now())
        elif command.kind in ("cancel last", "correct"):
            outcome = _cancel_last(shop, note, words) if command.kind == "cancel last" else None
            outcome = outcome or _correct_last(shop, note, text, command)
            _write_down(shop, note, text, command, outcome)
    if shop.store.cancelled(note.id) is not None:
        _withdraw(shop, note.id, f"the note was cancelled: {shop.store.cancelled(note.id)!r}", note.who)


def cancel(shop: Shop, note_id: int, words: str) -> None:
    """Cancel a note in whatever state it is: what is read in it, now or later, is withdrawn; the recording stays."""
    with shop.one_at_a_time:
        shop.store.cancel_note(note_id, words, shop.now())
        note = shop.store.note(note_id)
        if note.state == "read":
            _withdraw(shop, note_id, f"the note was cancelled: {words!r}", note.who)


def _write_down(shop: Shop, note: NoteView, text: NoteText, command: Command, outcome: Outcome) -> None:
    words = text.text[slice(*command.chars)].strip()
    kept = {
        "kind": outcome.kind,
        "said": outcome.said,
        "applied": outcome.applied,
        "steps": list(outcome.steps),
        "chars": list(command.chars),
        "audio": _seconds(text, command.chars),
    }
    shop.store.keep_command(note.id, words, kept, shop.now())


def _seconds(text: NoteText, chars: tuple[int, int]) -> list[float] | None:
    """Return the seconds of the recording in which some of its words were said; None for typed words."""
    heard = text.transcript.words if text.transcript else ()
    inside = [word for word in heard if word.chars[0] < chars[1] and word.chars[1] > chars[0]]
    return [round(inside[0].start_s, 2), round(inside[-1].end_s, 2)] if inside else None


def _withdraw(shop: Shop, note_id: int, why: str, who: str | None) -> tuple[int, ...]:
    steps = [step for step in shop.store.note_steps(note_id) if not step.withdrawn]
    for step in steps:
        shop.store.withdraw_step(step.id, who, why, shop.now())
    return tuple(step.id for step in steps)


def _before(shop: Shop, note: NoteView) -> list[NoteView]:
    """Return the notes of the build that were recorded before this one, the latest first."""
    notes = shop.store.notes(note.build_id)
    return notes[: [other.id for other in notes].index(note.id)][::-1]


def _cancel_last(shop: Shop, note: NoteView, words: str) -> Outcome:
    """Cancel the latest note before this one that said something of its own."""
    for last in _before(shop, note):
        if shop.store.cancelled(last.id) is not None or shop.store.command_of(last.id) is not None:
            continue
        if last.state in ("kept", "heard"):
            break
        shop.store.cancel_note(last.id, f"{words} (said in note {note.id})", shop.now())
        steps = _withdraw(shop, last.id, f"cancelled aloud in note {note.id}: {words!r}", note.who)
        return Outcome("cancel last", f"Cancelled the note of {last.recorded_at:%H:%M}.", True, steps)
    return Outcome("cancel last", "There is no note to cancel.", False)


def _last_steps(shop: Shop, note: NoteView) -> list[StepView]:
    """Return the standing steps of the latest note before this one that has any. Raises NoFit."""
    for last in _before(shop, note):
        if last.state in ("kept", "heard"):
            raise NoFit(f"the note of {last.recorded_at:%H:%M} is not read yet")
        if steps := [step for step in shop.store.note_steps(last.id) if not step.withdrawn]:
            return steps
    raise NoFit("nothing was said before it")


def _correct_last(shop: Shop, note: NoteView, text: NoteText, command: Command) -> Outcome:
    words = text.text[slice(*command.chars)].strip()
    steps: list[StepView] = []
    try:
        steps = _last_steps(shop, note)
        fit = fitting([step.record for step in steps], command)
        _surely_heard(shop, text, command)
        return _corrected(shop, note, text, command, steps[fit.step], fit)
    except (NoFit, FieldError) as reason:
        why = f'"{words}" was said to correct this, and not done: {reason}'
        if steps:
            _query(shop, steps[-1], note, why)
        return Outcome("correct", f"Not corrected: {reason}.", False, tuple(step.id for step in steps[-1:]))


def _surely_heard(shop: Shop, text: NoteText, command: Command) -> None:
    """Raise NoFit when the new value was not heard for sure, or another hearing gives another one.

    A unit may be heard less surely: a value that has one is only replaced by one in its own unit.
    """
    assert command.new is not None
    if text.transcript is None:
        return
    start, end = command.new.chars
    for word in text.transcript.words:
        inside = word.chars[0] < end and word.chars[1] > start
        is_unit = word.text.strip(" .,!?").casefold() in UNIT_WORDS
        if inside and word.probability < shop.settings.confirm_below * (0.5 if is_unit else 1.0):
            raise NoFit(f'"{word.text}" was heard with {word.probability:.0%} confidence, say it again')
    for other in text.transcript.alternatives:
        for rival in commanded(shop, replace(text, text=other.text, transcript=None)):
            if rival.kind == "correct" and rival.new is not None and _value(rival) != _value(command):
                raise NoFit(f'it could have been "{other.text}", say it again')


def _value(command: Command) -> tuple[Any, ...]:
    new = command.new
    return () if new is None else (new.measure, new.value, new.unit)


def _corrected(shop: Shop, note: NoteView, text: NoteText, command: Command, step: StepView, fit: Fit) -> Outcome:
    at = _seconds(text, command.chars)
    where = f"note {note.id}" + (f" at {at[0]:g} to {at[1]:g} s" if at else "")
    words = text.text[slice(*command.chars)].strip()
    after = correct(shop, step.id, fit.changes, note.who, f'said in {where}: "{words}"')
    old, new = _shown(step.record, fit.slot.path), _shown(after.record, fit.slot.path)
    flags = [flag.why for flag in after.record.flags if flag not in step.record.flags]
    doubts = "".join(f" Check: {why}." for why in flags)
    return Outcome("correct", f"Corrected: {old} is now {new}.{doubts}", True, (step.id,))


def _shown(step: Step, path: str) -> str:
    """Return a value as it is read aloud: the row of the build sheet that it stands in."""
    field = ".".join(path.split(".")[:2])
    for row in values.rows(step):
        for value in row.values:
            if value.field == field or (field == "ratio" and value.field.startswith("ratio")):
                return " ".join(part for part in (value.amount, value.text) if part)
    return path


def _query(shop: Shop, step: StepView, note: NoteView, why: str) -> None:
    flags = _flags_json((*step.record.flags, Flag("action", why)))
    shop.store.correct_step(step.id, {"flags": flags}, note.who, f"said in note {note.id}", shop.now())
