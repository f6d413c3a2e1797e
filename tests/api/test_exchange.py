"""Everything in an open format over the API."""

from __future__ import annotations

import io
import json
import zipfile
from pathlib import Path

import jsonschema
import pytest
from fastapi.testclient import TestClient

from journal import flow
from journal.settings import Settings
from journal.shop import Shop
from tests.api.workshop import Workshop


def test_the_published_schema_fits_the_export(client: TestClient, workshop: Workshop) -> None:
    schema = client.get("/api/export/schema").json()
    jsonschema.Draft202012Validator.check_schema(schema)
    answer = client.get("/api/export", params={"form": "json"})
    assert answer.headers["content-type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        document = json.loads(archive.read("mouldbook.json"))
    jsonschema.validate(document, schema, jsonschema.Draft202012Validator)
    assert len(document["notes"]) == 4


@pytest.mark.parametrize("form", ["json", "csv"])
def test_what_was_got_over_the_api_can_be_taken_in(
    client: TestClient, workshop: Workshop, shop: Shop, tmp_path: Path, form: str
) -> None:
    (tmp_path / "got.zip").write_bytes(client.get("/api/export", params={"form": form}).content)
    new = Shop.open(Settings(data_dir=tmp_path / "new"))
    try:
        report = flow.bring_in(new, tmp_path / "got.zip")
        assert report.whole, report.conflicts
        assert new.store.steps(workshop.build.key) == shop.store.steps(workshop.build.key)
        [photo] = new.store.photos(workshop.build.key)
        for copy in (flow.PAGE_COPY, flow.THUMBNAIL):  # the copies that pages show are made again
            assert new.media.derived(photo.photo.sha256, copy)
    finally:
        new.close()


def test_another_form_is_refused_and_the_page_tells_what_there_is(client: TestClient) -> None:
    assert client.get("/api/export", params={"form": "xml"}).status_code == 422
    page = client.get("/exchange")
    assert page.status_code == 200
    assert "mouldbook import" in page.text
    assert "secrets of paired devices" in page.text
