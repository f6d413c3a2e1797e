"""Places that no list has, told by their preposition: "by the navel", "at the sump", "into the gadrooning".

How far a preposition may be trusted differs: "by the" and "at the" place most nouns; "on the" and "in the" do
after a fault, "for the" after weights. Tools, furniture, people and times are none.
"""

from __future__ import annotations

from journal.read.findings import Findings, NoteWords
from journal.read.number_words import ORDINALS
from journal.read.observation_words import EVENTS, STATES, THINGS
from journal.read.phrase_ends import is_stop, sentence_end, tag_at, word_at
from journal.read.place_words import ALL_PARTS, MODIFIERS, NO_PLACES, PARTS, SIDES

NOUNS = ("NN", "NNS", "NNP", "NNPS")
_POINTING = frozenset("the that this each every".split())
_BESIDE = frozenset("at by near beside".split())
_AFTER_A_FAULT = frozenset("in off through from".split())
_NAMED_BY_A_NOUN = frozenset("box boxes top tops hole holes line lines end ends head heads foot".split())
_IN_FRONT = ("JJ", "NN", "NNP", "CD", "VBN", "JJS")
_PEOPLE = frozenset(
    "tonight today tomorrow yesterday boss lad lads girls boys kid"
    " kids client customer foreman apprentice gaffer crew surveyor inspector supplier"
    " owner skipper sculptor artist guys book docs sheet data minute pint hour litre gallon kilo gram numbers rules"
    " standard template drawing looks window door wall".split()
)
_NOT_FOR = frozenset(
    "coat coats layer layers customer client mix batch pour layup lay-up laminate gel backing jacket shell backer face"
    " mould mold cast casting pull part show film job resin tissue glass putty rubber plaster silicone set shot shoot"
    " skin moment stage test sample records record log rain weather cure demould whole bottom top".split()
)
_TAKEN = frozenset("lifted lift peeled peel popped pop took take pulled prised eased came slid rolled".split())
_BITS = frozenset("bit bits spot spots places".split())
_HARD_TO_REACH = frozenset(
    "deep tight thin thick low high fine awkward narrow fiddly small flat vertical hard difficult deepest tightest"
    " thinnest sharp".split()
)
_NO_PART_OF_A_PLACE = frozenset(", yesterday today tonight tomorrow overnight".split())
_UNNAMED = NO_PLACES | _PEOPLE


def framed(words: NoteWords, found: Findings, at: int, barred: set[int]) -> tuple[int, int, str] | None:
    """Return the place [start, end) that the preposition at the token leads to, and its rule; or None."""
    start = at + 3 if word_at(words, at + 1) == "all" else at + 2
    if word_at(words, start - 1) not in _POINTING:
        return None
    head = start
    while tag_at(words, head) in _IN_FRONT and tag_at(words, head + 1) in NOUNS and _goes_on(words, head + 1):
        head += 1
    if _is_none(words, at, head) or tag_at(words, head) not in NOUNS or barred.intersection(range(start, head + 1)):
        return None
    if any(words.lower[i] in NO_PLACES for i in range(start, head)) or not _is_unlisted(words, start, head):
        return _letter(words, at, start)
    if tag_at(words, head + 1) == "POS" and tag_at(words, head + 2) in NOUNS:
        return None  # "by the dolphin's tail" is read from its last noun
    if is_hard_to_reach(words, head):
        return start, head + 1, "frame"
    scaly = words.lower[head] == "scales" and words.lower[at] in ("into", "between", "over", "under", "along")
    if (words.lower[head] in _UNNAMED and not scaly) or not _is_trusted(words, found, at, start, head):
        return None
    return start, head + 1, "frame"


def _is_none(words: NoteWords, at: int, head: int) -> bool:
    """Whether a day is meant ("by the fourteenth"), or what a thing was lifted off ("lifted it off the rose")."""
    word = word_at(words, head)
    taken = words.lower[at] == "off" and not _TAKEN.isdisjoint(words.lower[max(at - 4, 0) : at])
    return taken or word in ORDINALS or word.endswith(("teenth", "tieth"))


def is_hard_to_reach(words: NoteWords, head: int) -> bool:
    """ "The tight bits", "the deep bits", "the low spots"."""
    return words.lower[head] in _BITS and word_at(words, head - 1) in _HARD_TO_REACH


def _is_unlisted(words: NoteWords, start: int, head: int) -> bool:
    """Whether the lists of parts leave the noun to its preposition; "fin boxes" has no side but its own name."""
    if words.doc[head].text.isupper():
        return False
    if THINGS.get(words.lower[head]) in ("bubble", "void", "pinhole") or words.lower[head] in MODIFIERS:
        return False
    if words.lower[head] not in ALL_PARTS:
        return not any(words.lower[i] in PARTS for i in range(start, head)) or head > start
    named = range(start, head)
    return words.lower[head] in _NAMED_BY_A_NOUN and any(
        words.tags[i] in ("NN", "NNP") and words.lower[i] not in SIDES | ALL_PARTS - PARTS for i in named
    )


def _letter(words: NoteWords, at: int, letter: int) -> tuple[int, int, str] | None:
    """ "In the S", of a sign's letters; A and B are parts of a resin."""
    said = words.doc[letter].text.rstrip(".") if letter < len(words.lower) else ""
    lone = len(said) == 1 and said.isupper() and said not in ("A", "B", "I", "C", "F")
    return (letter - 1, letter + 1, "letter") if lone and words.lower[at] in ("in", "on", "at") else None


def _is_trusted(words: NoteWords, found: Findings, at: int, start: int, head: int) -> bool:
    word = words.lower[at]
    if word in _BESIDE:
        return word_at(words, head + 1) not in ("of", "i", "he", "we", "it")
    if word in _AFTER_A_FAULT:
        return _after_a_fault(words, at)
    if word == "on" and head == start and words.tags[head] != "NNS":
        return "coats" not in words.lower[max(at - 10, 0) : at]  # "four coats of wax on the planter": the whole of it
    if word == "for":
        return words.lower[head] not in _NOT_FOR and _after_weights(words, found, at)
    return True


def _after_a_fault(words: NoteWords, at: int) -> bool:
    near = [i for i in range(max(at - 4, 0), at) if not is_stop(words, i)]
    return any(words.lower[i] in THINGS or words.lower[i] in EVENTS or words.lower[i] in STATES for i in near)


def _goes_on(words: NoteWords, at: int) -> bool:
    """Whether a noun goes on with the place before it: not "on the right half YESTERDAY"."""
    return word_at(words, at) not in _NO_PART_OF_A_PLACE


def _after_weights(words: NoteWords, found: Findings, at: int) -> bool:
    """Whether the sentence weighed or counted before what the "for" is of: "10 ounces for the fin boxes"."""
    begin = at
    while begin > 0 and not is_stop(words, begin - 1):
        begin -= 1
    end = sentence_end(words, at)
    said = [x for x in found.of("amount", "layer") if begin <= x.start < min(at, end)]
    cut = not {"cut", "snipped", "pieces", "squares", "strips"}.isdisjoint(words.lower[begin:at])
    return any((x.kind == "layer" and cut) or (x.kind == "amount" and x.value.unit in ("g", "ml")) for x in said)
