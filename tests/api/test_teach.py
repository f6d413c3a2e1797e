"""Training over the API and on pages that need no script."""

from __future__ import annotations

import io
import re

import pytest
from fastapi.testclient import TestClient
from pypdf import PdfReader

from journal.shop import Shop
from tests.api.forms import form_fields
from tests.api.workshop import Workshop


@pytest.fixture
def worked(shop: Shop, workshop: Workshop) -> str:
    """The workshop's build, which worked, and its batch confirmed: it can be asked to be weighed."""
    shop.store.set_outcome(workshop.build.id, "worked", "", None, shop.now())
    shop.store.confirm_step(workshop.steps[0].id, "lead maker", shop.now())
    return workshop.build.key


def test_the_sheet_tells_steps_words_and_seconds(client: TestClient, worked: str) -> None:
    answer = client.get("/api/teach", params={"build": worked})
    assert answer.status_code == 200, answer.text
    sheet = answer.json()
    assert [lesson["item"] for lesson in sheet["lessons"]] == [
        "mix: polyester gel coat and catalyst",
        "laminate: chopped strand mat",
    ]
    [cue] = sheet["lessons"][0]["sayings"]
    assert (cue["kind"], cue["voice"]["text"]) == ("until", "until it was one colour")
    assert cue["voice"]["audio"] is not None
    assert "layers.0" in sheet["lessons"][1]["done"]["doubtful"]


def test_the_page_links_each_saying_to_its_seconds_without_a_script(client: TestClient, worked: str) -> None:
    page = client.get(f"/teach/{worked}").text
    assert re.search(r'href="/api/notes/\d+/recording#t=\d+\.\d\d,\d+\.\d\d"', page)
    assert "450 may be the mat" in page
    assert "(check)" in page
    assert "<script>" not in page
    assert "style=" not in page


def test_a_test_is_asked_without_its_answers(client: TestClient, worked: str) -> None:
    page = client.get(f"/teach/{worked}/test", params={"seed": 7}).text
    test = client.get("/api/teach/test", params={"build": worked, "seed": 7}).json()
    assert {question["kind"] for question in test["questions"]} >= {"weigh", "fault"}
    assert "answer" not in test["questions"][0]
    assert "reason" not in str(test)
    assert "fourteen grams" not in page  # the words that give it away come with the answer


def test_a_test_is_taken_with_a_form_marked_and_kept(client: TestClient, worked: str, shop: Shop) -> None:
    page = client.get(f"/teach/{worked}/test", params={"seed": 7}).text
    fields = form_fields(page, f"/teach/{worked}/test")
    weigh = next(name for name in fields if name.startswith("weigh-"))
    grams = float(re.search(r"go to ([\d.]+) g of polyester", page)[1])  # type: ignore[index]
    fields |= {"apprentice": "<b>apprentice</b>", weigh: f"{grams * 0.02:g}"}
    answer = client.post(f"/teach/{worked}/test", data=fields, follow_redirects=False)
    assert answer.status_code == 303
    result = client.get(answer.headers["location"])
    assert result.status_code == 200
    assert "Right" in result.text
    assert "fourteen grams of catalyst" in result.text  # the evidence
    assert "&lt;b&gt;apprentice" in result.text
    [kept] = shop.store.training_tests(worked)
    assert kept.right == 1
    assert "1 of " in client.get(f"/teach/{worked}").text


def test_a_test_without_a_name_is_asked_again(client: TestClient, worked: str, shop: Shop) -> None:
    answer = client.post(f"/teach/{worked}/test", data={"seed": "7"})
    assert answer.status_code == 422
    assert "say who" in answer.text
    assert shop.store.training_tests(worked) == []


def test_answers_to_questions_that_are_not_asked_are_refused(client: TestClient, worked: str) -> None:
    taken = {"builds": [worked], "seed": 7, "apprentice": "apprentice", "answers": {"weigh-999": "7"}}
    answer = client.post("/api/teach/test", json=taken)
    assert answer.status_code == 422
    assert "take the test again" in answer.json()["detail"]
    taken["answers"] = {}
    assert client.post("/api/teach/test", json=taken).json()["right"] == 0


def test_a_maker_signs_off_and_takes_it_back_and_both_stay(client: TestClient, worked: str) -> None:
    form = {"apprentice": "apprentice", "maker": "lead maker", "lesson.1": "on", "remarks": "by eye"}
    for verdict in ("signed", "taken back", "signed"):
        answer = client.post(f"/teach/{worked}/sign-off", data=form | {"verdict": verdict}, follow_redirects=False)
        assert answer.status_code == 303, answer.text
    [one] = client.get("/api/teach/progress", params={"build": worked}).json()
    assert [entry["verdict"] for entry in one["entries"]] == ["signed", "taken back", "signed"]
    assert [entry["item"] for entry in one["signed"]] == ["mix: polyester gel coat and catalyst"]
    page = client.get(f"/teach/{worked}").text
    assert "Signed off: apprentice, by lead maker" in page


def test_nobody_signs_off_their_own_work(client: TestClient, worked: str) -> None:
    own = {"builds": [worked], "lessons": [1], "apprentice": "apprentice", "maker": "Apprentice"}
    assert "another maker must" in client.post("/api/teach/sign-offs", json=own).json()["detail"]
    none = own | {"maker": "lead maker", "lessons": [9]}
    assert "the sheet has 1 to 2" in client.post("/api/teach/sign-offs", json=none).json()["detail"]
    page = client.post(f"/teach/{worked}/sign-off", data={"apprentice": "a", "maker": "b"})
    assert page.status_code == 422
    assert 'role="alert"' in page.text


def test_sheets_come_as_pdf(client: TestClient, worked: str) -> None:
    for address in (f"/api/teach/sheet.pdf?build={worked}", f"/api/builds/{worked}/sheet.pdf"):
        answer = client.get(address)
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "application/pdf"
        reader = PdfReader(io.BytesIO(answer.content))
        assert "700 g" in " ".join(page.extract_text() for page in reader.pages)
        assert sum(len(page.images) for page in reader.pages) == 1


def test_what_is_not_there_is_told(client: TestClient, worked: str) -> None:
    assert client.get("/teach/nowhere").status_code == 404
    assert client.get("/api/teach", params={"build": "nowhere"}).status_code == 404
    assert client.get("/api/builds/nowhere/sheet.pdf").status_code == 404
    assert client.get(f"/teach/{worked}/tests/99").status_code == 404
    assert client.get(f"/teach/{worked}", params={"also": ["", "nowhere"]}).status_code == 404
    assert client.get(f"/teach/{worked}/test", params={"seed": -1}).status_code == 422


def test_a_build_links_to_its_training_sheet_and_its_sheet_to_the_pdf(client: TestClient, worked: str) -> None:
    assert f'href="/teach/{worked}"' in client.get(f"/builds/{worked}").text
    assert f'href="/api/builds/{worked}/sheet.pdf"' in client.get(f"/builds/{worked}/sheet").text
