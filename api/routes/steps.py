"""Steps: what was read from a note, and what people say about it."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from pydantic import BaseModel, Field

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.examples import example
from api.shapes.views import ChangeShape, StepShape
from journal import flow

router = APIRouter(prefix="/api/steps", tags=["steps"])


class CorrectionShape(BaseModel):
    """What to put right: a field of the step record or a path into it, and its new value; null takes it out."""

    model_config = example(
        {"changes": {"materials.0.amount": 720.0}, "who": "second maker", "why": "the scale said 720"}
    )

    changes: dict[str, Any] = Field(min_length=1)
    who: str | None = None
    why: str = ""


class WordShape(BaseModel):
    """Who says so, and why."""

    model_config = example({"who": "lead maker", "why": "said of the last build, not this one"})

    who: str | None = None
    why: str = ""


@router.get("/{step_id}", summary="One step with its evidence", responses=problems(404))
def one(shop: ShopHere, step_id: int) -> StepShape:
    """Return one step."""
    return StepShape.model_validate(shop.store.step(step_id))


@router.patch("/{step_id}", summary="Correct a step", responses=problems(404, 422))
def correct(shop: ShopHere, step_id: int, correction: CorrectionShape) -> StepShape:
    """Put right what was read; what was heard and first read stays, and the correction joins the history."""
    step = flow.correct(shop, step_id, correction.changes, correction.who, correction.why)
    return StepShape.model_validate(step)


@router.post("/{step_id}/confirm", summary="Say that a step is right", responses=problems(404))
def confirm(shop: ShopHere, now: Now, step_id: int, word: WordShape) -> StepShape:
    """Confirm a step as it stands."""
    return StepShape.model_validate(shop.store.confirm_step(step_id, who=word.who, at=now))


@router.post("/{step_id}/withdraw", summary="Say that no such act took place", responses=problems(404))
def withdraw(shop: ShopHere, now: Now, step_id: int, word: WordShape) -> StepShape:
    """Take a step off the build sheet; it stays in the history."""
    return StepShape.model_validate(shop.store.withdraw_step(step_id, who=word.who, why=word.why, at=now))


@router.get("/{step_id}/history", summary="Every change of a step, oldest first", responses=problems(404))
def history(shop: ShopHere, step_id: int) -> list[ChangeShape]:
    """Return the changes of a step."""
    shop.store.step(step_id)
    return [ChangeShape.model_validate(change) for change in shop.store.history("step", step_id)]
