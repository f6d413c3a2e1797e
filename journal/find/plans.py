"""Recipes and plans over the store: offered, scaled, started, followed, skipped."""

from __future__ import annotations

from collections import Counter, defaultdict
from datetime import datetime

from journal.find.follow import Progress, follow
from journal.find.offers import Candidate, Job, Offer, offers
from journal.find.planned_step import planned_to_json
from journal.find.recipe import Recipe, recipe
from journal.find.scale import Scaled, Wanted, scaled
from journal.keep.plan_views import NewPlan, NewSkip
from journal.keep.store import Store
from journal.keep.views import NotKept, StepView
from journal.trade.material import Catalogue


def recipes_for(store: Store, catalogue: Catalogue, job: Job, limit: int = 20) -> list[Offer]:
    """Return the recipes offered for a job, the best first; builds under way are none yet."""
    return offers(_candidates(store), job, catalogue)[:limit]


def _candidates(store: Store) -> list[Candidate]:
    builds = [build for build in store.builds() if build.outcome != "under way"]
    moulds = {mould.id: mould for mould in store.moulds()}
    done: dict[int, list[StepView]] = defaultdict(list)
    for step in store.steps_of([build.id for build in builds]):
        if step.record.status == "done":
            done[step.build_id].append(step)
    pulls = Counter(pull.build_key for mould_id in {b.mould_id for b in builds} for pull in store.pulls(mould_id))
    return [Candidate(b, moulds[b.mould_id], tuple(done[b.id]), pulls[b.key]) for b in builds]


def scaled_recipe(
    store: Store, catalogue: Catalogue, build_key: str | int, wanted: Wanted, confirm_below: float
) -> tuple[Recipe, Scaled]:
    """Return a build's recipe, and that scaled. Raises NotKept, TradeError."""
    found = recipe(store, build_key)
    return found, scaled(found, wanted, catalogue, confirm_below)


def start_plan(store: Store, build_key: str | int, made: Scaled, recipe_key: str, who: str | None, at: datetime) -> int:
    """Keep a scaled recipe as the plan of a build; return its id. Raises NotKept, FieldError."""
    scale = made.scale
    how = {"by": scale.by, "factor": scale.factor, "was": scale.was, "wanted": scale.wanted}
    steps = tuple(planned_to_json(step) for step in made.steps)
    new = NewPlan(recipe_key, how | {"resolution_g": scale.resolution_g}, steps, who)
    return store.add_plan(build_key, new, at).id


def plan_progress(store: Store, catalogue: Catalogue, build_key: str | int) -> Progress | None:
    """Return how far the plan of a build has come, None when it has none. Raises NotKept for an unknown build."""
    plan = store.plan(build_key)
    return None if plan is None else follow(plan, store.steps(build_key), catalogue)


def skip_next(store: Store, catalogue: Catalogue, build_key: str | int, skip: NewSkip, at: datetime) -> Progress:
    """Skip a step of the plan, the next one when its number is 0. Raises NotKept, FieldError."""
    progress = plan_progress(store, catalogue, build_key)
    if progress is None:
        raise NotKept(f"the build {build_key!r} has no plan: start one from a recipe")
    number = skip.number
    if not number:
        if progress.next is None:
            raise NotKept("every step of the plan is done: there is none to skip")
        number = progress.next.planned.number
    plan = store.skip_planned(build_key, NewSkip(number, skip.words, skip.note_id, skip.who), at)
    return follow(plan, store.steps(build_key), catalogue)
