"""Recordings: what they are, how long, when made, and their sound as the hearing wants it.

Nothing here alters the bytes that it is given.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, tzinfo
from pathlib import Path
from typing import BinaryIO

import av
import numpy as np
from av.container import InputContainer
from numpy.typing import NDArray

from journal.capture.kind import (
    TAKEN_IN,
    CaptureError,
    choose_time,
    first_bytes,
    media_type,
    size_and_digest,
)
from journal.record import Clip

SAMPLE_RATE = 16_000
# A container may round its duration, and encoders add a few frames of their own.
WHOLE_SHARE, WHOLE_SLACK_S = 0.95, 0.5

Samples = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class RecordingLimits:
    """The largest and longest recording that is taken in."""

    max_bytes: int = 100_000_000
    max_seconds: float = 900.0


@dataclass(frozen=True, slots=True)
class Probe:
    """What a recording's bytes tell of it. `made_at` may lack a zone, and is None when they do not say."""

    media_type: str
    size_bytes: int
    sha256: str
    duration_s: float
    made_at: datetime | None
    warnings: tuple[str, ...] = ()


def take_recording(
    source: bytes | Path,
    limits: RecordingLimits,
    given: datetime | None,
    arrival: datetime,
    zone: tzinfo,
) -> Clip:
    """Return the recording's clip: `given` is the client's time for it, `zone` the shop's.

    Raises CaptureError with one line that says what is wrong and what to do.
    """
    found = probe(source, limits)
    recorded_at, time_source = choose_time(given, found.made_at, arrival, zone)
    return Clip(
        sha256=found.sha256,
        media_type=found.media_type,
        size_bytes=found.size_bytes,
        duration_s=found.duration_s,
        recorded_at=recorded_at,
        time_source=time_source,
        warnings=found.warnings,
    )


def probe(source: bytes | Path, limits: RecordingLimits) -> Probe:
    """Return what a recording is, having decoded all of it: browsers leave its duration out.

    One that a phone recorded in fragments and that ends within one (its battery died) is as long as what can be
    decoded, with a warning. Raises CaptureError when it is empty, otherwise cut short, too large, too long, or no
    recording.
    """
    size, digest = size_and_digest(source, limits.max_bytes)
    kind = media_type(first_bytes(source))
    if kind is None or not kind.startswith("audio/"):
        raise CaptureError(f"This is no recording: {TAKEN_IN}.")
    if kind == "audio/wav" and (missing := _missing_riff_bytes(first_bytes(source), size)):
        raise CaptureError(f"The recording breaks off, {missing} bytes are missing: send the whole file again.")
    with _opened(source) as container:
        declared_s = _declared_seconds(container)
        if declared_s and declared_s > limits.max_seconds:
            raise _too_long(declared_s, limits.max_seconds)
        made_at = _made_at(container)
        heard_s = 0.0
        for frame in _frames(container):
            heard_s += frame.samples / frame.sample_rate
            if heard_s > limits.max_seconds + WHOLE_SLACK_S:
                raise _too_long(heard_s, limits.max_seconds)
    if heard_s == 0:
        raise CaptureError("The recording holds no sound: record it again.")
    if _usable_bytes(source) is not None:
        return Probe(kind, size, digest, heard_s, made_at, (f"cut short: it breaks off after {heard_s:.1f} s",))
    _check_whole(heard_s, declared_s)
    return Probe(kind, size, digest, heard_s, made_at)


def _check_whole(heard_s: float, declared_s: float | None) -> None:
    if declared_s and heard_s < declared_s * WHOLE_SHARE - WHOLE_SLACK_S:
        raise CaptureError(
            f"The recording breaks off after {heard_s:.1f} s of {declared_s:.1f} s: send the whole file again."
        )


def decode(source: bytes | Path) -> Samples:
    """Return a recording's sound: mono, 16 kHz, float32 in -1 to 1. Raises CaptureError."""
    resampler = av.AudioResampler(format="flt", layout="mono", rate=SAMPLE_RATE)
    pieces = []
    with _opened(source) as container:
        for frame in _frames(container):
            pieces += [part.to_ndarray()[0] for part in resampler.resample(frame)]
        if pieces:
            pieces += [part.to_ndarray()[0] for part in resampler.resample(None)]
    if not pieces:
        raise CaptureError("The recording holds no sound: record it again.")
    return np.concatenate(pieces).astype(np.float32, copy=False)


