"""Why a thing was done, and what comes of not doing it, in the words that the maker used.

One look-up a word: a word that may open a reason is handed to the rule for it, which decides from the
words around it. "So I mixed ..." goes on with the story and is no reason.
"""

from __future__ import annotations

from collections.abc import Callable

from journal.read.findings import Findings, Found, NoteWords
from journal.read.phrase_ends import (
    FINITE,
    NEGATIONS,
    SAME_PAST,
    SUBJECTS,
    is_purpose,
    is_stop,
    phrase,
    phrase_end,
    starts_clause,
    starts_sentence,
)  # fmt: skip

_Opening = tuple[int, int, str] | None
"""Where the phrase starts, where its own words begin, and the rule; or None."""

_DONE = frozenset(
    "done good ready fine ok okay now about nearly almost just going time all mixed in on up out waiting"
    " still tacky cured gelled off finished dry there here that".split()
)
_MERE = frozenset("need want take look seem know think reckon mean guess like have use".split())
_TOO_MUCH = frozenset("more less thicker thinner hotter colder longer later faster".split())
_PLAN = frozenset({"'ll", "’ll", "will", "'d", "’d", "would", "should", "must", "might", "may"})
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
    questions = found.of("question")
    reasons: list[Found] = []
    end = 0
    for at, word in enumerate(words.lower):
        rule = _RULES.get(word)
        if rule is None or at < end or any(q.start <= at < q.end for q in questions):
            continue
        opening = rule(words, at)
        if opening is None or opening[0] < end:
            continue
        start, body, name = opening
        end = body if name == "state" else phrase_end(words, start, body, reason=True)
        if end > start:
            reasons.append(phrase(words, "reason", start, end, f"reasons.{name}"))
    return reasons


def _word(words: NoteWords, at: int) -> str:
    return words.lower[at] if 0 <= at < len(words.lower) else ""


def _tag(words: NoteWords, at: int) -> str:
    return words.tags[at] if 0 <= at < len(words.tags) else ""


def _because(words: NoteWords, at: int) -> _Opening:
    start = at - 1 if _word(words, at - 1) in ("just", "only", "mainly", "partly") else at
    return start, at + 1, "because"


def _cause(words: NoteWords, at: int) -> _Opening:
    if _tag(words, at - 1) in ("DT", "JJ", "PRP$", "TO", "MD", "NN", "PRP"):
        return None
    return (at, at + 1, "because") if _word(words, at + 1) in SUBJECTS or _tag(words, at + 1) == "DT" else None


def _otherwise(words: NoteWords, at: int) -> _Opening:
    if _word(words, at - 1) == "unless" or _subject_verb(words, at + 1) is None:
        return None
    start = at - 1 if _word(words, at - 1) in ("or", "cos", "because", "'cause") else at
    return start, at + 1, "otherwise"


def _in_case(words: NoteWords, at: int) -> _Opening:
    if _word(words, at + 1) != "case" or at + 2 >= len(words.lower):
        return None
    return (at - 1 if _word(words, at - 1) == "just" else at), at + 2, "in-case"


def _due(words: NoteWords, at: int) -> _Opening:
    if _word(words, at + 1) != "to" or _tag(words, at + 2) in ("VB", "CD"):
        return None
    return at, at + 2, "due-to"


def _that(words: NoteWords, at: int) -> _Opening:
    """ "that way it runs in"; "that stops it sagging"."""
    after = _word(words, at + 1)
    if after == "way" and (_word(words, at + 2) in SUBJECTS or _tag(words, at + 2) in ("DT", "NN", "NNS", "PRP$")):
        return at, at + 2, "that-way"
    if after in ("'s", "’s") and _word(words, at + 2) in ("how", "why", "when") and at and _forbids(words, at - 1):
        return at, at + 3, "consequence"
    return (at, at + 1, "that-helps") if after in _HELPING and at + 2 < len(words.lower) else None


def _any(words: NoteWords, at: int) -> _Opening:
    """ "any more and it goes brittle"."""
    too_much = _word(words, at + 1) in _TOO_MUCH and _word(words, at + 2) in ("and", "than")
    return (at, at + 3, "any-more") if too_much and at + 3 < len(words.lower) else None


def _wish(words: NoteWords, at: int) -> _Opening:
    """ "the customer wants it clear", as why a thing is left out."""
    return (at, at + 2, "wish") if _word(words, at + 1) in ("wants", "wanted", "asked", "likes") else None


