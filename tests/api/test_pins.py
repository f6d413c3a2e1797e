"""Pins on a reference photo, by the API and by the page."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient

from journal.shop import Shop
from tests.api.workshop import Workshop, picture


@pytest.fixture
def reference(client: TestClient, workshop: Workshop) -> None:
    assert client.put("/api/moulds/niche/reference", json={"photo_id": 1}).status_code == 200


def test_a_mould_without_a_reference_photo_says_what_to_do(client: TestClient, workshop: Workshop) -> None:
    answer = client.get("/api/moulds/niche/reference")
    assert answer.status_code == 404
    assert "choose one of its photos" in answer.json()["detail"]
    assert "Choose a photo" in client.get("/moulds/niche").text
    assert 'value="1"' in client.get("/moulds/niche/pins").text
    assert "Set pins" not in client.get(f"/builds/{workshop.build.key}").text


def test_a_pin_of_a_place_leads_to_its_steps_photos_and_faults(
    client: TestClient, workshop: Workshop, reference: None
) -> None:
    photo = client.post(
        f"/api/builds/{workshop.build.key}/photos", content=picture(320, 240), headers={"content-type": "image/jpeg"}
    ).json()
    client.put(f"/api/photos/{photo['id']}/place", json={"place": "Left Scroll"})
    answer = client.post("/api/photos/1/pins", json={"place": "left scroll", "x": 0.25, "y": 0.5})
    assert answer.status_code == 201
    lay, check = workshop.steps[1:]
    (mark,) = client.get("/api/moulds/niche/reference").json()["marks"]
    assert (mark["number"], mark["pin"]) == (1, answer.json())
    assert (mark["steps"], mark["photos"], mark["faults"]) == ([lay.id, check.id], [photo["id"]], [check.id])
    for page in ("/moulds/niche", f"/builds/{workshop.build.key}", "/moulds/niche/pins"):
        text = client.get(page).text
        assert 'aria-label="1: left scroll"' in text
        assert f'href="/steps/{check.id}">void: small void under the left scroll' in text
        assert f"#photo-{photo['id']}" in text


def test_a_withdrawn_step_is_not_at_its_place(
    client: TestClient, shop: Shop, workshop: Workshop, reference: None
) -> None:
    client.post("/api/photos/1/pins", json={"place": "left scroll", "x": 0.25, "y": 0.5})
    shop.store.withdraw_step(workshop.steps[1].id, None, "", shop.now())
    (mark,) = client.get("/api/moulds/niche/reference").json()["marks"]
    assert mark["steps"] == [workshop.steps[2].id]


def test_the_page_sets_moves_and_takes_off(client: TestClient, workshop: Workshop, reference: None) -> None:
    fault = workshop.steps[2].id
    assert client.post("/moulds/niche/pins", data={"step_id": fault, "x": "31.5", "y": "52"}).status_code == 200
    page = client.post("/moulds/niche/pins", data={"place": "rim", "x": "10", "y": "90"}).text
    assert 'class="pin fault"' in page
    marks = client.get("/api/moulds/niche/reference").json()["marks"]
    assert [(m["pin"]["label"], m["pin"]["x"], m["pin"]["y"]) for m in marks] == [
        ("void: small void under the left scroll", 0.315, 0.52), ("rim", 0.1, 0.9),
    ]  # fmt: skip
    client.post("/moulds/niche/pins", data={"place": "Rim", "x": "20", "y": "90"})
    page = client.post(f"/pins/{marks[0]['pin']['id']}/remove").text
    assert re.findall(r'aria-label="(\d: [^"]+)"', page) == ["1: rim"]


@pytest.mark.parametrize(
    ("fields", "words"),
    [({"place": "rim"}, "tap the photo"), ({"place": "rim", "x": "101", "y": "5"}, "less than or equal to 1"),
     ({"place": "rim", "x": "nan", "y": "5"}, "x:"), ({"x": "5", "y": "5"}, "name of a place, or the fault"),
     ({"x": "5", "y": "5", "step_id": "1"}, "nothing was found wrong in step 1")],
)  # fmt: skip
def test_the_page_keeps_what_was_typed_when_it_is_refused(
    client: TestClient, workshop: Workshop, reference: None, fields: dict[str, str], words: str
) -> None:
    answer = client.post("/moulds/niche/pins", data=fields)
    assert answer.status_code == 422
    assert words in answer.text
    if "place" in fields:
        assert 'value="rim"' in answer.text


def test_a_photo_of_another_mould_is_refused(client: TestClient, workshop: Workshop) -> None:
    client.post("/api/moulds", json={"name": "Cornice"})
    answer = client.post("/moulds/cornice/reference", data={"photo_id": "1"})
    assert answer.status_code == 422
    assert "is of the mould" in answer.text
