"""The pages, as a browser without scripts gets them."""

from __future__ import annotations

import re

import pytest
from fastapi.testclient import TestClient

from journal.shop import Shop
from tests.api.forms import form_fields
from tests.api.workshop import Workshop, picture


def correction_form(client: TestClient, step_id: int) -> dict[str, str]:
    return form_fields(client.get(f"/steps/{step_id}").text, f"/steps/{step_id}")


def test_the_first_page_is_the_moulds(client: TestClient, workshop: Workshop) -> None:
    page = client.get("/")
    assert page.status_code == 200
    assert page.url.path == "/moulds"
    assert "Niche" in page.text


def test_a_mould_lists_its_builds(client: TestClient, workshop: Workshop) -> None:
    page = client.get("/moulds/niche")
    assert f'href="/builds/{workshop.build.key}"' in page.text


def test_a_build_shows_its_notes_steps_and_photos_in_time_order(client: TestClient, workshop: Workshop) -> None:
    page = client.get(f"/builds/{workshop.build.key}")
    assert page.status_code == 200
    found = re.findall(r'id="(note-\d+|photo-\d+|step-\d+)"', page.text)
    mix, lay, seen, typed = workshop.notes
    first, second, third = workshop.steps
    assert found == [
        f"note-{typed.id}", f"note-{mix.id}", f"step-{first.id}", "photo-1", f"note-{lay.id}", f"step-{second.id}",
        f"note-{seen.id}", f"step-{third.id}",
    ]  # fmt: skip


def test_a_value_carries_the_seconds_and_letters_it_came_from(client: TestClient, workshop: Workshop) -> None:
    page = client.get(f"/builds/{workshop.build.key}").text
    step = workshop.steps[0]
    use = step.record.materials[0]
    assert use.evidence.audio is not None
    start, end = use.evidence.audio
    assert (
        f'href="/steps/{step.id}#materials.0" data-hear="{step.note_id}" data-start="{start}" data-end="{end}"' in page
    )
    assert f'data-from="{use.evidence.chars[0]}" data-to="{use.evidence.chars[1]}"' in page


def test_flagged_and_unsure_values_are_put_up_for_confirmation(client: TestClient, workshop: Workshop) -> None:
    page = client.get(f"/builds/{workshop.build.key}").text
    assert "450 may be the mat&#39;s weight or a count: say which" in page
    assert "41 % sure" in page
    assert "2 of 3 steps are to be checked" in page


def test_a_confirmed_step_is_no_longer_put_up(client: TestClient, workshop: Workshop) -> None:
    answer = client.post(f"/steps/{workshop.steps[1].id}/confirm", data={"who": "lead maker"})
    assert answer.status_code == 200
    assert "say which" not in answer.text
    assert "confirmed by lead maker" in answer.text


def test_what_a_person_typed_is_never_markup(client: TestClient, workshop: Workshop) -> None:
    client.post(f"/builds/{workshop.build.key}/notes", data={"text": "<script>alert(1)</script>"})
    page = client.get(f"/builds/{workshop.build.key}").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page


def test_a_step_shows_where_each_value_comes_from(client: TestClient, workshop: Workshop) -> None:
    page = client.get(f"/steps/{workshop.steps[0].id}").text
    assert "seven hundred grams of polyester gel coat" in page
    assert "0.5 to 4.0" in page
    assert "amount.said" in page
    assert "41 %" in page


def test_a_correction_from_the_form_joins_the_history(client: TestClient, shop: Shop, workshop: Workshop) -> None:
    step = workshop.steps[0]
    fields = correction_form(client, step.id) | {
        "materials.0.amount": "720",
        "who": "second maker",
        "why": "the scale said 720",
    }
    page = client.post(f"/steps/{step.id}", data=fields)
    assert page.status_code == 200
    assert "The correction is kept." in page.text
    after = shop.store.step(step.id)
    assert after.json["materials"][0]["amount"] == 720
    assert after.json["materials"][1] == step.json["materials"][1]
    assert after.first_read["materials"][0]["amount"] == 700
    assert "the scale said 720" in page.text
    assert "second maker" in page.text


def test_a_form_sent_back_as_it_was_changes_nothing(client: TestClient, shop: Shop, workshop: Workshop) -> None:
    for step in workshop.steps:
        page = client.post(f"/steps/{step.id}", data=correction_form(client, step.id))
        assert "Nothing was changed." in page.text
        assert shop.store.step(step.id) == step


