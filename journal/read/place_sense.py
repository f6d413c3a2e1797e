"""Whether an everyday word ("half", "side", "back", "line") names a place where it stands.

Each rule takes the noun phrase [start, head]: its first word, article left out, and its last noun.
"""

from __future__ import annotations

from collections.abc import Callable

from journal.read.findings import NoteWords
from journal.read.phrase_ends import tag_at, word_at
from journal.read.place_words import (
    ARTICLES,
    COMMON_PARTS,
    HOLE_PARTS,
    LINE_PARTS,
    PARTS,
    PLACED,
    PLACED_BY,
    SIDED,
    SIDES,
    SURFACED,
    WHOLES,
)

_EACH = frozenset("both each every either other".split())
_LIMBS = frozenset("hand hands finger fingers foot feet head".split())
_GRASPING = frozenset("hand hands finger fingers eyes".split())
_DEFINITE = ARTICLES - {"a", "an", "my", "your", "our"}
_TIMED = frozenset(
    "an hour hours past minute minutes pint litre liter day kilo gallon percent pound ounce inch gram mil mils"
    " millimetre second seconds".split()
)
_PART_TALK = frozenset("part parts mix mixed weigh weighed ratio hardener resin".split())
_OF_A_PART = frozenset("side sides edge edges end ends face corner corners top bottom".split())
_EYES = frozenset("eye ear arm neck mouth".split())
_LEADING = frozenset("on at near under along over round around into from".split())
_BARE = frozenset("radius radii root base neck throat mouth spine curve bend surface port seat seats".split())
"""Parts that speakers who leave articles out name after a preposition: "chip at root", "on radius I press"."""
_WALLS = frozenset("dividing parting retaining clay".split())
_BOARDS = frozenset("base bottom backing mounting".split())
_AMONG = frozenset("into onto between over on under round around behind along across".split())
_LETTERED = frozenset("half side piece part".split())
_MIDDLES = frozenset("middle centre center bottom".split())
_IN_ORDER = frozenset("first second third other last".split())
_NEEDS_OF = frozenset("end point level body".split())
_ENDS = frozenset("top bottom back front".split())


def is_named(words: NoteWords, start: int, head: int) -> bool:
    """Return whether the noun phrase [start, head] is said as a place."""
    if is_lettered(words, head):  # "part A" of a resin is said with the same words
        return _PART_TALK.isdisjoint(words.lower)
    rule = _RULES.get(words.lower[head].removesuffix("s"))
    return rule(words, start, head) if rule else _by_side(words, start, head)


def is_letter(words: NoteWords, at: int) -> bool:
    """Return whether the token is the letter of a half or side."""
    return 0 <= at < len(words.lower) and words.doc[at].text in ("A", "B", "C", "D")


def is_lettered(words: NoteWords, head: int) -> bool:
    """Return whether a letter follows that belongs to the noun ("half A")."""
    return words.lower[head] in _LETTERED and is_letter(words, head + 1)


def _holds(words: NoteWords, start: int, head: int, kinds: frozenset[str]) -> bool:
    return not kinds.isdisjoint(words.lower[start:head])


def _bridge(words: NoteWords, start: int, head: int) -> bool:
    return word_at(words, head + 1) == "of"


def _fraction(words: NoteWords, start: int, head: int) -> bool:
    """ "the left half", but not "half an hour", "two and a half", "half of the resin"."""
    if words.lower[head] in ("third", "quarter") and start == head:
        return False  # "behind the third petal", "between the third and the fourth"
    if word_at(words, start - 1) == "and" or word_at(words, head + 1) == "of":
        return start != head and _by_side(words, start, head)
    return word_at(words, head + 1) not in _TIMED and _by_side(words, start, head)


def _side(words: NoteWords, start: int, head: int) -> bool:
    if words.lower[start] == "either" or is_letter(words, head - 1):  # "5 cm either side", "pigment in the A side"
        return False
    if head and words.lower[head - 1] in ("gun", "bag", "tool"):
        return True
    alone = start == head and word_at(words, head + 1) != "of" and tag_at(words, head + 1) != "POS"
    return not alone and _by_side(words, start, head)


