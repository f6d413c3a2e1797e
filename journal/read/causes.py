"""Reasons that nothing opens: what stopped an act that was left out, and what brought a fault about.

"Didn't degas, pump's on loan", "skipped the tissue, no time"; "pull 6 warped, demoulded too soon". Such a clause
is a reason only by what it follows: an act that was not done, or a fault.
"""

from __future__ import annotations

from collections.abc import Iterator

from journal.read.consequences import forbids
from journal.read.findings import Findings, Found, NoteWords
from journal.read.observation_words import EVENTS, STATES, THINGS
from journal.read.phrase_ends import (
    FINITE,
    NEGATIONS,
    is_act,
    is_stop,
    phrase,
    phrase_end,
    sentence_end,
    tag_at,
    word_at,
)

_DOERS = frozenset("i we he they 've".split())
_LEFT = frozenset("skipped skipping".split())
_COMING = frozenset("'ll will going gonna next tomorrow later after shall then".split())
_EVER = frozenset("nobody never ever".split())
_LACKING = frozenset("time room need point sense space call".split())
_THINKING = frozenset("think reckon suspect guess bet".split())
_OPENED = frozenset("because cos 'cause so since".split())
"""Markers that open the reason themselves: "I think BECAUSE I poured too fast"."""
_TOO_WHAT = frozenset("soon early fast quick quickly late thick thin hot cold long hard much heavy wet dry".split())
_NO_SUBJECT = frozenset("that this which what i we you".split())
_WANTING = frozenset("have need like want trust fancy see".split())
_FAULTS = (THINGS.keys() | EVENTS.keys() | STATES.keys()) - {
    "dry",
    "hot",
    "warm",
    "hard",
    "green",
    "thin",
    "split",
    "fly",
}
_AFTER_A_PAUSE = frozenset({",", "-", "–", "—"})


def bare_causes(words: NoteWords, found: Findings, taken: set[int]) -> list[Found]:
    """Return the reasons without a marker, kind "reason", outside of the tokens that are `taken`."""
    out: list[Found] = []
    start = 0
    while start < len(words.lower):
        end = sentence_end(words, start)
        cause = (
            _stopped(words, found, start, end)
            or _brought_about(words, start, end)
            or _comes_of_it(words, found, start, end)
        )
        if cause is not None:
            first, rule = cause
            last = phrase_end(words, first, first, reason=True)
            if last > first and taken.isdisjoint(range(first, last)):
                out.append(phrase(words, "reason", first, last, f"reasons.{rule}", 0.8))
        start = end + 1
    return out


def _stopped(words: NoteWords, found: Findings, start: int, end: int) -> tuple[int, str] | None:
    """What stopped an act: the clause after "haven't waxed it yet", "no tissue in this one", "skipped the wax"."""
    left = next((i for i in range(start, end) if _is_left_out(words, found, start, i)), None)
    if left is None:
        return None
    for at in _openings(words, left + 2, end):
        paused = words.lower[at - 1] in _AFTER_A_PAUSE
        if _lacks(words, at) or (paused and _too(words, at)):
            return at, "left-out"
        if (paused or words.lower[at - 1] in ("yet", "today", "tonight")) and _states(words, at, end):
            return at, "left-out"
    return None


def _comes_of_it(words: NoteWords, found: Findings, start: int, end: int) -> tuple[int, str] | None:
    """What comes of an act, as a short rule: "Do not vibrate too long. WATER COMES UP.", "fast pour makes bubble"."""
    if not 3 <= end - start <= 6 or _measured(found, start, end):
        return None
    verb = next((i for i in range(start + 1, end - 1) if words.tags[i] in ("VBZ", "VBP")), None)
    if verb is None or words.tags[start] not in ("NN", "NNS", "JJ", "NNP") or start == 0:
        return None
    if words.lower[verb] in ("makes", "causes", "gives"):
        faulty = any(words.lower[i] in _FAULTS for i in range(verb + 1, end))
        return (start, "consequence") if faulty else None
    state = words.doc[verb].lemma_ in ("be", "have", "look", "feel", "need", "want", "go", "sit", "weigh")
    return None if state or not forbids(words, start - 1) else (start, "consequence")


