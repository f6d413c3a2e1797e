"""What "so" opens: what an act is for, or just the next thing that was done.

"So the glass doesn't bridge", "so we can bolt it up" are reasons. "So I mixed three hundred" goes on with the
story; there the reason may stand before it: "it was cold in here so I used the fast hardener".
"""

from __future__ import annotations

from journal.read.findings import NoteWords
from journal.read.observation_words import THINGS
from journal.read.openings import Opening
from journal.read.phrase_ends import FINITE, NEGATIONS, is_stop, starts_sentence, tag_at, word_at

_WEATHER = frozenset("roasting freezing boiling baking raining pouring getting".split())
_TELLERS = frozenset({"i", "we", "that", "this", "he", "she"})
_SUBJECT_TAGS = frozenset("PRP DT NN NNS PRP$ EX NNP JJ WDT IN CD RB VBG".split())
_DONE = frozenset(
    "done good ready fine ok okay now about nearly almost just going time all mixed in on up out waiting"
    " still tacky cured gelled off finished dry there here that".split()
)
_MERE = frozenset("need want take look seem know think reckon mean guess like have use".split())


def so_reason(words: NoteWords, at: int) -> Opening:
    """Return where the reason that the "so" at `at` opens or follows stands, or None."""
    after = word_at(words, at + 1)
    if after == "that":
        return None if tag_at(words, at + 2) in ("VBZ", "VBD", "MD", "") else (at, at + 2, "so-that")
    if after == "as" and "to" in words.lower[at + 2 : at + 4]:
        return at, at + 2, "so-as-to"
    verb = subject_verb(words, at + 1)
    if verb is None:
        bare = after == "the" and tag_at(words, at + 2) == "NNS" and is_bare_clause(words, at + 3)
        return (at, at + 1, "so") if bare else None
    negative = _is_negative(words, verb)
    told = words.tags[verb] == "VBD" or words.lower[verb] in ("'ve", "have")
    if after in ("i", "we") and words.tags[verb] in ("VBD", "VBP") and not negative:
        return _state_before(words, at) if told else None
    if starts_sentence(words, at) and not negative:
        return None
    return (at, at + 1, "so") if _brings_about(words, at + 1, verb) else None


def is_bare_clause(words: NoteWords, verb: int) -> bool:
    """Return whether a verb that was tagged as a noun ends the clause ("so the halves part", "or the mat floats")."""
    end = verb + 1
    return tag_at(words, verb) in ("NN", "NNS", "VB", "JJ") and (end >= len(words.lower) or is_stop(words, end))


def _state_before(words: NoteWords, so: int) -> Opening:
    """ "it was cold in here so I used the fast hardener": the state is why."""
    for be in range(so - 2, max(so - 9, 0), -1):
        if is_stop(words, be) or words.lower[be] == ",":
            return None
        if words.tags[be] in ("VBZ", "VBD") and words.doc[be].lemma_ in ("be", "'s", "feel"):
            subject = be - 1
            while subject > 0 and be - subject < 4 and words.tags[subject][0] in "NJ":
                subject -= 1
            after = slice(be + 1, be + 4)
            known = words.lower[subject] in ("it", "the", "shop", "that") and (
                "JJ" in words.tags[after] or not _WEATHER.isdisjoint(words.lower[after])
            )
            start = subject + 1 if words.lower[subject] == "the" else subject
            return (start, so, "state") if known else None
    return None


def subject_verb(words: NoteWords, at: int) -> int | None:
    """Return the first finite verb of the clause whose subject opens at `at`, or None."""
    if at >= len(words.lower) or words.tags[at] not in _SUBJECT_TAGS:
        return None
    for i in range(at, min(at + 7, len(words.lower))):
        if words.lower[i] == "," or is_stop(words, i):
            return None
        if i > at and words.tags[i] in FINITE:
            return i
    return None


def _is_negative(words: NoteWords, verb: int) -> bool:
    return word_at(words, verb + 1) in NEGATIONS or word_at(words, verb + 2) in ("not", "no")


def _brings_about(words: NoteWords, subject: int, verb: int) -> bool:
    """Whether "so" + clause tells what the act is for, not what was done next."""
    first, tag = words.lower[subject], words.tags[verb]
    if first in ("no", "neither", "nothing", "none"):
        return True
    if words.tags[subject] == "EX" and not THINGS.keys().isdisjoint(words.lower[verb : verb + 4]):
        return _is_negative(words, verb)
    if words.tags[subject] == "EX":
        return tag != "VBD" or _is_negative(words, verb)
    if tag in ("MD", "VBD"):
        return _helps(words, first in _TELLERS, verb)
    if _is_negative(words, verb):
        return word_at(words, verb + 2) not in _MERE or word_at(words, verb + 2) == "have"
    lemma = words.doc[verb].lemma_
    if first in _TELLERS or lemma in _MERE:
        return False
    if lemma == "be":
        return word_at(words, verb + 1) not in _DONE and tag_at(words, verb + 1) in ("JJ", "JJR", "RB", "RBR")
    return True


def _helps(words: NoteWords, teller: bool, verb: int) -> bool:
    """Whether a helping or past verb speaks of a purpose: "so we can", "so it won't", "so it didn't bridge"."""
    helper = words.lower[verb]
    if words.tags[verb] == "VBD":
        return not teller and helper == "did" and _is_negative(words, verb)
    if teller:
        return helper == "can" or (helper in ("do", "wo") and _is_negative(words, verb))
    return helper not in ("must", "should")
