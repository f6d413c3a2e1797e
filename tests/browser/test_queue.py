"""What the machine refused stays on the phone until a person moves it, saves it, or deletes it twice asked."""

from __future__ import annotations

import base64
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from tests.api.workshop import tone
from tests.browser.conftest import Site
from tests.browser.phone import all_are, new_notes, on_the_phone

pytestmark = pytest.mark.browser
SOUND = tone(1.5, 330)
KEEP = """async (sound) => {
  const kept = await import("/static/kept.js");
  const bytes = Uint8Array.from(atob(sound), (letter) => letter.charCodeAt(0)).buffer;
  await kept.keepWhole({
    key: crypto.randomUUID(), build: "no-such-build", buildName: "No such build", who: "", device: "browser",
    type: "audio/wav", at: "2026-04-13T13:12:00+01:00",
  }, bytes);
  (await import("/static/send.js")).send({ now: true });
}"""


@pytest.fixture
def slip(site: Site, page: Page) -> Locator:
    """The slip of a recording that the machine refused, since there is no such build."""
    site.shop.store.add_build("niche", site.shop.now(), "Niche 8")
    page.goto(f"{site.address}/queue")
    page.evaluate(KEEP, base64.b64encode(SOUND).decode())
    found = page.locator("main [data-here] [data-slip]")
    expect(found).to_contain_text("Refused")
    expect(found).to_contain_text("there is no build 'no-such-build'")
    return found


def test_it_is_moved_to_another_build_and_goes_there(site: Site, page: Page, slip: Locator) -> None:
    slip.get_by_role("button", name="Move to another build").click()
    slip.get_by_label("To which build?").select_option("niche-1")
    slip.get_by_role("button", name="Move it").click()
    expect(page.get_by_text("Nothing is left here")).to_be_visible()
    (note,) = new_notes(site)
    assert note.clip is not None
    assert site.shop.media.read(note.clip.sha256) == SOUND
    assert note.recorded_at.isoformat() == "2026-04-13T13:12:00+01:00"
    (receipt,) = all_are(page, "sent")
    assert (receipt["note"], receipt["build"]) == (note.id, "niche-1")


def test_it_is_saved_as_a_file(page: Page, slip: Locator, tmp_path: Path) -> None:
    with page.expect_download() as saving:
        slip.get_by_role("button", name="Save as a file").click()
    saved = tmp_path / "saved.wav"
    saving.value.save_as(saved)
    assert saved.read_bytes() == SOUND


def test_it_is_deleted_only_when_asked_again(page: Page, slip: Locator) -> None:
    slip.get_by_role("button", name="Delete it").click()
    expect(slip.get_by_text("Delete it for ever?")).to_be_visible()
    expect(slip.get_by_role("button", name="Keep it")).to_be_focused()
    slip.get_by_role("button", name="Keep it").click()
    assert len(on_the_phone(page)) == 1
    slip.get_by_role("button", name="Delete it").click()
    slip.get_by_role("button", name="Delete for ever").click()
    expect(page.get_by_text("Nothing is left here")).to_be_visible()
    assert on_the_phone(page) == []


def test_what_was_not_refused_cannot_be_deleted(site: Site, page: Page) -> None:
    page.goto(f"{site.address}/queue")
    page.route("**/uploads/**", lambda route: route.abort())
    page.evaluate(KEEP, base64.b64encode(SOUND).decode())
    expect(page.locator("[data-slip]")).to_contain_text("Kept here")
    expect(page.get_by_role("button", name="Delete it")).to_have_count(0)
    told = page.evaluate("""async () => {
      const kept = await import("/static/kept.js");
      return kept.discard((await kept.all())[0].key).catch((error) => error.message);
    }""")
    assert told == "only what the machine refused can be moved or deleted"
    assert len(on_the_phone(page)) == 1


def test_axe_finds_nothing_while_it_asks(page: Page, slip: Locator) -> None:
    for name, asked in (("Move to another build", "Move it"), ("Leave it", "Delete it"), ("Delete it", "Keep it")):
        slip.get_by_role("button", name=name).click()
        expect(slip.get_by_role("button", name=asked)).to_be_visible()
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
