"""Recordings and photos that a device keeps until they are here: sent in pieces, taken in when whole, confirmed.

Every request may be sent again. A device asks how far an upload got, sends the pieces from there, and
finishes it with the length and the sum; it deletes its own copy when the answer names that sum.
"""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Path, Request, Response
from pydantic import AwareDatetime, BaseModel, Field
from starlette.concurrency import run_in_threadpool

from api.context import Now, ShopHere, WorkHere, device_name
from api.problems import Problem, problems
from api.routes.notes import take_note
from api.routes.photos import take_photo
from api.shapes.examples import SAID_AT, SHA256, UPLOAD, example
from api.uploads import kind_of
from journal.flow import Incoming
from journal.keep.arriving import Upload
from journal.keep.media import MediaAltered, MediaMissing
from journal.keep.views import KeyReused, NoteView, PhotoView
from journal.obey import cancel
from journal.shop import Shop
from journal.work import Work

MOST_PIECE_BYTES = 4_000_000
router = APIRouter(prefix="/api/builds/{build_key}/uploads/{client_key}", tags=["uploads"])
ClientKey = Annotated[
    str, Path(pattern="^[0-9a-z-]{8,64}$", description="The sender's own name for the recording, made at its start")
]
PIECE_BODY = {
    "requestBody": {
        "required": True,
        "content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}},
    }
}


class UploadShape(BaseModel):
    """How far an upload got: bytes received, and, once it is a note or a photo, which one and the original's sum."""

    model_config = example(UPLOAD)

    received: int
    note_id: int | None = None
    photo_id: int | None = None
    sha256: str | None = None


class FinishedShape(BaseModel):
    """The end of an upload: what the whole of it is, and what the sender says of it; a photo may name its place."""

    model_config = example(
        {"size_bytes": 41203, "sha256": SHA256, "recorded_at": SAID_AT, "who": "lead maker", "device": "bench phone"}
    )

    size_bytes: int = Field(gt=0)
    sha256: str = Field(pattern="^[0-9a-f]{64}$")
    recorded_at: AwareDatetime
    who: str | None = None
    device: str | None = None
    place: str | None = Field(default=None, max_length=200)
    cancelled: str | None = Field(default=None, max_length=200, description="What took the note back: words, or a key")
    guessed: bool = Field(default=False, description="`recorded_at` is the file's date: the time within it goes first")


def _upload(shop: Shop, build_key: str, client_key: str) -> Upload:
    return Upload(shop.store.build(build_key).id, client_key)


def _confirmed(shop: Shop, upload: Upload) -> UploadShape | None:
    """Return what an upload became, with the sum of its original as read from the disk; None when it is not whole."""
    kept = shop.store.note_sent_as(upload.client_key) or shop.store.photo_sent_as(upload.client_key)
    return None if kept is None or kept.build_id != upload.build_id else _proved(shop, kept)


def _proved(shop: Shop, kept: NoteView | PhotoView) -> UploadShape | None:
    original = kept.photo if isinstance(kept, PhotoView) else kept.clip
    if original is None:
        return None
    try:
        size = len(shop.media.read(original.sha256))
    except (MediaMissing, MediaAltered):
        return None  # what the device still has mends it
    if isinstance(kept, PhotoView):
        return UploadShape(received=size, photo_id=kept.id, sha256=original.sha256)
    return UploadShape(received=size, note_id=kept.id, sha256=original.sha256)


@router.get("", summary="How far an upload got", responses=problems(404, 422))
def so_far(shop: ShopHere, build_key: str, client_key: ClientKey) -> UploadShape:
    """Return how many bytes are here, from the beginning; go on from there."""
    upload = _upload(shop, build_key, client_key)
    return _confirmed(shop, upload) or UploadShape(received=shop.arriving.received(upload))


@router.put(
    "/{offset}",
    summary="Send a piece of a recording or photo",
    responses=problems(404, 412, 413, 422),
    openapi_extra=PIECE_BODY,
)
async def piece(
    shop: ShopHere,
    now: Now,
    build_key: str,
    client_key: ClientKey,
    offset: Annotated[int, Path(ge=0)],
    request: Request,
) -> UploadShape:
    """Keep the bytes from `offset` on. The same piece again changes nothing; one that leaves a gap answers 412."""
    data = await request.body()
    if len(data) > MOST_PIECE_BYTES:
        raise Problem(
            413, f"This piece has {len(data)} bytes and the limit is {MOST_PIECE_BYTES}: send smaller pieces."
        )
    return await run_in_threadpool(_add, shop, (build_key, client_key), offset, data, now)


def _add(shop: Shop, keys: tuple[str, str], offset: int, data: bytes, now: datetime) -> UploadShape:
    return UploadShape(received=shop.arriving.add(_upload(shop, *keys), offset, data, now))


@router.post(
    "",
    status_code=201,
    summary="Finish an upload: make it a note or a photo",
    responses=problems(404, 409, 412, 413, 415, 422),
)
def finish(
    shop: ShopHere,
    work: WorkHere,
    build_key: str,
    client_key: ClientKey,
    said: FinishedShape,
    request: Request,
    response: Response,
) -> UploadShape:
    """Take in a whole recording or photo and answer with the sum of the original as it is kept; again, answer the same.

    Answers 412 when bytes are lacking, or when they are not those of the sum: ask how far it got, and go on.
    """
    upload = _upload(shop, build_key, client_key)
    done = _confirmed(shop, upload)
    if done is not None:
        response.status_code = 200
    else:
        said.device = device_name(request, said.device)
        done = _take(shop, work, build_key, upload, said)
    if done.sha256 != said.sha256:
        raise KeyReused(
            f"the client key {client_key!r} belongs to something else that was sent: use one key a recording"
        )
    shop.arriving.forget(upload)
    return done


def _take(shop: Shop, work: Work, build_key: str, upload: Upload, said: FinishedShape) -> UploadShape:
    data = shop.arriving.whole(upload, said.size_bytes, said.sha256)
    incoming = Incoming(
        data=data,
        filename="",
        given_time=None if said.guessed else said.recorded_at,
        guessed_time=said.recorded_at if said.guessed else None,
        who=said.who,
        device=said.device,
        client_key=upload.client_key,
        place=said.place,
    )
    is_photo = kind_of(incoming) == "photo"
    taken = (take_photo if is_photo else take_note)(shop, work, build_key, incoming)
    kept = taken.note or taken.photo
    assert kept is not None  # both give what was kept
    if said.cancelled and taken.note is not None:
        cancel(shop, taken.note.id, said.cancelled)
    done = _proved(shop, kept)
    if done is None:
        raise Problem(500, "It did not stay on the disk as it was sent: look at the disk, then send it again.")
    return done
