"""The media folder: original bytes under the name of their own sum, through fsspec."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import BinaryIO

from journal.keep.views import KeepError


class MediaMissing(KeepError):
    """No such bytes are kept."""


class MediaAltered(KeepError):
    """The bytes kept under a sum do not have that sum any more."""


@dataclass(frozen=True, slots=True)
class MediaReport:
    """What a check found: how many originals are whole, and the sums of those missing or altered."""

    whole: int
    size_bytes: int
    missing: tuple[str, ...]
    altered: tuple[str, ...]

    @property
    def good(self) -> bool:
        """Whether nothing is missing or altered."""
        return not self.missing and not self.altered


class Media:
    """Original bytes, content-addressed, and copies derived from them.

    `url` is a folder or an fsspec address (memory://, s3://bucket/path).
    """

    def __init__(self, url: str) -> None:
        raise NotImplementedError

    def keep(self, data: bytes) -> str:
        """Keep bytes and return their sha256; when this returns they are on the disk. Idempotent."""
        raise NotImplementedError

    def has(self, sha256: str) -> bool:
        """Whether bytes of that sum are kept."""
        raise NotImplementedError

    def read(self, sha256: str) -> bytes:
        """Return the bytes, proved against their sum. Raises MediaMissing or MediaAltered."""
        raise NotImplementedError

    def open(self, sha256: str) -> BinaryIO:
        """Open the bytes, seekable, to serve ranges from. Raises MediaMissing."""
        raise NotImplementedError

    def size(self, sha256: str) -> int:
        """Return the number of bytes. Raises MediaMissing."""
        raise NotImplementedError

    def keep_derived(self, sha256: str, name: str, data: bytes) -> None:
        """Keep a copy made from an original ("thumb.webp"); keeping again replaces it."""
        raise NotImplementedError

    def derived(self, sha256: str, name: str) -> bytes | None:
        """Return a derived copy, or None when it has not been made."""
        raise NotImplementedError

    def check(self, expected: Iterable[str] = ()) -> MediaReport:
        """Sum every original again; `expected` are the sums that ought to be there."""
        raise NotImplementedError
