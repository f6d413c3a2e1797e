"""What would follow: from what was forbidden, from doing it otherwise, from too much of it.

"Or you drag the fibres", "otherwise it locks on", "never mix more than 400 at once, it'll cook in the pot".
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.openings import Opening
from journal.read.phrase_ends import FINITE, SAME_PAST, SUBJECTS, is_stop, starts_clause, tag_at, word_at
from journal.read.praise import GOOD
from journal.read.so_clauses import agrees, is_bare_clause, subject_verb

_TOO_MUCH = frozenset("more less thicker thinner hotter colder longer later faster".split())
_ADVISING = frozenset("want need have".split())
_IDLE = frozenset("see need want have find know be notice".split())
_WHO = frozenset("you it they we i she he ye".split())
_CHOOSING = frozenset("can could might may was were want think".split())


def otherwise(words: NoteWords, at: int) -> Opening:
    """ "Otherwise the first one sticks", "it drinks the water otherwise"."""
    if at + 1 >= len(words.lower) or is_stop(words, at + 1):
        return _after_all(words, at)
    bare = is_bare_clause(words, _noun_end(words, at + 1))
    verb = subject_verb(words, at + 1)
    if word_at(words, at - 1) == "unless" or (verb is None and not bare):
        return None
    if verb is not None and word_at(words, verb + 1) in GOOD:  # "otherwise he's fine"
        return None
    start = at - 1 if word_at(words, at - 1) in ("or", "cos", "because", "'cause") else at
    return start, at + 1, "otherwise"


def _after_all(words: NoteWords, at: int) -> Opening:
    """ "It drinks the water otherwise": the clause before the word."""
    start = at
    while start > 0 and words.lower[start - 1] != "," and not is_stop(words, start - 1):
        start -= 1
    return (start, at + 1, "after-all") if at - start > 2 and words.lower[start - 1 : start] == (",",) else None


def _noun_end(words: NoteWords, at: int) -> int:
    """Return the token after a short noun phrase whose verb was tagged as a noun: "the first one STICKS"."""
    while tag_at(words, at) in ("DT", "JJ", "PRP$", "CD") or tag_at(words, at + 1) in ("NN", "NNS"):
        at += 1
    return at


def or_it(words: NoteWords, at: int) -> Opening:
    """ "Else it takes all day", as a clause of its own."""
    if not starts_clause(words, at) or subject_verb(words, at + 1) is None:
        return None
    return at, at + 1, "otherwise"


def or_else(words: NoteWords, at: int) -> Opening:
    """ "Or it locks on", "or the two of them stick": what would come of it."""
    after = word_at(words, at + 1)
    if after == "else":
        return at, at + 2, "or-else"
    if after in _WHO and tag_at(words, at + 2) in (*FINITE, "VB", "RB", "IN", "NN"):
        return None if word_at(words, at + 2) in _CHOOSING else (at, at + 1, "or")
    if after == "the" and word_at(words, at + 2) in ("two", "lot", "whole"):
        return (at, at + 1, "or") if subject_verb(words, at + 1) is not None else None
    named = tag_at(words, at + 1) in ("DT", "PRP$", "NN", "NNS")
    return (at, at + 1, "or") if named and _thing_does(words, at) else None


def _thing_does(words: NoteWords, at: int) -> bool:
    """Whether a thing has a verb of its own after "or": "or the edges lift", not "wax or PVA"."""
    noun = at + 2
    while tag_at(words, noun) in ("JJ", "NN", "NNS") and noun < at + 5:
        if tag_at(words, at + 1) == "DT" and is_bare_clause(words, noun + 1) and agrees(words, noun + 1):
            return True
        noun += 1
    verb = subject_verb(words, at + 1) if "either" not in words.lower[max(at - 4, 0) : at] else None
    if verb is None:
        return False
    plural = words.tags[verb] == "VBP" and words.tags[verb - 1] == "NNS"
    return words.tags[verb] in ("VBZ", "MD") or words.lower[verb] == "'s" or plural


def consequence(words: NoteWords, at: int) -> Opening:
    """ "never mix more than 400 at once, it'll cook in the pot": what follows from what was forbidden."""
    verb = at + 1
    if tag_at(words, verb) == "RB":
        verb += 1
    apart = at >= 3 and (is_stop(words, at - 1) or words.lower[at - 1] == ",")
    threatens = (
        at >= 3
        and word_at(words, verb) in ("'ll", "will")
        and word_at(words, verb + 1) not in _IDLE
        and tag_at(words, at - 1) in ("NN", "RP", "PRP", "RB")
    )
    if tag_at(words, verb) not in ("MD", "VBZ", "VBP") or not (apart or threatens):
        return None
    if tag_at(words, verb) == "VBP" and (words.lower[at] not in ("you", "they") or words.lower[verb] in _ADVISING):
        return None
    if words.lower[verb] in ("'s", "is") and tag_at(words, verb + 1) not in ("RB", "VBG"):
        return None
    return (at, at, "consequence") if forbids(words, at - 1) else None


def if_then(words: NoteWords, at: int) -> Opening:
    """ "You must not rush it, if you rush it you will see holes": what follows from what was forbidden."""
    apart = at >= 3 and (is_stop(words, at - 1) or words.lower[at - 1] in (",", "because", "cos"))
    told = word_at(words, at + 1) in SUBJECTS and subject_verb(words, at + 1) is not None
    if not (apart and told and forbids(words, at - 1)):
        return None
    second = next((i for i in range(at + 3, min(at + 12, len(words.lower))) if _has_verb(words, i)), None)
    return (at, second + 1, "consequence") if second else None


def _has_verb(words: NoteWords, at: int) -> bool:
    """Whether a pronoun opens a clause: "YOU will see holes"."""
    return words.lower[at] in SUBJECTS and tag_at(words, at + 1) in (*FINITE, "RB")


def forbids(words: NoteWords, end: int) -> bool:
    """Whether the sentence up to `end` forbids something: "never ...", "don't ..." without a doer before it."""
    at = end - 1
    while at >= 0 and not is_stop(words, at):
        if words.lower[at] == "never":
            return tag_at(words, at + 1) not in ("VBD", "VBN", "VBZ") or words.lower[at + 1] in SAME_PAST
        if words.lower[at] in ("n't", "not") and word_at(words, at - 1) in ("do", "must", "should"):
            doer, told = word_at(words, at - 2), words.lower[at - 1] == "do"
            return doer not in SUBJECTS or (doer == "you" and not told)
        if words.lower[at] in ("dont", "watch", "mind") and starts_clause(words, at):
            return True
        at -= 1
    return False


def one_slip(words: NoteWords, at: int) -> Opening:
    """ "don't skip the wax, one missed spot and it's stuck for good"."""
    if at < 3 or words.lower[at - 1] != "," or not forbids(words, at - 1):
        return None
    both = next((i for i in range(at + 1, min(at + 6, len(words.lower) - 1)) if words.lower[i] == "and"), None)
    return (at, both + 1, "consequence") if both and words.lower[both + 1] in SUBJECTS else None


def any_more(words: NoteWords, at: int) -> Opening:
    """ "any more and it goes brittle"."""
    too_much = word_at(words, at + 1) in _TOO_MUCH and word_at(words, at + 2) in ("and", "than")
    return (at, at + 3, "any-more") if too_much and at + 3 < len(words.lower) else None


def lest(words: NoteWords, at: int) -> Opening:
    """ "Lest it sag"."""
    return at, at + 1, "lest"
