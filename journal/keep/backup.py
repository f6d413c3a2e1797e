"""Copies of everything, proved by their sums, and repair from them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from journal.keep.media import Media
from journal.keep.store import Store


@dataclass(frozen=True, slots=True)
class BackupReport:
    """What a backup holds: its folder, when it was made, how many originals, and bytes in all."""

    folder: Path
    made_at: datetime
    originals: int
    size_bytes: int


@dataclass(frozen=True, slots=True)
class CheckReport:
    """What a check found. `database` lists what the database says is wrong with itself."""

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
    """Copy database and originals into a folder while others work; an earlier backup there is renewed."""
    raise NotImplementedError


def check_backup(source: Path) -> CheckReport:
    """Prove a backup against the sums written when it was made."""
    raise NotImplementedError


def restore(store: Store, media: Media, source: Path) -> BackupReport:
    """Bring a backup back, once proved. The store must be empty, so that nothing recorded is lost."""
    raise NotImplementedError


def check(store: Store, media: Media, source: Path | None = None) -> CheckReport:
    """Prove the database and every original; a backup as `source` gives back what is missing or altered."""
    raise NotImplementedError
