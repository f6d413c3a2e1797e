"""A step of a plan: what a recipe did, with the quantities to weigh now, and its JSON."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from pydantic import TypeAdapter


@dataclass(frozen=True, slots=True)
class PlannedUse:
    """A material of a planned step.

    `amount` (to `amount_most`) is to be weighed, in `unit`, in all batches together; `was` is what the recipe took.
    `kept_why` says why the amount was not scaled ("" when it was, or when none was said); `doubts` are to be settled
    before it is weighed.
    """

    name: str
    part: str | None = None
    amount: float | None = None
    amount_most: float | None = None
    unit: str | None = None
    was: float | None = None
    kept_why: str = ""
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedLayer:
    """Layers or coats of a planned step; `gsm` is g/m2 of one. They do not change with the area."""

    name: str
    count: float | None = None
    gsm: float | None = None


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """One step of a plan, `number` from 1. Its words are those of the recipe's maker, in its note and seconds.

    `ratio` is main : second, `batches` the pots that it is split into. `doubts` concern the whole step, `mind` is to
    be borne in mind. Timings are (kind, least seconds, most seconds).
    """

    number: int
    action: str
    step_id: int
    note_id: int
    heard: str
    audio: tuple[float, float] | None
    uses: tuple[PlannedUse, ...] = ()
    ratio: tuple[float, ...] = ()
    ratio_by: str | None = None
    layers: tuple[PlannedLayer, ...] = ()
    places: tuple[str, ...] = ()
    timings: tuple[tuple[str, float | None, float | None], ...] = ()
    cues: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    batches: int = 1
    doubts: tuple[str, ...] = ()
    mind: tuple[str, ...] = ()

    @property
    def in_doubt(self) -> bool:
        """Whether something is to be settled before it is done."""
        return bool(self.doubts) or any(use.doubts for use in self.uses)

    @property
    def names(self) -> frozenset[str]:
        """The names of its materials and layers."""
        return frozenset([*(use.name for use in self.uses), *(layer.name for layer in self.layers)])


_STEP = TypeAdapter(PlannedStep)


def planned_to_json(step: PlannedStep) -> dict[str, Any]:
    """Return the step as a JSON object."""
    return asdict(step)


def planned_from_json(record: dict[str, Any]) -> PlannedStep:
    """Return the step that `planned_to_json` made this object of."""
    return _STEP.validate_python(record)
