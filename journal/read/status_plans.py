"""What is still to come: "I'll", "needs sanding", "the jacket comes off at two", "peel ply going on next"."""

from __future__ import annotations

from itertools import pairwise

from journal.read.segments import ENDS
from journal.read.status_view import View, is_warned
from journal.read.status_words import LATER, NEGATIONS, PAST, PLANNED, PRESENT, SAME_IN_PAST, TO_COME, says
from journal.record import Status

_NOT_LATER = frozenset("this today yesterday till until til".split())
_UNDER_WAY = frozenset("started start finished been was were".split())
_PUT_OFF = frozenset("pending postponed deferred delayed rescheduled outstanding".split())
_GOES_ON = frozenset({("goes", "on"), ("goes", "back"), ("goes", "over")})
_OTHERWISE = frozenset("and then but so till until til before".split())
_THIS_AFTERNOON = ("this", "afternoon")
_WHEN = frozenset("when once after soon".split())


def plan(view: View) -> Status | None:
    """ "I'll", "about to", "let's", "needs sanding", "can open it tomorrow"."""
    there = view.there
    if there & {"'ll", "will", "shall", "gon", "gonna", "might", "may", "lets"}:
        return "planned"
    if says(view.said, PLANNED) and view.form != "ed":
        return "planned"
    if view.form == "ing" and there & {"needs", "wants", "need", "want"}:
        return "advised" if is_warned(view) else "planned"  # "it wants degassing or you get pinholes"
    if view.form == "ed" and {"want", "need"} & set(view.span) and there.isdisjoint(PAST):
        return "planned"  # "I want that box swept out"
    if view.form == "ed" and view.lead[:1] in (("needs",), ("wants",)):
        return "planned"  # "needs its edges trimmed"
    if "'d better" in view.said or ({"is", "are", "'s"} & set(view.span) and not _PUT_OFF.isdisjoint(view.span)):
        return "planned"
    if "can" in there or (there & {"could", "'d"} and not LATER.isdisjoint(view.span)):
        return "planned"
    return None


def present_plan(view: View) -> Status | None:
    """ "We're demoulding at noon", "tomorrow I'm pouring", "casting number ten on Monday"."""
    act = view.clause.act
    if _is_of_the_timetable(view):
        return "planned"
    numbered = act is not None and act.rule == "acts.pull-number"
    if numbered and view.form == "" and _is_for_later(view.span):
        return "planned"  # "number five after lunch"
    if numbered and not {"will", "'ll"}.isdisjoint(view.after[:2]):
        return "planned"  # "cast four I will take out at five"
    if numbered and view.form != "ed" and not {"tomorrow", "tonight"}.isdisjoint(view.after) and _is_told_after(view):
        return "planned"  # "cast number eight, I make tomorrow"
    waiting = act is not None and act.value.action in ("wait", "cure") and LATER.isdisjoint(view.span)
    waiting = waiting and "next" not in view.span
    if waiting and view.form == "ing":
        return None  # "I'm leaving it till three": it waits already
    if view.head[-3:] != "ing" or not (view.form == "ing" or numbered) or view.there & _UNDER_WAY:
        return None
    later = not LATER.isdisjoint(view.span) and (_NOT_LATER.isdisjoint(view.span) or "later" in view.span)
    going = bool(view.there & PRESENT) or (
        view.head == "going" and view.there.isdisjoint(_UNDER_WAY)
    )  # "peel ply going on next"
    later = later or ("next" in view.span and going and "now" not in view.span)
    later = later or (bool(view.there & PRESENT) and _THIS_AFTERNOON in pairwise(view.span))
    later = later or (bool(view.there & PRESENT) and "now" not in view.span and _is_told_after(view))
    timed = bool(view.clause.of("moment") and view.there & PRESENT) and "now" not in view.span
    return "planned" if later or timed else None


def _is_for_later(span: tuple[str, ...]) -> bool:
    """Tell whether words without a verb name a time to come: "number five after lunch"."""
    meals = any(one == "after" and two in LATER for one, two in pairwise(span))
    return meals or not TO_COME.isdisjoint(span)


def _is_told_after(view: View) -> bool:
    """Tell whether a later time follows in the same breath: "..., two coats, right after lunch"."""
    at = next((i for i, word in enumerate(view.after) if word in LATER), len(view.after))
    before = view.after[:at]
    return at < len(view.after) and ENDS.isdisjoint(before) and _OTHERWISE.isdisjoint(before)


def _is_of_the_timetable(view: View) -> bool:
    """ "The jacket comes off at two", "today we drill the holes", "next I let it flash off"."""
    if "now" in view.span or not view.there.isdisjoint(PAST - {"had"}):
        return False
    if view.form == "s":
        to_come = view.head in ("goes", "go") and not _WHEN.isdisjoint(view.span)
        to_come = to_come or not _GOES_ON.isdisjoint(pairwise(view.span))
        return to_come or bool(view.clause.of("moment")) or not LATER.isdisjoint(view.span)
    if view.form != "base" or view.there.isdisjoint({"i", "we"}) or view.there & NEGATIONS:
        return False
    ahead = view.lead[:1] == ("next",) or not LATER.isdisjoint(view.span) or "today" in view.lead
    told = view.head in SAME_IN_PAST and view.tag in ("VBD", "VBN") and view.lead[:1] != ("next",)
    return ahead and not told and not view.there & {"usually", "always"}
