"""Photos of builds side by side, a row for each place of the mould. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from journal.keep.photos import place_name
from journal.keep.views import BuildView, PhotoView


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """The photos of one place, a list for each build in their order; `place` is None where none was said."""

    place: str | None
    photos: tuple[tuple[PhotoView, ...], ...]


@dataclass(frozen=True, slots=True)
class Strip:
    """Photos by place across builds: places of the most builds first, photos without a place last."""

    builds: tuple[BuildView, ...]
    rows: tuple[PlaceRow, ...]


def photo_strip(builds: Sequence[BuildView], photos: Mapping[int, Sequence[PhotoView]]) -> Strip:
    """Return the strip of builds; `photos` are theirs by the build's id, as taken."""
    places = dict.fromkeys(
        place_name(photo.place) if photo.place else None for build in builds for photo in photos[build.id]
    )
    rows = [PlaceRow(place, tuple(_of(place, photos[build.id]) for build in builds)) for place in places]
    return Strip(tuple(builds), tuple(sorted(rows, key=_rank)))


def _of(place: str | None, photos: Sequence[PhotoView]) -> tuple[PhotoView, ...]:
    return tuple(photo for photo in photos if (place_name(photo.place) if photo.place else None) == place)


def _rank(row: PlaceRow) -> tuple[bool, int, str]:
    return row.place is None, -sum(bool(photos) for photos in row.photos), row.place or ""
