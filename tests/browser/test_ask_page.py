"""A question by voice, in a real browser with a recording as its microphone, and the real hearing."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import WAIT_FOR_HEARING_S, Site
from tests.browser.speech import Microphone, length, spoken

pytestmark = pytest.mark.browser
LEAD_S = 2.0  # the page ends a question by itself after fifteen seconds


@pytest.mark.slow  # hears for real
@pytest.mark.timeout(900)
def test_a_spoken_question_is_answered_on_the_page(hearing: Site, microphone_playing: Microphone) -> None:
    said = spoken("How much hardener for four hundred grams of laminating epoxy?")
    page = microphone_playing(said, lead_s=LEAD_S)
    page.goto(f"{hearing.address}/ask")
    page.get_by_role("button", name="Speak the question").click()
    expect(page.locator("[data-ask-state]")).to_have_text("Listening")
    page.wait_for_timeout(1000 * (LEAD_S + length(said) + 1))
    page.get_by_role("button", name="End the question").click()
    expect(page.locator("[data-answer]")).to_contain_text("hardener", timeout=1000 * WAIT_FOR_HEARING_S)
    expect(page.locator("#answer")).to_contain_text("four hundred grams")
