"""Steps in force, and what people say about them: corrections, confirmations, withdrawals."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from journal.keep.history import History
from journal.keep.views import FaultView, PullView, StepView


class Steps(History):
    """The part of the store that keeps steps."""

    def steps(self, build_key: str | int) -> list[StepView]:
        """Return a build's steps in force, in the order they were spoken; withdrawn ones are left out."""
        raise NotImplementedError

    def note_steps(self, note_id: int) -> list[StepView]:
        """Return one note's steps in force, withdrawn ones included."""
        raise NotImplementedError

    def step(self, step_id: int) -> StepView:
        """Return one step."""
        raise NotImplementedError

    def correct_step(
        self, step_id: int, changes: Mapping[str, Any], who: str | None, why: str, at: datetime
    ) -> StepView:
        """Put right what was read. What was heard and first read stays; the correction is a history entry.

        `changes` maps a field of the step record ("action", "ratio", "materials"), or a path into it
        ("materials.0.amount", "timings.1.seconds"), to its new JSON value; None takes the value out.
        Evidence is kept where the value had any. Raises FieldError naming the field.
        """
        raise NotImplementedError

    def confirm_step(self, step_id: int, who: str | None, at: datetime) -> StepView:
        """Say that a step is right as it stands."""
        raise NotImplementedError

    def withdraw_step(self, step_id: int, who: str | None, why: str, at: datetime) -> StepView:
        """Say that no such act took place; the step leaves the build sheet and stays in the history."""
        raise NotImplementedError

    def pulls(self, mould_key: str | int) -> list[PullView]:
        """Return the castings taken from a mould, in time order."""
        raise NotImplementedError

    def faults(
        self, mould_key: str | int | None = None, build_key: str | int | None = None
    ) -> list[FaultView]:
        """Return what was found wrong, on a mould, on a build, or anywhere, in time order."""
        raise NotImplementedError
