"""The page that holds builds against each other, and the one that counts over all of them."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from api.problems import REFUSALS, problem_of
from journal import flow
from journal.review.pictures.pictures import strip_of

router = APIRouter(include_in_schema=False)

Builds = Annotated[list[str], Query(max_length=20)]


@router.get("/compare")
def compare(shop: ShopHere, build: Builds = []) -> Response:  # noqa: B006 - FastAPI copies it
    """Compare builds, or show the empty form; the fields that were left empty do not count."""
    asked = [key.strip() for key in build if key.strip()]
    found, troubles = None, []
    if asked:
        try:
            found = flow.compare(shop, asked)
        except REFUSALS as error:
            troubles.append(problem_of(error))
    told = [key for each in found.explanations for key in (each.build, *each.against)] if found else []
    strip = strip_of(shop.store, told)
    builds = shop.store.builds()
    return render("compare.html", *troubles, asked=asked, found=found, pattern=None, builds=builds, strip=strip)


@router.get("/compare/all")
def patterns(shop: ShopHere) -> Response:
    """Count over all builds."""
    return render("compare.html", asked=[], found=None, pattern=flow.patterns(shop), builds=shop.store.builds())
