"""How far a plan has come: its steps ticked off by what was said, and where what was said is off the plan. Pure.

Nothing of this is kept: it is worked out from the build's steps each time, so that a correction counts at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from journal.find.planned_step import PlannedStep, PlannedUse, planned_from_json
from journal.keep.plan_views import PlanView
from journal.keep.views import StepView
from journal.record import Step
from journal.trade.material import Catalogue, name_key

State = Literal["open", "begun", "done", "left out", "skipped"]
_LIKE = {"weigh": "mix", "stipple": "brush", "spray": "brush", "wet out": "laminate"}
_SAME_ACT, _LIKE_ACT, _MATERIAL, _PLACE, _AWAY = 3.0, 2.0, 3.0, 1.0, 0.35
_LEAST = 3.0  # the act and some of the materials, or the act of the very next step
_ENOUGH = 0.95  # of an amount: what is short by more goes on
USUAL_TOLERANCE = 5.0  # percent: common practice, no published source
_SIDES = ({"left", "right"}, {"top", "bottom"}, {"upper", "lower"}, {"front", "back"}, {"inside", "outside"})
_JUDGED_UNITS = ("g", "ml", "m2", "percent", "count")


@dataclass(frozen=True, slots=True)
class Followed:
    """A planned step as it stands: the steps that tick it off, and how they differ from the plan, in words."""

    planned: PlannedStep
    state: State
    step_ids: tuple[int, ...] = ()
    off: tuple[str, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether nothing is left to do of it."""
        return self.state not in ("open", "begun")


@dataclass(frozen=True, slots=True)
class Progress:
    """A plan as it stands. `passed` are steps still open before the last one done; `beside` are ids of steps off it."""

    plan: PlanView
    steps: tuple[Followed, ...]
    next: Followed | None
    passed: tuple[Followed, ...]
    beside: tuple[int, ...]

    @property
    def done(self) -> int:
        """How many steps are settled."""
        return sum(step.settled for step in self.steps)

    def of_step(self, step_id: int) -> Followed | None:
        """Return the planned step that a step of the build ticks off."""
        return next((each for each in self.steps if step_id in each.step_ids), None)


@dataclass(slots=True)
class _Slot:
    planned: PlannedStep
    takes: list[StepView] = field(default_factory=list)
    state: State = "open"


def follow(plan: PlanView, steps: Iterable[StepView], catalogue: Catalogue) -> Progress:
    """Return how far a plan has come by the steps of its build that were recorded since it was started."""
    skipped = {skip.number for skip in plan.skips}
    slots = [_Slot(planned_from_json(record)) for record in plan.steps]
    for slot in slots:
        slot.state = "skipped" if slot.planned.number in skipped else "open"
    since = [step for step in steps if not step.withdrawn and step.recorded_at >= plan.started_at]
    beside = [step.id for step in _in_order(since) if not _tick(slots, step, catalogue)]
    last = max((i for i, slot in enumerate(slots) if slot.takes), default=-1)
    followed = tuple(_followed(slot, catalogue, i == last) for i, slot in enumerate(slots))
    still_open = [each for each in followed if not each.settled]
    ahead = [each for i, each in enumerate(followed) if not each.settled and (i > last or each.state == "begun")]
    following = next(iter(ahead or still_open), None)
    passed = tuple(each for each in followed[: last + 1] if each.state == "open" and each is not following)
    return Progress(plan, followed, following, passed, tuple(beside))


def _in_order(steps: Sequence[StepView]) -> list[StepView]:
    told = [step for step in steps if step.record.status in ("done", "not done")]
    return sorted(told, key=lambda step: (step.act_at, step.recorded_at, step.position))


# ---- which planned step it is ------------------------------------------------------------------------


