"""The pages of one build: its timeline, one entry of it, what is added to it, and its sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from fastapi import APIRouter, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api.context import Now, ShopHere, WorkHere
from api.pages.clocks import clocks_of
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.pages.timeline import note_entry, photo_entry, timeline
from api.problems import REFUSALS, Problem, problem_of
from api.routes import builds as build_routes
from api.routes import notes as note_routes
from api.routes.notes import take_note
from api.routes.photos import take_photo
from api.uploads import files_in, note_in, photo_in
from journal import flow
from journal.find.first_uses import first_cautions
from journal.flow import Incoming, Taken
from journal.keep.views import OUTCOMES
from journal.review.queries import queries, totals_in_doubt
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def _build(shop: Shop, key: str, who: str, *troubles: Problem) -> Response:
    confirm_below = shop.settings.confirm_below
    build = shop.store.build(key)
    steps = shop.store.steps(build.id)
    entries = timeline(shop.store.notes(build.id), steps, shop.store.photos(build.id), confirm_below)
    return render(
        "build.html",
        *troubles,
        here="moulds",
        build=build,
        entries=entries,
        to_check=[step for step in steps if queries(step, confirm_below)],
        confirm_below=confirm_below,
        outcomes=OUTCOMES,
        who=who,
        most_seconds=shop.settings.max_seconds,
        key=build.key,
        clocks=clocks_of(shop, build.id, shop.now()),
        first=first_cautions(steps, shop.catalogue),
        places=shop.store.places(build.mould_id),
        pinned=flow.pinned(shop, build.mould_id, build.id),
    )


@router.get("/builds/{key}")
def build(shop: ShopHere, key: str, who: Who) -> Response:
    """Show a build as a timeline."""
    return _build(shop, key, who)


@router.get("/builds/{key}/notes/{note_id}")
def entry(shop: ShopHere, key: str, note_id: int) -> Response:
    """Show one note's entry of the timeline by itself: the page puts it in place of the old one."""
    note = shop.store.note(note_id)
    if note.build_id != shop.store.build(key).id:
        raise Problem(404, f"Note {note_id} is of another build: see /builds/{note.build_key}.")
    shown = note_entry(note, shop.store.note_steps(note_id), shop.settings.confirm_below)
    first = first_cautions(shop.store.steps(key), shop.catalogue)
    return render("entry.html", entry=shown, confirm_below=shop.settings.confirm_below, first=first)


@router.get("/builds/{key}/photos/{photo_id}")
def photo(shop: ShopHere, key: str, photo_id: int) -> Response:
    """Show one photo's entry of the timeline by itself: the page puts it where it belongs."""
    kept = shop.store.photo(photo_id)
    if kept.build_id != shop.store.build(key).id:
        raise Problem(404, f"Photo {photo_id} is of another build: see /builds/{kept.build_key}.")
    return render("photo_entry.html", entry=photo_entry(kept))


def _each(files: list[Incoming], take: Callable[[Incoming], Taken]) -> tuple[list[Taken], list[Problem]]:
    """Take in every file; one that is refused does not hold up the rest."""
    taken, troubles = [], []
    for file in files:
        try:
            taken.append(take(file))
        except REFUSALS as error:
            problem = problem_of(error)
            name = f"{file.filename}: " if file.filename else ""
            troubles.append(Problem(problem.status_code, f"{name}{problem.detail}"))
    return taken, troubles


@router.post("/builds/{key}/notes")
async def add_notes(shop: ShopHere, work: WorkHere, key: str, request: Request, who: Who) -> Response:
    """Add typed words, or recordings, from the form."""
    files = await files_in(request) or [await note_in(request)]
    taken, troubles = await run_in_threadpool(_each, files, partial(take_note, shop, work, key))
    if troubles:
        return await run_in_threadpool(_build, shop, key, who, *troubles)
    return go(f"/builds/{key}#note-{taken[-1].id}", files[0].who)


@router.post("/builds/{key}/photos")
async def add_photos(shop: ShopHere, work: WorkHere, key: str, request: Request, who: Who) -> Response:
    """Add photos from the form."""
    files = [
        replace(file, who=file.who or who or None) for file in await files_in(request) or [await photo_in(request)]
    ]
    taken, troubles = await run_in_threadpool(_each, files, partial(take_photo, shop, work, key))
    if troubles:
        return await run_in_threadpool(_build, shop, key, who, *troubles)
    return go(f"/builds/{key}#photo-{taken[-1].id}", who)


@router.post("/builds/{key}/outcome")
def set_outcome(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Set the outcome from the form."""
    try:
        said = filled(build_routes.OutcomeShape, fields, who)
        build_routes.set_outcome(shop, now, key, said)
    except REFUSALS as error:
        return _build(shop, key, who, problem_of(error))
    return go(f"/builds/{key}", said.who)


@router.post("/notes/{note_id}/retry")
def retry(shop: ShopHere, work: WorkHere, now: Now, note_id: int) -> Response:
    """Hear and read a failed note again."""
    note = note_routes.retry(shop, work, now, note_id)
    return go(f"/builds/{note.build_key}#note-{note.id}")


@router.get("/builds/{key}/sheet")
def sheet(shop: ShopHere, key: str) -> Response:
    """Show the build sheet, to be printed."""
    made = flow.build_sheet(shop, key)
    confirm_below = shop.settings.confirm_below
    entries = timeline(made.notes, made.steps, made.photos, confirm_below)
    return render(
        "build_sheet.html",
        sheet=made,
        entries=entries,
        unsure=any(entry.queries for entry in entries),
        in_doubt=totals_in_doubt(made.recipe.steps, confirm_below),
        first=first_cautions(made.steps, shop.catalogue),
    )
