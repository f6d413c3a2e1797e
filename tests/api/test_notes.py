"""Recordings and typed text over the API."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient

from journal.shop import Shop
from tests.api.workshop import Workshop, picture, tone

AT = "2026-04-13T13:12:00+01:00"


@pytest.fixture
def notes(workshop: Workshop) -> str:
    return f"/api/builds/{workshop.build.key}/notes"


def test_a_recording_in_a_form_is_kept_with_what_the_sender_says(client: TestClient, shop: Shop, notes: str) -> None:
    data = tone(1.0, 222)
    fields = {"recorded_at": AT, "who": "lead maker", "device": "bench phone", "client_key": "k1"}
    answer = client.post(notes, files={"file": ("n.wav", data)}, data=fields)
    assert answer.status_code == 201
    note = answer.json()
    assert (note["who"], note["device"], note["client_key"]) == ("lead maker", "bench phone", "k1")
    assert note["recorded_at"] == AT
    assert note["clip"]["media_type"] == "audio/wav"
    assert shop.media.read(note["clip"]["sha256"]) == data


def test_a_bare_recording_is_kept(client: TestClient, notes: str) -> None:
    answer = client.post(
        notes, content=tone(0.5, 111), params={"recorded_at": AT}, headers={"content-type": "audio/wav"}
    )
    assert answer.status_code == 201
    assert answer.json()["recorded_at"] == AT


def test_the_same_recording_again_is_the_same_note(client: TestClient, notes: str) -> None:
    first = client.post(notes, files={"file": ("n.wav", tone(1.0, 333))})
    again = client.post(notes, files={"file": ("other name.wav", tone(1.0, 333))})
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.json()["id"] == again.json()["id"]


def test_a_client_key_with_other_words_is_a_conflict(client: TestClient, notes: str) -> None:
    assert client.post(notes, json={"text": "Two coats of wax.", "client_key": "k"}).status_code == 201
    answer = client.post(notes, json={"text": "Three coats of wax.", "client_key": "k"})
    assert answer.status_code == 409
    assert answer.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize("how", ["json", "form", "bare"])
def test_typed_text_is_taken_in_three_ways(client: TestClient, notes: str, how: str) -> None:
    text = "Two coats of wax."
    sent = {"json": {"json": {"text": text}}, "form": {"data": {"text": text}}}.get(
        how, {"content": text, "headers": {"content-type": "text/plain"}}
    )
    answer = client.post(notes, **sent)  # type: ignore[arg-type]
    assert answer.status_code == 201
    assert (answer.json()["text"], answer.json()["clip"]) == (text, None)


@pytest.mark.parametrize(
    ("sent", "code", "says"),
    [
        ({"files": {"file": ("a.jpg", picture(100, 100))}}, 415, "photo"),
        ({"files": {"file": ("a.wav", b"")}}, 422, "empty"),
        ({"files": {"file": ("a.bin", b"\x00\x01\x02\x03" * 50)}}, 415, "taken in"),
        ({"files": {"file": ("a.ogg", b"OggS" + b"\x00" * 60)}}, 422, ""),
        ({"json": {"text": "  "}}, 422, "text"),
        ({"json": ["text"]}, 422, "JSON object"),
        ({"json": {"text": "wax", "recorded_at": "yesterday"}}, 422, "recorded_at"),
        ({"json": {"text": "wax", "recorded_at": "2026-04-13T13:12:00"}}, 422, "offset"),
        ({"data": {"who": "lead maker"}}, 422, "There is no note"),
        ({"files": {"file": ("a.wav", b"RIFF0000WAVE" + b"\x00" * 2_500_000)}}, 413, "limit"),
    ],
)
def test_what_cannot_be_taken_in_says_why_on_one_line(
    client: TestClient, notes: str, sent: dict[str, object], code: int, says: str
) -> None:
    answer = client.post(notes, **sent)  # type: ignore[arg-type]
    assert answer.status_code == code, answer.text
    detail = answer.json()["detail"]
    assert says in detail
    assert "\n" not in detail


@pytest.mark.parametrize("kind", ["audio/wav", "multipart/form-data; boundary=cut"])
def test_a_body_over_the_limit_is_cut_off_while_it_streams(client: TestClient, notes: str, kind: str) -> None:
    sent = 0

    def endless() -> Iterator[bytes]:
        nonlocal sent
        yield b'--cut\r\nContent-Disposition: form-data; name="file"; filename="a.wav"\r\n\r\n'
        while sent < 50_000_000:
            sent += 100_000
            yield b"\x00" * 100_000

    answer = client.post(notes, content=endless(), headers={"content-type": kind})
    assert answer.status_code == 413
    gc.collect()  # a file left open would warn here, and fail the test


def test_a_note_of_an_unknown_build_is_not_found(client: TestClient) -> None:
    answer = client.post("/api/builds/none/notes", json={"text": "Two coats of wax."})
    assert answer.status_code == 404


def test_progress_tells_how_far_each_note_has_come(client: TestClient, workshop: Workshop) -> None:
    told = client.get(f"/api/builds/{workshop.build.key}/progress").json()["notes"]
    assert {note["state"] for note in told} == {"read"}
    assert all(note["finished"] for note in told)
    assert client.get(told[0]["entry"]).text.count("data-entry=") == 1


def test_a_failed_note_can_be_tried_again(client: TestClient, shop: Shop, workshop: Workshop, notes: str) -> None:
    note = shop.store.fail_note(workshop.notes[0].id, "the weights were not there", shop.now())
    assert "the weights were not there" in client.get(f"/builds/{workshop.build.key}").text
    answer = client.post(f"/api/notes/{note.id}/retry")
    assert answer.status_code == 200
    assert answer.json()["state"] == "heard"
