"""The shop's arithmetic: weighing, judging a weighing, laminates, air. Nothing is kept."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from api.context import ShopHere
from api.problems import problems
from api.shapes.answers import AirShape, LaminateShape, VerdictShape, WeighingShape
from journal.trade import laminate as plies
from journal.trade import mix as mixing
from journal.trade.climate import fitness, limits_for
from journal.trade.material import material_named
from journal.trade.notation import numbers_of, ply_of, ratio_of

router = APIRouter(prefix="/api/mixes", tags=["arithmetic"])
Ratio = Annotated[str, Query(description="Parts, main first", examples=["100:29"], max_length=100)]


@router.get("/weigh", summary="From one weight to the others", responses=problems(422))
def weigh(
    ratio: Ratio,
    known: Annotated[float, Query(description="Grams, or m2 with of=area", examples=[300])],
    of: Annotated[str, Query(description="A, B, C, total or area")] = "A",
    by: Annotated[str, Query(description="weight or volume")] = "weight",
    densities: Annotated[str, Query(description="g/ml of each part, for a ratio by volume")] = "",
    gsm: Annotated[float | None, Query(description="With of=area: grams of mix a m2")] = None,
) -> WeighingShape:
    """Weigh a mix, to the tenth of a gram."""
    return WeighingShape.model_validate(mixing.weigh(ratio_of(ratio, by, densities), known, of, 0.1, gsm))


@router.get("/judge", summary="How far a weighing is off, and what to add", responses=problems(422))
def judge(
    ratio: Ratio,
    weights: Annotated[str, Query(description="Grams as weighed, main first", examples=["500:110"])],
    shop: ShopHere,
    tolerance: Annotated[float | None, Query(description="Percent that the material bears")] = None,
    material: Annotated[str | None, Query(description="Its tolerance, where none is given", max_length=200)] = None,
) -> VerdictShape:
    """Judge an actual weighing."""
    if tolerance is None and material:
        tolerance = material_named(shop.catalogue, material).tolerance_percent
    found = mixing.judge(ratio_of(ratio), numbers_of("weights", weights), tolerance)
    return VerdictShape.model_validate(found)


@router.get("/laminate", summary="Glass, resin and thickness of a laminate", responses=problems(422))
def laminate(
    area_m2: Annotated[float, Query(examples=[1.4])],
    layers: Annotated[str, Query(description="COUNTxGSM@PERCENT of glass, with spaces between", max_length=500)],
    resin_density: Annotated[float, Query(description="g/ml")] = plies.POLYESTER_DENSITY,
) -> LaminateShape:
    """Work out a laminate."""
    stack = [ply_of(layer) for layer in layers.split()]
    return LaminateShape.model_validate(plies.laminate(area_m2, stack, resin_density))


@router.get("/air", summary="Dew point, and whether the air is fit to work in", responses=problems(422))
def air(
    degc: Annotated[float, Query(examples=[19])],
    humidity: Annotated[float, Query(description="Percent", examples=[50])],
    shop: ShopHere,
    surface_c: Annotated[float | None, Query(description="The surface's; without it the air's")] = None,
    material: Annotated[str | None, Query(description="Hold to the limits of this material", max_length=200)] = None,
) -> AirShape:
    """Tell the air, against a material's limits, or without one the usual ones for fibre-reinforced plastics."""
    limits = limits_for(material_named(shop.catalogue, material) if material else None)
    found = AirShape.model_validate(fitness(degc, humidity, surface_c, limits))
    return found.model_copy(update={"limits": limits.whose})
