"""A whole shop out into an open format, and into a shop that may have something already."""

from __future__ import annotations

import hashlib
import json
import mimetypes
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, Literal

from journal.keep.base import Opened
from journal.keep.exchange.container import DOCUMENT, MEDIA, PACKAGE, SCHEMA, Reader, reading, writing
from journal.keep.exchange.document import Document, checked, gather, media_of
from journal.keep.exchange.nouns import NOUNS, ExchangeError
from journal.keep.exchange.schema import data_package, json_schema
from journal.keep.exchange.tables import from_csv, to_csv
from journal.keep.exchange.take_in import merge
from journal.keep.media import Media, MediaAltered, MediaMissing

As = Literal["json", "csv"]


@dataclass(frozen=True, slots=True)
class ExportReport:
    """What was written: rows by noun, originals, and the sums of those that the store has lost or that were altered."""

    target: Path
    form: As
    rows: Mapping[str, int]
    originals: int
    lost: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ImportReport:
    """What was taken in: new rows and things the same, by noun; `conflicts` a line each; originals that are not there.

    `photos` are the sums of photos that are new, of which copies for pages are to be made.
    """

    new: Mapping[str, int]
    same: Mapping[str, int]
    conflicts: tuple[str, ...]
    originals: int
    missing: tuple[str, ...]
    photos: tuple[str, ...]

    @property
    def whole(self) -> bool:
        """Whether everything in the file is here now."""
        return not self.conflicts and not self.missing


def export(store: Opened, media: Media, target: Path, form: As, at: datetime) -> ExportReport:
    """Write everything into a new folder or .zip file, with its schema. Raises ExchangeError."""
    document = gather(store, at)
    with writing(target, at) as writer:
        for name, text in _texts(document, form):
            writer.put(name, text.encode())
        lost = []
        for sha256, kind in sorted(media_of(document).items()):
            try:
                writer.put(f"{MEDIA}/{sha256}{_ending(kind)}", media.read(sha256))
            except (MediaMissing, MediaAltered):
                lost.append(sha256)
    rows = {noun.name: len(document[noun.name]) for noun in NOUNS}
    return ExportReport(target, form, rows, len(media_of(document)) - len(lost), tuple(lost))


def _texts(document: Document, form: As) -> Iterable[tuple[str, str]]:
    if form == "json":
        yield DOCUMENT, json.dumps(document, ensure_ascii=False, indent=1)
        yield SCHEMA, json.dumps(json_schema(), ensure_ascii=False, indent=1)
        return
    yield from to_csv(document)
    yield PACKAGE, json.dumps(data_package(document["exported_at"]), ensure_ascii=False, indent=1)


def _ending(kind: str) -> str:
    return (mimetypes.guess_extension(kind.partition(";")[0]) or "").lower()


def bring_in(store: Opened, media: Media, source: Path, media_most: int, at: datetime) -> ImportReport:
    """Take in what an exchange file or folder has that is not here; nothing that is here is altered.

    Originals are kept, and proved against their sums, before any row points to them. Raises ExchangeError.
    """
    with reading(source, media_most) as reader:
        document = checked(_document(reader))
        wanted = media_of(document)
        stray = reader.media.keys() - wanted.keys()
        if stray:
            raise ExchangeError(f"no note or photo in the file has the media {min(stray)}: take them out")
        for sha256, name in reader.media.items():
            _keep(media, sha256, reader.read(name))
    added = merge(store, document, at)
    photos = {row["media_sha256"] for row in added.new["photos"]}
    missing = {sha256 for noun in ("notes", "photos") for row in added.new[noun] if (sha256 := row["media_sha256"])}
    return ImportReport(
        new={name: len(rows) for name, rows in added.new.items() if rows},
        same=dict(added.same),
        conflicts=tuple(added.conflicts),
        originals=len(reader.media),
        missing=tuple(sorted(sha256 for sha256 in missing if not media.has(sha256))),
        photos=tuple(sorted(sha256 for sha256 in photos if media.has(sha256))),
    )


def _keep(media: Media, sha256: str, data: bytes) -> None:
    if hashlib.sha256(data).hexdigest() != sha256:
        raise ExchangeError(f"the media {sha256} do not have that sum: they were altered, export them again")
    media.keep(data)


def _document(reader: Reader) -> Any:
    if DOCUMENT in reader.names:
        return _json(reader, DOCUMENT)
    if PACKAGE in reader.names:
        texts = {name: reader.text(name) for name in (f"{noun.name}.csv" for noun in NOUNS) if name in reader.names}
        package = _json(reader, PACKAGE)
        return from_csv(package if isinstance(package, dict) else {}, texts)
    raise ExchangeError(f"there is neither {DOCUMENT} nor {PACKAGE} in it: give what mouldbook export wrote")


def _json(reader: Reader, name: str) -> Any:
    try:
        return json.loads(reader.text(name))
    except (ValueError, RecursionError) as error:
        raise ExchangeError(f"{name} is no JSON: {error}") from error
