from __future__ import annotations

import subprocess
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

import numpy as np
import pytest

from journal.capture.kind import CaptureError
from journal.capture.recording import SAMPLE_RATE, RecordingLimits, decode, probe, take_recording
from tests.capture.conftest import FORMATS, NOW, Encode, drawing, tone, written

LIMITS = RecordingLimits(max_bytes=1_000_000, max_seconds=10)


@pytest.mark.parametrize("media_type", FORMATS)
def test_every_format_is_probed_with_its_duration(encode: Encode, media_type: str) -> None:
    data = encode(media_type)
    found = probe(data, LIMITS)
    assert found.media_type == media_type
    assert found.size_bytes == len(data)
    assert found.sha256 == sha256(data).hexdigest()
    assert found.duration_s == pytest.approx(2.0, abs=0.15)


@pytest.mark.parametrize("media_type", FORMATS)
def test_every_format_decodes_to_the_same_sound(encode: Encode, media_type: str) -> None:
    samples = decode(encode(media_type))
    assert samples.dtype == np.float32
    assert len(samples) / SAMPLE_RATE == pytest.approx(2.0, abs=0.15)
    spectrum = np.abs(np.fft.rfft(samples[4000:28000]))
    assert np.argmax(spectrum) * SAMPLE_RATE / 24000 == pytest.approx(440, abs=1)
    assert np.sqrt(np.mean(samples[4000:28000] ** 2)) == pytest.approx(0.5 / np.sqrt(2), rel=0.1)


def test_a_lossless_recording_decodes_to_its_very_samples(encode: Encode) -> None:
    data = encode("audio/flac", 1.0, "-sample_fmt", "s16")
    assert decode(data) == pytest.approx(tone(1.0), abs=2 / 32768)


def test_stereo_at_another_rate_becomes_mono_at_16_khz(encode: Encode) -> None:
    samples = decode(encode("audio/wav", 1.0, "-ar", "48000", "-ac", "2"))
    assert samples.ndim == 1
    assert len(samples) == pytest.approx(SAMPLE_RATE, abs=50)


def test_a_path_is_read_like_bytes(encode: Encode, tmp_path: Path) -> None:
    data = encode("audio/ogg")
    file = tmp_path / "misnamed.jpg"
    file.write_bytes(data)
    assert probe(file, LIMITS) == probe(data, LIMITS)
    assert np.array_equal(decode(file), decode(data))


def test_the_name_of_the_media_type_comes_from_the_content(encode: Encode) -> None:
    assert probe(encode("audio/webm"), LIMITS).media_type == "audio/webm"


def test_the_time_in_the_file_is_used_with_its_zone(encode: Encode) -> None:
    data = encode("audio/mp4", 1.0, "-metadata", "creation_time=2026-05-04T11:30:00Z")
    clip = take_recording(data, LIMITS, None, NOW, UTC)
    assert (clip.recorded_at, clip.time_source) == (datetime(2026, 5, 4, 11, 30, tzinfo=UTC), "file")


def test_a_bare_year_in_the_file_is_no_time(encode: Encode) -> None:
    clip = take_recording(encode("audio/ogg", 1.0, "-metadata", "date=2025"), LIMITS, None, NOW, UTC)
    assert (clip.recorded_at, clip.time_source) == (NOW, "arrival")


def test_the_clients_time_wins(encode: Encode) -> None:
    given = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)
    clip = take_recording(encode("audio/webm"), LIMITS, given, NOW, UTC)
    assert (clip.recorded_at, clip.time_source) == (given, "given")
    assert clip.duration_s == pytest.approx(2.0, abs=0.15)


@pytest.mark.parametrize("media_type", ["audio/wav", "audio/mp4", "audio/webm", "audio/flac"])
def test_a_recording_too_long_is_refused_with_the_limit(encode: Encode, media_type: str) -> None:
    with pytest.raises(CaptureError, match="the limit is 10 s: send it in parts"):
        probe(encode(media_type, 12.0), LIMITS)


