"""Recordings of the corpus heard by the project's own hearing; transcripts are kept beside the recordings.

A kept transcript is used again only while the hearing's own code, the glossary and the weights are what they were; and
what the ears were asked about it, while what asks is.
"""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from importlib import resources
from pathlib import Path

import jiwer
from whisper_normalizer.english import EnglishTextNormalizer

import journal.hear
import journal.read.hearing
from journal.capture.recording import decode
from journal.hear.ears import Ears
from journal.read.catalogue import catalogue_from_toml
from journal.read.hearings import asked_of_the_ears
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
        toml = resources.files("journal").joinpath("catalogue.toml").read_text("utf-8")
        self._catalogue = catalogue_from_toml(toml)
        heard_by = [Path(journal.hear.__path__[0]) / name for name in SOURCES]
        self._heard_by = _digest(heard_by, repr((self._glossary, weights)))
        asked_by = [path for path in Path(journal.read.hearing.__path__[0]).iterdir() if path.is_file()]
        self._asked_by = _digest(sorted(asked_by), toml)

    def hear(self, notes: Sequence[Row], snr_db: float | None, cast: Cast = TUNED) -> dict[str, Transcript]:
        """Return the transcript of each note, by id."""
        return {note["id"]: self._heard(path) for note, path in recordings(notes, snr_db, self._folder, cast)}

    def _heard(self, path: Path) -> Transcript:
        """Return what is heard in a recording, as the way of a note has it heard and asked."""
        heard = _kept(path.with_suffix(f".{self._heard_by}.pickle"), partial(self._listen, path))
        asked = path.with_suffix(f".{self._heard_by}-{self._asked_by}.pickle")
        return _kept(asked, partial(self._ask, path, heard))

    def _listen(self, path: Path) -> Transcript:
        return self._ears.hear(decode(path), self._glossary)

    def _ask(self, path: Path, heard: Transcript) -> Transcript:
        return asked_of_the_ears(heard, self._catalogue, lambda changes: self._ears.weigh(decode(path), heard, changes))


def _kept(path: Path, make: Callable[[], Transcript]) -> Transcript:
    if not path.exists():
        path.write_bytes(pickle.dumps(make()))
    kept: Transcript = pickle.loads(path.read_bytes())
    return kept


def _digest(sources: Iterable[Path], more: str) -> str:
    state = b"".join(path.read_bytes() for path in sources) + more.encode()
    return hashlib.sha256(state).hexdigest()[:12]


def word_error_rate(notes: Sequence[Row], heard: dict[str, Transcript]) -> float:
    """Return the word error rate of the believed transcripts, after Whisper's English normaliser."""
    normal = EnglishTextNormalizer()
    truth = [normal(note["text"]) for note in notes]
    return jiwer.wer(truth, [normal(heard[note["id"]].text) for note in notes])
