from __future__ import annotations

import io
import json
import shutil
import subprocess
from datetime import UTC, datetime, timedelta, timezone
from hashlib import sha256
from pathlib import Path
from zoneinfo import ZoneInfo

import piexif
import pytest
from PIL import Image, ImageFilter

from journal.capture.kind import CaptureError
from journal.capture.photo import PhotoLimits, make_copies, quality_warnings, take_photo
from journal.record import Photo
from tests.capture.conftest import NOW, drawing, written

LIMITS = PhotoLimits(max_bytes=5_000_000, max_pixels=2_000_000)
SHOP = ZoneInfo("Europe/London")
POSITION = {
    piexif.GPSIFD.GPSLatitudeRef: b"N",
    piexif.GPSIFD.GPSLatitude: ((51, 1), (30, 1), (0, 1)),
    piexif.GPSIFD.GPSLongitudeRef: b"W",
    piexif.GPSIFD.GPSLongitude: ((0, 1), (7, 1), (0, 1)),
}


def with_exif(when: bytes | None, offset: bytes | None = None, orientation: int = 1) -> bytes:
    """Return a jpeg whose EXIF was written by piexif, with a position in it."""
    exif: dict[int, bytes] = {}
    if when:
        exif[piexif.ExifIFD.DateTimeOriginal] = when
    if offset:
        exif[piexif.ExifIFD.OffsetTimeOriginal] = offset
    tags = {"0th": {piexif.ImageIFD.Orientation: orientation}, "Exif": exif, "GPS": POSITION}
    return written(drawing(), "JPEG", exif=piexif.dump(tags), quality=90)


def take(data: bytes) -> Photo:
    return take_photo(data, LIMITS, None, NOW, SHOP)


