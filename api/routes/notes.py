"""Notes: recordings and typed text, taken in and followed."""

from __future__ import annotations

from fastapi import APIRouter, Request, Response
from starlette.concurrency import run_in_threadpool

from api.context import Now, ShopHere, WorkHere, take
from api.problems import Problem, problems
from api.shapes.record import RecordShape
from api.shapes.sheet import HearingShape, ReadingShape
from api.shapes.views import ChangeShape, NoteShape, StepShape
from api.uploads import NOTE_BODY, kind_of, note_in
from journal.flow import Incoming, Taken
from journal.record import step_to_json
from journal.shop import Shop
from journal.work import Work

router = APIRouter(prefix="/api", tags=["notes"])


def take_note(shop: Shop, work: Work, build_key: str, incoming: Incoming) -> Taken:
    """Take in a recording or typed text. Raises Problem 415 on a photo, CaptureError on what is neither."""
    if kind_of(incoming) == "photo":
        raise Problem(415, "This is a photo: add it to the photos of the build.")
    return take(shop, work, build_key, incoming)


@router.post(
    "/builds/{build_key}/notes",
    status_code=201,
    summary="Add a recording or typed text",
    responses=problems(404, 409, 413, 415, 422),
    openapi_extra=NOTE_BODY,
)
async def add(shop: ShopHere, work: WorkHere, build_key: str, request: Request, response: Response) -> NoteShape:
    """Keep a note, then hear and read it in the background.

    Sent as a form with `file` or `text`, as JSON with `text`, or as the bare recording. The same
    recording or `client_key` again answers 200 with the note that is kept.
    """
    taken = await run_in_threadpool(take_note, shop, work, build_key, await note_in(request))
    if not taken.created:
        response.status_code = 200
    return NoteShape.model_validate(taken.note)


@router.get("/builds/{build_key}/notes", summary="The notes of a build, as recorded", responses=problems(404))
def of_build(shop: ShopHere, build_key: str) -> list[NoteShape]:
    """Return a build's notes in the order they were recorded."""
    return [NoteShape.model_validate(note) for note in shop.store.notes(build_key)]


@router.get("/notes/{note_id}", summary="One note with what was heard", responses=problems(404))
def one(shop: ShopHere, note_id: int) -> NoteShape:
    """Return one note."""
    return NoteShape.model_validate(shop.store.note(note_id))


@router.get("/notes/{note_id}/steps", summary="The steps of one note", responses=problems(404))
def steps(shop: ShopHere, note_id: int) -> list[StepShape]:
    """Return one note's steps in force, withdrawn ones included."""
    return [StepShape.model_validate(step) for step in shop.store.note_steps(note_id)]


@router.get(
    "/notes/{note_id}/hearings", summary="Every hearing of a note, the first one first", responses=problems(404)
)
def hearings(shop: ShopHere, note_id: int) -> list[HearingShape]:
    """Return what was heard each time; the last one is in force, the first is never altered."""
    return [HearingShape.model_validate(hearing) for hearing in shop.store.hearings(note_id)]


@router.get(
    "/notes/{note_id}/readings", summary="Every reading of a note, the first one first", responses=problems(404)
)
def readings(shop: ShopHere, note_id: int) -> list[ReadingShape]:
    """Return the steps as they were read each time, before any correction."""
    return [
        ReadingShape(
            number=reading.number,
            read_at=reading.read_at,
            reader_version=reading.reader_version,
            in_force=reading.in_force,
            records=[RecordShape.model_validate(step_to_json(step)) for step in reading.steps],
        )
        for reading in shop.store.readings(note_id)
    ]


@router.post("/notes/{note_id}/retry", summary="Hear and read a failed note again", responses=problems(404, 422))
def retry(shop: ShopHere, work: WorkHere, now: Now, note_id: int) -> NoteShape:
    """Put a failed note back in waiting."""
    note = shop.store.retry_note(note_id, at=now)
    work.queue_note(note_id)
    return NoteShape.model_validate(note)


@router.get("/notes/{note_id}/history", summary="Every change of a note, oldest first", responses=problems(404))
def history(shop: ShopHere, note_id: int) -> list[ChangeShape]:
    """Return the changes of a note."""
    shop.store.note(note_id)
    return [ChangeShape.model_validate(change) for change in shop.store.history("note", note_id)]
