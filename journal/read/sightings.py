"""What the words at one place name of the things that makers see: a fault, an event, a state, praise.

Whether it was seen or only feared, and how far its phrase runs, is decided in `observations.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from journal.read.findings import NoteWords
from journal.read.observation_words import (
    ALWAYS_NAMED,
    ATTRIBUTE_OF,
    BEING,
    CAME,
    CAME_WITH,
    DENYING,
    EVENTS,
    GOOD,
    HELPERS,
    MENDED,
    OF_MANY_THINGS,
    OF_THE_BATCH,
    OF_THE_WORK,
    ON_AN_OBJECT,
    PRAISING_ADVERBS,
    QUANTITIES,
    SAYINGS,
    STATES,
    STRONG_GOOD,
    THINGS,
    UNDONE,
    UNDONE_THEN,
    VAGUE_EVENTS,
    VAGUE_STATES,
    WARMING,
    WORKED_OUT,
)
from journal.read.phrase_ends import NEGATIONS, is_stop, tag_at, word_at

_AT_A_PLACE = frozenset("on in under at by along behind near around round".split())
NOUNS = ("NN", "NNS", "NNP")


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
    return saying or _single(words, at, word)


def came_from(words: NoteWords, at: int) -> int | None:
    """Return the token of "came", "turned" and the like that lead to the word ("came out streaky"), or None."""
    lower, i = words.lower, at - 1
    while i >= 0 and at - i < 6 and lower[i] not in CAME and (lower[i] in CAME_WITH or lower[i] in GOOD):
        i -= 1
    return i if i >= 0 and lower[i] in CAME else None


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
        if end is not None and not (kind == "good" and _is_timed(words, end)):
            return Sighting(at, end, kind, "saying")
    return None


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
    if word in GOOD:
        return _good(words, at)
    if word in STATES and (state := _state(words, at)):
        return state
    if word in EVENTS and _happened(words, at):
        return Sighting(at, at + 1, EVENTS[word], "event")
    if word in THINGS and words.tags[at][0] in "NJV" and _is_thing(words, at):
        return Sighting(at, at + 1, THINGS[word], "thing")
    return None


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
    if lower[at] in ("go", "gone") and word_at(words, at + 1) != "off":
        return None
    end = at + 1
    while end < at + 4 and word_at(words, end) in UNDONE_THEN:
        end += 1
    return Sighting(start, end, UNDONE[lower[at]], "undone")


def _is_thing(words: NoteWords, at: int) -> bool:
    """Whether a fault's noun names a fault: not "chip brush", "lint-free", nor what was worked out."""
    word, tag = words.lower[at], words.tags[at]
    if (
        word_at(words, at + 1) == "-"
        or tag_at(words, at + 1) in NOUNS
        or word_at(words, at + 1) == "saw"
        or words.lower[at : at + 2] == ("scratch", "that")
        or (word == "grit" and tag_at(words, at - 1) == "CD")  # "80 grit" is a paper
    ):
        return False
    if tag in ("VB", "VBP", "VBD") or (tag == "VBG" and tag_at(words, at + 1) in ("DT", "PRP")):
        return False
    if THINGS[word] in OF_MANY_THINGS and word not in ALWAYS_NAMED and not _is_counted(words, at):
        return False
    return not _is_worked_out(words, at)


def _is_counted(words: NoteWords, at: int) -> bool:
    before = word_at(words, at - 1)
    return (before in QUANTITIES and before != "the") or before in NEGATIONS or tag_at(words, at - 1) == "JJ"


def _is_worked_out(words: NoteWords, at: int) -> bool:
    """Whether the maker got rid of the bubbles or the dust; "filled two pinholes" still tells of pinholes."""
    for i in range(at - 1, max(at - 6, -1), -1):
        if is_stop(words, i) or words.lower[i] == ",":
            return False
        if words.lower[i] in WORKED_OUT and words.tags[i][0] == "V":
            known = word_at(words, at - 1) == "the" and word_at(words, at + 1) not in _AT_A_PLACE
            return words.lower[i] not in MENDED or known
    return False


