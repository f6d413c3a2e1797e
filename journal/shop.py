"""The parts of one shop, each made when first needed, and its clock."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import datetime, tzinfo
from functools import cached_property
from importlib import resources
from zoneinfo import ZoneInfo

from journal.capture.photo import PhotoLimits
from journal.capture.recording import RecordingLimits
from journal.hear.ears import Ears
from journal.hear.live import Floor
from journal.keep.arriving import Arriving
from journal.keep.media import Media
from journal.keep.store import Store
from journal.read.catalogue import catalogue_from_toml
from journal.read.language import load_language
from journal.read.reader import Reader
from journal.settings import Settings
from journal.trade.material import Catalogue


def _machine_time() -> datetime:
    return datetime.now().astimezone()


class Shop:
    """The parts of one shop, each made when first needed, and its clock. Safe to share between threads."""

    def __init__(self, settings: Settings, clock: Callable[[], datetime] = _machine_time) -> None:
        """Take the settings, and a clock that gives aware times."""
        self.settings = settings
        self._clock = clock
        self.floor = Floor()  # who is speaking at an open microphone
        self.one_at_a_time = threading.Lock()  # notes of a build are read in order

    @classmethod
    def open(cls, settings: Settings) -> Shop:
        """Open the shop of these settings."""
        return cls(settings)

    def close(self) -> None:
        """Give back what was opened."""
        if "store" in self.__dict__:
            self.store.close()

    def now(self) -> datetime:
        """Return the time now in the shop's zone."""
        return self._clock().astimezone(ZoneInfo(self.settings.timezone) if self.settings.timezone else None)

    @property
    def zone(self) -> tzinfo:
        """The shop's zone: the one of the settings, else the machine's offset now."""
        zone = self.now().tzinfo
        assert zone is not None  # `now` is aware
        return zone

    @cached_property
    def store(self) -> Store:
        """The database, brought up to date."""
        store = Store(self.settings.database)
        store.migrate()
        return store

    @cached_property
    def media(self) -> Media:
        """The original bytes of recordings and photos."""
        return Media(self.settings.media)

    @cached_property
    def arriving(self) -> Arriving:
        """The recordings that are arriving in pieces."""
        return Arriving(self.settings.data_dir / "arriving", self.settings.max_bytes)

    @cached_property
    def ears(self) -> Ears:
        """The hearing."""
        return Ears(self.settings.data_dir, self.settings.weights, self.settings.hear_threads)

    @cached_property
    def catalogue(self) -> Catalogue:
        """Our materials, and the shop's own over them."""
        texts = [resources.files("journal").joinpath("catalogue.toml").read_text(encoding="utf-8")]
        if self.settings.catalogue is not None:
            texts.append(self.settings.catalogue.read_text(encoding="utf-8"))
        return catalogue_from_toml(*texts)

    @cached_property
    def reader(self) -> Reader:
        """The reading."""
        return Reader(load_language(), self.catalogue)

    @property
    def recording_limits(self) -> RecordingLimits:
        """The largest and longest recording that is taken in."""
        return RecordingLimits(self.settings.max_bytes, self.settings.max_seconds)

    @property
    def photo_limits(self) -> PhotoLimits:
        """The largest photo that is taken in."""
        return PhotoLimits(self.settings.max_bytes, self.settings.max_pixels)
