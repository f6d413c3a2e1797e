"""A recording sent in pieces becomes one note, whole, however often the connection dies."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from typing import Any

import pytest
from fastapi.testclient import TestClient

from journal.keep.arriving import ABANDONED_AFTER, Upload
from journal.shop import Shop
from tests.api.workshop import Workshop, tone

AT = "2026-04-13T13:12:00+01:00"
KEY = "5f0c6a1e-0000-4000-8000-000000000001"
DATA = tone(1.0, 250)


def finished(data: bytes = DATA, **more: Any) -> dict[str, Any]:
    return {"size_bytes": len(data), "sha256": hashlib.sha256(data).hexdigest(), "recorded_at": AT, **more}


@pytest.fixture
def upload(workshop: Workshop) -> str:
    return f"/api/builds/{workshop.build.key}/uploads/{KEY}"


@pytest.fixture
def notes(shop: Shop, workshop: Workshop) -> Callable[[], int]:
    before = len(shop.store.notes(workshop.build.key))
    return lambda: len(shop.store.notes(workshop.build.key)) - before


def parts(shop: Shop) -> list[str]:
    return [path.name for path in (shop.settings.data_dir / "arriving").glob("*")]


def test_pieces_become_one_note_and_its_sum_is_confirmed(
    client: TestClient, shop: Shop, upload: str, notes: Callable[[], int]
) -> None:
    assert client.get(upload).json() == {"received": 0, "note_id": None, "photo_id": None, "sha256": None}
    assert client.put(f"{upload}/0", content=DATA[:7000]).json()["received"] == 7000
    assert client.put(f"{upload}/7000", content=DATA[7000:]).json()["received"] == len(DATA)
    assert notes() == 0
    answer = client.post(upload, json=finished(who="lead maker", device="bench phone"))
    assert answer.status_code == 201
    assert answer.json()["sha256"] == hashlib.sha256(DATA).hexdigest()
    note = shop.store.note(answer.json()["note_id"])
    assert note.clip is not None
    assert shop.media.read(note.clip.sha256) == DATA
    assert (note.who, note.device, note.client_key, note.recorded_at.isoformat()) == (
        "lead maker", "bench phone", KEY, AT,
    )  # fmt: skip
    assert parts(shop) == []


def test_sending_anything_again_changes_nothing(
    client: TestClient, shop: Shop, upload: str, notes: Callable[[], int]
) -> None:
    for _ in range(2):
        assert client.put(f"{upload}/0", content=DATA[:9000]).json()["received"] == 9000
    assert client.put(f"{upload}/4000", content=DATA[4000:]).json()["received"] == len(DATA)
    first = client.post(upload, json=finished())
    again = client.post(upload, json=finished())
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.json() == again.json() == client.get(upload).json()
    assert notes() == 1


def test_two_that_finish_at_once_make_one_note(client: TestClient, upload: str, notes: Callable[[], int]) -> None:
    client.put(f"{upload}/0", content=DATA)
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda _: client.post(upload, json=finished()), range(2)))
    assert {answer.status_code for answer in answers} <= {200, 201, 412}  # 412: the other was quicker; ask again
    assert client.post(upload, json=finished()).status_code == 200
    assert notes() == 1


def test_a_gap_and_other_bytes_do_not_join(client: TestClient, upload: str) -> None:
    client.put(f"{upload}/0", content=DATA[:100])
    for offset, piece in ((101, DATA[101:]), (0, b"x" * 50), (50, b"x" * 80)):
        answer = client.put(f"{upload}/{offset}", content=piece)
        assert answer.status_code == 412, answer.text
    assert client.get(upload).json()["received"] == 100


def test_an_unfinished_upload_is_no_note(client: TestClient, upload: str, notes: Callable[[], int]) -> None:
    client.put(f"{upload}/0", content=DATA[:-1])
    answer = client.post(upload, json=finished())
    assert answer.status_code == 412
    assert str(len(DATA) - 1) in answer.json()["detail"]
    assert client.get(upload).json()["received"] == len(DATA) - 1
    assert notes() == 0


def test_bytes_that_were_changed_on_the_way_are_sent_again(
    client: TestClient, upload: str, notes: Callable[[], int]
) -> None:
    client.put(f"{upload}/0", content=DATA[:-1] + b"x")
    assert client.post(upload, json=finished()).status_code == 412
    assert client.get(upload).json()["received"] == 0
    assert notes() == 0
    client.put(f"{upload}/0", content=DATA)
    assert client.post(upload, json=finished()).status_code == 201


def test_a_key_with_other_content_is_a_conflict(client: TestClient, upload: str, notes: Callable[[], int]) -> None:
    client.put(f"{upload}/0", content=DATA)
    client.post(upload, json=finished())
    answer = client.post(upload, json=finished(tone(1.0, 999)))
    assert answer.status_code == 409
    assert notes() == 1


def test_an_original_that_was_lost_is_mended_by_what_the_device_has(
    client: TestClient, shop: Shop, upload: str, notes: Callable[[], int]
) -> None:
    client.put(f"{upload}/0", content=DATA)
    sha256 = client.post(upload, json=finished()).json()["sha256"]
    (shop.settings.data_dir / "media" / "originals" / sha256[:2] / sha256).unlink()
    assert client.get(upload).json()["note_id"] is None  # nothing is confirmed that cannot be read
    client.put(f"{upload}/0", content=DATA)
    assert client.post(upload, json=finished()).json()["sha256"] == sha256
    assert shop.media.read(sha256) == DATA
    assert notes() == 1


def test_what_was_received_is_there_after_a_restart(client: TestClient, shop: Shop, upload: str) -> None:
    client.put(f"{upload}/0", content=DATA[:5000])
    again = Shop.open(shop.settings)
    assert again.arriving.received(Upload(again.store.build("niche-1").id, KEY)) == 5000
    again.close()


@pytest.mark.parametrize(
    ("path", "content", "code"),
    [
        ("/api/builds/none/uploads/abcdefgh/0", b"x", 404),
        ("/api/builds/niche-1/uploads/short/0", b"x", 422),
        ("/api/builds/niche-1/uploads/..%2F..%2Fetc/0", b"x", 404),
        ("/api/builds/niche-1/uploads/ABCDEFGH.part/0", b"x", 422),
        ("/api/builds/niche-1/uploads/abcdefgh/-1", b"x", 422),
        ("/api/builds/niche-1/uploads/abcdefgh/0", b"x" * 2_000_001, 413),
    ],
)
def test_what_is_refused_says_why_on_one_line(
    client: TestClient, shop: Shop, workshop: Workshop, path: str, content: bytes, code: int
) -> None:
    answer = client.put(path, content=content)
    assert answer.status_code == code, answer.text
    assert "\n" not in answer.json()["detail"]
    assert parts(shop) == []


def test_what_is_no_recording_is_refused_when_it_is_whole(client: TestClient, upload: str) -> None:
    data = b"\x00\x01\x02\x03" * 50
    client.put(f"{upload}/0", content=data)
    answer = client.post(upload, json=finished(data))
    assert answer.status_code == 415
    assert "taken in" in answer.json()["detail"]


def test_unfinished_uploads_have_a_bound_and_abandoned_ones_give_way(
    client: TestClient, shop: Shop, workshop: Workshop
) -> None:
    def send(number: int) -> int:
        return client.put(f"/api/builds/niche-1/uploads/upload-{number:03}/0", content=b"x" * 2_000_000).status_code

    assert [send(number) for number in range(11)] == [200] * 10 + [507]
    oldest = shop.settings.data_dir / "arriving" / f"{workshop.build.id}-upload-000.part"
    long_ago = (shop.now() - ABANDONED_AFTER - timedelta(days=1)).timestamp()
    os.utime(oldest, (long_ago, long_ago))
    assert send(10) == 200
    assert not oldest.exists()
