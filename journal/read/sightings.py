"""What the words at one place name of the things that makers see: a fault, an event, a state, praise.

Whether it was seen or only feared, and how far its phrase runs, is decided in `observations.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from journal.read.fault_nouns import NOUNS, is_fault
from journal.read.findings import NoteWords
from journal.read.mishaps import coloured_end, is_how_done, is_of_people
from journal.read.observation_sayings import SAYINGS
from journal.read.observation_words import (
    ATTRIBUTE_OF,
    BAD_LIKENESS,
    BEGINNING,
    BEGUN,
    BEING,
    DENIABLE,
    DENYING,
    EVENTS,
    GOOD_LIKENESS,
    HELPERS,
    OF_THE_AIR,
    OF_THE_BATCH,
    OF_THE_WORK,
    ON_AN_OBJECT,
    STATES,
    THINGS,
    TINTED,
    TINTS,
    UNDONE,
    UNDONE_THEN,
    VAGUE_EVENTS,
    VAGUE_STATES,
    WARMED,
    WARMING,
    WARMING_UP,
)
from journal.read.phrase_ends import NEGATIONS, is_stop, tag_at, word_at
from journal.read.praise import GOOD, came_from, likened_end, praise_at

_OBJECT = frozenset({"DT", "PRP", "PRP$", "JJ", "NN", "NNS"})
_DONE_TO = frozenset("it the them her him this that off away back".split())
_MAKERS = frozenset({"i", "we", "you"})
_OPEN = frozenset({"open", "off", "apart", "out", "free", "away", "loose"})
_BLOWN = frozenset("bar psi blast blasts shot shots burst puff jet hit pounds gust lot".split())
_TRIMMINGS = frozenset("dags flash nibs drips runs sprue sprues dust crust lumps".split())
_OVENS = frozenset("lamps lamp overnight oven box bake kiln tent".split())
_MOVING = frozenset(
    "came come comes coming popped released pulled peeled peels slid dropped lifted stripped parted demoulded"
    " flowed flows".split()
)
SIZES = frozenset("mm mil mils millimetres millimeters millimetre inch inches cm centimetres thou".split())
PARTING = frozenset("lifted peeled separated lifting peeling".split())
LIKE_GOOD = frozenset("hard stiff tough strong bright sweet pretty right".split())
"""Words that praise where a likeness follows: "hard as nails"."""


@dataclass(frozen=True, slots=True)
class Sighting:
    """The tokens [start, end) that name what is seen, its kind, and the rule that read it."""

    start: int
    end: int
    kind: str
    rule: str


def sighting_at(words: NoteWords, at: int) -> Sighting | None:
    """Return what the words at the token name, or None."""
    word = words.lower[at]
    entries = _sayings().get(word)
    saying = _saying(words, at, entries) if entries else None
    if saying is None and word == "like":
        return _likened(words, at)
    hued = coloured_end(words, at)
    if hued is not None:
        return Sighting(at, hued, "colour", "saying")
    return saying or _begun(words, at) or _single(words, at, word)


def _begun(words: NoteWords, at: int) -> Sighting | None:
    """ "The edge is starting to fray"."""
    kind = BEGUN.get(words.lower[at])
    begun = kind and word_at(words, at - 1) == "to" and word_at(words, at - 2) in BEGINNING
    if word_at(words, at + 1) in _DONE_TO or not _MAKERS.isdisjoint(words.lower[max(0, at - 5) : at - 2]):
        return None  # "I'll start to peel the tape"
    return Sighting(at - 2, at + 1, kind, "event") if kind and begun else None


@cache
def _sayings() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    """SAYINGS by their first word, the longest first."""
    table: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for saying, kind in SAYINGS.items():
        first, *rest = saying.split()
        table.setdefault(first, []).append((tuple(rest), kind))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


def _saying(words: NoteWords, at: int, entries: list[tuple[tuple[str, ...], str]]) -> Sighting | None:
    for rest, kind in entries:
        end = _matches(words.lower, at + 1, rest)
        if end is not None and not (kind == "good" and _is_timed(words, end)) and _is_meant(words, at, end):
            return Sighting(at, end, kind, "saying")
    return None


def _is_meant(words: NoteWords, at: int, end: int) -> bool:
    """Whether a saying tells of a fault of the work: not "peeled off clean", "2 bar of air in the port"."""
    first = words.lower[at]
    if first in PARTING and end == at + 2:
        return not _is_praised_after(words, at + 1) and tag_at(words, end) not in ("DT", "PRP$", "PRP")
    if first == "air" and word_at(words, at - 1) == "of":
        return word_at(words, at - 2) not in _BLOWN
    if first == "knocked":
        return _TRIMMINGS.isdisjoint(words.lower[at:end])
    if first == "broke":
        return not is_of_people(words, at) and word_at(words, end) not in ("for", "down", "the", "into")
    if words.lower[end - 1] == "on" and first in ("bang", "bob", "dead"):
        return end >= len(words.lower) or is_stop(words, end) or words.lower[end] in (",", "and", "now", "again")
    if "cooking" in words.lower[at:end]:
        return _OVENS.isdisjoint(words.lower[max(at - 6, 0) : end + 6])
    return True


def _matches(lower: tuple[str, ...], at: int, rest: tuple[str, ...]) -> int | None:
    """Return the end of the words of a saying from `at`, a star being up to two words; or None."""
    if "*" not in rest:
        return at + len(rest) if lower[at : at + len(rest)] == rest else None
    star = rest.index("*")
    if lower[at : at + star] != rest[:star]:
        return None
    tail = rest[star + 1 :]
    starts = range(at + star, at + star + 3)
    return next((i + len(tail) for i in starts if lower[i : i + len(tail)] == tail), None)


def _single(words: NoteWords, at: int, word: str) -> Sighting | None:
    if word in UNDONE and (undone := _undone(words, at)):
        return undone
    if word in GOOD or word_at(words, at + 1) == "as":
        praised = _praised(words, at, word)
        if praised or word in GOOD:
            return praised
    if word in STATES and (state := _state(words, at)):
        return state
    if word in EVENTS and word.endswith("ed") and word_at(words, at + 1) in ATTRIBUTE_OF:  # "bridged bits"
        return Sighting(at, at + 2, EVENTS[word], "state")
    if word in EVENTS and _happened(words, at):
        return Sighting(at, at + 1, EVENTS[word], "event")
    if word in THINGS and words.tags[at][0] in "NJV" and is_fault(words, at):
        return Sighting(at, at + 1, THINGS[word], "thing")
    denied = word in DENIABLE and not (word == "bother" and word_at(words, at - 1) in ("n't", "not"))
    return Sighting(at, at + 1, "other", "deniable") if denied else None


def _undone(words: NoteWords, at: int) -> Sighting | None:
    """ "it wasn't quite cured", "never set", "wouldn't budge": a fault by being denied of the thing."""
    lower, i = words.lower, at - 1
    while i >= 0 and at - i < 4 and words.tags[i] in ("RB", "VBN", "VB") and lower[i] not in NEGATIONS:
        i -= 1
    if i < 1 or lower[i] not in NEGATIONS or lower[i] in ("no", "without"):
        return None
    start = i if lower[i] == "never" or lower[i - 1] not in DENYING else i - 1
    if (start == i and lower[i] != "never") or word_at(words, start - 1) in ("i", "we", "you"):
        return None
    if (lower[at] in ("go", "gone") and word_at(words, at + 1) != "off") or lower[at - 1] in ("post", "-"):
        return None
    end = at + 1
    while end < at + 4 and word_at(words, end) in UNDONE_THEN:
        end += 1
    return Sighting(start, end, UNDONE[lower[at]], "undone")


def _likened(words: NoteWords, at: int) -> Sighting | None:
    """ "It's like glass now", "came off like a glove", "the resin's like treacle"."""
    noun = at + 1
    while noun < at + 4 and tag_at(words, noun) in ("DT", "JJ", "NN") and tag_at(words, noun + 1) in NOUNS:
        noun += 1
    if tag_at(words, noun) not in (*NOUNS, "JJ"):
        return None
    came, word = came_from(words, at), words.lower[noun]
    if came is not None and (words.lower[came] in _MOVING or word_at(words, came + 1) == "on"):
        return Sighting(came, noun + 1, "good", "good")
    if came is None and word_at(words, at - 1) not in BEING:
        return None
    start = at if came is None else came
    if word in GOOD_LIKENESS:
        return Sighting(start, noun + 1, "good", "good")
    return Sighting(start, noun + 1, "other", "likeness") if word in BAD_LIKENESS else None


def _happened(words: NoteWords, at: int) -> bool:
    """Whether an event's verb tells what the thing did, not what the maker did to it."""
    word, before, after = words.lower[at], word_at(words, at - 1), word_at(words, at + 1)
    if not (words.tags[at][0] == "V" or _is_past(words, at)) or before in ("i", "we", "to", "you"):
        return False
    if is_of_people(words, at) or (word.endswith("ing") and tag_at(words, at + 1) in NOUNS):
        return False
    if word_at(words, at + 2) in ("little", "bit", "touch"):
        return True
    if word in ON_AN_OBJECT and after in ("it", "the", "them", "her", "him") and _is_opened(words, at):
        return False
    if (word in PARTING and _is_praised_after(words, at + 1)) or _is_of_stock(words, at):
        return False
    measured = tag_at(words, at + 1) == "CD" and word_at(words, at + 2) in SIZES
    if after in ("the", "it", "a", "them", "some", "two") and word not in ON_AN_OBJECT and not measured:
        return False
    if word in VAGUE_EVENTS:
        return tag_at(words, at - 1) in ("NN", "NNS", "PRP", "VBZ", "VBP", "VBD", "POS")
    return True


