"""Why a thing was done, and what comes of not doing it, in the words that the maker used.

One look-up a word: a word that may open a reason is handed to the rule for it, which decides from the
words around it. "So I mixed ..." goes on with the story and is no reason.
"""

from __future__ import annotations

from journal.read.causes import bare_causes, is_faulty
from journal.read.consequences import any_more, consequence, forbids, if_then, lest, one_slip, or_else, or_it, otherwise
from journal.read.findings import Findings, Found, NoteWords
from journal.read.openings import Opening, Rule, opened_phrases
from journal.read.phrase_ends import (
    SUBJECTS,
    phrase_end,
    starts_clause,
    tag_at,
    word_at,
)
from journal.read.purposes import is_purpose
from journal.read.so_clauses import so_reason, subject_verb

_SINCE_TIMES = frozenset(
    "yesterday then last this the monday tuesday wednesday thursday friday saturday sunday breakfast"
    " lunch about half noon midnight before early".split()
)
_BENEFITS = frozenset(
    "strength stiffness grip adhesion safety support rigidity flexibility durability luck key bond finish"
    " release detail insurance protection ease demoulding handling".split()
)
_SOMEONE = frozenset("i we he she they somebody someone".split())
_SLIPS = frozenset("missed forgot rushed skimped touched caught knocked dropped slipped leaned leant pressed".split())
_WORSENS = frozenset("runs run spreads spread splits split tears tear rips rip rusts grows gets".split())
_HELPING = frozenset(
    "stops helps keeps prevents lets saves gives makes avoids stopped helped pushes draws pulls forces drives".split()
)


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the reasons in the note, kind "reason", each with its marker ("so that ...", "or you ...")."""
    barred = found.of("question", "remembered")
    opened = opened_phrases(words, "reason", _RULES, barred, _end)
    taken = {token for item in [*opened, *barred] for token in range(item.start, item.end)}
    return sorted([*opened, *bare_causes(words, found, taken)], key=lambda item: item.start)


def _end(words: NoteWords, start: int, body: int, rule: str) -> int:
    return body if rule in ("state", "after-all") else phrase_end(words, start, body, reason=True)


def _because(words: NoteWords, at: int) -> Opening:
    start = at - 1 if word_at(words, at - 1) in ("just", "only", "mainly", "partly") else at
    return start, at + 1, "because"


def _cause(words: NoteWords, at: int) -> Opening:
    if tag_at(words, at - 1) in ("DT", "JJ", "PRP$", "TO", "MD", "NN", "PRP"):
        return None
    return (at, at + 1, "because") if word_at(words, at + 1) in SUBJECTS or tag_at(words, at + 1) == "DT" else None


def _on(words: NoteWords, at: int) -> Opening:
    """ "On account of the heat"."""
    return (at, at + 3, "account") if words.lower[at + 1 : at + 3] == ("account", "of") else None


def _given(words: NoteWords, at: int) -> Opening:
    if word_at(words, at + 1) not in ("the", "that", "how", "this") or tag_at(words, at - 1) in ("VBD", "VBP", "PRP"):
        return None
    return at, at + 1, "given"


def _where(words: NoteWords, at: int) -> Opening:
    """ "Where the roller can't get", "where it always cracks": why there."""
    verb = subject_verb(words, at + 1)
    if verb is None or tag_at(words, at - 1) in ("VBP", "VB", "VBD", "VBZ"):
        return None
    told = words.lower[at + 1 : verb + 3]
    if _is_slip(words, at, verb):
        return at, at + 1, "where"
    barred = words.tags[verb] == "MD" and not {"n't", "not", "never"}.isdisjoint(told)
    return (at, at + 1, "where") if barred or "always" in told else None


def _is_slip(words: NoteWords, at: int, verb: int) -> bool:
    """ "A tear where I pulled too hard", "fisheyes where somebody's been at it": what did it, after a fault."""
    if word_at(words, at + 1) not in _SOMEONE or not is_faulty(words, at):
        return False
    clause = words.lower[verb : at + 10]
    return "too" in clause or not {"n't", "not", "never", "been"}.isdisjoint(clause) or words.lower[verb] in _SLIPS


def _the_way(words: NoteWords, at: int) -> Opening:
    """ "The way it wouldn't run off the nose", as so that."""
    verb = subject_verb(words, at + 1) if word_at(words, at - 1) == "the" else None
    if verb is None or words.tags[verb] != "MD" or tag_at(words, at - 2) in ("IN", "") or words.lower[verb] == "can":
        return None
    return at - 1, at + 1, "that-way"


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
    if after == "'s" and word_at(words, at + 2) in ("how", "why", "when") and at and forbids(words, at - 1):
        return at, at + 3, "consequence"
    if tag_at(words, at + 2) == "CD":  # "that makes nine"
        return None
    if after in ("gives", "leaves") and "CD" in words.tags[at + 2 : at + 8]:  # "that gives me fifteen minutes"
        return None
    helps = after in _HELPING and at + 2 < len(words.lower)
    return (at, at + 1, "that-helps") if helps else consequence(words, at)


def _wish(words: NoteWords, at: int) -> Opening:
    """ "the customer wants it clear", as why a thing is left out."""
    if "so" in words.lower[max(at - 2, 0) : at]:
        return None
    return (at, at + 2, "wish") if word_at(words, at + 1) in ("wants", "wanted", "asked", "likes") else None


def _reason(words: NoteWords, at: int) -> Opening:
    """ "the reason I use tissue first is it stops the weave printing"."""
    for be in range(at + 1, min(at + 10, len(words.lower) - 2)):
        if words.lower[be] in ("is", "was", "'s", "being"):
            body = be + 1
            return None if words.lower[body] in ("because", "cos", "that", "to") else (body, body + 1, "reason-is")
    return None


def _which(words: NoteWords, at: int) -> Opening:
    return (at, at + 1, "that-helps") if word_at(words, at + 1) in _HELPING else None


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
    told = subject_verb(words, at + 1) is not None or _is_shortened(words, at + 1)
    return (at, at + 1, "since") if told else None


def _is_shortened(words: NoteWords, at: int) -> bool:
    """Whether the "'s" of the clause was tagged as a possessive: "since the pump's low on oil"."""
    pieces = range(at + 1, min(at + 5, len(words.lower) - 1))
    states = ("JJ", "VBN", "RB", "VBG", "IN")
    return any(words.tags[i] == "POS" and tag_at(words, i + 1) in states for i in pieces)


def _timed(words: NoteWords, at: int) -> bool:
    return words.lower[at].rstrip("s") in ("hour", "minute", "day", "week", "while", "month", "age", "year", "half")


def _as(words: NoteWords, at: int) -> Opening:
    """ "as it was still tacky": a state, so a reason; "as it was curing" is a time."""
    if not _alone(words, at) or (
        word_at(words, at + 1) in ("a", "an")
        and tag_at(words, at + 2) in ("NN", "JJ")
        and word_at(words, at - 1) != ","
    ):
        return None
    verb = subject_verb(words, at + 1)
    if verb is None and tag_at(words, at + 1) == "DT" and _is_shortened(words, at + 1):
        return at, at + 1, "as"  # "as the plaster's thirsty"
    if verb is not None and word_at(words, at - 1) == "," and words.tags[at + 1] in ("NN", "NNS", "JJ"):
        return (at, at + 1, "as") if words.tags[verb] in ("VBZ", "VBP") else None
    if verb is None or tag_at(words, at + 1) not in ("PRP", "DT", "EX", "PRP$"):
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


def _before(words: NoteWords, at: int) -> Opening:
    """ "Before it runs", "before they get any worse": what the haste is for."""
    worse = word_at(words, at + 1) in ("it", "they") and word_at(words, at + 2) in _WORSENS
    return (at, at + 1, "before") if worse else None


def _for(words: NoteWords, at: int) -> Opening:
    """ "for extra strength", "for a better key"."""
    for i in range(at + 1, min(at + 5, len(words.lower))):
        if words.lower[i] in _BENEFITS and tag_at(words, i + 1) not in ("NN", "NNS"):
            return (at, i, "benefit") if words.lower[i] != "release" or i > at + 1 else None
        if tag_at(words, i - 1) == "JJR" and tag_at(words, i) == "NN" and "CD" not in words.tags[at:i]:
            return at, i, "benefit"
        if words.tags[i] not in ("DT", "JJ", "JJR", "RBR", "RB", "NN", "PDT"):
            return None
    return None


_RULES: dict[str, Rule] = {
    **dict.fromkeys(("because", "'cause", "cos", "coz", "cuz", "'cos"), _because),
    "cause": _cause, "otherwise": otherwise, "in": _in_case, "due": _due, "that": _that, "which": _which,
    "or": or_else, "to": _to, "so": so_reason, "since": _since, "as": _as, "seeing": _seeing, "for": _for,
    **dict.fromkeys(("it", "they", "you", "she", "he"), consequence), "else": or_it, "on": _on, "given": _given,
    "where": _where, "before": _before, "way": _the_way, "lest": lest, "any": any_more, "one": one_slip,
    "reason": _reason, "customer": _wish, "client": _wish, "if": if_then,
}  # fmt: skip
