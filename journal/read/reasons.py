"""Why a thing was done, and what comes of not doing it, in the words that the maker used.

One look-up a word: a word that may open a reason is handed to the rule for it, which decides from the
words around it. "So I mixed ..." goes on with the story and is no reason.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.openings import Opening, Rule, opened_phrases
from journal.read.phrase_ends import (
    FINITE,
    SAME_PAST,
    SUBJECTS,
    is_purpose,
    is_stop,
    phrase_end,
    starts_clause,
    tag_at,
    word_at,
)
from journal.read.so_clauses import is_bare_clause, so_reason, subject_verb

_TOO_MUCH = frozenset("more less thicker thinner hotter colder longer later faster".split())
_SINCE_TIMES = frozenset(
    "yesterday then last this the monday tuesday wednesday thursday friday saturday sunday breakfast"
    " lunch about half noon midnight before early".split()
)
_BENEFITS = frozenset(
    "strength stiffness grip adhesion safety support rigidity flexibility durability luck key bond finish"
    " release detail insurance protection ease demoulding handling".split()
)
_HELPING = frozenset(
    {"stops", "helps", "keeps", "prevents", "lets", "saves", "gives", "makes", "avoids", "stopped", "helped"}
)


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the reasons in the note, kind "reason", each with its marker ("so that ...", "or you ...")."""
    return opened_phrases(words, "reason", _RULES, found.of("question"), _end)


def _end(words: NoteWords, start: int, body: int, rule: str) -> int:
    return body if rule == "state" else phrase_end(words, start, body, reason=True)


def _because(words: NoteWords, at: int) -> Opening:
    start = at - 1 if word_at(words, at - 1) in ("just", "only", "mainly", "partly") else at
    return start, at + 1, "because"


def _cause(words: NoteWords, at: int) -> Opening:
    if tag_at(words, at - 1) in ("DT", "JJ", "PRP$", "TO", "MD", "NN", "PRP"):
        return None
    return (at, at + 1, "because") if word_at(words, at + 1) in SUBJECTS or tag_at(words, at + 1) == "DT" else None


def _otherwise(words: NoteWords, at: int) -> Opening:
    if word_at(words, at - 1) == "unless" or subject_verb(words, at + 1) is None:
        return None
    start = at - 1 if word_at(words, at - 1) in ("or", "cos", "because", "'cause") else at
    return start, at + 1, "otherwise"


def _in_case(words: NoteWords, at: int) -> Opening:
    if word_at(words, at + 1) != "case" or at + 2 >= len(words.lower):
        return None
    return (at - 1 if word_at(words, at - 1) == "just" else at), at + 2, "in-case"


def _due(words: NoteWords, at: int) -> Opening:
    if word_at(words, at + 1) != "to" or tag_at(words, at + 2) in ("VB", "CD"):
        return None
    return at, at + 2, "due-to"


def _that(words: NoteWords, at: int) -> Opening:
    """ "that way it runs in"; "that stops it sagging"."""
    after = word_at(words, at + 1)
    if after == "way" and (word_at(words, at + 2) in SUBJECTS or tag_at(words, at + 2) in ("DT", "NN", "NNS", "PRP$")):
        return at, at + 2, "that-way"
    if after == "'s" and word_at(words, at + 2) in ("how", "why", "when") and at and _forbids(words, at - 1):
        return at, at + 3, "consequence"
    return (at, at + 1, "that-helps") if after in _HELPING and at + 2 < len(words.lower) else None


def _any(words: NoteWords, at: int) -> Opening:
    """ "any more and it goes brittle"."""
    too_much = word_at(words, at + 1) in _TOO_MUCH and word_at(words, at + 2) in ("and", "than")
    return (at, at + 3, "any-more") if too_much and at + 3 < len(words.lower) else None


def _wish(words: NoteWords, at: int) -> Opening:
    """ "the customer wants it clear", as why a thing is left out."""
    return (at, at + 2, "wish") if word_at(words, at + 1) in ("wants", "wanted", "asked", "likes") else None


def _reason(words: NoteWords, at: int) -> Opening:
    """ "the reason I use tissue first is it stops the weave printing"."""
    for be in range(at + 1, min(at + 10, len(words.lower) - 2)):
        if words.lower[be] in ("is", "was", "'s", "being"):
            body = be + 1
            return None if words.lower[body] in ("because", "cos", "that", "to") else (body, body + 1, "reason-is")
    return None


def _one(words: NoteWords, at: int) -> Opening:
    """ "don't skip the wax, one missed spot and it's stuck for good"."""
    if at < 3 or words.lower[at - 1] != "," or not _forbids(words, at - 1):
        return None
    both = next((i for i in range(at + 1, min(at + 6, len(words.lower) - 1)) if words.lower[i] == "and"), None)
    return (at, both + 1, "consequence") if both and words.lower[both + 1] in SUBJECTS else None


def _which(words: NoteWords, at: int) -> Opening:
    return (at, at + 1, "that-helps") if word_at(words, at + 1) in _HELPING else None


