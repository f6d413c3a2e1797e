"""Copies of everything, proved by their sums, and repair from them.

A backup is a folder: `mouldbook.db` (SQLite, whatever the store runs on), `media/` with every original,
and `manifest.json` with the sums, written last. Derived copies are left out: they can be made again.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import select

from journal.keep.media import Media, MediaAltered, MediaMissing, write_whole
from journal.keep.store import Store
from journal.keep.tables import MouldRow, NoteRow, PhotoRow
from journal.keep.transfer import copy_store, faults_of_database
from journal.keep.views import KeepError

_DATABASE, _MEDIA, _MANIFEST = "mouldbook.db", "media", "manifest.json"


@dataclass(frozen=True, slots=True)
class BackupReport:
    """What a backup holds: its folder, when it was made, how many originals, and bytes in all.

    `missing` and `altered` are originals that the store lost before: no backup can be made of those, and
    a good copy from an earlier backup in the folder is left as it is.
    """

    folder: Path
    made_at: datetime
    originals: int
    size_bytes: int
    missing: tuple[str, ...] = ()
    altered: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckReport:
    """What a check found: originals looked at, and the sums of those missing, altered, and put right.

    `database` lists what is wrong with the database, in its own words.
    """

    originals: int
    missing: tuple[str, ...]
    altered: tuple[str, ...]
    database: tuple[str, ...]
    repaired: tuple[str, ...] = ()

    @property
    def good(self) -> bool:
        """Whether everything is there and whole."""
        return not (self.missing or self.altered or self.database)


def backup(store: Store, media: Media, target: Path, at: datetime) -> BackupReport:
    """Copy database and originals into a folder while others work; an earlier backup there is renewed.

    Raises KeepError, and leaves an earlier backup as it is, when the copy of the database is not whole.
    """
    target.mkdir(parents=True, exist_ok=True)
    database = target / _DATABASE
    with _copy_of(store) as copy:
        write_whole(database, copy.read_bytes())
        with Store(f"sqlite:///{copy}") as copied:
            expected = _sums_in(copied)
    lost = _copy_media(media, Media(str(target / _MEDIA)), expected)
    originals = {path.name: path.stat().st_size for path in (target / _MEDIA).rglob("*") if path.is_file()}
    manifest = {
        "made_at": at.isoformat(),
        "database": _sum(database),
        "originals": sorted(originals),
    }
    write_whole(target / _MANIFEST, json.dumps(manifest, indent=1).encode())
    size = database.stat().st_size + sum(originals.values())
    return BackupReport(target, at, len(originals), size, *lost)


def check_backup(source: Path) -> CheckReport:
    """Prove a backup against the sums written when it was made. Raises KeepError when there is none."""
    manifest = _manifest(source)
    media = Media(str(source / _MEDIA)).check(manifest["originals"])
    database = source / _DATABASE
    whole = database.is_file() and _sum(database) == manifest["database"]
    return CheckReport(
        originals=media.whole + len(media.altered),
        missing=media.missing,
        altered=media.altered,
        database=() if whole else (f"{_DATABASE} is missing or was altered since the backup",),
    )


def restore(store: Store, media: Media, source: Path) -> BackupReport:
    """Bring a backup back, once proved. The store must be empty, so that nothing recorded is lost.

    A backup made by an older version is brought up to date; the backup itself is only read.
    """
    proved = check_backup(source)
    if not proved.good:
        raise KeepError(f"the backup in {source} is not whole: check it, and restore from another one")
    if _holds_anything(store):
        raise KeepError("the store is not empty: restore into a new data folder")
    copies = Media(str(source / _MEDIA))
    for sha256 in copies.originals():
        media.keep(copies.read(sha256))
    with TemporaryDirectory() as folder:
        copy = Path(folder) / _DATABASE
        copy.write_bytes((source / _DATABASE).read_bytes())
        with Store(f"sqlite:///{copy}") as copied:
            copied.migrate()
            copy_store(copied, store)
    made_at = datetime.fromisoformat(_manifest(source)["made_at"])
    return BackupReport(source, made_at, proved.originals, (source / _DATABASE).stat().st_size)


def check(store: Store, media: Media, source: Path | None = None) -> CheckReport:
    """Prove the database and every original; a backup as `source` gives back what is missing or altered."""
    found = media.check(_sums_in(store))
    repaired: tuple[str, ...] = ()
    if source is not None and not found.good:
        repaired = _repair(media, Media(str(source / _MEDIA)), (*found.missing, *found.altered))
    return CheckReport(
        originals=found.whole + len(found.altered) + len(found.missing),
        missing=tuple(sha256 for sha256 in found.missing if sha256 not in repaired),
        altered=tuple(sha256 for sha256 in found.altered if sha256 not in repaired),
        database=faults_of_database(store),
        repaired=repaired,
    )


@contextmanager
def _copy_of(store: Store) -> Iterator[Path]:
    """Give a proved copy of the database as one file, which is gone afterwards."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / _DATABASE
        with Store(f"sqlite:///{path}") as copied:
            copied.migrate()
            copy_store(store, copied)
            faults = faults_of_database(copied)
            if faults:
                raise KeepError(f"the database cannot be backed up: {faults[0]}. Run `mouldbook check`")
            copied.fold_into_one_file()
        yield path


def _copy_media(media: Media, copies: Media, expected: set[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Copy every original; return the sums of those missing and altered."""
    missing, altered = [], []
    for sha256 in sorted(expected | set(media.originals())):
        try:
            copies.keep(media.read(sha256))
        except MediaMissing:
            missing.append(sha256)
        except MediaAltered:
            altered.append(sha256)
    return tuple(missing), tuple(altered)


def _repair(media: Media, copies: Media, sums: tuple[str, ...]) -> tuple[str, ...]:
    repaired = []
    for sha256 in sums:
        try:
            media.keep(copies.read(sha256))
        except (MediaMissing, MediaAltered):
            continue  # the report goes on naming it
        repaired.append(sha256)
    return tuple(repaired)


def _sums_in(store: Store) -> set[str]:
    with store.reading() as session:
        clips = session.scalars(select(NoteRow.media_sha256).where(NoteRow.media_sha256.is_not(None)))
        photos = session.scalars(select(PhotoRow.media_sha256))
        return {sha256 for sha256 in (*clips, *photos) if sha256}


def _holds_anything(store: Store) -> bool:
    with store.reading() as session:
        return session.scalar(select(MouldRow.id).limit(1)) is not None


def _manifest(source: Path) -> dict[str, Any]:
    try:
        manifest: dict[str, Any] = json.loads((source / _MANIFEST).read_bytes())
        datetime.fromisoformat(manifest["made_at"])
        return {"database": manifest["database"], "originals": list(manifest["originals"])} | manifest
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise KeepError(f"there is no whole backup in {source}: its {_MANIFEST} cannot be read") from error


def _sum(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
