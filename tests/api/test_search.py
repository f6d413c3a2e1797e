"""Search over the API and on its page."""

from __future__ import annotations

from fastapi.testclient import TestClient

from tests.api.workshop import Workshop


def test_words_find_the_step_and_where_it_is_heard(client: TestClient, workshop: Workshop) -> None:
    hits = client.get("/api/search", params={"q": "gel coat"}).json()
    hit = next(hit for hit in hits if hit["step_id"] == workshop.steps[0].id)
    assert hit["build_key"] == workshop.build.key
    assert "gel coat" in "".join(text for text, _ in hit["snippet"])


def test_filters_of_the_form_hold(client: TestClient, workshop: Workshop) -> None:
    page = client.get("/search", params={"action": "laminate"})
    assert f"#step-{workshop.steps[1].id}" in page.text
    assert f"#step-{workshop.steps[0].id}" not in page.text
    none = client.get("/search", params={"material": "glass cloth", "outcome": "failed"})
    assert "Nothing found" in none.text


def test_matches_are_marked_and_escaped(client: TestClient, workshop: Workshop) -> None:
    page = client.get("/search", params={"q": "void"})
    assert "<mark>" in page.text
    page = client.get("/search", params={"q": '<script>"'})
    assert page.status_code == 200
    assert "<script>&#34;" not in page.text
    assert '<script>"' not in page.text


def test_a_filter_that_cannot_be_understood_says_what_would_be(client: TestClient, workshop: Workshop) -> None:
    answer = client.get("/api/search", params={"q": "since:yesterday"})
    assert answer.status_code == 422
    page = client.get("/search", params={"q": "since:yesterday"})
    assert page.status_code == 422
    assert 'role="alert"' in page.text


def test_plain_words_become_filters_that_can_each_be_left_out(client: TestClient, workshop: Workshop) -> None:
    found = client.get("/api/search/plain", params={"q": "void on the left scroll at 21 degrees"}).json()
    assert [(chip["field"], chip["label"]) for chip in found["chips"]] == [
        ("place", "left scroll"), ("temperature", "about 21 °C"),
    ]  # fmt: skip
    assert [recipe["build_key"] for recipe in found["recipes"]] == [workshop.build.key]
    page = client.get("/search", params={"q": "void at 21 degrees", "outcome": "under way"}).text
    assert 'href="/search?q=void&amp;outcome=under+way"' in page
    assert f'href="/builds/{workshop.build.key}/sheet"' in page


def test_filters_that_nothing_fits_are_let_go_and_named(client: TestClient, workshop: Workshop) -> None:
    found = client.get("/api/search/plain", params={"q": "polyester gel coat over 90 kilos"}).json()
    assert found["let_go"] == ["amount"]
    page = client.get("/search", params={"q": "polyester gel coat over 90 kilos"}).text
    assert "Left out here: amount" in page
