"""Words that only fill a pause, or that are begun anew: "a layer of, um, tissue", "I laid up I've laid up the mat".

Reading leaves them out of the words. A pause before a number that says again what was said before it ("ten grams, er,
twelve") may correct, and is left in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from journal.read.number_words import SCALES, SMALL

_FILLERS = frozenset("um umm ummm uh uhh er err erm ermm uhm".split())
_CORRECTING = frozenset("no nope nah sorry wait actually scratch make rather".split())
_PIECE = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|\d[\d.,:/]*(?<=\d)|\S")
# What cannot end a clause: a comma after it only marks the pause.
_GOES_ON = frozenset(
    "a an the this that these those my our your his her its some of to with at in on into onto over under from by for "
    "about around and then so but or plus is was are were be been it's that's i've we've i'm i we you he she they "
    "got get had has have put took used says said like just really very".split()
)
_SUBJECTS = frozenset("i we you he she they it".split())
_ALIKE = {who + short: who for who in _SUBJECTS for short in ("'ve", "'m", "'re", "'d", "'s", "'ll")}
# A phrase is begun anew where one of these is in it; emphasis ("thin thin", "slowly slowly") is not.
_TWICE_ALONE = _SUBJECTS | frozenset(
    "a an the my our some of to with at in into onto from by for about and then is was are were 've got put".split()
)
_TWICE = _TWICE_ALONE | frozenset("that this these those it's on over under up so but just".split())
_WHEN = frozenset("when whenever if once as while".split())
_PAIRING = frozenset("on by to in of".split())
_LONGEST = 4  # words of a phrase that is begun anew
_BACK = 6  # pieces before a pause that may hold the number that is corrected after it


@dataclass(frozen=True, slots=True)
class _Piece:
    """A word, number or mark of a text, lower-cased, at the characters [start, end)."""

    word: str
    start: int
    end: int

    @property
    def is_word(self) -> bool:
        return self.word[0].isalnum()

    @property
    def is_number(self) -> bool:
        return self.word[0].isdecimal() or self.word in SMALL


def fluent(text: str) -> list[int]:
    """Return the characters of a note's text, by their place, that are left when its pauses are left out."""
    pieces = [_Piece(m[0].lower().replace("’", "'"), *m.span()) for m in _PIECE.finditer(text)]
    gone = {i for at, end in _begun_anew(pieces) for i in range(pieces[at].start, pieces[end].start)}
    at = 0
    while at < len(pieces):
        end = at
        while end < len(pieces) and (pieces[end].word in _FILLERS or (pieces[end].word == "," and end > at)):
            end += 1
        gone.update(_left_out(text, pieces, at, end) if end > at else ())
        at = max(end, at + 1)
    return [i for i in range(len(text)) if i not in gone]


def _left_out(text: str, pieces: list[_Piece], at: int, end: int) -> range:
    """Return the characters that the pause of the pieces [at, end) is left out with, its commas among them."""
    before, after = pieces[at - 1] if at else None, pieces[end] if end < len(pieces) else None
    opens = before is None or not (before.is_word or before.word == ",")
    alone = opens and (after is None or not after.is_word)
    if alone or (after and (after.word in _CORRECTING or _may_correct(pieces, at, after))):
        return range(0)
    if before and before.word == "," and at > 1 and pieces[at - 2].word in _GOES_ON:
        at -= 1  # "a coat of, um, wax"
    elif before and before.is_word and pieces[end - 1].word == "," and before.word not in _GOES_ON:
        end -= 1  # "brushed it on um, two coats"
    start = pieces[at - 1].end if at else 0
    if end == len(pieces):
        return range(start, len(text))
    stop = pieces[end].start
    return range(start, stop - 1 if at and text[stop - 1].isspace() else stop)


def _begun_anew(pieces: list[_Piece]) -> Iterator[tuple[int, int]]:
    """Yield the pieces [at, end) that are said again at once: "THE the lip", "I LAID UP I've laid up two of mat"."""
    words = [_ALIKE.get(piece.word, piece.word) for piece in pieces]
    at = 0
    while at < len(words):
        length = next((n for n in range(_LONGEST, 0, -1) if _is_said_twice(words, at, n)), 0)
        if length:
            yield at, at + length
        at += length or 1


def _is_said_twice(words: list[str], at: int, n: int) -> bool:
    said, again = words[at : at + n], words[at + n : at + 2 * n]
    if said != again or not all(word[0].isalpha() and word not in _FILLERS for word in said):
        return False
    before, after = words[at - 1] if at else "", words[at + 2 * n : at + 2 * n + 1]
    lettered = said == ["a"] and (before == "part" or after == ["hundred"])  # "part a a hundred"
    paired = before == said[-1] or (said[-1] in _PAIRING and said[0] not in _TWICE)  # "wet on wet on the flange"
    if lettered or paired or before in _WHEN:  # "when you roll it you roll it slow"
        return False
    return not (_TWICE if n > 1 else _TWICE_ALONE).isdisjoint(said)


def _may_correct(pieces: list[_Piece], at: int, after: _Piece) -> bool:
    """Tell whether a number follows that may take the place of one before: "3 percent, er, 2 percent"."""
    back = at - 1 if at and pieces[at - 1].word == "," else at
    if not (after.is_number or after.word in SCALES) or back == 0 or pieces[back - 1].word in _GOES_ON:
        return False
    if pieces[back - 1].word in SMALL and after.word in SCALES:
        return False  # "two um hundred"
    return any(piece.is_number for piece in pieces[max(0, back - _BACK) : back])