def _tick(slots: Sequence[_Slot], step: StepView, catalogue: Catalogue) -> bool:
    """Give a step to the planned step that it fits best; return whether there is one."""
    following = next((i for i, slot in enumerate(slots) if _takes_more(slot, catalogue)), None)
    if following is None:
        return False
    fits = [
        (_fit(slot.planned, step, catalogue) - _AWAY * min(abs(i - following), 8), -i)
        for i, slot in enumerate(slots)
        if _takes_more(slot, catalogue) and _room_for(slot, step, catalogue)
    ]
    best, at = max(fits, default=(0.0, 0))
    if best < _LEAST - (_AWAY * 2 if step.record.status == "not done" else 0):
        return False
    slot = slots[-at]
    slot.takes.append(step)
    slot.state = "left out" if step.record.status == "not done" else "done"
    return True


def _takes_more(slot: _Slot, catalogue: Catalogue) -> bool:
    return slot.state == "open" or (slot.state == "done" and _short(slot, catalogue))


def _room_for(slot: _Slot, step: StepView, catalogue: Catalogue) -> bool:
    """Return whether a step may belong to a planned one: nothing has been, or it goes into what is still lacking."""
    if slot.state == "open":
        return True
    before, after = slot.takes, [*slot.takes, step]
    whole = _Slot(slot.planned, after)
    grew = False
    for use in slot.planned.uses:
        said, now = _said(_Slot(slot.planned, before), use, catalogue), _said(whole, use, catalogue)
        if use.amount and now is not None and now != said:
            grew = True
            if now > (use.amount_most or use.amount) * (2 - _ENOUGH):
                return False
    for layer in slot.planned.layers:
        laid = _laid(whole, layer.name)
        if layer.count and laid != _laid(slot, layer.name):
            grew = True
            if laid > layer.count:
                return False
    return grew


def _fit(planned: PlannedStep, step: StepView, catalogue: Catalogue) -> float:
    """Return how well a step fits a planned one, by act, materials and places; 0 when it is something else."""
    record = step.record
    if record.action == planned.action:
        score = _SAME_ACT
    elif _LIKE.get(record.action, record.action) == _LIKE.get(planned.action, planned.action):
        score = _LIKE_ACT
    else:
        return 0.0
    names, wanted = _meant(_names(record), catalogue), _meant(planned.names, catalogue)
    if names and wanted:
        shared = len(names & wanted) / min(len(names), len(wanted))
        if not shared:
            return 0.0
        score += _MATERIAL * shared
    places, where = _words(place.text for place in record.places), _words(planned.places)
    if places and where:
        score += _PLACE if _same_place(places, where) else -_PLACE
    return score


def _names(record: Step) -> list[str]:
    return [*(use.name for use in record.materials), *(layer.name for layer in record.layers)]


def _meant(names: Iterable[str], catalogue: Catalogue) -> set[str]:
    """Return names as the catalogue has them, with all that a general word may stand for."""
    meant: set[str] = set()
    for name in names:
        known = catalogue.get(name)
        general = catalogue.meant_by(name)
        meant |= {known.name} if known else {m.name for m in general} or {name_key(name)}
    return meant


def _words(texts: Iterable[str]) -> set[str]:
    return {word for text in texts for word in text.casefold().split()} - {"the", "of", "on", "by", "under", "in"}


def _same_place(one: set[str], other: set[str]) -> bool:
    """Return whether places may be the same: a word in common, and not the one side here and the other there."""
    sides = ((one & pair, other & pair) for pair in _SIDES)
    return bool(one & other) and not any(a and b and a != b for a, b in sides)


# ---- how it differs ----------------------------------------------------------------------------------


def _followed(slot: _Slot, catalogue: Catalogue, last: bool) -> Followed:
    ids = tuple(step.id for step in slot.takes)
    if slot.state != "done":
        return Followed(slot.planned, slot.state, ids)
    more = last and slot.planned.batches > len(slot.takes) and _short(slot, catalogue)
    state: State = "begun" if more else "done"
    off = [
        *(told for use in slot.planned.uses if (told := _amount_off(slot, use, catalogue, state))),
        *_layers_off(slot),
        *_places_off(slot),
        *_ratio_off(slot, catalogue),
        *(f"queried: {flag.why}" for step in slot.takes if not step.confirmed for flag in step.record.flags),
    ]
    return Followed(slot.planned, state, ids, tuple(dict.fromkeys(off)))