def test_a_recording_too_large_is_refused_before_it_is_opened() -> None:
    with pytest.raises(CaptureError, match="MOULDBOOK_MAX_BYTES"):
        probe(bytes(1_000_001), LIMITS)


def test_an_empty_recording_is_refused() -> None:
    with pytest.raises(CaptureError, match="The file is empty"):
        probe(b"", LIMITS)


def test_a_wav_that_breaks_off_is_refused_with_where(encode: Encode, tmp_path: Path) -> None:
    file = tmp_path / "whole.flac"
    file.write_bytes(encode("audio/flac", 4.0))
    whole = tmp_path / "whole.wav"
    subprocess.run(["ffmpeg", "-v", "error", "-i", file, whole], check=True)
    data = whole.read_bytes()
    with pytest.raises(CaptureError, match=r"breaks off, \d+ bytes are missing"):
        probe(data[: len(data) // 2], LIMITS)


FRAGMENTS = ["-movflags", "frag_keyframe+empty_moov+default_base_moof", "-frag_duration", "1000000"]


@pytest.mark.parametrize("options", [[], FRAGMENTS], ids=["one fragment", "a fragment a second"])
@pytest.mark.parametrize("share", [0.35, 0.5, 0.55, 0.75, 0.9, 0.97])
def test_an_mp4_in_fragments_that_breaks_off_within_one_gives_what_is_there(
    encode: Encode, tmp_path: Path, options: list[str], share: float
) -> None:
    whole = encode("audio/mp4", 6.0, *options)
    cut = whole[: int(len(whole) * share)]
    found = probe(cut, LIMITS)
    assert found.duration_s == pytest.approx(6.0 * share, abs=0.6)
    assert found.warnings == (f"cut short: it breaks off after {found.duration_s:.1f} s",)
    assert (found.size_bytes, found.sha256) == (len(cut), sha256(cut).hexdigest())
    assert len(decode(cut)) / SAMPLE_RATE == pytest.approx(found.duration_s, abs=0.1)
    assert np.array_equal(decode(cut)[: 16000], decode(whole)[: 16000])  # fmt: skip
    file = tmp_path / "cut.m4a"
    file.write_bytes(cut)
    assert probe(file, LIMITS) == found
    clip = take_recording(cut, LIMITS, None, NOW, UTC)
    assert clip.warnings == found.warnings


def test_a_whole_mp4_in_fragments_has_nothing_to_warn_of(encode: Encode) -> None:
    assert probe(encode("audio/mp4", 6.0), LIMITS).warnings == ()
    assert probe(encode("audio/mp4", 6.0, *FRAGMENTS), LIMITS).warnings == ()


def test_an_mp4_that_breaks_off_before_its_first_sound_is_refused(encode: Encode) -> None:
    whole = encode("audio/mp4", 6.0)
    with pytest.raises(CaptureError, match=r"(holds no sound|damaged or cut short)"):
        probe(whole[: whole.index(b"mdat") + 6], LIMITS)


@pytest.mark.parametrize("media_type", FORMATS)
def test_a_header_alone_is_refused(encode: Encode, media_type: str) -> None:
    with pytest.raises(CaptureError, match=r"(holds no sound|damaged or cut short|breaks off)"):
        probe(encode(media_type)[:70], LIMITS)


@pytest.mark.parametrize("media_type", FORMATS)
def test_garbage_behind_a_right_beginning_is_refused_on_one_line(encode: Encode, media_type: str) -> None:
    data = bytearray(encode(media_type))
    garbage = np.random.default_rng(11).integers(0, 256, len(data) - 64, dtype=np.uint8)
    data[64:] = garbage.tobytes()
    with pytest.raises(CaptureError, match=r"^[^\n]*send it again|[^\n]*record it again|[^\n]*breaks off[^\n]*$"):
        probe(bytes(data), LIMITS)


def test_a_photo_is_no_recording() -> None:
    with pytest.raises(CaptureError, match="This is no recording"):
        probe(written(drawing(), "JPEG"), LIMITS)
