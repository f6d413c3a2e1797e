"""One making of a mould as reviews look at it: its steps, who spoke them, and the stage that each belongs to. Pure."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from journal.keep.steps import NO_FAULT
from journal.keep.store import Store
from journal.keep.views import BuildView, FaultView, MouldView, StepView
from journal.record import Step
from journal.trade.material import Catalogue, Material

STAGES = ("preparing", "gel coat", "filling", "laminating", "casting", "curing", "opening", "in use")
# Acts that do one thing with different tools are one family when builds are compared.
FAMILIES = {"weigh": "mix", "stipple": "brush", "spray": "brush", "wet out": "laminate", "sand": "trim"}
OPENING = frozenset({"demould", "pull"})
# What is only looked at, photographed or put away is no part of how a mould is made.
UNALIGNED = frozenset({"check", "photograph", "store"})
_STAGE_OF_ACT = {
    "clean": "preparing", "seal": "preparing", "release": "preparing", "wall": "preparing", "laminate": "laminating",
    "roll": "laminating", "wet out": "laminating", "fill": "filling", "thicken": "filling", "pour": "casting",
    "degas": "casting", "cure": "curing", "post-cure": "curing",
}  # fmt: skip
_CAST_KINDS = frozenset({"silicone", "urethane rubber", "urethane resin", "latex", "plaster"})
# A coat that is tacky is on its way; it is a fault only on the opened mould.
_PASSING = frozenset({"tacky", "soft"})


@dataclass(frozen=True, slots=True)
class BuildRecord:
    """A build with its mould and steps in force, in the order of the acts.

    `hands` gives who spoke each note, `words` what was said in it and `told` when, by the note's id.
    """

    build: BuildView
    mould: MouldView
    steps: tuple[StepView, ...]
    hands: Mapping[int, str] = field(default_factory=dict)
    words: Mapping[int, str] = field(default_factory=dict)
    told: Mapping[int, datetime] = field(default_factory=dict)

    @property
    def key(self) -> str:
        """The build's key."""
        return self.build.key

    @property
    def done(self) -> tuple[StepView, ...]:
        """The steps that were done."""
        return tuple(step for step in self.steps if step.record.status == "done")

    @property
    def making(self) -> tuple[StepView, ...]:
        """The steps done until the mould was opened: what made it."""
        done = self.done
        opened = next((i for i, step in enumerate(done) if step.record.action in OPENING), len(done))
        return done[:opened]

    def hand(self, step: StepView) -> str | None:
        """Return who did a step: the one it names, else the one who spoke."""
        named = step.record.who
        return named if named and named.casefold() not in ("i", "we", "me") else self.hands.get(step.note_id)


def build_record(
    build: BuildView,
    mould: MouldView,
    steps: Iterable[StepView],
    hands: Mapping[int, str],
    words: Mapping[int, str] | None = None,
    told: Mapping[int, datetime] | None = None,
) -> BuildRecord:
    """Return the record of a build; its steps are put in the order of the acts, withdrawn ones left out."""
    standing = [step for step in steps if not step.withdrawn]
    ordered = sorted(standing, key=lambda step: (step.act_at, step.recorded_at, step.position))
    return BuildRecord(build, mould, tuple(ordered), hands, words or {}, told or {})


def load(store: Store, build_key: str | int) -> BuildRecord:
    """Return the record of a kept build. Raises NotKept."""
    build = store.build(build_key)
    notes = store.notes(build.id)
    hands = {note.id: note.who for note in notes if note.who}
    words = {note.id: note.text or "" for note in notes}
    told = {note.id: note.recorded_at for note in notes}
    return build_record(build, store.mould(build.mould_id), store.steps(build.id), hands, words, told)


def load_all(store: Store, mould_key: str | int | None = None) -> list[BuildRecord]:
    """Return the records of every build, or of every build of one mould, in a few queries. Raises NotKept."""
    builds = store.builds(mould_key)
    ids = [build.id for build in builds]
    moulds = {mould.id: mould for mould in store.moulds()}
    steps: dict[int, list[StepView]] = defaultdict(list)
    hands: dict[int, dict[int, str]] = defaultdict(dict)
    words: dict[int, dict[int, str]] = defaultdict(dict)
    told: dict[int, dict[int, datetime]] = defaultdict(dict)
    for step in store.steps_of(ids):
        steps[step.build_id].append(step)
    for said in store.spoken_in(ids):
        words[said.build_id][said.note_id] = said.text
        told[said.build_id][said.note_id] = said.at
        if said.who:
            hands[said.build_id][said.note_id] = said.who
    return [build_record(b, moulds[b.mould_id], steps[b.id], hands[b.id], words[b.id], told[b.id]) for b in builds]


def family(action: str) -> str:
    """Return the family that an act belongs to when builds are compared."""
    return FAMILIES.get(action, action)


def names_in(step: Step) -> tuple[str, ...]:
    """Return the materials of a step, those of its layers included, each once."""
    return tuple(dict.fromkeys([use.name for use in step.materials] + [layer.name for layer in step.layers]))


def materials_in(step: Step, catalogue: Catalogue) -> list[Material]:
    """Return the materials of a step that the catalogue knows."""
    return [known for name in names_in(step) if (known := catalogue.get(name)) is not None]


def stages_of(steps: Iterable[StepView], catalogue: Catalogue) -> dict[int, str]:
    """Return the stage of every step, by step id: by its act and materials, else that of the step before it."""
    stages: dict[int, str] = {}
    stage, opened = STAGES[0], False
    for step in steps:
        record = step.record
        if record.action in OPENING and record.status == "done":
            stage, opened = ("opening" if record.action == "demould" and not opened else "in use"), True
        elif opened:
            stage = "in use"
        else:
            stage = _stage_named(record, catalogue) or stage
        stages[step.id] = stage
    return stages


def _stage_named(record: Step, catalogue: Catalogue) -> str | None:
    """Return the stage that a step's own words name."""
    if record.action in _STAGE_OF_ACT:
        return _STAGE_OF_ACT[record.action]
    materials = materials_in(record, catalogue)
    if any("gel coat" in material.kind for material in materials):
        return "gel coat"
    if any(material.is_fabric for material in materials):
        return "laminating"
    reacting = next((material for material in materials if material.reacts or material.kind == "plaster"), None)
    if reacting is None:
        return None
    return "casting" if reacting.kind in _CAST_KINDS else "laminating"


def faults_of(record: BuildRecord) -> tuple[FaultView, ...]:
    """Return what was found wrong with a build. What is tacky or soft while it cures is a sign, and no fault yet."""
    making = {step.id for step in record.making}
    return tuple(f for f in all_faults(record) if f.step_id not in making or f.kind not in _PASSING)


def signs_of(record: BuildRecord) -> tuple[FaultView, ...]:
    """Return what was seen while the mould was made that may have been a sign."""
    making = {step.id for step in record.making}
    return tuple(f for f in all_faults(record) if f.step_id in making)


def all_faults(record: BuildRecord) -> tuple[FaultView, ...]:
    """Return every observation of a build's steps done that is not a good one."""
    return tuple(
        FaultView(
            step_id=step.id,
            note_id=step.note_id,
            build_key=record.key,
            at=step.act_at,
            kind=seen.kind,
            text=seen.text,
            places=tuple(place.text for place in step.record.places),
            on_pull=step.record.pull,
        )
        for step in record.done
        for seen in step.record.observations
        if seen.kind not in NO_FAULT
    )
