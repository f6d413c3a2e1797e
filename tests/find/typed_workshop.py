"""The demo workshop as typed notes: the words of samples/spoken.toml, so that no test here waits for hearing."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from journal import flow
from journal.flow import Incoming
from journal.keep.views import NewMould
from journal.settings import Settings
from journal.shop import Shop

SAMPLES = Path(__file__).resolve().parents[2] / "samples"


class Clock:
    """A clock that stands where it is set."""

    def __init__(self, at: str) -> None:
        self.at = datetime.fromisoformat(at)

    def __call__(self) -> datetime:
        return self.at


def typed_workshop(folder: Path, clock: Clock) -> Shop:
    """Return a shop with the builds of the demo workshop, their notes typed, read and with their outcomes."""
    workshop, spoken = (_toml(name) for name in ("workshop.toml", "spoken.toml"))
    shop = Shop(Settings(data_dir=folder, timezone="Europe/London"), clock)
    for mould in workshop["moulds"]:
        new = NewMould(mould["name"], mould["pattern"], len(mould["pieces"]), mould["size"], mould["area_m2"])
        shop.store.add_mould(new, shop.now())
    for build in workshop["builds"]:
        shop.store.add_build(build["mould"], datetime.fromisoformat(build["started_at"]), build["name"])
    for at, build, text, who in sorted(_notes(workshop, spoken)):
        taken = flow.take_in(shop, build, Incoming(text.encode(), "note.txt", at, who))
        flow.process_note(shop, taken.id)
    for build in workshop["builds"]:
        if said := build.get("outcome"):
            at = datetime.fromisoformat(said["at"])
            shop.store.set_outcome(build["name"], said["result"], said["text"], said["who"], at)
    return shop


def _toml(name: str) -> dict:
    return tomllib.loads((SAMPLES / name).read_text(encoding="utf-8"))


def _notes(workshop: dict, spoken: dict) -> Iterator[tuple[datetime, str, str, str]]:
    for build in workshop["builds"]:
        for note, who in zip(spoken[build["name"]]["notes"], build["said_by"], strict=True):
            yield datetime.fromisoformat(note["at"]), build["name"], note["text"], who
