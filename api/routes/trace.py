"""Tracing: where a lot, a batch or a material went, and what went into a pull."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Query

from api.context import ShopHere
from api.problems import problems
from api.shapes.examples import SAID_AT, example
from api.shapes.views import Shape
from journal import flow

router = APIRouter(prefix="/api/trace", tags=["trace"])


class UsedShape(Shape):
    """A step that it went into: `named` there, or only carried on from its batch; `doubts` are queries on it."""

    build_key: str
    mould_key: str
    step_id: int
    at: datetime
    act: str
    places: list[str]
    named: bool
    lot: str | None
    amount: float | None
    unit: str | None
    doubts: list[str]


class PullReachedShape(Shape):
    """A casting that it went into, by the mould or in the casting itself; `number` as said."""

    mould_key: str
    build_key: str
    step_id: int
    number: int | None
    at: datetime
    how: str


class LotUsedShape(Shape):
    """A lot that went into a pull; null where none was said."""

    material: str
    part: str | None
    lot: str | None
    how: str
    step_ids: list[int]


class TraceShape(Shape):
    """Where something went (forwards) or what went into a pull (back); `warnings` say what cannot be told."""

    model_config = example(
        {
            "what": "lot 4471", "direction": "forwards", "builds": ["niche-2"], "moulds": ["niche"], "lots": [],
            "used": [
                {
                    "build_key": "niche-2", "mould_key": "niche", "step_id": 31, "at": SAID_AT, "act": "mix",
                    "places": [], "named": True, "lot": "4471", "amount": 700.0, "unit": "g", "doubts": [],
                }
            ],
            "pulls": [
                {
                    "mould_key": "niche", "build_key": "niche-2", "step_id": 38, "number": 1,
                    "at": "2026-04-24T11:00:00+01:00", "how": "in the mould",
                }
            ],
            "warnings": [],
        }
    )  # fmt: skip

    what: str
    direction: str
    used: list[UsedShape]
    builds: list[str]
    moulds: list[str]
    pulls: list[PullReachedShape]
    lots: list[LotUsedShape]
    warnings: list[str]


What = Annotated[str, Query(min_length=1, max_length=200, description="A lot, a material, batch 31, or niche pull 2")]


@router.get("", summary="Trace a lot, a material, a batch or a pull", responses=problems(404, 422))
def trace(shop: ShopHere, what: What) -> TraceShape:
    """Follow it forwards to moulds and pulls, or a pull back to its lots."""
    return TraceShape.model_validate(flow.trace(shop, what))