def test_a_form_drawn_before_somebody_elses_correction_is_refused(
    client: TestClient, shop: Shop, workshop: Workshop
) -> None:
    step = workshop.steps[0]
    fields = correction_form(client, step.id)
    shop.store.correct_step(step.id, {"materials.1.amount": 15.0}, "lead maker", "", shop.now())
    page = client.post(f"/steps/{step.id}", data=fields | {"materials.0.amount": "720"})
    assert page.status_code == 409
    assert "in the meantime" in page.text
    assert shop.store.step(step.id).json["materials"][0]["amount"] == 700


def test_a_number_that_is_none_is_refused_with_its_name(client: TestClient, workshop: Workshop) -> None:
    step = workshop.steps[0]
    page = client.post(f"/steps/{step.id}", data=correction_form(client, step.id) | {"materials.0.amount": "1,200"})
    assert page.status_code == 422
    assert "Amount: &#39;1,200&#39; is no number" in page.text
    assert form_fields(page.text, f"/steps/{step.id}")["materials.0.amount"] == "1,200"


def test_a_material_can_be_taken_out_and_another_added(client: TestClient, shop: Shop, workshop: Workshop) -> None:
    step = workshop.steps[0]
    fields = correction_form(client, step.id) | {
        "out.materials.1": "1", "materials.2.name": "pigment", "materials.2.amount": "3", "materials.2.unit": "percent",
    }  # fmt: skip
    client.post(f"/steps/{step.id}", data=fields)
    names = [(use.name, use.unit) for use in shop.store.step(step.id).record.materials]
    assert names == [("polyester gel coat", "g"), ("pigment", "percent")]


def test_a_withdrawn_step_leaves_the_build_and_keeps_its_page(client: TestClient, workshop: Workshop) -> None:
    step = workshop.steps[2]
    page = client.post(f"/steps/{step.id}/withdraw", data={"why": "said of the last build"})
    assert "Withdrawn" in page.text
    assert f'id="step-{step.id}"' not in client.get(f"/builds/{workshop.build.key}").text


def test_photos_that_are_refused_do_not_hold_up_the_rest(client: TestClient, shop: Shop, workshop: Workshop) -> None:
    files = [("file", ("good.png", picture(200, 100, "PNG"))), ("file", ("bad.jpg", b"\xff\xd8\xffcut short"))]
    page = client.post(f"/builds/{workshop.build.key}/photos", files=files)
    assert page.status_code == 422
    assert "bad.jpg:" in page.text
    assert "good.png:" not in page.text
    assert len(shop.store.photos(workshop.build.key)) == 2


def test_a_mould_and_a_build_are_begun_from_forms(client: TestClient) -> None:
    page = client.post("/moulds", data={"name": "Lion-paw foot", "pieces": "2", "area_m2": "0.12"})
    assert page.url.path == "/moulds/lion-paw-foot"
    page = client.post("/moulds/lion-paw-foot/builds", data={"who": "lead maker"})
    assert page.url.path == "/builds/lion-paw-foot-1"
    assert 'data-who="lead maker"' in page.text


def test_a_name_that_is_taken_says_so_on_the_page(client: TestClient, workshop: Workshop) -> None:
    page = client.post("/moulds", data={"name": "Niche"})
    assert page.status_code == 409
    assert 'role="alert"' in page.text


def test_the_outcome_is_set_from_the_form(client: TestClient, shop: Shop, workshop: Workshop) -> None:
    client.post(f"/builds/{workshop.build.key}/outcome", data={"outcome": "worked", "text": "Clean release"})
    assert shop.store.build(workshop.build.key).outcome == "worked"


@pytest.mark.parametrize("path", ["/moulds/none", "/builds/none", "/builds/none/sheet", "/steps/999", "/nowhere"])
def test_what_is_not_there_says_so_on_a_page(client: TestClient, path: str) -> None:
    page = client.get(path)
    assert page.status_code == 404
    assert page.headers["content-type"].startswith("text/html")
    assert 'role="alert"' in page.text


def test_no_page_needs_anything_from_elsewhere(client: TestClient, workshop: Workshop) -> None:
    for path in (
        "/moulds",
        "/moulds/niche",
        f"/builds/{workshop.build.key}",
        f"/steps/{workshop.steps[0].id}",
        "/search",
    ):
        page = client.get(path)
        assert page.status_code == 200, path
        assert not re.findall(r'(?:src|href|action)="(?:https?:)?//', page.text)
        assert not re.findall(r"<script(?![^>]* src=)|<style|style=\"|\son\w+=\"", page.text)