def _measured(found: Findings, start: int, end: int) -> bool:
    return any(start <= item.start < end for item in found.of("amount", "number", "duration"))


def _openings(words: NoteWords, at: int, end: int) -> Iterator[int]:
    """Yield the tokens at which a clause may open: after a pause first, then anywhere."""
    yield from (i for i in range(at, end) if words.lower[i - 1] in _AFTER_A_PAUSE or words.lower[i - 1] == "yet")
    yield from range(at, end)


def _is_left_out(words: NoteWords, found: Findings, start: int, at: int) -> bool:
    lower, word = words.lower, words.lower[at]
    if word in _LEFT or (word == "left" and not {"off", "out"}.isdisjoint(lower[at + 1 : at + 6])):
        return words.tags[at][0] == "V"
    if word == "no" and word_at(words, at + 1) != ",":
        named = found.at("material", at + 1) or found.at("layer", at + 1) or found.at("material", at + 2)
        return bool(named) or (word_at(words, at + 1).endswith("ing") and is_act(words, at + 1))
    if word not in NEGATIONS - {"without", "no"}:
        return False
    verb = at + 1
    while verb < at + 4 and (
        tag_at(words, verb) == "RB" or word_at(words, verb) in ("bother", "bothered", "been", "yet", "post", "-")
    ):
        verb += 1
    if verb >= len(lower) or not is_act(words, verb):
        return False
    doer = at - 2 if word == "n't" else at - 1
    if word == "never" or lower[at - 1] == "do":  # "never lift it", "don't lift it"
        return word == "never" and doer >= start and lower[doer] in _DOERS
    return (
        doer < start
        or lower[doer] in _DOERS
        or lower[doer] in (",", "and", "but", "so", "yep")
        or "been" in lower[at:verb]
    )


def _lacks(words: NoteWords, at: int) -> bool:
    """ "Ran out", "out of paper", "waiting on the oven", "no time", "no paper left", "we've no bleeder"."""
    lower, word = words.lower, words.lower[at]
    if word in ("i", "we") and at + 2 < len(lower):
        helper = lower[at + 1]
        ran = helper in ("ran", "'m", "'re", "are", "'ve", "am") and "out" in lower[at + 2 : at + 4]
        denied = lower[at + 1 : at + 3] in (("do", "n't"), ("did", "n't")) and word_at(words, at + 3) in _WANTING
        return ran or denied or (helper in ("have", "had", "'ve", "'d") and lower[at + 2] == "no")
    if word in ("ran", "run") and word_at(words, at + 1) == "out":
        return word_at(words, at - 1) not in ("i", "we", "'ve", "have")
    if word == "no":
        return word_at(words, at + 1) in _LACKING or "left" in lower[at + 2 : at + 4]
    return lower[at : at + 2] in (("out", "of"), ("short", "of"), ("waiting", "for"), ("waiting", "on")) and (
        lower[at - 1] in _AFTER_A_PAUSE or word == "waiting"
    )


def _too(words: NoteWords, at: int) -> bool:
    return (
        words.lower[at] == "too"
        and tag_at(words, at + 1) in ("JJ", "RB")
        and words.lower[at + 1] not in ("much", "many")
    )


