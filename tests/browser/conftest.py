"""A real server with a furnished workshop, and a real Chromium whose microphone is a file."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from api.app import create_app
from journal.settings import Settings
from journal.shop import Shop
from tests.api.workshop import Workshop, furnished, tone

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 800}
MICROPHONE_S = 8.0
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--autoplay-policy=user-gesture-required",
    "--use-fake-device-for-media-stream",
    "--use-fake-ui-for-media-stream",
)


def chromium() -> str:
    """Return the path of Chromium, or skip the test and say how to get it."""
    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if found is None:
        pytest.skip("Chromium is not installed: apt-get install chromium")
    return found


@pytest.fixture(scope="session")
def playwright() -> Iterator[Any]:
    with sync_playwright() as running:
        yield running


def launch(playwright: Any, microphone: Path) -> Browser:
    """Return a Chromium that hears this WAV file."""
    flags = [*QUIET, f"--use-file-for-fake-audio-capture={microphone}"]
    browser: Browser = playwright.chromium.launch(executable_path=chromium(), args=flags)
    return browser


@pytest.fixture(scope="session")
def browser(playwright: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    microphone = tmp_path_factory.mktemp("microphone") / "tone.wav"
    microphone.write_bytes(tone(MICROPHONE_S))
    browser = launch(playwright, microphone)
    yield browser
    browser.close()


@dataclass(frozen=True)
class Site:
    """A running server: its address, its shop, and what is in it."""

    address: str
    shop: Shop
    workshop: Workshop

    @property
    def build(self) -> str:
        return f"{self.address}/builds/{self.workshop.build.key}"


def serving(settings: Settings, host: str = "127.0.0.1", **tls: Any) -> Iterator[Site]:
    """Run the app on a free port until the test is over; over https when certificate files are given."""
    with socket.socket() as free:
        free.bind((host, 0))
        port = free.getsockname()[1]
    workshop = furnished(settings)  # before the worker starts: it would read notes that are half put in
    app = create_app(settings)
    server = uvicorn.Server(uvicorn.Config(app, host=host, port=port, log_level="warning", **tls))
    thread = threading.Thread(target=server.run)
    thread.start()
    try:
        until = time.monotonic() + 60
        while not server.started:
            assert thread.is_alive(), "the server stopped before it was up"
            assert time.monotonic() < until, "the server did not come up"
            time.sleep(0.05)
        yield Site(f"http{'s' if tls else ''}://{host}:{port}", app.state.shop, workshop)
    finally:
        server.should_exit = True
        thread.join(timeout=60)


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    # No weights here: what is recorded is kept and marked failed, at once. One slow test hears for real.
    yield from serving(Settings(data_dir=tmp_path, timezone="Europe/London", weights=str(tmp_path / "no weights")))


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE)
    yield context
    context.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    """A page on a phone-sized screen; an error in its scripts, or a refusal of its policy, fails the test."""
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "console", lambda message: wrong.append(message.text) if "Content Security Policy" in message.text else None
    )
    yield page
    page.close()
    assert not wrong
