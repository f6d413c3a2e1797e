"""Tell whether an act was done, is planned, is advised in general, or was not done.

Each rule looks at the words that lead up to the verb (its subject, auxiliaries and adverbs) and at the
clause around it; the first rule that speaks decides.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from journal.read.findings import NoteWords
from journal.read.moments import resolve
from journal.read.segments import ENDS, Clause, group_start
from journal.record import Status

_NEGATIONS = frozenset("n't not never dont didnt havent hasnt nobody none dinnae didnae cannae wasnae".split())
_PAST = frozenset("did have has had was were 've didnt havent hasnt hadnt wasnt got is am are 'm 're 's been".split())
_PAST_NEGATED = frozenset("could would was were did had has have is are am 'm 're 've 's".split())
_HABITS = frozenset("usually always normally generally typically tend tends ideally whenever supposed".split())
_WANTED = frozenset(
    "going want wants need needs have has got plan planning about ready intend hope hoping meaning due remember still "
    "yet wanna gon gotta like time ought thinking next remind is".split()
)
_LATER = frozenset(
    "tomorrow later tonight soon monday tuesday wednesday thursday friday saturday sunday morning afternoon tea lunch "
    "weekend".split()
)
_NOT_LATER = frozenset("this today yesterday till until til".split())
_LAID = frozenset("on in down done went up over finished started was".split())
_LEFT_OUT = frozenset("acts.skip acts.omit acts.miss acts.forget".split())
_RULES_OF_THUMB = frozenset(
    "always never you your otherwise ideally whenever before last first until till once".split()
)
_RULES_OF_SPEECH = frozenset("always never you your otherwise ideally whenever slowly gently carefully".split())
_SAME_IN_PAST = frozenset("run hit put cut let set cast split spread fit wet shut read".split())
_UNDER_WAY = frozenset("started start finished been was were".split())
_PRESENT = frozenset("'re 'm are am 's is".split())
_DROPPED = frozenset({("was", "going"), ("were", "going"), ("was", "meant"), ("meant", "to"), ("was", "gon")})
_GIVEN_UP = frozenset(
    {("but", "not"), ("but", "no"), ("but", "could"), ("but", "failed"), ("but", "did"), ("but", "never")}
)
_SHORT = 5
_CALLED_OFF = frozenset("cancelled canceled scrapped abandoned aborted".split())
_AHEAD = frozenset("'ll will pending postponed deferred delayed rescheduled outstanding".split())
_PUT_OFF = frozenset("pending postponed deferred delayed rescheduled outstanding".split())
_OUT = frozenset("out off".split())
_LEAVING = frozenset("leave leaving".split())
_ASKED = frozenset("please kindly".split())
_CONDITIONS = frozenset("if when whenever unless".split())
_SAYS = frozenset("said says reckons told recommends".split())
_YET_TO = ("yet", "to")
_NOT_DONE = (
    "no need|gave up|given up|ran out|run out of|could n't be bothered|not been|never did|never got|did n't happen|"
    "n't bother|not bother|decided not|decided against|n't able|not able|no time|out of time|left off|"
    "left out|leaving out|without any|all set to|was about to|not yet|n't yet|still not|yet to|"
    "n't get round|never got|n't got round|not got round|did n't go|has n't been|have n't been|n't had|"
    "not had"
).split("|")
_ADVISED = (
    "advisable|recommended|i recommend|we recommend|i advise|preferably|prudent|wise to|tend to|the rule is|my rule is|"
    "it 's a must|a must|safest to|easier to|"
    "best to|it pays to|the trick is|as a rule|he says|she says|they say|says to|says you|said to|told me|"
    "told us|told you|wants us to|want us to|good idea to|worth|better to|rule of thumb|remember to|"
    "be sure to|make sure|be careful|try not to|try to|what we do is|what i do is|supposed to|like to |"
    "is better|are better|"
    "if you|when you|a good shop|you want|you need|you have to|you 've got to|do n't forget"
).split("|")
_PLANNED = (
    "are to|am to|is to be|are to be|wants him to|want him to|want her to|want them to|asked him to|asked them to|"
    "told them to|told him to|told her to|due to be|aiming to|fixing to|remains to|left to|"
    "going to|gon na|about to|need to|needs to|plan is|plan to|planning|hoping to|thinking of|let 's|"
    "remind me|to do|next job|next is|next up|next time|plan :|due out|want to|wants to|still to|to go on|"
    "ready to|ready by|ready at|ready for|got to|have to|has to|wan na|got ta|the plan|intend to|"
    "meaning to"
).split("|")
_FACT_PLANNED = (
    "set to |set for |put off|to follow| to be |to come|still to|yet to come|is booked|booked for|on the list|"
    "for tomorrow|up next|"
    "scheduled|needs another|wants another|need another|want another|needs a|wants a|need a|needs more|wants more|"
    "needs to be|has to be|must be|have to be|need to be|to go on|next is|'ll want|'ll need|will need|"
    "will want|'ll be|will be|next job|to do|plan is|the plan|going to|hoping to|need to|'ll get|will get|"
    "needs one|i need|we need|'s next|is next|next up|next time|plan :|due out|about to|due "
).split("|")


@dataclass(frozen=True, slots=True)
class _View:
    """What a rule looks at: the words before the verb, the verb's form and tag, and the clause's words."""

    lead: tuple[str, ...]
    there: frozenset[str]
    form: str
    span: tuple[str, ...]
    said: str
    head: str
    tag: str
    clause: Clause
    before: Clause | None
    spoken: bool = False
    opening: str = ""
    after: tuple[str, ...] = ()


def status_of(words: NoteWords, clause: Clause, before: Clause | None) -> Status:
    """Return the status of the clause's act, given the clause before it in the same sentence (or None)."""
    if clause.act is None:
        return _of_facts(words, clause, before)
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
    return _of_facts(words, clause, before) if fragment else told


