"""What a person should look at again: flags, and values that were heard or read with little confidence; pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from api.pages.values import Value, rows
from journal.keep.views import StepView
from journal.record import Step

# A flag names the field of the record; these are the values that its query plays.
FLAGGED_VALUES = {"amount": "materials", "unit": "materials"}


@dataclass(frozen=True, slots=True)
class Query:
    """Why to look again, in which field, and the values with their words and seconds."""

    field: str
    why: str
    values: tuple[Value, ...]


def _values(step: Step) -> tuple[Value, ...]:
    return tuple(value for row in rows(step) for value in row.values)


def _of_field(values: Iterable[Value], field: str) -> tuple[Value, ...]:
    name = FLAGGED_VALUES.get(field, field)
    return tuple(value for value in values if value.field.split(".")[0] == name)


def queries(step: StepView, confirm_below: float) -> tuple[Query, ...]:
    """Return what is to be confirmed about a step; nothing once a person has confirmed it."""
    if step.confirmed or step.withdrawn:
        return ()
    values = _values(step.record)
    flagged = [Query(flag.field, flag.why, _of_field(values, flag.field)) for flag in step.record.flags]
    shown = {value.field for query in flagged for value in query.values}
    unsure = [
        Query(
            value.field.split(".")[0],
            f"Only {value.evidence.confidence:.0%} sure of this.",
            (value,),
        )
        for value in values
        if value.evidence.confidence < confirm_below and value.field not in shown
    ]
    return (*flagged, *unsure)


def doubtful(found: Iterable[Query]) -> frozenset[str]:
    """Return the places in the record of every value that a query is about."""
    return frozenset(value.field for query in found for value in query.values)
