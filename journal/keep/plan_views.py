"""What the store takes in and gives out of plans: frozen values. Times are aware datetimes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any


@dataclass(frozen=True, slots=True)
class NewPlan:
    """A plan to be kept: the build whose recipe it follows, how that was scaled, and its steps as JSON objects."""

    recipe_key: str
    scaled: dict[str, Any]
    steps: tuple[dict[str, Any], ...]
    who: str | None = None


@dataclass(frozen=True, slots=True)
class NewSkip:
    """A step to be skipped, by its number in the plan, in the words that say so."""

    number: int
    words: str = ""
    note_id: int | None = None
    who: str | None = None


@dataclass(frozen=True, slots=True)
class SkipView:
    """A step that was skipped: its number in the plan, and how that was said."""

    number: int
    words: str
    note_id: int | None
    who: str | None
    at: datetime


@dataclass(frozen=True, slots=True)
class PlanView:
    """A plan as it was made. Which of its steps are done is worked out from what was said since (`find.follow`)."""

    id: int
    build_key: str
    recipe_key: str
    scaled: dict[str, Any]
    steps: tuple[dict[str, Any], ...]
    who: str | None
    started_at: datetime
    skips: tuple[SkipView, ...]
