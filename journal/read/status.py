"""Tell whether an act was done, is planned, is advised in general, or was not done.

Each rule looks at the words that lead up to the verb (its subject, auxiliaries and adverbs) and at the
clause around it; the first rule that speaks decides.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from journal.read.findings import NoteWords
from journal.read.segments import ENDS, Clause, group_start, is_joint
from journal.read.status_plans import plan, present_plan
from journal.read.status_view import View, is_warned
from journal.read.status_words import (
    ADVISED,
    DROPPED,
    HABITS,
    LATER,
    NEGATIONS,
    NOT_DONE,
    PAST,
    PRESENT,
    SAME_IN_PAST,
    TO_COME,
    says,
)
from journal.read.verbless import status_of_facts
from journal.record import Status

_PAST_NEGATED = frozenset("could would was were did had has have is are am 'm 're 've 's".split())
_WANTED = frozenset(
    "going want wants need needs have has got plan planning about ready intend hope hoping meaning due remember still "
    "yet wanna gon gotta like time ought thinking next remind is".split()
)
_LEFT_OUT = frozenset("acts.skip acts.omit acts.miss acts.forget".split())
_RULES_OF_THUMB = frozenset(
    "always never you your otherwise ideally whenever before last first until till once".split()
)
_RULES_OF_SPEECH = frozenset("always never you your otherwise ideally whenever slowly gently carefully".split())
_WOULD = frozenset("would 'd should could ought".split())
_HAVE = frozenset("have 've of".split())
_MEANT = frozenset("supposed meant hoping planning due".split())
_GIVEN_UP = frozenset(
    {("but", "not"), ("but", "no"), ("but", "could"), ("but", "failed"), ("but", "did"), ("but", "never")}
)
_OUT = frozenset("out off".split())
_LATELY = frozenset("yet today week morning yesterday".split())
_FAILED = frozenset("but no wo would stuck cannot failed".split())
_ASKED = frozenset("please kindly".split())
_CONDITIONS = frozenset("if when whenever unless".split())
_SAYS = frozenset("said says reckons told recommends".split())
_AHEAD = 6  # tokens after a clause that may tell when: "we're doing the PVA, two coats, after lunch"
_TILL = frozenset("till til until before".split())
_LINK = 2  # tokens of a clause that only joins: ", and"
_YET_TO = ("yet", "to")


def status_of(words: NoteWords, clause: Clause, before: Clause | None) -> Status:
    """Return the status of the clause's act, given the clause before it in the same sentence (or None)."""
    if clause.act is None:
        return status_of_facts(words, clause, before)
    left = clause.act.rule == "acts.leave" and clause.act.value.action not in ("wait", "cure")
    if clause.act.rule in _LEFT_OUT or (left and not _OUT.isdisjoint(words.lower[clause.act.end : clause.end])):
        return "not done"
    view = _view(words, clause, before)
    if words.lower[clause.start - 1 : clause.start + 1] == _YET_TO:
        return "not done"
    if words.lower[clause.end : clause.end + 2] in _GIVEN_UP or words.lower[clause.end - 1 : clause.end + 1] == _YET_TO:
        return "not done"
    told: Status = next((status for rule in _RULES if (status := rule(view))), "done")
    fragment = told == "done" and clause.act.rule == "acts.saying"
    if fragment and before and before.act and before.end == clause.start and not is_joint(words, clause.start):
        return before.status  # "didn't get the second coat on"
    return status_of_facts(words, clause, before) if fragment else told


def _view(words: NoteWords, clause: Clause, before: Clause | None) -> View:
    head = clause.act.value.head if clause.act else clause.start
    floor = before.act.end if before and before.act else max(0, clause.start - 6)
    lead = words.lower[min(clause.start, group_start(words, head, floor)) : head]
    span = words.lower[clause.start : clause.end]
    form = clause.act.value.form if clause.act else ""
    opens = clause.start
    while opens and words.lower[opens - 1] not in ENDS:
        opens -= 1
    return View(lead, frozenset(lead), form, span, " ".join((*lead, words.lower[head])), words.lower[head],
                 words.tags[head], clause, before, words.spoken, words.lower[opens],
                 words.lower[clause.end : clause.end + _AHEAD])  # fmt: skip


# ---- rules, in order ---------------------------------------------------------------------------------------


