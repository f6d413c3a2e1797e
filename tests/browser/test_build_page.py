"""The build page in a real browser: it fits, it sounds, it records."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.api.workshop import SEEN, WORD_S
from tests.browser.conftest import DESK, PHONE, WAIT_FOR_HEARING_S, Site, slowly
from tests.browser.phone import new_notes
from tests.browser.speech import LEAD_S, Microphone, length, spoken

pytestmark = pytest.mark.browser
PAGES = (
    "/moulds",
    "/moulds/niche",
    "/builds/niche-1",
    "/builds/niche-1/sheet",
    "/steps/1",
    "/search?q=gel+coat",
    "/queue",
    "/away",
    "/nowhere",
)
TARGET_PX = 48


def overflow(page: Page) -> int:
    return int(page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth"))


@pytest.mark.parametrize("size", [PHONE, DESK, {"width": 320, "height": 640}], ids=["phone", "desk", "narrow"])
def test_no_page_scrolls_sideways(site: Site, page: Page, size: Any, tmp_path: Path) -> None:
    page.set_viewport_size(size)
    for path in PAGES:
        page.goto(site.address + path)
        page.screenshot(path=tmp_path / f"{size['width']}-{path.strip('/').replace('/', '-')[:20]}.png")
        assert overflow(page) <= 0, path


def test_text_at_twice_its_size_still_fits(site: Site, page: Page) -> None:
    for path in PAGES:
        page.goto(site.address + path)
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        assert overflow(page) <= 0, path


def test_what_is_pressed_is_large_enough_for_gloves(site: Site, page: Page) -> None:
    page.goto(site.build)
    small = page.evaluate(
        """least => [...document.querySelectorAll("button, .button, .value, .more, input, select, textarea, .head a")]
          .filter(e => e.checkVisibility() && e.type !== "radio" && e.type !== "checkbox")
          .filter(e => e.getBoundingClientRect().height < least)
          .map(e => e.outerHTML)""",
        TARGET_PX,
    )
    assert small == []


def test_every_control_has_a_name_and_every_id_is_one(site: Site, page: Page) -> None:
    for path in PAGES:
        page.goto(site.address + path)
        nameless = page.evaluate(
            """() => [...document.querySelectorAll("button, a, input, select, textarea, audio, img, meter")]
              .filter(e => e.checkVisibility())
              .map(e => e.querySelector("img") ?? e)
              .filter(e => !(e.textContent.trim() || e.labels?.length || e.ariaLabel || e.alt))
              .map(e => e.outerHTML)"""
        )
        assert nameless == [], path
        doubles = page.evaluate(
            """() => [...document.querySelectorAll("[id]")].map(e => e.id)
              .filter((id, i, every) => every.indexOf(id) !== i)"""
        )
        assert doubles == [], path
        assert page.locator("h1").count() == 1, path


def test_the_first_press_of_tab_skips_to_the_sheet(site: Site, page: Page) -> None:
    page.goto(site.build)
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()


def test_words_are_lit_as_the_recording_plays(site: Site, page: Page) -> None:
    note = site.workshop.notes[0]
    page.goto(site.build)
    slowly(page)
    entry = page.locator(f"#note-{note.id}")
    entry.get_by_role("button", name="Hear the note").click()
    expect(entry.locator(".words .lit")).to_have_text("seven")
    expect(entry.locator(".words .lit")).to_have_text("hundred")
    lit = page.evaluate(
        """id => {
          const entry = document.getElementById(id);
          const { start, end } = entry.querySelector(".lit").dataset;
          return [Number(start), entry.querySelector("audio").currentTime, Number(end)];
        }""",
        f"note-{note.id}",
    )
    assert lit[0] - 0.1 <= lit[1] <= lit[2] + 0.1
    entry.get_by_role("button", name="Hear the note").click()
    expect(entry.locator(".words .lit")).to_have_count(0)


def test_pressing_a_value_plays_exactly_its_seconds_and_marks_its_words(site: Site, page: Page) -> None:
    step = site.workshop.steps[0]
    evidence = step.record.materials[1].evidence
    assert evidence.audio is not None
    page.goto(site.build)
    slowly(page)
    value = page.locator(f"#step-{step.id} .value", has_text="catalyst").first
    value.click()
    expect(value).to_have_attribute("aria-pressed", "true")
    expect(value).to_have_attribute("aria-pressed", "false")
    [[began, ended]] = page.evaluate(
        """id => {
          const { played } = document.querySelector(`[data-recording="${id}"] audio`);
          return [...Array(played.length).keys()].map(i => [played.start(i), played.end(i)]);
        }""",
        step.note_id,
    )
    start, end = evidence.audio
    assert start - 0.1 <= began <= start
    assert end <= ended <= end + 0.3
    assert " ".join(page.locator(".words .source").all_text_contents()) == evidence.heard
    assert page.url == site.build


def test_pressing_a_word_plays_from_it(site: Site, page: Page) -> None:
    note = site.workshop.notes[2]
    page.goto(site.build)
    slowly(page)
    page.locator(f"#note-{note.id} .words span", has_text="twenty").click()
    expect(page.locator(f"#note-{note.id} .words .lit")).to_have_text("twenty")
    at = page.evaluate("id => document.querySelector(`#note-${id} audio`).currentTime", note.id)
    assert at >= SEEN.split().index("twenty") * WORD_S


def test_a_value_is_heard_from_the_keyboard(site: Site, page: Page) -> None:
    page.goto(site.build)
    slowly(page)
    value = page.locator(f"#step-{site.workshop.steps[0].id} .value").first
    value.focus()
    page.keyboard.press("Space")
    expect(value).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Escape")
    expect(value).to_have_attribute("aria-pressed", "false")


def test_what_was_found_is_heard_on_the_search_page(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/search?q=void")
    slowly(page)
    key = page.get_by_role("button", name="Hear it").first
    key.click()
    expect(key).to_have_attribute("aria-pressed", "true")
    expect(key).to_have_attribute("aria-pressed", "false")
    assert page.url.endswith("/search?q=void")


def test_a_step_is_corrected_on_a_phone(site: Site, page: Page) -> None:
    step = site.workshop.steps[0]
    page.goto(site.build)
    page.locator(f"#step-{step.id}").get_by_role("link", name="Correct it").click()
    page.get_by_label("Amount").first.fill("720")
    page.get_by_label("Who").first.fill("second maker")
    page.get_by_role("button", name="Keep the correction").click()
    expect(page.get_by_role("status").first).to_have_text("The correction is kept.")
    assert site.shop.store.step(step.id).json["materials"][0]["amount"] == 720
    page.goto(site.build)
    expect(page.locator(f"#step-{step.id}")).to_contain_text("720\u00a0g")
    expect(page.locator(f"#step-{step.id}")).to_contain_text("corrected")


def test_confirming_a_step_goes_on_to_the_next_to_check(site: Site, page: Page) -> None:
    first, second, _ = site.workshop.steps
    page.goto(site.build)
    page.get_by_role("link", name="Begin with the first").click()
    page.locator(f"#step-{first.id}").get_by_role("button", name="It is right").click()
    page.wait_for_url(f"**#step-{second.id}")
    expect(page.get_by_text("1 of 3 steps is to be checked")).to_be_visible()


def test_a_note_is_recorded_and_sent(site: Site, page: Page) -> None:
    page.goto(site.build)
    bench = page.get_by_role("complementary", name="Speak a note")
    bench.get_by_role("button", name="Speak a note").click()
    expect(bench.get_by_role("status")).to_contain_text("Listening")
    page.wait_for_timeout(2200)
    bench.get_by_role("button", name="End the note").click()
    expect(bench.get_by_role("status")).to_contain_text("Sent")
    (note,) = new_notes(site)
    assert note.clip is not None
    assert note.clip.media_type == "audio/webm"
    assert note.clip.duration_s >= 1.5
    assert note.client_key
    entry = page.locator(f"#note-{note.id}")
    # Nothing can be heard without weights: the page says so by itself, and the recording is there to play.
    expect(entry).to_contain_text("could not be read")
    entry.get_by_role("button", name="Hear the note").click()
    page.wait_for_function("id => document.querySelector(`#note-${id} audio`).currentTime > 0.5", arg=note.id)


def test_the_build_page_works_without_scripts(site: Site, new_phone: Callable[..., Page]) -> None:
    page = new_phone(java_script_enabled=False)
    page.goto(site.build)
    assert page.locator("audio[controls]").count() == 3
    expect(page.locator("[data-bench]")).to_be_hidden()
    page.locator("textarea").fill("Two coats of wax.")
    page.get_by_role("button", name="Add the note").click()
    expect(page.get_by_text("Two coats of wax.")).to_be_visible()
    page.locator(f"#step-{site.workshop.steps[0].id} .value").first.click()
    expect(page.get_by_role("heading", name="Where each value comes from")).to_be_visible()


@pytest.mark.slow  # hears for real
@pytest.mark.timeout(900)
def test_a_spoken_note_appears_with_its_values_while_the_page_is_open(
    hearing: Site, microphone_playing: Microphone
) -> None:
    said = spoken("Brushed on two coats of shellac, and waited forty minutes.")
    page = microphone_playing(said)
    page.goto(hearing.build)
    page.get_by_role("button", name="Speak a note").click()
    expect(page.locator("[data-bench] [role=status]")).to_contain_text("Listening")
    page.wait_for_timeout(1000 * (LEAD_S + length(said) + 1))
    page.get_by_role("button", name="End the note").click()
    expect(page.locator("[data-bench] [role=status]")).to_contain_text("Sent")
    (note,) = new_notes(hearing)
    entry = page.locator(f"#note-{note.id}")
    expect(entry).to_contain_text("40\u00a0min", timeout=1000 * WAIT_FOR_HEARING_S)
    slowly(page)
    value = entry.locator(".value", has_text="40\u00a0min")
    start = float(value.get_attribute("data-start") or 0)
    assert start > 1
    value.click()  # a recording that a browser made has no index: it must be found by its seconds all the same
    expect(value).to_have_attribute("aria-pressed", "true")
    expect(value).to_have_attribute("aria-pressed", "false")
    assert page.evaluate("id => document.querySelector(`#note-${id} audio`).currentTime", note.id) >= start
