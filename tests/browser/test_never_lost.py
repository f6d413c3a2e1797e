"""A spoken note is never lost between the mouth and the machine, nor taken in twice."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from journal.keep.views import NoteView
from journal.settings import Settings
from tests.api.workshop import tone
from tests.browser.conftest import PHONE, QUIET, Site, chromium
from tests.browser.wireless import Wireless, relaying

pytestmark = pytest.mark.browser
WAIT_MS = 30_000
SPOKEN_MS = 2600
MINUTE_MS = 60_000
# What the phone holds: each recording's state, its length in bytes, and the sum of what lies in its storage.
ON_THE_PHONE = """async () => {
  const kept = await import("/static/kept.js");
  return Promise.all((await kept.all()).map(async (row) => {
    const sum = await crypto.subtle.digest("SHA-256", await (await kept.bytesFrom(row.key)).arrayBuffer());
    const sha256 = [...new Uint8Array(sum)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return { ...row, sha256: row.sha256 ?? sha256 };
  }));
}"""
SEEN = """async () => (await caches.has("pages"))
  && Boolean(await (await caches.open("pages")).match(location.pathname))
  && Boolean(navigator.serviceWorker.controller)"""


@pytest.fixture
def wireless(site: Site) -> Iterator[Wireless]:
    yield from relaying(site.address)


@pytest.fixture
def build(wireless: Wireless, site: Site) -> str:
    return f"{wireless.address}/builds/{site.workshop.build.key}"


def status(page: Page) -> Locator:
    return page.locator("[data-bench] [role=status]")


def begin(page: Page) -> None:
    page.get_by_role("button", name="Speak a note").click()
    expect(status(page)).to_contain_text("Listening", timeout=WAIT_MS)


def end(page: Page) -> None:
    page.get_by_role("button", name="End the note").click()


def on_the_phone(page: Page) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = page.evaluate(ON_THE_PHONE)
    return rows


def keep_page(page: Page) -> None:
    """Wait until the page is on the phone, so that it opens without the machine."""
    until = time.monotonic() + WAIT_MS / 1000
    while not page.evaluate(SEEN):
        assert time.monotonic() < until, "the page was not kept"
        page.wait_for_timeout(100)


def new_notes(site: Site) -> list[NoteView]:
    furnished = {note.id for note in site.workshop.notes}
    return [note for note in site.shop.store.notes(site.workshop.build.key) if note.id not in furnished]


def assert_home(page: Page, site: Site, count: int) -> list[NoteView]:
    """Every recording of the phone is one note with the same bytes, and the phone let go of them."""
    notes = new_notes(site)
    receipts = on_the_phone(page)
    assert [row["state"] for row in receipts] == ["sent"] * count
    assert len(notes) == count
    for row in receipts:
        note = next(note for note in notes if note.client_key == row["key"])
        assert note.clip is not None
        assert note.id == row["note"]
        assert note.clip.sha256 == row["sha256"]
        assert len(site.shop.media.read(note.clip.sha256)) == row["size"]
        assert note.clip.duration_s >= row["seconds"] - 1.5
    assert list((site.shop.settings.data_dir / "arriving").glob("*")) == []
    left = page.evaluate("import('/static/kept.js').then(kept => kept.bytesFrom('', 0)).then(blob => blob.size)")
    assert left == 0
    return notes


def test_a_note_arrives_while_it_is_spoken_and_is_confirmed(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    begin(page)
    page.wait_for_timeout(SPOKEN_MS)
    row = on_the_phone(page)[0]
    assert row["state"] == "speaking"
    assert row["size"] > 0
    part = site.shop.settings.data_dir / "arriving" / f"{site.workshop.build.id}-{row['key']}.part"
    assert part.stat().st_size > 0
    assert new_notes(site) == []
    assert page.locator("[data-bench]").get_attribute("data-awake") == "true"
    end(page)
    expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
    (note,) = assert_home(page, site, 1)
    assert note.recorded_at.utcoffset() is not None
    assert note.device
    assert page.locator("[data-bench]").get_attribute("data-awake") is None


@pytest.mark.slow  # a minute out of reach
def test_out_of_reach_in_mid_note(site: Site, page: Page, wireless: Wireless, build: str) -> None:
    page.goto(build)
    begin(page)
    page.wait_for_timeout(SPOKEN_MS)
    wireless.cut()
    page.wait_for_timeout(MINUTE_MS)  # it is spoken on, out of reach
    end(page)
    expect(status(page)).to_contain_text("Kept here", timeout=WAIT_MS)
    expect(page.locator("[data-here] [data-slip]")).to_contain_text("out of reach")
    expect(page.get_by_role("link", name="1 not sent yet")).to_be_visible()
    begin(page)  # the next note does not wait for the last one
    page.wait_for_timeout(1300)
    end(page)
    expect(page.get_by_role("link", name="2 not sent yet")).to_be_visible(timeout=WAIT_MS)
    held = {row["key"]: row["sha256"] for row in on_the_phone(page)}
    wireless.mend()
    expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
    notes = assert_home(page, site, 2)
    assert {note.client_key: note.clip and note.clip.sha256 for note in notes} == held


def test_a_reload_in_mid_note_keeps_what_was_spoken(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    begin(page)
    page.wait_for_timeout(SPOKEN_MS)
    page.reload()
    expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
    (note,) = assert_home(page, site, 1)
    assert note.clip is not None
    assert note.clip.duration_s >= 0.9


def test_a_browser_closed_in_mid_note_without_the_machine(
    site: Site, playwright: Any, wireless: Wireless, build: str, tmp_path: Path
) -> None:
    microphone = tmp_path / "tone.wav"
    microphone.write_bytes(tone(8.0))

    def phone() -> BrowserContext:
        flags = [*QUIET, f"--use-file-for-fake-audio-capture={microphone}"]
        context: BrowserContext = playwright.chromium.launch_persistent_context(
            tmp_path / "phone", executable_path=chromium(), args=flags, viewport=PHONE
        )
        return context

    first = phone()
    page = first.new_page()
    page.goto(build)
    keep_page(page)
    wireless.cut()
    begin(page)
    page.wait_for_timeout(SPOKEN_MS)
    first.close()

    again = phone()
    page = again.new_page()
    page.goto(build)  # as it was last seen, from the phone
    expect(page.get_by_text("No contact with the machine: this page is as it was last seen")).to_be_visible()
    expect(status(page)).to_contain_text("Kept here", timeout=WAIT_MS)
    (row,) = on_the_phone(page)
    assert row["state"] == "kept"
    begin(page)  # and it records
    page.wait_for_timeout(1300)
    end(page)
    expect(page.get_by_role("link", name="2 not sent yet")).to_be_visible(timeout=WAIT_MS)
    wireless.mend()
    expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
    notes = assert_home(page, site, 2)
    assert notes[0].clip is not None
    assert notes[0].clip.sha256 == row["sha256"]
    again.close()


def test_a_note_whose_confirmation_was_lost_is_not_taken_in_twice(
    site: Site, page: Page, wireless: Wireless, build: str
) -> None:
    page.goto(build)
    wireless.lose_answer_to(b'"sha256":')
    begin(page)
    page.wait_for_timeout(1300)
    end(page)
    expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
    assert wireless.lost.is_set()
    assert_home(page, site, 1)


def test_two_phones_at_once(site: Site, browser: Browser, build: str) -> None:
    contexts = [browser.new_context(viewport=PHONE) for _ in range(2)]
    pages = [context.new_page() for context in contexts]
    for page in pages:
        page.goto(build)
        begin(page)
    pages[0].wait_for_timeout(SPOKEN_MS)
    for page in pages:
        end(page)
    for page in pages:
        expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
    receipts = [on_the_phone(page)[0] for page in pages]
    notes = new_notes(site)
    assert {(note.client_key, note.clip and note.clip.sha256) for note in notes} == {
        (row["key"], row["sha256"]) for row in receipts
    }
    assert len(notes) == 2
    for context in contexts:
        context.close()


def test_the_queue_shows_plays_and_saves_what_is_on_the_phone(
    site: Site, page: Page, wireless: Wireless, build: str, tmp_path: Path
) -> None:
    page.goto(build)
    keep_page(page)
    wireless.cut()
    begin(page)
    page.wait_for_timeout(SPOKEN_MS)
    end(page)
    expect(status(page)).to_contain_text("Kept here", timeout=WAIT_MS)
    page.get_by_role("link", name="1 not sent yet").click()
    slip = page.locator("main [data-here] [data-slip]")
    expect(slip).to_contain_text("Kept here", timeout=WAIT_MS)
    expect(slip).to_contain_text(site.workshop.build.name)
    slip.get_by_role("button", name="Hear it").click()
    page.wait_for_function("() => document.querySelector('[data-slip] audio')?.currentTime > 0.3")
    with page.expect_download() as saving:
        slip.get_by_role("button", name="Save as a file").click()
    saved = tmp_path / "saved.webm"
    saving.value.save_as(saved)
    (row,) = on_the_phone(page)
    wireless.mend()
    slip.get_by_role("button", name="Send now").click()
    expect(page.locator("[data-receipts] [data-slip]")).to_contain_text("Sent", timeout=WAIT_MS)
    expect(page.get_by_text("Nothing is left here")).to_be_visible()
    (note,) = assert_home(page, site, 1)
    assert note.clip is not None
    assert site.shop.media.read(note.clip.sha256) == saved.read_bytes()
    assert note.clip.sha256 == row["sha256"]


def test_what_the_machine_refuses_stays_on_the_phone_with_the_reason(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    page.evaluate("document.querySelector('[data-bench]').dataset.bench = 'no-such-build'")
    begin(page)
    page.wait_for_timeout(1300)
    end(page)
    expect(status(page)).to_contain_text("Refused", timeout=WAIT_MS)
    expect(status(page)).to_contain_text("no build")
    (row,) = on_the_phone(page)
    assert (row["state"], row["size"] > 0) == ("refused", True)
    assert new_notes(site) == []


def test_a_page_never_seen_says_what_can_be_opened_without_the_machine(
    page: Page, wireless: Wireless, build: str
) -> None:
    page.goto(build)
    keep_page(page)
    wireless.cut()
    page.goto(f"{wireless.address}/moulds")
    expect(page.get_by_role("heading", name="No contact with the machine")).to_be_visible()
    page.get_by_role("link", name="Niche 1").click()
    expect(page.locator("[data-bench]")).to_be_visible()
    # What /api/ says is never shown from the phone.
    assert page.evaluate("fetch('/api/moulds').then(() => 'answered', () => 'failed')") == "failed"


class Machine:
    """The app in a process of its own, which can be killed."""

    def __init__(self, settings: Settings, port: int) -> None:
        named = {f"MOULDBOOK_{name.upper()}": str(value) for name, value in settings.model_dump().items() if value}
        self._environment = {**os.environ, **named}
        self._port = port
        self.start()

    def start(self) -> None:
        command = [sys.executable, "-m", "uvicorn", "--factory", "api.app:create_app", "--port", str(self._port)]
        self._process = subprocess.Popen([*command, "--log-level", "warning"], env=self._environment)
        until = time.monotonic() + 120
        while True:
            assert self._process.poll() is None, "the machine stopped before it was up"
            assert time.monotonic() < until, "the machine did not come up"
            try:
                httpx.get(f"http://127.0.0.1:{self._port}/away")
                return
            except httpx.TransportError:
                time.sleep(0.2)

    def kill(self) -> None:
        self._process.send_signal(signal.SIGKILL)
        self._process.wait()


@pytest.mark.slow  # starts the whole app twice
def test_the_machine_killed_in_mid_upload(site: Site, page: Page) -> None:
    # A second process on the same data folder: what it leaves behind when it is killed is what counts.
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    machine = Machine(site.shop.settings, port)
    try:
        page.goto(f"http://127.0.0.1:{port}/builds/{site.workshop.build.key}")
        begin(page)
        page.wait_for_timeout(SPOKEN_MS)
        (row,) = on_the_phone(page)
        part = site.shop.settings.data_dir / "arriving" / f"{site.workshop.build.id}-{row['key']}.part"
        machine.kill()
        received = part.stat().st_size
        assert received > 0
        page.wait_for_timeout(1300)
        end(page)
        expect(status(page)).to_contain_text("Kept here", timeout=WAIT_MS)
        held = on_the_phone(page)[0]
        assert held["size"] > received
        machine.start()
        expect(status(page)).to_contain_text("Sent", timeout=WAIT_MS)
        (note,) = assert_home(page, site, 1)
        assert note.clip is not None
        assert note.clip.sha256 == held["sha256"]
    finally:
        machine.kill()
