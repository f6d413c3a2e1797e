"""Answers from the record: what went where, which layer, who, when, by which ratio and lot, how it turned out. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import timedelta

from journal.find.ask import saying
from journal.find.ask.days import day_told
from journal.find.ask.facts import Answer, Facts, OneBuild
from journal.find.ask.matching import (
    described,
    found_in,
    laid_on,
    matching,
    names_in,
    on_build,
    on_day,
    on_place,
    spoken_by,
)
from journal.find.ask.question import Question
from journal.find.ask.ratios import flags_of
from journal.find.coats import COAT_ACTS, Mixed, in_order, mixes
from journal.find.recipe import totals_of
from journal.keep.views import StepView

_LAST = re.compile(r"\b(?:last|today|yesterday|this morning)\b")
_FABRIC_WORDS = re.compile(r"\b(?:layers?|ply|plies)\b")


def put_on(question: Question, facts: Facts) -> Answer:
    """Answer "what did we put on the flange last time"."""
    told_by = spoken_by(question, facts)
    if not (
        question.places
        or question.materials
        or question.acts
        or told_by
        or _LAST.search(question.plain)
        or question.days_ago
    ):
        return not_understood(question)
    found = laid_on(question, facts)
    planned = _planned_there(question, facts)
    if found is None:
        if planned:
            return Answer(saying.sentence(f"nothing yet; {planned[0]}"), evidence=planned[1])
        return _nothing(question, facts)
    build, steps = found
    if question.days_ago is not None and not question.ordinal:
        return day_told(build, steps, facts)
    last = steps[-1]
    names = names_in(facts, build)
    same = [last] if question.ordinal else [s for s in steps if s.note_id == last.note_id]
    told = saying.listed(dict.fromkeys(described(step, names[step.id]) for step in same))
    who = facts.who(last)
    text = f"{told}, {saying.moment(last.act_at, facts.now)}{f' by the {who}' if who else ''}{on_build(build, facts)}"
    flagged = [flag.why for step in same if not step.confirmed for flag in step.record.flags]
    text += f"; flagged: {'; '.join(flagged)}" if flagged else ""
    text += f"; {planned[0]}" if planned else ""
    numbers = _numbers(same)
    return Answer(saying.sentence(text), numbers=numbers, evidence=tuple(step.id for step in same))


def _planned_there(question: Question, facts: Facts) -> tuple[str, tuple[int, ...]] | None:
    if not question.places or question.earlier:
        return None
    planned = [s for s in facts.known if s.record.status == "planned" and on_place(s, question.places)]
    last_done = max((s.act_at for s in facts.done if on_place(s, question.places)), default=None)
    coming = [s for s in planned if last_done is None or s.recorded_at > last_done]
    if not coming:
        return None
    return f"planned is {described(coming[-1], [])}", (coming[-1].id,)


def _numbers(steps: Sequence[StepView]) -> dict[str, float]:
    layers = [layer for step in steps for layer in step.record.layers]
    numbers = {"layers": float(sum(x.count for x in layers if x.count))} if any(x.count for x in layers) else {}
    gsm = [layer.gsm for layer in layers if layer.gsm]
    return numbers | ({"gsm": float(gsm[-1])} if gsm else {})


def _nothing(question: Question, facts: Facts) -> Answer:
    what = saying.listed((*question.materials, *(f"the {place}" for place in question.places)))
    on = f" about {what}" if question.materials or question.places else ""
    if question.days_ago is not None:
        on += f" {saying.day(facts.now - timedelta(days=question.days_ago), facts.now)}"
    return Answer(
        saying.sentence(
            f"nothing is logged{on} on {facts.build.view.key}, nor on earlier builds of the {facts.mould.key}"
        ),
        lacks=f"a step that fits{on}",
    )


def layer_on(question: Question, facts: Facts) -> Answer:
    """Answer "what layer are we on" and "how many coats of gel coat are on"."""
    coats_meant = not _FABRIC_WORDS.search(question.plain)
    named = facts.meant(question.materials)
    steps = [step for step in matching(question, facts, facts.build, COAT_ACTS) if step.record.action in COAT_ACTS]
    names = names_in(facts, facts.build)
    counted: dict[str, float] = {}
    evidence: list[int] = []
    for step in steps:
        for name, count, gsm in _laid(step, names[step.id]):
            material = facts.material(name)
            if material is None or (question.gsm is not None and gsm != question.gsm):
                continue
            if material not in named if named else material.is_fabric == coats_meant:
                continue
            label = f"{saying.plain(gsm)} {name}" if gsm else name
            counted[label] = counted.get(label, 0.0) + count
            evidence.append(step.id)
    place = f" on the {question.places[0]}" if question.places else ""
    if not counted:
        noun = "coat" if coats_meant else "layer"
        return Answer(
            saying.sentence(f"no {noun} is logged{place} on {facts.build.view.key}"), lacks=f"a {noun}{place}"
        )
    noun = "coat" if coats_meant else "layer"
    told = saying.listed(f"{saying.counted(count, noun)} of {label}" for label, count in counted.items())
    total = sum(counted.values())
    text = f"{told} {'is' if total == 1 else 'are'}{place or ' on'}, so the next is number {saying.plain(total + 1)}"
    return Answer(saying.sentence(text), numbers={f"{noun}s": total}, evidence=tuple(dict.fromkeys(evidence)))


def _laid(step: StepView, names: Sequence[str]) -> list[tuple[str, float, float | None]]:
    """Return (name, count, g/m2) of what a step put on; a coat whose number was not said counts as one."""
    layers = [(x.name, float(x.count or 1), float(x.gsm) if x.gsm else None) for x in step.record.layers]
    named = {name for name, _, _ in layers}
    return layers + [(name, 1.0, None) for name in dict.fromkeys(names) if name not in named and not layers]


def release_coats(question: Question, facts: Facts) -> Answer:
    """Answer "how many coats of wax", each time that they went on."""
    wanted = {m.name for m in facts.meant(question.materials)}
    for build in (facts.build, *facts.earlier):
        steps = [s for s in matching(question, facts, build) if _coats_of(s, wanted)]
        if steps:
            break
    else:
        return _nothing(question, facts)
    told = []
    for step in steps:
        count, name = _coats_of(step, wanted)[0]
        told.append(f"{saying.counted(count, 'coat')} of {name} {saying.day(step.act_at, facts.now)}")
    total = sum(_coats_of(step, wanted)[0][0] for step in steps)
    text = f"{saying.listed(told)}{on_build(build, facts)}"
    return Answer(saying.sentence(text), numbers={"coats": total}, evidence=tuple(step.id for step in steps))


def _coats_of(step: StepView, wanted: set[str]) -> list[tuple[float, str]]:
    return [(float(x.count), x.name) for x in step.record.layers if x.count and (not wanted or x.name in wanted)]


def who_did(question: Question, facts: Facts) -> Answer:
    """Answer "who brushed the second gel coat"."""
    found = found_in(question, facts)
    if found is None or not (question.acts or question.materials or question.places):
        return _nothing(question, facts)
    build, steps = found
    step = steps[-1]
    who = facts.who(step)
    what = described(step, names_in(facts, build)[step.id])
    when = saying.moment(step.act_at, facts.now)
    if who is None:
        return Answer(
            saying.sentence(f"nobody said who: {what}, {when}{on_build(build, facts)}"),
            lacks="a name: the note was sent without one",
            evidence=(step.id,),
        )
    return Answer(saying.sentence(f"the {who}: {what}, {when}{on_build(build, facts)}"), evidence=(step.id,))


def when_done(question: Question, facts: Facts) -> Answer:
    """Answer "when did we demould"."""
    if re.search(r"\b(?:start|begin|began|begun)", question.plain) and not question.materials:
        at = facts.build.view.started_at
        return Answer(saying.sentence(f"{facts.build.view.key} was begun {saying.moment(at, facts.now)}"))
    found = found_in(question, facts)
    if found is None or not (question.acts or question.materials or question.places):
        return _nothing(question, facts)
    build, steps = found
    step = steps[-1]
    ago = saying.lasting(facts.now - step.act_at)
    what = described(step, names_in(facts, build)[step.id])
    text = f"{saying.moment(step.act_at, facts.now)}, {ago} ago{on_build(build, facts)}: {what}"
    numbers = {"ago_s": (facts.now - step.act_at).total_seconds()}
    return Answer(saying.sentence(text), numbers=numbers, evidence=(step.id,))


def _last_batch(question: Question, facts: Facts) -> tuple[OneBuild, Mixed] | None:
    """Return the latest batch of the materials asked about, on this build or an earlier one."""
    wanted = [m for m in facts.meant(question.materials) if m.reacts or m.kind == "plaster"]
    for build in facts.earlier if question.earlier else (facts.build, *facts.earlier):
        done = [s for s in build.steps if s.record.status == "done" and s.act_at <= facts.now]
        fitting = [b for b in mixes(done, facts.catalogue) if not wanted or b.material in wanted]
        fitting = [b for b in fitting if not question.places or on_place(b.step, question.places)] or fitting
        if fitting:
            return build, fitting[-1]
    return None


def ratio_used(question: Question, facts: Facts) -> Answer:
    """Answer "what ratio did we use"."""
    found = _last_batch(question, facts)
    if found is None:
        return _nothing(question, facts)
    build, batch = found
    ratio = batch.step.record.ratio
    when = f"{saying.moment(batch.step.act_at, facts.now)}{on_build(build, facts)}"
    if ratio is None:
        return Answer(
            saying.sentence(f"no ratio was said for the {batch.material.name} mixed {when}"),
            lacks=f"a ratio, or both weights, of the {batch.material.name}",
            evidence=(batch.step.id,),
        )
    how = "worked out from the weights" if ratio.derived else "as said"
    parts = saying.parts([float(part) for part in ratio.parts])
    text = f"{parts}{f' by {ratio.by}' if ratio.by else ''} for the {batch.material.name} mixed {when}, {how}"
    numbers = {f"part_{letter}": float(part) for letter, part in zip("abc", ratio.parts, strict=False)}
    return Answer(saying.sentence(text + flags_of(batch)), how, numbers=numbers, evidence=(batch.step.id,))


def lot_used(question: Question, facts: Facts) -> Answer:
    """Answer "which lot of hardener did we use"."""
    wanted = {m.name for m in facts.meant(question.materials)} | set(question.materials)
    for build in facts.earlier if question.earlier else (facts.build, *facts.earlier):
        for step in reversed(matching(question, facts, build)):
            for use in step.record.materials:
                if use.lot and (not wanted or use.name in wanted):
                    when = f"{saying.moment(step.act_at, facts.now)}{on_build(build, facts)}"
                    text = f"lot {' '.join(use.lot) if use.lot.isdigit() else use.lot} of {use.name}, {when}"
                    return Answer(saying.sentence(text), f"lot {use.lot}", evidence=(step.id,))
    what = saying.listed(question.materials) if question.materials else "anything"
    return Answer(saying.sentence(f"no lot of {what} was said"), lacks=f"a lot: none was said of {what}")


def conditions(question: Question, facts: Facts) -> Answer:
    """Answer "what temperature was it", of the shop or of an act."""
    kinds = [k for k, word in (("temperature", "temp|warm|cold|hot|degree"), ("humidity", "humid|damp")) if
             re.search(word, question.plain)] or ["temperature", "humidity"]  # fmt: skip
    for build in facts.earlier if question.earlier else (facts.build, *facts.earlier):
        steps = [s for s in matching(question, facts, build) if _conditions_of(s, kinds)]
        if not steps and build is facts.build:
            steps = [s for s in facts.done if _conditions_of(s, kinds) and s.record.action != "post-cure"]
        if steps:
            step = steps[-1]
            told, numbers = _conditions_of(step, kinds), {}
            for kind, value, _ in told:
                numbers[kind] = value
            words = saying.listed(f"{saying.number(value)} {unit}" for _, value, unit in told)
            text = f"{words}, said {saying.moment(step.act_at, facts.now)}{on_build(build, facts)}"
            return Answer(saying.sentence(text), numbers=numbers, evidence=(step.id,))
    return Answer(saying.sentence(f"no {saying.listed(kinds)} was said"), lacks=f"{saying.listed(kinds)}: say it once")


def _conditions_of(step: StepView, kinds: Sequence[str]) -> list[tuple[str, float, str]]:
    units = {"degC": "degrees", "percent": "percent humidity"}
    found = step.record.conditions
    return [(c.kind, float(c.value), units.get(c.unit, c.unit)) for c in found if c.kind in kinds]


def used(question: Question, facts: Facts) -> Answer:
    """Answer "how much gel coat did we mix", summed over the build."""
    wanted = {m.name for m in facts.meant(question.materials)} | set(question.materials)
    for build in facts.earlier if question.earlier else (facts.build, *facts.earlier):
        done = [s for s in in_order(build.steps, facts.now) if on_day(s, question, facts)]
        totals = [total for total in totals_of(done) if not wanted or total.name in wanted]
        if totals:
            told = saying.listed(f"{saying.quantity(t.amount, t.unit)} of {t.name}" for t in totals)
            lacking = [t for t in totals if t.without_amount]
            text = f"{told} in all{on_build(build, facts)}"
            text += f", and {len(lacking[0].without_amount)} more without a weight" if lacking else ""
            flagged = [flag.why for t in totals for flag in t.flags]
            text += f"; flagged: {'; '.join(dict.fromkeys(flagged))}" if flagged else ""
            numbers = {f"{t.name}_{t.unit}": t.amount for t in totals}
            ids = tuple(dict.fromkeys(step_id for t in totals for step_id in t.step_ids))
            return Answer(saying.sentence(text), numbers=numbers, evidence=ids)
    what = saying.listed(question.materials) if question.materials else "anything"
    return Answer(saying.sentence(f"no weight of {what} was said"), lacks=f"a weight of {what}")


def between(question: Question, facts: Facts) -> Answer:
    """Answer "how long between the coats of shellac" and "how long did we post-cure"."""
    for build in facts.earlier if question.earlier else (facts.build, *facts.earlier):
        steps = [s for s in matching(question, facts, build) if any(t.least or t.most for t in s.record.timings)]
        if steps:
            step, timing = steps[-1], steps[-1].record.timings[0]
            least, most = timing.least or timing.most, timing.most
            words = saying.lasting(timedelta(seconds=float(least or 0)))
            if most is not None and most != least:
                words += f" to {saying.lasting(timedelta(seconds=float(most)))}"
            what = described(step, names_in(facts, build)[step.id])
            text = f"{words}: {timing.kind}, {what}, {saying.day(step.act_at, facts.now)}{on_build(build, facts)}"
            return Answer(saying.sentence(text), numbers={"seconds": float(least or 0)}, evidence=(step.id,))
    return Answer("No such time was said.", lacks="a time: none was said of that")


def not_understood(question: Question) -> Answer:
    """Say that a question was not understood, and what can be asked."""
    return Answer(
        "I did not understand that: ask how much, how long, when, who, what ratio, or what went where.",
        lacks=f"a question that I know: {question.text!r} fits none",
    )
