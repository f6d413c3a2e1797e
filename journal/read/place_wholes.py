"""Where the name of a part is the thing itself that is made: "popped the urn out", "next hull", "in two halves"."""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.phrase_ends import is_stop, tag_at, word_at
from journal.read.place_words import ARTICLES, PLACED_BY

THINGS = frozenset(
    "cornice moulding molding architrave frieze modillion corbel bracket capital column pilaster plinth pedestal"
    " finial cartouche rosette roundel medallion patera coffer baluster balustrade acanthus urn vase shield crest"
    " crown lion mask cherub shell hull bonnet bumper fender wing fin diffuser nosecone cowl visor torso hand foot"
    " head ear horn claw".split()
)
_TAKEN_OUT = frozenset(
    "popped pop popping pulled pull pulling lifted lift took take taken opened open peeled peel prised eased cracked"
    " split demoulded demolded moulded molded moulding molding cast casting lose lost".split()
)
_LED = frozenset("right now so ok okay well morning hello hi alright the a , today".split())
_NEXT = frozenset("next last another old".split())
_HALVES = frozenset("half halves".split())
_GOING = frozenset("off out apart open came went goes i".split())
_COUNTED = frozenset("first second two both one".split())


def is_whole(words: NoteWords, start: int, head: int) -> bool:
    """Return whether the noun phrase [start, head] names the thing that is made, not a part of it."""
    if words.lower[head] in _HALVES:
        return _is_made(words, start, head)
    if words.lower[head] not in THINGS or word_at(words, head + 1) == "of":
        return False
    lead = start - 1 if word_at(words, start - 1) in ARTICLES else start
    led_by = word_at(words, lead - 1)
    if word_at(words, start - 1) in ("a", "an") or words.lower[start] in _NEXT or led_by == "next":
        return led_by not in PLACED_BY or led_by == "on"
    if led_by in _TAKEN_OUT:
        return True
    ends = head + 1 >= len(words.lower) or is_stop(words, head + 1)
    return ends and lead < start and _opens(words, lead)


def _is_made(words: NoteWords, start: int, head: int) -> bool:
    """Whether halves are what is made or opened: "in two halves", "both halves off"; not "on the first half"."""
    lead = start
    while word_at(words, lead - 1) in ARTICLES or word_at(words, lead - 1) in _COUNTED:
        lead -= 1
    if _COUNTED.isdisjoint(words.lower[lead:head]):
        return False
    if word_at(words, lead - 1) in ("in", "'s", "is"):
        return True  # "in two halves", "today's the second half"
    return word_at(words, lead - 1) not in PLACED_BY and word_at(words, head + 1) in _GOING


def _opens(words: NoteWords, at: int) -> bool:
    """Whether nothing but a greeting stands before the token in its sentence."""
    while at > 0 and not is_stop(words, at - 1):
        if words.lower[at - 1] not in _LED and tag_at(words, at - 1) != "UH":
            return False
        at -= 1
    return True
