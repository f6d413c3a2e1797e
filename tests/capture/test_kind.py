from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from journal.capture.kind import CaptureError, choose_time, media_kind, read_text, size_and_digest
from tests.capture.conftest import FORMATS, NOW, Encode, drawing, written

SHOP = ZoneInfo("Europe/London")


@pytest.mark.parametrize("media_type", FORMATS)
def test_a_recording_is_known_by_its_bytes(encode: Encode, media_type: str) -> None:
    assert media_kind(encode(media_type, 0.3)) == "recording"


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_a_photo_is_known_by_its_bytes(form: str) -> None:
    assert media_kind(written(drawing(), form)) == "photo"


@pytest.mark.parametrize(
    "data",
    [
        b"mixed 400 of resin",
        "21 °C, 58 %".encode(),
        b"\xef\xbb\xbfwith a mark",
        "from a Windows editor".encode("utf-16"),
    ],
)
def test_typed_text_is_text(data: bytes) -> None:
    assert media_kind(data) == "text"


def test_text_comes_without_its_byte_order_mark_and_outer_blanks() -> None:
    assert read_text(b"\xef\xbb\xbf  mixed it \r\n") == "mixed it"


@pytest.mark.parametrize(
    "data", [b"\x7fELF\x02\x01\x01\0\0\0", b"PK\x03\x04\x14\0\0\0\x08\0", b"%PDF-1.7\n\xe2\xe3\xcf\xd3"]
)
def test_other_files_are_refused_with_what_is_taken(data: bytes) -> None:
    with pytest.raises(CaptureError, match=r"recordings .* photos .* and text are taken in"):
        media_kind(data)


def test_an_empty_file_is_refused() -> None:
    with pytest.raises(CaptureError, match="empty: record or save it again"):
        media_kind(b"")


def test_blank_text_is_refused() -> None:
    with pytest.raises(CaptureError, match="The text is empty"):
        media_kind(b" \n\t ")


def test_size_and_digest_agree_between_bytes_and_a_file(tmp_path: Path) -> None:
    file = tmp_path / "note.txt"
    file.write_bytes(b"abc")
    # SHA-256 of "abc": FIPS 180-4 example.
    expected = (3, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")
    assert size_and_digest(b"abc", 10) == size_and_digest(file, 10) == expected


def test_too_many_bytes_are_refused_with_the_limit() -> None:
    with pytest.raises(CaptureError, match=r"2\.0 MB and the limit is 1\.0 MB.*MOULDBOOK_MAX_BYTES"):
        size_and_digest(bytes(2_000_000), 1_000_000)


def test_the_clients_time_comes_before_the_files_and_that_before_arrival() -> None:
    given, in_file = NOW - timedelta(hours=2), NOW - timedelta(hours=1)
    assert choose_time(given, in_file, NOW, SHOP) == (given, "given")
    assert choose_time(None, in_file, NOW, SHOP) == (in_file, "file")
    assert choose_time(None, None, NOW, SHOP) == (NOW, "arrival")


def test_a_files_time_without_a_zone_is_the_shops() -> None:
    when, source = choose_time(None, datetime(2026, 5, 4, 14, 0), NOW, SHOP)  # noqa: DTZ001
    assert (when.astimezone(UTC), source) == (datetime(2026, 5, 4, 13, 0, tzinfo=UTC), "file")


@pytest.mark.parametrize("wrong", [datetime(1970, 1, 1, tzinfo=UTC), NOW + timedelta(days=1)])
def test_a_files_clock_that_was_not_set_is_not_believed(wrong: datetime) -> None:
    assert choose_time(None, wrong, NOW, SHOP) == (NOW, "arrival")
