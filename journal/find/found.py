"""Find with plain words: the steps, and the builds as recipes, best first.

A filter that only the records can tell (a temperature, an amount, a ratio) is held against the steps found. Where
nothing fits all that was asked for, the least sure filters are let go one by one, and it is said which.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cached_property
from typing import Any

from journal.find.chips import Asked, Chip, fits
from journal.find.query import Synonyms
from journal.find.search import Hit, search
from journal.keep.store import Store
from journal.keep.views import BuildView, StepView

_LOOKED_AT = 400  # hits that the records are asked about
_LET_GO = ("layers", "amount", "ratio", "temperature", "stage", "words", "action", "time")
_AS_WORDS = "place, looked for as words"
_READING_HOLDS = timedelta(hours=24)
_SHOP_MOST_C = 45.0  # a shop that is warmer is an oven
_STEPS_SHOWN = 3


@dataclass(frozen=True, slots=True)
class RecipeHit:
    """A build as an answer: the hits in it, best first, its castings so far, and its score."""

    build: BuildView
    hits: tuple[Hit, ...]
    pulls: int
    score: float


@dataclass(frozen=True, slots=True)
class Findings:
    """What was found: what the line was taken to ask, the filters let go, hits and recipes, best first."""

    asked: Asked
    let_go: tuple[str, ...]
    hits: tuple[Hit, ...]
    recipes: tuple[RecipeHit, ...]


def find(store: Store, asked: Asked, synonyms: Synonyms, limit: int = 30) -> Findings:
    """Return what fits a line of plain words; `limit` is the most hits and recipes returned."""
    records = _Records(store)
    for let_go, wanted in _ever_wider(asked):
        hits = _fitting(store, wanted, synonyms, records)
        if hits:
            return Findings(asked, let_go, tuple(hits[:limit]), tuple(_recipes(hits, records)[:limit]))
    return Findings(asked, (), (), ())


def _ever_wider(asked: Asked) -> Iterator[tuple[tuple[str, ...], Asked]]:
    """Give what was asked; then a place as mere words; then without one filter; then with less and less of them."""
    yield (), asked
    let_go: tuple[str, ...] = ()
    if asked.place:
        words = f"{asked.query.words} {asked.place}".strip()
        let_go, asked = (_AS_WORDS,), replace(asked, place="", query=replace(asked.query, words=words))
        yield let_go, asked
    fields = {chip.field for chip in asked.chips} - {"place"}
    present = [f for f in _LET_GO if f in fields or (f == "words" and asked.query.words and fields)]
    for field in (*present, *({"material"} & fields)):
        if fields - {field}:
            yield (*let_go, field), _without(asked, field)
    for field in present:
        if not fields - {*let_go, field}:
            continue
        let_go, asked = (*let_go, field), _without(asked, field)
        yield let_go, asked


_GONE: dict[str, dict[str, Any]] = {
    "amount": {"amount": None}, "layers": {"layers": None}, "ratio": {"share": None}, "temperature": {"warmth": None},
    "stage": {"stage": ""},
}  # fmt: skip
_GONE_FROM_QUERY: dict[str, dict[str, Any]] = {
    "words": {"words": ""}, "material": {"material": None}, "action": {"action": None},
    "time": {"since": None, "until": None},
}  # fmt: skip


def _without(asked: Asked, field: str) -> Asked:
    query = replace(asked.query, **_GONE_FROM_QUERY.get(field, {}))
    return replace(asked, query=query, **_GONE.get(field, {}))


def _fitting(store: Store, asked: Asked, synonyms: Synonyms, records: _Records) -> list[Hit]:
    hits = search(store, replace(asked.query, limit=_LOOKED_AT), synonyms)
    if not any((asked.warmth, asked.amount, asked.share, asked.layers, asked.place, asked.stage)):
        return hits
    return [hit for hit in hits if any(fits(asked, step, records.warmth(step)) for step in records.steps_of(hit))]


def _recipes(hits: list[Hit], records: _Records) -> list[RecipeHit]:
    """Return the builds of the hits: how well they match comes first, then what worked, then how many castings."""
    by_build: dict[str, list[Hit]] = {}
    for hit in hits:
        by_build.setdefault(hit.build_key, []).append(hit)
    best = max((hit.score for hit in hits), default=0.0) or 1.0
    found = []
    for key, mine in by_build.items():
        build, pulls = records.build(key), records.pulls(key)
        match = sum(1 + hit.score / best for hit in mine[:_STEPS_SHOWN])
        turned_out = {"worked": 1.5, "under way": 0.5}.get(build.outcome, 0.0)
        found.append(RecipeHit(build, tuple(mine[:_STEPS_SHOWN]), pulls, match + turned_out + 0.2 * math.log1p(pulls)))
    return sorted(found, key=lambda each: (-each.score, -each.build.started_at.timestamp()))


class _Records:
    """The steps, castings and warmth of the builds that hits are in, each looked up once."""

    def __init__(self, store: Store) -> None:
        self._store = store
        self._steps: dict[str, tuple[StepView, ...]] = {}

    @cached_property
    def _builds(self) -> Mapping[str, BuildView]:
        return {build.key: build for build in self._store.builds()}

    def build(self, key: str) -> BuildView:
        """Return a build."""
        return self._builds[key]

    def pulls(self, key: str) -> int:
        """Return how many castings were taken from what a build made."""
        return sum(pull.build_key == key for pull in self._store.pulls(self.build(key).mould_id))

    def steps(self, key: str) -> tuple[StepView, ...]:
        """Return the steps of a build."""
        if key not in self._steps:
            self._steps[key] = tuple(self._store.steps(key))
        return self._steps[key]

    def steps_of(self, hit: Hit) -> list[StepView]:
        """Return the step of a hit, or those of its note or build."""
        steps = self.steps(hit.build_key)
        if hit.step_id is not None:
            return [step for step in steps if step.id == hit.step_id]
        return [step for step in steps if hit.noun == "build" or step.note_id == hit.note_id]

    def warmth(self, step: StepView) -> float | None:
        """Return the shop's temperature at a step: its own, else the latest said on the build in a day before it."""
        said = [
            (abs(other.act_at - step.act_at), float(each.value))
            for other in self.steps(step.build_key)
            if step.act_at - _READING_HOLDS <= other.act_at <= step.act_at
            for each in other.record.conditions
            if each.kind == "temperature" and each.of not in ("oven", "resin") and each.value <= _SHOP_MOST_C
        ]
        return min(said)[1] if said else None


__all__ = ["Chip", "Findings", "RecipeHit", "find"]
