"""What not to do and what to look out for, in the words that the maker used ("don't press too hard").

"I didn't wax", "don't know", "never mind" warn of nothing; "so you don't trap air" is a reason.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords
from journal.read.openings import Opening, Rule, opened_phrases
from journal.read.phrase_ends import NEGATIONS, SAME_PAST, is_stop, phrase, phrase_end, starts_clause, tag_at, word_at

_IDLE = frozenset(
    "know think worry remember have need mind care like see suppose reckon bother believe seem matter get"
    " recall mean expect look forget ask".split()
)
_NOBODY = frozenset("i we they it he she that this which who what why".split())
_NOT_BEFORE = frozenset("so if when because that as since where cos".split())
_THING = frozenset({"the", "your", "that", "those", "out", "it", "for", "how", "them", "where", "any", "not", "this"})
_NEVERS = frozenset({"mind", "again", "know", "got", "had", "did", "been", ""})
_LIMITS = frozenset(
    {"more", "thicker", "thinner", "longer", "less", "hotter", "warmer", "deeper", "heavier", "bigger", "later"}
)
_URGED = frozenset({"sure", "certain"})
_ADVICE = frozenset({"avoid", "beware", "remember"})
_TAKEN = frozenset({"time", "care", "easy", "steady", "gently", "gentle", "slow", "slowly", "canny"})
_TOO = frozenset("much many thick hot hard long fast quick quickly heavy wet tight far".split())


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the warnings in the note, kind "warning": the clause of each, from its marker on."""
    reasons = [item.start for item in found.of("reason")]
    return [_before_reason(words, item, reasons) for item in _opened(words, found)]


def _opened(words: NoteWords, found: Findings) -> list[Found]:
    return opened_phrases(words, "warning", _RULES, found.of("question", "remembered", "reason"), _end)


def _before_reason(words: NoteWords, item: Found, reasons: list[int]) -> Found:
    """Return the warning without the reason at its end ("or the flange bends")."""
    end = next((start for start in reasons if item.start < start < item.end), None)
    if end is None:
        return item
    end -= words.lower[end - 1] == ","
    return phrase(words, "warning", item.start, end, item.rule, item.confidence)


def _end(words: NoteWords, start: int, body: int, rule: str) -> int:
    end = phrase_end(words, start, min(body, len(words.lower) - 1), verb=rule != "make-sure")
    return end if end > body or rule == "limit" else start


def _do_not(words: NoteWords, at: int) -> Opening:
    """ "don't press", "do not press", "you don't want to press"; not "we don't have", "so you don't"."""
    if word_at(words, at + 1) not in NEGATIONS:
        return None
    doer = at - 2 if word_at(words, at - 1) in ("really", "just", "definitely", "generally") else at - 1
    before, verb = word_at(words, doer), word_at(words, at + 2)
    if before in _NOBODY or (
        tag_at(words, at - 1) in ("NN", "NNS") and not starts_clause(words, at) and _done(words, at)
    ):
        return None
    if before == "you":
        if word_at(words, doer - 1) in _NOT_BEFORE or verb not in ("want", "ever", "wanna"):
            return None
        return doer, at + 2, "do-not"
    if before in _NOT_BEFORE - {"cos", "because", "so"} or (verb in _IDLE and verb not in ("forget", "get", "mind")):
        return None
    return at, at + 3, "do-not"


def _done(words: NoteWords, at: int) -> bool:
    """Whether "don't" after a plural noun is that noun's own verb ("the edges don't meet")."""
    return tag_at(words, at - 1) == "NNS" and tag_at(words, at - 2) in ("DT", "JJ", "PRP$", "NN")


def _dont(words: NoteWords, at: int) -> Opening:
    """ "dont", as typed without its apostrophe."""
    if word_at(words, at - 1) in _NOBODY | _NOT_BEFORE | {"you"} or word_at(words, at + 1) in _IDLE - {"forget", "get"}:
        return None
    return at, at + 2, "do-not"


