"""What a phone at the bench does, holds, and has sent."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Locator, Page, expect

from journal.keep.views import NoteView
from tests.browser.conftest import Site, until

SPOKEN_MS = 2600
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

WORKER = """async () => {
  const found = await navigator.serviceWorker.getRegistration();
  const states = ["installing", "waiting", "active"].map((each) => `${each}: ${found?.[each]?.state}`);
  return `${states}, controlled: ${Boolean(navigator.serviceWorker.controller)}, caches: ${await caches.keys()}`;
}"""


def status(page: Page) -> Locator:
    return page.locator("[data-bench] [role=status]")


def begin(page: Page) -> None:
    page.get_by_role("button", name="Speak a note").click()
    expect(status(page)).to_contain_text("Listening")


def end(page: Page) -> None:
    page.get_by_role("button", name="End the note").click()


def on_the_phone(page: Page) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = page.evaluate(ON_THE_PHONE)
    return rows


def speak(page: Page, pieces: int = 2) -> dict[str, Any]:
    """Begin a note, speak until so many of its pieces, a second each, lie on the phone, and return its row."""
    known = {row["key"] for row in on_the_phone(page)}
    begin(page)

    def spoken() -> list[dict[str, Any]]:
        return [row for row in on_the_phone(page) if row["key"] not in known and row["seconds"] > pieces - 0.5]

    (row,) = until(page, spoken)
    return row


def all_are(page: Page, state: str, count: int = 1) -> list[dict[str, Any]]:
    """Wait until the phone knows so many recordings and all of them stand like this, and return them."""

    def rows() -> list[dict[str, Any]]:
        found = on_the_phone(page)
        return found if [row["state"] for row in found] == [state] * count else []

    return until(page, rows, tell=lambda: [(row["state"], row["reason"]) for row in on_the_phone(page)])


def keep_page(page: Page) -> None:
    """Wait until the page is on the phone, so that it opens without the machine."""
    until(page, lambda: page.evaluate(SEEN), tell=lambda: page.evaluate(WORKER))


def new_notes(site: Site) -> list[NoteView]:
    furnished = {note.id for note in site.workshop.notes}
    return [note for note in site.shop.store.notes(site.workshop.build.key) if note.id not in furnished]


def assert_home(page: Page, site: Site, count: int) -> list[NoteView]:
    """Every recording of the phone is one note with the same bytes, and the phone let go of them."""
    receipts = all_are(page, "sent", count)
    notes = new_notes(site)
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
