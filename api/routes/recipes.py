"""Recipes: builds offered for a job, and one of them scaled to the piece at hand."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from pydantic import Field

from api.context import ShopHere
from api.problems import problems
from api.shapes.examples import BUILD, MOULD, example
from api.shapes.views import BuildShape, MouldShape, Shape
from journal import planning
from journal.find.offers import Job
from journal.find.scale import RESOLUTION_G, Wanted

router = APIRouter(prefix="/api/recipes", tags=["recipes"])

USE: dict[str, Any] = {
    "name": "polyester gel coat", "part": None, "amount": 1050.0, "amount_most": None, "unit": "g", "was": 700.0,
    "kept_why": "", "doubts": [],
}  # fmt: skip
PLANNED = {
    "number": 4, "action": "mix", "step_id": 31, "note_id": 14, "heard": "Mixed", "audio": [0.1, 0.44], "uses": [USE],
    "ratio": [100.0, 2.0], "ratio_by": "weight", "layers": [], "places": [], "timings": [],
    "cues": ["until it was one colour"], "reasons": [], "warnings": [], "batches": 2, "doubts": [],
    "mind": ["2 pots of 535.5 g: no more than 714 g of polyester gel coat was mixed in one pot for the recipe"],
}  # fmt: skip
SCALE = {"by": "area", "factor": 1.5, "was": 1.4, "wanted": 2.1, "resolution_g": 0.1}


class OfferShape(Shape):
    """A recipe offered: the build, how like the job it is (0 to 1), why, what is unlike or not known, its castings."""

    model_config = example(
        {
            "build": BUILD, "mould": MOULD, "likeness": 0.95, "pulls": 2, "unlike": [],
            "why": ["made with polyester gel coat", "1.4 m2, yours 1.5"],
        }
    )  # fmt: skip

    build: BuildShape
    mould: MouldShape
    likeness: float
    why: list[str]
    unlike: list[str]
    pulls: int


class UseShape(Shape):
    """A material to weigh: `amount` in all pots together, `was` in the recipe, `kept_why` when it was not scaled."""

    model_config = example(USE)

    name: str
    part: str | None
    amount: float | None
    amount_most: float | None
    unit: str | None
    was: float | None
    kept_why: str
    doubts: list[str]


class PlannedLayerShape(Shape):
    """Layers or coats of a planned step; `gsm` is g/m2 of one."""

    name: str
    count: float | None
    gsm: float | None


class PlannedShape(Shape):
    """A step of a plan, with the step of the recipe it comes from. Timings are kind, least and most seconds."""

    model_config = example(PLANNED)

    number: int
    action: str
    step_id: int
    note_id: int
    heard: str
    audio: tuple[float, float] | None
    uses: list[UseShape]
    ratio: list[float]
    ratio_by: str | None
    layers: list[PlannedLayerShape]
    places: list[str]
    timings: list[tuple[str, float | None, float | None]]
    cues: list[str]
    reasons: list[str]
    warnings: list[str]
    batches: int
    doubts: list[str]
    mind: list[str]


class ScaleShape(Shape):
    """How a recipe is scaled: by area (m2), volume (ml), times, or as it was; the factor; what the scale shows."""

    model_config = example(SCALE)

    by: str
    factor: float
    was: float | None
    wanted: float | None
    resolution_g: float


class ScaledShape(Shape):
    """A recipe scaled: its steps, and what was not scaled, each with the reason."""

    model_config = example({"scale": SCALE, "steps": [PLANNED], "not_scaled": []})

    scale: ScaleShape
    steps: list[PlannedShape]
    not_scaled: list[str]


class WantedShape(Shape):
    """What a recipe is scaled to, one of area (m2), volume (ml) or times; none leaves it as it was."""

    model_config = example({"area_m2": 2.1, "resolution_g": 0.1})

    area_m2: float | None = Field(default=None, gt=0)
    volume_ml: float | None = Field(default=None, gt=0)
    times: float | None = Field(default=None, gt=0)
    resolution_g: float = Field(default=RESOLUTION_G, ge=0, le=1000)

    @property
    def wanted(self) -> Wanted:
        """What the core takes."""
        return Wanted(self.area_m2, self.volume_ml, self.times, self.resolution_g)


class JobShape(Shape):
    """The job at hand; any of it may be left out."""

    material: str = Field(default="", max_length=200)
    area_m2: float | None = Field(default=None, gt=0)
    degc: float | None = Field(default=None, ge=-20, le=60)
    shape: str = Field(default="", max_length=200)

    @property
    def job(self) -> Job:
        """What the core takes."""
        return Job(self.material, self.area_m2, self.degc, self.shape)


@router.get("", summary="Recipes for the job at hand", responses=problems(422))
def offered(shop: ShopHere, job: Annotated[JobShape, Query()]) -> list[OfferShape]:
    """Offer the builds that used the material: those that worked first, the likest first, and why they are like it."""
    return [OfferShape.model_validate(offer) for offer in planning.recipes_for(shop, job.job)]


@router.get("/{build_key}", summary="A build as a recipe, scaled", responses=problems(404, 422))
def scaled(shop: ShopHere, build_key: str, wanted: Annotated[WantedShape, Query()]) -> ScaledShape:
    """Scale what a build took by area, volume or times; ratios are kept, doubts stay, the rest says why it is not."""
    return ScaledShape.model_validate(planning.scaled_recipe(shop, build_key, wanted.wanted)[1])
