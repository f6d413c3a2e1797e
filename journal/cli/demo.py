"""The demo workshop, loaded through the real pipeline: its recordings are heard and read, nothing is canned."""

from __future__ import annotations

import time
import tomllib
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from rich.console import Group, RenderableType

from journal import flow
from journal.cli import terminal
from journal.flow import Incoming
from journal.keep.views import KeepError, NewMould, NoteView, NotKept
from journal.settings import Settings
from journal.shop import Shop

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
SHOWN_BUILD, SHOWN_SEARCH = "niche-2", "gel coat outcome:worked"


@dataclass(frozen=True, slots=True)
class Report:
    """What was loaded, and what hearing and reading cost: seconds, beside the seconds of sound."""

    notes: int
    photos: int
    steps: int
    failed: tuple[str, ...]
    sound_s: float
    hearing_s: float
    reading_s: float

    def as_json(self) -> dict[str, Any]:
        """Return the figures, with the shares of the sound's length."""
        sound = self.sound_s or float("nan")
        return {
            "notes": self.notes, "photos": self.photos, "steps": self.steps, "failed": list(self.failed),
            "sound_s": round(self.sound_s, 1), "hearing_s": round(self.hearing_s, 1),
            "reading_s": round(self.reading_s, 2), "hearing_share": round(self.hearing_s / sound, 3),
            "reading_share": round(self.reading_s / sound, 4),
        }  # fmt: skip


def settings_for(data_dir: Path | None) -> Settings:
    """Return settings that keep the demo apart from a shop's own journal."""
    own = Settings()
    return own.model_copy(update={"data_dir": data_dir or own.data_dir / "demo"})


def load(shop: Shop, quiet: bool = False) -> Report:
    """Take the samples in, hear and read what is new, and return what it cost. Raises KeepError without samples."""
    if not (SAMPLES / "workshop.toml").exists():
        raise KeepError(f"the demo workshop is not beside the program ({SAMPLES}): run the demo from a clone")
    workshop = tomllib.loads((SAMPLES / "workshop.toml").read_text(encoding="utf-8"))
    with terminal.progress(quiet=quiet) as report:
        _make_moulds(shop, workshop)
        photos = [_take_photo(shop, photo) for photo in workshop["photos"]]
        notes = [note for build in workshop["builds"] for note in _take_notes(shop, build)]
        report("loading the speech weights", 0.0)
        shop.ears.load()
        hearing, reading = _process(shop, notes, report)
        _set_outcomes(shop, workshop)
    return _report(shop, notes, len(photos), hearing, reading)


def _report(shop: Shop, notes: list[NoteView], photos: int, hearing: float, reading: float) -> Report:
    states = [shop.store.note(note.id) for note in notes]
    steps = sum(len(shop.store.steps(key)) for key in {note.build_key for note in notes})
    failed = tuple(f"{note.build_key}: {note.error}" for note in states if note.state == "failed")
    sound = sum(note.clip.duration_s for note in notes if note.clip)
    return Report(len(notes), photos, steps, failed, sound, hearing, reading)


def _make_moulds(shop: Shop, workshop: dict[str, Any]) -> None:
    for mould in workshop["moulds"]:
        try:
            shop.store.mould(mould["name"])
        except NotKept:
            shop.store.add_mould(
                NewMould(
                    mould["name"],
                    mould["pattern"],
                    len(mould["pieces"]),
                    mould["size"],
                    mould["area_m2"],
                    mould["title"],
                ),
                shop.now(),
            )
    for build in workshop["builds"]:
        try:
            shop.store.build(build["name"])
        except NotKept:
            shop.store.add_build(build["mould"], datetime.fromisoformat(build["started_at"]), build["name"])


def _take_photo(shop: Shop, photo: dict[str, Any]) -> flow.Taken:
    taken = flow.take_in(
        shop, photo["build"], Incoming(flow.file_bytes(SAMPLES / "photos" / photo["file"]), photo["file"])
    )
    if taken.created and "place" in photo:
        shop.store.place_photo(taken.id, photo["place"], at=shop.now())
    return taken


def _take_notes(shop: Shop, build: dict[str, Any]) -> list[NoteView]:
    notes = []
    for number, who in enumerate(build["said_by"], 1):
        path = SAMPLES / "notes" / f"{build['name']}-{number:02}.opus"
        note = flow.take_in(shop, build["name"], Incoming(flow.file_bytes(path), path.name, who=who)).note
        if note is None:
            raise KeepError(f"{path} is no recording: fetch the samples again")
        notes.append(note)
    return notes


def _process(shop: Shop, notes: list[NoteView], report: flow.Progress) -> tuple[float, float]:
    """Hear every note, then read every note; return the seconds that each took."""
    waiting = sorted((n for n in notes if n.state in ("kept", "heard")), key=lambda note: note.recorded_at)
    started = time.perf_counter()
    for number, note in enumerate(waiting):
        report(f"hearing note {number + 1} of {len(waiting)}", 0.95 * number / len(waiting))
        flow.hear_note(shop, note.id)
    heard = time.perf_counter()
    for number, note in enumerate(waiting):
        report(f"reading note {number + 1} of {len(waiting)}", 0.95 + 0.05 * number / len(waiting))
        flow.process_note(shop, note.id)
    report("done", 1.0)
    return heard - started, time.perf_counter() - heard


def _set_outcomes(shop: Shop, workshop: dict[str, Any]) -> None:
    for build in workshop["builds"]:
        said = build.get("outcome")
        if said and shop.store.build(build["name"]).outcome == "under way":
            at = datetime.fromisoformat(said["at"])
            shop.store.set_outcome(build["name"], said["result"], said["text"], said["who"], at)


def words(shop: Shop, report: Report) -> RenderableType:
    """Return what the demo prints: one build sheet, one search, and the cost."""
    shares = report.as_json()
    cost = (
        f"{report.notes} notes ({report.sound_s:.0f} s of sound) and {report.photos} photos gave {report.steps} steps. "
        f"Hearing took {report.hearing_s:.1f} s ({100 * shares['hearing_share']:.0f} % of the sound's length), "
        f"reading and keeping {report.reading_s:.1f} s ({100 * shares['reading_share']:.1f} %)."
        if report.hearing_s > 0.05
        else f"{report.notes} notes and {report.photos} photos were there already, with {report.steps} steps."
    )
    where = f"mouldbook serve, with MOULDBOOK_DATA_DIR={shop.settings.data_dir}, shows it in the browser"
    return Group(
        terminal.sheet(flow.build_sheet(shop, SHOWN_BUILD)),
        terminal.heading(f"mouldbook find {SHOWN_SEARCH}"),
        terminal.hits_table(flow.search(shop, SHOWN_SEARCH)[:5]),
        *(terminal.heading(f"failed: {failed}") for failed in report.failed),
        terminal.heading(cost),
        terminal.heading(f"{where}, as does mouldbook demo --serve."),
    )
