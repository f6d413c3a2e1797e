"""What stands around a verb, by which its act is told: the words after it, and the families of things named."""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise
from typing import NamedTuple

from journal.read.findings import Findings, NoteWords
from journal.read.grammar import STOPS
from journal.read.senses import Around

_AUXILIARIES = frozenset("should must will just has have 's be is".split())
_BECAUSE = frozenset("so because as since cos cause or otherwise".split())
_ON_IT = frozenset("brush paint spray wipe rub smooth".split())
_THEY = frozenset({"they", "it", "that"})
_IT = frozenset("it that them this".split())
_IT_ALONE = tuple((word,) for word in sorted(_IT))
_ONTO = frozenset("on onto in into over".split())
_DAMAGED = frozenset(
    "tore torn ripped chipped cracked snapped nicked leak leaks leaking tear rip chip chips crack cracks nick nicks "
    "void voids pinhole pinholes bubble bubbles hole holes split gouge ding dings scratch scratches".split()
)
REACH = 9


class SaidVerb(NamedTuple):
    """A word of the tokens [start, end) that stands as a verb, in its form."""

    start: int
    end: int
    verb: str
    form: str


def _end_of_reach(words: NoteWords, head: int, limit: int) -> int:
    for i in range(head + 1, limit):
        if words.lower[i] in STOPS or words.lower[i] == "then":
            return i
    return limit


def _start_of_reach(words: NoteWords, head: int, floor: int) -> int:
    for i in range(head - 1, floor - 1, -1):
        if words.lower[i] in STOPS:
            return i + 1
    return floor


def _of_a_fault(found: Findings, begin: int, end: int) -> bool:
    """Tell whether a fault was named before the verb: "three pinholes on the crown, filled with gel"."""
    seen = [x for x in found.of("observation") if begin <= x.start < end]
    return any(x.value.kind not in ("good", "other") for x in seen)


def _damage_told(words: NoteWords, found: Findings, head: int) -> bool:
    """Tell whether damage was told in the same sentence or the one before: "tore the lip, fixed IT"."""
    ends = [i for i in range(head) if words.lower[i] in STOPS]
    if ends and ends[-1] >= head - 2:
        ends.pop()
    begin = ends[-1] + 1 if ends else 0
    return _of_a_fault(found, begin, head) or not _DAMAGED.isdisjoint(words.lower[begin:head])


def around(
    words: NoteWords, found: Findings, places: list[tuple[int, str]], verbs: list[SaidVerb], n: int, governs: bool
) -> Around:
    """Return what stands around the n-th verb, up to the verbs beside it; a governed verb hides nothing."""
    verb, beyond = verbs[n], n + 1 + governs
    follows = verbs[beyond].start if beyond < len(verbs) else len(words.lower)
    end = _end_of_reach(words, verb.start, min(follows, verb.start + 1 + REACH * 2))
    if verb.verb in _ON_IT and words.lower[verb.end : verb.end + 1] in (("it",), ("them",), ("that",)):
        end = next((i for i in range(verb.end, end) if words.lower[i] == ","), end)
    why = [x.start for x in found.of("reason") if x.start >= verb.end and words.lower[x.start] in _BECAUSE]
    end = min([end, *why])
    begin = _start_of_reach(words, verb.start, verbs[n - 1].end if n else 0)
    near = places[bisect_left(places, (begin, "")) : bisect_left(places, (end, ""))]
    look_back = _may_look_back(words, verb.start, verb.form)
    families = {family for token, family in near if token >= verb.end or look_back}
    opens = begin == 0 or words.lower[begin - 1] in STOPS
    if verb.form == "ed" and opens and not look_back and _of_a_fault(found, begin, verb.start):
        families.add("damage")
    if _is_done_to_it(words, verb.end, end) and _damage_told(words, found, verb.start):
        families.add("fault")
    if verb.verb == "go" and _THEY.intersection(words.lower[max(begin, verb.start - 5) : verb.start]):
        families.add("part")  # "they'll have to go on tomorrow"
    if _has_no_subject(words, begin, verb.start):
        families.add("start")
    return Around(
        frozenset(words.lower[verb.end : min(end, verb.start + 1 + REACH)]),
        words.lower[verb.end] if verb.end < end else "",
        frozenset(families),
        _first(near, verb.end),
    )


def _is_done_to_it(words: NoteWords, tail: int, end: int) -> bool:
    """Tell whether a verb is done to what was named before: "filled IT", "dab some latex on THAT"."""
    after = words.lower[tail:end]
    return after[:1] in _IT_ALONE or any(one in _ONTO and two in _IT | {"there"} for one, two in pairwise(after))


def _first(near: list[tuple[int, str]], tail: int) -> frozenset[str]:
    """Return the families of the first thing named from the token `tail` on; "coats of wax" are of both."""
    first = next((token for token, _ in near if token >= tail), None)
    named = frozenset(family for token, family in near if token == first)
    if first is None or named != {"coat"}:
        return named
    return named | {family for token, family in near if first < token <= first + 2}


def _has_no_subject(words: NoteWords, begin: int, head: int) -> bool:
    return _AUXILIARIES.issuperset(words.lower[begin:head]) or words.lower[head - 1] in (",", "and", "then", "but")


def is_of_several(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether a plain form tells what several things do: "the bolts GO in"."""
    return form == "base" and words.lower[head] in ("go", "come") and words.tags[head - 1 : head] == ("NNS",)


def _may_look_back(words: NoteWords, head: int, form: str) -> bool:
    """Tell whether the thing may stand before its verb: "the gel went on", "was brushed"."""
    if is_of_several(words, head, form):
        return True
    return form != "base" and not (head and words.lower[head - 1] in ("i", "we", "and", "then", ",", "i've"))
