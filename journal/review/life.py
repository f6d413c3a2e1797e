"""The life of a mould: opened, pulls, faults, repairs, retirement; and which recipe lasts longest. Pure."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from journal.keep.views import FaultView, StepView
from journal.review.builds import OPENING, BuildRecord, all_faults, materials_in
from journal.review.lasting import ALPHA, Lived, Survival, outlasts, survival
from journal.review.measures import doubts_of
from journal.trade.material import Catalogue

RETIRED = "retired"  # how an observation begins that says so
HEARD_SO = "heard in a note: record the retirement if it is so"
_SAID_RETIRED = re.compile(
    r"\b(?:retired?|retiring|worn out|scrapped|scrap (?:it|the mould)|end of its life|broken up|no more castings)\b",
    re.IGNORECASE,
)
_ENTRY = re.compile(r"Retired[:;.]")
_NOT_SO = re.compile(r"\b(?:not|never|isn't|aren't|hardly|until|before|if|when|almost|nearly)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class LifeEvent:
    """One thing in a mould's life: opened, pull, fault, repair, retired. `pulls` is how many castings it had given.

    `step_id` is None for what was only heard in a note. `doubts` are what is queried in it: it is drawn as such.
    """

    kind: str
    at: datetime
    step_id: int | None
    note_id: int
    pulls: int
    words: str
    places: tuple[str, ...]
    doubts: tuple[str, ...] = ()


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

    @property
    def lived(self) -> Lived:
        """The pulls given, and whether its life is over."""
        return self.pulls, self.retired

    @property
    def sound(self) -> Lived:
        """The pulls given before the first repair or the end of its life, and whether either has come."""
        repairs = self.of("repair")
        return (repairs[0].pulls, True) if repairs else self.lived


@dataclass(frozen=True, slots=True)
class Lasting:
    """How long moulds of one recipe last: until they are retired, and until they are first repaired or retired."""

    recipe: tuple[str, ...]
    builds: tuple[str, ...]
    pulls: int
    to_retirement: Survival
    to_repair: Survival


def life_of(record: BuildRecord, catalogue: Catalogue) -> MouldLife:
    """Return the life of a build from its opening on; its place in time is that of the acts."""
    opened = next((i for i, step in enumerate(record.done) if step.record.action in OPENING), len(record.done))
    lived = record.done[opened:]
    events = [*_events(record, lived)]
    if not any(event.kind == RETIRED for event in events):
        events += _heard_retired(record, lived, events)
    logged = sum(event.kind == "pull" for event in events)
    numbers = [step.record.pull for step in lived if step.record.action == "pull" and step.record.pull is not None]
    pulls = max([logged, *numbers])
    told = any(event.kind == RETIRED and event.step_id is not None for event in events)
    return MouldLife(
        build_key=record.key,
        mould_key=record.mould.key,
        recipe=recipe_of(record, catalogue),
        outcome=record.build.outcome,
        retired=told or (record.mould.status == RETIRED and record.build.outcome == "worked"),
        pulls=pulls,
        least=pulls > logged,
        events=tuple(events),
    )


def _events(record: BuildRecord, lived: Sequence[StepView]) -> Iterator[LifeEvent]:
    faults = defaultdict(list)
    for fault in all_faults(record):
        faults[fault.step_id].append(fault)
    pulls, opened = 0, False
    for step in lived:
        if step.record.action == "pull":
            pulls = max(pulls + 1, step.record.pull or 0)
        kind = _kind(step, opened)
        if kind:
            yield _event(step, kind, pulls, _words(step, kind))
        opened = True
        yield from (_fault(step, fault, pulls) for fault in faults[step.id])


def _kind(step: StepView, opened: bool) -> str:
    action = step.record.action
    if action == "pull":
        return "pull"
    if action == "demould":
        return "" if opened else "opened"
    if action in ("repair", "fill"):
        return "repair"
    return RETIRED if any(seen.text.casefold().startswith(RETIRED) for seen in step.record.observations) else ""


def _words(step: StepView, kind: str) -> str:
    said = "; ".join(seen.text for seen in step.record.observations)
    return said or step.record.evidence.heard if kind == "repair" else said


def _event(step: StepView, kind: str, pulls: int, words: str) -> LifeEvent:
    places = tuple(place.text for place in step.record.places)
    doubts = doubts_of(step, "action", "clock", "places")
    return LifeEvent(kind, step.act_at, step.id, step.note_id, pulls, words, places, doubts)


def _fault(step: StepView, fault: FaultView, pulls: int) -> LifeEvent:
    return _event(step, "fault", pulls, fault.kind if fault.text == fault.kind else f"{fault.kind}: {fault.text}")


def _heard_retired(record: BuildRecord, lived: Sequence[StepView], events: Sequence[LifeEvent]) -> Iterator[LifeEvent]:
    """Yield a retirement that was only heard in a note after the opening, unless a casting came later."""
    if not lived:
        return
    last = max((event.at for event in events if event.kind == "pull"), default=lived[0].act_at)
    for note_id, at in sorted(record.told.items(), key=lambda told: told[1], reverse=True):
        said = at >= last and said_retired(record.words.get(note_id, ""))
        if said:
            pulls = max((event.pulls for event in events), default=0)
            yield LifeEvent(RETIRED, at, None, note_id, pulls, said, (), (HEARD_SO,))
            return


def said_retired(words: str) -> str:
    """Return the clause that says a mould's life is over; "" when none does, or it says that it is not so."""
    if _ENTRY.match(words):
        return ""  # a person's own entry: its step says so, or was withdrawn
    for clause in re.split(r"[.;,!?]", words):
        if _SAID_RETIRED.search(clause) and not _NOT_SO.search(clause):
            return clause.strip()
    return ""


