"""Moulds, builds and steps over the API."""

from __future__ import annotations

import pytest
from fastapi.testclient import TestClient

from tests.api.workshop import MIX, Workshop


def test_a_mould_and_a_build_are_begun(client: TestClient) -> None:
    mould = client.post("/api/moulds", json={"name": "Lion-paw foot", "pieces": 2}).json()
    build = client.post("/api/builds", json={"mould": mould["key"], "started_at": "2026-06-01T08:50:00+01:00"}).json()
    assert build["started_at"] == "2026-06-01T08:50:00+01:00"
    assert client.get("/api/builds", params={"mould": mould["key"]}).json() == [build]
    assert client.get(f"/api/moulds/{mould['key']}").json()["builds"] == 1


def test_a_time_without_an_offset_is_refused(client: TestClient, workshop: Workshop) -> None:
    answer = client.post("/api/builds", json={"mould": "niche", "started_at": "2026-06-01T08:50:00"})
    assert answer.status_code == 422
    assert answer.json()["detail"].startswith("started_at: ")


def test_a_name_twice_is_a_conflict(client: TestClient, workshop: Workshop) -> None:
    assert client.post("/api/moulds", json={"name": "Niche"}).status_code == 409


def test_the_steps_of_a_build_are_the_contracts_records(client: TestClient, workshop: Workshop) -> None:
    steps = client.get(f"/api/builds/{workshop.build.key}/steps").json()
    assert [step["record"]["action"] for step in steps] == ["mix", "laminate", "check"]
    use = steps[0]["record"]["materials"][0]
    assert (use["amount"], use["unit"], use["audio"]) == (700.0, "g", [0.5, 4.0])
    assert MIX[slice(*use["chars"])] == use["heard"]


def test_a_correction_keeps_what_was_first_read(client: TestClient, workshop: Workshop) -> None:
    step = workshop.steps[0]
    sent = {"changes": {"materials.0.amount": 720}, "who": "second maker", "why": "the scale said 720"}
    after = client.patch(f"/api/steps/{step.id}", json=sent).json()
    assert after["record"]["materials"][0]["amount"] == 720
    assert after["first_read"]["materials"][0]["amount"] == 700
    assert after["corrected"]
    change = client.get(f"/api/steps/{step.id}/history").json()[-1]
    assert (change["who"], change["why"]) == ("second maker", "the scale said 720")
    readings = client.get(f"/api/notes/{step.note_id}/readings").json()
    assert readings[0]["records"][0]["materials"][0]["amount"] == 700


def test_a_correction_that_a_record_cannot_hold_names_the_field(client: TestClient, workshop: Workshop) -> None:
    answer = client.patch(f"/api/steps/{workshop.steps[0].id}", json={"changes": {"materials.0.unit": "ounce"}})
    assert answer.status_code == 422
    assert "materials.0.unit" in answer.json()["detail"]


def test_a_step_is_confirmed_and_withdrawn(client: TestClient, workshop: Workshop) -> None:
    first, second, _ = workshop.steps
    assert (
        client.post(f"/api/steps/{first.id}/confirm", json={"who": "lead maker"}).json()["confirmed_by"] == "lead maker"
    )
    assert client.post(f"/api/steps/{second.id}/withdraw", json={"why": "not this build"}).json()["withdrawn"]
    assert len(client.get(f"/api/builds/{workshop.build.key}/steps").json()) == 2


def test_the_sheet_adds_up_what_went_in(client: TestClient, workshop: Workshop) -> None:
    sheet = client.get(f"/api/builds/{workshop.build.key}/sheet").json()
    totals = {total["name"]: (total["amount"], total["per_m2"]) for total in sheet["recipe"]["totals"]}
    assert totals == {"polyester gel coat": pytest.approx((700, 500)), "catalyst": pytest.approx((14, 10))}
    assert sheet["recipe"]["faults"][0]["kind"] == "void"
    assert any("data sheet" in caution for caution in sheet["cautions"])


def test_faults_and_pulls_of_a_mould_are_listed(client: TestClient, workshop: Workshop) -> None:
    assert [fault["places"] for fault in client.get("/api/moulds/niche/faults").json()] == [["left scroll"]]
    assert client.get("/api/moulds/niche/pulls").json() == []


def test_what_was_heard_is_there_word_by_word(client: TestClient, workshop: Workshop) -> None:
    hearings = client.get(f"/api/notes/{workshop.notes[0].id}/hearings").json()
    assert [hearing["number"] for hearing in hearings] == [1]
    assert hearings[0]["transcript"]["words"][1] == {
        "text": "seven", "chars": [6, 11], "start_s": 0.5, "end_s": 1.0, "probability": 0.97,
    }  # fmt: skip


def test_an_outcome_is_one_of_the_four(client: TestClient, workshop: Workshop) -> None:
    address = f"/api/builds/{workshop.build.key}/outcome"
    assert client.put(address, json={"outcome": "splendid"}).status_code == 422
    said = client.put(address, json={"outcome": "failed", "text": "soft gel coat", "who": "lead maker"}).json()
    assert (said["outcome"], said["outcome_text"], said["outcome_by"]) == ("failed", "soft gel coat", "lead maker")
