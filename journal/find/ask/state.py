"""Answers about how things stand: air, shelf, flags, pulls, faults, plans, outcome, reasons, cautions. Pure."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from datetime import datetime

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.matching import described, matching, on_build, on_place
from journal.find.ask.question import Question
from journal.find.clock import Outside
from journal.find.recipe import totals_of
from journal.find.shelf import needs_of, short_for
from journal.keep.views import StepView
from journal.record import Phrase
from journal.trade.cautions import cautions_for
from journal.trade.climate import fitness, limits_for

_WEIGHTY = ("ratio", "amount", "unit")
_ALOUD = 2


def climate(question: Question, facts: Facts) -> Answer:
    """Answer "is it too cold or damp to work", for the material named, else the one mixed last."""
    said = [(kind, _reading(facts, kind)) for kind in ("temperature", "humidity")]
    air = question.degc[0] if question.degc else said[0][1][0] if said[0][1] else None
    percent = question.humidity if question.humidity is not None else question.percent
    humidity = percent if percent is not None else said[1][1][0] if said[1][1] else None
    if air is None or humidity is None:
        missing = saying.listed(kind for kind, value in (("temperature", air), ("humidity", humidity)) if value is None)
        return Answer(saying.sentence(f"I don't know the {missing} in the shop: say it once"), lacks=f"the {missing}")
    named = list(facts.meant(question.materials))
    mixed = [batch.material for batch in reversed(facts.batches)]
    material = next(iter(named or mixed), None)
    limits = limits_for(material)
    surface = question.degc[1] if len(question.degc) > 1 else None
    found = fitness(air, humidity, surface, limits)
    dew = f"the dew point is {saying.number(found.dew_point_c)}, "
    dew += f"{saying.number(abs(found.margin_c))} degrees {'below' if found.margin_c >= 0 else 'above'} the surface"
    verdict = f"not fit to work: {saying.listed(found.objections)}" if found.objections else "fit to work"
    for_what = f" with {material.name}" if material else ""
    when = "" if question.degc or percent is not None else _said_when(facts, said)
    text = f"{verdict}{for_what} at {saying.number(air)} degrees and {saying.number(humidity)} percent{when}; {dew}"
    if found.objections:
        text = f"{verdict}{for_what}{when}; {dew}"
    text += f"; by {limits.whose}" if limits.none_stated else ""
    temperatures = f"{saying.plain(limits.least_c)} to {saying.plain(limits.most_c)} degC"
    why = f"{temperatures}, {saying.plain(limits.humidity_most)} % at most, {limits.whose}; Magnus formula"
    why += "; the surface taken to be as warm as the air" if surface is None else ""
    numbers = {"dew_point_c": found.dew_point_c, "margin_c": found.margin_c, "air_c": air, "humidity_percent": humidity}
    evidence = tuple(reading[2] for _, reading in said if reading) if not question.degc else ()
    return Answer(saying.sentence(text), why, numbers=numbers, evidence=tuple(dict.fromkeys(evidence)))


def _reading(facts: Facts, kind: str) -> tuple[float, datetime, int] | None:
    for step in reversed(facts.done):
        for condition in step.record.conditions:
            if condition.kind == kind and condition.of in (None, "shop") and step.record.action != "post-cure":
                return float(condition.value), step.act_at, step.id
    return None


def _said_when(facts: Facts, said: Sequence[tuple[str, tuple[float, datetime, int] | None]]) -> str:
    times = [reading[1] for _, reading in said if reading]
    return f", as said {saying.moment(min(times), facts.now)}" if times else ""


def short(question: Question, facts: Facts) -> Answer:
    """Answer "what is short for the next build", and how much of a material is left on the shelf."""
    wanted = {m.name for m in facts.meant(question.materials)}
    tins = [tin for tin in facts.tins if not wanted or tin.lot.material in wanted]
    against = [words for tin in tins for words in tin.objections]
    worked = [b for b in (facts.build, *facts.earlier) if b.view.outcome == "worked"]
    needs: dict[str, float] = {}
    if worked:
        done = [s for s in worked[0].steps if s.record.status == "done"]
        needs = needs_of(totals_of(done), facts.catalogue)
        needs = {name: grams for name, grams in needs.items() if not wanted or name in wanted}
    took = saying.listed(f"{saying.quantity(grams, 'g')} of {name}" for name, grams in needs.items())
    if not any(tin.stock for tin in tins):
        known = f": {worked[0].view.key} took {took}" if needs else ""
        return Answer(
            saying.sentence(f"I don't know what is on the shelf, no tin was stated{known}"),
            lacks="what the tins hold: state them with mouldbook tin or on the shelf page",
            numbers={f"{name}_g": grams for name, grams in needs.items()},
        )
    numbers = {f"{tin.lot.material}_left_g": tin.stock.left_g for tin in tins if tin.stock}
    left = saying.listed(
        f"{saying.quantity(max(tin.stock.left_g, 0), 'g')} of {tin.lot.material}" for tin in tins if tin.stock
    )
    lacking = short_for(needs, tins, facts.now.date()) if needs else ()
    told = saying.listed(f"{saying.quantity(s.short_g, 'g')} of {s.material}" for s in lacking)
    text = f"short by {told} for another like {worked[0].view.key}" if lacking else f"{left} left"
    if not lacking and needs:
        text += f", enough for another like {worked[0].view.key}"
    text += f"; {'; '.join(against)}" if against else ""
    numbers |= {f"{s.material}_short_g": s.short_g for s in lacking}
    evidence = tuple(dict.fromkeys(step for tin in tins for step in tin.step_ids))
    return Answer(saying.sentence(text), numbers=numbers, evidence=evidence)


def flagged(question: Question, facts: Facts) -> Answer:
    """Answer "what is flagged" on this build: first weights and windows, then the rest; the first two aloud."""
    steps = [step for step in facts.known if step.record.flags and not step.confirmed]
    weighty = [step for step in steps if any(flag.field in _WEIGHTY for flag in step.record.flags)]
    others = [step for step in steps if step not in weighty]
    by_id = {step.id: step for step in facts.done}
    told = [
        *(_flags_told(step, facts) for step in weighty),
        *(_missed_told(missed, by_id[missed.step_id], facts) for missed in facts.clocks.outside),
        *(_flags_told(step, facts) for step in others),
    ]
    if not told:
        return Answer(saying.sentence(f"nothing is flagged on {facts.build.view.key}"), numbers={"flagged": 0.0})
    more = f"; and {len(told) - _ALOUD} more" if len(told) > _ALOUD else ""
    evidence = (*(s.id for s in weighty), *(m.step_id for m in facts.clocks.outside), *(s.id for s in others))
    text = f"{len(told)} to check: {'; '.join(told[:_ALOUD])}{more}"
    return Answer(saying.sentence(text), "; ".join(told), numbers={"flagged": float(len(told))}, evidence=evidence)


def _flags_told(step: StepView, facts: Facts) -> str:
    return f"the {step.record.action} {saying.moment(step.act_at, facts.now)}: {_whys(step)}"


def _missed_told(missed: Outside, step: StepView, facts: Facts) -> str:
    side = "too early" if missed.state == "early" else "too late"
    late = f"{saying.lasting(missed.missed_by)} {side} on the {missed.below.material}"
    return f"the coat {saying.moment(step.act_at, facts.now)}: {late}"


def _whys(step: StepView) -> str:
    return "; ".join(flag.why for flag in step.record.flags)


def pulls(question: Question, facts: Facts) -> Answer:
    """Answer "how many pulls"; where numbers were said that go further than what is logged, both."""
    taken = facts.pulls
    if not taken:
        return Answer(saying.sentence(f"no pull of the {facts.mould.key} is logged"), numbers={"pulls": 0.0})
    last = max(taken, key=lambda pull: pull.at)
    highest = max((pull.number for pull in taken if pull.number), default=None)
    condition = f": {saying.listed((*last.condition,))}" if last.condition else ""
    count = saying.counted(len(taken), "pull")
    if highest is not None and highest != len(taken):
        count = f"{highest} by the number said, {len(taken)} of them logged"
    text = f"{count}, the last {saying.moment(last.at, facts.now)}{condition}"
    numbers = {"pulls": float(highest or len(taken)), "logged": float(len(taken))}
    return Answer(saying.sentence(text), numbers=numbers, evidence=(last.step_id,))


def faults(question: Question, facts: Facts) -> Answer:
    """Answer "what went wrong"."""
    for build in facts.earlier if question.earlier else (facts.build, *facts.earlier):
        found = [
            (step, seen)
            for step in build.steps
            if step.recorded_at <= facts.now and (not question.places or on_place(step, question.places))
            for seen in step.record.observations
            if seen.kind not in ("good", "other", "tacky", "colour")
        ]
        if found:
            told = saying.listed(f"{seen.text} {saying.day(step.act_at, facts.now)}" for step, seen in found)
            ids = tuple(dict.fromkeys(step.id for step, _ in found))
            return Answer(
                saying.sentence(f"{told}{on_build(build, facts)}"), numbers={"faults": float(len(found))}, evidence=ids
            )
        if build is facts.build and not re.search(r"\b(?:last|before|ever|earlier)\b", question.plain):
            break
    return Answer(saying.sentence(f"no fault is logged on {facts.build.view.key}"), numbers={"faults": 0.0})


def planned(question: Question, facts: Facts) -> Answer:
    """Answer "what is next": what was planned last and not done since."""
    coming = [step for step in facts.known if step.record.status == "planned"]
    if not coming:
        return Answer(
            saying.sentence(f"nothing is planned on {facts.build.view.key}"), lacks="a plan: say what is next"
        )
    last = [step for step in coming if step.note_id == coming[-1].note_id]
    told = saying.listed(f"{step.record.action}, {described(step, [])}" for step in last)
    text = f"{told}, as said {saying.moment(last[-1].recorded_at, facts.now)}"
    return Answer(saying.sentence(text), evidence=tuple(step.id for step in last))


def outcome(question: Question, facts: Facts) -> Answer:
    """Answer "how did it turn out"."""
    build = facts.earlier[0].view if question.earlier and facts.earlier else facts.build.view
    ended = f" {saying.day(build.outcome_at, facts.now)}" if build.outcome_at and build.outcome_at <= facts.now else ""
    told = {"worked": "worked", "failed": "failed", "given up": "was given up"}.get(build.outcome)
    if told is None or not ended:
        return Answer(saying.sentence(f"{build.key} is under way"), lacks=f"an outcome: none was said of {build.key}")
    why = f": {build.outcome_text}" if build.outcome_text else ""
    return Answer(saying.sentence(f"{build.key} {told}{ended}{why}"))


def reason(question: Question, facts: Facts) -> Answer:
    """Answer "why do we thicken it", by the reasons said."""
    if "fail" in question.plain or "wrong" in question.plain:
        return outcome(question, facts)
    return _phrases(question, facts, "reason", lambda step: step.record.reasons)


def warnings(question: Question, facts: Facts) -> Answer:
    """Answer "what should I never do", by the warnings said."""
    return _phrases(question, facts, "warning", lambda step: step.record.warnings)


def _phrases(question: Question, facts: Facts, kind: str, get: Callable[[StepView], tuple[Phrase, ...]]) -> Answer:
    for build in (facts.build, *facts.earlier):
        steps: Iterable[StepView] = (s for s in build.steps if s.recorded_at <= facts.now)
        fitting = matching(question, facts, build)
        asked = [s for s in (fitting or steps) if get(s)]
        if not asked and kind == "warning":
            asked = [s for s in build.steps if s.recorded_at <= facts.now and get(s)]
        if asked:
            phrases: tuple[Phrase, ...] = get(asked[-1])
            when = saying.day(asked[-1].recorded_at, facts.now)
            told = "; ".join(phrase.text for phrase in phrases)
            return Answer(saying.sentence(f"{told}, as said {when}{on_build(build, facts)}"), evidence=(asked[-1].id,))
    return Answer(saying.sentence(f"no {kind} was said of that"), lacks=f"a {kind}")


def cautions(question: Question, facts: Facts) -> Answer:
    """Answer "what gloves for epoxy", with whom to follow."""
    materials = facts.meant(question.materials) or tuple(batch.material for batch in facts.batches[-1:])
    texts = cautions_for(kind for material in materials for kind in material.cautions)
    if not texts:
        what = saying.listed(m.name for m in materials) if materials else "that"
        return Answer(saying.sentence(f"I have no caution for {what}: see its safety data sheet"), lacks="a caution")
    return Answer(" ".join(texts), saying.listed(m.name for m in materials))