def _which(words: NoteWords, at: int) -> _Opening:
    return (at, at + 1, "that-helps") if _word(words, at + 1) in _HELPING else None


def _or(words: NoteWords, at: int) -> _Opening:
    after = _word(words, at + 1)
    if after == "else":
        return at, at + 2, "or-else"
    if after in ("you", "it", "they", "we", "i") and _tag(words, at + 2) in (*FINITE, "VB", "RB", "IN"):
        if _word(words, at + 2) in ("can", "could", "might", "may", "was", "were", "want", "think"):
            return None
        return at, at + 1, "or"
    if _tag(words, at + 1) in ("DT", "PRP$", "NN", "NNS"):
        verb = _subject_verb(words, at + 1) if "either" not in words.lower[max(at - 4, 0) : at] else None
        if verb and (words.tags[verb] in ("VBZ", "MD") or words.lower[verb] in ("'s", "’s")):
            return at, at + 1, "or"
        if verb and words.tags[verb] == "VBP" and words.tags[verb - 1] == "NNS":
            return at, at + 1, "or"
    return None


def _to(words: NoteWords, at: int) -> _Opening:
    """A purpose: "to" with a verb of bringing about, not governed by "want", "need", "going"."""
    if not is_purpose(words, at) or _tag(words, at + 1) not in ("VB", "VBP", "NN", "JJ"):
        return None
    return (at - 1 if _word(words, at - 1) == "just" else at), at + 1, "purpose"


def _so(words: NoteWords, at: int) -> _Opening:
    after = _word(words, at + 1)
    if after == "that":
        return None if _tag(words, at + 2) in ("VBZ", "VBD", "MD", "") else (at, at + 2, "so-that")
    if after == "as" and "to" in words.lower[at + 2 : at + 4]:
        return at, at + 2, "so-as-to"
    verb = _subject_verb(words, at + 1)
    if verb is None or (starts_sentence(words, at) and not _negative(words, verb)):
        return None
    return (at, at + 1, "so") if _brings_about(words, at + 1, verb) else None


def _state_before(words: NoteWords, so: int) -> _Opening:
    """ "it was cold in here so I used the fast hardener": the state is why."""
    for be in range(so - 2, max(so - 9, 0), -1):
        if is_stop(words, be) or words.lower[be] == ",":
            return None
        if words.tags[be] in ("VBZ", "VBD") and words.doc[be].lemma_ in ("be", "'s", "feel"):
            subject = be - 1
            while subject > 0 and be - subject < 4 and words.tags[subject][0] in "NJ":
                subject -= 1
            known = words.lower[subject] in ("it", "the", "shop", "that") and "JJ" in words.tags[be + 1 : be + 4]
            start = subject + 1 if words.lower[subject] == "the" else subject
            return (start, so, "state") if known else None
    return None


def _subject_verb(words: NoteWords, at: int) -> int | None:
    """Return the first finite verb of the clause whose subject opens at `at`, or None."""
    lower, tags = words.lower, words.tags
    for i in range(at, min(at + 7, len(lower))):
        if is_stop(words, i) or lower[i] == ",":
            return None
        if tags[i] in FINITE and i > at:
            return i
        if i == at and tags[i] not in (
            "PRP",
            "DT",
            "NN",
            "NNS",
            "PRP$",
            "EX",
            "NNP",
            "JJ",
            "WDT",
            "IN",
            "CD",
            "RB",
            "VBG",
        ):
            return None
    return None


def _negative(words: NoteWords, verb: int) -> bool:
    return _word(words, verb + 1) in NEGATIONS or _word(words, verb + 2) in ("not", "no")


def _brings_about(words: NoteWords, subject: int, verb: int) -> bool:
    """Whether "so" + clause tells what the act is for, not what was done next."""
    me = words.lower[subject] in ("i", "we", "that", "this", "he", "she")
    helper, tag = words.lower[verb], words.tags[verb]
    if words.lower[subject] == "no" or words.tags[subject] == "EX":
        return tag != "VBD" or _negative(words, verb)
    if tag == "MD":
        if me:
            return helper in ("can",) or (helper in ("do", "wo") and _negative(words, verb))
        return helper not in ("must", "should")
    if tag == "VBD":
        return not me and helper in ("did",) and _negative(words, verb)
    lemma = words.doc[verb].lemma_
    if _negative(words, verb):
        return _word(words, verb + 2) not in _MERE or _word(words, verb + 2) == "have"
    if me or lemma in _MERE:
        return False
    if lemma == "be":
        return _word(words, verb + 1) not in _DONE and _tag(words, verb + 1) in ("JJ", "JJR", "RB", "RBR")
    return True


