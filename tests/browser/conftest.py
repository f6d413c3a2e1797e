"""A real server with a furnished workshop, and a real Chromium whose microphone is a file."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect, sync_playwright

from api.app import create_app
from journal.settings import Settings
from journal.shop import Shop
from tests.api.workshop import Workshop, furnished, tone
from tests.browser.speech import LEAD_S, TAIL_S, Microphone, Samples, quiet, write_wav

T = TypeVar("T")
WAIT_MS = 60_000  # for whatever a page or the machine is to come to: two cores are shared with all the other tests
WAIT_FOR_HEARING_S = 400.0  # where many share the cores, its threads wait for each other
expect.set_options(timeout=WAIT_MS)
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


def launch(playwright: Any, microphone: Path, **more: Any) -> Browser:
    """Return a Chromium that hears this WAV file."""
    flags = [*QUIET, f"--use-file-for-fake-audio-capture={microphone}"]
    browser: Browser = playwright.chromium.launch(executable_path=chromium(), args=flags, **more)
    return browser


class Driver:
    """Playwright and the Chromium of most tests. What has died is started anew: its end fails one test, and not all."""

    def __init__(self, microphone: Path) -> None:
        self._microphone = microphone
        self._playwright: Any = None
        self._browser: Browser | None = None

    def playwright(self) -> Any:
        if self._playwright is not None:
            try:
                self._playwright.request.new_context().dispose()  # is it there?
            except Error:
                self._playwright = self._browser = None
        if self._playwright is None:
            self._playwright = sync_playwright().start()
        return self._playwright

    def browser(self) -> Browser:
        playwright = self.playwright()
        if self._browser is None or not self._browser.is_connected():
            self._browser = launch(playwright, self._microphone)
        return self._browser

    def close(self) -> None:
        if self._browser is not None:
            self._browser.close()
        if self._playwright is not None:
            self._playwright.stop()


@pytest.fixture(scope="session")
def driver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Driver]:
    microphone = tmp_path_factory.mktemp("microphone") / "tone.wav"
    microphone.write_bytes(tone(MICROPHONE_S))
    driver = Driver(microphone)
    yield driver
    driver.close()


@pytest.fixture
def playwright(driver: Driver) -> Any:
    return driver.playwright()


@pytest.fixture
def browser(driver: Driver) -> Browser:
    return driver.browser()


@dataclass(frozen=True)
class Site:
    """A running server: its address, its shop, and what is in it."""

    address: str
    shop: Shop
    workshop: Workshop

    @property
    def build(self) -> str:
        return f"{self.address}/builds/{self.workshop.build.key}"


@contextmanager
def serving(settings: Settings, host: str = "127.0.0.1", **tls: Any) -> Iterator[Site]:
    """Run the app on a free port until the test is over; over https when certificate files are given."""
    workshop = furnished(settings)  # before the worker starts: it would read notes that are half put in
    app = create_app(settings)
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", **tls))
    with socket.create_server((host, 0)) as listening:  # held from the start: no other takes the port in between
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        try:
            until = time.monotonic() + WAIT_MS / 1000
            while not server.started:
                assert thread.is_alive(), "the server stopped before it was up"
                assert time.monotonic() < until, "the server did not come up"
                time.sleep(0.05)
            address = f"http{'s' if tls else ''}://{host}:{listening.getsockname()[1]}"
            yield Site(address, app.state.shop, workshop)
        finally:
            server.should_exit = True
            thread.join(WAIT_FOR_HEARING_S)  # the note in hand is heard to its end
            assert not thread.is_alive(), "the server did not stop"


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    # No weights here: what is recorded is kept and marked failed, at once. A few slow tests hear for real.
    settings = Settings(data_dir=tmp_path, timezone="Europe/London", weights=str(tmp_path / "no weights"))
    with serving(settings) as running:
        yield running


@pytest.fixture
def hearing(tmp_path: Path, weights: Path) -> Iterator[Site]:
    """A site that hears for real."""
    settings = Settings(data_dir=tmp_path / "data", timezone="Europe/London", weights=str(weights))
    with serving(settings) as running:
        yield running


@pytest.fixture
def new_phone(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Return a function that gives a page on a phone of its own."""
    phones: list[BrowserContext] = []

    def new(**more: Any) -> Page:
        context = browser.new_context(**{"viewport": PHONE, **more})
        context.set_default_timeout(WAIT_MS)
        phones.append(context)
        return context.new_page()

    yield new
    for context in phones:
        context.close()


@pytest.fixture
def page(new_phone: Callable[..., Page]) -> Iterator[Page]:
    """A page on a phone-sized screen; an error in its scripts, or a refusal of its policy, fails the test."""
    page = new_phone()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "console", lambda message: wrong.append(message.text) if "Content Security Policy" in message.text else None
    )
    yield page
    page.close()
    assert not wrong


@pytest.fixture
def microphone_playing(playwright: Any, tmp_path: Path) -> Iterator[Microphone]:
    """Return a function that gives a page whose microphone plays these sounds once; its scripts may not fail."""
    browsers: list[Browser] = []
    wrong: list[str] = []

    def playing(*sounds: Samples, lead_s: float = LEAD_S) -> Page:
        path = tmp_path / f"microphone-{len(browsers)}.wav"
        write_wav(path, [quiet(lead_s), *sounds, quiet(TAIL_S)])
        browsers.append(launch(playwright, Path(f"{path}%noloop")))
        context = browsers[-1].new_context(viewport=PHONE)
        context.set_default_timeout(WAIT_MS)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        return page

    yield playing
    for browser in browsers:
        browser.close()
    assert not wrong


def until(page: Page, found: Callable[[], T], wait_s: float = WAIT_MS / 1000, tell: Callable[[], Any] = str) -> T:
    """Wait until this finds something, and return it; the page goes on meanwhile. Waited in vain, it tells why."""
    end = time.monotonic() + wait_s
    while not (what := found()):
        assert time.monotonic() < end, tell()
        page.wait_for_timeout(100)
    return what


def slowly(page: Page) -> None:
    """Have every recording on the page play at a quarter of its speed: nobody is too late to see it play."""
    page.evaluate(
        "document.querySelectorAll('audio').forEach((each) => { each.defaultPlaybackRate = each.playbackRate = 0.25; })"
    )
