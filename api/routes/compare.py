"""Comparisons: what differed between builds, and what goes with a fault over all of them."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Query

from api.context import ShopHere
from api.problems import problems
from api.shapes.examples import FAULT, SAID_AT, TEXT, example
from api.shapes.sheet import FaultShape
from api.shapes.views import Shape
from journal import flow

router = APIRouter(prefix="/api/compare", tags=["compare"])


class DifferenceShape(Shape):
    """One thing that differed, with the steps that show it in the build and in those it is held against.

    `size` is 0 to 1; `beyond` says that a limit or tolerance was passed; `doubts` are queries on its values.
    """

    factor: str
    subject: str
    words: str
    size: float
    step_ids: list[int]
    against_ids: list[int]
    doubts: list[str]
    beyond: bool


class LikelyShape(Shape):
    """Something that could have brought these kinds of fault about, why, and whose knowledge that is."""

    factor: str
    words: str
    why: str
    source: str
    faults: list[str]
    score: float
    differences: list[DifferenceShape]


class BesideShape(Shape):
    """One act across the builds by the ids of its steps, the build first; null where a build has none."""

    act: str
    stage: str
    step_ids: list[int | None]


class ExplanationShape(Shape):
    """A build held against others: faults, what could have caused them, what else differed, what is not recorded."""

    build: str
    against: list[str]
    faults: list[FaultShape]
    signs: list[FaultShape]
    likely: list[LikelyShape]
    others: list[DifferenceShape]
    lacks: list[str]
    rows: list[BesideShape]
    caution: str


class RateShape(Shape):
    """How many of some builds had a fault; low and high are Wilson's 95 % interval of the rate, 0 to 1."""

    faulty: int
    builds: int
    low: float
    high: float


class FactorShape(Shape):
    """A factor and a kind of fault: the rates with and without it, Fisher's exact p, and p after Holm's correction.

    `p_corrected` is null where the builds are too few to tell; `alike` are factors that come with this one, `usual`
    says why it is a usual cause of that fault (empty when it is none).
    """

    name: str
    fault: str
    with_it: RateShape
    without_it: RateShape
    p: float
    p_corrected: float | None
    builds: list[str]
    alike: list[str]
    usual: str
    confident: bool


_FACTOR = {
    "name": "cold shop", "fault": "soft", "p": 0.0002, "p_corrected": 0.031, "builds": ["niche-1"], "alike": [],
    "usual": "cold slows the cure and can stop it (published, trade press)",
    "with_it": {"faulty": 5, "builds": 9, "low": 0.27, "high": 0.81},
    "without_it": {"faulty": 4, "builds": 91, "low": 0.02, "high": 0.11}, "confident": True,
}  # fmt: skip
_PATTERN = {"builds": 100, "factors": [_FACTOR], "tested": 155, "warnings": []}


class PatternShape(Shape):
    """What goes with each kind of fault over builds, the likeliest first; what goes together need not be the cause."""

    model_config = example(_PATTERN)

    builds: int
    factors: list[FactorShape]
    tested: int
    warnings: list[str]


class CitedShape(Shape):
    """A step that is pointed to, with what was said in its note."""

    step_id: int
    note_id: int
    build_key: str
    at: datetime
    act: str
    words: str


_DIFFERENCE = {
    "factor": "little hardener or catalyst", "subject": "polyester gel coat", "size": 1.0, "step_ids": [5],
    "words": "catalyst at 1 per 100 of polyester gel coat by weight, 50 % under the other build's 2",
    "against_ids": [31], "doubts": [], "beyond": True,
}  # fmt: skip
_LIKELY = {
    "factor": _DIFFERENCE["factor"], "words": f"{_DIFFERENCE['words']}: could bear on soft", "faults": ["soft"],
    "why": "too little of the second part leaves resin that never cures", "source": "published, trade press",
    "score": 3.0, "differences": [_DIFFERENCE],
}  # fmt: skip


class ComparisonShape(Shape):
    """An explanation for each build that failed (else for the first); `pattern` from three builds on."""

    model_config = example(
        {
            "explanations": [
                {
                    "build": "niche-1", "against": ["niche-2"], "faults": [FAULT], "signs": [], "likely": [_LIKELY],
                    "others": [], "lacks": ["No lot number is said of any material."], "caution": "",
                    "rows": [{"act": "mix", "stage": "gel coat", "step_ids": [5, 31]}],
                }
            ],
            "pattern": None,
            "cited": [
                {"step_id": 31, "note_id": 14, "build_key": "niche-2", "at": SAID_AT, "act": "mix", "words": TEXT}
            ],
        }
    )  # fmt: skip

    explanations: list[ExplanationShape]
    pattern: PatternShape | None
    cited: list[CitedShape]


Builds = Annotated[
    list[str], Query(max_length=20, description="Builds, by key; one alone is held against those that worked")
]


@router.get("", summary="What differed between builds", responses=problems(404, 422))
def compare(shop: ShopHere, build: Builds) -> ComparisonShape:
    """Hold builds against each other and rank what could have caused the faults."""
    return ComparisonShape.model_validate(flow.compare(shop, build))


@router.get("/all", summary="What goes with each kind of fault over all builds")
def patterns(shop: ShopHere) -> PatternShape:
    """Return the failure rate with and without each factor over all builds whose outcome is known."""
    return PatternShape.model_validate(flow.patterns(shop))