@pytest.mark.parametrize(
    ("form", "media_type"),
    [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/webp"), ("HEIF", "image/heic")],
)
def test_every_format_is_taken_in(form: str, media_type: str) -> None:
    data = written(drawing(), form)
    photo = take(data)
    assert (photo.media_type, photo.width, photo.height) == (media_type, 640, 480)
    assert (photo.size_bytes, photo.sha256) == (len(data), sha256(data).hexdigest())
    assert (photo.taken_at, photo.time_source) == (NOW, "arrival")
    assert photo.warnings == ()


def test_exif_time_with_its_offset_is_used() -> None:
    photo = take(with_exif(b"2026:05:04 12:30:15", b"+02:00"))
    assert photo.taken_at == datetime(2026, 5, 4, 12, 30, 15, tzinfo=timezone(timedelta(hours=2)))
    assert photo.taken_at.utcoffset() == timedelta(hours=2)
    assert photo.time_source == "file"


def test_exif_time_without_offset_is_in_the_shops_zone() -> None:
    photo = take(with_exif(b"2026:05:04 12:30:15"))
    assert photo.taken_at.astimezone(UTC) == datetime(2026, 5, 4, 11, 30, 15, tzinfo=UTC)


@pytest.mark.parametrize("when", [b"0000:00:00 00:00:00", b"    :  :     :  :  ", b"nonsense", b"2031:01:01 10:00:00"])
def test_an_exif_time_that_cannot_be_is_not_believed(when: bytes) -> None:
    assert take(with_exif(when)).time_source == "arrival"


def test_the_clients_time_wins() -> None:
    given = NOW - timedelta(days=1)
    photo = take_photo(with_exif(b"2026:05:04 12:30:15"), LIMITS, given, NOW, SHOP)
    assert (photo.taken_at, photo.time_source) == (given, "given")


def test_exiftool_reads_the_same_time_from_the_same_file(tmp_path: Path) -> None:
    if not shutil.which("exiftool"):
        pytest.skip("exiftool is not installed")
    file = tmp_path / "photo.jpg"
    file.write_bytes(written(drawing(), "JPEG"))
    tags = ["-DateTimeOriginal=2026:05:03 08:15:00", "-OffsetTimeOriginal=-05:00", "-Orientation#=8"]
    subprocess.run(["exiftool", "-q", "-overwrite_original", *tags, file], check=True)
    photo = take_photo(file, LIMITS, None, NOW, SHOP)
    out = subprocess.run(
        ["exiftool", "-j", "-d", "%Y-%m-%dT%H:%M:%S", "-DateTimeOriginal", "-OffsetTimeOriginal", file],
        check=True,
        capture_output=True,
    ).stdout
    [theirs] = json.loads(out)
    assert photo.taken_at.isoformat() == theirs["DateTimeOriginal"] + theirs["OffsetTimeOriginal"]
    assert (photo.width, photo.height) == (480, 640)


@pytest.mark.parametrize(("orientation", "red_at"), [(1, "left"), (3, "right"), (6, "top"), (8, "bottom")])
def test_copies_stand_upright_and_the_original_is_untouched(orientation: int, red_at: str) -> None:
    data = with_exif(None, orientation=orientation)
    before = bytes(data)
    page = Image.open(io.BytesIO(make_copies(data, LIMITS).page)).convert("RGB")
    assert page.size == ((640, 480) if orientation in (1, 3) else (480, 640))
    w, h = page.size
    spots = {"left": (0, h // 2), "right": (w - 1, h // 2), "top": (w // 2, 0), "bottom": (w // 2, h - 1)}
    boxes = {name: (max(0, x - 40), max(0, y - 40), min(w, x + 40), min(h, y + 40)) for name, (x, y) in spots.items()}
    redness = {name: _redness(page.crop(box)) for name, box in boxes.items()}
    assert max(redness, key=lambda name: redness[name]) == red_at
    assert data == before


def _redness(image: Image.Image) -> float:
    red, _, blue = image.resize((1, 1), Image.Resampling.BOX).getpixel((0, 0))
    return red - blue


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_no_metadata_leaves_in_the_copies(form: str, tmp_path: Path) -> None:
    tags = piexif.dump({"Exif": {piexif.ExifIFD.DateTimeOriginal: b"2026:05:04 12:30:15"}, "GPS": POSITION})
    xmp = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'><gps>51.5</gps></x:xmpmeta>"
    data = written(drawing(), form, exif=tags, **({} if form == "PNG" else {"xmp": xmp}))
    assert Image.open(io.BytesIO(data)).getexif().get_ifd(0x8825)
    copies = make_copies(data, LIMITS)
    for copy in (copies.page, copies.thumbnail):
        image = Image.open(io.BytesIO(copy))
        assert not image.getexif()
        assert not {"exif", "xmp", "icc_profile"} & set(image.info)
        assert b"EXIF" not in copy
        assert b"XMP " not in copy


def test_copies_have_their_sizes_and_small_pictures_are_not_blown_up() -> None:
    copies = make_copies(written(drawing((1800, 900)), "JPEG"), LIMITS)
    assert Image.open(io.BytesIO(copies.page)).size == (1600, 800)
    assert Image.open(io.BytesIO(copies.thumbnail)).size == (320, 160)
    small = make_copies(written(drawing((100, 80)), "PNG"), LIMITS)
    assert Image.open(io.BytesIO(small.page)).size == (100, 80)


def test_a_see_through_picture_gets_a_white_ground() -> None:
    data = written(Image.new("RGBA", (64, 64), (0, 0, 0, 0)), "PNG")
    page = Image.open(io.BytesIO(make_copies(data, LIMITS).page)).convert("RGB")
    assert min(page.getpixel((32, 32))) > 250


def test_a_blurred_picture_is_said_to_look_blurred() -> None:
    assert quality_warnings(drawing().filter(ImageFilter.GaussianBlur(8))) == ("looks blurred",)


def test_a_shallow_focus_is_no_blur() -> None:
    image = drawing().filter(ImageFilter.GaussianBlur(8))
    image.paste(drawing().crop((200, 150, 440, 330)), (200, 150))
    assert quality_warnings(image) == ()


@pytest.mark.parametrize(("factor", "warning"), [(0.08, "looks too dark"), (9.0, "looks too bright")])
def test_bad_exposure_is_said(factor: float, warning: str) -> None:
    image = drawing().point(lambda value: min(255, int(value * factor)))
    assert warning in quality_warnings(image)


def test_too_many_pixels_are_refused_before_they_are_read() -> None:
    bomb = written(Image.new("1", (20_000, 20_000)), "PNG")
    assert len(bomb) < 200_000
    with pytest.raises(CaptureError, match="400 million pixels and the limit is 2 million"):
        take(bomb)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_a_photo_cut_short_is_refused(form: str) -> None:
    data = written(drawing(), form)
    with pytest.raises(CaptureError, match=r"(damaged or cut short|no photo that can be read)"):
        take(data[: len(data) // 2])


@pytest.mark.parametrize("data", [b"", b"mixed it", b"\xff\xd8\xff\xe0nonsense"])
def test_what_is_no_photo_is_refused(data: bytes) -> None:
    with pytest.raises(CaptureError, match=r"(empty|no photo that can be read|damaged or cut short)"):
        take(data)
