"""Places by the company they keep: "footwell first and then the seats", "on the face and the net", "in panel 4".

Here the noun need not be on any list: the order, the list or the number makes a place of it.
"""

from __future__ import annotations

from collections.abc import Iterator

from journal.read.findings import Found, NoteWords
from journal.read.phrase_ends import FINITE, is_stop, starts_clause, tag_at, word_at
from journal.read.place_words import ALL_PARTS, ARTICLES, NO_PLACES, PARTS, PLACED_BY, SIDES

_NOUNS = ("NN", "NNS")
_DESCRIBING = ("JJ", "NN", "NNS", "NNP", "CD", "VBN", "JJS")
_POINTING = frozenset("the all both each".split())
_NUMBERED = frozenset("panel mould mold cavity bay station section rib frame bulkhead window shell".split())
_SIDED = frozenset("left right upper lower front rear inner outer starboard".split())
_RIGHTS = frozenset("track way foot hand amount ratio weight temperature thing direction order size colour".split())
_DIGITS = frozenset("one two three four five six seven eight nine ten eleven twelve".split())
_LIMBS = frozenset("hand hands finger fingers".split())
_NO_TURN = frozenset(
    "dinner lunch tea coffee breakfast food thing coat coats layer layers job week day time night year lot batch"
    " mix part one ones things go look attempt pull cast pour customer client name half shot pass step steps stage"
    " test lads lad people".split()
)
_COVERED = frozenset("rolled brushed sprayed waxed did do doing coated sanded gelled glassed stippled polished".split())
_ENDS = frozenset({",", "and", "then", "but", "so"})

Spot = tuple[int, int, str]
_NAMELESS = NO_PLACES | _NO_TURN
_POINTERS = ARTICLES | _POINTING


def listed(words: NoteWords, places: list[Found], barred: set[int]) -> Iterator[Spot]:
    """Yield the tokens [start, end) and rule of the places that order, list or number makes."""
    taken = {token for place in places for token in range(place.start, place.end)}
    for at, word in enumerate(words.lower):
        if word == "first":
            yield from _in_order(words, at, barred | taken)
        elif word == "from":
            yield from _from_to(words, at, barred | taken)
        elif word in _SIDED and at not in taken and (end := _sided_end(words, at, barred)):
            yield at, end, "sided"
        elif at not in taken and (end := number_end(words, at)):
            yield at, end, "numbered"
    for place in places:
        spot = _another(words, place, barred | taken)
        if spot is not None:
            yield spot


def _in_order(words: NoteWords, first: int, barred: set[int]) -> Iterator[Spot]:
    """ "Flutes first", "footwell first and then the seats", "all the veins first"."""
    after = first + 1
    if not (after >= len(words.lower) or is_stop(words, after) or words.lower[after] in _ENDS):
        return
    spot = _noun_before(words, first, barred)
    if spot is not None:
        yield (*spot, "order")
    if spot is None and first - 1 not in barred:
        return
    while word_at(words, after) in (*_ENDS, "next"):
        after += 1
    if word_at(words, after - 1) in ("then", "and", "next") and (more := _noun_at(words, after, barred)):
        yield (*more, "order")


def _from_to(words: NoteWords, at: int, barred: set[int]) -> Iterator[Spot]:
    """ "From the keel to the sheer", "from bow to stern"; not "from 200 to 400", "from morning to night"."""
    first = _noun_at_most(words, at + 1)
    if first is None or word_at(words, first[1]) != "to":
        return
    second = _noun_at_most(words, first[1] + 1)
    if second is None or words.lower[first[1] - 1] == words.lower[second[1] - 1]:
        return  # "from ear to ear"
    known = [words.lower[end - 1] in ALL_PARTS for _, end in (first, second)]
    for start, end in (first, second):
        if any(known) and barred.isdisjoint(range(start, end)):
            yield start, end, "from-to"


def _noun_at_most(words: NoteWords, at: int) -> tuple[int, int] | None:
    """Return the noun at the token with at most one word that describes it, its article left out; or None."""
    start = at + (word_at(words, at) in _POINTERS)
    end = start + 1 + (tag_at(words, start) in _DESCRIBING and tag_at(words, start + 1) in _NOUNS)
    named = tag_at(words, end - 1) in (*_NOUNS, "NNP") and words.lower[end - 1] not in _NO_TURN
    return (start, end) if end <= len(words.lower) and named else None


