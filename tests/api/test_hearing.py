"""The whole way of a spoken note over the API, with the real hearing and reading."""

from __future__ import annotations

import shutil
import subprocess
import time
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from journal.settings import Settings
from tests.api.workshop import Workshop


@pytest.fixture
def settings(tmp_path: Path, weights: Path) -> Settings:
    return Settings(data_dir=tmp_path, timezone="Europe/London", weights=str(weights))


@pytest.mark.slow
@pytest.mark.live
def test_a_spoken_note_is_heard_and_read(client: TestClient, workshop: Workshop, tmp_path: Path) -> None:
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed: apt-get install espeak-ng")
    wav = tmp_path / "said.wav"
    words = "Brushed on two coats of shellac, and waited twenty minutes."
    subprocess.run(["espeak-ng", "-v", "en-gb", "-s", "135", "-w", str(wav), words], check=True)
    note = client.post(f"/api/builds/{workshop.build.key}/notes", files={"file": ("said.wav", wav.read_bytes())}).json()
    until = time.monotonic() + 240
    while note["state"] not in {"read", "failed"} and time.monotonic() < until:
        time.sleep(0.25)
        note = client.get(f"/api/notes/{note['id']}").json()
    assert note["state"] == "read", note["error"]
    assert "minutes" in note["text"]
    steps = client.get(f"/api/notes/{note['id']}/steps").json()
    waits = [timing for step in steps for timing in step["record"]["timings"]]
    assert [timing["seconds"] for timing in waits] == [[1200, 1200]], steps
    start, end = waits[0]["audio"]
    assert 0 < start < end <= note["clip"]["duration_s"] + 0.5
    assert f'data-start="{start}"' in client.get(f"/builds/{note['build_key']}").text
