"""Search."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import BaseModel

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


class ChipShape(Shape):
    """One filter that the words named, what it means, and the letters [start, end) of the words it came from."""

    model_config = example({"field": "temperature", "label": "under 20 °C", "chars": [26, 42]})

    field: str
    label: str
    chars: tuple[int, int]


class RecipeHitShape(BaseModel):
    """A build as an answer: how it turned out, the castings so far, and the hits in it, best first."""

    model_config = example({"build_key": "niche-2", "outcome": "worked", "pulls": 2, "score": 5.4, "hits": [HIT]})

    build_key: str
    outcome: str
    pulls: int
    score: float
    hits: list[HitShape]


class FoundShape(BaseModel):
    """What the words were taken to ask for, the filters that were let go, and what fits, best first."""

    model_config = example(
        {
            "chips": [{"field": "outcome", "label": "worked", "chars": [0, 6]}],
            "let_go": [],
            "recipes": [],
            "hits": [HIT],
        }
    )

    chips: list[ChipShape]
    let_go: list[str]
    recipes: list[RecipeHitShape]
    hits: list[HitShape]


@router.get("/plain", summary="Find with plain words: filters out of them, builds to go by", responses=problems(422))
def find(shop: ShopHere, q: Words = "", limit: Annotated[int, Query(ge=1, le=200)] = 30) -> FoundShape:
    """Take material, act, amount, ratio, temperature, outcome and time out of the words, and find by them."""
    found = flow.find(shop, q, limit)
    recipes = [
        RecipeHitShape(
            build_key=each.build.key, outcome=each.build.outcome, pulls=each.pulls, score=each.score,
            hits=[HitShape.model_validate(hit) for hit in each.hits],
        )
        for each in found.recipes
    ]  # fmt: skip
    chips = [ChipShape.model_validate(chip) for chip in found.asked.chips]
    hits = [HitShape.model_validate(hit) for hit in found.hits]
    return FoundShape(chips=chips, let_go=list(found.let_go), recipes=recipes, hits=hits)


@router.get("", summary="Find notes, steps and builds", responses=problems(422))
def search(shop: ShopHere, q: Words = "", limit: Annotated[int, Query(ge=1, le=200)] = 30) -> list[HitShape]:
    """Return what matches, best first; filters are material, action, mould, outcome, since and until."""
    return [HitShape.model_validate(hit) for hit in flow.search(shop, q, limit)]
