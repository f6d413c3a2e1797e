"""A shop as one document: a list of plain rows for each noun. Out of a store, and checked on the way in."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from pydantic import ValidationError
from sqlalchemy import select

from journal.keep.base import Opened
from journal.keep.corrections import StepRecord
from journal.keep.exchange.nouns import CHANGED, FORMAT, NOUNS, VERSION, ExchangeError, Noun, to_columns, to_plain
from journal.keep.packing import unpack_clip, unpack_photo, unpack_transcript
from journal.keep.texts import named

Row = dict[str, Any]
Document = dict[str, Any]
HEAD = ("format", "version", "exported_at")


def gather(store: Opened, at: datetime) -> Document:
    """Return everything that a store keeps, as of one moment."""
    as_of_now = {} if store.sqlite else {"isolation_level": "REPEATABLE READ"}
    document: Document = {"format": FORMAT, "version": VERSION, "exported_at": at.isoformat()}
    with store.engine.connect().execution_options(**as_of_now) as connection:
        for noun in NOUNS:
            rows = connection.execute(select(noun.table).order_by(noun.table.c.id)).mappings()
            document[noun.name] = [{field.name: to_plain(field, row) for field in noun.fields} for row in rows]
    document["changes"] = [row for row in document["changes"] if row["noun"] in CHANGED]
    return document


def checked(document: Any) -> Document:
    """Return a document whose every row is right in itself and points to rows that are there. Raises ExchangeError."""
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise ExchangeError(f"this is no exchange file of ours: its format is not {FORMAT!r}")
    if document.get("version") != VERSION:
        raise ExchangeError(
            f"this exchange file is of version {document.get('version')!r}; this program reads {VERSION}"
        )
    unknown = document.keys() - {noun.name for noun in NOUNS} - set(HEAD)
    if unknown:
        raise ExchangeError(f"{', '.join(sorted(map(str, unknown)))}: no noun of this program: update it first")
    found = {name: document[name] for name in HEAD if name in document}
    for noun in NOUNS:
        found[noun.name] = _rows(noun, document.get(noun.name, []))
    _check_references(found)
    return found


def _rows(noun: Noun, rows: Any) -> list[Row]:
    if not isinstance(rows, list):
        raise ExchangeError(f"{noun.name}: give a list of objects")
    checked_rows = [_row(noun, row, number) for number, row in enumerate(rows, 1)]
    twice = [id_ for id_, count in Counter(row["id"] for row in checked_rows).items() if count > 1]
    if twice:
        raise ExchangeError(f"{noun.name}: the id {twice[0]} stands twice")
    return sorted(checked_rows, key=lambda row: row["id"])


def _row(noun: Noun, row: Any, number: int) -> Row:
    if not isinstance(row, dict):
        raise ExchangeError(f"{noun.name}, row {number}: give an object")
    unknown = row.keys() - {field.name for field in noun.fields}
    if unknown:
        raise ExchangeError(f"{noun.name}, row {number}: {', '.join(sorted(map(str, unknown)))} is no field of it")
    for field in noun.fields:
        try:
            to_columns(field, row.get(field.name))
        except (ValueError, OverflowError) as error:
            raise ExchangeError(f"{noun.name}, row {number}: {field.name} {error}") from error
    try:
        _check_packed(noun, row)
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise ExchangeError(f"{noun.name}, row {number}: {_told(error)}") from error
    return {field.name: row.get(field.name) for field in noun.fields}


def _check_packed(noun: Noun, row: Row) -> None:
    """Raise when a value that holds more values is not what the store would have made of them."""
    if noun.name == "steps":
        StepRecord.model_validate(row["record"])
        StepRecord.model_validate(row["first_read"])
    elif noun.name == "hearings":
        unpack_transcript(row["transcript"])
    elif noun.name in ("moulds", "builds"):
        if named("name", row["name"])[1] != row["key"]:
            raise ValueError(f"key {row['key']!r} is not that of the name {row['name']!r}")
    elif noun.name == "notes" and row.get("clip") is not None:
        clip = unpack_clip(row["clip"])
        _check_medium(row, clip.sha256, clip.media_type, ("audio/", "video/"))
    elif noun.name == "photos":
        photo = unpack_photo(row["photo"])
        _check_medium(row, photo.sha256, photo.media_type, ("image/",))


def _check_medium(row: Row, sha256: str, media_type: str, kinds: tuple[str, ...]) -> None:
    """Raise for a medium that is not the one named, or of a kind that a browser could run."""
    if sha256 != row["media_sha256"] or not re.fullmatch("[0-9a-f]{64}", sha256):
        raise ValueError("media_sha256 is not the sum of its recording or photo")
    if not media_type.startswith(kinds) or "svg" in media_type or "xml" in media_type:
        raise ValueError(f"media_type {media_type!r} is none of {', '.join(kinds)}")


def _told(error: Exception) -> str:
    """Return what is wrong on one line, with the place of it in a step record."""
    if isinstance(error, ValidationError):
        first = error.errors()[0]
        return f"{'.'.join(map(str, first['loc']))}: {first['msg'][:1].lower()}{first['msg'][1:]}"
    return f"{error} is missing" if isinstance(error, KeyError) else str(error)


def _check_references(document: Mapping[str, list[Row]]) -> None:
    ids = {noun.name: {row["id"] for row in document[noun.name]} for noun in NOUNS}
    for noun in NOUNS:
        for field in noun.fields:
            if field.refers is not None:
                _check_column(noun, field.name, document[noun.name], ids[field.refers])
    for number, change in enumerate(document["changes"], 1):
        of = CHANGED.get(change["noun"])
        if of is None or change["noun_id"] not in ids[of]:
            raise ExchangeError(f"changes, row {number}: there is no {change['noun']} {change['noun_id']} in the file")


def _check_column(noun: Noun, name: str, rows: Iterable[Row], ids: set[int]) -> None:
    for number, row in enumerate(rows, 1):
        if row[name] is not None and row[name] not in ids:
            raise ExchangeError(f"{noun.name}, row {number}: {name} {row[name]} is not in the file")


def media_of(document: Mapping[str, Any]) -> dict[str, str]:
    """Return the sum of every recording and photo of a document, with its media type."""
    clips = {row["media_sha256"]: row["clip"] for row in document["notes"] if row["media_sha256"]}
    photos = {row["media_sha256"]: row["photo"] for row in document["photos"]}
    return {sha256: str((packed or {}).get("media_type", "")) for sha256, packed in (clips | photos).items()}
