"""The pages of recipes: those for the job at hand, and one of them scaled, from which a plan is started."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import Response

from api.context import Now, ShopHere
from api.pages.forms import Fields, Who, filled, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from api.routes.plans import NewPlanShape
from api.routes.recipes import JobShape, WantedShape
from journal import planning
from journal.find.offers import Offer
from journal.find.recipe import recipe
from journal.find.scale import RESOLUTION_G, Scaled
from journal.keep.views import PhotoView
from journal.shop import Shop
from journal.trade.cautions import cautions_for

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class Job:
    """What the form of the job was filled in with."""

    material: str = ""
    area_m2: str = ""
    degc: str = ""
    shape: str = ""


@dataclass(frozen=True, slots=True)
class Size:
    """What the form of a recipe was filled in with."""

    area_m2: str = ""
    volume_ml: str = ""
    times: str = ""
    resolution_g: str = f"{RESOLUTION_G:g}"
    build: str = ""


@router.get("/recipes")
def recipes(shop: ShopHere, asked: Annotated[Job, Depends()]) -> Response:
    """Offer recipes for the job, all that worked when nothing is said of it."""
    found, troubles = None, []
    try:
        found = planning.recipes_for(shop, filled(JobShape, _plain(asdict(asked))).job)
    except REFUSALS as error:
        troubles.append(problem_of(error))
    return render(
        "recipes.html",
        *troubles,
        here="recipes",
        asked=asked,
        offers=found,
        sized="" if troubles else _plain(asdict(asked))["area_m2"],
        photos=_photos(shop, found or []),
        materials=[material.name for material in shop.catalogue.materials],
    )


def _plain(fields: Mapping[str, str]) -> dict[str, str]:
    """Return what was typed, with a comma for a decimal point read as one."""
    return {name: value.strip().replace(",", ".") if name not in _WORDS else value for name, value in fields.items()}


_WORDS = frozenset({"material", "shape", "build", "who", "recipe"})


def _photos(shop: Shop, offers: list[Offer]) -> dict[str, PhotoView | None]:
    return {offer.build.key: next(reversed(shop.store.photos(offer.build.id)), None) for offer in offers}


@router.get("/recipes/{key}")
def one(shop: ShopHere, key: str, asked: Annotated[Size, Depends()], who: Who) -> Response:
    """Show a build as a recipe, scaled to what is asked."""
    return _one(shop, key, asked, who)


def _one(shop: Shop, key: str, asked: Size, who: str, *troubles: Problem) -> Response:
    made, told = None, list(troubles)
    try:
        wanted = filled(WantedShape, _plain(asdict(asked))).wanted
        made = planning.scaled_recipe(shop, key, wanted)[1]
    except REFUSALS as error:
        told = told or [problem_of(error)]
    found = recipe(shop.store, key)
    return render(
        "recipe.html",
        *told,
        here="recipes",
        build=found.build,
        mould=found.mould,
        pulls=len(found.pulls),
        made=made,
        asked=asked,
        who=who,
        under_way=[build for build in shop.store.builds() if build.outcome == "under way"],
        cautions=_cautions(shop, made) if made else (),
    )


def _cautions(shop: Shop, made: Scaled) -> tuple[str, ...]:
    names = {name for step in made.steps for name in step.names}
    known = [material for name in names if (material := shop.catalogue.get(name)) is not None]
    return cautions_for(kind for material in known for kind in material.cautions)


@router.post("/recipes/{key}/plan")
def start(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Scale the recipe and start the plan, for a build under way or for a new one of the same mould."""
    asked = Size(**{name: fields.get(name, "") for name in ("area_m2", "volume_ml", "times", "resolution_g", "build")})
    try:
        said = filled(NewPlanShape, _plain({**fields, "recipe": key}), who)
        planning.scaled_recipe(shop, key, said.wanted)  # what cannot be scaled makes no new build
        build = asked.build or shop.store.add_build(recipe(shop.store, key).mould.id, now, who=said.who).key
        made = planning.start(shop, build, key, said.wanted, said.who)
    except REFUSALS as error:
        return _one(shop, key, asked, who, problem_of(error))
    return go(f"/builds/{made.plan.build_key}/plan", said.who)
