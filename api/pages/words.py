"""The words of a note, cut so that each heard word can be lit; pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal.record import Word


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a note's text: a heard word, or what stands between two of them (`word` None)."""

    text: str
    word: Word | None = None


def pieces(text: str, words: Sequence[Word]) -> list[Piece]:
    """Cut a text at its heard words; joined again, the pieces are the text, whatever the words say."""
    out: list[Piece] = []
    at = 0
    for word in sorted(words, key=lambda word: word.chars):
        start, end = word.chars
        if start < at or end > len(text) or start >= end:
            continue
        if start > at:
            out.append(Piece(text[at:start]))
        out.append(Piece(text[start:end], word))
        at = end
    if at < len(text):
        out.append(Piece(text[at:]))
    return out
