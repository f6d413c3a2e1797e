"""The bench page: hands never touch it. A real browser hears spoken notes, and a real machine hears them too."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import closing

import pytest
from playwright.sync_api import Page, expect
from rapidfuzz import fuzz, process

from journal.keep.views import NoteView
from tests.browser.conftest import WAIT_FOR_HEARING_S, Site, until
from tests.browser.phone import all_are, keep_page, new_notes, on_the_phone
from tests.browser.speech import LEAD_S, Microphone, Samples, length, loudness, noise, quiet, spoken
from tests.browser.wireless import Wireless

pytestmark = pytest.mark.browser
TEN = (
    "Sealed the pattern with two coats of shellac.",
    "Three coats of release wax on the left half.",
    "Mixed six hundred grams of polyester gel coat with twelve grams of catalyst.",
    "Brushed the first gel coat over the left half.",
    "The gel coat is still tacky after three hours.",
    "Brushed the second gel coat.",
    "Two layers of chopped strand mat on the rim.",
    "Waited forty minutes between coats.",
    "Demoulded the left half.",
    "Trimmed the flange.",
)


@pytest.fixture
def at_bench(microphone_playing: Microphone) -> Callable[..., Page]:
    """Return a function that opens a page at the bench whose microphone plays these sounds once."""

    def opened(address: str, *sounds: Samples) -> Page:
        page = microphone_playing(*sounds)
        page.goto(address)
        return page

    return opened


def state_of(page: Page) -> str:
    return str(page.locator("[data-bench-page]").get_attribute("data-state"))


def listen(page: Page) -> None:
    """Open the microphone with one press."""
    page.locator("[data-touch]").click()
    expect(page.locator("[data-bench-page]")).to_have_attribute("data-state", "listening")


def wait_for(page: Page, site: Site, count: int, state: str = "read") -> list[NoteView]:
    """Wait until so many new notes have come so far."""

    def come() -> list[NoteView]:
        notes = new_notes(site)
        return notes if len(notes) >= count and all(note.state == state for note in notes) else []

    return until(
        page, come, WAIT_FOR_HEARING_S, lambda: [(note.state, note.text, note.error) for note in new_notes(site)]
    )


def bench_of(site: Site, address: str = "") -> str:
    return f"{address or site.address}/builds/{site.workshop.build.key}/bench"


@pytest.mark.slow  # two minutes of speech in real time
@pytest.mark.timeout(900)
def test_ten_notes_over_the_open_microphone_come_out_once_each(hearing: Site, at_bench: Callable[..., Page]) -> None:
    sounds = []
    for number, text in enumerate(TEN):
        said = spoken(text)
        sounds += [said, noise(4.5, loudness(said) / 10**0.5, seed=number)]
    page = at_bench(bench_of(hearing), *sounds)
    listen(page)
    page.wait_for_timeout(1000 * (LEAD_S + length(*sounds)))
    notes = wait_for(page, hearing, len(TEN))
    assert len(notes) == len(TEN), [note.text for note in notes]
    # Each holds its own words and not another's, however they were heard.
    nearest = [process.extractOne(note.text or "", TEN, scorer=fuzz.ratio) for note in notes]
    assert [found[2] for found in nearest] == list(range(len(TEN))), [note.text for note in notes]
    all_are(page, "sent", len(TEN))


@pytest.mark.slow  # hears for real
@pytest.mark.timeout(900)
def test_commands_and_corrections_by_voice(hearing: Site, at_bench: Callable[..., Page]) -> None:
    page = at_bench(
        bench_of(hearing),
        spoken("Mixed four hundred grams of laminating epoxy."),
        quiet(6),
        spoken("Correct that to three hundred and twenty grams."),
        quiet(6),
        spoken("It was three hundred and twenty grams, not four hundred."),  # said again, lest it was not heard surely
        quiet(6),
        spoken("Brushed the second gel coat. Cancel that note."),
        quiet(6),
    )
    listen(page)
    expect(page.locator("[data-bench-page]")).to_have_attribute("data-state", "recording")
    expect(page.locator("[data-card]")).to_contain_text("320", timeout=1000 * WAIT_FOR_HEARING_S)
    mixed, *corrections, cancelled = wait_for(page, hearing, 4)
    [step] = hearing.shop.store.note_steps(mixed.id)
    assert [float(use.amount or 0) for use in step.record.materials] == [320]
    assert step.first_read["materials"][0]["amount"] == 400
    told = " ".join(change.why or "" for change in hearing.shop.store.history("step", step.id))
    assert any(f"said in note {correction.id} at " in told for correction in corrections)
    expect(page.locator("[data-card] .stamp")).to_have_text("Cancelled", timeout=1000 * WAIT_FOR_HEARING_S)
    assert all(step.withdrawn for step in hearing.shop.store.note_steps(cancelled.id))
    assert cancelled.clip is not None  # kept all the same
    assert hearing.shop.store.cancelled(cancelled.id)


@pytest.mark.slow  # hears for real
@pytest.mark.timeout(900)
def test_end_note_and_a_note_held_open_over_a_pause(hearing: Site, at_bench: Callable[..., Page]) -> None:
    said = (
        spoken("Note."),
        quiet(0.7),
        # Long enough for "note" to be heard on a busy machine before the pause after it.
        spoken("Three coats of release wax on the left half, two more on the right half, and one on each flange."),
        quiet(3),  # longer than the silence that ends other notes
        spoken("Then sprayed the release agent. End note."),
    )
    page = at_bench(bench_of(hearing), *said, quiet(4))
    listen(page)
    (note,) = wait_for(page, hearing, 1)
    assert "wax" in (note.text or "")
    assert "spray" in (note.text or "").lower()
    assert note.clip is not None
    assert note.clip.duration_s < length(*said) + 6  # held notes go on for eight seconds of silence


@pytest.mark.slow  # hears for real
@pytest.mark.timeout(900)
def test_a_question_is_answered_at_the_bench(hearing: Site, at_bench: Callable[..., Page]) -> None:
    page = at_bench(
        bench_of(hearing),
        spoken("How much hardener for four hundred grams of laminating epoxy?"),
        quiet(6),
    )
    page.evaluate(
        "() => { window.said = [];"
        " speechSynthesis.speak = (one) => { said.push(one.text); setTimeout(() => one.onend(), 50); }; }"
    )
    listen(page)
    expect(page.locator("[data-card] .came")).to_contain_text("hardener", timeout=1000 * WAIT_FOR_HEARING_S)
    page.wait_for_function("() => said.some((text) => text.includes('hardener'))")
    wait_for(page, hearing, 1)


def test_out_of_reach_in_mid_note_the_phone_goes_on_by_itself(site: Site, at_bench: Callable[..., Page]) -> None:
    said = spoken("Mixed six hundred grams of polyester gel coat with twelve grams of catalyst.")
    with closing(Wireless(site.address)) as wireless:
        page = at_bench(bench_of(site, wireless.address), said, quiet(12), said, quiet(20))
        keep_page(page)
        listen(page)
        bench = page.locator("[data-bench-page]")
        expect(bench).to_have_attribute("data-state", "recording")
        page.wait_for_timeout(1500)
        wireless.cut()
        expect(bench).to_have_attribute("data-state", "kept")  # it ended by itself, and lies here
        expect(page.locator("[data-line]")).to_contain_text("this phone listens by itself")
        expect(bench).to_have_attribute("data-state", "recording")  # and the next began by itself
        expect(bench).to_have_attribute("data-state", "kept")
        rows = all_are(page, "kept", 2)
        assert new_notes(site) == []
        wireless.mend()
        notes = wait_for(page, site, 2, state="failed")  # no weights here: kept, and not heard
        expect(page.locator("[data-line]")).to_have_text("")
        assert {note.clip.sha256 for note in notes if note.clip} == {row["sha256"] for row in rows}
        assert all(note.clip and note.clip.duration_s > length(said) for note in notes)


def test_any_key_begins_and_ends_a_note_and_escape_takes_it_back(site: Site, at_bench: Callable[..., Page]) -> None:
    page = at_bench(bench_of(site), quiet(30))
    bench = page.locator("[data-bench-page]")
    page.keyboard.press("b")  # a pedal that sends a letter opens the microphone too
    expect(bench).to_have_attribute("data-state", "listening")
    for key in ("PageDown", " ", "Enter", "MediaPlayPause"):
        page.keyboard.press(key)
        expect(bench).to_have_attribute("data-state", "recording")
        page.wait_for_timeout(600)
        page.keyboard.press(key)
        expect(bench).not_to_have_attribute("data-state", "recording")
    page.keyboard.press("PageDown")
    expect(bench).to_have_attribute("data-state", "recording")
    page.wait_for_timeout(1500)  # what is taken back ends at once: a piece of it is to be there
    page.keyboard.press("Escape")
    notes = wait_for(page, site, 5, state="failed")
    cancelled = [site.shop.store.cancelled(note.id) for note in notes]
    assert cancelled == [None] * 4 + ["the Escape key"]
    # Keys that move about the page, and its own controls, are no pedals.
    page.keyboard.press("Tab")
    page.locator("[data-silent]").focus()
    page.keyboard.press("Enter")
    expect(page.locator("[data-silent]")).to_have_attribute("aria-pressed", "true")
    assert state_of(page) != "recording"
    assert len(new_notes(site)) == 5


def test_what_was_said_before_the_press_ended_is_in_the_recording(site: Site, at_bench: Callable[..., Page]) -> None:
    page = at_bench(bench_of(site), quiet(20))
    listen(page)
    page.keyboard.press("PageDown")
    page.wait_for_timeout(2000)
    page.keyboard.press("PageDown")
    (note,) = wait_for(page, site, 1, state="failed")
    assert note.clip is not None
    assert note.clip.duration_s >= 2.4  # most of a second from before the press, and all until the second press


def test_the_headset_button_is_a_pedal(site: Site, at_bench: Callable[..., Page]) -> None:
    page = at_bench(bench_of(site), quiet(20))
    page.evaluate("""() => {
      window.pressed = {};
      const set = navigator.mediaSession.setActionHandler.bind(navigator.mediaSession);
      navigator.mediaSession.setActionHandler = (name, handler) => { pressed[name] = handler; set(name, handler); };
    }""")
    listen(page)
    page.wait_for_function("() => Boolean(pressed.pause)")
    page.evaluate("pressed.pause()")
    expect(page.locator("[data-bench-page]")).to_have_attribute("data-state", "recording")
    page.wait_for_timeout(500)
    page.evaluate("pressed.play()")
    wait_for(page, site, 1, state="failed")


def test_while_the_page_speaks_it_does_not_hear_itself(site: Site, at_bench: Callable[..., Page]) -> None:
    said = spoken("Mixed six hundred grams of polyester gel coat.")
    page = at_bench(bench_of(site), said, quiet(6))
    page.evaluate("() => { window.ended = null; speechSynthesis.speak = (one) => { ended = () => one.onend(); }; }")
    say = "import('/static/aloud.js').then(({ say }) => say('The pot life ends in five minutes. '.repeat(20)))"
    bench = page.locator("[data-bench-page]")
    page.evaluate(say)  # before the microphone is opened, and that in time before there is something to hear
    page.locator("[data-touch]").click()
    expect(bench).to_have_attribute("data-state", "speaking")
    page.wait_for_timeout(1000 * (LEAD_S + length(said) + 1))
    assert state_of(page) == "speaking"
    page.evaluate("ended()")
    expect(bench).to_have_attribute("data-state", "listening")
    page.evaluate(say)
    expect(bench).to_have_attribute("data-state", "speaking")
    page.evaluate("ended()")
    expect(bench).to_have_attribute("data-state", "listening")
    assert on_the_phone(page) == []


def test_without_a_microphone_there_is_a_file_upload(site: Site, page: Page) -> None:
    page.add_init_script("delete window.MediaRecorder")
    page.goto(bench_of(site))
    expect(page.get_by_text("This browser gives no microphone here")).to_be_visible()
    expect(page.get_by_label("Recordings")).to_be_visible()
    expect(page.locator("[data-touch]")).to_be_hidden()


def test_clocks_near_their_end_are_told(site: Site, page: Page) -> None:
    page.add_init_script("""
      window.near = [];
      document.addEventListener("clock-near", ({ detail }) => near.push(detail.said));
    """)
    page.goto(bench_of(site))
    page.evaluate("""() => {
      const section = document.querySelector("[data-clocks]");
      const at = (ms) => new Date(Date.parse(section.dataset.now) + ms).toISOString();
      section.insertAdjacentHTML("beforeend", `<ul><li data-opens="${at(-6e5)}" data-closes="${at(70000)}">
        <h3>Pot life</h3><p>gel coat, since 10:00</p><p class="amount" data-left></p></li></ul>`);
    }""")
    expect(page.locator("[data-left]").last).to_have_text(re.compile("^1:(0[1-9]|10) left$"))
    page.wait_for_function("() => near.length > 0")
    assert page.evaluate("near") == ["Pot life of the gel coat ends in 1 min."]


def test_text_at_twice_its_size_needs_no_sideways_scrolling(site: Site, page: Page) -> None:
    page.goto(bench_of(site))
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
