"""The pictures that a page shows, put together from what is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal.keep.store import Store
from journal.keep.views import BuildView, FaultView, PhotoView
from journal.review.builds import load, load_all
from journal.review.life import MouldLife, life_of
from journal.review.pictures.air import temperature_chart
from journal.review.pictures.drawing import Picture
from journal.review.pictures.lives import life_chart
from journal.review.pictures.ratios import ratio_chart
from journal.review.pictures.strip import Strip, photo_strip
from journal.review.pictures.timeline import timeline
from journal.trade.material import Catalogue


@dataclass(frozen=True, slots=True)
class BuildPictures:
    """The pictures of one build."""

    build: BuildView
    pictures: tuple[Picture, ...]


@dataclass(frozen=True, slots=True)
class ShownFault:
    """A fault with the photos said to show it, and those that may: taken near it in time, or of its place."""

    fault: FaultView
    shown: tuple[PhotoView, ...]
    near: tuple[PhotoView, ...]


@dataclass(frozen=True, slots=True)
class LifeOfMould:
    """The makings of a mould with their lives and pictures, and its faults with their photos."""

    lives: tuple[tuple[MouldLife, Picture], ...]
    faults: tuple[ShownFault, ...]
    photos: tuple[PhotoView, ...]


def build_pictures(store: Store, catalogue: Catalogue, build_key: str | int, confirm_below: float) -> BuildPictures:
    """Return the pictures of a build: its times, ratios, temperatures, and its life once opened. Raises NotKept."""
    record = load(store, build_key)
    drawn = [chart(record, catalogue, confirm_below) for chart in (timeline, ratio_chart, temperature_chart)]
    return BuildPictures(record.build, (*drawn, life_chart(life_of(record, catalogue))))


def life_of_mould(store: Store, catalogue: Catalogue, mould_key: str | int) -> LifeOfMould:
    """Return the lives of the makings of a mould, and its faults with their photos. Raises NotKept."""
    lives = [life_of(record, catalogue) for record in load_all(store, mould_key)]
    photos = [photo for build in store.builds(mould_key) for photo in store.photos(build.id)]
    shown = store.fault_photos(mould_key)
    faults = tuple(_shown(fault, shown.get(fault.step_id, ()), photos) for fault in store.faults(mould_key=mould_key))
    return LifeOfMould(tuple((life, life_chart(life)) for life in lives), faults, tuple(photos))


def _shown(fault: FaultView, shown: Sequence[PhotoView], photos: Sequence[PhotoView]) -> ShownFault:
    ids = {photo.id for photo in shown}
    places = {place.casefold() for place in fault.places}
    near = [
        photo
        for photo in photos
        if photo.build_key == fault.build_key and photo.id not in ids
        and (photo.step_id == fault.step_id or (photo.place or "") in places)
    ]  # fmt: skip
    return ShownFault(fault, tuple(shown), tuple(near))


def strip_of(store: Store, build_keys: Sequence[str | int]) -> Strip:
    """Return the photos of builds side by side by place. Raises NotKept."""
    builds = list({build.id: build for key in build_keys for build in [store.build(key)]}.values())
    return photo_strip(builds, {build.id: store.photos(build.id) for build in builds})