def _states(words: NoteWords, at: int, end: int) -> bool:
    """Whether a clause tells how things are: "pump's on loan", "gun wants stripping", not what was done instead."""
    if (
        words.tags[at] not in ("PRP", "PRP$", "DT", "NN", "NNS", "NNP", "JJ", "EX", "CD")
        or words.lower[at] in _NO_SUBJECT
    ):
        return words.lower[at] in ("nobody", "nothing") and at + 1 < end
    verb = next((i for i in range(at + 1, min(at + 6, end)) if words.tags[i] in FINITE or _is(words, i)), None)
    if verb is None or words.lower[verb] == ",":
        return False
    clause = words.lower[at : min(end, at + 12)]
    clause = clause[: clause.index(",")] if "," in clause else clause
    if not _COMING.isdisjoint(clause) and _EVER.isdisjoint(clause):
        return False
    if words.tags[verb] == "VBD" and words.doc[verb].lemma_ not in ("be", "have"):
        return False
    after = verb + 1
    while tag_at(words, after) == "RB" or word_at(words, after) == "been":
        after += 1
    done = tag_at(words, after) in ("VBN", "VBD") and is_act(words, after)
    return not done and word_at(words, after) not in ("done", "ready", "next", "fine", "all", "perfect", "good")


def _is(words: NoteWords, at: int) -> bool:
    return (
        words.lower[at] == "'s" and words.tags[at] in ("POS", "VBZ") and tag_at(words, at + 1) not in ("NN", "NNS", "")
    )


def _brought_about(words: NoteWords, start: int, end: int) -> tuple[int, str] | None:
    """What brought a fault about: "warped, demoulded too soon", "void under the nose, I reckon I poured too fast"."""
    fault = next((i for i in range(start, end) if words.lower[i] in _FAULTS and word_at(words, i - 1) != "no"), None)
    if fault is None:
        return None
    for at in range(fault + 1, end):
        paused = words.lower[at - 1] in _AFTER_A_PAUSE
        if paused and (_supposes(words, at) or _overdone(words, at, end) or _left_undone(words, at)):
            return at, "fault"
        if _too(words, at) and (paused or (at > fault + 2 and _cooled(words, at))):
            return at, "fault"
        placed = not {"on", "in", "at", "by", "of"}.isdisjoint(words.lower[max(at - 3, fault) : at])
        unpaused = at > fault + 1 and words.tags[at - 1] in ("NN", "NNS") and not paused and placed
        if unpaused and words.lower[at] == "did" and _left_undone(words, at):
            return at, "fault"
    return None


def is_faulty(words: NoteWords, end: int) -> bool:
    """Return whether a fault is named in the sentence before the token."""
    at = end - 1
    while at >= 0 and end - at < 16 and not is_stop(words, at):
        if words.lower[at] in _FAULTS and word_at(words, at - 1) != "no":
            return True
        at -= 1
    return False


def _cooled(words: NoteWords, at: int) -> bool:
    return words.tags[at - 1] in ("VBD", "VBN", "NN") and words.lower[at + 2 : at + 3] in (
        ("across",),
        ("there",),
        ("at",),
    )


def _supposes(words: NoteWords, at: int) -> bool:
    lower = words.lower
    if lower[at] in ("i", "we"):
        opened = word_at(words, at + 2) in _OPENED
        return word_at(words, at + 1) in _THINKING and not opened and not is_stop(words, min(at + 2, len(lower) - 1))
    if lower[at] == "must":
        return word_at(words, at + 1) in ("have", "'ve", "of", "be")
    return lower[at] in ("probably", "presumably")


def _overdone(words: NoteWords, at: int, end: int) -> bool:
    """ "Demoulded it too soon", "taken out too early"."""
    clause = words.lower[at : min(end, at + 8)]
    clause = clause[: clause.index(",")] if "," in clause else clause
    if words.tags[at] not in ("VBD", "VBN") or "too" not in clause[:-1]:
        return False
    return clause[clause.index("too") + 1] in _TOO_WHAT


def _left_undone(words: NoteWords, at: int) -> bool:
    """ "Missed a bit of wax", "didn't stir the sides in", "forgot the release"."""
    if words.lower[at] in ("missed", "forgot", "skipped"):
        return at + 1 < len(words.lower)
    verb = at + 2
    return (
        words.lower[at : at + 1] == ("did",)
        and word_at(words, at + 1) in NEGATIONS
        and verb < len(words.lower)
        and (is_act(words, verb) or words.lower[verb] in ("let", "leave", "wait"))
    )
