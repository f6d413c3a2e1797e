"""The open microphone over its WebSocket."""

from __future__ import annotations

import hashlib
from typing import Any

import numpy as np
import pytest
from fastapi.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from api.routes.live import NO_SUCH_BUILD
from journal.capture.recording import decode
from tests.api.workshop import Workshop
from tests.conftest import SAMPLES

PIECE = 2048


def pcm(seconds_after: float) -> bytes:
    samples = decode((SAMPLES / "notes" / "niche-2-03.opus").read_bytes())
    sound = np.concatenate([np.zeros(16_000, np.float32), samples, np.zeros(int(16_000 * seconds_after), np.float32)])
    return (np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes()


def kinds_until(socket: Any, last: str) -> list[str]:
    kinds: list[str] = []
    while last not in kinds:
        kinds.append(socket.receive_json()["kind"])
    return kinds


def line(client: TestClient, build: str, **headers: str) -> Any:
    return client.websocket_connect(f"/api/builds/{build}/live", headers={"host": "127.0.0.1:8490", **headers})


def test_turns_are_told_while_sound_comes_in(client: TestClient, workshop: Workshop) -> None:
    sound = pcm(3)
    with line(client, workshop.build.key) as socket:
        assert socket.receive_json() == {"kind": "ready"}
        for at in range(0, len(sound), PIECE):
            socket.send_bytes(sound[at : at + PIECE])
        kinds = kinds_until(socket, "end")
        assert kinds[0] == "begin"
        assert "pause" in kinds
        kinds += [] if "trouble" in kinds else kinds_until(socket, "trouble")  # no weights here: it says what to do


def test_a_note_by_hand_and_what_makes_no_sense(client: TestClient, workshop: Workshop) -> None:
    with line(client, workshop.build.key) as socket:
        socket.receive_json()
        for text in ("no json", "[]", '{"do": "dance"}', '{"do": "end"}'):
            socket.send_text(text)
        socket.send_bytes(b"\0")  # half a sample
        socket.send_text('{"do": "begin"}')
        assert socket.receive_json() == {"kind": "begin", "number": 1, "at_s": None}
        socket.send_bytes(bytes(32_000))
        socket.send_text('{"do": "end"}')
        assert "trouble" in kinds_until(socket, "trouble")
        socket.send_text('{"do": "reset"}')
        socket.send_text('{"do": "begin"}')
        assert socket.receive_json()["number"] == 2


def test_an_unknown_build_and_a_foreign_page_are_refused(client: TestClient, workshop: Workshop) -> None:
    with line(client, "no-such-build") as socket:
        with pytest.raises(WebSocketDisconnect) as gone:
            socket.receive_json()
        assert gone.value.code == NO_SUCH_BUILD
    foreign = line(client, workshop.build.key, origin="https://elsewhere.example")
    with pytest.raises(WebSocketDisconnect), foreign:
        pass


def test_a_note_cancelled_on_the_device_is_kept_and_marked(client: TestClient, workshop: Workshop) -> None:
    data = (SAMPLES / "notes" / "niche-2-03.opus").read_bytes()
    url = f"/api/builds/{workshop.build.key}/uploads/0123456789abcdef"
    assert client.put(f"{url}/0", content=data).status_code == 200
    sha256 = hashlib.sha256(data).hexdigest()
    said = {"size_bytes": len(data), "sha256": sha256, "recorded_at": "2026-04-13T13:12:00+01:00"}
    note = client.post(url, json={**said, "cancelled": "the Escape key"}).json()["note_id"]
    history = client.get(f"/api/notes/{note}/history").json()
    assert [change["why"] for change in history if change["what"] == "cancelled"] == ["the Escape key"]
    card = client.get(f"/builds/{workshop.build.key}/bench/notes/{note}").text
    assert 'data-outcome="cancelled"' in card
