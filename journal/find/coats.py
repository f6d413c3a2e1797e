"""What was mixed and what was put on in a build, in the order of the acts: the ground that clocks run on. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from journal.keep.views import StepView
from journal.record import MaterialUse, Step
from journal.trade.material import Catalogue, Material

MIX_ACTS = ("mix", "weigh")
COAT_ACTS = ("seal", "release", "brush", "stipple", "spray", "laminate")
WET_ACTS = (*COAT_ACTS, "fill")
OPENING_ACTS = ("demould", "pull")  # whatever goes on afterwards lies on a bare face
SECOND_KINDS = ("hardener", "catalyst", "accelerator")
_SKINS = ("release", "sealer", "latex")
_SHOP_MOST_C = 45.0  # a shop that is warmer is an oven


@dataclass(frozen=True, slots=True)
class Mixed:
    """A batch: its step, its main material and how much of it, its second part and how much of that."""

    step: StepView
    material: Material
    main: MaterialUse
    second: MaterialUse | None


@dataclass(frozen=True, slots=True)
class Coat:
    """Something put on: its step, the material that has to dry or set, where, and whether it is a layer of glass.

    Putty or paste that fills an undercut goes on the coat below in its time, but does not cover it: `covers` is False.
    """

    step: StepView
    material: Material
    places: frozenset[str]
    glass: bool
    covers: bool = True

    def lies_on(self, below: Coat) -> bool:
        """Return whether it may lie on that earlier coat: the same place, or a place that was not said."""
        return not self.places or not below.places or bool(self.places & below.places)


def in_order(steps: Iterable[StepView], now: datetime) -> list[StepView]:
    """Return the steps done until now, in the order of the acts."""
    done = [step for step in steps if step.record.status == "done" and not step.withdrawn and step.act_at <= now]
    return sorted(done, key=lambda step: (step.act_at, step.recorded_at, step.position))


def main_use(step: Step, catalogue: Catalogue) -> tuple[Material, MaterialUse] | None:
    """Return the material that a batch is mainly made of: the resin, rubber or plaster, never its second part."""
    for use in step.materials:
        material = catalogue.get(use.name)
        if material is not None and use.part != "B" and (material.reacts or material.kind == "plaster"):
            return material, use
    return None


def second_use(step: Step, main: Material, catalogue: Catalogue) -> MaterialUse | None:
    """Return the second part of a batch: part B, the catalogue's second part, or any hardener or catalyst."""
    for use in step.materials:
        material = catalogue.get(use.name)
        if (use.name == main.name and use.part == "B") or use.name == main.second_part:
            return use
        if material is not None and material.kind in SECOND_KINDS:
            return use
    return None


def mixes(steps: Sequence[StepView], catalogue: Catalogue) -> list[Mixed]:
    """Return the batches of steps that are in order."""
    found = []
    for step in steps:
        named = main_use(step.record, catalogue) if step.record.action in MIX_ACTS else None
        if named is not None:
            found.append(Mixed(step, *named, second_use(step.record, named[0], catalogue)))
    return found


def coats(steps: Sequence[StepView], catalogue: Catalogue) -> list[Coat]:
    """Return what was put on, of steps that are in order; "brushed it on" is what was mixed last."""
    batches = mixes(steps, catalogue)
    found = []
    for step in steps:
        if step.record.action not in WET_ACTS:
            continue
        names = [use.name for use in step.record.materials] + [layer.name for layer in step.record.layers]
        named = [material for name in names if (material := catalogue.get(name)) is not None]
        glass = any(material.is_fabric for material in named)
        pasty = step.record.action == "fill" and all(material.kind == "filler" for material in named)
        material = _that_sets(named) or (_mixed_before(step, batches) if glass or pasty or not named else None)
        if material is not None:
            found.append(Coat(step, material, places_of(step.record), glass, step.record.action != "fill"))
    return found


def places_of(step: Step) -> frozenset[str]:
    """Return the places of a step, without regard to capitals."""
    return frozenset(place.text.casefold() for place in step.places)


def _that_sets(named: Sequence[Material]) -> Material | None:
    """Return the last material named that dries or sets: it is on top."""
    setting = [material for material in named if material.reacts or material.kind in _SKINS]
    return setting[-1] if setting else None


def _mixed_before(step: StepView, batches: Sequence[Mixed]) -> Material | None:
    earlier = [batch.material for batch in batches if batch.step.act_at <= step.act_at and batch.material.reacts]
    return earlier[-1] if earlier else None


def shop_temperatures(steps: Iterable[StepView]) -> list[tuple[datetime, float]]:
    """Return when the shop was said to have how many degC; ovens, resins and post-cures are not the shop."""
    return [
        (step.act_at, float(condition.value))
        for step in steps
        if step.record.action != "post-cure"
        for condition in step.record.conditions
        if condition.kind == "temperature" and condition.of in (None, "shop") and condition.value <= _SHOP_MOST_C
    ]
