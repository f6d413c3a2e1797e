"""Files and words as they arrive: a form, JSON, or the bare bytes, into what the shop takes in.

The guard has counted the bytes on their way (`api.access`); nothing here looks inside them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime
from email.message import Message
from typing import Any

from fastapi import Request
from starlette.datastructures import UploadFile

from api.context import device_name
from api.problems import Problem
from journal.capture.kind import CaptureError, Kind, media_kind
from journal.flow import Incoming

FIELDS = {
    "recorded_at": {"type": "string", "format": "date-time", "description": "With its offset from UTC"},
    "who": {"type": "string", "example": "lead maker"},
    "device": {"type": "string", "example": "bench phone"},
    "client_key": {"type": "string", "description": "The sender's own name for it: sending again is safe"},
}
FORMS = frozenset({"multipart/form-data", "application/x-www-form-urlencoded"})
_FILE = {"type": "string", "format": "binary"}
_AT = "2026-04-13T13:12:00+01:00"


def _body(kind: str, with_text: bool) -> dict[str, Any]:
    text = {"text": {"type": "string", "example": "Two coats of wax."}} if with_text else {}
    content: dict[str, Any] = {
        "multipart/form-data": {"schema": {"type": "object", "properties": {"file": _FILE, **text, **FIELDS}}},
        f"{kind}/*": {"schema": _FILE},
    }
    if with_text:
        content["application/json"] = {
            "schema": {"type": "object", "required": ["text"], "properties": {**text, **FIELDS}},
            "example": {"text": "Two coats of wax, an hour between.", "recorded_at": _AT, "who": "lead maker"},
        }
    parameters = [
        {"name": name, "in": "query", "schema": schema, "description": "With a bare body; in a form, a field"}
        for name, schema in FIELDS.items()
    ]
    return {"requestBody": {"required": True, "content": content}, "parameters": parameters}


NOTE_BODY = _body("audio", with_text=True)
PHOTO_BODY = _body("image", with_text=False)


def _text_of(fields: Mapping[str, Any], name: str) -> str | None:
    value = fields.get(name)
    if value is not None and not isinstance(value, str):
        raise Problem(422, f"{name}: give text.")
    return value.strip() or None if value is not None else None


def _time_of(fields: Mapping[str, Any]) -> datetime | None:
    said = _text_of(fields, "recorded_at")
    if said is None:
        return None
    try:
        moment = datetime.fromisoformat(said)
    except ValueError:
        moment = None
    if moment is None or moment.tzinfo is None:
        raise Problem(422, f"recorded_at: '{said}' is no time with an offset; write it like {_AT}.")
    return moment


def _incoming(request: Request, data: bytes, filename: str | None, fields: Mapping[str, Any]) -> Incoming:
    return Incoming(
        data=data,
        filename=filename or "",
        given_time=_time_of(fields),
        who=_text_of(fields, "who"),
        device=device_name(request, _text_of(fields, "device")),
        client_key=_text_of(fields, "client_key"),
    )


def _typed(request: Request, text: str | None, fields: Mapping[str, Any]) -> Incoming:
    if text is None:
        raise Problem(422, "There is no note in this: send a recording as 'file', or words as 'text'.")
    return _incoming(request, text.encode(), "note.txt", fields)


async def _json_fields(request: Request) -> Mapping[str, Any]:
    try:
        fields = json.loads(await request.body())
    except ValueError:
        fields = None
    if not isinstance(fields, dict):
        raise Problem(422, 'This is no JSON object: send one like {"text": "Two coats of wax."}.')
    return fields


def _kind(request: Request) -> str:
    header = Message()
    header["content-type"] = request.headers.get("content-type", "")
    return header.get_content_type() if request.headers.get("content-type") else ""


def kind_of(incoming: Incoming) -> Kind:
    """Return what the bytes are. Raises Problem 415 for what is never taken in, CaptureError for no bytes."""
    try:
        return media_kind(incoming.data)
    except CaptureError as error:
        if not incoming.data.strip():
            raise
        raise Problem(415, str(error)) from error


async def note_in(request: Request) -> Incoming:
    """Return the recording or the typed words of a request. Raises Problem on one with neither."""
    kind = _kind(request)
    if kind == "application/json":
        fields = await _json_fields(request)
        return _typed(request, _text_of(fields, "text"), fields)
    if kind == "text/plain":
        return _typed(request, (await request.body()).decode(errors="replace").strip() or None, request.query_params)
    files = await files_in(request)
    if files:
        return files[0]
    form = await request.form()
    return _typed(request, _text_of(form, "text"), form)


async def photo_in(request: Request) -> Incoming:
    """Return the first picture of a request. Raises Problem on one with none."""
    files = await files_in(request)
    if not files:
        raise Problem(422, "There is no picture in this: send one as 'file', or as the bare body.")
    return files[0]


async def files_in(request: Request) -> list[Incoming]:
    """Return every file of a form, or the one bare body. A file field left empty counts as no file."""
    if _kind(request) not in FORMS:
        return [_incoming(request, await request.body(), None, request.query_params)]
    async with request.form() as form:
        files = [part for part in form.getlist("file") if isinstance(part, UploadFile) and part.filename]
        # One key names one thing: with several files in a form it would name them all.
        fields = dict(form) if len(files) == 1 else {k: v for k, v in form.items() if k != "client_key"}
        return [_incoming(request, await part.read(), part.filename, fields) for part in files]