def _is_of_stock(words: NoteWords, at: int) -> bool:
    """ "Ran out"; not "ran out of the seam"."""
    ran_out = words.lower[at : at + 2] == ("ran", "out")
    return ran_out and word_at(words, at + 2) not in ("of", "at", "through", "under", "round")


def _is_opened(words: NoteWords, at: int) -> bool:
    """ "Cracked the mould open", "chipped the old plaster off"."""
    end = at + 1
    while end < at + 5 and tag_at(words, end) in _OBJECT and words.lower[end] != "open":
        end += 1
    return word_at(words, end) in _OPEN


def _is_praised_after(words: NoteWords, at: int) -> bool:
    """Whether what lifted or peeled did so as it should: "lifted out", "peeled away lovely"."""
    if word_at(words, at) == "out":
        return True
    while word_at(words, at) in ("away", "off", "back", "out", "real", "really", "up"):
        at += 1
    return word_at(words, at) in GOOD or word_at(words, at) == "like"


def _is_past(words: NoteWords, at: int) -> bool:
    """Whether a word that was tagged as no verb can be nothing else: "pull tore", "stuck at the corner"."""
    if word_at(words, at - 1) in HELPERS:
        return True
    return words.lower[at][-1] not in "gs" and tag_at(words, at + 1)[:1] != "N" and tag_at(words, at - 1) != "DT"


