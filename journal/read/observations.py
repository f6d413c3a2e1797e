"""What was seen and felt, each of a kind of the step record, in the maker's words.

A fault that is only feared ("or you get pinholes", "watch for bubbles", "if it cracks") was not seen. One that
is denied ("no voids") was looked for and not found, which is `good`.
"""

from __future__ import annotations

from functools import cache

from journal.read.findings import Findings, Found, NoteWords, ObservationSaid
from journal.read.observation_words import (
    ATTRIBUTE_OF,
    BEING,
    CAME,
    CAME_WITH,
    EVENTS,
    GOOD,
    HYPOTHETICAL,
    QUANTITIES,
    SAYINGS,
    STATES,
    STRONG_GOOD,
    UNDONE,
    UNDONE_THEN,
    THINGS,
    WORKED_OUT,
)  # fmt: skip
from journal.read.phrase_ends import NEGATIONS, is_stop

_Seen = tuple[int, int, str, str]
"""First token, end, kind, rule."""

_FEARED = ("reasons.so", "reasons.so-that", "reasons.or", "reasons.or-else", "reasons.otherwise", "reasons.purpose",
           "reasons.in-case", "reasons.so-as-to", "reasons.lest", "reasons.that-way", "reasons.that-helps")  # fmt: skip
_PLACING = frozenset("on in under at along by near behind around round over across inside underneath beneath between all of from"
                     " off out the a to up down away back open through".split())  # fmt: skip
_AFTER_STATE = frozenset({"still", "yet", "already", "now", "again"})
_DENYING = frozenset("did does has have had is was were are would wo could ca 's ’s still".split())
_HELPERS = frozenset({"'s", "’s", "is", "are", "was", "were", "be", "been"})


@cache
def _sayings() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    """SAYINGS by their first word, the longest first."""
    table: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for saying, kind in SAYINGS.items():
        first, *rest = saying.split()
        table.setdefault(first, []).append((tuple(rest), kind))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the observations in the note, kind "observation", with the place that was said with them."""
    sayings = _sayings()
    barred = _barred(words, found)
    seen: list[Found] = []
    end = 0
    for at, word in enumerate(words.lower):
        if at < end or at in barred:
            continue
        spot = _saying(words, at, sayings[word]) if word in sayings else None
        spot = spot or _single(words, at, word)
        if spot is None:
            continue
        item = _observation(words, found, spot, end)
        if item is not None:
            seen.append(item)
            end = item.end
    return _merged(words, seen)


def _word(words: NoteWords, at: int) -> str:
    return words.lower[at] if 0 <= at < len(words.lower) else ""


def _tag(words: NoteWords, at: int) -> str:
    return words.tags[at] if 0 <= at < len(words.tags) else ""


def _barred(words: NoteWords, found: Findings) -> set[int]:
    """Return the tokens of questions, cues, warnings, and reasons that tell of what is feared."""
    return {
        token
        for item in found.of("question", "cue", "warning", "reason")
        if item.kind != "reason" or item.rule in _FEARED
        for token in range(item.start, item.end)
    }


def _saying(words: NoteWords, at: int, entries: list[tuple[tuple[str, ...], str]]) -> _Seen | None:
    for rest, kind in entries:
        end = _matches(words.lower, at + 1, rest)
        if end is not None:
            return at, end, kind, "saying"
    return None


def _matches(lower: tuple[str, ...], at: int, rest: tuple[str, ...]) -> int | None:
    """Return the end of the words of a saying from `at`, a star being up to two words; or None."""
    if "*" not in rest:
        return at + len(rest) if lower[at : at + len(rest)] == rest else None
    star = rest.index("*")
    if lower[at : at + star] != rest[:star]:
        return None
    tail = rest[star + 1 :]
    for skipped in range(3):
        start = at + star + skipped
        if lower[start : start + len(tail)] == tail:
            return start + len(tail)
    return None


def _single(words: NoteWords, at: int, word: str) -> _Seen | None:
    tag = words.tags[at]
    if word in UNDONE and (undone := _undone(words, at, UNDONE[word])):
        return undone
    if word in GOOD:
        return _good(words, at)
    if word in STATES and (spot := _state(words, at, STATES[word])):
        return spot
    if word in EVENTS and (tag[0] == "V" or _word(words, at - 1) in _HELPERS) and _happened(words, at):
        return at, at + 1, EVENTS[word], "event"
    if word in THINGS and tag[0] in "NJV" and _is_thing(words, at):
        return at, at + 1, THINGS[word], "thing"
    return None


def _undone(words: NoteWords, at: int, kind: str) -> _Seen | None:
    """ "it wasn't quite cured", "never set", "wouldn't budge": a fault by being denied of the thing."""
    i = at - 1
    while i >= 0 and at - i < 4 and words.tags[i] in ("RB", "VBN", "VB") and words.lower[i] not in NEGATIONS:
        i -= 1
    if i < 1 or words.lower[i] not in NEGATIONS or words.lower[i] in ("no", "without"):
        return None
    start = i - 1 if words.lower[i] != "never" and words.lower[i - 1] in _DENYING else i
    if start == i and words.lower[i] != "never" or _word(words, start - 1) in ("i", "we", "you"):
        return None
    if words.lower[at] in ("go", "gone") and _word(words, at + 1) != "off":
        return None
    end = at + 1
    while _word(words, end) in UNDONE_THEN and end < at + 4:
        end += 1
    return start, end, kind, "undone"


def _is_thing(words: NoteWords, at: int) -> bool:
    """Whether a fault's noun names a fault: not "chip brush", "hole saw", nor what was drilled or worked out."""
    if _tag(words, at + 1) in ("NN", "NNS", "NNP") or words.tags[at] in ("VB", "VBP", "VBD", "VBG"):
        return words.tags[at] == "VBG" and _word(words, at) in THINGS and _tag(words, at + 1) not in ("DT", "PRP")
    if THINGS[words.lower[at]] in ("other", "dust", "void", "warp", "exotherm") and not _counted(words, at):
        return words.lower[at] in ("void", "voids", "dust", "grit", "lint", "smoke")
    return not _worked_out(words, at)


