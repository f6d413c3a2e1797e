"""The life of a mould: pulls, faults, repairs and retirement; and which recipe lasts longest. Pure.

How long moulds of a recipe last is told by the Kaplan-Meier estimate (Journal of the American Statistical
Association 53, 1958): a mould that is still in use counts for as many pulls as it has given so far, and no more.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from scipy import stats

from journal.keep.views import StepView
from journal.review.builds import OPENING, BuildRecord, all_faults, materials_in
from journal.trade.material import Catalogue

FEW_RETIRED = 5  # fewer worn-out moulds than that say little: our choice


@dataclass(frozen=True, slots=True)
class LifeEvent:
    """One thing in a mould's life: opened, pull, fault, repair. `pulls` is how many castings it had given by then."""

    kind: str
    at: datetime
    step_id: int
    pulls: int
    words: str
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MouldLife:
    """The life of one making of a mould. `pulls` counts castings; `least` says that more may have gone unlogged.

    `recipe` are the materials that set and the glass that it was made of; `retired` whether its life is over.
    """

    build_key: str
    mould_key: str
    recipe: tuple[str, ...]
    outcome: str
    retired: bool
    pulls: int
    least: bool
    events: tuple[LifeEvent, ...]

    def of(self, kind: str) -> tuple[LifeEvent, ...]:
        """Return the events of one kind."""
        return tuple(event for event in self.events if event.kind == kind)


@dataclass(frozen=True, slots=True)
class Lasting:
    """How long moulds of one recipe last. `median_pulls` is None while more than half are still in use.

    `warning` says when too few have worn out to tell.
    """

    recipe: tuple[str, ...]
    builds: tuple[str, ...]
    retired: int
    pulls: int
    median_pulls: float | None
    warning: str


def life_of(record: BuildRecord, catalogue: Catalogue) -> MouldLife:
    """Return the life of a build from its opening on; its place in time is that of the acts."""
    opened = next((i for i, step in enumerate(record.done) if step.record.action in OPENING), len(record.done))
    lived = record.done[opened:]
    events = tuple(_events(record, lived))
    logged = sum(event.kind == "pull" for event in events)
    numbers = [step.record.pull for step in lived if step.record.action == "pull" and step.record.pull is not None]
    pulls = max([logged, *numbers])
    return MouldLife(
        build_key=record.key,
        mould_key=record.mould.key,
        recipe=recipe_of(record, catalogue),
        outcome=record.build.outcome,
        retired=record.mould.status == "retired" and record.build.outcome == "worked",
        pulls=pulls,
        least=pulls > logged,
        events=events,
    )


def _events(record: BuildRecord, lived: Sequence[StepView]) -> Iterator[LifeEvent]:
    faults = defaultdict(list)
    for fault in all_faults(record):
        faults[fault.step_id].append(fault)
    pulls, opened = 0, False
    for step in lived:
        places = tuple(place.text for place in step.record.places)
        if step.record.action == "pull":
            pulls = max(pulls + 1, step.record.pull or 0)
            said = "; ".join(seen.text for seen in step.record.observations)
            yield LifeEvent("pull", step.act_at, step.id, pulls, said, places)
        elif step.record.action == "demould" and not opened:
            said = "; ".join(seen.text for seen in step.record.observations)
            yield LifeEvent("opened", step.act_at, step.id, pulls, said, places)
        elif step.record.action in ("repair", "fill"):
            yield LifeEvent("repair", step.act_at, step.id, pulls, step.record.evidence.heard, places)
        opened = True
        for fault in faults[step.id]:
            yield LifeEvent("fault", step.act_at, step.id, pulls, f"{fault.kind}: {fault.text}", fault.places)


def recipe_of(record: BuildRecord, catalogue: Catalogue) -> tuple[str, ...]:
    """Return what a mould was made of: the materials that set, and the glass, by name."""
    used = [material for step in record.making for material in materials_in(step.record, catalogue)]
    return tuple(sorted({m.name for m in used if m.reacts or m.kind == "plaster" or m.is_fabric}))


def lasting(lives: Iterable[MouldLife]) -> tuple[Lasting, ...]:
    """Return how long the moulds of each recipe last, the longest first; only builds that worked count."""
    by_recipe: dict[tuple[str, ...], list[MouldLife]] = defaultdict(list)
    for life in lives:
        if life.outcome == "worked":
            by_recipe[life.recipe].append(life)
    found = [_lasting(recipe, alike) for recipe, alike in by_recipe.items()]
    return tuple(sorted(found, key=lambda each: (-(each.median_pulls or 0), -each.pulls / len(each.builds))))


def _lasting(recipe: tuple[str, ...], lives: Sequence[MouldLife]) -> Lasting:
    retired = sum(life.retired for life in lives)
    warning = f"only {retired} of {len(lives)} have worn out: too few to say" if retired < FEW_RETIRED else ""
    keys = tuple(life.build_key for life in lives)
    return Lasting(recipe, keys, retired, sum(life.pulls for life in lives), median_pulls(lives), warning)


def median_pulls(lives: Sequence[MouldLife]) -> float | None:
    """Return the number of pulls that half of the moulds outlive, or None while that cannot be said."""
    if not any(life.retired for life in lives):
        return None
    counted = stats.CensoredData.right_censored([life.pulls for life in lives], [not life.retired for life in lives])
    left = stats.ecdf(counted).sf
    half = [pulls for pulls, share in zip(left.quantiles, left.probabilities, strict=True) if share <= 0.5]
    return float(half[0]) if half else None
