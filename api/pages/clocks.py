"""The running clocks of a build: a part of its page, sent afresh when asked for."""

from __future__ import annotations

from datetime import datetime

from fastapi import APIRouter
from starlette.responses import Response

from api.context import Now, ShopHere
from api.pages.render import render
from api.shapes.answers import ClocksShape
from journal import flow
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def clocks_of(shop: Shop, key: str | int, now: datetime) -> ClocksShape:
    """Return the clocks of a build for its page."""
    return ClocksShape.of(flow.clocks(shop, key), now)


@router.get("/builds/{key}/clocks")
def clocks(shop: ShopHere, now: Now, key: str) -> Response:
    """Show the clocks by themselves: the page puts them in place of the old ones."""
    return render("clocks.html", clocks=clocks_of(shop, key, now), key=key)
