"""Tell whether an act was done, is planned, is advised in general, or was not done."""

from __future__ import annotations

from journal.read.segments import Clause, group_start
from journal.read.findings import NoteWords
from journal.record import Status

_NOT = frozenset("n't n’t not never dont didnt havent hasnt no".split())
_PAST_HELP = frozenset("did have has had was were 've ’ve didnt havent hasnt hadnt wasnt got is am are 'm 're".split())
_FUTURE = frozenset("'ll ’ll will shall gon gonna might may lets wo".split())
_DUTY = frozenset("should must ought".split())
_HABIT = frozenset(
    "usually always normally generally typically tend tends ideally whenever best better trick supposed".split()
)
_WANTED = frozenset("going want wants need needs have has got plan planning about ready intend hope hoping meaning due "
                    "remember still yet wanna gotta like time ought thinking".split())  # fmt: skip
_LATER = frozenset("tomorrow later tonight next soon monday tuesday wednesday thursday friday saturday sunday".split())
_LEFT_OUT = frozenset("acts.skip acts.omit acts.miss acts.forget".split())
_WANTED_FACT = frozenset("needs need has have wants want must".split())
_ADVICE = frozenset("always never you your otherwise ideally whenever before".split())


def status_of(words: NoteWords, clause: Clause, before: Clause | None) -> Status:
    """Return the status of the clause's act, given the clause before it in the same sentence (or None)."""
    if clause.act is None:
        return _of_facts(words, clause, before)
    head = clause.act.value.head
    if clause.act.rule in _LEFT_OUT:
        return "not done"
    if clause.act.value.form == "s" and clause.act.value.action == "check":
        return "done"
    floor = before.act.end if before and before.act else max(0, clause.start - 6)
    lead = words.lower[max(floor, clause.start if not before else group_start(words, head, floor)) : head]
    lead = words.lower[min(clause.start, group_start(words, head, floor)) : head] or lead
    form = clause.act.value.form
    said = _said(lead, form) or _planned_or_advised(words, clause, lead, form)
    if said:
        return said
    if form == "base" and not _is_past(words, head):
        return _bare(words, clause, before, lead)
    if form == "ing" and before and before.status in ("planned", "advised"):
        return before.status
    return "done"


_DROPPED = frozenset({("was", "going"), ("were", "going"), ("was", "meant"), ("meant", "to"), ("was", "gon")})
_SAME_IN_PAST = frozenset("hit put cut let set cast split spread fit wet shut".split())


def _is_past(words: NoteWords, head: int) -> bool:
    return words.tags[head] in ("VBD", "VBN") or words.lower[head] in _SAME_IN_PAST


def _said(lead: tuple[str, ...], form: str) -> Status | None:
    """Return what a negation before the verb makes of it, or None."""
    there = set(lead)
    if "forgot" in there or "without" in there or ("instead" in there and "of" in there):
        return "not done"
    if "had" in there and lead[-1:] == ("to",):
        return "done"
    if "like" in there and "to" in there and "i" in there and "'d" not in there:
        return "advised"
    if there.isdisjoint(_NOT):
        return None
    if "wait" in there and there.isdisjoint(_PAST_HELP):
        return None
    if not there.isdisjoint(("you", "should", "must", "want")):
        return "advised"
    if not there.isdisjoint(_PAST_HELP) or form in ("ed", "ing") or "wo" in there or "ca" in there:
        return "not done"
    return "advised"


def _planned_or_advised(words: NoteWords, clause: Clause, lead: tuple[str, ...], form: str) -> Status | None:
    there = set(lead)
    you = "you" in there
    if not there.isdisjoint(_HABIT) or "tend" in there or ("what" in there and "do" in there):
        return "advised"
    if you and form != "ed" and not _asks(there):
        return "advised"
    if not there.isdisjoint(_DUTY):
        return "advised" if you or there.isdisjoint(("i", "we")) else "planned"
    if not there.isdisjoint(_FUTURE) or ("let" in there and ("'s" in there or "us" in there)):
        return "planned"
    if lead and lead[-1] in ("to", "na", "ta") and not there.isdisjoint(_WANTED):
        return "not done" if ("was" in there or "were" in there) and "going" in there else "planned"
    if form == "ing" and not there.isdisjoint(("needs", "wants", "need")):
        return "planned"
    if not there.isdisjoint(("can", "could", "would", "'d", "’d")) and form == "base":
        later = not _LATER.isdisjoint(words.lower[clause.start : clause.end])
        return "planned" if later or "can" in there else "advised"
    return None


def _asks(there: set[str]) -> bool:
    return "know" in there or "see" in there


def _bare(words: NoteWords, clause: Clause, before: Clause | None, lead: tuple[str, ...]) -> Status:
    """Return the status of a plain form without anything before it that tells: "mix it slowly"."""
    if before is not None and before.act is not None and not {"i", "we"} & set(lead):
        if before.status in ("planned", "advised"):
            return before.status
        return "done" if clause.of("amount") else "planned"
    span = words.lower[clause.start : clause.end]
    if lead[-1:] == ("to",) and ("used" in lead or "managed" in lead or "used" in span):
        return "done"
    if not _LATER.isdisjoint(span) or "to" in lead:
        return "planned"
    if {"i", "we"} & set(lead):
        return "advised" if words.tags[clause.act.value.head if clause.act else 0] in ("VBP", "VB") else "done"
    if (clause.of("amount") or clause.of("layer")) and not clause.of("reason"):
        return "done"
    if clause.of("reason") or clause.of("warning") or not _ADVICE.isdisjoint(span):
        return "advised"
    return "planned"


def _of_facts(words: NoteWords, clause: Clause, before: Clause | None) -> Status:
    """Return the status of a clause without a verb of the trade: "no tissue in this one"."""
    span = words.lower[clause.start : clause.end]
    for item in clause.of("material") + clause.of("layer"):
        lead = words.lower[max(clause.start, item.start - 3) : item.start]
        if "no" in lead or "without" in lead or ("not" in lead and "any" in lead):
            return "not done"
    if "to" in span and not _DROPPED.isdisjoint(zip(span, span[1:], strict=False)):
        return "not done"
    if ("'ll" in span or "going" in span) and "do" in span:
        return "planned"
    if before is not None and before.status != "not done":
        return before.status
    if "to" in span and "be" in span and not _WANTED_FACT.isdisjoint(span) and "on" in span:
        return "planned"
    if "tomorrow" in span or span[:2] == ("next", ",") or "'ll" in span or "will" in span:
        return "planned"
    if "usually" in span or "always" in span or "never" in span:
        return "advised"
    return "done"
