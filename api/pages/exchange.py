"""The page from which everything is taken along in an open format."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from journal.keep.exchange.nouns import NOT_EXCHANGED, NOUNS

router = APIRouter(include_in_schema=False)


@router.get("/exchange")
def exchange(shop: ShopHere) -> Response:
    """Show what an export holds, and where to get it."""
    left_out = sorted(set(NOT_EXCHANGED.values()))
    return render("exchange.html", nouns=NOUNS, left_out=left_out, max_bytes=shop.settings.max_bytes)
