"""Photos of a build."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from pydantic import BaseModel, Field
from starlette.concurrency import run_in_threadpool

from api.context import Now, ShopHere, WorkHere, take
from api.problems import Problem, problems
from api.shapes.examples import example
from api.shapes.views import PhotoShape
from api.uploads import PHOTO_BODY, kind_of, photo_in
from journal.flow import Incoming, Taken
from journal.shop import Shop
from journal.work import Work

router = APIRouter(prefix="/api", tags=["photos"])


def take_photo(shop: Shop, work: Work, build_key: str, incoming: Incoming) -> Taken:
    """Take in a photo. Raises Problem 415 on what is none, CaptureError on a picture that is broken."""
    if kind_of(incoming) != "photo":
        raise Problem(415, "This is no photo: send a JPEG, PNG, WebP or HEIC picture.")
    return take(shop, work, build_key, incoming)


class PlaceShape(BaseModel):
    """The place of the mould that a photo shows; x and y pin it, in fractions from the top left."""

    model_config = example({"place": "left scroll", "x": 0.31, "y": 0.52, "who": "second maker"})

    place: str = Field(min_length=1, max_length=200)
    x: float | None = Field(default=None, ge=0, le=1)
    y: float | None = Field(default=None, ge=0, le=1)
    who: str | None = None


@router.post(
    "/builds/{build_key}/photos",
    status_code=201,
    summary="Add a photo",
    responses=problems(404, 409, 413, 415, 422),
    openapi_extra=PHOTO_BODY,
)
async def add(shop: ShopHere, work: WorkHere, build_key: str, request: Request, response: Response) -> PhotoShape:
    """Keep a photo, sent as a form with `file` or as the bare picture; the same one again answers 200."""
    taken = await run_in_threadpool(take_photo, shop, work, build_key, await photo_in(request))
    if not taken.created:
        response.status_code = 200
    return PhotoShape.model_validate(taken.photo)


@router.get("/builds/{build_key}/photos", summary="The photos of a build, as taken", responses=problems(404))
def of_build(shop: ShopHere, build_key: str) -> list[PhotoShape]:
    """Return a build's photos in the order they were taken."""
    return [PhotoShape.model_validate(photo) for photo in shop.store.photos(build_key)]


@router.get("/photos/{photo_id}", summary="One photo", responses=problems(404))
def one(shop: ShopHere, photo_id: int) -> PhotoShape:
    """Return what is known of one photo."""
    return PhotoShape.model_validate(shop.store.photo(photo_id))


@router.put("/photos/{photo_id}/place", summary="Say which place a photo shows", responses=problems(404, 422))
def set_place(shop: ShopHere, now: Now, photo_id: int, said: PlaceShape) -> PhotoShape:
    """Set the place of a photo, or pin one on it."""
    photo = shop.store.place_photo(photo_id, said.place, at=now, x=said.x, y=said.y, who=said.who)
    return PhotoShape.model_validate(photo)
