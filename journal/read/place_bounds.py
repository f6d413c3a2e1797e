"""How far a place runs from its last noun: left over sides and sizes, right over "of", "by" and a further place."""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.phrase_ends import tag_at, word_at
from journal.read.place_lists import number_end
from journal.read.place_sense import is_letter, is_lettered
from journal.read.place_words import (
    ALL_PARTS,
    ARTICLES,
    COUNTS,
    HOLE_PARTS,
    JOINS,
    KEPT_BEFORE,
    LINE_PARTS,
    MODIFIERS,
    NO_PLACES,
    NOT_AFTER,
    PARTS,
    SIDES,
)

_NOUNS = ("NN", "NNS", "NNP", "NNPS")
_LEFT_TAGS = ("NN", "NNP", "JJ", "JJR", "JJS")
_KEPT_OR_OVER = KEPT_BEFORE | {"over"}
_SIZES = frozenset("void voids pinhole bubble crack chip tear bit pip skin coat layer dab blob air".split())
_NO_KIND = frozenset("today tonight yesterday tomorrow ok okay now then".split())
_FACING = frozenset({"gun", "bag", "tool"})
_ALSO_ADVERBS = frozenset("back right left flat round same".split())


def left(words: NoteWords, head: int, reach: int, barred: set[int]) -> int:
    """Return where the noun phrase of the head begins, its article left out."""
    start = head - 1 if head > reach and is_letter(words, head - 1) else head
    while start > reach and head - start < 5:
        if start - 2 >= reach and _is_tied(words, start - 2):
            start -= 2
        elif start - 1 not in barred and _describes(words, start - 1):
            start -= 1
        else:
            break
    while start > reach and words.lower[start - 1] in COUNTS and words.lower[start] not in ARTICLES:
        start -= 1
    return start


def _is_tied(words: NoteWords, at: int) -> bool:
    """Whether a word two before the part belongs to it: "the DOLPHIN's tail", "LEFT-hand"."""
    if words.lower[at + 1] == "-":
        return words.lower[at] in SIDES
    return words.tags[at + 1] == "POS" and _owns(words, at)


def _owns(words: NoteWords, at: int) -> bool:
    """Whether the noun is a figure's, whose part follows: "the dolphin's tail"; not "today's flange", "Dave's"."""
    return words.tags[at] in ("NN", "NNS") and words.lower[at] not in _NO_KIND and word_at(words, at - 1) in ARTICLES


def _describes(words: NoteWords, at: int) -> bool:
    """Whether the word belongs to the noun after it: "left", "deep", "acanthus"; not "went back", "bit of"."""
    word, tag = words.lower[at], words.tags[at]
    if word in _SIZES or word in ARTICLES or word in _NO_KIND or (word == "near" and tag == "IN"):
        return False
    after = word_at(words, at + 1)
    if (word in HOLE_PARTS and after in ("hole", "holes")) or (word in _FACING and after == "side"):
        return True
    if word in ("vacuum", "resin") and after in ("port", "ports"):
        return True
    if word in LINE_PARTS and after in ("line", "lines", "way"):
        return True
    if word in _ALSO_ADVERBS and tag in ("RB", "UH", "VBD", "IN"):
        return word_at(words, at - 1) in SIDES or tag_at(words, at - 1) in (
            ("DT", "IN", "CC", ",", "") if word in ("left", "right") else ("DT",)
        )
    return word in MODIFIERS or word in ALL_PARTS or (tag in _LEFT_TAGS and word not in NO_PLACES)


def lettered(words: NoteWords, head: int) -> int:
    """Return the end of the place, the letter of "half A" with it."""
    return head + 2 if is_lettered(words, head) else head + 1


def numbered(words: NoteWords, end: int) -> int:
    """Return the end with the number of "edge of frame three"."""
    return number_end(words, end - 1) or end


def joined(words: NoteWords, end: int, barred: set[int]) -> int:
    """Return the end of the place with what says where it is ("undercut by the ear", "hinge of the shell")."""
    for _ in range(2):
        join = end
        if word_at(words, join) not in JOINS and words.lower[join : join + 2] != ("next", "to"):
            return end
        at = join + (2 if words.lower[join] == "next" else 1)
        while word_at(words, at) in ARTICLES or word_at(words, at) in COUNTS:
            at += 1
        head = _joined_head(words, at)
        known = ALL_PARTS if words.lower[join] == "of" or at > join + 1 else PARTS
        if word_at(words, head) not in known or head in barred or word_at(words, head + 1) in NOT_AFTER:
            return end
        end = head + 1
    return end


def _joined_head(words: NoteWords, at: int) -> int:
    """Return the last noun of what a place stands by: "left ear", "dolphin's tail"."""
    if tag_at(words, at + 1) == "POS" and _owns(words, at):
        at += 2
    head = at
    while head < at + 4 and word_at(words, head) in MODIFIERS and word_at(words, head + 1) not in ("", ",", ".", "and"):
        if word_at(words, head) in ALL_PARTS and word_at(words, head + 1) not in ALL_PARTS:
            break
        head += 1
    while word_at(words, head + 1) in ALL_PARTS and tag_at(words, head + 1) in _NOUNS:
        head += 1
    return head


def with_preposition(words: NoteWords, start: int, reach: int) -> int:
    """Return the start with the preposition that changes the place ("under the lip"), and "all round"."""
    at = start
    if at - 1 >= reach and word_at(words, at - 1) in ARTICLES:
        at -= 1
    if at - 1 < reach or word_at(words, at - 1) not in _KEPT_OR_OVER:
        return start
    at -= 1
    if at - 1 >= reach and word_at(words, at - 1) == "all":
        return at - 1
    return start if words.lower[at] == "over" else at