@contextmanager
def _opened(source: bytes | Path) -> Iterator[InputContainer]:
    usable = _usable_bytes(source)
    file: io.BytesIO | str = str(source) if isinstance(source, Path) else io.BytesIO(source)
    if usable is not None:
        file = io.BytesIO((source if isinstance(source, bytes) else source.read_bytes())[:usable])
    try:
        container = av.open(file, mode="r", metadata_errors="ignore")
    except (av.FFmpegError, ValueError) as error:
        raise CaptureError("The recording is damaged or cut short: send it again.") from error
    with container:
        if not container.streams.audio:
            raise CaptureError("The file holds no sound: record it again.")
        yield container


def _frames(container: InputContainer) -> Iterator[av.AudioFrame]:
    """Yield what can be decoded. A frame that is damaged is left out, as players do."""
    packets = container.demux(audio=0)
    while True:
        try:
            packet = next(packets)
            frames = packet.decode()
        except StopIteration:
            return
        except av.FFmpegError:
            continue
        for frame in frames:
            if isinstance(frame, av.AudioFrame):
                frame.pts = None
                yield frame


def _declared_seconds(container: InputContainer) -> float | None:
    if container.duration:
        return container.duration / av.time_base
    stream = container.streams.audio[0]
    if stream.duration and stream.time_base:
        return float(stream.duration * stream.time_base)
    return None


def _missing_riff_bytes(head: bytes, size: int) -> int:
    """Return how many bytes a RIFF header promises beyond those that are there (FFmpeg does not mind them)."""
    promised = int.from_bytes(head[4:8], "little") + 8
    streamed = promised > 0x7FFFF000  # written to a pipe: the length was not known
    return 0 if streamed else max(0, promised - size)


def _usable_bytes(source: bytes | Path) -> int | None:
    """Return how much there is to decode of an MP4 written in fragments that ends within one; None for all else.

    Sound that breaks off can be decoded as far as it goes; a box that describes sound is no use without its end
    (ISO/IEC 14496-12, 4.2 and 8.8).
    """
    if media_type(first_bytes(source)) != "audio/mp4":
        return None
    with io.BytesIO(source) if isinstance(source, bytes) else source.open("rb") as file:
        size = file.seek(0, io.SEEK_END)
        fragmented = False
        for offset, length, kind in _boxes(file, size):
            fragmented |= kind == b"moof"
            if offset + length > size:
                return (size if kind == b"mdat" else offset) if fragmented else None
    return None


def _boxes(file: BinaryIO, size: int) -> Iterator[tuple[int, int, bytes]]:
    """Yield offset, length and kind of the outermost boxes of an MP4, as far as they make sense."""
    offset = 0
    while offset < size:
        file.seek(offset)
        head = file.read(16).ljust(16, b"\xff")
        length, kind = int.from_bytes(head[:4]), head[4:8]
        if length == 1:  # a large box has its length behind its kind
            length = int.from_bytes(head[8:])
        elif length == 0:  # the last box may go on to the end
            length = size - offset
        if length < 8:
            return
        yield offset, length, kind
        offset += length


def _made_at(container: InputContainer) -> datetime | None:
    """Return the time in the container's or stream's own metadata; a bare date is not a time."""
    tags = {**container.streams.audio[0].metadata, **container.metadata}
    lower = {key.lower(): value for key, value in tags.items()}
    for key in ("creation_time", "com.apple.quicktime.creationdate", "date"):
        value = lower.get(key, "")
        if len(value) <= len("2026-05-04"):
            continue
        try:
            return datetime.fromisoformat(value)
        except ValueError:
            continue
    return None


def _too_long(seconds: float, limit: float) -> CaptureError:
    return CaptureError(
        f"The recording lasts {seconds:.0f} s or more and the limit is {limit:.0f} s: "
        "send it in parts, or raise MOULDBOOK_MAX_SECONDS."
    )
