"""Recipes and plans of a shop: offered, scaled, started, followed by what is said, and told at the bench."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from dataclasses import replace

from journal.find.ask.facts import Answer
from journal.find.ask.question import Question
from journal.find.follow import Progress, follow
from journal.find.offers import Candidate, Job, Offer, offers
from journal.find.planned_step import planned_to_json
from journal.find.recipe import Recipe, recipe
from journal.find.scale import Scaled, Wanted, scaled
from journal.find.telling import next_answer, ticked_words
from journal.keep.plan_views import NewPlan, NewSkip
from journal.keep.views import NoteView, NotKept, StepView
from journal.obey import commanded
from journal.read.pipeline import find_all
from journal.record import NoteText
from journal.shop import Shop

_NEXT = re.compile(
    r"^\W*(?:(?:and |ok(?:ay)? |so |right )*(?:what(?:'s| is|s)?|tell me|read(?: me)?|say)\W+)?(?:the |my |our )?next"
    r"(?: (?:step|act|thing|one|up))?(?: (?:please|then|now|of the plan))?\W*$",
    re.I,
)
_SKIP = re.compile(
    r"^\W*(?:please |ok(?:ay)? |no |so )*skip(?: (?:that|this|it|the next|next|the))?(?: (?:step|act|one|thing))?"
    r"(?: please| then)?\W*$",
    re.I,
)


# ---- recipes -----------------------------------------------------------------------------------------


def recipes_for(shop: Shop, job: Job, limit: int = 20) -> list[Offer]:
    """Return the recipes offered for a job, the best first; builds under way are none yet."""
    job = replace(job, material=_material_named(shop, job.material))
    return offers(_candidates(shop), job, shop.catalogue)[:limit]


def _material_named(shop: Shop, text: str) -> str:
    """Return the name of the material in these words, as the reader knows it; the words when it knows none."""
    words = shop.reader.words(NoteText(text, shop.now(), shop.settings.locale))
    named = [item for item in find_all(words).of("material") if item.value.name]
    return max(named, key=lambda item: (item.end - item.start, item.confidence)).value.name if named else text


def _candidates(shop: Shop) -> list[Candidate]:
    store = shop.store
    builds = [build for build in store.builds() if build.outcome != "under way"]
    moulds = {mould.id: mould for mould in store.moulds()}
    done: dict[int, list[StepView]] = defaultdict(list)
    for step in store.steps_of([build.id for build in builds]):
        if step.record.status == "done":
            done[step.build_id].append(step)
    pulls = Counter(pull.build_key for mould_id in {b.mould_id for b in builds} for pull in store.pulls(mould_id))
    return [Candidate(b, moulds[b.mould_id], tuple(done[b.id]), pulls[b.key]) for b in builds]


def scaled_recipe(shop: Shop, build_key: str | int, wanted: Wanted) -> tuple[Recipe, Scaled]:
    """Return a build's recipe, and that scaled. Raises NotKept, TradeError."""
    found = recipe(shop.store, build_key)
    return found, scaled(found, wanted, shop.catalogue, shop.settings.confirm_below)


# ---- plans -------------------------------------------------------------------------------------------


def start(shop: Shop, build_key: str | int, recipe_key: str | int, wanted: Wanted, who: str | None) -> Progress:
    """Scale a recipe and keep it as the plan of a build. Raises NotKept, FieldError, TradeError."""
    found, made = scaled_recipe(shop, recipe_key, wanted)
    scale = made.scale
    how = {
        "by": scale.by, "factor": scale.factor, "was": scale.was, "wanted": scale.wanted,
        "resolution_g": scale.resolution_g, "not_scaled": list(made.not_scaled),
    }  # fmt: skip
    steps = tuple(planned_to_json(step) for step in made.steps)
    plan = shop.store.add_plan(build_key, NewPlan(found.build.key, how, steps, who), shop.now())
    return follow(plan, shop.store.steps(plan.build_key), shop.catalogue)


def progress_of(shop: Shop, build_key: str | int) -> Progress | None:
    """Return how far the plan of a build has come, None when it has none. Raises NotKept for an unknown build."""
    plan = shop.store.plan(build_key)
    return None if plan is None else follow(plan, shop.store.steps(build_key), shop.catalogue)


def planned(shop: Shop, build_key: str | int) -> Progress:
    """Return how far the plan of a build has come. Raises NotKept when it has none."""
    progress = progress_of(shop, build_key)
    if progress is None:
        raise NotKept(f"the build {build_key!r} has no plan: start one from a recipe")
    return progress


def skip(shop: Shop, build_key: str | int, said: NewSkip) -> Progress:
    """Skip a step of the plan, the next one when its number is 0. Raises NotKept, FieldError."""
    progress = planned(shop, build_key)
    number = said.number
    if not number:
        if progress.next is None:
            raise NotKept("every step of the plan is done: there is none to skip")
        number = progress.next.planned.number
    new = NewSkip(number, said.words, said.note_id, said.who)
    plan = shop.store.skip_planned(build_key, new, shop.now())
    return follow(plan, shop.store.steps(build_key), shop.catalogue)


# ---- aloud -------------------------------------------------------------------------------------------


def answer_next(shop: Shop, question: Question, build_key: str | int) -> Answer | None:
    """Answer "what's next" and "skip that" on a build with a plan; None for other questions, or without a plan."""
    skipping = _SKIP.match(question.text)
    if not (skipping or _NEXT.match(question.text) or question.intent == "planned"):
        return None
    progress = progress_of(shop, build_key)
    if progress is None:
        return None
    if skipping:
        how = f'say it in a note on the build, or use "mouldbook plan skip {progress.plan.build_key}"'
        return Answer(f"A question changes nothing: {how}.", lacks="a note")
    return next_answer(progress)


def follow_note(shop: Shop, note: NoteView, text: NoteText) -> None:
    """Skip the next step of the build's plan when a note that has just been read says so; again, it does nothing."""
    if _SKIP.match(text.text) is None:
        return
    progress = progress_of(shop, note.build_id)
    if progress is None or progress.next is None or note.id in [each.note_id for each in progress.plan.skips]:
        return
    skip(shop, note.build_id, NewSkip(0, text.text.strip(), note.id, note.who))


def told_after(shop: Shop, build_key: str | int, note_id: int, text: NoteText) -> str:
    """Return what is read aloud of the plan after a note: what it ticked off, and what is next; "" when nothing."""
    progress = progress_of(shop, build_key)
    if progress is None:
        return ""
    skipped = next((each.number for each in progress.plan.skips if each.note_id == note_id), None)
    if skipped is not None:
        return f"Step {skipped} skipped. {next_answer(progress).text}"
    asked = _NEXT.match(text.text) and not any(command.kind == "ask" for command in commanded(shop, text))
    if asked:
        return next_answer(progress).text
    return ticked_words(progress, [step.id for step in shop.store.note_steps(note_id) if not step.withdrawn])
