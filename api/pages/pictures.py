"""The page with the pictures of one build."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from journal.review.pictures.pictures import build_pictures, strip_of

router = APIRouter(include_in_schema=False)


@router.get("/builds/{key}/pictures")
def pictures(shop: ShopHere, key: str) -> Response:
    """Show the pictures of a build, and its photos beside those of the other makings of its mould."""
    found = build_pictures(shop.store, shop.catalogue, key, shop.settings.confirm_below)
    others = [build.key for build in shop.store.builds(found.build.mould_id) if build.id != found.build.id]
    strip = strip_of(shop.store, [found.build.key, *others[-3:]])
    return render("pictures.html", here="moulds", found=found, strip=strip)
