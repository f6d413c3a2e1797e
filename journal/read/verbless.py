"""What the words of a clause without a verb of the trade tell of its act: "no tissue in this one", "tissue next"."""

from __future__ import annotations

from itertools import pairwise

from journal.read.findings import NoteWords
from journal.read.moments import resolve
from journal.read.segments import Clause
from journal.read.senses import verb_forms
from journal.read.status_words import ADVISED, DROPPED, FACT_PLANNED, HABITS, LATER, NOT_DONE, TO_YOU, says
from journal.record import Status

_LAID = frozenset("on in down done went up over finished started was".split())
_BIDDING = frozenset("keep mind watch go".split())
_SHORT = 5
_CALLED_OFF = frozenset("cancelled canceled scrapped abandoned aborted".split())
_AHEAD = frozenset("'ll will pending postponed deferred delayed rescheduled outstanding booked".split())
_SIDE = frozenset("where because which".split())
_READY = (("good",), ("ready",), ("set",), ("fit",), ("safe",))
_GOING = frozenset("going goes comes".split())
_LACKING = frozenset("no without none minus sans".split())
_LED_BY = frozenset(", and but just still so with there 's there's got had only - – — ;".split())
_LIMITS = frozenset(
    ", sorry wait hang hold make i it that actually "
    "more less thicker thinner longer later rush problem problems bother need time idea doubt way".split()
)
_IN_PLACE = frozenset("on in down out off up over round through done finished started back there".split())
_BARE = frozenset("still left is are was 's 're".split())
_LEAVING = frozenset("leave leaving".split())
_WANTING = frozenset("wants needs takes".split())
_MORE = frozenset("another next second third fourth fifth last final more rest other".split())
_ONCE = frozenset("once when as soon after".split())
_MEALS = frozenset("lunch dinner tea breakfast break".split())
_ALONG = (("goes", "on"), ("going", "on"), ("going", "over"), ("goes", "over"))


def status_of_facts(words: NoteWords, clause: Clause, before: Clause | None) -> Status:
    """Return the status of a clause without a verb of the trade: "no tissue in this one"."""
    told = {i for item in clause.of("reason") + clause.of("cue") for i in range(item.start, item.end)}
    where = next((i for i in range(clause.start + 1, clause.end) if words.lower[i] in _SIDE), clause.end)
    span = tuple(words.lower[i] for i in range(clause.start, where) if i not in told) or ("",)
    said = " ".join(span)
    if clause.act is None and clause.of("warning"):
        return "advised"
    if _is_without(words, clause) or _is_left_out(words, clause) or _is_called_off(span, said):
        return "not done"
    if before is not None and before.act is None and before.status in ("planned", "advised"):
        return before.status
    own = _own_status(clause, span, said)
    if own is not None:
        return own
    if before is not None and before.status != "not done":
        return before.status
    return "planned" if _is_later(clause, span) or _is_ahead(words, clause) else "done"


def _own_status(clause: Clause, span: tuple[str, ...], said: str) -> Status | None:
    """Return what the clause's own words tell, whatever stands before it."""
    if span[0] in _BIDDING and clause.of("reason"):
        return "advised"  # "keep the first coat thin or it sags"
    if "you" in span and "before" in span and not _WANTING.isdisjoint(span):
        return "advised"  # "it needs a week before you put it in the sun"
    if "you" in span and says(said, TO_YOU) and not says(said, ("to see", "to hear")):
        return "advised"
    if span[:2] == ("next", ",") or not _AHEAD.isdisjoint(span) or says(said, FACT_PLANNED):
        return "planned"
    if (
        says(said, ADVISED)
        or not HABITS.isdisjoint(span)
        or "never" in span
        or ("minimum" in span and clause.of("layer"))
    ):
        return "advised"
    if not _MORE.isdisjoint(span[:3]) and (_waits_for(clause) or _is_next(clause, span)):
        return "planned"
    if "another" not in span:
        return None
    waits = clause.of("duration") and "another" in span[:2] and len(span) <= _SHORT and not clause.of("layer")
    return "planned" if waits or _is_on_a_day(span) else None


def _waits_for(clause: Clause) -> bool:
    """Tell whether something is awaited first: "another coat ONCE THAT'S GONE CLEAR"."""
    return any(item.value.text.partition(" ")[0].lower() in _ONCE for item in clause.of("cue"))


