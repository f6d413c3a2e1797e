"""What came of moulds: their lives, what people put on record, the photos of faults, and which recipe lasts longest."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Literal

from fastapi import APIRouter
from pydantic import AwareDatetime, BaseModel, Field

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.examples import FAULT, PHOTO, example
from api.shapes.sheet import FaultShape
from api.shapes.views import PhotoShape, Shape, StepShape
from journal import flow
from journal.review.outcome import NewOutcome
from journal.review.pictures.pictures import life_of_mould

router = APIRouter(prefix="/api", tags=["outcomes"])


class NewOutcomeShape(BaseModel):
    """What came of a build. `at` is now when not given; `seen` a kind of observation; `number` that of a pull."""

    model_config = example(
        {"kind": "pull", "number": 3, "seen": "chip", "words": "small chip on the edge", "place": "left scroll",
         "at": "2026-05-08T15:20:00+01:00", "who": "second maker"}
    )  # fmt: skip

    kind: Literal["opened", "pull", "fault", "repair", "retired"]
    at: AwareDatetime | None = None
    words: str = Field(default="", max_length=2000)
    seen: str | None = None
    place: str | None = Field(default=None, max_length=200)
    number: int | None = Field(default=None, ge=1)
    who: str | None = None

    def new(self, now: datetime) -> NewOutcome:
        """Return what is to be kept."""
        return NewOutcome(self.kind, self.at or now, self.words, self.seen, self.place, self.number, self.who)


class LifeEventShape(Shape):
    """One thing in a mould's life; `step_id` is null for what was only heard, `doubts` what is to be checked."""

    kind: str
    at: datetime
    step_id: int | None
    note_id: int
    pulls: int
    words: str
    places: list[str]
    doubts: list[str]


class MouldLifeShape(Shape):
    """The life of one making of a mould; `least` says that more pulls may have gone unlogged."""

    build_key: str
    mould_key: str
    recipe: list[str]
    outcome: str
    retired: bool
    pulls: int
    least: bool
    events: list[LifeEventShape]


class LeftShape(Shape):
    """The share of moulds that outlive so many pulls, with its 95 % interval."""

    pulls: int
    at_risk: int
    ended: int
    share: float
    low: float | None
    high: float | None


class SurvivalShape(Shape):
    """How many pulls moulds last (Kaplan-Meier); the median is null while more than half still go on."""

    moulds: int
    ended: int
    median: float | None
    low: float | None
    high: float | None
    curve: list[LeftShape]
    warning: str


class LastingShape(Shape):
    """How long moulds of one recipe last: to their end, and to their first repair or end."""

    recipe: list[str]
    builds: list[str]
    pulls: int
    to_retirement: SurvivalShape
    to_repair: SurvivalShape


_NONE: dict[str, Any] = {
    "moulds": 1, "ended": 0, "median": None, "low": None, "high": None, "curve": [],
    "warning": "only 0 of 1 have worn out: too few to say",
}  # fmt: skip
_LIFE = {
    "build_key": "niche-2", "mould_key": "niche", "recipe": ["polyester gel coat"], "outcome": "worked",
    "retired": False, "pulls": 1, "least": False,
    "events": [
        {"kind": "pull", "at": "2026-04-24T11:00:00+01:00", "step_id": 38, "note_id": 19, "pulls": 1,
         "words": "came off clean", "places": [], "doubts": []}
    ],
}  # fmt: skip


class LivesShape(Shape):
    """The lives of moulds, how long those of each recipe last, and whether one is known to last longest."""

    model_config = example(
        {
            "moulds": [_LIFE],
            "recipes": [
                {"recipe": ["polyester gel coat"], "builds": ["niche-2"], "pulls": 1, "to_retirement": _NONE,
                 "to_repair": _NONE}
            ],
            "verdict": "There are no two recipes to hold against each other.",
        }
    )  # fmt: skip

    moulds: list[MouldLifeShape]
    recipes: list[LastingShape]
    verdict: str


class ShownFaultShape(Shape):
    """A fault, the photos said to show it, and those of its place or taken near it that may."""

    model_config = example({"fault": FAULT, "shown": [PHOTO], "near": []})

    fault: FaultShape
    shown: list[PhotoShape]
    near: list[PhotoShape]


@router.get("/lives", summary="The lives of all moulds, and which recipe lasts longest")
def lives(shop: ShopHere) -> LivesShape:
    """Return the lives of all moulds; a mould still in use counts for the pulls that it has given so far."""
    return LivesShape.model_validate(flow.lives(shop))


@router.get("/moulds/{mould_key}/life", summary="The life of a mould", responses=problems(404))
def life(shop: ShopHere, mould_key: str) -> LivesShape:
    """Return the lives of the makings of one mould."""
    return LivesShape.model_validate(flow.lives(shop, mould_key))


@router.post(
    "/builds/{build_key}/outcomes", status_code=201, summary="Record what came of a mould", responses=problems(404, 422)
)
def add(shop: ShopHere, now: Now, build_key: str, said: NewOutcomeShape) -> StepShape:
    """Keep it as a typed note with one confirmed step, which can be corrected or withdrawn like any other."""
    return StepShape.model_validate(flow.record_outcome(shop, build_key, said.new(now)))


@router.get("/moulds/{mould_key}/faults/photos", summary="Faults of a mould with their photos", responses=problems(404))
def faults(shop: ShopHere, mould_key: str) -> list[ShownFaultShape]:
    """Return the faults of a mould, each with its photos."""
    found = life_of_mould(shop.store, shop.catalogue, mould_key)
    return [ShownFaultShape.model_validate(fault) for fault in found.faults]


@router.put(
    "/steps/{step_id}/photos/{photo_id}", summary="Say that a photo shows a fault", responses=problems(404, 422)
)
def show(shop: ShopHere, now: Now, step_id: int, photo_id: int, who: str | None = None) -> PhotoShape:
    """Attach a photo of the same mould to the fault found in a step; saying so again changes nothing."""
    return PhotoShape.model_validate(shop.store.show_fault(step_id, photo_id, now, who))


@router.delete(
    "/steps/{step_id}/photos/{photo_id}", summary="Say that a photo does not show a fault", responses=problems(404, 422)
)
def unshow(shop: ShopHere, now: Now, step_id: int, photo_id: int, who: str | None = None) -> PhotoShape:
    """Take a photo off a fault; the photo stays, and the history says so."""
    shop.store.unshow_fault(step_id, photo_id, now, who)
    return PhotoShape.model_validate(shop.store.photo(photo_id))
