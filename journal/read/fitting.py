"""Which value of the last steps a spoken correction means. Pure.

One is chosen only when exactly one fits, by what it measures, by what it is of, by its old value, or, for a bare
number among several, by being much the nearest. Else nothing is chosen and the reason is said: a foreman then asks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from journal.read.commands import Command, Measure, Said
from journal.record import Evidence, Step

# A bare number means the nearest of several only when it is within this factor, and the next is that much farther.
NEAR = Fraction(2)
CLEARLY = Fraction(3, 2)
# A bare number farther than this from the only value there is was hardly meant for it, or was misheard.
FAR = Fraction(10)
# What one of a unit's word is in the unit that is kept; a unit that is not here takes no bare number.
_SCALES: tuple[tuple[str, int], ...] = (
    (r"kilos?|kilograms?|kgs?|lit(?:re|er)s?", 1000),
    (r"g|grams?|grammes?|mls?|mil|mils|millilit(?:re|er)s?|cc|percent|%|mm|millimet(?:re|er)s?", 1),
    (r"hours?|hrs?", 3600),
    (r"minutes?|mins?", 60),
    (r"seconds?|secs?", 1),
    (r"days?", 86400),
)


@dataclass(frozen=True, slots=True)
class Slot:
    """One value of a step: its path in the record, what it measures, the value, its unit or kind, what it is of.

    `scale` is what one of the unit that was said is in the unit kept; None when that is not known.
    """

    step: int
    path: str
    measure: Measure
    value: Any
    unit: str | None
    of: str
    scale: Fraction | None = Fraction(1)
    ranged: bool = False


@dataclass(frozen=True, slots=True)
class Fit:
    """What a correction changes: which of the steps, the changes by path, and the old value as it stood."""

    step: int
    changes: dict[str, Any]
    slot: Slot


class NoFit(Exception):
    """No value fits, or several do; the message says which, for the query."""


def fitting(steps: Sequence[Step], command: Command) -> Fit:
    """Return what a correction means among the steps of the note before it. Raises NoFit."""
    new = command.new
    assert new is not None  # a correction has a value
    slots = [slot for number, step in enumerate(steps) for slot in slots_of(number, step)]
    fit = [slot for slot in slots if _measures(slot, new)]
    if command.of is not None:
        fit = [slot for slot in fit if _is_of(slot, command.of)]
    if command.old is not None:
        fit = [slot for slot in fit if _had(slot, command.old)]
    elif len(fit) > 1 and isinstance(new.value, Fraction):
        fit = _nearest(fit, new)
    elif len(fit) == 1 and new.measure == "number" and (_factor(fit[0], new) or 0) > FAR:
        raise NoFit(f"it is far from the {_called(fit[0])} that was said")
    if not fit:
        raise NoFit("nothing that was said before fits it")
    if len(fit) > 1:
        raise NoFit(f"it could be the {' or the '.join(dict.fromkeys(_called(slot) for slot in fit))}")
    return Fit(fit[0].step, _changes(fit[0], new, steps[fit[0].step]), fit[0])


def slots_of(number: int, step: Step) -> Iterator[Slot]:
    """Return every value of a step that a spoken correction can mean; `number` is the step's place in its note."""
    yield from _material_slots(number, step)
    yield from _layer_slots(number, step)
    for i, timing in enumerate(step.timings):
        if timing.least is not None and timing.least == timing.most:
            scale = _scale(timing.evidence, None)
            yield Slot(number, f"timings.{i}.seconds", "seconds", timing.least, None, timing.kind, scale)
    for i, condition in enumerate(step.conditions):
        yield Slot(number, f"conditions.{i}.value", "condition", condition.value, condition.kind, condition.kind)
    if step.ratio is not None and not step.ratio.derived:
        yield Slot(number, "ratio", "ratio", step.ratio.parts, step.ratio.by, "ratio")
    for i, place in enumerate(step.places):
        yield Slot(number, f"places.{i}.text", "place", place.text, None, "place")