def _counted(words: NoteWords, at: int) -> bool:
    before = _word(words, at - 1)
    return before in QUANTITIES - {"the"} or before in NEGATIONS or _tag(words, at - 1) == "JJ"


def _worked_out(words: NoteWords, at: int) -> bool:
    """Whether the bubbles or the dust were the object of getting rid of them."""
    for i in range(at - 1, max(at - 6, -1), -1):
        if is_stop(words, i) or words.lower[i] == ",":
            return False
        if words.lower[i] in WORKED_OUT:
            return True
    return False


def _happened(words: NoteWords, at: int) -> bool:
    """Whether an event's verb tells what the thing did, not what the maker did to it."""
    word, before = words.lower[at], _word(words, at - 1)
    if before in ("i", "we", "to", "you", "and") and before != "and":
        return False
    if _word(words, at + 1) in ("the", "it", "a", "them") and word not in (
        "tore",
        "cracked",
        "chipped",
        "stuck",
        "bridged",
    ):
        return False
    if word in (
        "split",
        "lifted",
        "peeled",
        "ran",
        "drained",
        "stained",
        "slid",
        "boiled",
        "twisted",
        "locked",
        "grabbed",
    ):
        return _tag(words, at - 1) in ("NN", "NNS", "PRP", "VBZ", "VBP", "VBD") and before not in ("i", "we", "you")
    if word == "stuck" and _word(words, at + 1) in ("a", "the", "some", "two", "it"):
        return False
    return True


