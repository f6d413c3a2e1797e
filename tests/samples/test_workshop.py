"""The demo workshop holds together: every recording and drawing it names is there, and says what it is."""

from __future__ import annotations

import tomllib
from datetime import datetime
from pathlib import Path

import pytest
from PIL import Image

from journal.capture.recording import RecordingLimits, probe

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
WORKSHOP = tomllib.loads((SAMPLES / "workshop.toml").read_text(encoding="utf-8"))
SPOKEN = tomllib.loads((SAMPLES / "spoken.toml").read_text(encoding="utf-8"))


def recordings() -> list[tuple[str, datetime]]:
    return [
        (f"{build['build']}-{number:02}.opus", datetime.fromisoformat(note["at"]))
        for build in SPOKEN.values()
        for number, note in enumerate(build["notes"], 1)
    ]


@pytest.mark.parametrize(("name", "at"), recordings())
def test_each_recording_is_whole_and_carries_its_time(name, at):
    found = probe(SAMPLES / "notes" / name, RecordingLimits())
    assert found.media_type == "audio/ogg"
    assert found.made_at == at
    assert 1 < found.duration_s < 20


def test_there_are_thirty_notes_or_more_over_the_niche_in_three_voices_and_some_in_noise():
    niche = [note for build in SPOKEN.values() if build["build"].startswith("niche") for note in build["notes"]]
    assert len(niche) >= 30
    assert {note["who"] for note in niche} == {"lead", "second", "apprentice"}
    assert all(10 <= note["snr_db"] <= 20 for note in niche if "snr_db" in note)
    assert sum("snr_db" in note for note in niche) >= 8


def test_each_build_names_a_speaker_for_each_of_its_recordings():
    spoken = {build["build"]: len(build["notes"]) for build in SPOKEN.values()}
    assert {build["name"]: len(build["said_by"]) for build in WORKSHOP["builds"]} == spoken


@pytest.mark.parametrize("photo", WORKSHOP["photos"], ids=lambda photo: photo["file"])
def test_each_drawing_carries_its_time_and_no_position(photo):
    with Image.open(SAMPLES / "photos" / photo["file"]) as image:
        exif = image.getexif()
        assert exif.get_ifd(0x8769)[0x9003] == f"{datetime.fromisoformat(photo['at']):%Y:%m:%d %H:%M:%S}"
        assert not exif.get_ifd(0x8825)
