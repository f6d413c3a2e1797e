"""What was seen and felt, each of a kind of the step record, in the maker's words.

A fault that is only feared ("or you get pinholes", "watch for bubbles", "if it cracks") was not seen. One that
is denied ("no voids") was looked for and not found, which is `good`.
"""

from __future__ import annotations

from journal.read.findings import Findings, Found, NoteWords, ObservationSaid
from journal.read.observation_words import BEING, HELPERS, HYPOTHETICAL, PARTICLES, PLACING, QUANTITIES, THINGS
from journal.read.phrase_ends import NEGATIONS, is_stop, sentence_end, word_at
from journal.read.praise import CAME, came_from
from journal.read.sightings import Sighting, sighting_at

_AFTER_STATE = frozenset({"still", "yet", "already", "now", "again"})
_SURFACES = frozenset({"coat", "gel", "laminate", "surface", "resin"})
_SO_MANY = frozenset("one another two three four some more others".split())
_OF_NONE = frozenset("sign signs of trace more visible real n't any see have get lose got find found at".split())
_MORE = frozenset({",", "and", "plus", "except", "also", "but"})
_AT_A_PLACE = frozenset("on in under at by along behind near around round beside inside".split())
_A_LITTLE = frozenset({"little", "bit", "touch"})
_SEEN = frozenset({"reasons.state", "reasons.left-out"})
"""Reasons that tell what was seen: "it's stuck solid" after "couldn't get it off"."""
_FARTHEST = 25
_LOOKS = frozenset("look see squint feel tap hold tilt shine".split())
_LINKS = frozenset({"and", "but", ",", "it", "a"})


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the observations in the note, kind "observation", with the place that was said with them."""
    barred = _barred(words, found)
    seen: list[Found] = []
    end = 0
    for at in range(len(words.lower)):
        if at < end or at in barred:
            continue
        sighting = sighting_at(words, at)
        item = _observation(words, found, sighting, end) if sighting else None
        if item is not None:
            seen.append(item)
            end = item.end
    return sorted(_merged(words, seen) + _others(words, found, seen), key=lambda item: item.start)


def _others(words: NoteWords, found: Findings, seen: list[Found]) -> list[Found]:
    """Return more of a fault told by number and place alone: "two bubbles in the left leg and one in the right"."""
    out: list[Found] = []
    for item in seen:
        kind = next((THINGS[word] for word in words.lower[item.start : item.end] if word in THINGS), None)
        last = sentence_end(words, item.end) if kind else item.end
        for at in range(item.end + 1, last):
            if any(other.start <= at < other.end for other in seen) or words.tags[at] == "VBD":
                break
            if words.lower[at] in _SO_MANY and words.lower[at - 1] in _MORE and word_at(words, at + 1) in _AT_A_PLACE:
                place = next((place for i in range(at + 1, at + 4) if (place := found.at("place", i))), None)
                if place is not None:
                    out.append(_found(words, at, place.end, kind or item.value.kind, "observations.another"))
    return out


def _barred(words: NoteWords, found: Findings) -> set[int]:
    """Return the tokens of questions, cues, warnings, old stories and reasons; a state that led to an act was seen."""
    return {
        token
        for item in found.of("question", "cue", "warning", "reason", "remembered", "aside")
        if item.rule not in _SEEN or _is_general(words, item)
        for token in range(item.start, item.end)
    }


def _is_general(words: NoteWords, reason: Found) -> bool:
    """Whether a state tells how things are, not what happened."""
    tags = words.tags[reason.start : reason.end]
    return "VBD" not in tags and "VBN" not in tags and HELPERS.isdisjoint(words.lower[reason.start : reason.end])


def _observation(words: NoteWords, found: Findings, seen: Sighting, reach: int) -> Found | None:
    """Return the finding for the sighting, grown over its words; or None where it is not a fact."""
    if _is_feared(words, seen, reach):
        return None
    if seen.rule == "thing" and found.at("material", seen.start):
        return None
    if seen.kind == "good" and _is_warned_of(words, found, seen):
        return None
    denied = _denied_from(words, seen.start, reach) if seen.rule != "undone" else None
    if seen.rule == "deniable" and (denied is None or not _is_plainly_denied(words, denied, seen)):
        return None
    kind = seen.kind if denied is None else _denied_kind(seen.kind)
    start = _grown_left(words, seen, reach) if denied is None else denied
    end = _grown_right(words, found, seen)
    return _found(words, start, end, kind, f"observations.{seen.rule}")


def _is_warned_of(words: NoteWords, found: Findings, seen: Sighting) -> bool:
    """Whether what sounds like praise is why to take care: "careful with that corner, it's sharp"."""
    at = seen.start - 1
    while at >= 0 and seen.start - at < 5 and not is_stop(words, at):
        if words.lower[at] == "," and found.at("warning", at - 1):
            return True
        at -= 1
    return False


def _found(words: NoteWords, start: int, end: int, kind: str, rule: str) -> Found:
    return Found("observation", start, end, ObservationSaid(kind, words.text(start, end)), rule, 0.85)


def _denied_kind(kind: str) -> str:
    """A fault that was not there is good; praise denied is a fault of no named kind."""
    return "other" if kind == "good" else "good"


def _denied_from(words: NoteWords, start: int, reach: int) -> int | None:
    """Return the token of the "no" or "not" that denies what stands at `start`, or None."""
    for i in range(start - 1, max(start - 5, reach - 1), -1):
        word = words.lower[i]
        if is_stop(words, i) or word in (",", "and", "but", "or"):
            return None
        if word in NEGATIONS or word == "zero" or (word == "free" and words.lower[i + 1] == "of"):
            return i - 1 if word == "n't" and i > reach else i
        if word == "nothing" and i == start - 1:
            return i
    return None


def _is_plainly_denied(words: NoteWords, denied: int, seen: Sighting) -> bool:
    """Whether nothing but "a", "sign of", "single" stands between "no" and the word, and no noun after it."""
    if words.tags[seen.end : seen.end + 1] in (("NN",), ("NNS",)) and word_at(words, seen.end) != "today":
        return False
    between = words.lower[denied + 1 : seen.start]
    return all(
        word in QUANTITIES or word in _OF_NONE or words.tags[denied + 1 + i] == "JJ" for i, word in enumerate(between)
    )


def _is_feared(words: NoteWords, seen: Sighting, reach: int) -> bool:
    """Whether what is named was not seen: asked for, feared, or what usually happens."""
    if _is_conditional(words, seen):
        return True
    for i in range(seen.start - 1, max(seen.start - 7, reach - 1), -1):
        word = words.lower[i]
        if is_stop(words, i) or (word == "," and seen.rule != "thing"):
            return False
        if (word in HYPOTHETICAL and not _is_told(words, i, seen)) or (word == "to" and words.tags[i + 1] == "VB"):
            return True
    return False


def _is_conditional(words: NoteWords, seen: Sighting) -> bool:
    """Whether the sentence opens with an "if" or "unless" that no look follows: "if it's cold it won't go off"."""
    at = seen.start
    while at > 0 and not is_stop(words, at - 1) and seen.start - at < _FARTHEST:
        at -= 1
    while word_at(words, at) in ("and", "but", "so", "because", "cos", ","):
        at += 1
    opens = word_at(words, at) in ("if", "unless") and at < seen.start
    return opens and _LOOKS.isdisjoint(words.lower[at : at + 5]) and "VBD" not in words.tags[at : seen.end]


def _is_told(words: NoteWords, at: int, seen: Sighting) -> bool:
    """Whether a word of fear or wish tells a fact here: "I can see a void", "when it came off a chip ..."."""
    word = words.lower[at]
    if word in ("look", "looking"):
        return words.lower[at + 1] == "at" or (word == "look" and "for" not in words.lower[at + 1 : seen.start])
    if word in ("can", "could", "ca"):
        return "see" in words.lower[at + 1 : seen.start + 2]
    if word in ("get", "going"):
        return word_at(words, at - 1) not in ("you", "will", "'ll", "to", "not")
    return (word == "when" and seen.rule == "thing") or (word == "would" and seen.rule == "saying")


def _grown_left(words: NoteWords, seen: Sighting, reach: int) -> int:
    """Return the start with what counts, sizes or softens before it, an article left out."""
    lower, start = words.lower, seen.start
    if seen.rule == "thing" or (seen.rule == "saying" and seen.kind != "good" and words.tags[start][0] in "NJV"):
        while start > reach and (
            lower[start - 1] in QUANTITIES or (words.tags[start - 1] == "JJ" and seen.rule == "thing")
        ):
            start -= 1
    else:
        came = came_from(words, start) if seen.kind == "good" or seen.rule == "state" else None
        if came is not None and came >= reach:
            return came
        while start > reach and (
            (lower[start - 1] in BEING and lower[start - 1] not in HELPERS) or _praises(seen, lower, start)
        ):
            start -= 1
    while start < seen.start and lower[start] in ("and", "a", "an", "the", "all"):
        if seen.rule == "state" and lower[start] == "a" and lower[start + 1] in _A_LITTLE:
            break
        start += 1
    return start


def _praises(seen: Sighting, lower: tuple[str, ...], start: int) -> bool:
    return seen.kind == "good" and seen.rule == "saying" and lower[start - 1] in CAME


def _grown_right(words: NoteWords, found: Findings, seen: Sighting) -> int:
    """Return the end with "a little", "still", and with the place or material that the words lead to."""
    end = seen.end
    if seen.rule == "event":
        if word_at(words, end) == "a" and word_at(words, end + 1) in _A_LITTLE:
            end += 2
        end += word_at(words, end) in PARTICLES
    if word_at(words, end) in _AFTER_STATE and seen.rule in ("state", "saying"):
        end += 1
    at = end
    while at < end + 5 and word_at(words, at) in PLACING and not found.at("place", at):
        at += 1
    place = found.at("place", at) or (found.at("material", at) if at > end else None)
    if place is not None and place.start >= end:
        return place.end
    if word_at(words, end) == "in" and word_at(words, end + 1) == "it" and seen.rule == "thing":
        return end + 2
    if at > end and word_at(words, at) in _SURFACES:
        return at + 2 if word_at(words, at + 1) == "coat" else at + 1
    return end


def _merged(words: NoteWords, seen: list[Found]) -> list[Found]:
    """Join neighbours of one kind that "and" or "but" joins ("got hot and smoked")."""
    out: list[Found] = []
    for item in seen:
        last = out[-1] if out else None
        if last and last.value.kind == item.value.kind and _are_linked(words, last.end, item.start):
            out[-1] = _found(words, last.start, item.end, item.value.kind, last.rule)
        else:
            out.append(item)
    return out


def _are_linked(words: NoteWords, end: int, start: int) -> bool:
    return start - end <= 4 and _LINKS.issuperset(words.lower[end:start])