def _state(words: NoteWords, at: int, kind: str) -> _Seen | None:
    """An adjective of state: after a verb of being, alone between stops, or before "spot", "patch"."""
    after, before = _word(words, at + 1), _word(words, at - 1)
    if after in ATTRIBUTE_OF:
        return at, at + 2, kind, "state"
    if _tag(words, at + 1) in ("NN", "NNS", "NNP") and after not in ("today", "tonight"):
        return None
    alone = at == 0 or is_stop(words, at - 1) or before in (",", "and", "but")
    if not (before in BEING or alone or before in NEGATIONS) or before == "a":
        return None
    weak = kind in ("exotherm", "other", "dry glass") or words.lower[at] in (
        "soft",
        "yellow",
        "brown",
        "amber",
        "green",
        "rubbery",
        "chalky",
    )
    if weak and not _of_the_work(words, at):
        return None
    return at, at + 1, kind, "state"


def _of_the_work(words: NoteWords, at: int) -> bool:
    """Whether a word that may say anything ("hot", "dry", "thin") is said of the work, as a fault."""
    word = words.lower[at]
    clause = words.lower[max(at - 7, 0) : at]
    if word in ("hot", "warm"):
        return bool({"batch", "pot", "resin", "mix", "cup", "it", "laminate", "lot", "bucket"} & set(clause)) and bool(
            {"got", "getting", "gets", "going", "went", "bit", "very", "really", "too"} & set(clause)
        )
    if word in ("dry", "thin", "proud", "runny"):
        return bool({"bit", "too", "little", "patchy", "looks", "looked"} & set(clause)) or _word(words, at + 1) in (
            "around",
            "round",
            "by",
            "near",
        )
    return bool({"still", "bit", "too", "gone", "went", "going", "little", "slightly", "turned", "is", "'s", "’s", "was", "feels", "felt",
                 "quite", "looks", "stayed", "are", "were", "very", "got"} & set(clause)) or at == 0  # fmt: skip


def _good(words: NoteWords, at: int) -> _Seen | None:
    """ "came out lovely", "looks spot on", "it's perfect"; not "a good stir" nor "good to go now"."""
    if (
        _tag(words, at + 1) in ("NN", "NNS", "NNP", "VBG")
        or (_word(words, at + 1) in ("and",)
        and _tag(words, at + 2) in ("NN",))
    ):
        return None
    i = at - 1
    while (
        i >= 0 and at - i < 6 and words.lower[i] not in CAME and (words.lower[i] in CAME_WITH or words.lower[i] in GOOD)
    ):
        i -= 1
    if i >= 0 and words.lower[i] in CAME:
        return i, at + 1, "good", "good"
    being = _word(words, i)
    if words.lower[at] in STRONG_GOOD and being in ("'s", "’s", "is", "was", "were", "are") and at - i < 5:
        return (
            (i + 1, at + 1, "good", "good") if _word(words, at + 1) not in ("to", "for", "enough", "practice") else None
        )
    if words.lower[at] in ("nicely", "beautifully", "lovely", "perfectly", "cleanly", "brilliantly") and _tag(
        words, at - 1
    )[:1] in ("V", "R", "I"):
        return max(at - 2, 0) if _tag(words, at - 1) in ("RP", "IN", "RB") else at - 1, at + 1, "good", "good"
    alone = (at == 0 or is_stop(words, at - 1)) and (
        at + 1 == len(words.lower) or is_stop(words, at + 1) or words.lower[at + 1] == ","
    )
    return (at, at + 1, "good", "good") if alone and words.lower[at] in STRONG_GOOD - {"good", "great"} else None


def _observation(words: NoteWords, found: Findings, spot: _Seen, reach: int) -> Found | None:
    """Return the finding for what stands at the spot, grown over its words; or None where it is not a fact."""
    start, end, kind, rule = spot
    denied = _denied_from(words, start, reach) if rule != "undone" else None
    if _feared(words, start, reach, rule):
        return None
    if denied is not None:
        if kind in ("good", "soft") and rule in ("saying", "good"):
            kind = "other" if kind == "good" and _word(words, start) not in ("no", "did", "tack") else kind
        elif kind != "good":
            kind = "good"
        start = denied
    else:
        start = _grown_left(words, start, reach, rule, kind)
    end = _grown_right(words, found, end, rule)
    return Found(
        "observation", start, end, ObservationSaid(kind, words.doc[start:end].text), f"observations.{rule}", 0.85
    )


