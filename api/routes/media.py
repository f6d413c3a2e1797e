"""Media: the original recordings and photos, in ranges, and the copies that pages show."""

from __future__ import annotations

from typing import Any, Literal

from fastapi import APIRouter, Request
from starlette.responses import Response

from api.context import ShopHere
from api.problems import Problem, problems
from api.ranges import Stored, serve
from journal import flow
from journal.record import Clip, Photo
from journal.shop import Shop

router = APIRouter(prefix="/api", tags=["media"])
COPIES = {"large": flow.PAGE_COPY, "thumb": flow.THUMBNAIL}
COPY_TYPE = "image/webp"


def _bytes_of(*types: str) -> dict[int | str, dict[str, Any]]:
    content = {kind: {"schema": {"type": "string", "format": "binary"}} for kind in types}
    return {
        200: {"description": "The bytes", "content": content},
        206: {"description": "The range of the bytes that was asked for", "content": content},
        **problems(404, 416),
    }


def _original(shop: Shop, kept: Clip | Photo) -> Stored:
    size = shop.media.size(kept.sha256)
    return Stored(lambda: shop.media.open(kept.sha256), size, kept.media_type, kept.sha256)


@router.get(
    "/notes/{note_id}/recording",
    summary="The recording of a note, as it was taken in",
    response_class=Response,
    responses=_bytes_of("audio/*"),
)
def recording(shop: ShopHere, note_id: int, request: Request) -> Response:
    """Return the original bytes, or the range of them that was asked for."""
    clip = shop.store.note(note_id).clip
    if clip is None:
        raise Problem(404, f"Note {note_id} was typed: there is no recording of it.")
    return serve(request, _original(shop, clip))


@router.get(
    "/photos/{photo_id}/original",
    summary="A photo, as it was taken in",
    response_class=Response,
    responses=_bytes_of("image/*"),
)
def photo(shop: ShopHere, photo_id: int, request: Request) -> Response:
    """Return the original bytes, with whatever the camera wrote into them."""
    return serve(request, _original(shop, shop.store.photo(photo_id).photo))


@router.get(
    "/photos/{photo_id}/{copy}",
    summary="An upright copy of a photo, without its metadata",
    response_class=Response,
    responses=_bytes_of(COPY_TYPE),
)
def photo_copy(shop: ShopHere, photo_id: int, copy: Literal["large", "thumb"], request: Request) -> Response:
    """Return the copy for a page or the small one for a list."""
    sha256 = shop.store.photo(photo_id).photo.sha256
    data = shop.media.derived(sha256, COPIES[copy])
    if data is None:
        raise Problem(404, f"No such copy of photo {photo_id} is kept: `mouldbook check` makes it again.")
    return serve(request, Stored.of(data, COPY_TYPE, f"{sha256}-{copy}"))
