"""How a plan is told, for the eye and for the ear: the next step, how far it is, and what is off it. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from journal.find.ask import saying
from journal.find.ask.facts import Answer
from journal.find.follow import Followed, Progress
from journal.find.planned_step import PlannedLayer, PlannedStep, PlannedUse

_VERBS = {"release": "put on", "wall": "build the wall with", "seal": "seal with", "fit": "fit", "fill": "fill with"}
_COATED = ("seal", "release", "brush", "stipple", "spray", "pour")
_LEADING = ("by ", "under ", "around ", "behind ", "inside ", "over ", "both ", "all ", "along ", "below ", "above ")


def planned_words(step: PlannedStep) -> str:
    """Return a planned step in one breath: "mix 1050 grams of polyester gel coat and 21 grams of catalyst"."""
    layered = {layer.name for layer in step.layers}
    parts = [_layer(layer, step.action) for layer in step.layers]
    parts += [_use(use) for use in step.uses if use.name not in layered]
    told = f"{_VERBS.get(step.action, step.action)} {saying.listed(parts)}" if parts else step.action
    told += _where(step.places)
    told += f", {saying.parts(step.ratio)}" if len(step.ratio) > 1 and not _all_weighed(step) else ""
    told += f", in {step.batches} pots of {_each(step)}" if step.batches > 1 else ""
    lasting = [_lasting(kind, least, most) for kind, least, most in step.timings]
    if lasting and lasting[0].startswith(f"{told} "):  # "wait", "wait 60 minutes"
        told, lasting = lasting[0], lasting[1:]
    return ", ".join([told, *lasting])


def _all_weighed(step: PlannedStep) -> bool:
    return sum(use.amount is not None for use in step.uses) >= len(step.ratio)


def _each(step: PlannedStep) -> str:
    each = [weight(use.amount / step.batches, use.unit) for use in step.uses if use.amount]
    return saying.listed(each)


def _use(use: PlannedUse) -> str:
    name = use.name + (f" part {use.part}" if use.part else "")
    if use.amount is None:
        return name
    if use.unit is None:
        return f"{saying.plain(use.amount)}, no unit said, of {name}"
    most = f" to {weight(use.amount_most, use.unit)}" if use.amount_most else ""
    return f"{weight(use.amount, use.unit)}{most} of {name}"


def weight(amount: float, unit: str | None) -> str:
    """Return an amount as it is to be weighed, not rounded any more: "1050 grams"."""
    return f"{saying.plain(amount)} {saying.UNITS.get(unit or '', unit or '')}".strip()


def _layer(layer: PlannedLayer, action: str) -> str:
    fabric = f"{saying.plain(layer.gsm)} {layer.name}" if layer.gsm else layer.name
    noun = "coat" if action in _COATED and not layer.gsm else "layer"
    return f"{saying.counted(layer.count, noun)} of {fabric}" if layer.count else fabric


def _where(places: Iterable[str]) -> str:
    told = [text if text.casefold().startswith(_LEADING) else f"on the {text}" for text in places]
    return f" {saying.listed(told)}" if told else ""


def _lasting(kind: str, least: float | None, most: float | None) -> str:
    spans = [saying.plain(s / 60) if s < 5400 else saying.plain(s / 3600) for s in (least, most) if s]
    unit = "minutes" if all(s < 5400 for s in (least, most) if s) else "hours"
    if not spans:
        return kind
    if least is None or most is None:
        return f"{kind} {'at least' if least else 'up to'} {spans[0]} {unit}"
    return f"{kind} {spans[0]} {unit}" if least == most else f"{kind} {spans[0]} to {spans[1]} {unit}"


# ---- what comes next ---------------------------------------------------------------------------------


def next_words(progress: Progress) -> str:
    """Return what is next in a plan, as it is read aloud."""
    return next_answer(progress).text


def next_answer(progress: Progress) -> Answer:
    """Answer "what's next" on a build with a plan; the evidence are the recipe's step and those done of it."""
    following, count = progress.next, len(progress.steps)
    if following is None:
        return Answer(f"The plan is done, all {count} steps of it.", f"plan from {progress.plan.recipe_key}")
    step = following.planned
    text = f"{_opening(following, count)}: {planned_words(step)}."
    text += f" {saying.sentence(step.cues[0])}" if step.cues else ""
    text += "".join(f" Mind: {saying.sentence(words)}" for words in step.warnings)
    doubts = (*step.doubts, *(doubt for use in step.uses for doubt in use.doubts))
    text += "".join(f" Check first: {saying.sentence(words)}" for words in doubts)
    kept = [f"{use.name} is as in the recipe: {use.kept_why}" for use in step.uses if use.kept_why]
    text += "".join(f" {saying.sentence(words)}" for words in kept)
    if progress.passed:
        still = saying.listed(f"step {each.planned.number}, {each.planned.action}" for each in progress.passed)
        text += f" Still open before it: {still}."
    numbers = {"step": float(step.number), "steps": float(count), "done": float(progress.done)}
    evidence = (step.step_id, *following.step_ids)
    return Answer(text, f"plan from {progress.plan.recipe_key}", numbers=numbers, evidence=evidence)


def _opening(following: Followed, count: int) -> str:
    step = following.planned
    if following.state != "begun":
        return f"Next, step {step.number} of {count}"
    return f"Go on with step {step.number} of {count}, pot {len(following.step_ids) + 1} of {step.batches}"


def ticked_words(progress: Progress, step_ids: Iterable[int]) -> str:
    """Return what steps just read tick off, what is off the plan, and what is next; "" when they touch no plan."""
    ids = set(step_ids)
    ticked = [each for each in progress.steps if ids & set(each.step_ids)]
    if not ticked:
        return ""
    told = []
    for each in ticked:
        how = {"begun": "begun", "left out": "left out"}.get(each.state, "done")
        told.append(
            f"Step {each.planned.number} {how}" + (f", off the plan: {'; '.join(each.off)}" if each.off else "")
        )
    return f"{'. '.join(told)}. {next_words(progress)}"
