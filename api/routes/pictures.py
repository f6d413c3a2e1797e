"""What the pictures of builds show, as data."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from api.context import ShopHere
from api.problems import problems
from api.shapes.examples import PHOTO, example
from api.shapes.views import PhotoShape, Shape
from journal.review.pictures.pictures import build_pictures, strip_of

router = APIRouter(prefix="/api", tags=["pictures"])


class CellShape(Shape):
    """A cell of a picture's table; the step that it rests on, if one."""

    words: str
    step_id: int | None


_RATIOS = {
    "name": "ratios", "title": "Ratios against the catalogue",
    "about": "1 batches. None is outside what the material bears.",
    "head": ["Batch", "Mixed", "Catalogue", "Off", "Borne"],
    "rows": [
        [
            {"words": "laminating epoxy, Mon 13:12", "step_id": 31},
            {"words": "28.1 of hardener per 100 by weight", "step_id": None},
            {"words": "28", "step_id": None}, {"words": "+0.4 %", "step_id": None}, {"words": "± 3 %", "step_id": None},
        ]
    ],
    "lacks": "",
}  # fmt: skip


class PictureShape(Shape):
    """What a picture shows: in a sentence, and as a table. `lacks` says why there is nothing to show."""

    model_config = example(_RATIOS)

    name: str
    title: str
    about: str
    head: list[str]
    rows: list[list[CellShape]]
    lacks: str


class PlaceRowShape(Shape):
    """The photos of one place, a list for each build; `place` is null where none was said."""

    place: str | None
    photos: list[list[PhotoShape]]


class StripShape(Shape):
    """Photos by place across builds, in the order that the builds were asked for."""

    model_config = example({"builds": ["niche-2"], "rows": [{"place": "left half", "photos": [[PHOTO]]}]})

    builds: list[str]
    rows: list[PlaceRowShape]


@router.get(
    "/builds/{build_key}/pictures",
    summary="A build's times, ratios, temperatures and life, as its pictures show them",
    responses=problems(404),
)
def of_build(shop: ShopHere, build_key: str) -> list[PictureShape]:
    """Return the table behind each picture of a build."""
    found = build_pictures(shop.store, shop.catalogue, build_key, shop.settings.confirm_below)
    return [PictureShape.model_validate(picture) for picture in found.pictures]


Builds = Annotated[list[str], Query(min_length=1, max_length=20, description="Builds, by key")]


@router.get("/compare/photos", summary="Photos of builds side by side, by place", responses=problems(404, 422))
def strip(shop: ShopHere, build: Builds) -> StripShape:
    """Return the photos of builds by the place that they show."""
    found = strip_of(shop.store, build)
    rows = [PlaceRowShape.model_validate(row) for row in found.rows]
    return StripShape(builds=[each.key for each in found.builds], rows=rows)
