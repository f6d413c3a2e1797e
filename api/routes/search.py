"""Search."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Query

from api.context import ShopHere
from api.problems import problems
from api.shapes.examples import HIT, example
from api.shapes.views import Shape
from journal import flow

router = APIRouter(prefix="/api/search", tags=["search"])


class HitShape(Shape):
    """One thing found. `snippet` is its text in pieces, each with whether it matched; `audio` seconds to play.

    `exact` is false when the words were only found by forgiving a misspelling or leaving words out.
    """

    model_config = example(HIT)

    noun: str
    noun_id: int
    build_key: str
    build_name: str
    mould_key: str
    mould_name: str
    outcome: str
    at: datetime
    note_id: int | None
    step_id: int | None
    action: str | None
    snippet: list[tuple[str, bool]]
    audio: tuple[float, float] | None
    score: float
    exact: bool


Words = Annotated[
    str,
    Query(max_length=500, description='Words, and filters like material:"glass cloth" outcome:worked since:2026-05'),
]


@router.get("", summary="Find notes, steps and builds", responses=problems(422))
def search(shop: ShopHere, q: Words = "", limit: Annotated[int, Query(ge=1, le=200)] = 30) -> list[HitShape]:
    """Return what matches, best first; filters are material, action, mould, outcome, since and until."""
    return [HitShape.model_validate(hit) for hit in flow.search(shop, q, limit)]
