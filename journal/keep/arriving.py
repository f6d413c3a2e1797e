"""Recordings that are arriving in pieces: bytes that nothing reads until they are whole.

One file an upload, only ever added to at its end, so that what is there is always a beginning of the
recording, and how far it got is the length of the file. The sender keeps the recording until it is
told that the whole of it was kept.
"""

from __future__ import annotations

import hashlib
import os
import threading
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from journal.keep.views import KeepError

MOST_AT_ONCE = 10  # uploads of the largest size that may lie unfinished together
ABANDONED_AFTER = timedelta(days=30)


class NotJoined(KeepError):
    """What was sent does not go with the pieces that are kept: the sender asks how far they go, and goes on."""


class TooLarge(KeepError):
    """A recording beyond the limit of one."""


class TooMuchArriving(KeepError):
    """There is no room for more unfinished uploads."""


@dataclass(frozen=True, slots=True)
class Upload:
    """Which upload: of which build, under the name that its sender made for it (`[0-9a-z-]`, 8 to 64)."""

    build_id: int
    client_key: str


class Arriving:
    """The pieces of unfinished uploads, in one local folder. Safe to share between threads."""

    def __init__(self, folder: Path, max_bytes: int) -> None:
        """Take the folder, made when first needed, and the largest size of one upload in bytes."""
        self._folder = folder
        self._max_bytes = max_bytes
        self._one_at_a_time = threading.Lock()

    def received(self, upload: Upload) -> int:
        """Return how many bytes of an upload are kept, from its beginning."""
        try:
            return self._path(upload).stat().st_size
        except FileNotFoundError:
            return 0

    def add(self, upload: Upload, offset: int, piece: bytes, at: datetime) -> int:
        """Keep a piece and return how many bytes are kept now; when this returns they are on the disk.

        A piece that came before changes nothing. Raises NotJoined for one that begins beyond what is
        kept or holds other bytes than those kept, TooLarge beyond the limit, TooMuchArriving when there
        is no room.
        """
        with self._one_at_a_time:
            kept = self.received(upload)
            if offset > kept:
                raise NotJoined(f"{kept} bytes are here and this piece begins at {offset}: go on from {kept}")
            again, new = piece[: kept - offset], piece[kept - offset :]
            if again and self._bytes(upload, offset, len(again)) != again:
                raise NotJoined(
                    f"other bytes are here between {offset} and {kept}: send each recording under its own key"
                )
            if new:
                self._make_room(kept + len(new), len(new), at)
                self._append(upload, new)
            return kept + len(new)

    def whole(self, upload: Upload, size_bytes: int, sha256: str) -> bytes:
        """Return all bytes of an upload, proved against their sum.

        Raises NotJoined when some are lacking, or when the sum differs: then the pieces are dropped, to
        be sent from the beginning.
        """
        with self._one_at_a_time:
            kept = self.received(upload)
            if kept < size_bytes:
                raise NotJoined(f"{kept} of {size_bytes} bytes are here: go on from {kept}")
            data = self._bytes(upload, 0, kept)
            if kept != size_bytes or hashlib.sha256(data).hexdigest() != sha256:
                self._path(upload).unlink(missing_ok=True)
                raise NotJoined(
                    "the bytes that arrived are not those that were sent: send them again from the beginning"
                )
            return data

    def forget(self, upload: Upload) -> None:
        """Drop the pieces of an upload that was taken in."""
        with self._one_at_a_time:
            self._path(upload).unlink(missing_ok=True)

    def _path(self, upload: Upload) -> Path:
        return self._folder / f"{upload.build_id}-{upload.client_key}.part"

    def _bytes(self, upload: Upload, offset: int, size: int) -> bytes:
        with self._path(upload).open("rb") as file:
            file.seek(offset)
            return file.read(size)

    def _append(self, upload: Upload, data: bytes) -> None:
        self._folder.mkdir(parents=True, exist_ok=True)
        with self._path(upload).open("ab") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())

    def _make_room(self, size: int, more: int, at: datetime) -> None:
        if size > self._max_bytes:
            raise TooLarge(f"the recording is over the limit of {self._max_bytes / 1e6:g} MB: send a shorter one")
        parts = [(path, path.stat()) for path in self._folder.glob("*.part")]
        abandoned = (at - ABANDONED_AFTER).timestamp()
        for path, state in parts:
            if state.st_mtime < abandoned:
                path.unlink(missing_ok=True)
        lying = sum(state.st_size for _, state in parts if state.st_mtime >= abandoned)
        if lying + more > MOST_AT_ONCE * self._max_bytes:
            raise TooMuchArriving("too many unfinished recordings lie here: let the other devices finish sending first")
