"""Cues by likeness: "to a thick cream", "like peanut butter", "the consistency of yoghurt".

A likeness that tells how the thing was ("it's like glass now", "came away like butter") is no cue but was seen.
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.observation_words import BEING
from journal.read.openings import Opening
from journal.read.phrase_ends import is_stop, tag_at, word_at
from journal.read.praise import CAME

LIKENESSES = frozenset(
    "cream honey butter treacle mayonnaise mayo toothpaste yoghurt yogurt custard ketchup putty jam syrup"
    " batter molasses paste frosting icing leather glass jelly rubber soap cheese gravy soup pudding"
    " porridge".split()
)
_STIFFNESS = frozenset("thick thin stiff runny loose sloppy".split())
_READY_WHEN = frozenset("until till til should want when once while be".split())
_BE_OR_COME = BEING | CAME


def likeness(words: NoteWords, at: int) -> Opening:
    """ "to a thick cream", "like peanut butter"; "peanut butter consistency" is read at its last word."""
    if tag_at(words, at - 1) not in ("JJ", "NN", "DT", "IN", "VBG", "RB") or word_at(words, at + 1) == "consistency":
        return None
    start = at
    while start > at - 4 and tag_at(words, start - 1) in ("JJ", "NN", "RB", "VBG", "DT", "JJR"):
        start -= 1
    if word_at(words, start) in ("the", "this", "that", "these"):
        return None
    link = word_at(words, start - 1)
    if (link == "like" and not _is_told(words, start - 1)) or (
        link == "as" and word_at(words, start - 2) in _STIFFNESS
    ):
        return start - 1, at + 1, "likeness"
    into = link == "to" and tag_at(words, at + 1) != "NN" and words.lower[at] != "glass"
    return (start - 1, at + 1, "likeness") if into else None


def _is_told(words: NoteWords, at: int) -> bool:
    """Whether "like" tells how the thing was: "it's like glass now", "came away like butter"."""
    begin = at
    while begin > max(at - 8, 0) and words.lower[begin - 1] != "," and not is_stop(words, begin - 1):
        begin -= 1
    if not _READY_WHEN.isdisjoint(words.lower[begin:at]):
        return False
    return any(
        (words.lower[i] in _BE_OR_COME and words.tags[i] not in ("JJ", "RB", "DT"))
        or (words.tags[i] in ("VBZ", "VBD") and word_at(words, i - 1) not in ("i", "we", "and", ",", ""))
        for i in range(begin, at)
    )


def consistency(words: NoteWords, at: int) -> Opening:
    """ "Peanut butter consistency", "the consistency of yoghurt"."""
    if word_at(words, at + 1) == "of":
        return at, at + 2, "consistency"
    start = at
    while start > at - 4 and tag_at(words, start - 1) in ("JJ", "NN", "JJR", "VBG", "HYPH"):
        start -= 1
    return (start, at + 1, "consistency") if start < at else None
