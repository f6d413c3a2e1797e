"""A recipe scaled to the piece at hand: what follows the area or the volume is multiplied, and the rest says why not.

Pure. A ratio that was weighed is kept: each part is multiplied alike and then rounded to what the scale shows. What
was queried, or heard in doubt, stays in doubt; a number without a unit is never scaled.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from journal.find.coats import SECOND_KINDS
from journal.find.planned_step import PlannedLayer, PlannedStep, PlannedUse
from journal.find.recipe import Recipe
from journal.keep.views import StepView
from journal.record import MaterialUse
from journal.trade.limits import TradeError, positive, within
from journal.trade.material import Catalogue, Material
from journal.trade.mix import MixRatio, batches, deviation_percent

By = Literal["area", "volume", "times", "as it was"]
RESOLUTION_G = 0.1  # common practice, no published source: bench scales for small parts of a mix show a tenth
USUAL_TOLERANCE = 5.0  # percent: common practice, no published source
_MIXED = ("mix", "weigh", "thicken", "tint", "degas")
_POURED_KINDS = frozenset({"silicone", "urethane rubber", "urethane resin", "latex", "plaster"})
_MEASURED_KINDS = _POURED_KINDS - {"plaster"}  # what set plaster takes up is not the volume of what was weighed
_LEFT_OUT = frozenset({"repair", "pull", "photograph", "store"})
_WEIGHED_UNITS = frozenset({"g", "ml", "m2"})
_QUERIED = frozenset({"amount", "unit", "materials", "ratio"})
_SHARES = frozenset({"percent", "mm"})  # the same for any size


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a recipe is scaled to: an area (m2), a volume (ml) or a plain factor, one at most; none leaves it as it was.

    `resolution_g` is what the scale shows.
    """

    area_m2: float | None = None
    volume_ml: float | None = None
    times: float | None = None
    resolution_g: float = RESOLUTION_G


@dataclass(frozen=True, slots=True)
class Scale:
    """How a recipe was scaled: by what, from how much to how much (m2 or ml), and the factor."""

    by: By
    factor: float
    was: float | None
    wanted: float | None
    resolution_g: float


@dataclass(frozen=True, slots=True)
class Scaled:
    """A recipe scaled: its steps in order, and what was not scaled, each with the reason."""

    scale: Scale
    steps: tuple[PlannedStep, ...]
    not_scaled: tuple[str, ...]

    @property
    def doubts(self) -> int:
        """How many steps are to be checked before they are done."""
        return sum(step.in_doubt for step in self.steps)


def scaled(recipe: Recipe, wanted: Wanted, catalogue: Catalogue, confirm_below: float) -> Scaled:
    """Return a recipe scaled to what is wanted. Raises TradeError when it cannot be, saying what is lacking."""
    within("resolution", wanted.resolution_g, 0, 1000)
    made = steps_to_plan(recipe.steps)
    scale = _scale_of(recipe, made, wanted, catalogue)
    bench = _Bench(scale, catalogue, confirm_below, _largest_pots(made, catalogue))
    steps = tuple(bench.planned(number, step) for number, step in enumerate(made, 1))
    kept = (f"{use.name} of step {step.number}: {use.kept_why}" for step in steps for use in step.uses if use.kept_why)
    return Scaled(scale, steps, tuple(kept))


def steps_to_plan(steps: Iterable[StepView]) -> list[StepView]:
    """Return the steps done that make a mould: until the first pull, without repairs, and checks that tell no cue."""
    made = []
    for step in steps:
        record = step.record
        if record.status != "done" or step.withdrawn:
            continue
        if record.action == "pull":
            break
        if record.action in _LEFT_OUT or (record.action == "check" and not record.cues):
            continue
        made.append(step)
    return made


# ---- by how much -------------------------------------------------------------------------------------


def _scale_of(recipe: Recipe, steps: Sequence[StepView], wanted: Wanted, catalogue: Catalogue) -> Scale:
    given = [each for each in (wanted.area_m2, wanted.volume_ml, wanted.times) if each is not None]
    if len(given) > 1:
        raise TradeError("scale", "takes one of area, volume or times, not several")
    if wanted.area_m2 is not None:
        if not recipe.mould.area_m2:
            raise TradeError("area", f"of the mould {recipe.mould.key} is not stated: state it there, or give times")
        return _by("area", recipe.mould.area_m2, wanted.area_m2, wanted)
    if wanted.volume_ml is not None:
        return _by("volume", poured_ml(steps, catalogue), wanted.volume_ml, wanted)
    if wanted.times is not None:
        return Scale("times", positive("times", wanted.times), None, None, wanted.resolution_g)
    return Scale("as it was", 1.0, None, None, wanted.resolution_g)