def _state(words: NoteWords, at: int) -> Sighting | None:
    """An adjective of state: after a verb of being, alone between stops, or before "spot", "patch"."""
    word, kind = words.lower[at], STATES[words.lower[at]]
    after, before = word_at(words, at + 1), word_at(words, at - 1)
    if after in ATTRIBUTE_OF:
        return Sighting(at, at + 2, kind, "state")
    if tag_at(words, at + 1) in NOUNS and after not in ("today", "tonight", "round", "around"):
        return None
    alone = at == 0 or is_stop(words, at - 1) or before in (",", "and", "but")
    came = came_from(words, at) is not None
    if word in EVENTS and after in ("it", "the", "them", "her", "him", "a") and before not in ("'s", "has", "have"):
        return None
    if before == "a" or not (alone or came or before in BEING or before in NEGATIONS):
        return None
    if word == "hard" and is_how_done(words, at):
        return None
    timed = kind in ("tacky", "good") and _is_timed(words, at + 1) and "still" not in words.lower[max(at - 3, 0) : at]
    if timed and (came or after == "in" or kind == "good"):
        return None
    if (
        (word in VAGUE_STATES or word in TINTS)
        and not (came and word not in OF_THE_BATCH)
        and not _is_of_the_work(words, at)
    ):
        return None
    return Sighting(at, at + 1, kind, "state")


def _is_timed(words: NoteWords, at: int) -> bool:
    """Whether "in an hour" follows, which makes a timing of "tacky in an hour"."""
    if word_at(words, at) not in ("in", "after", "at"):
        return False
    return any(word.rstrip("s") in ("minute", "hour", "min", "day") for word in words.lower[at + 1 : at + 7])


def _is_of_the_work(words: NoteWords, at: int) -> bool:
    """Whether a word that may say anything ("hot", "dry", "thin") is said of the work, as a fault."""
    word = words.lower[at]
    clause = words.lower[max(at - 7, 0) : at]
    if word in TINTS:
        return not TINTED.isdisjoint(clause)
    if word in OF_THE_BATCH:
        return _is_of_the_batch(words, at, clause)
    return at == 0 or not OF_THE_WORK.isdisjoint(clause) or word_at(words, at + 1) in ("around", "round", "by", "near")


def _is_of_the_batch(words: NoteWords, at: int, clause: tuple[str, ...]) -> bool:
    word = words.lower[at]
    if word in WARMED and not OF_THE_AIR.isdisjoint(words.lower[at + 1 : at + 4]):
        return False
    if word in WARMED and not WARMED[word].isdisjoint(clause) and not WARMING_UP.isdisjoint(clause[-3:]):
        return True
    told = len(clause) > 1 and clause[-1] in ("is", "'s", "was") and clause[-2] in WARMED.get(word, ())
    named = told and (word == "hot" or word_at(words, at + 1) == "already")
    return named or (not OF_THE_BATCH[word].isdisjoint(clause) and not WARMING.isdisjoint(clause))


def _praised(words: NoteWords, at: int, word: str) -> Sighting | None:
    if word in GOOD or word in LIKE_GOOD:
        span = praise_at(words, at)
        return Sighting(*span, "good", "good") if span else None
    alike = likened_end(words, at) if word in STATES else None
    return Sighting(at, alike, STATES[word], "state") if alike else None
