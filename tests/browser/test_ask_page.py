"""A question by voice, in a real browser with a recording as its microphone, and the real hearing."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from journal.settings import Settings
from tests.browser.conftest import launch, serving

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}


@pytest.mark.slow
def test_a_spoken_question_is_answered_on_the_page(playwright: Any, tmp_path: Path, weights: Path) -> None:
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed: apt-get install espeak-ng")
    wav = tmp_path / "question.wav"
    words = "How much water for three hundred grams of gypsum plaster?"
    subprocess.run(["espeak-ng", "-v", "en-gb", "-s", "135", "-w", str(wav), words], check=True)
    running = serving(Settings(data_dir=tmp_path / "data", timezone="Europe/London", weights=str(weights)))
    site = next(running)
    browser = launch(playwright, wav)
    page = browser.new_page(viewport=PHONE)
    page.goto(site.build.split("/builds/")[0] + "/ask")
    page.get_by_role("button", name="Speak the question").click()
    expect(page.locator("[data-ask-state]")).to_have_text("Listening")
    page.wait_for_timeout(5000)
    page.get_by_role("button", name="End the question").click()
    expect(page.locator("[data-answer]")).to_contain_text("water", timeout=120_000)
    assert "300" in page.locator("#answer").inner_text()
    browser.close()
    next(running, None)
