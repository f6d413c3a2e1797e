"""How sure each heard word is: by its own probability, and by how many other looks at the sound heard it too.

What a recogniser says of its own words is worth little where it is in doubt: a word at 0.9 that no other look heard is
wrong more often than not, and one at 0.4 that all heard is nearly always right. Both together give the probability.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from journal.read.hearing.lattice import ASKED
from journal.read.hearing.mend import heard_pieces
from journal.read.hearing.talk import EDGE
from journal.read.number_words import SMALL
from journal.record import Alternative, Transcript, Word

# Logistic regression of "the word is right" on the log odds of its probability and the share of looks that agree, on
# 5,064 words of 462 spoken notes of the corpus's work part, clean and at 10 dB.
_ALWAYS, _ODDS, _AGREE = -1.45, 0.30, 3.21
_SAME_MOMENT_S = 0.12


@dataclass(frozen=True, slots=True)
class _Heard:
    """One word of a hearing as others may have heard it too."""

    text: str
    start_s: float
    end_s: float
    probability: float


_Looks = dict[str, list[list[_Heard]]]


def agreed(heard: Transcript) -> Transcript:
    """Return the transcript with each word's probability, also in its alternatives, in the light of the other looks.

    Words of a stretch that was heard in one way only keep theirs.
    """
    asked = [other for other in heard.alternatives if other.source == ASKED]
    looked = [other for other in heard.alternatives if other.source != ASKED]
    if not looked:
        return heard
    hearings: list[Transcript | Alternative] = [heard, *looked]
    looks = [(one.source if isinstance(one, Alternative) else "kept", _said(one)) for one in hearings]
    words = [_weighed(one.words, _others(looks, at)) for at, one in enumerate(hearings)]
    others = [replace(one, words=new) for one, new in zip(looked, words[1:], strict=True)]
    others += [replace(one, words=_as_now(one.words, heard.words, words[0])) for one in asked]
    return replace(heard, words=words[0], alternatives=tuple(others))


def _as_now(words: Sequence[Word], before: Sequence[Word], now: Sequence[Word]) -> tuple[Word, ...]:
    """Return the words of a hearing that was only asked about, as much more or less probable as those of its moment."""
    out = []
    for word in words:
        there = [
            (old.probability, new.probability)
            for old, new in zip(before, now, strict=True)
            if word.start_s <= old.start_s and old.end_s <= word.end_s
        ]
        factor = min((new / old for old, new in there if old > 0), default=1.0)
        out.append(replace(word, probability=min(1.0, word.probability * factor)))
    return tuple(out)


def _said(one: Transcript | Alternative) -> list[_Heard]:
    pieces = (piece for piece in heard_pieces(one.text, one.words) if piece.text != EDGE)
    return [_Heard(_same(piece.text), piece.start_s, piece.end_s, piece.probability) for piece in pieces]


def _same(text: str) -> str:
    return str(SMALL.get(text, text)).replace(",", "")


def _others(looks: Sequence[tuple[str, list[_Heard]]], at: int) -> _Looks:
    """Return the other hearings by the look that they are of."""
    out: _Looks = {}
    for other, (source, said) in enumerate(looks):
        if other != at:
            out.setdefault(source, []).append(said)
    return out


def _weighed(words: Sequence[Word], looks: _Looks) -> tuple[Word, ...]:
    out = []
    for word in words:
        parts = [
            _Heard(_same(piece.text), word.start_s, word.end_s, word.probability)
            for piece in heard_pieces(word.text, ())
            if piece.text != EDGE
        ]
        shares = [share for part in parts if (share := _share(part, looks)) is not None]
        out.append(replace(word, probability=_probability(word.probability, min(shares))) if shares else word)
    return tuple(out)


def _share(word: _Heard, looks: _Looks) -> float | None:
    """Return the share of the looks that heard the word there, or None where nobody looked again."""
    shares = []
    for hearings in looks.values():
        votes = [vote for said in hearings if (vote := _vote(word, said)) is not None]
        if votes:
            shares.append(sum(votes) / len(votes))
    return sum(shares) / len(shares) if shares else None


def _vote(word: _Heard, said: Sequence[_Heard]) -> bool | None:
    """Return whether a hearing has the word there; None when it is the same hearing of that stretch."""
    there = [
        other
        for other in said
        if other.start_s < word.end_s + _SAME_MOMENT_S and word.start_s < other.end_s + _SAME_MOMENT_S
    ]
    same = [other for other in there if other.text == word.text]
    if any(o.probability == word.probability and o.start_s == word.start_s and o.end_s == word.end_s for o in same):
        return None
    return bool(same)


def _probability(alone: float, share: float) -> float:
    odds = math.log(max(alone, 0.005) / (1 - min(alone, 0.995)))
    return 1 / (1 + math.exp(-(_ALWAYS + _ODDS * odds + _AGREE * share)))
