"""The corpus spoken by synthetic voices, with shop noise, kept in a cache folder outside the project.

Each build has one voice, British or American as its notes are. Words are spoken as they are written. Notes that
are written as a mishearing are left out: nobody said those words.
"""

from __future__ import annotations

import hashlib
import subprocess
import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path

import numpy as np

from samples.make_notes import Samples, mix, read_wav, resample, speak_flite, speak_lead, write_opus
from tests.bench.facets import Row

UNSPOKEN_TAGS = frozenset({"misheard", "ratio-run-together"})


def speak_espeak(text: str, voice: str) -> Samples:
    """Speak with one of espeak-ng's voices."""
    with tempfile.NamedTemporaryFile(suffix=".wav") as file:
        subprocess.run(["espeak-ng", "-v", voice, "-s", "155", "-w", file.name, text], check=True)
        return resample(*read_wav(Path(file.name).read_bytes()))


Voice = Callable[[str], Samples]
VOICES: dict[str, Voice] = {
    "neural, US": speak_lead,
    **{f"flite {voice}": partial(speak_flite, voice=voice) for voice in ("awb", "kal16", "rms", "slt")},
    **{
        f"espeak-ng {voice}": partial(speak_espeak, voice=voice)
        for voice in ("en-us", "en-us+f3", "en-gb", "en-gb+f2", "en-gb-x-rp", "en-gb-scotland")
    },
}


@dataclass(frozen=True, slots=True)
class Cast:
    """The voices that speak American and British notes."""

    american: tuple[str, ...]
    british: tuple[str, ...]


# Too few British voices are to be had: makers with an American one moved. What is heard is read better by what the
# first cast taught; the second, but for the one neural voice that there is, is for measuring only.
CASTS = {
    "tuned": Cast(
        ("neural, US", "flite slt", "flite rms", "espeak-ng en-us"),
        ("flite awb", "espeak-ng en-gb", "espeak-ng en-gb-x-rp", "neural, US", "flite rms", "flite slt"),
    ),
    "check": Cast(
        ("neural, US", "flite kal16", "espeak-ng en-us+f3"),
        ("espeak-ng en-gb-scotland", "espeak-ng en-gb+f2", "flite kal16", "neural, US"),
    ),
}
TUNED, CHECK = CASTS["tuned"], CASTS["check"]


def spoken(notes: Sequence[Row]) -> list[Row]:
    """Return the notes that somebody could have said in these words."""
    return [note for note in notes if not UNSPOKEN_TAGS.intersection(note["tags"])]


def every(notes: Sequence[Row], step: int, first: int | None = None) -> list[Row]:
    """Return the first notes (None: all) of every `step`-th build, single notes' speakers counting as one."""
    builds: dict[str, list[Row]] = {}
    for note in notes:
        builds.setdefault(_speaker(note), []).append(note)
    return [note for build in list(builds.values())[::step] for note in build[:first]]


def _speaker(note: Row) -> str:
    return str(note["id"]).rsplit("-", 1)[0]


def voice_of(note: Row, cast: Cast = TUNED) -> str:
    """Return the name of the voice that speaks a note: one a build."""
    voices = cast.american if note.get("locale") == "en-US" else cast.british
    return voices[hashlib.sha256(_speaker(note).encode()).digest()[0] % len(voices)]


def recordings(
    notes: Sequence[Row], snr_db: float | None, folder: Path, cast: Cast = TUNED
) -> Iterator[tuple[Row, Path]]:
    """Yield each note with its Opus recording, in shop noise at `snr_db` if given; made where it is missing."""
    folder.mkdir(parents=True, exist_ok=True)
    for note in notes:
        voice = voice_of(note, cast)
        said = f"{voice}|{note['text']}"
        speech = folder / f"{_digest(said)}.npy"
        path = folder / f"{_digest(f'{said}|{snr_db}')}.opus"
        if not path.exists():
            if not speech.exists():
                np.save(speech, VOICES[voice](note["text"]).astype(np.float16))
            seed = int(_digest(said)[:8], 16)
            at = datetime.fromisoformat(note["recorded_at"])
            write_opus(path, mix(np.load(speech).astype(np.float32), snr_db, seed), {"creation_time": at.isoformat()})
        yield note, path


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:24]
