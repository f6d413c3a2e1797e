"""The shop's other sums: batches, stoichiometry, plaster, castings, cost, voids, post-cure, age of a cure."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query

from api.problems import problems
from api.shapes.answers import WorkedShape
from journal.trade import worked
from journal.trade.cure import QUOTED_AT_C

router = APIRouter(prefix="/api/mixes", tags=["arithmetic"], responses=problems(422))


@router.get("/batches", summary="How many batches, safe in one pot and laid within the pot life")
def batches(
    total_g: Annotated[float, Query(examples=[5000])],
    largest_g: Annotated[float, Query(description="Safe in one pot", examples=[1200])],
    pot_life_min: float | None = None,
    g_per_min: Annotated[float | None, Query(description="How fast it is laid")] = None,
) -> WorkedShape:
    """Split a total into equal batches."""
    return WorkedShape.model_validate(worked.batches(total_g, largest_g, pot_life_min, g_per_min))


@router.get("/stoichiometry", summary="An epoxy's hardener from equivalent weights")
def stoichiometry(
    eew: Annotated[float, Query(description="g per epoxide equivalent", examples=[190])],
    ahew: Annotated[float, Query(description="g per amine hydrogen equivalent", examples=[24.3])],
    epoxy_g: float = 100.0,
) -> WorkedShape:
    """Work out the hardener of an epoxy."""
    return WorkedShape.model_validate(worked.stoichiometry(eew, ahew, epoxy_g))


@router.get("/blend", summary="The hardener of a blend of epoxies")
def blend(
    parts: Annotated[str, Query(description="GRAMS@EEW with spaces between, 0 for a filler", max_length=500)],
    ahew: Annotated[float, Query(description="g per amine hydrogen equivalent", examples=[43])],
) -> WorkedShape:
    """Work out the equivalent weight of a blend, and its hardener."""
    return WorkedShape.model_validate(worked.blend(parts, ahew))


@router.get("/additions", summary="Additions in percent of the main part")
def additions(
    main_g: Annotated[float, Query(description="Grams of the main part", examples=[700])],
    percents: Annotated[str, Query(description="With spaces between", examples=["2 0.5"], max_length=200)],
) -> WorkedShape:
    """Work out peroxide, thickener or pigment in percent by weight."""
    return WorkedShape.model_validate(worked.additions(main_g, percents))


@router.get("/film", summary="The gel coat of an area")
def film(
    area_m2: Annotated[float, Query(examples=[1.4])],
    wet_mm: Annotated[float, Query(description="Wet film thickness", examples=[0.5])],
    density: Annotated[float, Query(description="g/ml", examples=[1.2])],
    waste_percent: float = 0.0,
) -> WorkedShape:
    """Work out the gel coat of an area from its wet film thickness."""
    return WorkedShape.model_validate(worked.film(area_m2, wet_mm, density, waste_percent))


@router.get("/plaster", summary="The water of a plaster")
def plaster(
    plaster_g: Annotated[float, Query(examples=[1000])],
    consistency: Annotated[float, Query(description="Grams of water to 100 g of plaster", examples=[70])],
) -> WorkedShape:
    """Work out the water of a plaster at its consistency."""
    return WorkedShape.model_validate(worked.plaster(plaster_g, consistency))


@router.get("/casting", summary="What a casting weighs, and what to mix for it")
def casting(
    volume_ml: Annotated[float, Query(examples=[2400])],
    density: Annotated[float | None, Query(description="g/ml of what is cast", examples=[1.1])] = None,
    ratio: Annotated[str, Query(description="Parts by weight, main first", max_length=100)] = "",
    waste_percent: float = 0.0,
) -> WorkedShape:
    """Work out a casting."""
    return WorkedShape.model_validate(worked.casting(volume_ml, density, ratio, waste_percent))


@router.get("/cost", summary="What materials cost, at prices a kilogram")
def cost(
    parts: Annotated[str, Query(description="KILOGRAMS@PRICE, with spaces between", max_length=500)],
) -> WorkedShape:
    """Add up a cost."""
    return WorkedShape.model_validate(worked.cost(parts))


@router.get("/voids", summary="The voids of a laminate from its density")
def voids(
    measured_density: Annotated[float, Query(description="g/ml", examples=[1.4])],
    glass_percent: Annotated[float, Query(description="By weight, as after burn-off", examples=[30])],
    resin_density: float | None = None,
    glass_density: float | None = None,
) -> WorkedShape:
    """Work out the voids of a laminate, by ASTM D2734."""
    return WorkedShape.model_validate(worked.voids(measured_density, glass_percent, resin_density, glass_density))


@router.get("/ramp", summary="A post-cure programme: when each temperature is reached and left")
def ramp(
    holds: Annotated[str, Query(description="DEGC@HOURS, with spaces between", examples=["60@8 80@4"], max_length=500)],
    c_per_hour: Annotated[float, Query(examples=[10])],
    start_c: float = 20.0,
) -> WorkedShape:
    """Work out a post-cure programme."""
    return WorkedShape.model_validate(worked.ramp(start_c, holds, c_per_hour))


@router.get("/age", summary="The age of a cure from the temperatures it has seen")
def age(
    log: Annotated[str, Query(description="HOURS@DEGC, with spaces between", examples=["12@18 6@25"], max_length=500)],
    energy_kj: Annotated[float | None, Query(description="Activation energy in kJ/mol, when known")] = None,
    reference_c: float = QUOTED_AT_C,
) -> WorkedShape:
    """Work out the equivalent age of a cure, by the maturity method."""
    return WorkedShape.model_validate(worked.cure_age(log, energy_kj, reference_c))
