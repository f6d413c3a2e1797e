"""Whether a noun that may name a fault does so where it stands: "a bubble", not "the bubbles rolled out".

Left out are what the maker got rid of or made himself, what was told before, and nouns that name things of use.
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.mishaps import is_of_people
from journal.read.number_words import SCALES, SMALL
from journal.read.observation_words import (
    ALWAYS_NAMED,
    CLEARED,
    HELPERS,
    MADE,
    MENDED,
    OF_AMOUNT,
    OF_MANY_THINGS,
    OF_STUFF,
    QUANTITIES,
    THINGS,
    WORKED_OUT,
)
from journal.read.phrase_ends import NEGATIONS, is_stop, sentence_end, tag_at, word_at

_MAKING = frozenset(
    "drill drilled drilling cut made make making through via leave left mm mil inch punched bored poured need want"
    " screw bolt fixing vent pour tap key countersunk".split()
)
_UNCOUNTED = frozenset({"dust", "leak", "exotherm", "print-through", "bridging"})
_NEVER_ORDERED = frozenset(
    "void pinhole bubble blister bloom blush crater fisheye wrinkle ripple leak hairline delam gap tear crack"
    " chip dent scratch lumps sags drips dents scratches ripples scuff scuffs dint dints".split()
)
_REACHING = HELPERS | {"hit", "reached", "got"}
_TRYING = frozenset("give gave giving".split())
_EATEN = frozenset("fish lunch dinner tea burger sausage ate eat eating peas butty shop".split())
_RUNS = frozenset("test dry trial short long production dummy quick practice first second good final".split())
_PLACED = frozenset("on in under at by along behind near around round beside inside across".split())
_AWAY = frozenset({"out", "rid", "off", "away"})
_AT_A_PLACE = frozenset("on in under at by along behind near around round".split())
NOUNS = ("NN", "NNS", "NNP")


def is_fault(words: NoteWords, at: int) -> bool:
    """Whether a fault's noun names a fault: not "chip brush", "lint-free", nor what was worked out."""
    word, tag = words.lower[at], words.tags[at]
    if (
        word_at(words, at + 1) == "-"
        or tag_at(words, at + 1) in NOUNS
        or word_at(words, at + 1) == "saw"
        or words.lower[at : at + 2] == ("scratch", "that")
        or (word == "grit" and _is_number(words, at - 1))  # "80 grit" is a paper
        or _is_stuff(words, at)
        or _is_idiom(words, at)
        or _is_known(words, at)
    ):
        return False
    heads = (at == 0 or is_stop(words, at - 1)) and word in _NEVER_ORDERED and word_at(words, at + 1) in _PLACED
    if heads or words.lower[at + 1 : at + 3] == ("all", "over"):
        return True
    if (
        tag in ("VB", "VBP", "VBD")
        or is_of_people(words, at)
        or (tag == "VBG" and tag_at(words, at + 1) in ("DT", "PRP"))
    ):
        return False
    if word == "exotherm" and word_at(words, at + 1) in _REACHING:
        return True
    if THINGS[word] in OF_MANY_THINGS and word not in ALWAYS_NAMED and not _is_counted(words, at):
        return False
    return not _is_worked_out(words, at)


def _is_number(words: NoteWords, at: int) -> bool:
    return tag_at(words, at) == "CD" or word_at(words, at) in SMALL or word_at(words, at) in SCALES


def _is_idiom(words: NoteWords, at: int) -> bool:
    """ "Have a crack at it", "the crack of dawn", "fish and chips", "a dry run", "every wrinkle of him"."""
    word, before, after = words.lower[at], word_at(words, at - 1), word_at(words, at + 1)
    mended = after in HELPERS and word_at(words, at + 2) in MENDED | {"gone", "out"}  # "leak's fixed"
    if mended or after == "first" or before == "every" or (before == "each" and after == "of"):
        return True
    if word == "crack":
        return _is_a_try(words, at) or (after == "of" and word_at(words, at + 2) == "dawn")
    if word == "scuff":
        return word_at(words, at - 2) in ("it", "them") or after == "with"
    if word in ("chips", "chip"):
        return not _EATEN.isdisjoint((*words.lower[max(at - 3, 0) : at], after))
    return word in ("run", "runs") and (before in _RUNS or after in ("of", "to", "out", "down"))


