"""Photos of a build, the step each one is near, and places pinned on them."""

from __future__ import annotations

from datetime import datetime

from journal.keep.history import History
from journal.keep.views import NewPhoto, PhotoView


class Photos(History):
    """The part of the store that keeps photos and places."""

    def add_photo(self, build_key: str | int, photo: NewPhoto) -> tuple[PhotoView, bool]:
        """Keep a photo; False says that it was kept before (same bytes in this build, or same client key)."""
        raise NotImplementedError

    def photo(self, photo_id: int) -> PhotoView:
        """Return one photo."""
        raise NotImplementedError

    def photos(self, build_key: str | int) -> list[PhotoView]:
        """Return a build's photos in the order they were taken."""
        raise NotImplementedError

    def place_photo(
        self,
        photo_id: int,
        place: str,
        at: datetime,
        x: float | None = None,
        y: float | None = None,
        who: str | None = None,
    ) -> PhotoView:
        """Say which place of the mould a photo shows; with x and y, pin the place on it."""
        raise NotImplementedError

    def places(self, mould_key: str | int) -> list[str]:
        """Return the places named on a mould, on photos and in steps, by name."""
        raise NotImplementedError
