"""Plans: a scaled recipe that a build is made by, and how far it has come."""

from __future__ import annotations

from datetime import datetime

from fastapi import APIRouter
from pydantic import Field

from api.context import ShopHere
from api.problems import problems
from api.routes.recipes import PLANNED, SCALE, PlannedShape, WantedShape
from api.shapes.examples import SAID_AT, example
from api.shapes.views import Shape
from journal import planning
from journal.find.follow import Progress
from journal.find.telling import next_words
from journal.keep.plan_views import NewSkip

router = APIRouter(prefix="/api/builds/{build_key}/plan", tags=["plans"])

_FOLLOWED = {
    "planned": PLANNED,
    "state": "done",
    "step_ids": [71, 74],
    "off": ["catalyst: 28 g, planned 21, 33 % more"],
}


class NewPlanShape(WantedShape):
    """The build whose recipe is to be followed, scaled to one of area (m2), volume (ml) or times."""

    model_config = example({"recipe": "niche-2", "area_m2": 2.1, "who": "lead maker"})

    recipe: str = Field(min_length=1)
    who: str | None = None


class SkipShape(Shape):
    """A step to skip, by its number; the next one when no number is given."""

    model_config = example({"number": 6, "words": "no undercuts on this one", "who": "lead maker"})

    number: int | None = Field(default=None, ge=1)
    words: str = Field(default="", max_length=2000)
    who: str | None = None


class FollowedShape(Shape):
    """A planned step as it stands: open, begun, done, left out or skipped; the steps said of it; what is off it."""

    model_config = example(_FOLLOWED)

    planned: PlannedShape
    state: str
    step_ids: list[int]
    off: list[str]


class ProgressShape(Shape):
    """A plan as it stands: the number of the next step (null when all are done), and that step in words.

    `passed` are the numbers of steps still open before the last one done; `beside` ids of steps that are no part of it.
    """

    model_config = example(
        {
            "build_key": "niche-4", "recipe_key": "niche-2", "started_at": SAID_AT, "who": "lead maker",
            "scaled": SCALE, "done": 3, "next": 4, "next_words": "Next, step 4 of 16: mix 1050 grams ...",
            "passed": [], "beside": [], "steps": [_FOLLOWED],
        }
    )  # fmt: skip

    build_key: str
    recipe_key: str
    started_at: datetime
    who: str | None
    scaled: dict[str, object]
    done: int
    next: int | None
    next_words: str
    passed: list[int]
    beside: list[int]
    steps: list[FollowedShape]

    @classmethod
    def of(cls, progress: Progress) -> ProgressShape:
        """Return the shape of a plan as it stands."""
        plan = progress.plan
        return cls(
            build_key=plan.build_key,
            recipe_key=plan.recipe_key,
            started_at=plan.started_at,
            who=plan.who,
            scaled=plan.scaled,
            done=progress.done,
            next=progress.next.planned.number if progress.next else None,
            next_words=next_words(progress),
            passed=[each.planned.number for each in progress.passed],
            beside=list(progress.beside),
            steps=[FollowedShape.model_validate(each) for each in progress.steps],
        )


@router.get("", summary="The plan of a build as it stands", responses=problems(404))
def plan(shop: ShopHere, build_key: str) -> ProgressShape:
    """Return the plan in force: each step ticked off by what was said since, what is off it, and what is next."""
    return ProgressShape.of(planning.planned(shop, build_key))


@router.post("", status_code=201, summary="Start a plan", responses=problems(404, 422))
def start(shop: ShopHere, build_key: str, new: NewPlanShape) -> ProgressShape:
    """Scale a recipe and follow it in this build from now on; an earlier plan of it is kept, but not in force."""
    return ProgressShape.of(planning.start(shop, build_key, new.recipe, new.wanted, new.who))


@router.post("/skips", status_code=201, summary="Skip a step of the plan", responses=problems(404, 422))
def skip(shop: ShopHere, build_key: str, said: SkipShape) -> ProgressShape:
    """Skip the next step, or the one of a number; it stays in the plan, marked as skipped."""
    return ProgressShape.of(planning.skip(shop, build_key, NewSkip(said.number or 0, said.words, None, said.who)))
