"""Builds to look back on, made of steps without a database. Invented."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from journal.keep.views import BuildView, MouldView, Outcome, StepView
from journal.record import Condition, Layer, Step, Timing
from journal.review.builds import BuildRecord, build_record
from tests.keep.made import evidence

BEGUN = datetime(2026, 5, 4, 8, 0, tzinfo=UTC)
Told = tuple[float, Step]  # hours after the beginning, and the step


def built(
    key: str, *told: Told, outcome: Outcome = "worked", who: str = "lead maker", mould: str = "niche"
) -> BuildRecord:
    """Return a build of these steps, each told in a note of its own; ids count from 100 x the number in the key."""
    first = 100 * int(key.rpartition("-")[2])
    steps = [view(first + i, key, hours, step) for i, (hours, step) in enumerate(told)]
    build = BuildView(
        first, key, key, 1, mould, mould.title(), BEGUN, "", outcome, "", None, None, len(steps), len(steps)
    )
    kept = MouldView(1, mould, mould.title(), "", 1, "", 1.4, "", "in use")
    return build_record(build, kept, steps, {step.note_id: who for step in steps})


def view(step_id: int, key: str, hours: float, step: Step, note_id: int | None = None) -> StepView:
    at = BEGUN + timedelta(hours=hours)
    note = step_id if note_id is None else note_id
    read = {"action": step.action}
    return StepView(step_id, note, 1, key, 0, at, at, step, read, read, False, None, None, False)


def layer(name: str, count: float | None = None, gsm: float | None = None) -> Layer:
    exact = [None if value is None else Fraction(str(value)) for value in (count, gsm)]
    return Layer(name, evidence(name), exact[0], exact[1])


def air(degc: float | None = None, humidity: float | None = None) -> tuple[Condition, ...]:
    found = []
    if degc is not None:
        found.append(Condition("temperature", Fraction(str(degc)), "degC", evidence(f"{degc}"), "shop"))
    if humidity is not None:
        found.append(Condition("humidity", Fraction(str(humidity)), "percent", evidence(f"{humidity}")))
    return tuple(found)


def lasting(kind: str, seconds: float) -> tuple[Timing, ...]:
    return (Timing(kind, Fraction(str(seconds)), Fraction(str(seconds)), evidence(kind)),)


def ids(steps: Sequence[StepView | None]) -> list[int | None]:
    return [step.id if step else None for step in steps]
