"""What a file is, by its first bytes and never by its name; and when it was made."""

from __future__ import annotations

import codecs
import hashlib
from datetime import datetime, timedelta, tzinfo
from pathlib import Path
from typing import Literal

Kind = Literal["recording", "photo", "text"]
TimeSource = Literal["given", "file", "arrival"]

# A file's clock may be a little ahead of ours; one that is further ahead is wrong.
CLOCK_TOLERANCE = timedelta(minutes=5)
# No phone, camera or browser that we read is older: an earlier date is a clock that was never set.
FIRST_YEAR = 2000

TAKEN_IN = "recordings (wav, webm, ogg, m4a, mp3, flac), photos (jpeg, png, webp, heic) and text are taken in"
_HEIF_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1")
_HEAD_BYTES = 64


class CaptureError(Exception):
    """A file that cannot be taken in; the message says in one line why and what to do."""


def media_type(data: bytes) -> str | None:
    """Return the media type that the first bytes (at least 64 of them) tell, or None for none that we take."""
    if data[:4] == b"RIFF":
        return {b"WAVE": "audio/wav", b"WEBP": "image/webp"}.get(data[8:12])
    if data[4:8] == b"ftyp":
        brands = {data[i : i + 4] for i in (8, *range(16, _HEAD_BYTES, 4))}
        return "image/heic" if brands & set(_HEIF_BRANDS) else "audio/mp4"
    for magic, name in (
        (b"\x1aE\xdf\xa3", "audio/webm"),
        (b"OggS", "audio/ogg"),
        (b"fLaC", "audio/flac"),
        (b"ID3", "audio/mpeg"),
        (b"\xff\xd8\xff", "image/jpeg"),
        (b"\x89PNG\r\n\x1a\n", "image/png"),
    ):
        if data.startswith(magic):
            return name
    # MPEG audio without a tag: eleven set bits, two of version, then 01 for layer III.
    if len(data) > 2 and data[0] == 0xFF and data[1] & 0xE6 == 0xE2:
        return "audio/mpeg"
    return None


def media_kind(data: bytes) -> Kind:
    """Return what a file's bytes hold. Raises CaptureError for an empty file and for anything else."""
    if not data:
        raise CaptureError("The file is empty: record or save it again.")
    found = media_type(data)
    if found:
        return "recording" if found.startswith("audio/") else "photo"
    read_text(data)
    return "text"


def read_text(data: bytes) -> str:
    """Return the text of a typed note in UTF-8 (or UTF-16 with its mark). Raises CaptureError."""
    utf16 = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = data.decode("utf-16" if utf16 else "utf-8-sig").strip()
    except UnicodeDecodeError:
        text = "\0"
    if any(ord(sign) < 32 and sign not in "\t\n\r\f" for sign in text):
        raise CaptureError(f"This is not a file that can be read: {TAKEN_IN}.")
    if not text:
        raise CaptureError("The text is empty: type what was done.")
    return text


def size_and_digest(source: bytes | Path, max_bytes: int) -> tuple[int, str]:
    """Return a file's size in bytes and its SHA-256. Raises CaptureError when it is empty or too large."""
    size = len(source) if isinstance(source, bytes) else source.stat().st_size
    if size == 0:
        raise CaptureError("The file is empty: record or save it again.")
    if size > max_bytes:
        raise CaptureError(
            f"The file has {size / 1e6:.1f} MB and the limit is {max_bytes / 1e6:.1f} MB: "
            "send a shorter or smaller one, or raise MOULDBOOK_MAX_BYTES."
        )
    if isinstance(source, bytes):
        return size, hashlib.sha256(source).hexdigest()
    with source.open("rb") as file:
        return size, hashlib.file_digest(file, "sha256").hexdigest()


def first_bytes(source: bytes | Path) -> bytes:
    """Return enough of a file's beginning for `media_type`."""
    if isinstance(source, bytes):
        return source[:_HEAD_BYTES]
    with source.open("rb") as file:
        return file.read(_HEAD_BYTES)


def choose_time(
    given: datetime | None, in_file: datetime | None, arrival: datetime, zone: tzinfo
) -> tuple[datetime, TimeSource]:
    """Return when something was made, and who says so: the client, else the file, else its arrival.

    Times without a zone are in the shop's `zone`. A file's time that lies in the future, or before
    any such device, is a clock that was not set and is not believed. `arrival` is aware.
    """
    if given is not None:
        return _in_zone(given, zone), "given"
    if in_file is not None:
        in_file = _in_zone(in_file, zone)
        if in_file.year >= FIRST_YEAR and in_file <= arrival + CLOCK_TOLERANCE:
            return in_file, "file"
    return arrival, "arrival"


def _in_zone(when: datetime, zone: tzinfo) -> datetime:
    return when if when.utcoffset() is not None else when.replace(tzinfo=zone)
