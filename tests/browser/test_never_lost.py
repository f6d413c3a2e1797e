"""A spoken note is never lost between the mouth and the machine, nor taken in twice."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import httpx
import pytest
from playwright.sync_api import Page, expect

from journal.settings import Settings
from tests.api.workshop import tone
from tests.browser.conftest import PHONE, QUIET, WAIT_MS, Site, chromium, until
from tests.browser.phone import all_are, assert_home, begin, end, keep_page, new_notes, on_the_phone, speak, status
from tests.browser.wireless import Wireless
from tests.ports import reserved_ports

pytestmark = pytest.mark.browser
MINUTE_MS = 60_000


@pytest.fixture
def wireless(site: Site) -> Iterator[Wireless]:
    with closing(Wireless(site.address)) as wireless:
        yield wireless


@pytest.fixture
def build(wireless: Wireless, site: Site) -> str:
    return f"{wireless.address}/builds/{site.workshop.build.key}"


def arrived(site: Site, row: dict[str, Any]) -> int:
    """Return how many bytes of an unfinished recording the machine has."""
    part = site.shop.settings.data_dir / "arriving" / f"{site.workshop.build.id}-{row['key']}.part"
    return part.stat().st_size if part.exists() else 0


def test_a_note_arrives_while_it_is_spoken_and_is_confirmed(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    row = speak(page)
    assert row["state"] == "speaking"
    assert row["size"] > 0
    until(page, lambda: arrived(site, row))
    assert new_notes(site) == []
    expect(page.locator("[data-bench]")).to_have_attribute("data-awake", "true")
    end(page)
    expect(status(page)).to_contain_text("Sent")
    (note,) = assert_home(page, site, 1)
    assert note.recorded_at.utcoffset() is not None
    assert note.device
    expect(page.locator("[data-bench][data-awake]")).to_have_count(0)


@pytest.mark.slow  # a minute out of reach
def test_out_of_reach_in_mid_note(site: Site, page: Page, wireless: Wireless, build: str) -> None:
    page.goto(build)
    speak(page)
    wireless.cut()
    page.wait_for_timeout(MINUTE_MS)  # it is spoken on, out of reach
    end(page)
    expect(status(page)).to_contain_text("Kept here")
    expect(page.locator("[data-here] [data-slip]")).to_contain_text("out of reach")
    expect(page.get_by_role("link", name="1 not sent yet")).to_be_visible()
    begin(page)  # the next note does not wait for the last one
    page.wait_for_timeout(1300)
    end(page)
    expect(page.get_by_role("link", name="2 not sent yet")).to_be_visible()
    held = {row["key"]: row["sha256"] for row in all_are(page, "kept", 2)}
    wireless.mend()
    expect(status(page)).to_contain_text("Sent")
    notes = assert_home(page, site, 2)
    assert {note.client_key: note.clip and note.clip.sha256 for note in notes} == held


def test_a_reload_in_mid_note_keeps_what_was_spoken(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    speak(page)
    page.reload()
    expect(status(page)).to_contain_text("Sent")
    (note,) = assert_home(page, site, 1)
    assert note.clip is not None
    assert note.clip.duration_s >= 0.9


def test_a_browser_closed_in_mid_note_without_the_machine(
    site: Site, playwright: Any, wireless: Wireless, build: str, tmp_path: Path
) -> None:
    microphone = tmp_path / "tone.wav"
    microphone.write_bytes(tone(8.0))

    @contextmanager
    def phone() -> Iterator[Page]:
        flags = [*QUIET, f"--use-file-for-fake-audio-capture={microphone}"]
        with playwright.chromium.launch_persistent_context(
            tmp_path / "phone", executable_path=chromium(), args=flags, viewport=PHONE
        ) as context:
            context.set_default_timeout(WAIT_MS)
            yield context.new_page()

    with phone() as page:
        page.goto(build)
        keep_page(page)
        wireless.cut()
        speak(page)

    with phone() as page:
        page.goto(build)  # as it was last seen, from the phone
        expect(page.get_by_text("No contact with the machine: this page is as it was last seen")).to_be_visible()
        expect(status(page)).to_contain_text("Kept here")
        (row,) = on_the_phone(page)
        assert row["state"] == "kept"
        begin(page)  # and it records
        page.wait_for_timeout(1300)
        end(page)
        expect(page.get_by_role("link", name="2 not sent yet")).to_be_visible()
        wireless.mend()
        expect(status(page)).to_contain_text("Sent")
        notes = assert_home(page, site, 2)
        assert notes[0].clip is not None
        assert notes[0].clip.sha256 == row["sha256"]


def test_a_note_whose_confirmation_was_lost_is_not_taken_in_twice(
    site: Site, page: Page, wireless: Wireless, build: str
) -> None:
    page.goto(build)
    wireless.lose_answer_to(b'"sha256":')
    begin(page)
    page.wait_for_timeout(1300)
    end(page)
    expect(status(page)).to_contain_text("Sent")
    assert wireless.lost.is_set()
    assert_home(page, site, 1)


def test_two_phones_at_once(site: Site, new_phone: Callable[..., Page], build: str) -> None:
    pages = [new_phone() for _ in range(2)]
    for page in pages:
        page.goto(build)
        begin(page)
    pages[0].wait_for_timeout(2600)
    for page in pages:
        end(page)
    for page in pages:
        expect(status(page)).to_contain_text("Sent")
    receipts = [row for page in pages for row in all_are(page, "sent")]
    notes = new_notes(site)
    assert {(note.client_key, note.clip and note.clip.sha256) for note in notes} == {
        (row["key"], row["sha256"]) for row in receipts
    }
    assert len(notes) == 2


def test_the_queue_shows_plays_and_saves_what_is_on_the_phone(
    site: Site, page: Page, wireless: Wireless, build: str, tmp_path: Path
) -> None:
    page.goto(build)
    keep_page(page)
    wireless.cut()
    speak(page)
    end(page)
    expect(status(page)).to_contain_text("Kept here")
    page.get_by_role("link", name="1 not sent yet").click()
    slip = page.locator("main [data-here] [data-slip]")
    expect(slip).to_contain_text("Kept here")
    expect(slip).to_contain_text(site.workshop.build.name)
    slip.get_by_role("button", name="Hear it").click()
    page.wait_for_function("() => document.querySelector('[data-slip] audio')?.currentTime > 0.3")
    with page.expect_download() as saving:
        slip.get_by_role("button", name="Save as a file").click()
    saved = tmp_path / "saved.webm"
    saving.value.save_as(saved)
    (row,) = all_are(page, "kept")
    wireless.mend()
    slip.get_by_role("button", name="Send now").click()
    expect(page.locator("[data-receipts] [data-slip]")).to_contain_text("Sent")
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
    expect(status(page)).to_contain_text("Refused")
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
        last = time.monotonic() + 120
        while True:
            assert self._process.poll() is None, "the machine stopped before it was up"
            assert time.monotonic() < last, "the machine did not come up"
            try:
                httpx.get(f"http://127.0.0.1:{self._port}/away")
                return
            except httpx.TransportError:
                time.sleep(0.2)

    def kill(self) -> None:
        self._process.send_signal(signal.SIGKILL)
        self._process.wait()

    close = kill


@pytest.mark.slow  # starts the whole app twice
def test_the_machine_killed_in_mid_upload(site: Site, page: Page) -> None:
    # A second process on the same data folder: what it leaves behind when it is killed is what counts.
    with reserved_ports(1) as [port], closing(Machine(site.shop.settings, port)) as machine:
        page.goto(f"http://127.0.0.1:{port}/builds/{site.workshop.build.key}")
        row = speak(page)
        until(page, lambda: arrived(site, row))
        machine.kill()
        received = arrived(site, row)
        page.wait_for_timeout(1300)
        end(page)
        expect(status(page)).to_contain_text("Kept here")
        (held,) = all_are(page, "kept")
        assert held["size"] > received
        machine.start()
        expect(status(page)).to_contain_text("Sent")
        (note,) = assert_home(page, site, 1)
        assert note.clip is not None
        assert note.clip.sha256 == held["sha256"]
