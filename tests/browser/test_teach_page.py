"""A training sheet is heard at the second, and a self-test is taken without any script."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE, Site, slowly

pytestmark = pytest.mark.browser


def test_the_makers_words_are_heard_at_their_second(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/teach/{site.workshop.build.key}")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    slowly(page)
    cue = page.locator("[data-hear]", has_text="Hear it").first
    start = float(cue.get_attribute("data-start") or "-1")
    note = cue.get_attribute("data-hear")
    cue.click()
    expect(cue).to_have_attribute("aria-pressed", "true")
    page.wait_for_function(
        "([note, start]) => document.querySelector(`[data-recording='${note}'] audio`).currentTime > start - 0.1",
        arg=[note, start],
    )


def test_a_self_test_is_taken_and_a_lesson_signed_off_without_a_script(
    site: Site, new_phone: Callable[..., Page]
) -> None:
    page = new_phone(java_script_enabled=False)
    page.goto(f"{site.address}/teach/{site.workshop.build.key}")
    page.get_by_role("link", name="Take the self-test").click()
    page.get_by_label("Your name or role").fill("apprentice")
    for group in page.locator("fieldset:has(input[type=radio])").all():
        group.locator("input[type=radio]").first.check()
    page.get_by_role("button", name="Mark it").click()
    expect(page.locator("h1")).to_contain_text("right")
    expect(page.locator("ol.marked > li").first).to_contain_text("The record says")
    page.get_by_role("link", name="Back to the sheet").click()
    expect(page.locator("#progress")).to_contain_text("apprentice")
    page.get_by_label("Apprentice", exact=True).fill("apprentice")
    page.get_by_label("Maker who signs").fill("lead maker")
    page.locator("input[name='lesson.1']").check()
    page.get_by_role("button", name="Sign off").click()
    expect(page.locator("#lesson-1")).to_contain_text("Signed off: apprentice, by lead maker")
