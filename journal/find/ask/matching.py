"""Which steps a question about the past means. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from journal.find.ask import saying
from journal.find.ask.facts import Facts, OneBuild
from journal.find.ask.question import Question
from journal.find.coats import COAT_ACTS, coats, in_order
from journal.find.first_uses import names_of
from journal.keep.views import StepView
from journal.trade.material import name_key

_SMALL = frozenset("the a an of on in under by and at to".split())
_LEADING = ("by ", "under ", "around ", "behind ", "inside ", "over ", "both ", "all ", "along ", "below ", "above ")
_BATCHED = ("mix", "weigh", "thicken", "tint", "wall", "cut")
_LAID = ("laminate", "brush", "stipple", "spray", "release", "seal", "fill", "pour", "press", "fit")


def on_place(step: StepView, places: Iterable[str]) -> bool:
    """Return whether a step was on one of the places: "flange" is on the "left flange" too."""
    return any(_same_place(place, said.text) for place in places for said in step.record.places)


def _same_place(asked: str, said: str) -> bool:
    wanted, given = (set(re.findall(r"\w+", text.casefold())) - _SMALL for text in (asked, said))
    return bool(wanted) and wanted <= given


def names_in(facts: Facts, build: OneBuild) -> dict[int, list[str]]:
    """Return the names of the materials and layers of each step, and what "it" was where a coat names nothing."""
    done = in_order(build.steps, facts.now)
    meant = {coat.step.id: coat.material.name for coat in coats(done, facts.catalogue)}
    found = {}
    for step in build.steps:
        own = names_of(step)
        found[step.id] = own or ([meant[step.id]] if step.id in meant else [])
    return found


def on_day(step: StepView, question: Question, facts: Facts) -> bool:
    """Return whether a step was done on the day of the question ("yesterday"), or no day was asked for."""
    day = step.act_at.astimezone(facts.now.tzinfo).date()
    return question.days_ago is None or (facts.now.date() - day).days == question.days_ago


def spoken_by(question: Question, facts: Facts) -> str | None:
    """Return whom the question names of those who spoke the notes ("the apprentice")."""
    speakers = {who for build in (facts.build, *facts.earlier) for who in build.speakers.values()}
    return next((who for who in sorted(speakers) if who.casefold() in question.plain), None)


def matching(question: Question, facts: Facts, build: OneBuild, acts: Sequence[str] = ()) -> list[StepView]:
    """Return the steps done that fit the acts, materials and places of a question, in the order of the acts.

    What fits nothing of a kind is let go in this order: acts, then nothing. An ordinal picks that one of the coats.
    """
    wanted = set(acts or question.acts)
    names = {name_key(m.name) for m in facts.meant(question.materials)} | {name_key(n) for n in question.materials}
    by_step, told_by = names_in(facts, build), spoken_by(question, facts)
    fitting = [
        step
        for step in in_order(build.steps, facts.now)
        if (not names or names & {name_key(name) for name in by_step[step.id]})
        and (not question.places or on_place(step, question.places))
        and on_day(step, question, facts)
        and (told_by is None or facts.who(step) == told_by)
    ]
    acting = [step for step in fitting if step.record.action in wanted]
    if wanted and not acting and not names and not question.places:
        return []
    found = acting if acting else fitting
    coated = [step for step in found if step.record.action in COAT_ACTS]
    if question.ordinal is not None and coated:
        return coated[question.ordinal - 1 : question.ordinal]
    return found


def found_in(question: Question, facts: Facts, acts: Sequence[str] = ()) -> tuple[OneBuild, list[StepView]] | None:
    """Return the latest build with steps that fit, and those steps: this build first, then the mould's earlier ones."""
    builds = facts.earlier if question.earlier else (facts.build, *facts.earlier)
    for build in builds:
        steps = matching(question, facts, build, acts)
        if steps:
            return build, steps
    return None


def laid_on(question: Question, facts: Facts) -> tuple[OneBuild, list[StepView]] | None:
    """Return the latest steps that put something on the places of a question, and their build."""
    found = found_in(question, facts)
    if found is None:
        return None
    build, steps = found
    if not (question.places or question.materials or question.acts):
        return build, steps  # "what did we do last"
    by_step = names_in(facts, build)
    laid = [step for step in steps if step.record.action in _LAID and by_step[step.id]]
    return build, laid or steps


def on_build(build: OneBuild, facts: Facts) -> str:
    """Return ", on niche-2" for another build than the one asked about."""
    return "" if build.view.id == facts.build.view.id else f", on {build.view.key}"


def described(step: StepView, names: Sequence[str]) -> str:
    """Return a step in few words: "2 layers of 450 chopped strand mat on the left half and flange"."""
    record = step.record
    if record.action not in (*_LAID, *_BATCHED):
        return f"{record.action}{where(step)}"
    parts = []
    for layer in record.layers:
        fabric = f"{saying.plain(float(layer.gsm))} {layer.name}" if layer.gsm else layer.name
        noun = "layer" if record.action == "laminate" or layer.gsm else "coat"
        parts.append(f"{saying.counted(float(layer.count), noun)} of {fabric}" if layer.count else fabric)
    layered = {layer.name for layer in record.layers}
    for use in record.materials:
        if use.name not in layered:
            weight = f"{saying.quantity(float(use.amount), use.unit)} of " if use.amount else ""
            parts.append(f"{weight}{use.name}")
    return f"{saying.listed(parts or list(names) or [record.action])}{where(step)}"


def where(step: StepView) -> str:
    """Return " on the left half and by the hinge"."""
    places = [place.text for place in step.record.places]
    told = [text if text.casefold().startswith(_LEADING) else f"on the {text}" for text in places]
    return f" {saying.listed(told)}" if told else ""