def _view(words: NoteWords, clause: Clause, before: Clause | None) -> _View:
    head = clause.act.value.head if clause.act else clause.start
    floor = before.act.end if before and before.act else max(0, clause.start - 6)
    lead = words.lower[min(clause.start, group_start(words, head, floor)) : head]
    span = words.lower[clause.start : clause.end]
    form = clause.act.value.form if clause.act else ""
    opens = clause.start
    while opens and words.lower[opens - 1] not in ENDS:
        opens -= 1
    return _View(lead, frozenset(lead), form, span, " ".join((*lead, words.lower[head])), words.lower[head],
                 words.tags[head], clause, before, words.spoken, words.lower[opens],
                 words.lower[clause.end : clause.end + 3])  # fmt: skip


# ---- rules, in order ---------------------------------------------------------------------------------------


def _dropped(view: _View) -> Status | None:
    """ "Forgot to", "was going to", "couldn't get round to it"."""
    there = view.there
    if "forgot" in there or "without" in there or ("instead" in there and "of" in there):
        return "not done"
    if "not done" in " ".join(view.span):
        return "not done"
    given_up = not _DROPPED.isdisjoint(pairwise(view.lead)) or any(phrase in view.said for phrase in _NOT_DONE)
    return "not done" if given_up else None


def _negated(view: _View) -> Status | None:
    """ "Didn't wax it" was not done; "don't wax it", "I never wax it" advise."""
    there, own = view.there, bool(view.there & {"i", "we"})
    if there.isdisjoint(_NEGATIONS) or ("wait" in there and there.isdisjoint(_PAST)):
        return None
    if there & {"you", "should", "must"}:
        return "advised"
    if there & {"'ll", "wo", "will"} or ("yet" in view.span and there & {"ca", "can", "could"}):
        return "not done"
    habit = "do" in there or ("never" in there and view.form == "base" and "yet" not in view.span)
    if own and habit:
        return "advised"
    past = there & _PAST_NEGATED or view.form in ("ed", "ing") or (view.head in _SAME_IN_PAST and own)
    return "not done" if past else "advised"


def _advice(view: _View) -> Status | None:
    """ "You want to", "I usually", "best to", "he says to"."""
    there = view.there
    if any(phrase in view.said for phrase in _ADVISED) and "'d like" not in view.said:
        return "advised"
    if there & _HABITS or ("what" in there and "do" in there):
        return "advised"
    if "you" in there and view.form != "ed" and not there & {"know", "see"}:
        return "advised"
    if there & {"should", "must", "ought"}:
        return "planned" if there & {"i", "we"} or view.clause.of("moment") else "advised"
    if "would" in there and view.form == "base":
        return "advised"
    return None


def _infinitive(view: _View) -> Status | None:
    """ "Ready to", "had to", "needs to be demoulded", "used a knife to trim it", "going to"."""
    there, last = view.there, view.lead[-1:]
    if there & {"started", "began", "begun"}:
        return "done"  # "I started ten minutes ago to spray"
    if last == ("be",) and "to" in there and there & {"needs", "need", "has", "have", "wants"}:
        return "advised" if view.clause.of("reason") or view.clause.of("duration") else "planned"
    if view.lead[-2:] == ("to", "be") and there.isdisjoint(_PAST - {"is", "are", "'s", "'re"}):
        return "planned"
    if last not in (("to",), ("na",), ("ta",)):
        return None
    if "ready" in there:
        return "planned"
    managed = there & {"had", "used", "managed"} or {"used", "took"} & set(view.span)
    if managed or (view.clause.of("amount") and not there & _WANTED):
        return "done"
    return "planned" if there & _WANTED else None


def _plan(view: _View) -> Status | None:
    """ "I'll", "about to", "let's", "needs sanding", "can open it tomorrow"."""
    there = view.there
    if there & {"'ll", "will", "shall", "gon", "gonna", "might", "may", "lets"}:
        return "planned"
    if any(phrase in view.said for phrase in _PLANNED) and view.form != "ed":
        return "planned"
    if view.form == "ing" and there & {"needs", "wants", "need", "want"}:
        return "planned"
    if view.form == "ed" and {"want", "need"} & set(view.span) and there.isdisjoint(_PAST):
        return "planned"  # "I want that box swept out"
    if "'d better" in view.said or ({"is", "are", "'s"} & set(view.span) and not _PUT_OFF.isdisjoint(view.span)):
        return "planned"
    if "can" in there or (there & {"could", "'d"} and not _LATER.isdisjoint(view.span)):
        return "planned"
    return None


