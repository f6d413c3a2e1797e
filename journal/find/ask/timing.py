"""Answers from the running clocks: the pot, the next coat, tack, demould, cure. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import datetime, timedelta

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.matching import on_place
from journal.find.ask.question import Question
from journal.find.clock import Clock, Outside
from journal.find.clocks import ended
from journal.find.coats import OPENING_ACTS, Coat, coats, shop_temperatures
from journal.keep.views import StepView
from journal.trade.cure import QUOTED_AT_C, aged, finishes_at, stretches
from journal.trade.limits import TradeError
from journal.trade.material import Material

_PAST = re.compile(r"\b(?:did|was|were|went)\b")


def _pick(question: Question, facts: Facts, clocks: Sequence[Clock]) -> Clock | None:
    """Return the latest clock that fits the materials and places of the question."""
    names = {m.name for m in facts.meant(question.materials) if m.reacts or m.recoat_s}
    fitting = [clock for clock in clocks if clock.material in names] if names else list(clocks)
    if question.places:
        steps = {step.id: step for step in facts.done}
        there = [c for c in fitting if c.evidence[0] in steps and on_place(steps[c.evidence[0]], question.places)]
        fitting = there or [clock for clock in fitting if not clock.places]
    return fitting[-1] if fitting else None


def _source(clock: Clock) -> str:
    """Return what a clock goes by, in a few words."""
    if clock.source == "said":
        return "as was said"
    if clock.degc is None:
        return "by the catalogue, no shop temperature is known" if clock.rule == "as quoted" else "by the catalogue"
    return f"by the catalogue at {saying.number(clock.degc)} degrees"


def _answer(text: str, clock: Clock, facts: Facts, lacks: str = "") -> Answer:
    doubts = f"; flagged: {'; '.join(clock.doubts)}" if clock.doubts else ""
    why = f"{clock.kind} of {clock.material}, {clock.source}, {clock.rule}"
    if clock.degc is not None:
        why += f" at {saying.plain(clock.degc)} degC"
    left = clock.left(facts.now)
    numbers = {} if left is None else {"left_s": left.total_seconds()}
    return Answer(saying.sentence(text + doubts), why, lacks, numbers, clock.evidence)


def pot(question: Question, facts: Facts) -> Answer:
    """Answer "how long is left on the pot"."""
    of_kind = [clock for clock in facts.clocks.all if clock.kind == "pot life"]
    clock = _pick(question, facts, of_kind)
    if clock is None:
        batch = facts.batches[-1] if facts.batches else None
        if batch is None:
            return Answer("Nothing has been mixed on this build.", lacks="a batch: none was logged on this build")
        return Answer(
            saying.sentence(f"I don't know the pot life of {batch.material.name}: say it once"),
            lacks=f"the pot life of {batch.material.name}",
            evidence=(batch.step.id,),
        )
    left = clock.left(facts.now)
    assert left is not None  # a pot life closes
    end = saying.time_of(clock.window.closes or facts.now, facts.now)
    mixed = f"the {clock.material} mixed at {saying.time_of(clock.started_at, facts.now)}"
    if left <= timedelta(0):
        return _answer(f"none: {mixed} went off at {end}, {saying.lasting(left)} ago, {_source(clock)}", clock, facts)
    hurry = ", be quick" if clock.state(facts.now) == "ending" else ""
    return _answer(f"{saying.lasting(left)} left on {mixed}, until {end}, {_source(clock)}{hurry}", clock, facts)


def gel(question: Question, facts: Facts) -> Answer:
    """Answer "how long until it gels"; where no gel time is known, by the pot life."""
    clock = _pick(question, facts, [clock for clock in facts.clocks.all if clock.kind == "gel"])
    if clock is None:
        return pot(question, facts)
    left, end = clock.left(facts.now), saying.time_of(clock.window.closes or facts.now, facts.now)
    if left is None or left <= timedelta(0):
        return _answer(f"the {clock.material} gelled at about {end}, {_source(clock)}", clock, facts)
    return _answer(f"the {clock.material} gels in {saying.lasting(left)}, at {end}, {_source(clock)}", clock, facts)


def recoat(question: Question, facts: Facts) -> Answer:
    """Answer "when can the next coat go on", "is it still inside its window", "did the coat go on in time"."""
    if _PAST.search(question.plain):
        return outside(question, facts)
    clock = _pick(question, facts, facts.clocks.of("recoat"))
    if clock is None:
        return _no_clock(question, facts, "the window for the next coat")
    opens, closes = clock.window.opens, clock.window.closes
    on = f"on the {clock.material} of {saying.time_of(clock.started_at, facts.now)}"
    end = f"until {saying.time_of(closes, facts.now)}" if closes else "with no end"
    left = clock.left(facts.now)
    state = clock.state(facts.now)
    if state == "waiting":
        wait = saying.lasting(left or timedelta(0))
        text = f"not yet: {on} the next coat can go from {saying.time_of(opens, facts.now)}, in {wait}, {end}"
    elif state == "over":
        gone = saying.lasting(left or timedelta(0))
        text = f"too late: the window {on} closed {gone} ago, at {saying.time_of(closes or opens, facts.now)}"
        text += "; sand it for a key, as its sheet says"
    else:
        hurry = ", be quick" if state == "ending" else ""
        text = f"yes, {end} {on}" + (f", {saying.lasting(left)} left{hurry}" if left else "")
    return _answer(f"{text}, {_source(clock)}", clock, facts)


def outside(question: Question, facts: Facts) -> Answer:
    """Answer whether the coats went on inside their windows."""
    steps = {step.id: step for step in facts.done}
    missed = [o for o in facts.clocks.outside if not question.places or on_place(steps[o.step_id], question.places)]
    if not missed:
        if not facts.clocks.all:
            return _no_clock(question, facts, "the windows of the coats")
        return Answer("Yes, no coat is known to have gone on outside its window.")
    said = saying.listed(_told(o, steps[o.step_id], facts) for o in missed)
    numbers = {"missed_by_s": missed[-1].missed_by.total_seconds()}
    evidence = tuple(dict.fromkeys(step for o in missed for step in (o.step_id, o.below_id)))
    return Answer(saying.sentence(f"no: {said}"), _source(missed[-1].below), numbers=numbers, evidence=evidence)


def _told(missed: Outside, step: StepView, facts: Facts) -> str:
    when = saying.moment(step.act_at, facts.now)
    side = "too early" if missed.state == "early" else "too late"
    return f"the coat {when} went on the {missed.below.material} {saying.lasting(missed.missed_by)} {side}"


def demould(question: Question, facts: Facts) -> Answer:
    """Answer "when can it come out"."""
    opened = [step for step in facts.done if step.record.action == "demould"]
    clock = _pick(question, facts, facts.clocks.of("cure")) or _pick(question, facts, facts.clocks.of("demould"))
    if opened and (clock is None or clock.started_at <= opened[-1].act_at):
        text = f"it came out {saying.moment(opened[-1].act_at, facts.now)}"
        return Answer(saying.sentence(text), evidence=(opened[-1].id,))
    if clock is None:
        return _no_clock(question, facts, "when it can come out")
    what = clock.material or "it"
    if clock.state(facts.now) == "waiting":
        wait = saying.lasting(clock.left(facts.now) or timedelta(0))
        text = f"not before {saying.time_of(clock.window.opens, facts.now)}, in {wait}: {what}, {_source(clock)}"
    else:
        text = f"yes: {what} has been ready since {saying.time_of(clock.window.opens, facts.now)}, {_source(clock)}"
    return _answer(text, clock, facts)


def ready(kind: str, question: Question, facts: Facts) -> Answer:
    """Answer "is it tack free" and "when is it fully cured", by the clock of that kind."""
    clock = _pick(question, facts, [clock for clock in facts.clocks.all if clock.kind == kind])
    if clock is None:
        return _no_clock(question, facts, f"when it is {kind}")
    done = "fully cured" if kind == "full cure" else kind
    opens = saying.time_of(clock.window.opens, facts.now)
    if clock.state(facts.now) == "waiting":
        wait = saying.lasting(clock.left(facts.now) or timedelta(0))
        text = f"the {clock.material} is {done} at about {opens}, in {wait}, {_source(clock)}"
    else:
        text = f"the {clock.material} should be {done} since {opens}, {_source(clock)}; touch it to be sure"
    return _answer(text, clock, facts)


def cure_age(question: Question, facts: Facts) -> Answer:
    """Answer "how long has it been curing": the age, and the age at 25 degC that the shop's temperatures make of it."""
    done = facts.done
    opened = [step for step in done if step.record.action in OPENING_ACTS]
    mould_out = [step.act_at for step in done if step.record.action == "demould"]
    setting = [coat for coat in coats(done, facts.catalogue) if coat.material.reacts and not _mends(coat, mould_out)]
    named = {m.name for m in facts.meant(question.materials) if m.reacts}
    setting = [c for c in setting if not named or c.material.name in named]
    if question.places:
        setting = [c for c in setting if on_place(c.step, question.places)]
    ends = [(coat.step, coat.material) for coat in setting]
    poured = [step for step in done if step.record.action == "pour"]
    batches = [batch.material for batch in facts.batches]
    if poured and batches and (not ends or poured[-1].act_at > ends[-1][0].act_at):
        ends.append((poured[-1], batches[-1]))
    if not ends:
        return _no_clock(question, facts, "since when it has been curing")
    step, material = ends[-1]
    until = next((each for each in opened if each.act_at > step.act_at), None)
    end = until.act_at if until else facts.now
    age = end - step.act_at
    since = saying.moment(step.act_at, facts.now)
    text = f"the {material.name} has been curing for {saying.lasting(age)}, since {since}"
    if until is not None:
        out = saying.moment(until.act_at, facts.now)
        text = f"it cured for {saying.lasting(age)}, from {since} until it came out {out}"
    numbers = {"age_s": age.total_seconds()}
    why = ""
    readings = shop_temperatures(done)
    if readings and age > timedelta(0):
        try:
            worth, why, more = _worth(step, material, end, done)
        except TradeError as error:
            return Answer(saying.sentence(text), str(error), numbers=numbers, evidence=(step.id,))
        text, numbers = f"{text}, {worth}", numbers | more
    return Answer(saying.sentence(text), why, numbers=numbers, evidence=(step.id, *((until.id,) if until else ())))


