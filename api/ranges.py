"""Byte ranges (RFC 9110, section 14) of anything seekable, so that a recording can be played from its middle."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import BinaryIO

from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from api.problems import Problem

CHUNK_BYTES = 64 * 1024
_RANGE = re.compile(r"bytes=(\d*)-(\d*)")


@dataclass(frozen=True, slots=True)
class Stored:
    """Bytes that can be served: how to open them, how many, their type, and a tag that changes with them."""

    open: Callable[[], BinaryIO]
    size: int
    media_type: str
    tag: str

    @classmethod
    def of(cls, data: bytes, media_type: str, tag: str) -> Stored:
        """Return bytes in hand, ready to be served."""
        return cls(lambda: BytesIO(data), len(data), media_type, tag)


def wanted(header: str | None, size: int) -> tuple[int, int] | None:
    """Return [first, last] of the one range asked for, or None for the whole. Raises Problem 416.

    Several ranges at once, and units other than bytes, are answered with the whole, as the standard allows.
    """
    match = _RANGE.fullmatch(header.strip()) if header else None
    if match is None or match.groups() == ("", ""):
        return None
    first, last = match.groups()
    if first and last and int(last) < int(first):
        return None
    begin = int(first) if first else max(0, size - int(last))
    end = min(int(last), size - 1) if first and last else size - 1
    if begin >= size:
        raise Problem(
            416, f"There are {size} bytes: ask for a range within them.", {"content-range": f"bytes */{size}"}
        )
    return begin, end


def _pieces(stored: Stored, begin: int, length: int) -> Iterator[bytes]:
    with stored.open() as file:
        file.seek(begin)
        while length > 0 and (piece := file.read(min(CHUNK_BYTES, length))):
            length -= len(piece)
            yield piece


def serve(request: Request, stored: Stored) -> Response:
    """Return the bytes, or the range of them that was asked for."""
    tag = f'"{stored.tag}"'
    headers = {
        "accept-ranges": "bytes",
        "etag": tag,
        "cache-control": "private, max-age=31536000, immutable",
        "content-length": str(stored.size),
    }
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers={"etag": tag, "cache-control": headers["cache-control"]})
    fresh = request.headers.get("if-range", tag) == tag
    part = wanted(request.headers.get("range"), stored.size) if fresh else None
    begin, end = part or (0, stored.size - 1)
    if part:
        headers |= {"content-range": f"bytes {begin}-{end}/{stored.size}", "content-length": str(end - begin + 1)}
    return StreamingResponse(
        _pieces(stored, begin, end - begin + 1),
        status_code=206 if part else 200,
        headers=headers,
        media_type=stored.media_type,
    )