def _noun_before(words: NoteWords, end: int, barred: set[int]) -> tuple[int, int] | None:
    """Return the noun phrase that ends before the token, where nothing but a pause or a preposition leads to it."""
    start = end
    while start > 0 and tag_at(words, start - 1) in _DESCRIBING and start - 1 not in barred and end - start < 3:
        start -= 1
    if start == end or words.lower[end - 1] in _NAMELESS or words.tags[end - 1] not in (*_NOUNS, "VBZ"):
        return None
    lead = start
    while lead > 0 and words.lower[lead - 1] in _POINTERS:
        lead -= 1
    led = word_at(words, lead - 1) in PLACED_BY or "all" in words.lower[lead:start]
    led = led or (lead < start and word_at(words, lead - 1) in _COVERED)
    return (start, end) if led or starts_clause(words, lead) else None


def _noun_at(words: NoteWords, at: int, barred: set[int]) -> tuple[int, int] | None:
    """Return the noun phrase at the token, its article left out, where it closes the clause."""
    start = at
    while word_at(words, start) in _POINTERS | PLACED_BY:
        start += 1
    end = start
    while tag_at(words, end) in _DESCRIBING and end - start < 4 and words.lower[end] not in PLACED_BY - SIDES:
        end += 1
    if end == start or barred.intersection(range(start, end)) or tag_at(words, end - 1) not in _NOUNS:
        return None
    barring = NO_PLACES - _LIMBS if word_at(words, at) in _POINTING else NO_PLACES
    if words.lower[end - 1] in barring | _NO_TURN or words.lower[end - 1] == "comma":
        return None
    closes = end >= len(words.lower) or is_stop(words, end) or words.lower[end] in _ENDS or tag_at(words, end) == "IN"
    return (start, end) if closes else None


def _another(words: NoteWords, place: Found, barred: set[int]) -> Spot | None:
    """ "On the face AND THE NET", "between the lips and the teeth": a second place after a placed one."""
    lower, joint = words.lower, place.end
    if word_at(words, joint) == "," and word_at(words, joint + 1) == "and":
        joint += 1
    if word_at(words, joint) not in ("and", "&", "plus") or word_at(words, joint + 1) not in ("the", "both", "all"):
        return None
    lead = place.start - 1 if word_at(words, place.start - 1) in ARTICLES else place.start
    if word_at(words, lead - 1) not in PLACED_BY and lower[place.start] not in PLACED_BY:
        return None
    spot = _noun_at(words, joint + 1, barred)
    if spot is None or tag_at(words, spot[1]) in FINITE:
        return None
    known = lower[spot[1] - 1] in PARTS | _LIMBS
    return (*spot, "list") if known or spot[1] - spot[0] <= 2 else None


def _sided_end(words: NoteWords, at: int, barred: set[int]) -> int | None:
    """Return the end of a noun that a side tells from its like: "over the left PEAK"; not "on the right track"."""
    placed = word_at(words, at - 1) == "the" and word_at(words, at - 2) in PLACED_BY
    if not placed or tag_at(words, at + 1) not in _NOUNS:
        return None
    noun = words.lower[at + 1]
    if at + 1 in barred or noun in _NAMELESS | _RIGHTS or tag_at(words, at + 2) in _NOUNS:
        return None
    return at + 2


def number_end(words: NoteWords, at: int) -> int | None:
    """Return the end of "panel 4", "mould three", "bay number two"; "frame two hours" is none."""
    if words.lower[at] not in _NUMBERED:
        return None
    number = at + 2 if word_at(words, at + 1) == "number" else at + 1
    said = word_at(words, number)
    if not (said in _DIGITS or (said.isdigit() and len(said) < 3)) or tag_at(words, number + 1) in _NOUNS:
        return None
    placed = word_at(words, at - 1) in PLACED_BY or tag_at(words, at - 1)[:1] == "V"
    return number + 1 if placed else None
