"""Recipes and plans on a phone-sized screen: chosen, scaled, started with one press, and followed at the bench."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from journal import flow
from journal.flow import Incoming
from journal.shop import Shop
from tests.browser.conftest import Site, slowly

pytestmark = pytest.mark.browser


@pytest.fixture
def worked(site: Site) -> Site:
    """The furnished workshop, its build a recipe: it worked."""
    site.shop.store.set_outcome("niche-1", "worked", "Clean release", "lead maker", site.shop.now())
    return site


def say(shop: Shop, build_key: str, text: str) -> int:
    taken = flow.take_in(shop, build_key, Incoming(text.encode(), "note.txt", shop.now(), "lead maker"))
    flow.process_note(shop, taken.id)
    return taken.id


def starts_a_plan(worked: Site, page: Page) -> None:
    page.goto(f"{worked.address}/recipes?material=gel+coat&area_m2=2.8&shape=niche")
    expect(page.get_by_text("Like yours: made with polyester gel coat")).to_be_visible()
    page.get_by_role("link", name="Niche 1").click()
    expect(page.get_by_text("From 1.4 m² to 2.8 m²: 2 times")).to_be_visible()
    page.get_by_role("button", name="Scale and start the plan").click()
    page.wait_for_url("**/builds/niche-2/plan")


def test_one_press_scales_a_recipe_and_starts_a_plan(worked: Site, page: Page) -> None:
    starts_a_plan(worked, page)
    following = page.locator("[data-next]")
    expect(following).to_contain_text("Next, step 1 of 2: mix 1400 grams of polyester gel coat")
    expect(following).to_contain_text("Check first: Catalyst was heard with 41% confidence")


def test_the_recipe_is_heard_in_its_makers_voice(worked: Site, page: Page) -> None:
    page.goto(f"{worked.address}/recipes/niche-1")
    slowly(page)
    hear = page.get_by_role("button", name=re.compile("Hear it.*step 1"))
    hear.click()
    expect(hear).to_have_attribute("aria-pressed", "true")
    expect(hear).to_have_attribute("aria-pressed", "false")


def test_the_bench_ticks_off_what_is_said_and_says_what_is_next(worked: Site, page: Page) -> None:
    starts_a_plan(worked, page)
    page.goto(f"{worked.address}/builds/niche-2/bench")
    expect(page.locator("[data-plan]")).to_contain_text("0 of 2")
    page.evaluate(
        "window.said = []; document.addEventListener('to-say', ({ detail }) => window.said.push(detail.said));"
    )
    note = say(worked.shop, "niche-2", "Mixed 700 grams of polyester gel coat with 14 grams of catalyst.")
    page.evaluate(
        f"document.dispatchEvent(new CustomEvent('note-read', {{ detail: {{ noteId: {note}, steps: [] }} }}))"
    )
    expect(page.locator("[data-next]")).to_contain_text("Go on with step 1 of 2, pot 2 of 2")
    assert page.evaluate("window.said")[0].startswith("Step 1 begun. Go on with step 1")
    page.get_by_role("button", name="Skip step 1").click()
    expect(page.locator("[data-next]")).to_contain_text("Next, step 2 of 2")
    assert page.url.endswith("/bench")


def test_axe_finds_nothing_on_recipes_and_plans(worked: Site, page: Page) -> None:
    starts_a_plan(worked, page)
    say(worked.shop, "niche-2", "Mixed 500 grams of polyester gel coat with 14 grams of catalyst.")
    for path in ("/recipes?shape=niche&area_m2=9", "/recipes/niche-1?area_m2=2.8", "/builds/niche-2/plan",
                 "/builds/niche-1/plan", "/builds/niche-2/bench"):  # fmt: skip
        page.goto(worked.address + path)
        page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
        found = Axe().run(page)
        assert found.violations_count == 0, f"{path}: {found.generate_report()}"
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), path
