"""Recipes and plans over the API and on their pages."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient

from journal import flow
from journal.flow import Incoming
from journal.keep.views import BuildView, NewMould
from journal.settings import Settings
from journal.shop import Shop
from tests.api.conftest import HERE
from tests.api.forms import form_fields

RECIPE = (
    "Shop's at 20 degrees.",
    "Sealed the pattern with three coats of shellac.",
    "Mixed 700 grams of polyester gel coat with 14 grams of catalyst until it was one colour.",
    "Brushed one coat of polyester gel coat on the left half.",
    "Laid two layers of 450 chopped strand mat on the left half.",
)


@pytest.fixture
def made(settings: Settings) -> BuildView:
    """A build that worked, from typed notes, and one of another mould under way."""
    shop = Shop.open(settings)
    shop.store.add_mould(NewMould("Niche", "Shell niche with scrolls", area_m2=1.4), shop.now())
    shop.store.add_mould(NewMould("Paw", "Lion paw", area_m2=0.12), shop.now())
    build = shop.store.add_build("niche", shop.now())
    shop.store.add_build("paw", shop.now())
    for text in RECIPE:
        say(shop, build.key, text)
    shop.store.set_outcome(build.id, "worked", "Clean release", "lead maker", shop.now())
    shop.close()
    return build


def say(shop: Shop, build_key: str, text: str) -> int:
    taken = flow.take_in(shop, build_key, Incoming(text.encode(), "note.txt", shop.now(), "lead maker"))
    flow.process_note(shop, taken.id)
    return taken.id


@pytest.fixture
def here(made: BuildView, app: FastAPI) -> Iterator[TestClient]:
    with TestClient(app, base_url=HERE, client=("127.0.0.1", 50000), raise_server_exceptions=False) as client:
        yield client


def shop_of(client: TestClient) -> Shop:
    shop: Shop = client.app.state.shop  # type: ignore[attr-defined]
    return shop


def test_a_recipe_is_offered_with_why_it_is_like_the_job(here: TestClient) -> None:
    asked = {"material": "gelcoat", "area_m2": "1.5", "degc": "21", "shape": "niche"}
    (offer,) = here.get("/api/recipes", params=asked).json()
    assert (offer["build"]["key"], offer["pulls"], offer["unlike"]) == ("niche-1", 0, [])
    assert offer["why"][:3] == ["made with polyester gel coat", "1.4 m2, yours 1.5", "made at 20 degrees, yours 21"]
    page = here.get("/recipes", params=asked | {"area_m2": "1,5"}).text
    assert 'href="/recipes/niche-1?area_m2=1.5"' in page
    assert "No recipe" in here.get("/recipes", params={"material": "silicone"}).text


@pytest.mark.parametrize("wrong", [{"area_m2": "-1"}, {"area_m2": "a lot"}, {"degc": "500"}])
def test_a_job_that_cannot_be_is_refused(here: TestClient, wrong: dict[str, str]) -> None:
    assert here.get("/api/recipes", params=wrong).status_code == 422
    page = here.get("/recipes", params=wrong)
    assert page.status_code == 422
    assert 'role="alert"' in page.text


def test_a_recipe_is_scaled_by_area(here: TestClient) -> None:
    scaled = here.get("/api/recipes/niche-1", params={"area_m2": 0.7}).json()
    mix = next(step for step in scaled["steps"] if step["action"] == "mix")
    assert [(use["name"], use["amount"], use["was"]) for use in mix["uses"]] == [
        ("polyester gel coat", 350, 700), ("catalyst", 7, 14),
    ]  # fmt: skip
    page = here.get("/recipes/niche-1", params={"area_m2": "0.7"}).text
    assert "From 1.4 m² to 0.7 m²: 0.5 times" in page
    assert "350" in page
    assert here.get("/api/recipes/niche-1", params={"area_m2": 1, "times": 2}).status_code == 422
    assert here.get("/recipes/niche-1", params={"volume_ml": "100"}).status_code == 422
    assert here.get("/recipes/none-1").status_code == 404


def test_one_press_scales_a_recipe_and_starts_a_plan_of_a_new_build(here: TestClient) -> None:
    fields = form_fields(here.get("/recipes/niche-1", params={"area_m2": "2.8"}).text, "/recipes/niche-1")
    answer = here.post("/recipes/niche-1/plan", data=fields | {"who": "apprentice"}, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/builds/niche-2/plan")
    page = here.get("/builds/niche-2/plan").text
    assert "Next, step 1 of 4: seal with 3 coats of shellac" in page
    assert "2 pots of 714 g" in page
    plan = here.get("/api/builds/niche-2/plan").json()
    assert (plan["recipe_key"], plan["who"], plan["scaled"]["factor"], plan["next"]) == ("niche-1", "apprentice", 2, 1)


def test_what_cannot_be_scaled_makes_no_build(here: TestClient) -> None:
    before = len(shop_of(here).store.builds())
    answer = here.post("/recipes/niche-1/plan", data={"area_m2": "0", "build": ""}, follow_redirects=False)
    assert answer.status_code == 422
    assert len(shop_of(here).store.builds()) == before


def test_what_is_said_ticks_the_plan_off_and_is_told(here: TestClient) -> None:
    shop = shop_of(here)
    assert here.post("/api/builds/paw-1/plan", json={"recipe": "niche-1", "times": 0.5}).status_code == 201
    note = say(shop, "paw-1", "Sealed it with two coats of shellac.")
    part = here.get("/builds/paw-1/plan/part", params={"note": note}).text
    assert "Step 1 done, off the plan: shellac: 2 laid, planned 3." in part
    assert "Next, step 2 of 4: mix 350 grams of polyester gel coat and 7 grams of catalyst" in part
    plan = here.get("/api/builds/paw-1/plan").json()
    assert (plan["done"], plan["next"], plan["steps"][0]["state"]) == (1, 2, "done")
    assert "Off the plan" in here.get("/builds/paw-1/plan").text


def test_a_correction_counts_in_the_plan_at_once(here: TestClient) -> None:
    shop = shop_of(here)
    here.post("/api/builds/paw-1/plan", json={"recipe": "niche-1"})
    note = say(shop, "paw-1", "Mixed 420 grams of polyester gel coat with 14 grams of catalyst.")
    (step,) = shop.store.note_steps(note)
    assert here.get("/api/builds/paw-1/plan").json()["steps"][1]["off"]
    flow.correct(shop, step.id, {"materials.0.amount": 700}, "lead maker", "misheard")
    assert here.get("/api/builds/paw-1/plan").json()["steps"][1]["off"] == []


def test_what_is_next_is_answered_on_a_build_with_a_plan(here: TestClient) -> None:
    here.post("/api/builds/paw-1/plan", json={"recipe": "niche-1"})
    for words in ("what's next", "next step", "What is the next step?"):
        answer = here.get("/api/ask", params={"q": words, "build": "paw-1"}).json()
        assert answer["text"].startswith("Next, step 1 of 4"), words
    assert "changes nothing" in here.get("/api/ask", params={"q": "skip that", "build": "paw-1"}).json()["text"]


def test_skip_that_skips_the_next_step_once(here: TestClient) -> None:
    shop = shop_of(here)
    here.post("/api/builds/paw-1/plan", json={"recipe": "niche-1"})
    note = say(shop, "paw-1", "Skip that.")
    plan = here.get("/api/builds/paw-1/plan").json()
    assert (plan["steps"][0]["state"], plan["next"]) == ("skipped", 2)
    assert "Step 1 skipped. Next, step 2" in here.get("/builds/paw-1/plan/part", params={"note": note}).text
    kept = shop.store.plan("paw-1")
    assert kept is not None
    assert [(skip.number, skip.words, skip.note_id) for skip in kept.skips] == [(1, "Skip that.", note)]


def test_a_step_is_skipped_from_the_page_and_over_the_api(here: TestClient) -> None:
    here.post("/api/builds/paw-1/plan", json={"recipe": "niche-1"})
    assert here.post("/builds/paw-1/plan/skip", data={"number": "1"}, follow_redirects=False).status_code == 303
    assert here.post("/api/builds/paw-1/plan/skips", json={}).json()["next"] == 3
    assert here.post("/api/builds/paw-1/plan/skips", json={"number": 40}).status_code == 422
    assert here.post("/builds/paw-1/plan/skip", data={"number": "x"}).status_code == 422


def test_a_build_without_a_plan_says_how_to_get_one(here: TestClient) -> None:
    assert here.get("/api/builds/paw-1/plan").status_code == 404
    page = here.get("/builds/paw-1/plan")
    assert page.status_code == 200
    assert 'href="/recipes"' in page.text
    assert here.get("/builds/none-1/plan").status_code == 404


def test_the_bench_shows_the_plan_of_its_build(here: TestClient) -> None:
    assert "data-plan" not in here.get("/builds/paw-1/bench").text
    here.post("/api/builds/paw-1/plan", json={"recipe": "niche-1"})
    assert 'data-plan="paw-1"' in here.get("/builds/paw-1/bench").text
    assert "Next, step 1 of 4" in here.get("/builds/paw-1/plan/part").text