def _or(words: NoteWords, at: int) -> Opening:
    after = word_at(words, at + 1)
    if after == "else":
        return at, at + 2, "or-else"
    if after in ("you", "it", "they", "we", "i") and tag_at(words, at + 2) in (*FINITE, "VB", "RB", "IN"):
        if word_at(words, at + 2) in ("can", "could", "might", "may", "was", "were", "want", "think"):
            return None
        return at, at + 1, "or"
    if tag_at(words, at + 1) in ("DT", "PRP$", "NN", "NNS"):
        if tag_at(words, at + 1) == "DT" and tag_at(words, at + 3) == "NNS" and is_bare_clause(words, at + 3):
            return at, at + 1, "or"
        verb = subject_verb(words, at + 1) if "either" not in words.lower[max(at - 4, 0) : at] else None
        if verb and (words.tags[verb] in ("VBZ", "MD") or words.lower[verb] == "'s"):
            return at, at + 1, "or"
        if verb and words.tags[verb] == "VBP" and words.tags[verb - 1] == "NNS":
            return at, at + 1, "or"
    return None


def _to(words: NoteWords, at: int) -> Opening:
    """A purpose: "to" with a verb of bringing about, not governed by "want", "need", "going"."""
    if not is_purpose(words, at) or tag_at(words, at + 1) not in ("VB", "VBP", "NN", "JJ"):
        return None
    return (at - 1 if word_at(words, at - 1) == "just" else at), at + 1, "purpose"


def _since(words: NoteWords, at: int) -> Opening:
    """ "since the wax was old", not "since yesterday" nor "an hour since we poured"."""
    if word_at(words, at - 1) == "ever" or word_at(words, at + 1) in _SINCE_TIMES - {"the", "this"}:
        return None
    if not starts_clause(words, at) and tag_at(words, at - 1) in ("NN", "NNS") and _timed(words, at - 1):
        return None
    verb = subject_verb(words, at + 1)
    return (at, at + 1, "since") if verb else None


def _timed(words: NoteWords, at: int) -> bool:
    return words.lower[at].rstrip("s") in ("hour", "minute", "day", "week", "while", "month", "age", "year", "half")


def _as(words: NoteWords, at: int) -> Opening:
    """ "as it was still tacky": a state, so a reason; "as it was curing" is a time."""
    if tag_at(words, at + 1) not in ("PRP", "DT", "EX", "PRP$") or not _alone(words, at):
        return None
    verb = subject_verb(words, at + 1)
    if verb is None:
        return None
    if words.doc[verb].lemma_ in ("need", "want"):
        return at, at + 1, "as"
    if words.doc[verb].lemma_ not in ("be", "have", "'", "get"):
        return None
    after = verb + 1
    while tag_at(words, after) == "RB":
        after += 1
    return (at, at + 1, "as") if tag_at(words, after) in ("JJ", "JJR", "DT", "VBN", "CD") else None


def _alone(words: NoteWords, at: int) -> bool:
    return word_at(words, at - 1) not in (
        "as",
        "same",
        "such",
        "soon",
        "long",
        "far",
        "just",
        "well",
        "much",
        "so",
        "good",
    )


def _seeing(words: NoteWords, at: int) -> Opening:
    return (at, at + 2, "seeing-as") if word_at(words, at + 1) in ("as", "that", "how") else None


def _for(words: NoteWords, at: int) -> Opening:
    """ "for extra strength", "for a better key"."""
    for i in range(at + 1, min(at + 5, len(words.lower))):
        if words.lower[i] in _BENEFITS and tag_at(words, i + 1) not in ("NN", "NNS"):
            return at, i, "benefit"
        if words.tags[i] not in ("DT", "JJ", "JJR", "RBR", "RB", "NN", "PDT"):
            return None
    return None


def _consequence(words: NoteWords, at: int) -> Opening:
    """ "never mix more than 400 at once, it'll cook in the pot": what follows from what was forbidden."""
    verb = at + 1
    if tag_at(words, verb) not in ("MD", "VBZ") or at < 3 or not (is_stop(words, at - 1) or words.lower[at - 1] == ","):
        return None
    if words.lower[verb] in ("'s", "is") and tag_at(words, verb + 1) not in ("RB", "VBG"):
        return None
    return (at, at, "consequence") if _forbids(words, at - 1) else None


def _forbids(words: NoteWords, end: int) -> bool:
    """Whether the sentence up to `end` forbids something: "never ...", "don't ..." without a doer before it."""
    at = end - 1
    while at >= 0 and not is_stop(words, at):
        if words.lower[at] == "never":
            return tag_at(words, at + 1) not in ("VBD", "VBN", "VBZ") or words.lower[at + 1] in SAME_PAST
        if words.lower[at] in ("n't", "not") and word_at(words, at - 1) == "do":
            return word_at(words, at - 2) not in SUBJECTS
        at -= 1
    return False


def _lest(words: NoteWords, at: int) -> Opening:
    return at, at + 1, "lest"


_RULES: dict[str, Rule] = {
    **dict.fromkeys(("because", "'cause", "cos", "coz", "cuz", "'cos"), _because),
    "cause": _cause, "otherwise": _otherwise, "in": _in_case, "due": _due, "that": _that, "which": _which,
    "or": _or, "to": _to, "so": so_reason, "since": _since, "as": _as, "seeing": _seeing, "for": _for,
    **dict.fromkeys(("it", "they", "you"), _consequence), "lest": _lest, "any": _any, "one": _one, "reason": _reason,
    "customer": _wish, "client": _wish,
}  # fmt: skip
