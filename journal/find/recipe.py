"""A build as a recipe: what was done step by step, with quantities, and how it turned out."""

from __future__ import annotations

from dataclasses import dataclass

from journal.keep.store import Store
from journal.keep.views import BuildView, FaultView, MouldView, PullView, StepView


@dataclass(frozen=True, slots=True)
class Total:
    """How much of a material went in: summed over `step_ids`, in `unit`; per m2 if the area is known."""

    name: str
    part: str | None
    unit: str
    amount: float
    per_m2: float | None
    step_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class LayerTotal:
    """How many layers or coats of one thing went on, over `step_ids`; `gsm` is g/m2 of one layer."""

    name: str
    gsm: float | None
    count: float
    step_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a build did and how it turned out. `steps` are those done, in order; flags are in the records."""

    build: BuildView
    mould: MouldView
    steps: tuple[StepView, ...]
    left_out: tuple[StepView, ...]
    totals: tuple[Total, ...]
    layers: tuple[LayerTotal, ...]
    faults: tuple[FaultView, ...]
    pulls: tuple[PullView, ...]


def recipe(store: Store, build_key: str | int) -> Recipe:
    """Return a build as a recipe; planned and advised steps are not in it, `left_out` are those not done."""
    raise NotImplementedError