def _denied_from(words: NoteWords, start: int, reach: int) -> int | None:
    """Return the token of the "no" or "not" that denies what stands at the spot, or None."""
    for i in range(start - 1, max(start - 5, reach - 1), -1):
        word = words.lower[i]
        if is_stop(words, i) or word in (",", "and", "but", "or"):
            return None
        if word in NEGATIONS or (word in ("free", "zero") and words.lower[i + 1] in ("of",)):
            helper = _word(words, i - 1) in (
                "did",
                "does",
                "is",
                "was",
                "has",
                "do",
                "are",
                "have",
                "would",
                "could",
                "ca",
            )
            return i - 1 if helper and word in ("n't", "n’t", "not") else i
    return None


def _feared(words: NoteWords, start: int, reach: int, rule: str) -> bool:
    """Whether what is named was not seen: asked for, feared, or what usually happens."""
    for i in range(start - 1, max(start - 7, reach - 1), -1):
        word = words.lower[i]
        if is_stop(words, i) or (word == "," and rule != "thing"):
            return False
        if word in HYPOTHETICAL:
            if (word in ("can", "could", "ca") and "see" in words.lower[i + 1 : start + 2]) or word == "look":
                continue
            if (word == "when" and rule == "thing") or (word in ("would", "wo") and rule == "saying"):
                continue
            if word in ("get", "going") and words.lower[i - 1] not in ("you", "will", "'ll", "to", "not"):
                continue
            return True
        if word == "to" and words.tags[i + 1] == "VB":
            return True
    return False


def _grown_left(words: NoteWords, start: int, reach: int, rule: str, kind: str) -> int:
    """Return the start with what counts, sizes or softens before it, an article left out."""
    if rule == "thing" or (rule == "saying" and kind != "good" and _tag(words, start)[:1] in ("N", "J", "V")):
        while start > reach and (
            words.lower[start - 1] in QUANTITIES or (words.tags[start - 1] == "JJ" and rule == "thing")
        ):
            start -= 1
        while words.lower[start] in ("a", "an", "the"):
            start += 1
        return start
    before = BEING - _HELPERS | (CAME if kind == "good" else frozenset())
    while start > reach and words.lower[start - 1] in before:
        start -= 1
    while words.lower[start] in ("and", "a", "all"):
        start += 1
    return start


def _grown_right(words: NoteWords, found: Findings, end: int, rule: str) -> int:
    """Return the end with "still" and with the place or material that the words lead to."""
    if _word(words, end) in _AFTER_STATE and rule in ("state", "saying"):
        end += 1
    at = end
    while at < end + 5 and _word(words, at) in _PLACING and not found.at("place", at):
        at += 1
    if at > end or found.at("place", at):
        place = found.at("place", at) or found.at("material", at)
        if place is not None and place.start >= end:
            return place.end
        if _word(words, at) in ("coat", "gel", "laminate", "surface", "resin") and _word(words, at - 1) in (
            "the",
            "in",
        ):
            return at + 2 if _word(words, at + 1) == "coat" else at + 1
    return end


def _merged(words: NoteWords, seen: list[Found]) -> list[Found]:
    """Join neighbours of one kind that "and" or "but" joins ("got hot and smoked")."""
    out: list[Found] = []
    for item in seen:
        last = out[-1] if out else None
        if last and last.value.kind == item.value.kind and _linked(words, last.end, item.start):
            text = words.doc[last.start : item.end].text
            out[-1] = Found(
                "observation", last.start, item.end, ObservationSaid(item.value.kind, text), last.rule, last.confidence
            )  # fmt: skip
        else:
            out.append(item)
    return out


def _linked(words: NoteWords, end: int, start: int) -> bool:
    between = set(words.lower[end:start])
    return start - end <= 4 and bool(between) and between <= {"and", "but", ",", "it", "a"}