def _present_plan(view: _View) -> Status | None:
    """ "We're demoulding at noon", "tomorrow I'm pouring", "casting number ten on Monday"."""
    act = view.clause.act
    numbered = act is not None and act.rule == "acts.pull-number"
    if view.head[-3:] != "ing" or not (view.form == "ing" or numbered) or view.there & _UNDER_WAY:
        return None
    later = not _LATER.isdisjoint(view.span) and (_NOT_LATER.isdisjoint(view.span) or "later" in view.span)
    later = later or ("next" in view.span and bool(view.there & _PRESENT) and "now" not in view.span)
    timed = bool(view.clause.of("moment") and view.there & _PRESENT) and "now" not in view.span
    return "planned" if later or timed else None


def _participle(view: _View) -> Status | None:
    """An -ing form goes with the act before it."""
    before = view.before
    goes_on = view.form == "ing" and before is not None and before.act is not None
    with_it = view.form == "ed" and before is not None and before.act is not None and before.act.value.form == "ed"
    listed = with_it and view.lead in (("and",), ("then",), ("and", "then"))
    told = before is not None and before.status in ("planned", "advised") and (goes_on or listed)
    return before.status if told and before else None


def _plain_form(view: _View) -> Status | None:
    """A plain form without anything before it that tells: "mix it slowly", "and brush it on"."""
    before, own_subject = view.before, bool(view.there & {"i", "we"})
    if view.head in _SAME_IN_PAST:
        return "advised" if not own_subject and _is_warned(view) else None
    if view.form != "base" or view.tag in ("VBD", "VBN"):
        return None
    if before is not None and not own_subject and (before.act is not None or before.status in ("planned", "advised")):
        return before.status if before.status != "not done" else "done"
    if not _SAYS.isdisjoint((*view.lead, *view.span, *view.after)):
        return "advised"
    if not _LATER.isdisjoint(view.span) or "to" in view.lead:
        return "planned"
    return None if own_subject else _order(view)


def _order(view: _View) -> Status:
    """An order to oneself is planned, one with a reason or a rule's words advises, one with amounts is a log's."""
    clause = view.clause
    if not _ASKED.isdisjoint(view.span) or not _ASKED.isdisjoint(view.lead):
        return "planned"
    if view.opening in _CONDITIONS:
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


def _is_warned(view: _View) -> bool:
    """Tell whether it is said what happens otherwise, or advice goes before: "let it sit or you'll get lumps"."""
    reasons = [item.value.text.casefold() for item in view.clause.of("reason")]
    otherwise = any(text.startswith(("or ", "otherwise")) for text in reasons)
    return otherwise or (view.before is not None and view.before.status == "advised")


_RULES: tuple[Callable[[_View], Status | None], ...] = (
    _dropped, _negated, _advice, _infinitive, _plan, _present_plan, _participle, _plain_form,
)  # fmt: skip


# ---- clauses without a verb of the trade -------------------------------------------------------------------


def _of_facts(words: NoteWords, clause: Clause, before: Clause | None) -> Status:
    """Return the status of a clause without a verb of the trade: "no tissue in this one"."""
    span = words.lower[clause.start : clause.end]
    said = " ".join(span)
    if _is_without(words, clause) or _is_called_off(span, said):
        return "not done"
    if before is not None and before.act is None and before.status in ("planned", "advised"):
        return before.status
    if span[:2] == ("next", ",") or not _AHEAD.isdisjoint(span) or any(p in said for p in _FACT_PLANNED):
        return "planned"
    if any(phrase in said for phrase in _ADVISED) or not _HABITS.isdisjoint(span) or "never" in span:
        return "advised"
    if clause.of("duration") and "another" in span[:2] and len(span) <= _SHORT and not clause.of("layer"):
        return "planned"
    if before is not None and before.status != "not done":
        return before.status
    later = (
        _goes_ahead(clause, span)
        or {"tomorrow", "tonight"} & set(span)
        or span[-1:] == ("next",)
        or (clause.of("moment") and span[0] == "next")
    )
    return "planned" if later or _is_ahead(words, clause) else "done"


def _is_called_off(span: tuple[str, ...], said: str) -> bool:
    """Tell whether something was given up: "post cure cancelled", "decided to leave the tissue out"."""
    if any(phrase in said for phrase in _NOT_DONE) or not _DROPPED.isdisjoint(pairwise(span)):
        return True
    return not _CALLED_OFF.isdisjoint(span) or (span[-1:] == ("out",) and not _LEAVING.isdisjoint(span))


def _goes_ahead(clause: Clause, span: tuple[str, ...]) -> bool:
    """Tell whether something is on its way at a later time: "it is going back on the rack on Monday"."""
    when = clause.of("moment") or not _LATER.isdisjoint(span) or ("the", "night") in pairwise(span)
    return "going" in span and bool(when) and "now" not in span


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
        if "no" in lead or "without" in lead or ("not" in lead and "any" in lead):
            return True
    return False
