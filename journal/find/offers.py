"""Recipes for the job at hand: builds that are like it, those that worked first, with why they are like it. Pure."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from rapidfuzz import fuzz, process

from journal.find.scale import steps_to_plan
from journal.keep.views import BuildView, MouldView, Outcome, StepView
from journal.trade.limits import positive, within
from journal.trade.material import Catalogue, name_key

_RANKS: dict[Outcome, int] = {"worked": 0, "under way": 1, "given up": 2, "failed": 3}
_HALVED_BY_AREA = 2.0  # twice the area is half as like
_HALVED_BY_C = 5.0  # five degrees off is half as like
_LIKE_WORD = 80  # of 100: one slip in a word of five
_SHOP_MOST_C = 45.0  # a shop that is warmer is an oven
_IDLE = frozenset("the a an of in with and mould build for on".split())


@dataclass(frozen=True, slots=True)
class Job:
    """What is to be made: material, area (m2), temperature of the shop (degC), shape in words; any may be left out."""

    material: str = ""
    area_m2: float | None = None
    degc: float | None = None
    shape: str = ""

    def __post_init__(self) -> None:
        if self.area_m2 is not None:
            positive("area", self.area_m2)
        if self.degc is not None:
            within("degrees", self.degc, -20, 60)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A build that may be a recipe: its mould, its steps done in order, and its castings so far."""

    build: BuildView
    mould: MouldView
    steps: tuple[StepView, ...]
    pulls: int


@dataclass(frozen=True, slots=True)
class Offer:
    """A recipe offered: how like the job it is (0 to 1), why, what is unlike or not known, its castings so far."""

    build: BuildView
    mould: MouldView
    likeness: float
    why: tuple[str, ...]
    unlike: tuple[str, ...]
    pulls: int


def offers(recipes: Iterable[Candidate], job: Job, catalogue: Catalogue) -> list[Offer]:
    """Return the recipes that use the material asked for: what worked first, the likest and most used first."""
    wanted = _meant(job.material, catalogue)
    found = [
        _offer(recipe, job, wanted, catalogue)
        for recipe in recipes
        if steps_to_plan(recipe.steps) and (not wanted or wanted & _used(recipe, catalogue))
    ]
    return sorted(found, key=_order)


def _order(offer: Offer) -> tuple[float, ...]:
    build = offer.build
    weight = offer.likeness + 0.05 * math.log1p(offer.pulls)
    return (_RANKS[build.outcome], -weight, -build.started_at.timestamp())


def _offer(recipe: Candidate, job: Job, wanted: set[str], catalogue: Catalogue) -> Offer:
    parts = [part for part in (_by_area(recipe, job), _by_warmth(recipe, job), _by_shape(recipe, job)) if part]
    likeness = math.prod(share for share, _ in parts) ** (1 / len(parts)) if parts else 1.0
    used = sorted(wanted & _used(recipe, catalogue))
    why = [f"made with {', '.join(used)}"] if used else []
    why += [words for share, words in parts if share >= 0.5]
    unlike = [words for share, words in parts if share < 0.5]
    return Offer(recipe.build, recipe.mould, likeness, tuple(why), tuple(unlike), recipe.pulls)


def _by_area(recipe: Candidate, job: Job) -> tuple[float, str] | None:
    if job.area_m2 is None:
        return None
    area = recipe.mould.area_m2
    if not area:
        return 0.25, f"the area of {recipe.mould.key} is not stated"
    share = 0.5 ** (abs(math.log(job.area_m2 / area)) / math.log(_HALVED_BY_AREA))
    return share, f"{area:g} m2, yours {job.area_m2:g}"


def _by_warmth(recipe: Candidate, job: Job) -> tuple[float, str] | None:
    if job.degc is None:
        return None
    said = shop_degrees(recipe.steps)
    if not said:
        return 0.25, "no temperature of the shop was said"
    share = 0.5 ** (abs(median(said) - job.degc) / _HALVED_BY_C)
    span = f"{min(said):g}" if min(said) == max(said) else f"{min(said):g} to {max(said):g}"
    return share, f"made at {span} degrees, yours {job.degc:g}"


def shop_degrees(steps: Iterable[StepView]) -> list[float]:
    """Return the temperatures of the shop that were said while a mould was made, degC."""
    return [
        float(each.value)
        for step in steps
        for each in step.record.conditions
        if each.kind == "temperature" and each.of not in ("oven", "resin") and each.value <= _SHOP_MOST_C
    ]


def _by_shape(recipe: Candidate, job: Job) -> tuple[float, str] | None:
    asked = [word for word in _words([job.shape]) if word not in _IDLE]
    if not asked:
        return None
    mould = recipe.mould
    places = [place.text for step in recipe.steps for place in step.record.places]
    known = _words([mould.name, mould.pattern, mould.size, mould.remarks, recipe.build.name, *places])
    like = [(word, match[0]) for word in asked if (match := _like(word, known))]
    share = max(len(like) / len(asked), 0.1)
    what = mould.pattern or mould.name
    if not like:
        return share, f"another shape: {what}"
    return share, f"{what}: {', '.join(dict.fromkeys(match for _, match in like))}"


def _like(word: str, known: Sequence[str]) -> tuple[str, float, int] | None:
    return process.extractOne(word, known, scorer=fuzz.ratio, score_cutoff=_LIKE_WORD)


def _words(texts: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(word for text in texts for word in re.findall(r"[^\W\d_]{2,}", text.casefold())))


def _meant(name: str, catalogue: Catalogue) -> set[str]:
    """Return the names that a material asked for may stand for: its own, those of a general word or a part of a name.

    What is in no catalogue stands for itself.
    """
    key = name_key(name)
    if not key:
        return set()
    known = catalogue.get(key)
    if known:
        return {known.name}
    general = {material.name for material in catalogue.meant_by(key)}
    part = {material.name for material in catalogue.materials if key in (material.kind, *material.name.split())}
    near = process.extractOne(key, list(catalogue.by_name), scorer=fuzz.ratio, score_cutoff=_LIKE_WORD)
    return general | part or ({catalogue.by_name[near[0]].name} if near else {key})


def _used(recipe: Candidate, catalogue: Catalogue) -> set[str]:
    names = {use.name for step in recipe.steps for use in step.record.materials}
    names |= {layer.name for step in recipe.steps for layer in step.record.layers}
    return {known.name if (known := catalogue.get(name)) else name_key(name) for name in names}
