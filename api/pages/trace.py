"""The page that traces a lot, a batch, a material or a pull: a recall list to print."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from api.problems import REFUSALS, problem_of
from journal import flow

router = APIRouter(include_in_schema=False)


@router.get("/trace")
def trace(shop: ShopHere, what: str = "") -> Response:
    """Trace what was asked, or show the empty form."""
    found, troubles = None, []
    if what.strip():
        try:
            found = flow.trace(shop, what)
        except REFUSALS as error:
            troubles.append(problem_of(error))
    lots = dict.fromkeys(lot.number for lot in shop.store.lots())
    return render("trace.html", *troubles, what=what, found=found, lots=lots, made_at=shop.now())
