"""The build sheet: everything that is needed beside the mould, on paper."""

from __future__ import annotations

from fastapi.testclient import TestClient

from tests.api.workshop import Workshop


def test_the_sheet_has_totals_steps_and_cautions(client: TestClient, workshop: Workshop) -> None:
    page = client.get(f"/builds/{workshop.build.key}/sheet").text.replace("\u00a0", " ")
    assert "<td>700 g</td>" in page
    assert "<td>14 g (?)</td>" in page
    assert "<td>500 g</td>" in page  # 700 g over 1.4 m2
    assert "<td>10 g (?)</td>" in page
    assert "2 × (?)" in page
    assert "safety data sheet, local rules" in page
    assert "Peroxide" in page


def test_the_sheet_marks_what_is_not_confirmed(client: TestClient, workshop: Workshop) -> None:
    page = client.get(f"/builds/{workshop.build.key}/sheet").text.replace("\u00a0", " ")
    assert "14 g catalyst (?)" in page
    assert "To check, layers: 450 may be" in page
    for step in workshop.steps:
        client.post(f"/api/steps/{step.id}/confirm", json={"who": "lead maker"})
    page = client.get(f"/builds/{workshop.build.key}/sheet").text.replace("\u00a0", " ")
    assert "(?)" not in page
