"""What a person should look at again: flags, and values that were heard or read with little confidence; pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from journal.keep.views import StepView
from journal.record import Flag, Step
from journal.review.values import Value, act, rows

# A flag names a field of the record; these two are parts of a material.
FLAGGED_VALUES = {"amount": "materials", "unit": "materials"}


@dataclass(frozen=True, slots=True)
class Queries:
    """What to look at again in one step: what was flagged, and the places in the record of every value in doubt.

    `unsure` counts the values that are in doubt only because they were heard or read with little confidence.
    """

    flags: tuple[Flag, ...] = ()
    doubtful: frozenset[str] = frozenset()
    unsure: int = 0

    def __bool__(self) -> bool:
        """Whether there is anything to look at."""
        return bool(self.flags or self.doubtful)


def _values(step: Step) -> tuple[Value, ...]:
    return (act(step), *(value for row in rows(step) for value in row.values))


def _flagged(values: Iterable[Value], flag: Flag) -> Iterator[str]:
    name = FLAGGED_VALUES.get(flag.field, flag.field)
    return (value.field for value in values if value.field.split(".")[0] == name)


def queries(step: StepView, confirm_below: float) -> Queries:
    """Return what is to be confirmed about a step; nothing once a person has confirmed or withdrawn it."""
    if step.confirmed or step.withdrawn:
        return Queries()
    values = _values(step.record)
    flagged = {field for flag in step.record.flags for field in _flagged(values, flag)}
    unsure = {value.field for value in values if value.evidence.confidence < confirm_below}
    if step.json["action"] != step.first_read["action"]:
        unsure.discard("action")  # a person has named it; its words and their confidence stay those that were heard
    return Queries(step.record.flags, frozenset(flagged | unsure), len(unsure - flagged))


def totals_in_doubt(steps: Iterable[StepView], confirm_below: float) -> frozenset[str]:
    """Return the names of materials and layers whose totals rest on a value that is not confirmed."""
    names: set[str] = set()
    for step in steps:
        found = queries(step, confirm_below).doubtful
        names |= {use.name for i, use in enumerate(step.record.materials) if f"materials.{i}" in found}
        names |= {layer.name for i, layer in enumerate(step.record.layers) if f"layers.{i}" in found}
    return frozenset(names)


def next_to_check(steps: Iterable[StepView], after: StepView, confirm_below: float) -> StepView | None:
    """Return the step to look at after this one: the next with a query, else the first with one."""
    left = [step for step in steps if queries(step, confirm_below)]
    later = [step for step in left if (step.recorded_at, step.position) > (after.recorded_at, after.position)]
    return next(iter(later or left), None)
