"""A phone of the shop's network: it trusts the machine, is paired, speaks, and is revoked without losing a word."""

from __future__ import annotations

import io
import shutil
import socket
import subprocess
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
import uvicorn
import zxingcpp
from axe_playwright_python.sync_playwright import Axe
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, expect

from api.pages.devices import picture_of
from api.routes.devices import pairing_address
from api.trust import create_trust_app
from journal.cli.lan import posture
from journal.lan.addresses import place
from journal.settings import Settings
from tests.api.workshop import tone
from tests.browser.conftest import PHONE, WAIT_MS, Site, launch, serving
from tests.browser.phone import all_are, assert_home, end, keep_page, new_notes, speak, status

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(not place().addresses, reason="this machine is on no network"),
]


@pytest.fixture
def lan_settings(tmp_path: Path) -> Settings:
    return Settings(data_dir=tmp_path, timezone="Europe/London", weights=str(tmp_path / "no weights"))


@pytest.fixture
def site(lan_settings: Settings) -> Iterator[Site]:
    """The app over https at this machine's own address on the network."""
    certified = posture(lan_settings).certified
    host = place().best.strip("[]")
    with serving(lan_settings, host, ssl_certfile=certified.chain, ssl_keyfile=certified.key) as running:
        yield running


def trust(home: Path, certificate: Path) -> None:
    """Install the authority where Chromium looks for those that a user trusts (NSS)."""
    tool = shutil.which("certutil")
    if tool is None:
        pytest.skip("certutil is not installed: apt-get install libnss3-tools")
    folder = home / ".pki" / "nssdb"
    folder.mkdir(parents=True)
    database = f"sql:{folder}"
    subprocess.run([tool, "-N", "-d", database, "--empty-password"], check=True)
    subprocess.run([tool, "-A", "-d", database, "-n", "authority", "-t", "C,,", "-i", certificate], check=True)


@pytest.fixture
def trusting(playwright: Any, site: Site, lan_settings: Settings, tmp_path: Path) -> Iterator[Browser]:
    """A Chromium whose user trusts the authority, and no other certificate that is not public."""
    home = tmp_path / "home"
    trust(home, lan_settings.lan / "authority.pem")
    microphone = tmp_path / "tone.wav"
    microphone.write_bytes(tone(8.0))
    with launch(playwright, microphone, env={"HOME": str(home)}) as browser:
        yield browser


@pytest.fixture
def phone(trusting: Browser) -> Iterator[BrowserContext]:
    with trusting.new_context(viewport=PHONE) as context:
        context.set_default_timeout(WAIT_MS)
        yield context


def pair(page: Page, site: Site, name: str = "bench phone") -> None:
    """Pair as a person does who points the camera at the picture."""
    code = site.shop.store.new_pairing(site.shop.now())
    path = pairing_address(site.shop.settings, code).split("/", 3)[3]
    page.goto(f"{site.address}/{path}")
    page.get_by_label("What is this device called?").fill(name)
    page.get_by_role("button", name="Pair this device").click()
    expect(page.get_by_role("heading", name="Moulds")).to_be_visible()


def test_a_phone_that_does_not_trust_the_authority_is_warned(site: Site, new_phone: Callable[..., Page]) -> None:
    page = new_phone()
    with pytest.raises(Exception, match="ERR_CERT_AUTHORITY_INVALID"):
        page.goto(f"{site.address}/pair")


def test_a_paired_phone_records_over_the_network(site: Site, phone: BrowserContext) -> None:
    page = phone.new_page()
    page.goto(site.build)
    expect(page.get_by_text("This device is not paired")).to_be_visible()
    page.get_by_role("link", name="Pair this device").click()
    expect(page.get_by_label("Code")).to_be_visible()
    pair(page, site)
    page.goto(site.build)
    assert page.evaluate("isSecureContext")
    keep_page(page)  # the service worker runs: it does only under a certificate that is trusted
    speak(page)
    end(page)
    expect(status(page)).to_contain_text("Sent")
    (note,) = assert_home(page, site, 1)
    assert note.device == "bench phone"
    assert page.evaluate("document.cookie").find("__Host-device") == -1


def test_what_a_revoked_phone_has_not_sent_stays_on_it_and_goes_when_it_is_paired_again(
    site: Site, phone: BrowserContext
) -> None:
    page = phone.new_page()
    pair(page, site)
    page.goto(site.build)
    keep_page(page)
    site.shop.store.revoke_device("bench phone", site.shop.now())
    speak(page)
    end(page)
    expect(status(page)).to_contain_text("Kept here")
    expect(status(page)).to_contain_text("not paired with the machine, or not any more")
    assert new_notes(site) == []
    (row,) = all_are(page, "kept")
    assert row["size"] > 0

    page.goto(site.build)  # nothing of the shop is shown any more, not even as it was last seen
    expect(page.get_by_text("This device is not paired")).to_be_visible()
    page.wait_for_function("async () => (await (await caches.open('pages')).keys()).length === 0")
    page.get_by_role("link", name="What is still on it").click()
    slip = page.locator("main [data-here] [data-slip]")
    expect(slip).to_contain_text("Kept here")
    slip.get_by_role("button", name="Hear it").click()
    page.wait_for_function("() => document.querySelector('[data-slip] audio')?.currentTime > 0.3")

    pair(page, site)
    page.goto(f"{site.address}/queue")
    expect(page.get_by_text("Nothing is left here")).to_be_visible()
    (note,) = assert_home(page, site, 1)
    assert note.clip is not None
    assert note.clip.sha256 == row["sha256"]


def test_the_picture_for_the_camera_leads_to_the_page_that_pairs(site: Site, phone: BrowserContext) -> None:
    code = site.shop.store.new_pairing(site.shop.now())
    address = pairing_address(site.shop.settings, code)
    page = phone.new_page()
    page.emulate_media(color_scheme="dark")
    page.set_content(f"<main>{picture_of(address, 'The page that pairs this device')}</main>")
    seen = Image.open(io.BytesIO(page.locator("svg").screenshot()))
    (read,) = zxingcpp.read_barcodes(seen)  # a reader that is not ours
    assert read.text == address
    page.goto(f"{site.address}/{read.text.split('/', 3)[3]}")
    expect(page.get_by_label("Code")).to_have_value(code)


def test_axe_finds_nothing_where_a_device_is_let_in(site: Site, phone: BrowserContext, lan_settings: Settings) -> None:
    authority = posture(lan_settings).authority
    page = phone.new_page()
    with socket.create_server(("127.0.0.1", 0)) as listening:
        app = create_trust_app(authority.der, authority.fingerprint, 8491)
        server = uvicorn.Server(uvicorn.Config(app, log_level="warning"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        try:
            trust = f"http://127.0.0.1:{listening.getsockname()[1]}/"
            for address in (trust, f"{site.address}/pair", f"{site.address}/moulds"):
                page.goto(address)
                page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
                found = Axe().run(page)
                assert found.violations_count == 0, found.generate_report()
        finally:
            server.should_exit = True
            thread.join(30)


def test_a_code_of_another_page_pairs_nothing(site: Site, phone: BrowserContext) -> None:
    page = phone.new_page()
    page.goto(f"{site.address}/pair?code={quote('AAAA-AAAA')}&name=bench%20phone")
    page.get_by_role("button", name="Pair this device").click()
    expect(page.get_by_role("alert")).to_contain_text("does not pair a device")
    assert site.shop.store.devices() == []
