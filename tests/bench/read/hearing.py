"""Recordings of the corpus heard by the project's own hearing; transcripts are kept beside the recordings.

A kept transcript is used again only while the hearing's own code, the glossary and the weights are what they were.
"""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Sequence
from pathlib import Path

import jiwer
from whisper_normalizer.english import EnglishTextNormalizer

import journal.hear
from journal.capture.recording import decode
from journal.hear.ears import Ears
from journal.record import Transcript
from tests.bench.facets import Row
from tests.bench.read.voices import TUNED, Cast, recordings

# What a hearing of a whole recording goes through; live hearing and the rest do not count.
SOURCES = ("decode.py", "ears.py", "speech.py", "weights.py")


class Listener:
    """Hears the notes' recordings with the shop's glossary."""

    def __init__(self, folder: Path, glossary: Sequence[str], weights: str = "", threads: int = 0) -> None:
        self._folder, self._glossary = folder, tuple(glossary)
        self._ears = Ears(folder / "weights", weights, threads)
        sources = [Path(journal.hear.__path__[0]) / name for name in SOURCES]
        state = [path.read_bytes() for path in sources] + [repr((self._glossary, weights)).encode()]
        self._state = hashlib.sha256(b"".join(state)).hexdigest()[:12]

    def hear(self, notes: Sequence[Row], snr_db: float | None, cast: Cast = TUNED) -> dict[str, Transcript]:
        """Return the transcript of each note, by id."""
        return {note["id"]: self._heard(path) for note, path in recordings(notes, snr_db, self._folder, cast)}

    def _heard(self, path: Path) -> Transcript:
        kept = path.with_suffix(f".{self._state}.pickle")
        if not kept.exists():
            transcript = self._ears.hear(decode(path), self._glossary)
            kept.write_bytes(pickle.dumps(transcript))
        heard: Transcript = pickle.loads(kept.read_bytes())
        return heard


def word_error_rate(notes: Sequence[Row], heard: dict[str, Transcript]) -> float:
    """Return the word error rate of the believed transcripts, after Whisper's English normaliser."""
    normal = EnglishTextNormalizer()
    truth = [normal(note["text"]) for note in notes]
    return jiwer.wer(truth, [normal(heard[note["id"]].text) for note in notes])
