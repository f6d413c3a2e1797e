"""Where moulds and pieces are put away: "in the blue crate", "up on the rack over the paint booth", "bay four".

A plain shelf or rack says nothing; one that is told from others by a word, a number or what stands by it does.
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.phrase_ends import is_stop, tag_at, word_at

_STORES = frozenset(
    "cabinet cupboard locker rack racks shelf shelves crate crates loft attic bay container chest cage trunk drawer"
    " cellar basement storeroom store stores bin box trolley pallet rafters room garage shed barn unit".split()
)
_TELLING = frozenset("cabinet locker loft attic chest cage trunk cellar basement storeroom".split())
_LED_BY = frozenset("in into on onto".split())
_PUTTING = frozenset(
    "store stored storing stack stacked hang hung shelve shelved stash stashed park parked tuck tucked keep kept lives"
    " live racked away boxed packed crated".split()
)
_PUT_AWAY = frozenset("mould mold moulds molds mold's plug pattern jacket master mother back up lives".split())
_BEING = frozenset("'s is are".split())
_JOINS = frozenset("over under above below beside behind by near next at in with".split())
_NAMING = ("JJ", "NN", "NNP", "JJS", "VBN", "JJR")
_DIGITS = frozenset("one two three four five six seven eight nine ten a b c".split())
_SOMEONE = frozenset("a an my his her".split())


def stored(words: NoteWords, at: int) -> tuple[int, int, str] | None:
    """Return the place [start, end) that the preposition at the token puts a thing away in, and its rule; or None."""
    if words.lower[at] not in _LED_BY:
        return None
    start = at + 2 if word_at(words, at + 1) in ("the", "that", "our") else at + 1
    head = start
    while head < start + 4 and word_at(words, head) not in _STORES and tag_at(words, head) in _NAMING:
        head += 1
    while word_at(words, head + 1) in _STORES:
        head += 1
    if word_at(words, head) not in _STORES or words.lower[start - 1] in _SOMEONE or not _is_put_away(words, at):
        return None
    end, told = head + 1, head > start or words.lower[head] in _TELLING
    if word_at(words, end) in _DIGITS or tag_at(words, end) == "CD":
        end, told = end + 1, True
    elif start == at + 1 and head == start:
        return None  # "in store", "on racks"
    joined = _joined_end(words, end)
    return (start, joined, "stored") if told or joined > end else None


def _joined_end(words: NoteWords, end: int) -> int:
    """Return the end with what the store stands by: "the rack over the paint booth"."""
    if word_at(words, end) not in _JOINS or word_at(words, end + 1) not in ("the", "my", "our"):
        return end
    last = end + 2
    while tag_at(words, last) in _NAMING and tag_at(words, last + 1) in ("NN", "NNS", "NNP"):
        last += 1
    return last + 1 if tag_at(words, last) in ("NN", "NNS", "NNP") else end


def _is_put_away(words: NoteWords, at: int) -> bool:
    """Whether the clause before the preposition puts a thing away, or tells where one is."""
    begin = at
    while begin > 0 and at - begin < 12 and not is_stop(words, begin - 1):
        begin -= 1
    clause = words.lower[begin:at]
    if not _PUTTING.isdisjoint(clause):
        return True
    return not _BEING.isdisjoint(clause) and not _PUT_AWAY.isdisjoint(clause)