def _dropped(view: View) -> Status | None:
    """ "Forgot to", "was going to", "couldn't get round to it"."""
    there = view.there
    if "forgot" in there or "without" in there or ("instead" in there and "of" in there):
        return "not done"
    if "not done" in " ".join(view.span) or (view.form in ("ing", "") and view.lead[-1:] == ("no",)):
        return "not done"
    if _was_not_to_be(view):
        return "not done"
    given_up = not DROPPED.isdisjoint(pairwise(view.lead)) or says(view.said, NOT_DONE)
    return "not done" if given_up else None


def _was_not_to_be(view: View) -> bool:
    """ "I would have pulled it", "should've mixed more", "was supposed to sand it", "nearly poured it"."""
    there, lead, ed = view.there, view.lead, view.form == "ed" or view.head in SAME_IN_PAST
    if ed and there & _WOULD and there & _HAVE and not (view.clause.act and view.clause.act.value.action == "cure"):
        return True
    if "to" in there and (there & {"was", "were"}) and there & _MEANT:
        return True
    meant = lead[-2:] == ("meant", "to") and bool(there & {"i", "we"}) and there.isdisjoint(PRESENT)
    nearly = ed and lead[-1:] in (("nearly",), ("almost",)) and (len(lead) == 1 or bool(there & {"i", "we"}))
    return meant or nearly or says(view.said, ("supposed to have been", "meant to have been", "to have been"))


def _negated(view: View) -> Status | None:
    """ "Didn't wax it" was not done; "don't wax it", "I never wax it" advise."""
    there, own = view.there, bool(view.there & {"i", "we"})
    if there.isdisjoint(NEGATIONS) or ("wait" in there and there.isdisjoint(PAST)):
        return None
    if there & {"you", "should", "must"}:
        return "advised"
    if there & {"'ll", "will"} and not _TILL.isdisjoint(view.span):
        return "planned"  # "I'll not shellac it until it's dry"
    if there & {"'ll", "wo", "will"} or ("yet" in view.span and there & {"ca", "can", "could"}):
        return "not done"
    lately = not _LATELY.isdisjoint(view.span) and (view.head in SAME_IN_PAST or view.form == "ed")
    habit = "do" in there or ("never" in there and view.form == "base" and not lately)
    if own and habit:
        return "advised"
    if "do" in there and view.lead[-1:] == ("be",):
        return "advised"  # "don't be whipping air into it"
    past = there & _PAST_NEGATED or view.form in ("ed", "ing") or (view.head in SAME_IN_PAST and own)
    return "not done" if past else "advised"


def _advice(view: View) -> Status | None:
    """ "You want to", "I usually", "best to", "he says to"."""
    there = view.there
    if says(view.said, ADVISED) and "'d like" not in view.said:
        return "advised"
    if there & HABITS or ("what" in there and "do" in there):
        return "advised"
    if "you" in there and view.form != "ed" and not there & {"know", "see"}:
        return "advised"
    if there & {"should", "must", "ought"}:
        timed = view.clause.of("moment") or not LATER.isdisjoint(view.span)
        return "planned" if there & {"i", "we"} or timed else "advised"
    to_be_so = "best" in there and (bool(there & {"to", "you"}) or view.lead[-1:] == ("best",))
    if (view.form == "base" and (to_be_so or _would(view))) or (there & {"wants", "needs"} and "every" in view.span):
        return "advised"
    if view.form == "ed" and "best" in there and there & {"is", "are", "'s"}:
        return "advised"  # "silicone is best poured thin"
    return None


def _would(view: View) -> bool:
    """ "I'd brush the second coat crosswise": advice, unless a time is told, or "I'd put" is "I had put"."""
    if "would" in view.there:
        return True
    own = "'d" in view.lead[-2:] and view.there.isdisjoint({"better", "like", "had"})
    return own and LATER.isdisjoint(view.span) and (view.head not in SAME_IN_PAST or view.tag == "VB")


def _infinitive(view: View) -> Status | None:
    """ "Ready to", "had to", "needs to be demoulded", "used a knife to trim it", "going to"."""
    there, last = view.there, view.lead[-1:]
    if there & {"started", "began", "begun"}:
        return "done"  # "I started ten minutes ago to spray"
    if last == ("to",) and (told := _attempt(view)):
        return told
    if last == ("be",) and "to" in there and there & {"needs", "need", "has", "have", "wants"}:
        return "advised" if view.clause.of("reason") or view.clause.of("duration") else "planned"
    if view.lead[-2:] == ("to", "be") and there.isdisjoint(PAST - {"is", "are", "'s", "'re"}):
        return "planned"
    if last not in (("to",), ("na",), ("ta",)):
        return None
    if "ready" in there:
        return "planned"
    managed = there & {"had", "used", "managed"} or {"used", "took"} & set(view.span)
    if managed or (view.clause.of("amount") and not there & _WANTED):
        return "done"
    return "planned" if there & _WANTED else None