def _mends(coat: Coat, mould_out: list[datetime]) -> bool:
    """Tell whether a filling only mends what came out: "one pinhole by the hinge, filled it with gel coat"."""
    return coat.step.record.action == "fill" and any(out <= coat.step.act_at for out in mould_out)


def _worth(
    step: StepView, material: Material, end: datetime, done: Sequence[StepView]
) -> tuple[str, str, dict[str, float]]:
    """Return what a cure in the shop's temperatures is worth at 25 degC: in words, why, and as numbers."""
    readings = shop_temperatures(done)
    worth = aged(stretches(step.act_at, end, readings), material.activation_energy_kj)
    span = saying.lasting(timedelta(seconds=worth.seconds))
    why, numbers = worth.rule, {"equivalent_s": worth.seconds}
    if material.cure_s:
        whole = finishes_at(step.act_at, material.cure_s, readings, material.activation_energy_kj)
        share = (end - step.act_at) / (whole.at - step.act_at)
        why = f"{100 * share:.0f} % of the way to demould, {whole.rule}"
        numbers["share_of_demould"] = share
    oven = any(s.record.action == "post-cure" and step.act_at < s.act_at <= end for s in done)
    beside = ", beside the post-cure" if oven else ""
    return f"worth {span} at {QUOTED_AT_C:g} degrees{beside}", why, numbers


def _no_clock(question: Question, facts: Facts, what: str) -> Answer:
    """Say what is lacking for a clock: a coat, a place, or a time in the catalogue."""
    build = facts.build.view
    if question.places and any(clock.kind == "recoat" for clock in facts.clocks.all):
        where = question.places[0]
        return Answer(
            saying.sentence(f"nothing is logged on the {where} of {build.key}"), lacks=f"a coat on the {where}"
        )
    if ended(build, facts.now):
        when = saying.day(build.outcome_at, facts.now) if build.outcome_at else "earlier"
        return Answer(
            saying.sentence(f"no clock is running: {build.key} ended {when}, it {_ended(build.outcome)}"),
            lacks=f"a running clock: {build.key} is finished",
        )
    return Answer(
        saying.sentence(f"I don't know {what}: nothing is logged that sets or dries with a time known for it"),
        lacks=f"{what}: say the time once, or state it in the catalogue",
    )


def _ended(outcome: str) -> str:
    return "was given up" if outcome == "given up" else outcome