def _never(words: NoteWords, at: int) -> Opening:
    after, tag = word_at(words, at + 1), tag_at(words, at + 1)
    if after in _NEVERS or (tag in ("VBD", "VBN", "VBZ", ".") and after not in SAME_PAST):
        return None
    before = word_at(words, at - 1)
    if before in (
        "'ll",
        "will",
        "would",
        "could",
        "can",
        "'ve",
        "have",
        "has",
        "had",
        "was",
        "'s",
        "is",
        "'d",
        "it",
        "they",
        "did",
    ):
        return None
    if before in ("should", "must") and word_at(words, at - 2) == "you":
        return at - 2, at + 2, "never"
    start = at - 1 if before in ("you", "i", "we") and word_at(words, at - 2) not in _NOT_BEFORE else at
    return start, at + 2, "never"


def _wear(words: NoteWords, at: int) -> Opening:
    """ "wear gloves when you're washing out", "always wear a mask", as an order."""
    start = at - 1 if word_at(words, at - 1) == "always" else at
    return (start, at + 2, "wear") if starts_clause(words, start) and at + 1 < len(words.lower) else None


def _at_most(words: NoteWords, at: int) -> Opening:
    """ "two percent catalyst at the very most": the limit with its clause."""
    if words.lower[max(at - 3, 0) : at] not in (("at", "the", "very"),) and words.lower[max(at - 2, 0) : at] != (
        "at",
        "the",
    ):
        return None
    start = at
    while start > 0 and words.lower[start - 1] != "," and not is_stop(words, start - 1):
        start -= 1
    return (start, at, "at-most") if any(words.tags[i] == "CD" for i in range(start, at)) else None


def _make_sure(words: NoteWords, at: int) -> Opening:
    if word_at(words, at + 1) not in _URGED or (
        word_at(words, at - 1) in ("to", "just", "n't", "not") and not _urging(words, at)
    ):
        return None
    return at, at + 2, "make-sure"


def _urging(words: NoteWords, at: int) -> bool:
    return word_at(words, at - 1) == "just" or word_at(words, at - 2) in ("want", "got", "have", "need")


def _careful(words: NoteWords, at: int) -> Opening:
    if (
        at + 1 >= len(words.lower)
        or tag_at(words, at + 1) == "."
        or word_at(words, at - 1) in ("was", "were", "a", "been")
    ):
        return None
    start = at
    while start > 0 and word_at(words, start - 1) in ("be", "very", "really", "real"):
        start -= 1
    if tag_at(words, at + 1) in ("NN", "NNS", "JJ"):
        return None
    return start, at + 1, "careful"


def _watch(words: NoteWords, at: int) -> Opening:
    """ "watch for bubbles", "mind the edge": an order, with nobody before it."""
    before = word_at(words, at - 1)
    urged = before == "ta" or (before == "to" and word_at(words, at - 2) in ("want", "got", "have", "need", "'ve"))
    if tag_at(words, at - 1) in ("PRP", "DT", "PRP$", "JJ", "NN", "TO", "MD") and not urged:
        return None
    if before in ("n't", "never", "would", "not"):
        return None
    return (at, at + 1, "watch") if word_at(words, at + 1) in _THING or tag_at(words, at + 1) in ("NNS", "NN") else None


def _keep(words: NoteWords, at: int) -> Opening:
    """ "keep it away from ...", "keep your batches small", "keep an eye on"."""
    if (
        tag_at(words, at - 1) in ("TO", "PRP", "MD", "NN")
        or word_at(words, at - 1) in ("n't", "not")
        or not _order(words, at)
    ):
        return None
    ahead = words.lower[at + 1 : at + 9]
    stop = next((i for i, word in enumerate(ahead) if word in (",", ".", "and")), len(ahead))
    if ahead[:1] == ("your",) and "on" in ahead[:stop]:
        return at, at + 1, "keep"
    if {"away", "off", "out", "below", "under", "above", "eye", "clear", "dry", "small", "thin"} & set(ahead[:stop]):
        return at, at + 1, "keep"
    return None


def _order(words: NoteWords, at: int) -> bool:
    return words.tags[at] in ("VB", "VBP", "NN") and word_at(words, at - 1) not in ("i", "we", "they", "to")


