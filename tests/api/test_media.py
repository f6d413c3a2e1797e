"""Recordings and photos are served in ranges, as what they are."""

from __future__ import annotations

import io

import pytest
from fastapi.testclient import TestClient
from PIL import Image

from api.problems import Problem
from api.ranges import wanted
from journal.shop import Shop
from tests.api.workshop import Workshop, picture


@pytest.fixture
def recording(client: TestClient, shop: Shop, workshop: Workshop) -> tuple[str, bytes]:
    note = workshop.notes[0]
    assert note.clip is not None
    return f"/api/notes/{note.id}/recording", shop.media.read(note.clip.sha256)


def test_the_whole_recording_is_the_bytes_taken_in(client: TestClient, recording: tuple[str, bytes]) -> None:
    address, data = recording
    answer = client.get(address)
    assert (answer.status_code, answer.headers["content-type"]) == (200, "audio/wav")
    assert answer.content == data
    assert answer.headers["accept-ranges"] == "bytes"


@pytest.mark.parametrize(
    ("asked", "first", "last"), [("bytes=0-99", 0, 99), ("bytes=1000-", 1000, None), ("bytes=-500", -500, None)]
)
def test_a_range_is_served_as_asked(
    client: TestClient, recording: tuple[str, bytes], asked: str, first: int, last: int | None
) -> None:
    address, data = recording
    answer = client.get(address, headers={"range": asked})
    assert answer.status_code == 206
    wanted = data[first : None if last is None else last + 1]
    assert answer.content == wanted
    assert answer.headers["content-range"].endswith(f"/{len(data)}")
    assert int(answer.headers["content-length"]) == len(wanted)


def test_a_range_beyond_the_end_is_refused_with_the_size(client: TestClient, recording: tuple[str, bytes]) -> None:
    address, data = recording
    answer = client.get(address, headers={"range": f"bytes={len(data)}-"})
    assert answer.status_code == 416
    assert answer.headers["content-range"] == f"bytes */{len(data)}"


def test_what_the_browser_has_is_not_sent_again(client: TestClient, recording: tuple[str, bytes]) -> None:
    address, _ = recording
    tag = client.get(address).headers["etag"]
    assert client.get(address, headers={"if-none-match": tag}).status_code == 304
    stale = client.get(address, headers={"range": "bytes=0-9", "if-range": '"other"'})
    assert stale.status_code == 200


@pytest.mark.parametrize(
    ("header", "size", "part"),
    [
        (None, 10, None),
        ("bytes=0-3", 10, (0, 3)),
        ("bytes=4-400", 10, (4, 9)),
        ("bytes=-3", 10, (7, 9)),
        ("bytes=-30", 10, (0, 9)),
        # RFC 9110, 14.1.1 and 14.2: an invalid range, another unit or several ranges may be answered with the whole
        ("bytes=5-2", 10, None),
        ("lines=0-3", 10, None),
        ("bytes=0-1,4-5", 10, None),
        ("bytes=-", 10, None),
    ],
)
def test_ranges_are_read_as_the_standard_says(header: str | None, size: int, part: tuple[int, int] | None) -> None:
    assert wanted(header, size) == part


@pytest.mark.parametrize("header", ["bytes=10-", "bytes=10-12", "bytes=-0"])
def test_a_range_without_a_byte_is_refused(header: str) -> None:
    with pytest.raises(Problem) as raised:
        wanted(header, 10)
    assert raised.value.status_code == 416


def test_a_photo_has_its_original_and_copies_without_position(client: TestClient, workshop: Workshop) -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8825)[1] = "N"
    out = io.BytesIO()
    Image.open(io.BytesIO(picture(2000, 1000))).save(out, "JPEG", exif=exif)
    kept = client.post(f"/api/builds/{workshop.build.key}/photos", files={"file": ("p.jpg", out.getvalue())})
    assert kept.status_code == 201
    number = kept.json()["id"]
    assert client.get(f"/api/photos/{number}/original").content == out.getvalue()
    for copy, longest in (("large", 1600), ("thumb", 320)):
        answer = client.get(f"/api/photos/{number}/{copy}")
        assert answer.headers["content-type"] == "image/webp"
        image = Image.open(io.BytesIO(answer.content))
        assert max(image.size) == longest
        assert not image.getexif().get_ifd(0x8825)


def test_a_recording_among_the_photos_is_refused(
    client: TestClient, workshop: Workshop, recording: tuple[str, bytes]
) -> None:
    answer = client.post(f"/api/builds/{workshop.build.key}/photos", files={"file": ("p.jpg", recording[1])})
    assert answer.status_code == 415


def test_a_photo_can_be_placed_and_pinned(client: TestClient, workshop: Workshop) -> None:
    answer = client.put("/api/photos/1/place", json={"place": "left scroll", "x": 0.25, "y": 0.5})
    assert [(pin["place"], pin["x"], pin["y"]) for pin in answer.json()["pins"]] == [("left scroll", 0.25, 0.5)]
    assert client.put("/api/photos/1/place", json={"place": "left scroll", "x": 2}).status_code == 422


def test_a_typed_note_has_no_recording(client: TestClient, workshop: Workshop) -> None:
    assert client.get(f"/api/notes/{workshop.notes[3].id}/recording").status_code == 404
