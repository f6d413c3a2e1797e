"""Two builds are held against each other from the page, with the evidence a click away."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE, Site
from tests.browser.furnished import with_a_failed_build

pytestmark = pytest.mark.browser


def test_a_failed_build_is_held_against_the_one_that_worked(site: Site, page: Page) -> None:
    failed = with_a_failed_build(site)
    page.goto(f"{site.address}/compare")
    page.get_by_label("Build", exact=True).fill(failed)
    page.get_by_role("button", name="Compare").click()
    expect(page.get_by_role("heading", name=f"{failed} held against niche-1")).to_be_visible()
    first = page.locator(".sources > li").first
    expect(first).to_contain_text("could bear on soft")
    expect(first).to_contain_text("50 % under")
    first.get_by_role("link", name=f"{failed}, mix").click()
    expect(page.locator("article.entry, li.entry, .entry").filter(has_text="Mixed six hundred").first).to_be_visible()


def test_photos_stand_side_by_side_and_pictures_are_a_link_away(site: Site, page: Page) -> None:
    failed = with_a_failed_build(site)
    page.goto(f"{site.address}/compare?build={failed}&build=niche-1")
    strip = page.get_by_role("region", name="Photos by place")
    expect(strip.get_by_role("columnheader")).to_have_text(["Place", failed, "niche-1"])
    expect(strip.get_by_role("img")).to_have_count(1)
    page.get_by_role("link", name=f"Pictures of {failed}").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Pictures of")


def test_what_cannot_be_compared_is_told(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/compare?build=nothing")
    expect(page.get_by_role("alert")).to_contain_text("there is no build 'nothing'")
    expect(page.get_by_label("Build", exact=True)).to_have_value("nothing")


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_the_page_fits_the_screen(site: Site, page: Page, size: dict[str, int]) -> None:
    failed = with_a_failed_build(site)
    page.set_viewport_size(size)  # type: ignore[arg-type]
    for path in (f"/compare?build={failed}&build=niche-1", "/compare/all"):
        page.goto(site.address + path)
        page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
        assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), path
