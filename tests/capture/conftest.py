"""Recordings and photos written by other programs and libraries."""

from __future__ import annotations

import io
import shutil
import subprocess
from collections.abc import Callable
from datetime import UTC, datetime

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageDraw

NOW = datetime(2026, 5, 4, 14, 10, tzinfo=UTC)
# How a file of each kind is made by ffmpeg; a pipe cannot be rewound, so that webm gets no duration, as from a browser.
FORMATS = {
    "audio/wav": ["-f", "wav"],
    "audio/webm": ["-f", "webm", "-c:a", "libopus", "-b:a", "32k"],
    "audio/ogg": ["-f", "ogg", "-c:a", "libopus"],
    "audio/mp4": ["-f", "mp4", "-c:a", "aac", "-movflags", "frag_keyframe+empty_moov"],
    "audio/mpeg": ["-f", "mp3", "-c:a", "libmp3lame", "-write_xing", "0", "-id3v2_version", "0"],
    "audio/flac": ["-f", "flac"],
}
Tone = NDArray[np.float32]
Encode = Callable[..., bytes]


def tone(seconds: float = 2.0, rate: int = 16_000) -> Tone:
    """Return a tone of 440 Hz at half of full scale."""
    return (0.5 * np.sin(2 * np.pi * 440 * np.arange(int(seconds * rate)) / rate)).astype(np.float32)


@pytest.fixture(scope="session")
def encode() -> Encode:
    """Return a function that has ffmpeg write a tone as a recording of a media type."""
    if not shutil.which("ffmpeg"):
        pytest.skip("ffmpeg is not installed")

    def run(media_type: str, seconds: float = 2.0, *options: str) -> bytes:
        command = ["ffmpeg", "-v", "error", "-f", "f32le", "-ar", "16000", "-ac", "1", "-i", "-"]
        command += [*FORMATS[media_type], *options, "-"]
        return subprocess.run(command, input=tone(seconds).tobytes(), capture_output=True, check=True).stdout

    return run


def drawing(size: tuple[int, int] = (640, 480)) -> Image.Image:
    """Return a drawn picture with sharp edges: red on the left, blue on the right."""
    image = Image.new("RGB", size, (200, 60, 50))
    draw = ImageDraw.Draw(image)
    draw.rectangle((size[0] // 2, 0, *size), fill=(50, 70, 190))
    for x in range(0, size[0], 20):
        draw.line((x, 0, x // 2, size[1]), fill=(240, 240, 230), width=2)
    return image


def written(image: Image.Image, form: str, **options: object) -> bytes:
    """Return the picture as the bytes of a file."""
    out = io.BytesIO()
    image.save(out, form, **options)
    return out.getvalue()
