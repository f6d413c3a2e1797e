"""Builds to teach from, made of steps without a database. Invented."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.keep.views import NoteView, PhotoView
from journal.record import Ratio, Step, step_to_json
from journal.review.builds import BuildRecord
from journal.teach.taught import Taught
from tests.keep.made import evidence, photo, step, use

BELOW = 0.7


def taught(*builds: BuildRecord, past: tuple[BuildRecord, ...] = (), photos: tuple[PhotoView, ...] = ()) -> Taught:
    """Return builds as they are taught from; every step was told in a typed note of its own."""
    builds, past = tuple(map(_whole, builds)), tuple(map(_whole, past))
    every = (*builds, *past)
    notes = {step.note_id: note(record.key, step.note_id, step) for record in every for step in record.steps}
    shown = {record.key: tuple(p for p in photos if p.build_key == record.key) for record in every}
    return Taught(builds, past, notes, shown)


def _whole(record: BuildRecord) -> BuildRecord:
    """Return a build whose steps have their JSON, as those of a store have."""
    records = [(step, step_to_json(step.record)) for step in record.steps]
    return replace(record, steps=tuple(replace(step, json=json, first_read=json) for step, json in records))


def note(build_key: str, note_id: int, of) -> NoteView:
    text = f"{of.record.evidence.heard}, as it was typed."
    return NoteView(
        note_id, 1, build_key, of.act_at, of.act_at, "lead maker", None, None, "read", "", None, text, None, 0, 1
    )


def mixed(main: str, second: str, grams: float, second_grams: float, parts=None, by="weight", **more) -> Step:
    """Return a batch; its ratio is said when parts are given, else worked out."""
    said = Ratio(tuple(map(Fraction, parts)), evidence("ratio"), by) if parts else worked_out(grams, second_grams)
    return step("mix", use(main, grams, "g"), use(second, second_grams, "g"), words="mixed", ratio=said, **more)


def worked_out(grams: float, second: float) -> Ratio:
    return Ratio((Fraction(100), Fraction(str(100 * second / grams))), evidence("ratio"), "weight", derived=True)


def shown(build_key: str, at, place: str | None = None, step_id: int | None = None, id_: int = 1) -> PhotoView:
    return PhotoView(id_, 1, build_key, photo(f"seen {id_}", at), None, place, (), step_id)
