"""A lot is traced to its moulds and pulls, and the recall list goes to paper without the page around it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, Site
from tests.browser.furnished import with_a_failed_build

pytestmark = pytest.mark.browser


def test_a_lot_leads_to_its_pulls_and_a_pull_back_to_its_lot(site: Site, page: Page) -> None:
    failed = with_a_failed_build(site)
    page.goto(f"{site.address}/trace")
    page.get_by_label("Lot, material, batch or pull").fill("lot 4471")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Recall list: lot 4471")).to_be_visible()
    paper = page.locator("article.paper")
    expect(paper).to_contain_text(failed)
    expect(paper).to_contain_text("lot 4471")
    page.goto(f"{site.address}/trace?what={failed} pull 1")
    expect(page.locator("article.paper")).to_contain_text("4471")


def test_an_unknown_lot_is_told_with_what_there_is(site: Site, page: Page) -> None:
    with_a_failed_build(site)
    page.goto(f"{site.address}/trace?what=lot 4417")
    expect(page.get_by_role("alert")).to_contain_text("did you mean lot 4471?")


def test_on_paper_there_is_the_list_alone(site: Site, page: Page) -> None:
    with_a_failed_build(site)
    page.goto(f"{site.address}/trace?what=lot 4471")
    page.emulate_media(media="print")
    expect(page.locator("article.paper")).to_be_visible()
    for around in (page.locator("form"), page.locator(".foot"), page.locator(".seen"), page.locator("[data-print]")):
        expect(around).to_be_hidden()
    assert len(page.pdf(format="A4")) > 5000


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_the_list_fits_the_screen(site: Site, page: Page, size: dict[str, int]) -> None:
    with_a_failed_build(site)
    page.set_viewport_size(size)  # type: ignore[arg-type]
    page.goto(f"{site.address}/trace?what=lot 4471")
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