def _limit(words: NoteWords, at: int) -> Opening:
    """ "no thicker than 3 mm", "not more than 400 grams at once"; "no more than 20 minutes" is a time."""
    if word_at(words, at + 1) not in _LIMITS or word_at(words, at + 2) != "than":
        return None
    if any(word in _TIME_UNITS for word in words.lower[at + 3 : at + 7]) and not _or_follows(words, at):
        return None
    return at, at + 3, "limit"


def _not_too(words: NoteWords, at: int) -> Opening:
    """ "Not too much catalyst", "not too hard on the edges"; other limits by "not" are read as those by "no"."""
    if word_at(words, at + 1) != "too":
        return _limit(words, at)
    told = starts_clause(words, at) and word_at(words, at + 2) in _TOO and tag_at(words, at + 3) in ("NN", "NNS", "IN")
    return (at, at + 3, "limit") if told else None


def _or_follows(words: NoteWords, at: int) -> bool:
    """Whether a limit of time is a warning by what it threatens ("no more than eight hours or you're sanding")."""
    end = next((i for i in range(at, len(words.lower)) if words.lower[i] == "," or is_stop(words, i)), len(words.lower))
    return starts_clause(words, at) and "or" in words.lower[at:end]


def _must_not(words: NoteWords, at: int) -> Opening:
    """ "you mustn't rush it", "you can't rush it", "must not be touched"."""
    if (
        words.lower[at] == "must"
        and word_at(words, at + 1) in NEGATIONS
        and word_at(words, at - 1) not in ("you", "i", "we")
    ):
        return at, at + 2, "must-not"
    if (
        word_at(words, at - 1) != "you"
        or word_at(words, at + 1) not in NEGATIONS
        or word_at(words, at - 2) in _NOT_BEFORE
    ):
        return None
    if word_at(words, at + 2) in ("see", "tell", "feel", "hear", "need", "go", "beat", "get", "have", "be"):
        return None
    return at - 1, at + 2, "must-not"


def _would_not(words: NoteWords, at: int) -> Opening:
    """ "I wouldn't go over 400 grams"; not "it wouldn't release"."""
    if word_at(words, at - 1) != "i" or word_at(words, at + 1) not in NEGATIONS or tag_at(words, at + 2) != "VB":
        return None
    return (at - 1, at + 3, "would-not") if word_at(words, at + 2) not in _IDLE | {"be", "say"} else None


def _be_sure(words: NoteWords, at: int) -> Opening:
    return (
        (at - 1, at + 2, "be-sure")
        if word_at(words, at - 1) == "be" and word_at(words, at + 1) in ("to", "you")
        else None
    )


def _ease(words: NoteWords, at: int) -> Opening:
    return (at, at + 2, "ease-off") if word_at(words, at + 1) == "off" and starts_clause(words, at) else None


def _not_to(words: NoteWords, at: int) -> Opening:
    if word_at(words, at + 1) != "not" or word_at(words, at + 2) != "to" or not starts_clause(words, at):
        return None
    return at, at + 3, "try-not-to"


def _advice(words: NoteWords, at: int) -> Opening:
    """An order that is advice by its verb alone: "avoid trapping air", "remember to write it down"."""
    if (
        not starts_clause(words, at)
        or tag_at(words, at + 1) in ("", ".", ",", "CD")
        or words.tags[at] in ("VBD", "VBN")
    ):
        return None
    return at, at + 1, "advice"


def _take(words: NoteWords, at: int) -> Opening:
    if starts_clause(words, at) and _TAKEN.intersection(words.lower[at + 1 : at + 3]):
        return at, at + 2, "take-care"
    return None


_TIME_UNITS = frozenset(
    "second seconds minute minutes min mins hour hours hr hrs day days week weeks month months".split()
)
_RULES: dict[str, Rule] = {
    "do": _do_not, "dont": _dont, "don": _dont, "never": _never, "make": _make_sure,
    "careful": _careful,
    "watch": _watch, "mind": _watch, "keep": _keep, "wear": _wear, "most": _at_most, "no": _limit,
    "not": _not_too, "would": _would_not, "sure": _be_sure, "ease": _ease, "try": _not_to,
    **dict.fromkeys(("must", "ca", "can", "should"), _must_not), **dict.fromkeys(_ADVICE, _advice), "take": _take,
    "go": _take,
}  # fmt: skip
