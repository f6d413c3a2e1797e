"""Places: the named regions of a mould or a piece, as makers say them ("inner edge of the rim").

A place is found from its last noun, which the lists or a preposition tell; it grows left over sides,
sizes and nouns ("left", "acanthus"), then right over "of", "by", "behind" and a further place.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.phrase_ends import is_stop, phrase, tag_at, word_at
from journal.read.place_bounds import joined, left, lettered, numbered, with_preposition
from journal.read.place_frames import framed
from journal.read.place_lists import listed
from journal.read.place_sense import is_named
from journal.read.place_stores import stored
from journal.read.place_wholes import is_whole
from journal.read.place_words import (
    ALL_PARTS,
    ARTICLES,
    CAST_IN,
    CONTAINERS,
    COUNTS,
    FRAMES,
    IDIOMS,
    NO_PLACES,
    NOT_AFTER,
    OPENING,
    PARTS,
    PLACED_BY,
    SIDES,
    STUFF,
)
from journal.read.praise import GOOD

_SAVE = frozenset({"except", "excluding", "excepting", "bar"})
_SAVE_FOR = (("except", "for"), ("apart", "from"), ("other", "than"), ("aside", "from"))
_EVERY = frozenset({"everywhere", "everything", "all", "anywhere"})
_NOUNS = ("NN", "NNS", "NNP", "NNPS")
_AIR = frozenset("air resin bleed".split())
_FITTINGS = frozenset("bracket brackets hinge hinges tab tabs stiffener stiffeners lug lugs".split())
_CRISP = frozenset("lovely crisp sharp clean nice perfect beautiful".split())
_UNITS = frozenset("mm cm millimetres millimeters inches inch m metres feet".split())
_CUTTING = frozenset("trimmed trim trimming".split())
_IDIOMS = {first: [idiom for idiom in IDIOMS if idiom[0] == first] for first, *_ in IDIOMS}
_BEING = frozenset("'s is are was were looks look".split())
_ADVERBS = frozenset("inside outside all upper lower top bottom".split())
_OPENING = OPENING | _ADVERBS


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the places in the note, kind "place", without a leading article."""
    places: list[Found] = []
    barred = _barred(words, found)
    reach = 0
    for at, word in enumerate(words.lower):
        if word not in _OPENING or at < reach or at in barred:
            continue
        spot = _adverb(words, at) if word in _ADVERBS else None
        if spot is None and word in FRAMES:
            spot = stored(words, at) or framed(words, found, at, barred)
        if spot is None and word in ALL_PARTS:
            spot = _part(words, at, reach, barred)
        if spot is None:
            continue
        start, end, rule = spot
        end = numbered(words, joined(words, end, barred))
        if _is_praised(words, start, end) and not found.at("warning", start):
            continue
        if _is_left_out(words, start):
            reach = end
            continue
        start = with_preposition(words, start, reach)
        places.append(phrase(words, "place", start, end, f"places.{rule}", 0.9 if rule == "part" else 0.75))
        reach = end
    return sorted([*places, *_more(words, places, barred)], key=lambda place: place.start)


def _is_left_out(words: NoteWords, start: int) -> bool:
    """Whether the act was done elsewhere: "everywhere BUT the flange", "all of it except the keys"."""
    at = start - 1
    while word_at(words, at) in ARTICLES:
        at -= 1
    before = (word_at(words, at - 1), word_at(words, at))
    return before[1] in _SAVE or before in _SAVE_FOR or (before[1] == "but" and before[0] in _EVERY)


def _is_praised(words: NoteWords, start: int, end: int) -> bool:
    """Whether praise is all that is told of it: "the face is mint", "all letters are sharp"; not "on the lip, fine"."""
    if not SIDES.isdisjoint(words.lower[start:end]):
        return False  # "right-hand scroll's fine, left-hand one has a void"
    if word_at(words, end) not in _BEING or not GOOD.intersection(words.lower[end + 1 : end + 4]):
        return False
    lead = start - 1
    while word_at(words, lead) in ARTICLES or word_at(words, lead) in COUNTS:
        lead -= 1
    return word_at(words, lead) not in PLACED_BY


def _more(words: NoteWords, places: list[Found], barred: set[int]) -> list[Found]:
    """Return the places that the others in their list, or their order, make places."""
    more: list[Found] = []
    taken = {token for place in places for token in range(place.start, place.end)}
    for start, end, rule in listed(words, places, barred):
        if taken.isdisjoint(range(start, end)):
            more.append(phrase(words, "place", start, end, f"places.{rule}", 0.75))
            taken.update(range(start, end))
    return more


def _barred(words: NoteWords, found: Findings) -> set[int]:
    """Return the tokens that are no place: materials, amounts of time, idioms, questions' words are kept."""
    barred = {
        token
        for item in found.of("material", "layer", "duration", "moment", "amount", "reason", "aside")
        if item.rule != "reasons.state"
        for token in range(item.start, item.end)
        if words.lower[token] not in SIDES
    }  # fmt: skip
    for at, word in enumerate(words.lower):
        for idiom in _IDIOMS.get(word, ()):
            if words.lower[at : at + len(idiom)] == idiom:
                barred.update(range(at, at + len(idiom)))
    return barred


