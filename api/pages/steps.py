"""The page of one step: where each value comes from, its history, and the form that puts it right."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from starlette.responses import Response

from api.context import Now, ShopHere
from api.pages import correction, correction_form
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.pages.timeline import step_entry
from api.pages.words import pieces
from api.problems import REFUSALS, Problem, problem_of
from api.routes import steps as step_routes
from journal.flow import correct as correct_step
from journal.record import ACTIONS
from journal.review.queries import next_to_check
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def _step(
    shop: Shop, step_id: int, who: str, *troubles: Problem, told: str = "", filled: Fields | None = None
) -> Response:
    step = shop.store.step(step_id)
    note = shop.store.note(step.note_id)
    confirm_below = shop.settings.confirm_below
    return render(
        "step.html",
        *troubles,
        told=told,
        here="moulds",
        step=step,
        note=note,
        build=shop.store.build(step.build_id),
        entry=step_entry(step, confirm_below),
        words=pieces(note.text or "", note.transcript.words if note.transcript else ()),
        history=shop.store.history("step", step_id),
        confirm_below=confirm_below,
        form=correction_form.form_of(step.json, filled),
        actions=ACTIONS,
        statuses=correction_form.STATUSES,
        materials=sorted(material.name for material in shop.catalogue.materials),
        who=who,
    )


@router.get("/steps/{step_id}")
def step(shop: ShopHere, step_id: int, who: Who, done: str = "") -> Response:
    """Show one step."""
    return _step(shop, step_id, who, told=DONE.get(done, ""))


DONE = {
    "corrected": "The correction is kept.",
    "confirmed": "Confirmed.",
    "withdrawn": "The step is off the sheet.",
    "nothing": "Nothing was changed.",
}


def _changes(shop: Shop, step_id: int, fields: Fields) -> dict[str, Any]:
    step = shop.store.step(step_id)
    if fields.get("seen") != correction_form.fingerprint(step.json):
        raise Problem(409, "Somebody changed this step in the meantime: look at it as it is now, then correct it.")
    try:
        return correction.changes(step.json, fields, step.recorded_at.tzinfo)
    except correction.FormError as error:
        raise Problem(422, str(error)) from error


@router.post("/steps/{step_id}")
def correct(shop: ShopHere, step_id: int, fields: Fields, who: Who) -> Response:
    """Correct a step from the form."""
    said_by = fields.get("who") or who
    try:
        changes = _changes(shop, step_id, fields)
        if changes:
            correct_step(shop, step_id, changes, said_by or None, fields.get("why", ""))
    except REFUSALS as error:
        problem = problem_of(error)
        # What was filled in stands beside what it was refused for; over a changed step it would be misleading.
        return _step(shop, step_id, said_by, problem, filled=None if problem.status_code == 409 else fields)
    return go(f"/steps/{step_id}?done={'corrected' if changes else 'nothing'}", said_by)


@router.post("/steps/{step_id}/confirm")
def confirm(shop: ShopHere, now: Now, step_id: int, fields: Fields, who: Who) -> Response:
    """Confirm a step from its query, and go to the next one that has a query."""
    step_routes.confirm(shop, now, step_id, filled(step_routes.WordShape, fields, who))
    step = shop.store.step(step_id)
    following = next_to_check(shop.store.steps(step.build_id), step, shop.settings.confirm_below) or step
    return go(f"/builds/{step.build_key}#step-{following.id}")


@router.post("/steps/{step_id}/withdraw")
def withdraw(shop: ShopHere, now: Now, step_id: int, fields: Fields, who: Who) -> Response:
    """Take a step off the sheet from the form."""
    word = filled(step_routes.WordShape, fields, who)
    step_routes.withdraw(shop, now, step_id, word)
    return go(f"/steps/{step_id}?done=withdrawn", word.who)