def _material_slots(number: int, step: Step) -> Iterator[Slot]:
    for i, use in enumerate(step.materials):
        if use.amount is not None:
            scale, ranged = _scale(use.evidence, use.unit), use.amount_most is not None
            yield Slot(number, f"materials.{i}.amount", "amount", use.amount, use.unit, use.name, scale, ranged)
        yield Slot(number, f"materials.{i}.name", "material", use.name, None, use.name)


def _layer_slots(number: int, step: Step) -> Iterator[Slot]:
    for i, layer in enumerate(step.layers):
        if layer.count is not None:
            yield Slot(number, f"layers.{i}.count", "layers", layer.count, None, layer.name)
        if layer.gsm is not None:
            yield Slot(number, f"layers.{i}.gsm", "areal", layer.gsm, None, layer.name)


def _scale(evidence: Evidence, unit: str | None) -> Fraction | None:
    if unit == "count":
        return Fraction(1)
    for pattern, scale in _SCALES:
        if re.search(rf"(?<![a-z])(?:{pattern})(?![a-z])", evidence.heard.lower()):
            return Fraction(scale)
    return None


def _measures(slot: Slot, new: Said) -> bool:
    """Whether a value can be what the new one measures."""
    if new.measure == "number":
        return slot.measure in ("amount", "layers", "areal", "seconds", "condition")
    if new.measure == "amount":
        return slot.measure == "amount" and slot.unit in (new.unit, None)
    if new.measure == "condition":
        return slot.measure == "condition" and slot.unit == new.unit
    return slot.measure == new.measure


def _is_of(slot: Slot, name: str) -> bool:
    mine, said = set(slot.of.lower().split()), set(name.lower().split())
    return said <= mine or mine <= said


def _kept(slot: Slot, said: Said) -> Fraction | None:
    """Return a number that was said as it would be kept in a slot; None when its unit cannot be told."""
    assert isinstance(said.value, Fraction)
    if said.measure != "number":
        return said.value
    return None if slot.scale is None else said.value * slot.scale


def _had(slot: Slot, old: Said) -> bool:
    """Whether a value is the one that is said to be wrong."""
    if isinstance(old.value, Fraction):
        return _measures(slot, old) and slot.value == _kept(slot, old)
    if isinstance(old.value, str):
        return slot.measure == old.measure and _is_of_words(str(slot.value), old.value)
    return bool(slot.measure == old.measure and slot.value == old.value)


def _is_of_words(mine: str, said: str) -> bool:
    return set(said.lower().split()) <= set(mine.lower().split())


def _factor(slot: Slot, said: Said) -> Fraction | None:
    kept = _kept(slot, said)
    if kept is None or kept <= 0 or slot.value <= 0:
        return None
    factor: Fraction = kept / slot.value
    return max(factor, 1 / factor)


def _nearest(slots: list[Slot], new: Said) -> list[Slot]:
    """Return the one slot whose value is clearly the nearest, else all of them."""
    factors = [_factor(slot, new) for slot in slots]
    if any(factor is None for factor in factors):
        return slots
    in_order = sorted(zip((f for f in factors if f is not None), range(len(slots)), strict=True))
    (best, first), (second, _) = in_order[:2]
    return [slots[first]] if best <= NEAR and second >= CLEARLY * best else slots


def _changes(slot: Slot, new: Said, step: Step) -> dict[str, Any]:
    if isinstance(new.value, Fraction):
        kept = _kept(slot, new)
        if kept is None:
            raise NoFit(f"the unit of the {_called(slot)} is not known: say the number with its unit")
        if slot.measure == "seconds":
            return {slot.path: [float(kept), float(kept)]}
        unit = {slot.path.removesuffix("amount") + "unit": new.unit} if new.measure == "amount" else {}
        most = {f"{slot.path}_most": None} if slot.ranged else {}
        return {slot.path: float(kept), **unit, **most}
    if slot.measure == "ratio":
        assert step.ratio is not None
        return {"ratio": {"parts": [float(part) for part in new.value], "by": new.unit or step.ratio.by}}
    return {slot.path: new.value}


def _called(slot: Slot) -> str:
    if slot.measure in ("amount", "layers", "areal"):
        return {"amount": "amount", "layers": "number", "areal": "weight"}[slot.measure] + f" of {slot.of}"
    return slot.of