def _part(words: NoteWords, at: int, reach: int, barred: set[int]) -> tuple[int, int, str] | None:
    """Return the place whose noun run begins at the token, or None where the word is used otherwise."""
    head = _head(words, at, barred)
    if head is None:
        return None
    start = left(words, head, reach, barred)
    if _is_of_use(words, start, head) or is_whole(words, start, head) or _is_only_praised(words, start, head):
        return None
    if words.lower[head] in PARTS or is_named(words, start, head):
        return start, lettered(words, head), "part"
    return None


def _is_only_praised(words: NoteWords, start: int, head: int) -> bool:
    """Whether parts are but praised: "lovely crisp edges"; or a word is no noun: "sand that back"."""
    if words.lower[head] == "back" and word_at(words, head - 1) in ("that", "this", "it", "them"):
        return True
    led = word_at(words, start - 1) in ARTICLES or word_at(words, start - 1) in PLACED_BY
    return not led and any(word in _CRISP for word in words.lower[start:head])


def _is_of_use(words: NoteWords, start: int, head: int) -> bool:
    """Whether the part is a tool, a fitting or a person: "with a spoon handle", "six brackets", "the boss said"."""
    before = start - 2 if word_at(words, start - 1) in ARTICLES else start - 1
    made_for = word_at(words, before) == "for" and word_at(words, start - 1) in ("a", "an")  # "a tube for a handle"
    if word_at(words, before) == "with" or word_at(words, start - 1) == "my" or made_for:
        return True
    if words.lower[head] == "hand" and before == start - 1 and word_at(words, before) not in PLACED_BY:
        return True  # "endplate tool, left hand"
    if words.lower[head] == "boss":
        return tag_at(words, head + 1) in ("VBD", "VBZ", "MD") or word_at(words, before) in ("for", "to", "of")
    counted = words.tags[start] == "CD" or tag_at(words, start - 1) == "CD"
    return words.lower[head] in _FITTINGS and counted and word_at(words, start - 1) not in PLACED_BY


def _adverb(words: NoteWords, at: int) -> tuple[int, int, str] | None:
    """ "300 mat inside", "trimmed it all round", "a dull patch, upper left"."""
    lower, word = words.lower, words.lower[at]
    ends = at + 1 >= len(lower) or is_stop(words, at + 1) or lower[at + 1] in (",", "and")
    if word in ("inside", "outside"):
        named = tag_at(words, at - 1) in _NOUNS and word_at(words, at - 1) not in _UNITS
        return (at, at + 1, "adverb") if ends and named else None
    if word == "all":
        round_ = word_at(words, at + 1) in ("round", "around") and tag_at(words, at + 2) not in ("DT", *_NOUNS)
        return (at, at + 2, "adverb") if round_ and not _CUTTING.isdisjoint(lower[max(at - 7, 0) : at]) else None
    if word in ("upper", "lower", "top", "bottom") and word_at(words, at + 1) in ("left", "right"):
        alone = at + 2 >= len(lower) or is_stop(words, at + 2) or lower[at + 2] == ","
        return (at, at + 2, "adverb") if alone else None
    return None


def _head(words: NoteWords, at: int, barred: set[int]) -> int | None:
    """Return the last noun of the run ("flange" of "top flange edge" is not it), or None when it is no noun."""
    head = at
    while word_at(words, head + 1) in ALL_PARTS and tag_at(words, head + 1) in _NOUNS and head + 1 not in barred:
        head += 1
    if words.lower[head] in ("parting", "mating") and word_at(words, head + 1) in ("faces", "face", "edges", "lines"):
        head += 1
    word, tag = words.lower[head], words.tags[head]
    if _of_a_container(words, head) or (word_at(words, head - 1) in _AIR and word.rstrip("s") in ("pocket", "hole")):
        return None
    if (
        (word == "hollow" and tag == "JJ")
        or word_at(words, head + 1) in NOT_AFTER
        or (tag[0] == "V" and not _after_article(words, head) and word_at(words, head + 1) != "first")
    ):
        return None
    if word == "face" and word_at(words, head + 1) in ("down", "up") and word_at(words, head - 1) not in ARTICLES:
        return None
    astray = tag in ("RB", "RP", "IN") and word_at(words, head + 1) != "of" and not _after_article(words, head)
    if astray or (word in SIDES and _in_front(words, head)):
        return None
    if tag_at(words, head + 1) in ("NN", "NNS") and word_at(words, head + 1) in NO_PLACES and word not in PARTS:
        return None
    return head


def _of_a_container(words: NoteWords, head: int) -> bool:
    """ "the sides of the bucket", "the corner of the shop"."""
    if word_at(words, head + 1) == "of" and word_at(words, head + 2) in ("it", "that", "them", "this"):
        return True
    if word_at(words, head + 1) != "of":
        return word_at(words, head + 1) in CONTAINERS and words.lower[head] not in PARTS
    owner = words.lower[head + 2 : head + 4]
    if words.lower[head] in PARTS and not CAST_IN.isdisjoint(owner):
        return False
    return any(word in CONTAINERS or word in STUFF for word in owner)


def _in_front(words: NoteWords, at: int) -> bool:
    """Whether a side stands before the noun that it belongs to."""
    after = word_at(words, at + 1)
    return after in ALL_PARTS or after == "-" or (after in SIDES and word_at(words, at + 2) in ALL_PARTS)


def _after_article(words: NoteWords, at: int) -> bool:
    before = word_at(words, at - 1)
    return (
        before in ARTICLES
        or before in SIDES
        or before in COUNTS
        or before in ("whole", "entire", "very", "mould", "mold")
    )