def _is_a_try(words: NoteWords, at: int) -> bool:
    """ "Give it a crack", "I'll have a crack at the second half", "had another crack at it"."""
    if word_at(words, at - 1) not in ("a", "another"):
        return False
    to_come = word_at(words, at - 2) == "have" and word_at(words, at - 3) in ("'ll", "will", "to", "na")
    on_it = word_at(words, at + 1) == "at" and word_at(words, at + 2) in ("it", "that", "this", "them")
    return to_come or on_it or not _TRYING.isdisjoint(words.lower[max(at - 3, 0) : at - 1])


def _is_stuff(words: NoteWords, at: int) -> bool:
    """Whether the word names no fault but a thing of use: "speck OF pigment", "a hole FOR the vent", "foam"."""
    word, after = words.lower[at], word_at(words, at + 1)
    if word in OF_AMOUNT and after == "of":
        return word_at(words, at + 2) not in THINGS
    if word in OF_STUFF:
        return word_at(words, at - 1) not in ("of", "some", "no")
    if THINGS[word] == "dust" and (after in CLEARED or word_at(words, at - 2) == "like"):
        return True
    if word == "crack" and word_at(words, at - 2) == "open":  # "door open a crack"
        return True
    return word in MADE and _is_made(words, at)


def _is_made(words: NoteWords, at: int) -> bool:
    """Whether a hole is one that was wanted: "four holes through the flange", "a hole for the vent"."""
    ahead = words.lower[at + 1 : sentence_end(words, at)]
    if "for" in ahead[:6] or ahead[:1] == ("through",):
        return True
    return not _MAKING.isdisjoint(words.lower[max(at - 5, 0) : at])


def _is_known(words: NoteWords, at: int) -> bool:
    """Whether the fault is one that was told before: "a needle in the bubbles"; "the crack's longer" is news."""
    if word_at(words, at - 1) not in ("the", "those", "these", "them") or THINGS[words.lower[at]] in _UNCOUNTED:
        return False
    return word_at(words, at + 1) not in (*HELPERS, "has", "have", "got", "gone", "on", "at", "along", "round", "near")


def _is_counted(words: NoteWords, at: int) -> bool:
    before = word_at(words, at - 1)
    return (before in QUANTITIES and before != "the") or before in NEGATIONS or tag_at(words, at - 1) == "JJ"


def _is_away(words: NoteWords, got: int, at: int) -> bool:
    """Whether it was got rid of: "got the bubbles out", "got rid of the dust"; not "got a chip off one ear"."""
    if not _AWAY.isdisjoint(words.lower[got + 1 : at]):
        return True
    away = next((i for i in (at + 1, at + 2) if word_at(words, i) in _AWAY), None)
    return away is not None and tag_at(words, away + 1) not in ("DT", "CD", "PRP$", "JJ", "NN")


def _is_worked_out(words: NoteWords, at: int) -> bool:
    """Whether the maker got rid of the bubbles or the dust; "filled two pinholes" still tells of pinholes."""
    for i in range(at - 1, max(at - 6, -1), -1):
        if is_stop(words, i) or words.lower[i] == ",":
            return False
        if words.lower[i] in ("it", "them"):
            return False  # "popped it, a few chips"
        if words.lower[i] in ("got", "get") and not _is_away(words, i, at):
            continue  # "number twelve's got a bubble"
        if words.lower[i] == "pull" and (tag_at(words, i + 1) == "CD" or words.lower[i + 1] == "number"):
            continue
        if words.lower[i] in WORKED_OUT and words.tags[i][0] == "V":
            known = word_at(words, at - 1) == "the" or i == at - 1  # "repaired pinhole with silicone"
            known = known and word_at(words, at + 1) not in _AT_A_PLACE
            return words.lower[i] not in MENDED or known
    return False
