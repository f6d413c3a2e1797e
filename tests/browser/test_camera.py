"""Photos by voice and by button: taken without a touch, kept on the phone first, placed on the step and the place."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import piexif
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from journal.keep.views import PhotoView
from tests.api.workshop import MORNING, picture
from tests.browser.conftest import Site
from tests.browser.phone import all_are, keep_page, on_the_phone
from tests.browser.wireless import Wireless

pytestmark = pytest.mark.browser
WANTED = "document.dispatchEvent(new CustomEvent('photo-wanted', {detail: %s}))"
COUNTED = """() => {
  window.counted = [];
  new MutationObserver(() => {
    const word = document.querySelector(".camera .count")?.textContent;
    if (word && word !== counted.at(-1)) counted.push(word);
  }).observe(document.body, { childList: true, subtree: true });
}"""
# Each second of the count lasts twenty: nobody on a busy machine is too late to press.
SLOW_COUNT = """() => {
  const real = window.setTimeout.bind(window);
  window.setTimeout = (done, ms, ...more) => real(done, ms === 1000 ? 20 * ms : ms, ...more);
}"""


@pytest.fixture
def wireless(site: Site) -> Iterator[Wireless]:
    with closing(Wireless(site.address)) as wireless:
        yield wireless


@pytest.fixture
def build(wireless: Wireless, site: Site) -> str:
    return f"{wireless.address}/builds/{site.workshop.build.key}"


def new_photos(site: Site) -> list[PhotoView]:
    return [photo for photo in site.shop.store.photos(site.workshop.build.key) if photo.id != 1]


def test_a_photo_asked_for_by_voice_is_taken_without_a_touch(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    page.evaluate(COUNTED)
    page.evaluate(WANTED % "{place: 'left scroll'}")
    expect(page.get_by_role("dialog", name="Photo of the left scroll")).to_be_visible()
    page.wait_for_function("() => counted.includes('Kept')")
    expect(page.get_by_role("dialog")).to_have_count(0)
    assert page.evaluate("counted") == ["3", "2", "1", "Kept"]
    (row,) = all_are(page, "sent")
    (photo,) = new_photos(site)
    assert (photo.place, photo.photo.sha256, photo.id) == ("left scroll", row["sha256"], row["photo"])
    assert photo.photo.width >= 320
    assert photo.photo.time_source == "given"
    assert photo.step_id == site.workshop.steps[-1].id  # the latest
    expect(page.locator(f"#photo-{photo.id} img")).to_have_attribute("alt", re.compile("Photo of the left scroll"))
    assert site.shop.media.read(photo.photo.sha256)


def test_the_button_does_the_same_and_can_be_cancelled(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    page.evaluate(SLOW_COUNT)
    page.get_by_label("A photo of which place?").fill("flange")
    page.get_by_role("button", name="Take a photo").click()
    expect(page.get_by_role("dialog", name="Photo of the flange")).to_be_visible()
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_have_count(0)
    assert on_the_phone(page) == []
    page.get_by_role("button", name="Take a photo").click()
    page.get_by_role("button", name="Take it now").click()
    expect(page.get_by_text("Photo of the flange kept on this phone")).to_be_visible()
    all_are(page, "sent")
    assert [photo.place for photo in new_photos(site)] == ["flange"]


def test_a_photo_out_of_reach_stays_on_the_phone_and_goes_once(
    site: Site, page: Page, wireless: Wireless, build: str
) -> None:
    page.goto(build)
    keep_page(page)
    wireless.cut()
    page.evaluate(SLOW_COUNT)
    page.evaluate(WANTED % "{place: 'rim'}")
    page.get_by_role("button", name="Take it now").click()
    slip = page.locator("main [data-here] [data-slip]")
    expect(slip).to_contain_text("photo of the rim")
    expect(slip).to_contain_text("Kept here")
    slip.get_by_role("button", name="See it").click()
    expect(slip.get_by_role("img", name="Photo of the rim")).to_be_visible()
    page.reload()
    (held,) = on_the_phone(page)
    wireless.lose_answer_to(b'"sha256":')
    wireless.mend()
    all_are(page, "sent")
    assert wireless.lost.is_set()
    (photo,) = new_photos(site)
    assert photo.photo.sha256 == held["sha256"]
    assert list((site.shop.settings.data_dir / "arriving").glob("*")) == []


def test_photos_of_the_phones_own_camera_join_by_their_time(site: Site, page: Page, build: str, tmp_path: Path) -> None:
    at = MORNING + timedelta(hours=21, minutes=10)  # near the second step
    exif = piexif.dump({"Exif": {piexif.ExifIFD.DateTimeOriginal: f"{at:%Y:%m:%d %H:%M:%S}".encode(),
                                 piexif.ExifIFD.OffsetTimeOriginal: b"+00:00"}})  # fmt: skip
    out = io.BytesIO()
    piexif.insert(exif, picture(400, 300), out)
    file = tmp_path / "from-the-phone.jpg"
    file.write_bytes(out.getvalue())
    page.goto(build)
    page.get_by_label("Photos", exact=True).set_input_files(file)
    page.get_by_role("button", name="Add the photos").click()
    all_are(page, "sent")
    (photo,) = new_photos(site)
    assert (photo.photo.taken_at, photo.photo.time_source) == (at, "file")
    assert photo.step_id == site.workshop.steps[1].id
    assert site.shop.media.read(photo.photo.sha256) == file.read_bytes()


def test_without_leave_for_the_camera_it_says_what_to_do(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    refuse = "navigator.mediaDevices.getUserMedia = async () => { throw new DOMException('no', 'NotAllowedError'); }"
    page.evaluate(f"() => {{ {refuse}; }}")
    page.get_by_role("button", name="Take a photo").click()
    expect(page.get_by_text("Allow the camera for this page, or add a photo as a file.")).to_be_visible()


def test_axe_finds_nothing_on_the_camera(site: Site, page: Page, build: str) -> None:
    page.goto(build)
    page.evaluate(SLOW_COUNT)
    page.evaluate(WANTED % "{place: 'left scroll'}")
    expect(page.locator(".camera .count")).to_have_text("3")
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