def recipe_of(record: BuildRecord, catalogue: Catalogue) -> tuple[str, ...]:
    """Return what a mould was made of: the materials that set, and the glass, by name."""
    used = [material for step in record.making for material in materials_in(step.record, catalogue)]
    return tuple(sorted({m.name for m in used if m.reacts or m.kind == "plaster" or m.is_fabric}))


def lasting(lives: Iterable[MouldLife]) -> tuple[Lasting, ...]:
    """Return how long the moulds of each recipe last, the longest first; only builds that worked count."""
    found = [_lasting(recipe, alike) for recipe, alike in _by_recipe(lives).items()]
    return tuple(sorted(found, key=_rank))


def _by_recipe(lives: Iterable[MouldLife]) -> dict[tuple[str, ...], list[MouldLife]]:
    by_recipe: dict[tuple[str, ...], list[MouldLife]] = defaultdict(list)
    for life in lives:
        if life.outcome == "worked":
            by_recipe[life.recipe].append(life)
    return by_recipe


def _lasting(recipe: tuple[str, ...], lives: Sequence[MouldLife]) -> Lasting:
    return Lasting(
        recipe=recipe,
        builds=tuple(life.build_key for life in lives),
        pulls=sum(life.pulls for life in lives),
        to_retirement=survival([life.lived for life in lives]),
        to_repair=survival([life.sound for life in lives], "were repaired or have worn out"),
    )


def _rank(each: Lasting) -> tuple[float, float, float]:
    medians = each.to_repair.median or 0, each.to_retirement.median or 0
    return -medians[0], -medians[1], -each.pulls / len(each.builds)


def verdict(lives: Sequence[MouldLife]) -> str:
    """Say which recipe lasts longest before its first repair or its end, or that it cannot be said."""
    by_recipe, found = _by_recipe(lives), lasting(lives)
    if len(found) < 2:
        return "There are no two recipes to hold against each other."
    first, second = found[:2]
    p = outlasts(*([life.sound for life in by_recipe[each.recipe]] for each in (first, second)))
    if p is None:
        return "Too few moulds were repaired or have worn out to say which recipe lasts longest."
    names = [", ".join(each.recipe) or "nothing named" for each in (first, second)]
    if p >= ALPHA:
        return f"It cannot be said which lasts longer, {names[0]} or {names[1]}: it may be chance (log-rank p {p:.2g})."
    return f"{names[0]} outlasts {names[1]} (log-rank p {p:.2g}). What they were used for may differ as well."
