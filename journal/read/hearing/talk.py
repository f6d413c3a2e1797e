"""How makers talk: how likely words follow each other in a note, from notes that makers wrote.

Counts of one, two and three words in a row, smoothed as Witten and Bell (IEEE Trans. Inf. Theory 37(4), 1991,
method C) do; every number is the same word, so that what counts is what stands around it. Words that no note
has are English words, or no words at all.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib import resources

from journal.read.number_words import SCALES, SIGNS, SMALL
from journal.read.ordinary import is_english

NUMBER, EDGE = "#", "|"
_NUMBERS = frozenset(SMALL) | frozenset(SCALES)
_ENGLISH, _NO_WORD = 1 / 40_000, 1 / 4_000_000
PIECE = re.compile(r"\d+(?:st|nd|rd|th)\b|\d+(?:[.,:]\d+)*|[½¼¾⅓⅔⅛⅜⅝⅞]|[a-z]+(?:['’][a-z]+)*|%|[.?!;](?=\s|$)")


def pieces(text: str) -> list[str]:
    """Return the words of a text as they are counted: lower case, numbers as digits or words, ends as "|"."""
    return [EDGE if piece in ".?!;" else piece.replace("’", "'") for piece in PIECE.findall(text.casefold())]


def classed(piece: str) -> str:
    """Return the word that a piece is counted as."""
    return NUMBER if piece[0].isdigit() or piece in _NUMBERS or piece in SIGNS else piece


class Talk:
    """Word counts of notes, and what they say of words that follow each other."""

    def __init__(self, notes: Iterable[str]) -> None:
        """Count the words of notes (each a text, or the classed words of one joined by blanks)."""
        self._one: Counter[str] = Counter()
        self._two: Counter[tuple[str, str]] = Counter()
        self._three: Counter[tuple[str, str, str]] = Counter()
        for note in notes:
            self._count(note)
        self._total = sum(self._one.values())
        self._after_one = Counter(pair[0] for pair in self._two)
        self._after_two = Counter(triple[:2] for triple in self._three)
        self._starts: Counter[str] = Counter()
        for (first, _), count in self._two.items():
            self._starts[first] += count
        self._pair_starts: Counter[tuple[str, str]] = Counter()
        for triple, count in self._three.items():
            self._pair_starts[triple[:2]] += count
        self.log_probability = lru_cache(maxsize=100_000)(self._log_probability)

    def _count(self, note: str) -> None:
        words = [EDGE, EDGE, *(w if w in (NUMBER, EDGE) else classed(w) for w in note.split()), EDGE]
        words = [w for at, w in enumerate(words) if at < 2 or w != EDGE or words[at - 1] != EDGE]
        for at in range(2, len(words)):
            self._one[words[at]] += 1
            self._two[words[at - 1], words[at]] += 1
            self._three[words[at - 2], words[at - 1], words[at]] += 1

    @property
    def words(self) -> tuple[str, ...]:
        """The words that the notes have."""
        return tuple(word for word in self._one if word not in (NUMBER, EDGE))

    def pairs(self, least: int) -> tuple[str, ...]:
        """Return the pairs of words that follow each other at least so often, as texts."""
        return tuple(f"{a} {b}" for (a, b), n in self._two.items() if n >= least and not {a, b} & {NUMBER, EDGE, "%"})

    def _log_probability(self, before: str, last: str, word: str) -> float:
        """Return the natural log of the probability of a classed word after two others."""
        p = _ENGLISH if is_english(word) else _NO_WORD
        kinds = len(self._one)
        p = (self._one[word] + kinds * p) / (self._total + kinds)
        kinds = self._after_one[last]
        if kinds:
            p = (self._two[last, word] + kinds * p) / (self._starts[last] + kinds)
        kinds = self._after_two[before, last]
        if kinds:
            p = (self._three[before, last, word] + kinds * p) / (self._pair_starts[before, last] + kinds)
        return math.log(p)


@cache
def makers_talk() -> tuple[str, ...]:
    """Return the notes that talk is counted from: classed words, one note an item."""
    lines = resources.files("journal.read.hearing").joinpath("talk.txt").read_text("utf-8").splitlines()
    return tuple(line for line in lines if line and not line.startswith("//"))
