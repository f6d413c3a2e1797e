"""Questions that show what was photographed or found, and ask what went wrong. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta
from random import Random

from journal.keep.views import FaultView, PhotoView
from journal.record import OBSERVATION_KINDS
from journal.review.builds import BuildRecord, faults_of
from journal.review.causes import causes_of
from journal.teach.question import Option, Question
from journal.teach.taught import Taught

_NEAR = timedelta(hours=12)  # a photo taken later than that is of something else
_OPTIONS = 4
_NO_FAULT = ("good", "other")
_ALIKE = (frozenset({"tacky", "soft"}), frozenset({"pinhole", "bubble", "void"}), frozenset({"tear", "crack", "chip"}))


def fault_questions(taught: Taught, chance: Random) -> Iterator[Question]:
    """Yield a question for each fault found: those of which there is a photo first, each kind of a build once."""
    found = [(record, fault, _photos(taught, record, fault)) for record in taught.every for fault in faults_of(record)]
    found.sort(key=lambda each: not each[2])
    asked: set[tuple[str, str]] = set()
    for record, fault, photos in found:
        if (record.key, fault.kind) not in asked:
            asked.add((record.key, fault.kind))
            yield _question(taught, record, fault, photos, chance)


def _photos(taught: Taught, record: BuildRecord, fault: FaultView) -> tuple[PhotoView, ...]:
    """Return the photos of a fault: near its step, or of its place soon before or after."""
    places = {place.casefold() for place in fault.places}
    return tuple(
        photo
        for photo in taught.photos[record.key]
        if abs(photo.photo.taken_at - fault.at) <= _NEAR
        and (photo.step_id == fault.step_id or (photo.place or "").casefold() in places)
    )


def _question(
    taught: Taught, record: BuildRecord, fault: FaultView, photos: tuple[PhotoView, ...], chance: Random
) -> Question:
    kinds = _kinds(record, fault, chance)
    options = tuple(Option(letter, kind) for letter, kind in zip("ABCD", kinds, strict=False))
    where = f" at: {', '.join(fault.places)}" if fault.places else ""
    pull = f" on pull {fault.on_pull}" if fault.on_pull is not None else ""
    look = "Look at the photo. What" if len(photos) == 1 else "Look at the photos. What" if photos else "What"
    step = next(step for step in record.steps if step.id == fault.step_id)
    causes = [cause for cause in causes_of(fault.kind) if cause.weight >= 2]
    usual = f" A usual cause: {causes[0].why} ({causes[0].source})." if causes else ""
    return Question(
        key=f"fault-{fault.step_id}-{fault.kind.replace(' ', '-')}",
        kind="fault",
        asked=f"{look} was found wrong on {record.build.name}{pull}, {fault.at.day} {fault.at:%b}{where}?",
        reason=f'It was found to be: {fault.kind}, "{fault.text}".{usual}',
        evidence=(taught.voice(step),),
        options=options,
        letters=options[kinds.index(fault.kind)].letter,
        photos=photos,
    )


def _kinds(record: BuildRecord, fault: FaultView, chance: Random) -> Sequence[str]:
    """Return the kind of the fault among others that this build does not show, nor what could be taken for it."""
    shown = {each.kind for each in faults_of(record)}
    alike = next((group for group in _ALIKE if fault.kind in group), frozenset())
    others = [kind for kind in OBSERVATION_KINDS if kind not in shown | alike and kind not in _NO_FAULT]
    kinds = [fault.kind, *chance.sample(others, _OPTIONS - 1)]
    chance.shuffle(kinds)
    return kinds
