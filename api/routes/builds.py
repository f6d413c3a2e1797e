"""Builds: the makings of a mould."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from fastapi import APIRouter
from pydantic import AwareDatetime, BaseModel, Field

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.examples import PROGRESS, example
from api.shapes.sheet import SheetShape
from api.shapes.views import BuildShape, ChangeShape, StepShape
from journal import flow

router = APIRouter(prefix="/api/builds", tags=["builds"])


class NewBuildShape(BaseModel):
    """A build to be begun; without a name it is the mould's with the next number."""

    model_config = example({"mould": "niche", "remarks": "with more catalyst this time"})

    mould: str
    name: str | None = Field(default=None, min_length=1, max_length=200)
    started_at: AwareDatetime | None = None
    remarks: str = ""
    who: str | None = None


class OutcomeShape(BaseModel):
    """How a build turned out; `text` is the reason in a person's words."""

    model_config = example({"outcome": "worked", "text": "Clean release, in use", "who": "lead maker"})

    outcome: Literal["under way", "worked", "failed", "given up"]
    text: str = ""
    who: str | None = None


class NoteProgress(BaseModel):
    """How far one note has come; `entry` is where its part of the build page is."""

    id: int
    state: str
    finished: bool
    entry: str


class Progress(BaseModel):
    """How far the notes of a build have come, in the order they were recorded."""

    model_config = example(PROGRESS)

    notes: list[NoteProgress]


@router.get("", summary="All builds, or those of one mould", responses=problems(404))
def every(shop: ShopHere, mould: str | None = None) -> list[BuildShape]:
    """Return builds in the order they were started."""
    return [BuildShape.model_validate(build) for build in shop.store.builds(mould)]


@router.post("", status_code=201, summary="Begin a build", responses=problems(404, 409, 422))
def begin(shop: ShopHere, now: Now, new: NewBuildShape) -> BuildShape:
    """Begin a build of a mould."""
    started: datetime = new.started_at or now
    build = shop.store.add_build(new.mould, started, name=new.name, remarks=new.remarks, who=new.who)
    return BuildShape.model_validate(build)


@router.get("/{build_key}", summary="One build, by id, key or name", responses=problems(404))
def one(shop: ShopHere, build_key: str) -> BuildShape:
    """Return one build."""
    return BuildShape.model_validate(shop.store.build(build_key))


@router.put("/{build_key}/outcome", summary="Say how a build turned out", responses=problems(404, 422))
def set_outcome(shop: ShopHere, now: Now, build_key: str, said: OutcomeShape) -> BuildShape:
    """Set the outcome of a build."""
    build = shop.store.set_outcome(build_key, said.outcome, said.text, who=said.who, at=now)
    return BuildShape.model_validate(build)


@router.get("/{build_key}/steps", summary="The steps of a build, as spoken", responses=problems(404))
def steps(shop: ShopHere, build_key: str) -> list[StepShape]:
    """Return the steps in force, in the order they were spoken."""
    return [StepShape.model_validate(step) for step in shop.store.steps(build_key)]


@router.get("/{build_key}/sheet", summary="A build on one sheet", responses=problems(404))
def sheet(shop: ShopHere, build_key: str) -> SheetShape:
    """Return the build as a recipe, with its totals, faults and pulls, and the cautions that go with it."""
    return SheetShape.model_validate(flow.build_sheet(shop, build_key))


@router.get("/{build_key}/progress", summary="How far the notes of a build have come", responses=problems(404))
def progress(shop: ShopHere, build_key: str) -> Progress:
    """Return each note's state; poll this while any is not finished."""
    return Progress(
        notes=[
            NoteProgress(
                id=note.id,
                state=note.state,
                finished=note.state in {"read", "failed"},
                entry=f"/builds/{note.build_key}/notes/{note.id}",
            )
            for note in shop.store.notes(build_key)
        ]
    )


@router.get("/{build_key}/history", summary="Every change of a build, oldest first", responses=problems(404))
def history(shop: ShopHere, build_key: str) -> list[ChangeShape]:
    """Return the changes of a build."""
    changes = shop.store.history("build", shop.store.build(build_key).id)
    return [ChangeShape.model_validate(change) for change in changes]
