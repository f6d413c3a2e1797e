"""The pages of all moulds, and of one with its builds."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from api.context import Now, ShopHere
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes import builds as build_routes
from api.routes import moulds as mould_routes
from journal import flow
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


@router.get("/")
def start() -> RedirectResponse:
    """Go to the moulds."""
    return RedirectResponse("/moulds")


def _moulds(shop: Shop, *troubles: Problem) -> Response:
    return render("moulds.html", *troubles, here="moulds", moulds=shop.store.moulds())


@router.get("/moulds")
def moulds(shop: ShopHere) -> Response:
    """Show all moulds."""
    return _moulds(shop)


@router.post("/moulds")
def add(shop: ShopHere, now: Now, fields: Fields, who: Who) -> Response:
    """Add a mould from the form."""
    try:
        mould = mould_routes.add(shop, now, filled(mould_routes.NewMouldShape, fields, who))
    except REFUSALS as error:
        return _moulds(shop, problem_of(error))
    return go(f"/moulds/{mould.key}")


def _mould(shop: Shop, key: str, who: str, *troubles: Problem) -> Response:
    return render(
        "mould.html",
        *troubles,
        here="moulds",
        mould=shop.store.mould(key),
        builds=shop.store.builds(key),
        faults=shop.store.faults(mould_key=key),
        pulls=shop.store.pulls(key),
        pinned=flow.pinned(shop, key),
        who=who,
    )


@router.get("/moulds/{key}")
def mould(shop: ShopHere, key: str, who: Who) -> Response:
    """Show one mould with its builds."""
    return _mould(shop, key, who)


@router.post("/moulds/{key}/builds")
def begin(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Begin a build from the form."""
    try:
        new = filled(build_routes.NewBuildShape, {**fields, "mould": key}, who)
        build = build_routes.begin(shop, now, new)
    except REFUSALS as error:
        return _mould(shop, key, who, problem_of(error))
    return go(f"/builds/{build.key}", new.who)
