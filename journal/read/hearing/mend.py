"""A hearing mended: the words that makers use in place of words that only sound like them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from journal.read.hearing.lattice import (
    ASKED,
    Piece,
    Sounds,
    Way,
    Weights,
    answers,
    by_hearings,
    by_sound,
    likeliest,
)
from journal.read.hearing.talk import EDGE, PIECE, Talk
from journal.record import Alternative, Transcript, Word

_HARDLY_SAID = frozenset("a an the of on off in at and or it that is to they are".split())


@dataclass(frozen=True, slots=True)
class Change:
    """Words that were changed: as they were heard, as they are read, and their place in the mended text."""

    heard: str
    read: str
    chars: tuple[int, int]

    @property
    def is_telling(self) -> bool:
        """Whether more than short words that are hardly spoken, and spelling, was changed."""
        new = set(self.read.split()) - {EDGE} - set(self.heard.casefold().split())
        return bool(new - _HARDLY_SAID) and self.heard.casefold().replace(" ", "") != self.read.replace(" ", "")


@dataclass(frozen=True, slots=True)
class Mended:
    """A hearing with some of its words changed."""

    hearing: Alternative
    changes: tuple[Change, ...]


def heard_pieces(text: str, words: Sequence[Word]) -> list[Piece]:
    """Return the words of a hearing as they are counted."""
    out: list[Piece] = []
    at = 0
    for match in PIECE.finditer(text.casefold()):
        start, end = match.span()
        while at < len(words) and words[at].chars[1] <= start:
            at += 1
        word = words[at] if at < len(words) else None
        text_ = EDGE if match.group() in ".?!;" else match.group().replace("’", "'")
        if word is None:
            before_s = out[-1].end_s if out else 0.0
            out.append(Piece(text_, (start, end), before_s, before_s, 0.5))
        else:
            out.append(Piece(text_, (start, end), word.start_s, word.end_s, word.probability))
    return out


def mended(heard: Transcript, talk: Talk, sounds: Sounds, weights: Weights) -> Mended | None:
    """Return the hearing by the likeliest words, or None when those are what was heard."""
    pieces = heard_pieces(heard.text, heard.words)
    if not pieces:
        return None
    looks = [(other, heard_pieces(other.text, other.words)) for other in heard.alternatives]
    others = [(other.source, said) for other, said in looks if other.source != ASKED]
    asked = [(said, other.log_probability - heard.log_probability) for other, said in looks if other.source == ASKED]
    said = answers(pieces, *zip(*asked, strict=True)) if asked else None
    ways = [*by_sound(pieces, sounds, weights, said), *by_hearings(pieces, others, weights)]
    taken = likeliest(pieces, ways, talk, weights)
    return _rewritten(heard, pieces, taken) if taken else None


def _rewritten(heard: Transcript, pieces: Sequence[Piece], taken: Sequence[Way]) -> Mended:
    """Return the hearing with the ways taken: new words stand at the seconds of those that they replace."""
    text = Rewriting(heard.text, heard.words)
    for way in taken:
        first = pieces[way.start].chars[0] if way.start < len(pieces) else len(heard.text)
        last = pieces[way.end - 1].chars[1] if way.end > way.start else first
        start_s = pieces[min(way.start, len(pieces) - 1)].start_s
        end_s = pieces[way.end - 1].end_s if way.end > way.start else start_s
        text.keep(first)
        text.replace(last, way, (start_s, max(start_s, end_s)))
    text.keep(len(heard.text))
    return Mended(Alternative(text.text, tuple(text.words), heard.log_probability, "mended"), tuple(text.changes))


class Rewriting:
    """A text in the making: some of what was heard kept, some replaced."""

    def __init__(self, heard: str, words: Sequence[Word]) -> None:
        """Take what was heard, with the words and their places in it."""
        self._heard, self._words, self._done = heard, words, 0
        self.text = ""
        self.words: list[Word] = []
        self.changes: list[Change] = []

    def keep(self, until: int) -> None:
        """Take over what was heard up to a character."""
        shift = len(self.text) - self._done
        for word in self._words:
            if self._done <= word.chars[0] and word.chars[1] <= until:
                self.words.append(replace(word, chars=(word.chars[0] + shift, word.chars[1] + shift)))
        self.text += self._heard[self._done : until]
        self._done = max(self._done, until)

    def replace(self, until: int, way: Way, seconds: tuple[float, float]) -> None:
        """Put the words of a way in place of what was heard up to a character."""
        self.text = self.text.removesuffix("-")  # "half-announce": what stands in its place is no part of that word
        begin = len(self.text)
        for word in way.words:
            if word == EDGE:
                self.text = self.text.rstrip(" ,") + ". "
                continue
            self._space()
            end = len(self.text) + len(word)
            self.words.append(Word(word, (len(self.text), end), *seconds, way.probability))
            self.text += word
        heard, self._done = self._heard[self._done : until], max(self._done, until)
        self.changes.append(Change(heard, " ".join(way.words), (begin, max(len(self.text), begin + 1))))
        if self._heard[self._done : self._done + 1].isalnum():
            self._space()

    def _space(self) -> None:
        if self.text and not self.text[-1].isspace():
            self.text += " "
