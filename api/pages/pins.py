"""The page on which places and faults are pinned on a mould's reference photo."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter
from starlette.responses import Response

from api.context import Now, ShopHere
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes import pins as pin_routes
from journal import flow
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def _pins(
    shop: Shop, key: str, who: str, *troubles: Problem, typed: Mapping[str, str] | None = None, choosing: bool = False
) -> Response:
    mould = shop.store.mould(key)
    found = flow.pinned(shop, mould.id)
    photos = [photo for build in shop.store.builds(mould.id) for photo in shop.store.photos(build.id)]
    return render(
        "pins.html",
        *troubles,
        here="moulds",
        mould=mould,
        pinned=found,
        photos=photos if choosing or found is None else [],
        places=shop.store.places(mould.id),
        faults=shop.store.faults(mould_key=mould.id),
        typed=typed or {},
        who=who,
    )


@router.get("/moulds/{key}/pins")
def pins(shop: ShopHere, key: str, who: Who, choose: bool = False) -> Response:
    """Show the reference photo with its pins, to set more; or the photos to choose one from."""
    return _pins(shop, key, who, choosing=choose)


@router.post("/moulds/{key}/reference")
def choose(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Choose the reference photo from the form."""
    try:
        said = filled(pin_routes.ReferenceChoiceShape, fields, who)
        pin_routes.choose(shop, now, key, said)
    except REFUSALS as error:
        return _pins(shop, key, who, problem_of(error), choosing=True)
    return go(f"/moulds/{key}/pins", said.who)


@router.post("/moulds/{key}/pins")
def add(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Set a pin from the form; it gives the place in per cent, as people say it."""
    try:
        reference = pin_routes.reference(shop, key)
        said = filled(pin_routes.NewPinShape, dict(fields) | _fractions(fields), who)
        pin_routes.add(shop, now, reference.photo.id, said)
    except REFUSALS as error:
        return _pins(shop, key, who, problem_of(error), typed=fields)
    return go(f"/moulds/{key}/pins#pins", said.who)


def _fractions(fields: Mapping[str, str]) -> dict[str, str]:
    try:
        return {name: str(float(fields[name]) / 100) for name in ("x", "y")}
    except (KeyError, ValueError) as error:
        raise Problem(422, "Say where the pin goes: tap the photo, or give both numbers, from 0 to 100.") from error


@router.post("/pins/{pin_id}/remove")
def remove(shop: ShopHere, now: Now, pin_id: int) -> Response:
    """Take a pin off from its form."""
    build = shop.store.build(shop.store.photo_of_pin(pin_id).build_id)
    pin_routes.remove(shop, now, pin_id)
    return go(f"/moulds/{build.mould_key}/pins#pins")