def _placed_only(words: NoteWords, start: int, head: int) -> bool:
    """ "On the lid", "in the socket"; not "put the lid on", "the socket came out"."""
    before = start - 2 if word_at(words, start - 1) in ARTICLES else start - 1
    led = word_at(words, before) in PLACED_BY - {"off", "up", "down"} or (
        word_at(words, before) == "for" and head > start
    )
    return led and word_at(words, head + 1) not in ("on", "off")


def _board(words: NoteWords, start: int, head: int) -> bool:
    """ "The base board", "up to the dividing wall"; what is being built of them is none."""
    if words.lower[head].startswith("wall"):
        told = _holds(words, start, head, _WALLS | SIDES)
        before = start - 2 if word_at(words, start - 1) in ARTICLES else start - 1
        return told and word_at(words, before) in PLACED_BY
    return _holds(words, start, head, _BOARDS) and word_at(words, start - 1) in PLACED


def _joint(words: NoteWords, start: int, head: int) -> bool:
    return start != head and _by_side(words, start, head)


def _line(words: NoteWords, start: int, head: int) -> bool:
    return _holds(words, start, head, LINE_PARTS)


def _hole(words: NoteWords, start: int, head: int) -> bool:
    of_a_part = head > start and words.lower[head - 1] in PARTS | _EYES
    return (of_a_part or _holds(words, start, head, HOLE_PARTS)) and word_at(words, start - 1) in PLACED


def _surface(words: NoteWords, start: int, head: int) -> bool:
    return _holds(words, start, head, SURFACED) and word_at(words, start - 1) in PLACED


def _by_side(words: NoteWords, start: int, head: int) -> bool:
    """Whether a side, an article or a preposition makes a place of the word."""
    word, before = words.lower[head], word_at(words, start - 1)
    if words.lower[start] in _EACH and word not in _GRASPING:
        return True
    if word in WHOLES and word not in COMMON_PARTS:
        return _holds(words, start, head, SIDES)
    if word_at(words, start - 1) in ARTICLES and word_at(words, start - 2) == "from" and word in _MIDDLES:
        return False  # "rolled it from the middle out"
    if word == "top" and word_at(words, head - 2) == "over" and word_at(words, head + 1) != "of":
        return False  # "PVA over the top"
    if words.lower[start] in _IN_ORDER and head > start and word in ("half", "piece") and before in ("", "."):
        return True
    if head > start and words.lower[start] in PARTS and word in _OF_A_PART:
        return True  # "hull side and transom both"
    sided = _holds(words, start, head, SIDED) or is_letter(words, head - 1)
    if sided and (before in PLACED or words.lower[start] in SIDES):
        return True
    return _by_article(words, head, before)


def _by_article(words: NoteWords, head: int, before: str) -> bool:
    word, has_of = words.lower[head], word_at(words, head + 1) == "of"
    if word in _LIMBS:
        return has_of or (before in ("the", "its") and (word not in _GRASPING or _is_among(words, head)))
    if before in _LEADING and word in _BARE and (tag_at(words, head + 1) in ("", ".", ",", "PRP", "CC", ":")):
        return True
    if before in _DEFINITE:
        return has_of or word not in _NEEDS_OF
    return has_of and word in _ENDS and (before in PLACED_BY or before in ("", ".", ","))


def _is_among(words: NoteWords, head: int) -> bool:
    """ "Between the fingers", "into the hands", of a figure; "on the finger" is the maker's."""
    led = word_at(words, head - 2)
    return led in _AMONG and (words.lower[head].endswith("s") or led in ("into", "between"))


_RULES: dict[str, Callable[[NoteWords, int, int], bool]] = {
    "bridge": _bridge, "side": _side, "line": _line, "hole": _hole,
    **dict.fromkeys(("half", "halve", "third", "quarter"), _fraction),
    **dict.fromkeys(("lid", "socket", "mask", "ribbon", "feather", "flame"), _placed_only),
    "wall": _board, "board": _board,
    **dict.fromkeys(("joint", "join", "key"), _joint),
    **dict.fromkeys("surface spot area section part piece point level patch region detail".split(), _surface),
}  # fmt: skip