def _by(by: By, was: float, size: float, wanted: Wanted) -> Scale:
    return Scale(by, positive(by, size) / was, was, size, wanted.resolution_g)


def poured_ml(steps: Iterable[StepView], catalogue: Catalogue) -> float:
    """Return the ml of what was weighed to be poured. Raises TradeError when nothing was, or a density is lacking."""
    ml = 0.0
    for step in steps:
        main = _main(step, catalogue)
        if step.record.action not in ("mix", "weigh") or main is None or main.kind not in _MEASURED_KINDS:
            continue
        for use in step.record.materials:
            ml += _ml(use, main, catalogue)
    if not ml:
        raise TradeError("volume", "of the recipe is not known: nothing that is poured was weighed in it; give times")
    return ml


def _ml(use: MaterialUse, main: Material, catalogue: Catalogue) -> float:
    if use.amount is None or use.unit not in ("g", "ml"):
        return 0.0
    if use.unit == "ml":
        return float(use.amount)
    own = catalogue.get(use.name)
    density = main.density if own == main else main.density_second or (own.density if own else None)
    if density is None:
        raise TradeError("volume", f"needs the density of {use.name}, which the catalogue does not state; give times")
    return float(use.amount) / density


# ---- one step ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Bench:
    """What all steps are scaled with; `pots` is the largest pot that the recipe mixed of each material, in grams."""

    scale: Scale
    catalogue: Catalogue
    confirm_below: float
    pots: Mapping[str, float]

    def planned(self, number: int, step: StepView) -> PlannedStep:
        """Return a step of the recipe as a step of the plan."""
        record = step.record
        uses = tuple(self._use(step, use) for use in record.materials)
        mixed = record.action in _MIXED
        count, mind = self._pots(step, uses) if mixed else (1, ())
        weighed = tuple(self._rounded(use, count) for use in uses)
        return PlannedStep(
            number=number,
            action=record.action,
            step_id=step.id,
            note_id=step.note_id,
            heard=record.evidence.heard,
            audio=record.evidence.audio,
            uses=weighed,
            ratio=tuple(float(part) for part in record.ratio.parts) if record.ratio else (),
            ratio_by=record.ratio.by if record.ratio else None,
            layers=tuple(
                PlannedLayer(x.name, _float(x.count), _float(x.gsm)) for x in record.layers
            ),
            places=tuple(dict.fromkeys(place.text for place in record.places)),
            timings=tuple((t.kind, _float(t.least), _float(t.most)) for t in record.timings),
            cues=tuple(cue.text for cue in record.cues),
            reasons=tuple(reason.text for reason in record.reasons),
            warnings=tuple(warning.text for warning in record.warnings),
            batches=count,
            doubts=(*self._queries(step), *(self._ratio_kept(step, uses, weighed) if mixed else ())),
            mind=mind,
        )  # fmt: skip

    def _use(self, step: StepView, use: MaterialUse) -> PlannedUse:
        was, most = _float(use.amount), _float(use.amount_most)
        planned = PlannedUse(use.name, use.part, was, most, use.unit, was, doubts=self._doubts(step, use))
        if was is None:
            return planned
        why = self._kept_why(step, use)
        if why or use.unit in _SHARES or self.scale.by == "as it was":
            return replace(planned, kept_why=why if self.scale.by != "as it was" else "")
        factor = self.scale.factor
        return replace(planned, amount=was * factor, amount_most=None if most is None else most * factor)

    def _kept_why(self, step: StepView, use: MaterialUse) -> str:
        """Return why an amount is not multiplied; "" when it is, or when it is a share."""
        if use.unit is None:
            return "no unit was said with it"
        if use.unit in _SHARES:
            return ""
        if use.unit not in _WEIGHED_UNITS:
            return "what is counted does not follow the size"
        if self.scale.by == "times":
            return ""
        poured = self._poured(step)
        if self.scale.by == "volume":
            return "" if poured else "coats and layers follow the area, not the volume"
        if poured:
            return "what is poured follows the volume, not the area"
        if step.record.action in ("fill", "thicken"):
            return "a fill follows the size of the undercuts, not the area"
        return ""

    def _poured(self, step: StepView) -> bool:
        if step.record.action == "pour":
            return True
        main = _main(step, self.catalogue)
        return step.record.action in _MIXED and main is not None and main.kind in _POURED_KINDS

    def _doubts(self, step: StepView, use: MaterialUse) -> tuple[str, ...]:
        if use.amount is None or step.confirmed or use.evidence.confidence >= self.confirm_below:
            return ()
        return (f"{use.name} was heard with {use.evidence.confidence:.0%} confidence: confirm it in the recipe",)

    def _queries(self, step: StepView) -> tuple[str, ...]:
        """Return what is queried in the recipe's step and not confirmed: it stays queried here."""
        return () if step.confirmed else tuple(dict.fromkeys(flag.why for flag in step.record.flags))

    # ---- pots ----

    def _pots(self, step: StepView, uses: Sequence[PlannedUse]) -> tuple[int, tuple[str, ...]]:
        """Return into how many pots a mix is split, and why."""
        main = _main(step, self.catalogue)
        grams = sum(use.amount or 0.0 for use in uses if use.unit == "g")
        if main is None or not grams:
            return 1, ()
        if main.largest_batch_g:
            largest, why = main.largest_batch_g, "is safe in one pot, by the catalogue"
        elif main.reacts and main.name in self.pots:
            largest = self.pots[main.name]
            why = "was mixed in one pot for the recipe, and the catalogue states no largest safe batch"
        else:
            return 1, ()
        split = batches(grams, largest)
        said = f"{split.count} pots of {split.each_g:.6g} g: no more than {largest:.6g} g of {main.name} {why}"
        return (split.count, (said,)) if split.count > 1 else (1, ())

    def _rounded(self, use: PlannedUse, count: int) -> PlannedUse:
        """Return a use that the scale can show, pot by pot."""
        if use.unit not in ("g", "ml") or use.amount is None or use.amount == use.was:
            return use
        most = None if use.amount_most is None else self._in_pots(use.amount_most, count)
        return replace(use, amount=self._in_pots(use.amount, count), amount_most=most)

    def _in_pots(self, grams: float, count: int) -> float:
        step, each = self.scale.resolution_g, grams / count
        return round(math.floor(each / step + 0.5) * step * count, 6) if step else grams

    def _ratio_kept(self, step: StepView, exact: Sequence[PlannedUse], shown: Sequence[PlannedUse]) -> tuple[str, ...]:
        """Return what rounding does to the ratio, when the material does not bear it."""
        pairs = [(e.amount, s.amount) for e, s in zip(exact, shown, strict=True) if e.unit == "g" and e.amount]
        main = _main(step, self.catalogue)
        if len(pairs) < 2 or main is None:
            return ()
        bears = main.tolerance_percent or USUAL_TOLERANCE
        weights = [weight or 0.0 for _, weight in pairs]
        if min(weights) <= 0:
            return (
                f"a scale that shows {self.scale.resolution_g:g} g cannot weigh the smallest part: use a finer one",
            )
        off = deviation_percent(MixRatio(tuple(wanted for wanted, _ in pairs)), weights)
        worst = max(off, key=abs)
        if abs(worst) <= bears:
            return ()
        return (
            f"a scale that shows {self.scale.resolution_g:g} g puts this {worst:+.1f} % off the ratio: use a finer one",
        )


def _float(value: object) -> float | None:
    return None if value is None else float(value)  # type: ignore[arg-type]


def _main(step: StepView, catalogue: Catalogue) -> Material | None:
    """Return the main material of a mix: the first that is no hardener, filler or other addition."""
    known = [material for use in step.record.materials if (material := catalogue.get(use.name)) is not None]
    reacting = [material for material in known if material.reacts or material.kind in _POURED_KINDS]
    others = [material for material in known if material.kind not in SECOND_KINDS]
    return next(iter((*reacting, *others)), None)


def _largest_pots(steps: Iterable[StepView], catalogue: Catalogue) -> dict[str, float]:
    pots: dict[str, float] = {}
    for step in steps:
        main = _main(step, catalogue)
        if step.record.action in _MIXED and main is not None:
            grams = sum(float(u.amount) for u in step.record.materials if u.amount is not None and u.unit == "g")
            pots[main.name] = max(grams, pots.get(main.name, 0.0))
    return pots
