"""Comparing and tracing over the API and on the pages."""

from __future__ import annotations

from datetime import timedelta

import pytest
from fastapi.testclient import TestClient

from journal.keep.views import NewNote
from journal.shop import Shop
from tests.api.workshop import MORNING, Workshop
from tests.keep.made import seen, step, use


@pytest.fixture
def failed(shop: Shop, workshop: Workshop) -> str:
    """A second build that failed with a soft gel coat, beside the workshop's, which worked; its key."""
    shop.store.set_outcome(workshop.build.id, "worked", "", None, MORNING)
    build = shop.store.add_build("niche", MORNING)
    mixed = step("mix", use("polyester gel coat", 600, "g", lot="4471"), use("catalyst", 6, "g"), words="Mixed")
    opened = step("demould", observations=(seen("soft", "soft on the <left> scroll"),))
    for hours, made in ((1, mixed), (60, opened), (90, step("pull", pull=1))):
        at = MORNING + timedelta(hours=hours)
        with shop.one_at_a_time:  # the worker looks once a minute for what nobody has read yet
            note, _ = shop.store.add_note(build.id, NewNote(at, text=f"Mixed <{hours}>", who="apprentice"))
            shop.store.keep_steps(note.id, [made], "1", at)
    shop.store.set_outcome(build.id, "failed", "soft", None, MORNING)
    return build.key


def test_compare_ranks_what_could_bear_on_the_fault(client: TestClient, workshop: Workshop, failed: str) -> None:
    answer = client.get("/api/compare", params={"build": [workshop.build.key, failed]})
    assert answer.status_code == 200, answer.text
    [found] = answer.json()["explanations"]
    assert (found["build"], found["against"]) == (failed, [workshop.build.key])
    assert found["likely"][0]["factor"] == "little hardener or catalyst"
    assert answer.json()["cited"]


def test_compare_all_and_bad_requests(client: TestClient, workshop: Workshop, failed: str) -> None:
    assert client.get("/api/compare/all").json()["builds"] == 2
    assert client.get("/api/compare", params={"build": "none"}).status_code == 404
    assert client.get("/api/compare").status_code == 422
    assert client.get("/api/trace", params={"what": "9999"}).status_code == 404


def test_the_page_of_a_comparison_shows_words_escaped_and_links_to_its_steps(client: TestClient, failed: str) -> None:
    page = client.get("/compare", params={"build": failed})
    assert page.status_code == 200
    assert "could bear on soft" in page.text
    assert "&lt;left&gt;" in page.text
    assert "<left>" not in page.text
    assert f'href="/builds/{failed}#step-' in page.text


def test_the_empty_form_the_count_and_a_wrong_name_are_pages(client: TestClient, failed: str) -> None:
    assert client.get("/compare").status_code == 200
    assert "Too few builds to say" in client.get("/compare/all").text
    page = client.get("/compare", params={"build": "no such build"})
    assert page.status_code == 404
    assert 'role="alert"' in page.text


def test_a_recall_list_is_a_page_to_print(client: TestClient, failed: str) -> None:
    answer = client.get("/api/trace", params={"what": "lot 4471"}).json()
    assert [pull["number"] for pull in answer["pulls"]] == [1]
    page = client.get("/trace", params={"what": "4471"})
    assert "Recall list: lot 4471" in page.text
    assert "/static/print.css" in page.text
    assert "data-print" in page.text
    assert "no lot was said" in client.get("/trace", params={"what": f"{failed} pull 1"}).text
    assert client.get("/trace", params={"what": "9999"}).status_code == 404
    assert client.get("/trace").status_code == 200


def test_a_build_links_to_its_comparison(client: TestClient, workshop: Workshop) -> None:
    assert f'href="/compare?build={workshop.build.key}"' in client.get(f"/builds/{workshop.build.key}").text
