"""The corpus spoken by synthetic voices, with shop noise, kept in a cache folder outside the project.

Each build has one voice, British or American as its notes are. Words are spoken as they are written. Notes that
are written as a mishearing are left out: nobody said those words.
"""

from __future__ import annotations

import hashlib
import subprocess
import tempfile
from collections.abc import Callable, Iterator, Sequence
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
AMERICAN: dict[str, Voice] = {
    "neural, US": speak_lead,
    "flite slt": partial(speak_flite, voice="slt"),
    "flite rms": partial(speak_flite, voice="rms"),
    "espeak-ng en-us": partial(speak_espeak, voice="en-us"),
}
BRITISH: dict[str, Voice] = {
    "flite awb": partial(speak_flite, voice="awb"),
    "espeak-ng en-gb": partial(speak_espeak, voice="en-gb"),
    "espeak-ng en-gb-x-rp": partial(speak_espeak, voice="en-gb-x-rp"),
    # Too few British voices are to be had: these makers moved.
    "neural, US": speak_lead,
    "flite rms": partial(speak_flite, voice="rms"),
    "flite slt": partial(speak_flite, voice="slt"),
}


def spoken(notes: Sequence[Row]) -> list[Row]:
    """Return the notes that somebody could have said in these words."""
    return [note for note in notes if not UNSPOKEN_TAGS.intersection(note["tags"])]


def every(notes: Sequence[Row], step: int) -> list[Row]:
    """Return the notes of every `step`-th build, single notes' speakers counting as one."""
    speakers = list(dict.fromkeys(note["id"].rsplit("-", 1)[0] for note in notes))
    chosen = set(speakers[::step])
    return [note for note in notes if note["id"].rsplit("-", 1)[0] in chosen]


def voice_of(note: Row) -> str:
    """Return the name of the voice that speaks a note: one a build."""
    voices = AMERICAN if note.get("locale") == "en-US" else BRITISH
    speaker = note["id"].rsplit("-", 1)[0]
    return list(voices)[hashlib.sha256(speaker.encode()).digest()[0] % len(voices)]


def recordings(notes: Sequence[Row], snr_db: float | None, folder: Path) -> Iterator[tuple[Row, Path]]:
    """Yield each note with its Opus recording, in shop noise at `snr_db` if given; made where it is missing."""
    folder.mkdir(parents=True, exist_ok=True)
    for note in notes:
        voice = voice_of(note)
        said = f"{voice}|{note['text']}"
        speech = folder / f"{_digest(said)}.npy"
        path = folder / f"{_digest(f'{said}|{snr_db}')}.opus"
        if not path.exists():
            if not speech.exists():
                np.save(speech, (AMERICAN | BRITISH)[voice](note["text"]).astype(np.float16))
            seed = int(_digest(said)[:8], 16)
            at = datetime.fromisoformat(note["recorded_at"])
            write_opus(path, mix(np.load(speech).astype(np.float32), snr_db, seed), {"creation_time": at.isoformat()})
        yield note, path


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:24]
