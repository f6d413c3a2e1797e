"""The pages of a mould's life, of its faults with their photos, and of which recipe lasts longest."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from fastapi import APIRouter, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api.context import Now, ShopHere, WorkHere
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes import outcomes as outcome_routes
from api.routes.photos import take_photo
from api.uploads import photo_in
from journal import flow
from journal.record import OBSERVATION_KINDS
from journal.review.outcome import KINDS
from journal.review.pictures.pictures import life_of_mould
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def _life(shop: Shop, key: str, who: str, *troubles: Problem) -> Response:
    return render(
        "life.html",
        *troubles,
        here="moulds",
        mould=shop.store.mould(key),
        found=life_of_mould(shop.store, shop.catalogue, key),
        kinds=KINDS,
        seen=[kind for kind in OBSERVATION_KINDS if kind != "other"],
        places=shop.store.places(key),
        who=who,
    )


@router.get("/moulds/{key}/life")
def life(shop: ShopHere, key: str, who: Who) -> Response:
    """Show the life of a mould."""
    return _life(shop, key, who)


@router.post("/moulds/{key}/life")
def add(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Record what came of a mould, from the form; a time without an offset is the shop's."""
    given = dict(fields)
    build = given.pop("build", "")
    try:
        if given.get("at"):
            given["at"] = _shop_time(shop, given["at"])
        said = filled(outcome_routes.NewOutcomeShape, given, who)
        if shop.store.build(build).mould_id != shop.store.mould(key).id:
            raise Problem(422, f"The build {build} is of another mould.")
        outcome_routes.add(shop, now, build, said)
    except REFUSALS as error:
        return _life(shop, key, who, problem_of(error))
    return go(f"/moulds/{key}/life", said.who)


def _shop_time(shop: Shop, text: str) -> str:
    try:
        return datetime.fromisoformat(text).replace(tzinfo=shop.zone).isoformat()
    except ValueError as error:
        raise Problem(422, f"{text!r} is no time: write it like 2026-04-24T11:00.") from error


@router.post("/steps/{step_id}/photos")
async def show(shop: ShopHere, work: WorkHere, now: Now, step_id: int, request: Request, who: Who) -> Response:
    """Say that a photo shows the fault of a step: one that is kept, by its id, or a new one from the form."""
    async with request.form() as form:
        kept = form.get("photo")
        if isinstance(kept, str):
            return await run_in_threadpool(_show_kept, shop, step_id, kept, now, who)
        incoming = await photo_in(request)
    step = await run_in_threadpool(shop.store.step, step_id)
    place = next((each.text for each in step.record.places), None)
    try:
        incoming = replace(incoming, who=incoming.who or who or None, place=incoming.place or place)
        taken = await run_in_threadpool(take_photo, shop, work, step.build_key, incoming)
    except REFUSALS as error:
        mould = shop.store.build(step.build_key).mould_key
        return await run_in_threadpool(_life, shop, mould, who, problem_of(error))
    return await run_in_threadpool(_show_kept, shop, step_id, str(taken.id), now, who)


def _show_kept(shop: Shop, step_id: int, photo_id: str, now: datetime, who: str) -> Response:
    if not photo_id.isdecimal():
        raise Problem(422, f"{photo_id!r} is no photo.")
    photo = shop.store.show_fault(step_id, int(photo_id), now, who or None)
    return _back(shop, photo.build_key, step_id)


@router.post("/steps/{step_id}/photos/{photo_id}/remove")
def unshow(shop: ShopHere, now: Now, step_id: int, photo_id: int, who: Who) -> Response:
    """Say that a photo does not show the fault."""
    shop.store.unshow_fault(step_id, photo_id, now, who or None)
    return _back(shop, shop.store.photo(photo_id).build_key, step_id)


def _back(shop: Shop, build_key: str, step_id: int) -> Response:
    return go(f"/moulds/{shop.store.build(build_key).mould_key}/life#fault-{step_id}")


@router.get("/lives")
def lives(shop: ShopHere) -> Response:
    """Show which recipe lasts longest."""
    return render("lives.html", here="moulds", found=flow.lives(shop))
