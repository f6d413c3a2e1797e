"""How makers talk: how likely words follow each other in a note, from notes that makers wrote.

Counts of one, two and three words in a row, smoothed as Kneser and Ney do (ICASSP 1995; interpolated, Chen and
Goodman, Computer Speech and Language 13, 1999): shorter rows count by how many different words they follow. Every
number is the same word, so that what counts is what stands around it. Words that no note has are English words, or
no words at all. On notes of speakers that none of it was counted from it is a seventh less perplexed than the method
of Witten and Bell.
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
        self._three: Counter[tuple[str, ...]] = Counter()
        for note in notes:
            self._count(note)
        self._pairs_after = _Row(self._three)
        self._words_after = _Row(_followed(self._three))
        self._words = _Row(_followed(self._words_after.counts))
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
        for row, key in ((self._words, ()), (self._words_after, (last,)), (self._pairs_after, (before, last))):
            p = row.probability((*key, word), p)
        return math.log(p)


class _Row:
    """Counts of words in a row by what comes before the last one, and the discount that their number wants."""

    def __init__(self, counts: Counter[tuple[str, ...]]) -> None:
        self.counts = counts
        self._after: Counter[tuple[str, ...]] = Counter()
        self._kinds: Counter[tuple[str, ...]] = Counter()
        for row, count in counts.items():
            self._after[row[:-1]] += count
            self._kinds[row[:-1]] += 1
        once, twice = (sum(count == n for count in counts.values()) for n in (1, 2))
        self._discount = once / (once + 2 * twice) if once else 0.5

    def probability(self, row: tuple[str, ...], shorter: float) -> float:
        """Return the probability of the last word after the others, given that by a shorter row."""
        total = self._after[row[:-1]]
        if not total:
            return shorter
        kept = max(self.counts[row] - self._discount, 0.0)
        return (kept + self._discount * self._kinds[row[:-1]] * shorter) / total


def _followed(counts: Counter[tuple[str, ...]]) -> Counter[tuple[str, ...]]:
    """Return by how many different words each row without its first word is preceded."""
    return Counter(row[1:] for row in counts)


@cache
def makers_talk() -> tuple[str, ...]:
    """Return the notes that talk is counted from: classed words, one note an item."""
    lines = resources.files("journal.read.hearing").joinpath("talk.txt").read_text("utf-8").splitlines()
    return tuple(line for line in lines if line and not line.startswith("//"))
