"""Lines of JSON in, lines of JSON out: what `mouldbook read --lines` does."""

from __future__ import annotations

import json
import logging
from collections.abc import Iterable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from journal import flow
from journal.read.recall import EMPTY, Memory
from journal.record import NoteText, step_to_json
from journal.shop import Shop

log = logging.getLogger(__name__)


class LineError(ValueError):
    """A line that is no note; the message says what is wrong with it."""


def read_lines(shop: Shop, lines: Iterable[str], folder: Path) -> Iterator[dict[str, Any]]:
    """Read one JSON object a line and yield one answer each, in order; a bad line's answer is its error.

    Lines that share `build` are read in the light of the earlier ones. `audio` paths are relative to `folder`.
    """
    memories: dict[str, Memory] = {}
    for line in lines:
        if line.strip():
            yield _answer(shop, line, folder, memories)


def _answer(shop: Shop, line: str, folder: Path, memories: dict[str, Memory]) -> dict[str, Any]:
    row: dict[str, Any] = {}
    try:
        row = _row(line)
        note = _note(shop, row, folder)
    except (*flow.USER_ERRORS, LineError) as error:
        return {"id": row.get("id"), "error": str(error)}
    build = str(row["build"]) if row.get("build") is not None else None
    try:
        reading = flow.read_only(shop, note, memories.get(build, EMPTY) if build is not None else EMPTY)
    except Exception as error:  # a fault of ours in one note must not cost the others
        log.exception("note %s", row.get("id"))
        return {"id": row.get("id"), "error": f"{flow.OUR_FAULT}: {error!r}"}
    if build is not None:
        memories[build] = reading.memory
    heard = {"text": note.text} if note.transcript is not None else {}
    return {"id": row.get("id"), **heard, "steps": [step_to_json(step) for step in reading.steps]}


def _row(line: str) -> dict[str, Any]:
    try:
        row = json.loads(line)
    except ValueError as error:
        raise LineError(f"not JSON: {error}") from error
    if not isinstance(row, dict):
        raise LineError("must be a JSON object")
    return row


def _note(shop: Shop, row: dict[str, Any], folder: Path) -> NoteText:
    recorded_at, locale = _time(row.get("recorded_at")), row.get("locale") or shop.settings.locale
    if locale not in ("en-GB", "en-US"):
        raise LineError(f"locale must be en-GB or en-US, got {locale!r}")
    if isinstance(row.get("text"), str):
        return NoteText(row["text"], recorded_at, locale)
    if isinstance(row.get("audio"), str):
        heard = flow.hear_only(shop, flow.file_bytes(folder / row["audio"]))
        return NoteText(heard.text, recorded_at, locale, heard)
    raise LineError("needs text, or audio: the path of a recording")


def _time(text: Any) -> datetime | None:
    if text is None:
        return None
    try:
        return datetime.fromisoformat(text)
    except (TypeError, ValueError):
        raise LineError(f"recorded_at must be an ISO 8601 time, got {text!r}") from None
