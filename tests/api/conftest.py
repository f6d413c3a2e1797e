from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from api.app import create_app
from journal.settings import Settings
from journal.shop import Shop
from tests.api.workshop import Workshop, furnished

HERE = "http://127.0.0.1:8490"


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    # Without weights a recording is kept and marked failed at once; test_hearing.py hears for real.
    no_weights = str(tmp_path / "no weights")
    return Settings(data_dir=tmp_path, timezone="Europe/London", max_bytes=2_000_000, weights=no_weights)


@pytest.fixture
def app(settings: Settings) -> FastAPI:
    return create_app(settings)


@pytest.fixture
def client(app: FastAPI, request: pytest.FixtureRequest) -> Iterator[TestClient]:
    if "workshop" in request.fixturenames:
        request.getfixturevalue("workshop")  # before the worker starts: it would read notes that are half put in
    with TestClient(app, base_url=HERE, client=("127.0.0.1", 50000), raise_server_exceptions=False) as client:
        yield client


@pytest.fixture
def shop(client: TestClient) -> Shop:
    shop: Shop = client.app.state.shop  # type: ignore[attr-defined]
    return shop


@pytest.fixture
def workshop(settings: Settings) -> Workshop:
    return furnished(settings)
