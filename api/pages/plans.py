"""The page of a plan, and its part that stands on the bench page."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter
from markupsafe import Markup
from starlette.responses import HTMLResponse, Response

from api.context import ShopHere
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import TEMPLATES, render
from api.problems import REFUSALS, Problem, problem_of
from api.routes.plans import SkipShape
from journal import flow, planning
from journal.find.follow import Progress
from journal.find.telling import next_words
from journal.keep.plan_views import NewSkip
from journal.keep.views import BuildView
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


def part_of(build: BuildView, progress: Progress, told: str = "") -> dict[str, Any]:
    """Return what plan_part.html shows of a plan; `told` is said of the note that was just read."""
    following = next_words(progress)
    ticked = told.removesuffix(following).strip()
    return {"build": build, "progress": progress, "told": told, "ticked": ticked, "next_words": following}


def bench_part(shop: Shop, build: BuildView) -> Markup:
    """Return the plan's part of the bench page, empty for a build without a plan."""
    progress = planning.progress_of(shop, build.id)
    return Markup() if progress is None else _part(build, progress)


def _part(build: BuildView, progress: Progress, told: str = "") -> Markup:
    return Markup(TEMPLATES.get_template("plan_part.html").render(part_of(build, progress, told)))  # escaped there


@router.get("/builds/{key}/plan")
def plan(shop: ShopHere, key: str) -> Response:
    """Show the plan of a build, or how to get one."""
    return _plan(shop, key)


def _plan(shop: Shop, key: str, *troubles: Problem) -> Response:
    build = shop.store.build(key)
    progress = planning.progress_of(shop, build.id)
    part = {"progress": None, "told": ""} if progress is None else part_of(build, progress)
    return render("plan.html", *troubles, here="moulds", **part | {"build": build})


@router.get("/builds/{key}/plan/part")
def part(shop: ShopHere, key: str, note: int | None = None) -> Response:
    """Show how far the plan is, after a note was read when one is given: the page puts it in place, and says it."""
    build = shop.store.build(key)
    said = None if note is None else flow.note_text(shop, shop.store.note(note))
    told = "" if note is None or said is None else planning.told_after(shop, build.id, note, said)
    return HTMLResponse(_part(build, planning.planned(shop, build.id), told), headers={"cache-control": "no-store"})


@router.post("/builds/{key}/plan/skip")
def skip(shop: ShopHere, key: str, fields: Fields, who: Who) -> Response:
    """Skip a step from its form."""
    try:
        number = filled(SkipShape, fields, who).number or 0
        planning.skip(shop, key, NewSkip(number, "skipped on the page", None, who or None))
    except REFUSALS as error:
        return _plan(shop, key, problem_of(error))
    return go(f"/builds/{key}/plan")
