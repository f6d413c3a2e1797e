"""The media folder: original bytes under the name of their own sum, through fsspec."""

from __future__ import annotations

import hashlib
import os
import re
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO, cast

import fsspec
from fsspec.implementations.local import LocalFileSystem

from journal.keep.views import KeepError

_SUM = re.compile(r"[0-9a-f]{64}")
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,99}")
_PIECE = 1 << 20


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

    `url` is a folder or an fsspec address (memory://, s3://bucket/path). Originals lie in
    `originals/ab/abcd...`, copies in `derived/ab/abcd.../name`.
    """

    def __init__(self, url: str) -> None:
        try:
            self._files, self._root = fsspec.url_to_fs(url)
        except (ImportError, ValueError) as error:
            raise KeepError(f"{url!r} is no media address: {error}") from error
        self._local = isinstance(self._files, LocalFileSystem)

    def keep(self, data: bytes) -> str:
        """Keep bytes and return their sha256; when this returns they are on the disk. Idempotent.

        Bytes kept before are read back: if they were altered since, the good ones take their place.
        """
        sha256 = hashlib.sha256(data).hexdigest()
        if not self.has(sha256) or self._sum(sha256) != sha256:
            self._write(self._original(sha256), data)
        return sha256

    def has(self, sha256: str) -> bool:
        """Whether bytes of that sum are kept."""
        return bool(self._files.isfile(self._original(sha256)))

    def read(self, sha256: str) -> bytes:
        """Return the bytes, proved against their sum. Raises MediaMissing or MediaAltered."""
        with self.open(sha256) as file:
            data = file.read()
        if hashlib.sha256(data).hexdigest() != sha256:
            raise MediaAltered(
                f"the media {sha256} were altered on the disk: `mouldbook check` with a backup puts them right"
            )
        return data

    def open(self, sha256: str) -> BinaryIO:
        """Open the bytes, seekable, to serve ranges from. Raises MediaMissing."""
        try:
            return cast(BinaryIO, self._files.open(self._original(sha256), "rb"))
        except FileNotFoundError as error:
            raise _missing(sha256) from error

    def size(self, sha256: str) -> int:
        """Return the number of bytes. Raises MediaMissing."""
        try:
            return int(self._files.size(self._original(sha256)))
        except FileNotFoundError as error:
            raise _missing(sha256) from error

    def keep_derived(self, sha256: str, name: str, data: bytes) -> None:
        """Keep a copy made from an original ("thumb.webp"); keeping again replaces it."""
        self._write(self._copy(sha256, name), data)

    def derived(self, sha256: str, name: str) -> bytes | None:
        """Return a derived copy, or None when it has not been made."""
        try:
            return cast(bytes, self._files.cat_file(self._copy(sha256, name)))
        except FileNotFoundError:
            return None

    def originals(self) -> list[str]:
        """Return the sums of all originals kept, in order."""
        folder = f"{self._root}/originals"
        if not self._files.isdir(folder):
            return []
        names = (path.rsplit("/", 1)[-1] for path in self._files.find(folder))
        return sorted(name for name in names if _SUM.fullmatch(name))

    def check(self, expected: Iterable[str] = ()) -> MediaReport:
        """Sum every original again; `expected` are the sums that ought to be there."""
        kept = self.originals()
        altered = tuple(sha256 for sha256 in kept if self._sum(sha256) != sha256)
        missing = tuple(sorted(set(expected) - set(kept)))
        return MediaReport(
            whole=len(kept) - len(altered),
            size_bytes=sum(self.size(sha256) for sha256 in kept),
            missing=missing,
            altered=altered,
        )

    def _original(self, sha256: str) -> str:
        return f"{self._root}/originals/{_checked(sha256)[:2]}/{sha256}"

    def _copy(self, sha256: str, name: str) -> str:
        if not _NAME.fullmatch(name):
            raise KeepError(f"{name!r} is no name for a copy: letters, digits, dots, dashes")
        return f"{self._root}/derived/{_checked(sha256)[:2]}/{sha256}/{name}"

    def _sum(self, sha256: str) -> str:
        summed = hashlib.sha256()
        with self.open(sha256) as file:
            while piece := file.read(_PIECE):
                summed.update(piece)
        return summed.hexdigest()

    def _write(self, path: str, data: bytes) -> None:
        if self._local:
            write_whole(Path(path), data)
            return
        self._files.makedirs(path.rsplit("/", 1)[0], exist_ok=True)
        self._files.pipe_file(path, data)  # object stores show a file only when it is whole


def write_whole(path: Path, data: bytes) -> None:
    """Write a local file so that it is there whole or not at all, even when the power fails."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".part-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":
        return  # Windows cannot open a folder; its rename is written through
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _checked(sha256: str) -> str:
    if not _SUM.fullmatch(sha256):
        raise _missing(sha256)
    return sha256


def _missing(sha256: Any) -> MediaMissing:
    return MediaMissing(f"no media are kept under {sha256!r}")
