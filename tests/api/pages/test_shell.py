"""The page as an app of the phone: what it needs to be installed and to open without the machine."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from PIL import Image

from api.pages import shell


def worker(client: TestClient) -> dict[str, object]:
    first, _ = client.get("/service-worker.js").text.split("\n", 1)
    told: dict[str, object] = json.loads(first.removeprefix("const SHELL = ").removesuffix(";"))
    return told


def test_the_manifest_is_one_that_installs(client: TestClient) -> None:
    answer = client.get("/manifest.webmanifest")
    assert answer.headers["content-type"].startswith("application/manifest+json")
    manifest = answer.json()
    # W3C Web Application Manifest: what browsers ask for before they offer to install
    assert {"name", "icons", "start_url", "display", "id"} <= set(manifest)
    for icon in manifest["icons"]:
        picture = client.get(icon["src"])
        assert picture.headers["content-type"].startswith(icon["type"])
        if icon["type"] == "image/png":
            assert "x".join(map(str, Image.open(io.BytesIO(picture.content)).size)) == icon["sizes"]


def test_the_worker_names_every_file_of_the_shell_and_each_is_served(client: TestClient) -> None:
    answer = client.get("/service-worker.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert answer.headers["cache-control"] == "no-cache"
    files = worker(client)["files"]
    assert isinstance(files, list)
    assert {"/static/style.css", "/static/record.js", "/queue", "/away"} <= set(files)
    assert not [path for path in files if path.startswith("/api/")]
    for path in files:
        assert client.get(path).status_code == 200, path


def test_a_change_in_any_file_makes_a_new_version(
    client: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = worker(client)["version"]
    assert worker(client)["version"] == before
    changed = tmp_path / "static"
    changed.mkdir()
    for path in shell.STATIC.iterdir():
        (changed / path.name).write_bytes(path.read_bytes() + (b" " if path.name == "style.css" else b""))
    monkeypatch.setattr(shell, "STATIC", changed)
    assert worker(client)["version"] != before
