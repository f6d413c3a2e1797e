"""Where words of faults tell of people ("my heart cracked", "he tore the head off"), or of a colour that is off."""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.observation_words import BEING
from journal.read.phrase_ends import is_stop, tag_at, word_at
from journal.read.praise import CAME, GOOD

_PEOPLE = frozenset("he they she someone somebody everyone everybody lad lads boy boys girl boss gaffer".split())
_THINGS = frozenset({"she", "they"})
"""What moulds and castings are called too, and so no people where nothing is done to another thing."""
_OWN = frozenset(
    "heart head voice back knee knees phone patience temper glove gloves finger fingers thumb nail nails lip lips mug"
    " cup trousers jeans shirt sleeve coat overalls hair hand hands ribs arm foot ankle skull brain".split()
)
_OWNERS = frozenset("my his your our".split())
_NOT_OF_WORK = frozenset(
    "hair glove gloves shirt trousers jeans smile joke jokes beer can window whip code nail nails knuckle knuckles"
    " muscle ligament egg eggs grin overalls radio".split()
)
_TOOLS = frozenset(
    "pump brush brushes drill mixer blade saw scale scales stick gun van truck compressor heater lamp hose fan phone"
    " ladder chair bench window bucket cup timer clock".split()
)
_VERY = frozenset("really very too pretty quite so real bit a".split())
_COLOURS = frozenset("colour color colours colors shade tint hue".split())
_BEING = frozenset("'s is was looks looked came seems are were has".split())
_UNFIT = frozenset(
    "warm cold cool dark light pale pink green blue red yellow grey gray brown orange strong weak bright flat dull"
    " muddy patchy uneven streaky blotchy off wrong out different lighter darker greener pinker bluer redder warmer"
    " cooler colder stronger weaker paler deeper yellower mottled washed".split()
)
_BE_OR_COME = BEING | CAME


def is_of_people(words: NoteWords, at: int) -> bool:
    """Return whether the verb of a fault tells of people, their own things or their tools."""
    before, after = word_at(words, at - 1), word_at(words, at + 1)
    if word_at(words, at + 1) in ("in", "on", "to", "under") and word_at(words, at + 2) == "my":
        return True  # "a stone stuck in my boot"
    if before in _OWN and word_at(words, at - 2) in _OWNERS:
        return True
    if before in _TOOLS or (before in ("was", "'s", "is", "has") and word_at(words, at - 2) in _OWN | _TOOLS):
        return word_at(words, at - 3) in _OWNERS or word_at(words, at - 2) in _TOOLS or before in _TOOLS
    object_ = at + 2 if tag_at(words, at + 1) == "RP" else at + 1
    objects = tag_at(words, object_) in ("DT", "PRP$", "NN", "NNS")
    if objects and not _NOT_OF_WORK.isdisjoint(words.lower[at + 1 : at + 4]):
        return True
    if before not in _PEOPLE or not objects:
        return False
    return after not in ("a", "some") or before not in _THINGS


def coloured_end(words: NoteWords, at: int) -> int | None:
    """Return the end of "the colour's a bit warm next to her hand" from the word "colour", or None."""
    if words.lower[at] not in _COLOURS or word_at(words, at + 1) not in _BEING:
        return None
    end = at + 2
    while end < len(words.lower) and not is_stop(words, end) and words.lower[end] not in (",", "and", "but", "so"):
        end += 1
    told = words.lower[at + 2 : end]
    unfit = not _UNFIT.isdisjoint(told) or "match" in told
    praised = not GOOD.isdisjoint(told) and _UNFIT.isdisjoint(told)
    return end if unfit and not praised and end - at < 14 else None


def is_how_done(words: NoteWords, at: int) -> bool:
    """Return whether "hard" tells how a thing was done: "rolled it really hard", "pulled too hard"."""
    lead = at - 1
    while lead > 0 and words.lower[lead] in _VERY:
        lead -= 1
    word = words.lower[lead]
    did = words.tags[lead] in ("VBD", "VB", "VBP") and word not in _BE_OR_COME
    return did or word in ("it", "them", "her", "him")
