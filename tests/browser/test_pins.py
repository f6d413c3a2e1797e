"""Pins are set by a tap or by keys alone, and are where they were set."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from journal.keep.views import NewPin, PinView
from tests.browser.conftest import Site

pytestmark = pytest.mark.browser

# Where the first pin is drawn, in fractions of the photo.
MIDDLE = """() => {
  const [pin, photo] = ["a.pin", "svg.pinned"].map((each) => document.querySelector(each).getBoundingClientRect());
  return [(pin.x + pin.width / 2 - photo.x) / photo.width, (pin.y + pin.height / 2 - photo.y) / photo.height];
}"""


@pytest.fixture
def pins(site: Site) -> str:
    site.shop.store.set_reference("niche", 1, site.shop.now())
    return f"{site.address}/moulds/niche/pins"


def kept(site: Site) -> tuple[PinView, ...]:
    return site.shop.store.photo(1).pins


def test_the_reference_photo_is_chosen_from_those_there_are(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/moulds/niche")
    page.get_by_role("link", name="Choose a photo").click()
    page.get_by_role("radio").check()
    page.get_by_role("button", name="Use this photo").click()
    expect(page.get_by_role("heading", name="Pinned")).to_be_visible()
    reference = site.shop.store.reference("niche")
    assert reference is not None
    assert reference.id == 1


def test_a_tap_and_a_name_set_a_pin_there(site: Site, page: Page, pins: str) -> None:
    page.goto(pins)
    photo = page.locator("svg.pinned")
    box = photo.bounding_box()
    assert box is not None
    photo.click(position={"x": box["width"] * 0.25, "y": box["height"] * 0.75})
    expect(page.get_by_label("Place", exact=True)).to_be_focused()
    page.keyboard.type("left scroll")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="left scroll")).to_be_visible()
    (pin,) = kept(site)
    assert (pin.x, pin.y) == (pytest.approx(0.25, abs=0.01), pytest.approx(0.75, abs=0.01))
    x, y = page.evaluate(MIDDLE)
    assert (x, y) == (pytest.approx(0.25, abs=0.02), pytest.approx(0.75, abs=0.02))


def test_keys_alone_set_a_pin(site: Site, page: Page, pins: str) -> None:
    page.goto(pins)
    photo = page.get_by_role("application", name="Reference photo")
    photo.focus()
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowUp", "ArrowDown"):
        page.keyboard.press(key)
    expect(page.get_by_role("status")).to_have_text("52 % from the left, 46 % from the top.")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("Name the place, or choose the fault")
    expect(page.get_by_label("Place", exact=True)).to_be_focused()
    page.keyboard.type("flange")
    photo.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="flange")).to_be_visible()
    assert [(pin.place, pin.x, pin.y) for pin in kept(site)] == [("flange", 0.52, 0.46)]


def test_a_fault_is_pinned_and_its_number_leads_to_it(site: Site, page: Page, pins: str) -> None:
    page.goto(pins)
    page.locator("svg.pinned").click(position={"x": 60, "y": 60})
    page.get_by_label("or a fault").select_option(str(site.workshop.steps[2].id))
    page.get_by_role("button", name="Set the pin").click()
    expect(page.get_by_role("heading", name="void: small void under the left scroll")).to_be_visible()
    page.goto(f"{site.address}/moulds/niche")
    page.get_by_role("link", name="1: void: small void").click()
    target = page.locator("li:target")
    expect(target).to_contain_text("void: small void")
    page.get_by_role("link", name="check, ").first.click()
    expect(page).to_have_url(f"{site.address}/steps/{site.workshop.steps[2].id}")


@pytest.mark.parametrize(
    "path", ["/moulds/niche", "/moulds/niche/pins", "/builds/niche-1", "/moulds/niche/pins?choose=true"]
)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_with_pins(site: Site, page: Page, pins: str, path: str, scheme: str) -> None:
    site.shop.store.add_pin(1, NewPin(0.3, 0.3, "left scroll"), site.shop.now())
    site.shop.store.add_pin(1, NewPin(0.6, 0.6, step_id=site.workshop.steps[2].id), site.shop.now())
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(site.address + path)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
