"""Pictures fit a phone and a desk, say themselves to a screen reader, and a life is put on record by the form."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.api.workshop import picture
from tests.browser.conftest import DESK, PHONE, Site

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(("size", "shown"), [(PHONE, "narrow"), (DESK, "wide")])
def test_one_drawing_of_each_picture_is_shown_within_the_screen(
    site: Site, page: Page, size: dict[str, int], shown: str
) -> None:
    page.set_viewport_size(size)  # type: ignore[arg-type]
    page.goto(f"{site.build}/pictures")
    for title in (
        "Coats, windows and clocks",
        "Ratios against the catalogue",
        "Temperature against limits and windows",
    ):
        (seen,) = [each for each in page.get_by_role("img", name=title).all() if each.is_visible()]
        assert shown in (seen.get_attribute("class") or "")
        box = seen.bounding_box()
        assert box is not None
        assert 0 <= box["x"] < box["x"] + box["width"] <= size["width"]
        smallest = seen.evaluate(
            "svg => Math.min(...[...svg.querySelectorAll('text')].filter((t) => t.textContent)"
            ".map((t) => t.getBoundingClientRect().height))"
        )
        assert smallest >= 11
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")


def test_what_is_in_doubt_is_hollow_and_the_table_says_why(site: Site, page: Page) -> None:
    page.goto(f"{site.build}/pictures")
    ratios = page.get_by_role("figure", name="Ratios against the catalogue")
    hollow = ratios.locator("svg.narrow .point.doubt")
    expect(hollow).to_have_count(1)
    assert "to check" in (hollow.locator("title").text_content() or "")
    ratios.get_by_text("The same as a table").click()
    expect(ratios.get_by_role("table")).to_contain_text("2 of catalyst per 100 by weight (to check:")
    ratios.get_by_role("link").first.click()
    expect(page).to_have_url(f"{site.address}/steps/{site.workshop.steps[0].id}")


def test_a_pull_and_a_fault_with_its_photo_are_put_on_record(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/moulds/niche")
    page.get_by_role("link", name="Life: pulls, faults, repairs").click()
    expect(page.get_by_text("It has not been opened yet.")).to_be_visible()
    page.get_by_label("pull", exact=True).check()
    page.get_by_label("Number of the pull").fill("1")
    page.get_by_label("What was seen").select_option("chip")
    page.get_by_label("In your words").fill("small chip on the crown")
    page.get_by_label("Where").fill("crown")
    page.get_by_role("button", name="Record it").click()
    expect(page.get_by_text("1 pull, 1 fault, 0 repairs. Not retired.").first).to_be_visible()
    fault = page.get_by_role("listitem").filter(has_text="chip: small chip on the crown")
    fault.get_by_text("Add a photo of it").click()
    fault.get_by_label("Photo of chip").set_input_files(
        files=[{"name": "chip.jpg", "mimeType": "image/jpeg", "buffer": picture(320, 240)}]
    )
    fault.get_by_role("button", name="Add the photo").click()
    expect(fault.get_by_role("img", name="chip,")).to_be_visible()
    (kept,) = site.shop.store.fault_photos("niche").values()
    assert [photo.place for photo in kept] == ["crown"]
    fault.get_by_role("button", name="Does not show it").click()
    expect(fault.get_by_text("No photo is said to show it.")).to_be_visible()
    page.get_by_role("link", name="Which recipe lasts longest").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Which recipe lasts longest")
