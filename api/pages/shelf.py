"""The page of the shelf: what is left of each lot, and what a person states about a tin."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from api.context import Now, ShopHere
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes import shelf as shelf_routes
from api.shapes.answers import NewTinShape
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def _shelf(shop: Shop, who: str, *troubles: Problem) -> Response:
    materials = sorted(material.name for material in shop.catalogue.materials)
    return render("shelf.html", *troubles, here="shelf", tins=shelf_routes.tins(shop), materials=materials, who=who)


@router.get("/shelf")
def shelf(shop: ShopHere, who: Who) -> Response:
    """Show the shelf."""
    return _shelf(shop, who)


@router.post("/shelf")
def state(shop: ShopHere, now: Now, fields: Fields, who: Who) -> Response:
    """State a tin from the form."""
    try:
        said = filled(NewTinShape, fields, who)
        shelf_routes.state(shop, now, said)
    except REFUSALS as error:
        return _shelf(shop, who, problem_of(error))
    return go("/shelf", said.who)