def _happened(words: NoteWords, at: int) -> bool:
    """Whether an event's verb tells what the thing did, not what the maker did to it."""
    word, before, after = words.lower[at], word_at(words, at - 1), word_at(words, at + 1)
    if not (words.tags[at][0] == "V" or _is_past(words, at)) or before in ("i", "we", "to", "you"):
        return False
    if word.endswith("ing") and tag_at(words, at + 1) in NOUNS:
        return False
    if word_at(words, at + 2) in ("little", "bit", "touch"):
        return True
    if after in ("the", "it", "a", "them", "some", "two") and word not in ON_AN_OBJECT:
        return False
    if word in VAGUE_EVENTS:
        return tag_at(words, at - 1) in ("NN", "NNS", "PRP", "VBZ", "VBP", "VBD", "POS")
    return True


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
    if tag_at(words, at + 1) in NOUNS and after not in ("today", "tonight"):
        return None
    alone = at == 0 or is_stop(words, at - 1) or before in (",", "and", "but")
    came = came_from(words, at) is not None
    if before == "a" or not (alone or came or before in BEING or before in NEGATIONS):
        return None
    if kind in ("tacky", "good") and _is_timed(words, at + 1) and "still" not in words.lower[max(at - 3, 0) : at]:
        return None
    if word in VAGUE_STATES and not (came and word not in OF_THE_BATCH) and not _is_of_the_work(words, at):
        return None
    return Sighting(at, at + 1, kind, "state")


def _is_timed(words: NoteWords, at: int) -> bool:
    """Whether "in an hour" follows, which makes a timing of "tacky in an hour"."""
    if word_at(words, at) not in ("in", "after"):
        return False
    return any(word.rstrip("s") in ("minute", "hour", "min", "day") for word in words.lower[at + 1 : at + 7])


def _is_of_the_work(words: NoteWords, at: int) -> bool:
    """Whether a word that may say anything ("hot", "dry", "thin") is said of the work, as a fault."""
    word = words.lower[at]
    clause = words.lower[max(at - 7, 0) : at]
    if word in OF_THE_BATCH:
        return not OF_THE_BATCH[word].isdisjoint(clause) and not WARMING.isdisjoint(clause)
    return at == 0 or not OF_THE_WORK.isdisjoint(clause) or word_at(words, at + 1) in ("around", "round", "by", "near")


def _good(words: NoteWords, at: int) -> Sighting | None:
    """ "came out lovely", "looks spot on", "it's perfect"; not "a good stir" nor "good to go"."""
    after = word_at(words, at + 1)
    if tag_at(words, at + 1) in (*NOUNS, "VBG") or (after == "and" and tag_at(words, at + 2) == "NN"):
        return None
    came = came_from(words, at)
    if came is not None:
        return Sighting(came, at + 1, "good", "good")
    return _praised(words, at) or _praise_alone(words, at)


def _praised(words: NoteWords, at: int) -> Sighting | None:
    """ "it's really good", "wet out nicely"."""
    lower, i = words.lower, at - 1
    while i >= 0 and at - i < 5 and (lower[i] in CAME_WITH or lower[i] in GOOD):
        i -= 1
    if lower[at] in STRONG_GOOD and word_at(words, i) in HELPERS:
        return None if word_at(words, at + 1) in ("to", "for", "enough") else Sighting(i + 1, at + 1, "good", "good")
    if lower[at] in PRAISING_ADVERBS and tag_at(words, at - 1)[:1] in ("V", "R", "I"):
        start = at - 2 if at > 1 and tag_at(words, at - 1) in ("RP", "IN", "RB") else at - 1
        return Sighting(start, at + 1, "good", "good")
    return None


def _praise_alone(words: NoteWords, at: int) -> Sighting | None:
    """ "Lovely." by itself; "good" and "great" only at the end, since they also just go on with the talk."""
    word, end = words.lower[at], at + 1
    opens = at == 0 or is_stop(words, at - 1)
    closes = end == len(words.lower) or is_stop(words, end) or words.lower[end] == ","
    last = at > 0 and at + 2 >= len(words.lower)
    if opens and closes and word in STRONG_GOOD and (last or word not in ("good", "great")):
        return Sighting(at, end, "good", "good")
    return None