def _said(slot: _Slot, use: PlannedUse, catalogue: Catalogue) -> float | None:
    """Return what was said to go in of a material, over all steps taken; None when no amount was said in its unit."""
    wanted = _meant([use.name], catalogue)
    said = [
        float(each.amount)
        for step in slot.takes
        for each in step.record.materials
        if each.amount is not None and each.unit == use.unit and each.part == use.part
        and _meant([each.name], catalogue) & wanted
    ]  # fmt: skip
    return sum(said) if said else None


def _short(slot: _Slot, catalogue: Catalogue) -> bool:
    """Return whether what was said falls short of the plan, so that more of the same may belong to it."""
    layers = [(planned, _laid(slot, planned.name)) for planned in slot.planned.layers]
    if any(planned.count and laid and laid < planned.count for planned, laid in layers):
        return True
    amounts = [(use, _said(slot, use, catalogue)) for use in slot.planned.uses if use.unit in ("g", "ml", "m2")]
    return any(use.amount and said is not None and said < _ENOUGH * use.amount for use, said in amounts)


def _laid(slot: _Slot, name: str) -> float:
    counts = [layer.count for step in slot.takes for layer in step.record.layers if layer.name == name]
    return float(sum(count for count in counts if count is not None))


def _amount_off(slot: _Slot, use: PlannedUse, catalogue: Catalogue, state: State) -> str:
    said = _said(slot, use, catalogue)
    if said is None or not use.amount or use.unit not in _JUDGED_UNITS or state == "begun":
        return ""
    known = catalogue.get(use.name)
    bears = (known.tolerance_percent if known else None) or USUAL_TOLERANCE
    most = use.amount_most or use.amount
    nearest = min(max(said, use.amount), most)
    off = 100 * (said - nearest) / nearest
    if abs(off) <= bears:
        return ""
    side = "more" if off > 0 else "less"
    return f"{use.name}: {said:.6g} {use.unit}, planned {use.amount:.6g}, {abs(off):.0f} % {side}"


def _layers_off(slot: _Slot) -> Iterable[str]:
    for planned in slot.planned.layers:
        laid = _laid(slot, planned.name)
        if planned.count and laid and laid != planned.count:
            yield f"{planned.name}: {laid:g} laid, planned {planned.count:g}"
        heavy = {
            float(layer.gsm)
            for s in slot.takes
            for layer in s.record.layers
            if layer.name == planned.name and layer.gsm
        }
        if planned.gsm and heavy and heavy != {planned.gsm}:
            yield f"{planned.name}: {', '.join(f'{gsm:g}' for gsm in sorted(heavy))} g/m2, planned {planned.gsm:g}"


def _places_off(slot: _Slot) -> Iterable[str]:
    said = [place.text for step in slot.takes for place in step.record.places]
    if said and slot.planned.places and not _same_place(_words(said), _words(slot.planned.places)):
        yield f"on {', '.join(dict.fromkeys(said))}, planned on {', '.join(slot.planned.places)}"


def _ratio_off(slot: _Slot, catalogue: Catalogue) -> Iterable[str]:
    planned = slot.planned.ratio
    known = next((m for use in slot.planned.uses if (m := catalogue.get(use.name)) and m.reacts), None)
    bears = (known.tolerance_percent if known else None) or USUAL_TOLERANCE
    for step in slot.takes:
        said = step.record.ratio
        if said is None or len(planned) < 2 or len(said.parts) != len(planned) or not said.parts[0] or not planned[0]:
            continue
        for part, wanted in zip(said.parts[1:], planned[1:], strict=True):
            share, meant = 100 * float(part / said.parts[0]), 100 * wanted / planned[0]
            if meant and abs(share - meant) > bears / 100 * meant:
                yield f"100 to {share:.3g}, planned 100 to {meant:.3g}"