def _since(words: NoteWords, at: int) -> _Opening:
    """ "since the wax was old", not "since yesterday" nor "an hour since we poured"."""
    if _word(words, at - 1) == "ever" or _word(words, at + 1) in _SINCE_TIMES - {"the", "this"}:
        return None
    if not starts_clause(words, at) and _tag(words, at - 1) in ("NN", "NNS") and _timed(words, at - 1):
        return None
    verb = _subject_verb(words, at + 1)
    return (at, at + 1, "since") if verb else None


def _timed(words: NoteWords, at: int) -> bool:
    return words.lower[at].rstrip("s") in ("hour", "minute", "day", "week", "while", "month", "age", "year", "half")


def _as(words: NoteWords, at: int) -> _Opening:
    """ "as it was still tacky": a state, so a reason; "as it was curing" is a time."""
    if _tag(words, at + 1) not in ("PRP", "DT", "EX", "PRP$") or not _alone(words, at):
        return None
    verb = _subject_verb(words, at + 1)
    if verb is None or words.doc[verb].lemma_ not in ("be", "have", "'", "get"):
        return None
    after = verb + 1
    while _tag(words, after) == "RB":
        after += 1
    return (at, at + 1, "as") if _tag(words, after) in ("JJ", "JJR", "DT", "VBN", "CD") else None


def _alone(words: NoteWords, at: int) -> bool:
    return _word(words, at - 1) not in (
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


def _seeing(words: NoteWords, at: int) -> _Opening:
    return (at, at + 2, "seeing-as") if _word(words, at + 1) in ("as", "that", "how") else None


def _for(words: NoteWords, at: int) -> _Opening:
    """ "for extra strength", "for a better key"."""
    for i in range(at + 1, min(at + 5, len(words.lower))):
        if words.lower[i] in _BENEFITS and _tag(words, i + 1) not in ("NN", "NNS"):
            return at, i, "benefit"
        if words.tags[i] not in ("DT", "JJ", "JJR", "RBR", "RB", "NN", "PDT"):
            return None
    return None


def _consequence(words: NoteWords, at: int) -> _Opening:
    """ "never mix more than 400 at once, it'll cook in the pot": what follows from what was forbidden."""
    verb = at + 1
    if _tag(words, verb) not in ("MD", "VBZ") or at < 3 or not (is_stop(words, at - 1) or words.lower[at - 1] == ","):
        return None
    if words.lower[verb] in ("'s", "’s", "is") and _tag(words, verb + 1) not in ("RB", "VBG"):
        return None
    return (at, at, "consequence") if _forbids(words, at - 1) else None


def _forbids(words: NoteWords, end: int) -> bool:
    """Whether the sentence up to `end` forbids something: "never ...", "don't ..." without a doer before it."""
    at = end - 1
    while at >= 0 and not is_stop(words, at):
        if words.lower[at] == "never":
            return _tag(words, at + 1) not in ("VBD", "VBN", "VBZ") or words.lower[at + 1] in SAME_PAST
        if words.lower[at] in ("n't", "n’t", "not") and _word(words, at - 1) == "do":
            return _word(words, at - 2) not in SUBJECTS
        at -= 1
    return False


def _lest(words: NoteWords, at: int) -> _Opening:
    return at, at + 1, "lest"


_RULES: dict[str, Callable[[NoteWords, int], _Opening]] = {
    **dict.fromkeys(("because", "'cause", "’cause", "cos", "coz", "cuz", "'cos", "’cos"), _because),
    "cause": _cause, "otherwise": _otherwise, "in": _in_case, "due": _due, "that": _that, "which": _which,
    "or": _or, "to": _to, "so": _so, "since": _since, "as": _as, "seeing": _seeing, "for": _for,
    **dict.fromkeys(("it", "they", "you"), _consequence), "lest": _lest, "any": _any,
    "customer": _wish, "client": _wish,
}  # fmt: skip
