"""What is known of the places pinned on a mould's reference photo: their steps, photos and faults."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal.keep.photos import place_name
from journal.keep.store import Store
from journal.keep.views import FaultView, PhotoView, PinView, StepView


@dataclass(frozen=True, slots=True)
class Marked:
    """A pin with its number on the photo, and what was done, seen and found wrong at its place.

    A pin of a fault has that fault alone; its step counts among the steps.
    """

    number: int
    pin: PinView
    steps: tuple[StepView, ...]
    photos: tuple[PhotoView, ...]
    faults: tuple[FaultView, ...]


@dataclass(frozen=True, slots=True)
class Pinned:
    """A reference photo with its pins, numbered in the order they were set."""

    photo: PhotoView
    marks: tuple[Marked, ...]


def pinned(store: Store, mould_key: str | int, build_key: str | int | None = None) -> Pinned | None:
    """Return what is pinned on a mould, from all its builds or from one; None without a reference photo.

    Raises NotKept.
    """
    reference = store.reference(mould_key)
    if reference is None:
        return None
    builds = store.builds(mould_key) if build_key is None else [store.build(build_key)]
    steps = [step for build in builds for step in store.steps(build.id)]
    photos = [photo for build in builds for photo in store.photos(build.id) if photo.id != reference.id]
    faults = store.faults(mould_key=mould_key, build_key=build_key)
    marks = tuple(_marked(number, pin, steps, photos, faults) for number, pin in enumerate(reference.pins, 1))
    return Pinned(reference, marks)


def _marked(
    number: int,
    pin: PinView,
    steps: Sequence[StepView],
    photos: Sequence[PhotoView],
    faults: Sequence[FaultView],
) -> Marked:
    if pin.place is None:
        of_it = tuple(step for step in steps if step.id == pin.step_id)
        return Marked(number, pin, of_it, (), tuple(fault for fault in faults if fault.step_id == pin.step_id))
    return Marked(
        number,
        pin,
        tuple(s for s in steps if not s.withdrawn and any(place_name(p.text) == pin.place for p in s.record.places)),
        tuple(photo for photo in photos if photo.place == pin.place),
        tuple(fault for fault in faults if any(place_name(place) == pin.place for place in fault.places)),
    )
