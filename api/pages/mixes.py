"""The page with the shop's arithmetic: weighing, judging, laminates, air. Nothing is kept."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from inspect import Parameter, signature

from fastapi import APIRouter, Request
from pydantic import BaseModel
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes import mixes, sums
from journal.shop import Shop
from journal.trade.material import Material

router = APIRouter(include_in_schema=False)
Fields = Mapping[str, str]


@router.get("/weigh")
def weigh(shop: ShopHere, request: Request) -> Response:
    """Work out the form that was sent, and show all of them."""
    fields = defaultdict(str, {name: value.strip() for name, value in request.query_params.items()})
    made: BaseModel | None = None
    troubles = []
    if (work := WORK.get(fields.get("what", ""))) is not None:
        try:
            made = work(fields, shop)
        except REFUSALS as error:
            troubles.append(problem_of(error))
    mains = [material for material in shop.catalogue.materials if material.ratio]
    return render("mixes.html", *troubles, here="weigh", fields=fields, made=made, mains=mains, letters="ABCDEF",
                  workable=[each for each in shop.catalogue.materials if each.temperature_range_c])  # fmt: skip


def _material(fields: Fields, shop: Shop) -> Material | None:
    """Return the material picked, whose ratio stands in for one that was not typed."""
    name = fields.get("material", "")
    return shop.catalogue.get(name) if name else None


def _ratio(fields: Fields, shop: Shop) -> tuple[str, str, str]:
    """Return the parts, weight or volume, and densities: as typed, else of the material picked. Raises Problem 422."""
    if fields.get("ratio"):
        return fields["ratio"], fields.get("by") or "weight", fields.get("densities", "")
    material = _material(fields, shop)
    if material is None or not material.ratio:
        raise Problem(422, "ratio: write the parts, like 100:29, or pick a material that has a ratio.")
    densities = [each for each in (material.density, material.density_second) if each is not None]
    written = ":".join(f"{each:g}" for each in densities) if len(densities) == len(material.ratio) else ""
    return ":".join(f"{part:g}" for part in material.ratio), material.ratio_by or "weight", written


def _number(fields: Fields, name: str) -> float:
    value = _optional(fields, name)
    if value is None:
        raise Problem(422, f"{name}: fill in a number.")
    return value


def _optional(fields: Fields, name: str) -> float | None:
    text = fields.get(name, "")
    try:
        return float(text) if text else None
    except ValueError:
        raise Problem(422, f"{name}: {text!r} is no number.") from None


def _weigh(fields: Fields, shop: Shop) -> BaseModel:
    ratio, by, densities = _ratio(fields, shop)
    of = fields.get("of") or "A"
    return mixes.weigh(ratio, _number(fields, "known"), of, by, densities, _optional(fields, "gsm"))


def _judge(fields: Fields, shop: Shop) -> BaseModel:
    tolerance, material = _optional(fields, "tolerance"), fields.get("material") or None
    return mixes.judge(_ratio(fields, shop)[0], fields.get("weights", ""), shop, tolerance, material)


def _laminate(fields: Fields, shop: Shop) -> BaseModel:
    density = _optional(fields, "resin_density") or 1.2
    return mixes.laminate(_number(fields, "area_m2"), fields.get("layers", ""), density)


def _air(fields: Fields, shop: Shop) -> BaseModel:
    degc, humidity, surface = _number(fields, "degc"), _number(fields, "humidity"), _optional(fields, "surface_c")
    return mixes.air(degc, humidity, shop, surface, fields.get("material") or None)


def _sum(work: Callable[..., BaseModel], *names: str) -> Callable[[Fields, Shop], BaseModel]:
    """Return the work of a form whose fields are numbers, but for TEXTS; those left empty keep their defaults."""

    def worked(fields: Fields, shop: Shop) -> BaseModel:
        given = {name: fields.get(name, "") if name in TEXTS else _optional(fields, name) for name in names}
        wanted = {name for name, each in signature(work).parameters.items() if each.default is Parameter.empty}
        missing = next((name for name in names if name in wanted and given[name] in (None, "")), None)
        if missing is not None:
            raise Problem(422, f"{missing}: fill this in.")
        return work(**{name: value for name, value in given.items() if value not in (None, "")})

    return worked


TEXTS = frozenset({"holds", "log", "parts", "percents", "ratio"})


WORK: dict[str, Callable[[Fields, Shop], BaseModel]] = {
    "weigh": _weigh,
    "judge": _judge,
    "laminate": _laminate,
    "air": _air,
    "batches": _sum(sums.batches, "total_g", "largest_g", "pot_life_min", "g_per_min"),
    "stoichiometry": _sum(sums.stoichiometry, "eew", "ahew", "epoxy_g"),
    "blend": _sum(sums.blend, "parts", "ahew"),
    "additions": _sum(sums.additions, "main_g", "percents"),
    "film": _sum(sums.film, "area_m2", "wet_mm", "density", "waste_percent"),
    "plaster": _sum(sums.plaster, "plaster_g", "consistency"),
    "casting": _sum(sums.casting, "volume_ml", "density", "ratio", "waste_percent"),
    "cost": _sum(sums.cost, "parts"),
    "voids": _sum(sums.voids, "measured_density", "glass_percent"),
    "ramp": _sum(sums.ramp, "holds", "c_per_hour", "start_c"),
    "age": _sum(sums.age, "log", "energy_kj", "reference_c"),
}
