"""The folder or ZIP file that an exchange travels in. What is read is checked first: names, sizes, kinds.

Nothing is ever unpacked under a name that stands in the file; members are read one at a time, up to a limit.
"""

from __future__ import annotations

import os
import re
import tempfile
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Protocol

from journal.keep.exchange.nouns import NOUNS, ExchangeError
from journal.keep.exchange.tables import READ_ONLY

DOCUMENT, SCHEMA, PACKAGE, MEDIA = "mouldbook.json", "schema.json", "datapackage.json", "media"
DOCUMENT_MOST = 1 << 30  # bytes of one text file: a hundred times the largest shop that we know of
_MEMBERS_MOST = 1_000_000
_PIECE = 1 << 20
_TEXTS = {DOCUMENT, SCHEMA, PACKAGE} | {f"{name}.csv" for name in (*(noun.name for noun in NOUNS), *READ_ONLY)}
_MEDIUM = re.compile(MEDIA + r"/(?P<sha256>[0-9a-f]{64})(\.[a-z0-9]{1,5})?")


class Writer(Protocol):
    """Where an exchange is written to."""

    def put(self, name: str, data: bytes) -> None:
        """Write one member."""


class Reader:
    """An exchange as it is read: its members by name, with their sizes in bytes, every name known to be ours."""

    def __init__(self, sizes: dict[str, int], media_most: int) -> None:
        self._media_most = media_most
        self.media: dict[str, str] = {}
        for name, size in sizes.items():
            self._admit(name, size)
        self.names = set(sizes)

    def _admit(self, name: str, size: int) -> None:
        medium = _MEDIUM.fullmatch(name)
        if medium is None and name not in _TEXTS:
            raise ExchangeError(f"{name!r} has no place in an exchange file: take it out, and look where it came from")
        if size > self._most(name):
            raise ExchangeError(f"{name} has {size} bytes; at most {self._most(name)} are taken in{self._more(name)}")
        if medium is not None:
            if medium["sha256"] in self.media:
                raise ExchangeError(f"the media {medium['sha256']} are in the file twice")
            self.media[medium["sha256"]] = name

    def _most(self, name: str) -> int:
        return self._media_most if name.startswith(f"{MEDIA}/") else DOCUMENT_MOST

    def _more(self, name: str) -> str:
        return "; MOULDBOOK_MAX_BYTES sets that" if name.startswith(f"{MEDIA}/") else ""

    def text(self, name: str) -> str:
        """Return a text member. Raises ExchangeError when it is not there or no UTF-8."""
        try:
            return self.read(name).decode("utf-8-sig")
        except UnicodeDecodeError as error:
            raise ExchangeError(f"{name} is no UTF-8 text: save it as such") from error

    def read(self, name: str) -> bytes:
        """Return a member's bytes, never more than its limit, whatever the file says of its size."""
        if name not in self.names:
            raise ExchangeError(f"there is no {name} in it: give the file or folder that mouldbook export wrote")
        pieces, size = [], 0
        for piece in self._pieces(name):
            size += len(piece)
            if size > self._most(name):
                raise ExchangeError(f"{name} has more than {self._most(name)} bytes: it is not what it says it is")
            pieces.append(piece)
        return b"".join(pieces)

    def _pieces(self, name: str) -> Iterator[bytes]:
        raise NotImplementedError


class _Folder(Reader):
    def __init__(self, folder: Path, media_most: int) -> None:
        self._folder = folder
        sizes = {}
        for path in sorted(folder.rglob("*")):
            name = path.relative_to(folder).as_posix()
            if path.is_symlink():
                raise ExchangeError(f"{name!r} is a link: an exchange holds its files itself")
            if path.is_file():
                sizes[name] = path.stat().st_size
        super().__init__(sizes, media_most)

    def _pieces(self, name: str) -> Iterator[bytes]:
        with (self._folder / name).open("rb") as file:
            while piece := file.read(_PIECE):
                yield piece


class _Zip(Reader):
    def __init__(self, archive: zipfile.ZipFile, media_most: int) -> None:
        self._archive = archive
        members = [each for each in archive.infolist() if not (each.is_dir() and each.filename == f"{MEDIA}/")]
        if len(members) > _MEMBERS_MOST:
            raise ExchangeError(f"the file has {len(members)} members; at most {_MEMBERS_MOST} are taken in")
        sizes: dict[str, int] = {}
        for member in members:
            if member.orig_filename in sizes:
                raise ExchangeError(f"{member.orig_filename} is in the file twice")
            if member.flag_bits & 1:
                raise ExchangeError(
                    f"{member.orig_filename} is encrypted: unpack the file and pack it without a password"
                )
            sizes[member.orig_filename] = member.file_size
        super().__init__(sizes, media_most)

    def _pieces(self, name: str) -> Iterator[bytes]:
        try:
            with self._archive.open(name) as file:
                while piece := file.read(_PIECE):
                    yield piece
        except (zipfile.BadZipFile, zlib.error, NotImplementedError, OSError, EOFError) as error:
            raise ExchangeError(f"{name} is damaged ({error}): export it again") from error


@contextmanager
def reading(source: Path, media_most: int) -> Iterator[Reader]:
    """Open a folder or a ZIP file; media larger than `media_most` bytes are refused. Raises ExchangeError."""
    if source.is_dir():
        yield _Folder(source, media_most)
        return
    try:
        archive = zipfile.ZipFile(source)
    except FileNotFoundError as error:
        raise ExchangeError(f"{source} is not there: give the file or folder that mouldbook export wrote") from error
    except (zipfile.BadZipFile, OSError) as error:
        raise ExchangeError(f"{source} is no folder and no whole ZIP file: {error}") from error
    with archive:
        yield _Zip(archive, media_most)


@contextmanager
def writing(target: Path, at: datetime) -> Iterator[Writer]:
    """Make a folder, or for a name in .zip a file that is there whole or not at all. Raises ExchangeError."""
    if target.suffix.lower() != ".zip":
        if target.exists() and (not target.is_dir() or any(target.iterdir())):
            raise ExchangeError(f"{target} is there already: name a new or empty folder, or a new .zip file")
        yield _FolderWriter(target)
        return
    if target.exists():
        raise ExchangeError(f"{target} is there already: name a new .zip file")
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".part-")
    try:
        with os.fdopen(handle, "wb") as file, zipfile.ZipFile(file, "w") as archive:
            yield _ZipWriter(archive, at)
        Path(name).replace(target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


class _FolderWriter:
    def __init__(self, folder: Path) -> None:
        self._folder = folder
        folder.mkdir(parents=True, exist_ok=True)

    def put(self, name: str, data: bytes) -> None:
        path = self._folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)


class _ZipWriter:
    def __init__(self, archive: zipfile.ZipFile, at: datetime) -> None:
        self._archive = archive
        self._time = max((1980, 1, 1, 0, 0, 0), at.timetuple()[:6])

    def put(self, name: str, data: bytes) -> None:
        info = zipfile.ZipInfo(name, self._time)
        # Recordings and photos are packed as tightly as they will be.
        info.compress_type = zipfile.ZIP_STORED if name.startswith(f"{MEDIA}/") else zipfile.ZIP_DEFLATED
        info.external_attr = 0o644 << 16
        self._archive.writestr(info, data)