def _is_next(clause: Clause, span: tuple[str, ...]) -> bool:
    """Tell whether one more is on its way: "second one goes on in about an hour", "the next in fifteen minutes"."""
    ahead = clause.of("duration") and "in" in span and not clause.of("observation")
    return bool(ahead) or not set(_ALONG).isdisjoint(pairwise(span))


def _is_on_a_day(span: tuple[str, ...]) -> bool:
    return any(one == "on" and two in LATER for one, two in pairwise(span))


def _is_later(clause: Clause, span: tuple[str, ...]) -> bool:
    """Tell whether the clause says that something is still to come, or when."""
    next_up = span[-1:] == ("next",) or bool(clause.of("moment") and span[0] == "next")
    to_go = span[-2:] == ("to", "go") and span[-3:-2] not in _READY
    soon = _is_on_a_day(span) or not {"tomorrow", "tonight"}.isdisjoint(span)
    soon = soon or (len(span) <= _SHORT and span[-2:-1] == ("after",) and span[-1] in _MEALS)  # "PVA after tea"
    return next_up or to_go or soon or _goes_ahead(clause, span)


def _is_called_off(span: tuple[str, ...], said: str) -> bool:
    """Tell whether something was given up: "post cure cancelled", "decided to leave the tissue out"."""
    if says(said, NOT_DONE) or not DROPPED.isdisjoint(pairwise(span)):
        return True
    return not _CALLED_OFF.isdisjoint(span) or (span[-1:] == ("out",) and not _LEAVING.isdisjoint(span))


def _is_left_out(words: NoteWords, clause: Clause) -> bool:
    """Tell whether the clause says that a thing is wanting: "no bag this time", "wax not on yet", "still untrimmed"."""
    if clause.of("observation"):
        return False
    span = words.lower[clause.start : clause.end]
    first = next((i for i, word in enumerate(span) if word not in _LED_BY), len(span))
    if first < len(span) and span[first] in _LACKING:
        more = span[first + 1 :]
        return span[first] == "none" if not more else more[0] not in _LIMITS
    if any(one in ("not", "n't") and two in _IN_PLACE for one, two in pairwise(span)):
        return True
    return undone(words, clause) is not None


def undone(words: NoteWords, clause: Clause) -> str | None:
    """Return the verb that a clause says was not done by its participle: "edges still untrimmed"; or None."""
    known = verb_forms()
    for i in range(clause.start, clause.end):
        word = words.lower[i]
        verb, form = known.get(word[2:], ("", "")) if word.startswith("un") and word not in known else ("", "")
        follows = words.tags[i + 1] if i + 1 < clause.end else ""
        if form == "ed" and (follows[:1] not in ("N", "J") or words.lower[i - 1] in _BARE):
            return verb
    return None


def _goes_ahead(clause: Clause, span: tuple[str, ...]) -> bool:
    """Tell whether something is on its way at a later time: "it is going back on the rack on Monday"."""
    when = clause.of("moment") or not LATER.isdisjoint(span) or ("the", "night") in pairwise(span)
    return not _GOING.isdisjoint(span) and bool(when) and "now" not in span


def _is_ahead(words: NoteWords, clause: Clause) -> bool:
    """Tell whether a coat or layer with only a time of day is still to come: "second coat at four", said at two."""
    moments = clause.of("moment")
    if words.recorded_at is None or len(moments) != 1 or not clause.of("layer"):
        return False
    moment = moments[0].value
    if (
        moment.hour is None
        or moment.hint not in (None, "start")
        or not _LAID.isdisjoint(words.lower[clause.start : clause.end])
    ):
        return False
    behind = resolve(moment, words.recorded_at, "done")
    ahead = resolve(moment, words.recorded_at, "planned")
    return (
        ahead - words.recorded_at < (words.recorded_at - behind)
        and (ahead - words.recorded_at).total_seconds() < 6 * 3600
    )


def _is_without(words: NoteWords, clause: Clause) -> bool:
    for item in clause.of("material") + clause.of("layer"):
        lead = words.lower[max(clause.start, item.start - 3) : item.start + 1]
        if ("no" in lead and _no_of(words, item.start)) or "without" in lead or ("not" in lead and "any" in lead):
            return True
    return False


def _no_of(words: NoteWords, start: int) -> bool:
    """Tell whether a "no" just before is of the thing itself, with at most what describes it between."""
    at = start - (words.lower[start] != "no")
    while at > 0 and words.lower[at] != "no" and words.tags[at] in ("JJ", "NN", "VBN", "CD", "JJR", "NNP"):
        at -= 1
    return words.lower[at] == "no"
