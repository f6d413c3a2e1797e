"""The running clocks of a build."""

from __future__ import annotations

from fastapi import APIRouter

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.answers import ClocksShape
from journal import flow

router = APIRouter(prefix="/api/builds", tags=["clocks"])


@router.get("/{build_key}/clocks", summary="The running clocks of a build", responses=problems(404))
def of_build(shop: ShopHere, now: Now, build_key: str) -> ClocksShape:
    """Return pot lives, windows for the next coat, demould and cure times, and coats that missed their window."""
    return ClocksShape.of(flow.clocks(shop, build_key), now)
