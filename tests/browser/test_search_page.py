"""Search on a phone-sized screen: chips that are taken away, matches lit, the words heard at their second."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import Site, slowly

pytestmark = pytest.mark.browser
LINE = "gel coat mixed with 700 grams that is under way"


def test_plain_words_become_chips_and_a_chip_is_taken_away(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/search")
    page.get_by_role("searchbox", name="Words").fill(LINE)
    page.get_by_role("button", name="Search").click()
    chips = page.locator(".chips a")
    expect(chips).to_have_count(4)
    page.get_by_role("link", name=re.compile("amount about 700 g")).click()
    expect(chips).to_have_count(3)
    expect(page.get_by_role("searchbox", name="Words")).to_have_value("gel coat mixed that is under way")


def test_chips_work_without_scripts(site: Site, new_phone: Callable[..., Page]) -> None:
    page = new_phone(java_script_enabled=False)
    page.goto(f"{site.address}/search?q=void+on+the+left+scroll")
    page.get_by_role("link", name=re.compile("place left scroll")).click()
    expect(page.get_by_role("searchbox", name="Words")).to_have_value("void")


def test_what_was_found_is_lit_and_heard_at_its_seconds(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/search?q=streaks+one+colour")
    expect(page.locator("mark").first).to_be_visible()
    slowly(page)
    hear = page.get_by_role("button", name="Hear it").first
    hear.click()
    expect(hear).to_have_attribute("aria-pressed", "true")
    expect(hear).to_have_attribute("aria-pressed", "false")


def test_axe_finds_nothing_on_search_with_chips(site: Site, page: Page) -> None:
    for line in ("void+on+the+left+scroll+at+21+degrees", "epoxy+putty+fill+under+20+degrees+that+worked"):
        page.goto(f"{site.address}/search?q={line}")
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
