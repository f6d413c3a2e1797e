"""What reading costs, as a ratio to a plain pass of a spaCy pipeline over the same texts in one run."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

import spacy
from spacy.language import Language

from journal.read.language import PIPELINE, load_language
from journal.read.reader import Reader
from journal.record import NoteText
from tests.bench.facets import Row
from tests.bench.read.corpus import note_text

T = TypeVar("T")

ROUNDS = 5
REPEATS = 3
LENGTHS = (1, 2, 4, 8, 16)  # notes of a build said in one breath
LONG_TEXTS = 12


def whole_pipeline() -> Language:
    """Return the pipeline as it comes, but for its names of people and places: words, tags, parse and lemmas."""
    language = spacy.load(PIPELINE, exclude=["ner"])
    language.tokenizer = load_language().tokenizer
    return language


def _seconds(act: Callable[[T], object], argument: T) -> float:
    start = time.perf_counter()
    act(argument)
    return time.perf_counter() - start


def ratio(reader: Reader, language: Language, notes: Sequence[Row]) -> tuple[float, float, float]:
    """Return the median, least and most of (seconds of reading) / (seconds of the plain pass) over rounds.

    Both take each note in turn, the one first in every other round, so that whatever else the machine does
    falls on both.
    """
    texts = [note_text(note) for note in notes]
    ratios = []
    for index in range(ROUNDS + 1):
        read_s = plain_s = 0.0
        for text in texts:
            if index % 2:
                read_s += _seconds(reader.read, text)
            plain_s += _seconds(language, text.text)
            if not index % 2:
                read_s += _seconds(reader.read, text)
        ratios.append(read_s / plain_s)
    del ratios[0]  # caches fill in the first round
    return statistics.median(ratios), min(ratios), max(ratios)


def by_length(reader: Reader, language: Language, notes: Sequence[Row]) -> dict[int, tuple[float, float, float]]:
    """Return, for texts of 1, 2, 4 ... notes, their mean words and ms a word of reading and of the plain pass."""
    out = {}
    for length in LENGTHS:
        texts = _joined(notes[: LONG_TEXTS * length], length)
        words = sum(len(text.text.split()) for text in texts)
        read_s = plain_s = math.inf
        for _ in range(REPEATS):  # the least is the one that the machine disturbed least
            read_s = min(read_s, sum(_seconds(reader.read, text) for text in texts))
            plain_s = min(plain_s, sum(_seconds(language, text.text) for text in texts))
        out[length] = (words / len(texts), 1000 * read_s / words, 1000 * plain_s / words)
    return out


def _joined(notes: Sequence[Row], length: int) -> list[NoteText]:
    groups = [notes[start : start + length] for start in range(0, len(notes) - length + 1, length)]
    return [replace(note_text(group[0]), text=" ".join(_ended(n["text"]) for n in group)) for group in groups]


def _ended(text: str) -> str:
    return text if text[-1] in ".?!" else text + "."