def _attempt(view: View) -> Status | None:
    """ "Four dowels to fit yet", "tried to open it but it's stuck"."""
    if "yet" in view.span and view.form == "base":
        return "planned"
    if "tried" not in view.there:
        return None
    return "not done" if _FAILED.intersection(view.after) or _FAILED.intersection(view.span) else "done"


def _participle(view: View) -> Status | None:
    """An -ing form goes with the act before it."""
    before = view.before
    led = before is not None and (before.act is not None or before.status in ("planned", "advised"))
    goes_on = view.form == "ing" and led
    with_it = view.form == "ed" and before is not None and before.act is not None and before.act.value.form == "ed"
    listed = with_it and view.lead in (("and",), ("then",), ("and", "then"))
    told = before is not None and before.status in ("planned", "advised") and (goes_on or listed)
    return before.status if told and before else None


def _plain_form(view: View) -> Status | None:
    """A plain form without anything before it that tells: "mix it slowly", "and brush it on"."""
    before, own_subject = view.before, bool(view.there & {"i", "we"})
    if before is not None and _goes_on_ahead(view, before, own_subject):
        return "planned" if before.status != "advised" else "advised"
    if view.head in SAME_IN_PAST:
        to_you = "you" in view.span and view.tag not in ("VBD", "VBN")
        return "advised" if not own_subject and (to_you or is_warned(view)) else None
    if view.form != "base" or view.tag in ("VBD", "VBN"):
        return None
    if before is not None and not own_subject and (before.act is not None or before.status in ("planned", "advised")):
        return before.status if before.status != "not done" else "done"
    if own_subject and before is not None and before.status == "advised":
        return "advised"  # "I never use oil, I use petroleum jelly"
    if not _SAYS.isdisjoint((*view.lead, *view.span, *view.after[:3])):
        return "advised"
    if not LATER.isdisjoint(view.span) or "to" in view.lead:
        return "planned"
    return None if own_subject else _order(view)


def _goes_on_ahead(view: View, before: Clause, own_subject: bool) -> bool:
    """Tell whether a plain form goes on with a plan ("going to mix it and lay it up"), or names a day to come."""
    if view.form != "base":
        return False
    listed = view.lead in ((), ("and",), ("then",), ("and", "then"))
    listed = listed or (view.head not in SAME_IN_PAST and view.lead[-1:] in (("we",), ("i",)))
    if listed and before.status == "planned" and (before.act is not None or before.end - before.start <= _LINK):
        return True
    return not own_subject and not TO_COME.isdisjoint(view.span)


def _order(view: View) -> Status:
    """An order to oneself is planned, one with a reason or a rule's words advises, one with amounts is a log's."""
    clause = view.clause
    if not _ASKED.isdisjoint(view.span) or not _ASKED.isdisjoint(view.lead):
        return "planned"
    if view.opening in _CONDITIONS or (clause.of("duration") and "between" in view.span):
        return "advised"
    logged = clause.of("amount") or clause.of("layer") or clause.of("condition") or _is_of_time(clause)
    if logged and not clause.of("reason"):
        return "done"
    # In running speech the d of "brushed the flange" is lost: only a rule's own words make it advice.
    if view.spoken and not clause.of("warning") and _RULES_OF_SPEECH.isdisjoint(view.span):
        return "done"
    rule = clause.of("reason") or clause.of("warning") or not _RULES_OF_THUMB.isdisjoint(view.span)
    return "advised" if rule else "planned"


def _is_of_time(clause: Clause) -> bool:
    """Tell whether a log gives an act's time after it: "cure eight hours"."""
    act = clause.act
    return act is not None and any(item.start == act.end for item in clause.of("duration"))


_RULES: tuple[Callable[[View], Status | None], ...] = (
    _dropped, _negated, _advice, _infinitive, plan, present_plan, _participle, _plain_form,
)  # fmt: skip
