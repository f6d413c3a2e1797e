"""A build as a recipe: what was done step by step, with quantities, and how it turned out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from journal.keep.store import Store
from journal.keep.views import BuildView, FaultView, MouldView, PullView, StepView
from journal.record import Flag, Layer, MaterialUse

_BATCH_ACTS = ("weigh", "mix", "thicken", "tint")
_SUMMED_UNITS = ("g", "ml", "m2", "count")  # percents and thicknesses do not add up


@dataclass(frozen=True, slots=True)
class Total:
    """How much of a material went in: summed over `step_ids`, in `unit`; per m2 if the area is known.

    A weight said when weighing and again when mixing or brushing counts once. `amount_most` is the
    upper end when a range was said; `without_amount` are batches whose weight was not said, so that
    the sum is too low; `flags` are the queries on the amounts summed.
    """

    name: str
    part: str | None
    unit: str
    amount: float
    amount_most: float | None
    per_m2: float | None
    step_ids: tuple[int, ...]
    without_amount: tuple[int, ...]
    flags: tuple[Flag, ...]

    @property
    def sure(self) -> bool:
        """Whether every batch in the sum had a weight, and none of them is queried."""
        return not self.without_amount and not self.flags


@dataclass(frozen=True, slots=True)
class LayerTotal:
    """How many layers or coats of one thing went on, over `step_ids`; `gsm` is g/m2 of one layer.

    `without_count` are steps that named the layer but not how many.
    """

    name: str
    gsm: float | None
    count: float
    step_ids: tuple[int, ...]
    without_count: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a build did and how it turned out. `steps` are those done, in order; flags are in the records.

    `left_out` are the steps that were said not to be done.
    """

    build: BuildView
    mould: MouldView
    steps: tuple[StepView, ...]
    left_out: tuple[StepView, ...]
    totals: tuple[Total, ...]
    layers: tuple[LayerTotal, ...]
    faults: tuple[FaultView, ...]
    pulls: tuple[PullView, ...]


def recipe(store: Store, build_key: str | int) -> Recipe:
    """Return a build as a recipe; planned and advised steps are not in it."""
    build = store.build(build_key)
    mould = store.mould(build.mould_id)
    steps = store.steps(build.id)
    done = tuple(step for step in steps if step.record.status == "done")
    return Recipe(
        build=build,
        mould=mould,
        steps=done,
        left_out=tuple(step for step in steps if step.record.status == "not done"),
        totals=totals_of(done, mould.area_m2),
        layers=layers_of(done),
        faults=tuple(store.faults(build_key=build.id)),
        pulls=tuple(pull for pull in store.pulls(mould.id) if pull.build_key == build.key),
    )


@dataclass(slots=True)
class _Sum:
    least: Fraction = Fraction(0)
    most: Fraction = Fraction(0)
    step_ids: list[int] = field(default_factory=list)
    flags: list[Flag] = field(default_factory=list)


@dataclass(slots=True)
class _Batches:
    """The sums so far, and per material what was weighed but not yet mixed."""

    sums: dict[tuple[str, str | None, str], _Sum] = field(default_factory=dict)
    weighed: dict[tuple[str, str | None], Fraction | None] = field(default_factory=dict)
    batched: set[str] = field(default_factory=set)
    without_amount: dict[tuple[str, str | None], list[int]] = field(default_factory=dict)


def totals_of(steps: Iterable[StepView], area_m2: float | None = None) -> tuple[Total, ...]:
    """Return the totals of the materials of steps done, in the order of their first use."""
    batches = _Batches()
    for step in steps:
        for use in step.record.materials:
            _take_in(batches, step, use)
    return tuple(_total(key, total, batches, area_m2) for key, total in batches.sums.items())


def layers_of(steps: Iterable[StepView]) -> tuple[LayerTotal, ...]:
    """Return how many layers or coats of each thing the steps put on, in the order of their first use."""
    found: dict[tuple[str, Fraction | None], list[tuple[int, Layer]]] = {}
    for step in steps:
        for layer in step.record.layers:
            found.setdefault((layer.name, layer.gsm), []).append((step.id, layer))
    return tuple(
        LayerTotal(
            name=name,
            gsm=None if gsm is None else float(gsm),
            count=float(sum(layer.count or 0 for _, layer in layers)),
            step_ids=tuple(dict.fromkeys(step_id for step_id, _ in layers)),
            without_count=tuple(step_id for step_id, layer in layers if layer.count is None),
        )
        for (name, gsm), layers in found.items()
    )


def _take_in(batches: _Batches, step: StepView, use: MaterialUse) -> None:
    if _said_before(batches, step.record.action, use):
        return
    key = (use.name, use.part)
    if step.record.action in _BATCH_ACTS:
        batches.batched.add(use.name)
    if use.amount is None:
        if step.record.action in _BATCH_ACTS:
            batches.without_amount.setdefault(key, []).append(step.id)
        return
    if use.unit not in _SUMMED_UNITS:
        return
    total = batches.sums.setdefault((*key, use.unit), _Sum())
    total.least += use.amount
    total.most += use.amount if use.amount_most is None else use.amount_most
    total.step_ids.append(step.id)
    total.flags += [flag for flag in step.record.flags if flag.field in ("amount", "unit", "materials")]


def _said_before(batches: _Batches, action: str, use: MaterialUse) -> bool:
    """Return whether an amount only repeats that of a batch already counted."""
    key = (use.name, use.part)
    if action == "weigh":
        batches.weighed[key] = use.amount
        return False
    if action in _BATCH_ACTS:
        if key not in batches.weighed:
            return False
        weighed = batches.weighed.pop(key)
        return use.amount is None or use.amount == weighed
    return use.name in batches.batched


def _total(key: tuple[str, str | None, str], total: _Sum, batches: _Batches, area_m2: float | None) -> Total:
    name, part, unit = key
    return Total(
        name=name,
        part=part,
        unit=unit,
        amount=float(total.least),
        amount_most=float(total.most) if total.most != total.least else None,
        per_m2=float(total.least) / area_m2 if area_m2 else None,
        step_ids=tuple(dict.fromkeys(total.step_ids)),
        without_amount=tuple(batches.without_amount.get((name, part), ())),
        flags=tuple(dict.fromkeys(total.flags)),
    )
