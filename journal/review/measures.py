"""What one build measured: temperatures, ratios, layers, windows, lots and hands, each with its steps. Pure.

Everything is of the making of the mould, until it was opened; what was not said is not in it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta

from journal.find.clock import Clock, Outside
from journal.find.clocks import clocks_of
from journal.find.coats import Mixed, mixes
from journal.keep.views import StepView
from journal.record import Layer, Step
from journal.review.builds import OPENING, UNALIGNED, BuildRecord, family, materials_in, names_in, stages_of
from journal.trade.material import FABRIC_KINDS, Catalogue, Material

# Acts whose absence says something about how a mould was made: by a material of these kinds, or alone.
MADE_WITH = {"seal": ("sealer",), "release": ("release",), "laminate": tuple(sorted(FABRIC_KINDS))}
MADE_ALONE = frozenset({"clean", "wall", "degas", "thicken", "roll", "fill", "press", "release", "seal"})
SHOP_MOST_C = 45.0  # warmer is an oven
ANYWHERE = ""
TISSUE = "surface tissue"


@dataclass(frozen=True, slots=True)
class Value:
    """A measured number with the steps it rests on, and what is queried in them."""

    value: float
    step_ids: tuple[int, ...]
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Dose:
    """The second part of a batch, in grams per hundred of the main material; `said` is the ratio that was spoken."""

    material: str
    second: str
    per_hundred: Value
    said: float | None


@dataclass(frozen=True, slots=True)
class Measures:
    """What a build measured. Keys are names of materials and places ("" where none was said).

    `temperatures` degC and `humidities` percent of the shop; `glass` g/m2 of all layers by place; `coats` the
    number of coats by material; `gel_g` and `resin_g` grams mixed for the gel coat and for laminating;
    `first_glass` g/m2 of the layer next to the gel coat; `short_cure` how much of the time to demould, 0 to 1,
    was still to run; `made` the acts done, with their material or None; `undone` those said to be left out.
    """

    temperatures: tuple[Value, ...] = ()
    humidities: tuple[Value, ...] = ()
    doses: tuple[Dose, ...] = ()
    undosed: tuple[int, ...] = ()
    batches: tuple[tuple[Material, Value], ...] = ()
    glass: Mapping[str, Value] = field(default_factory=dict)
    unweighed: tuple[int, ...] = ()
    coats: Mapping[str, Value] = field(default_factory=dict)
    gel_g: Value | None = None
    resin_g: Value | None = None
    first_glass: Value | None = None
    outside: tuple[Outside, ...] = ()
    short_cure: Value | None = None
    made: Mapping[tuple[str, str | None], tuple[int, ...]] = field(default_factory=dict)
    undone: Mapping[tuple[str, str | None], tuple[int, ...]] = field(default_factory=dict)
    lots: Mapping[tuple[str, str], tuple[int, ...]] = field(default_factory=dict)
    hands: Mapping[tuple[str, str], tuple[int, ...]] = field(default_factory=dict)
    reacting: tuple[Material, ...] = ()
    opened: bool = False


def measure(record: BuildRecord, catalogue: Catalogue) -> Measures:
    """Return what a build measured."""
    steps = record.making
    stages = stages_of(record.steps, catalogue)
    batches = mixes(steps, catalogue)
    gel = [batch for batch in batches if "gel coat" in batch.material.kind]
    lay = [batch for batch in batches if stages[batch.step.id] == "laminating" and batch not in gel]
    doses = [dose for batch in batches if (dose := _dose(batch, catalogue)) is not None]
    undone = [step for step in record.steps if step.record.status == "not done" and stages[step.id] != "in use"]
    clocks = clocks_of(record.steps, catalogue, _end(record))
    making = {step.id for step in steps}
    return Measures(
        temperatures=tuple(_readings(steps, "temperature")),
        humidities=tuple(_readings(steps, "humidity")),
        doses=tuple(doses),
        undosed=_undosed(batches, doses),
        batches=tuple((batch.material, weight) for batch in batches if (weight := _weight([batch])) is not None),
        glass=_glass(steps, catalogue),
        unweighed=_unweighed(steps, catalogue),
        coats=_coats(steps, catalogue),
        gel_g=_weight(gel),
        resin_g=_weight(lay),
        first_glass=_first_glass(steps, catalogue),
        outside=tuple(each for each in clocks.outside if each.step_id in making),
        short_cure=_short_cure(record, clocks.all, making),
        made=_made(steps, catalogue),
        undone=_made(undone, catalogue),
        lots=_lots(steps),
        hands=_hands(record, steps, stages),
        reacting=_reacting(steps, catalogue),
        opened=len(steps) < len(record.done),
    )


def _end(record: BuildRecord) -> datetime:
    last = max((step.act_at for step in record.steps), default=record.build.started_at)
    return max(last, record.build.started_at) + timedelta(seconds=1)


def doubts_of(step: StepView, *fields: str) -> tuple[str, ...]:
    """Return what is queried in a step on these fields; nothing once a person confirmed it."""
    if step.confirmed:
        return ()
    return tuple(dict.fromkeys(flag.why for flag in step.record.flags if flag.field in fields))


def _readings(steps: Iterable[StepView], kind: str) -> Iterable[Value]:
    for step in steps:
        for condition in step.record.conditions:
            of_shop = condition.of in (None, "shop") and step.record.action != "post-cure"
            if condition.kind == kind and of_shop and (kind != "temperature" or condition.value <= SHOP_MOST_C):
                yield Value(float(condition.value), (step.id,), doubts_of(step, "conditions"))


# ---- batches -------------------------------------------------------------------------------------------


def _dose(batch: Mixed, catalogue: Catalogue) -> Dose | None:
    """Return the dose of a batch: by its two amounts, else by the ratio that was said."""
    record, material = batch.step.record, batch.material
    said = _said_per_hundred(record, material)
    weighed = _weighed_per_hundred(batch)
    per_hundred = weighed if weighed is not None else said
    if per_hundred is None:
        return None
    second = batch.second.name if batch.second else material.second_part or "second part"
    doubts = doubts_of(batch.step, "ratio", "amount", "unit", "materials")
    return Dose(material.name, second, Value(per_hundred, (batch.step.id,), doubts), said if weighed else None)


def _weighed_per_hundred(batch: Mixed) -> float | None:
    main, second = batch.main, batch.second
    if second is None or second.amount is None:
        return None
    if second.unit == "percent":
        return float(second.amount)
    if not main.amount or main.unit != second.unit or main.unit not in ("g", "ml"):
        return None
    plain = 100 * float(second.amount) / float(main.amount)
    return plain if main.unit == "g" else _by_weight(plain, batch.material)


def _said_per_hundred(record: Step, material: Material) -> float | None:
    ratio = record.ratio
    if ratio is None or ratio.derived or len(ratio.parts) < 2 or not ratio.parts[0]:
        return None
    plain = 100 * float(ratio.parts[1] / ratio.parts[0])
    by = ratio.by or material.ratio_by or "weight"
    return plain if by == "weight" else _by_weight(plain, material)


def _by_weight(by_volume: float, material: Material) -> float | None:
    """Return parts per hundred by weight from those by volume; None where a density is not known."""
    if material.density is None or material.density_second is None:
        return None
    return by_volume * material.density_second / material.density


def _undosed(batches: Sequence[Mixed], doses: Sequence[Dose]) -> tuple[int, ...]:
    """Return the mixes of what needs a second part whose ratio nobody said."""
    dosed = {step_id for dose in doses for step_id in dose.per_hundred.step_ids}
    mixed = [batch for batch in batches if batch.step.record.action == "mix" and batch.material.second_part]
    return tuple(batch.step.id for batch in mixed if batch.step.id not in dosed)


def _weight(batches: Sequence[Mixed]) -> Value | None:
    """Return the grams of the main material mixed; None when a batch was mixed without its weight being said."""
    mixed = [batch for batch in batches if batch.step.record.action == "mix"] or list(batches)
    if not mixed or any(batch.main.amount is None or batch.main.unit != "g" for batch in mixed):
        return None
    doubts = [why for batch in mixed for why in doubts_of(batch.step, "amount", "unit", "materials")]
    grams = sum(float(batch.main.amount or 0) for batch in mixed)
    return Value(grams, tuple(batch.step.id for batch in mixed), tuple(dict.fromkeys(doubts)))


# ---- layers and coats ------------------------------------------------------------------------------------


def _layers(steps: Iterable[StepView], catalogue: Catalogue) -> Iterable[tuple[StepView, Layer, Material]]:
    for step in steps:
        for layer in step.record.layers:
            material = catalogue.get(layer.name)
            if material is not None:
                yield step, layer, material


def _glass(steps: Iterable[StepView], catalogue: Catalogue) -> dict[str, Value]:
    """Return the g/m2 of glass by place; a layer without a place counts everywhere."""
    by_place: dict[str, list[tuple[float, StepView]]] = defaultdict(list)
    for step, layer, material in _layers(steps, catalogue):
        if material.is_fabric and layer.gsm is not None and layer.count is not None:
            for place in [p.text.casefold() for p in step.record.places] or [ANYWHERE]:
                by_place[place].append((float(layer.gsm * layer.count), step))
    everywhere = by_place.pop(ANYWHERE, [])
    summed = {place: _sum([*everywhere, *laid], "layers") for place, laid in by_place.items()}
    return summed or ({ANYWHERE: _sum(everywhere, "layers")} if everywhere else {})


def _sum(parts: Sequence[tuple[float, StepView]], *fields: str) -> Value:
    doubts = [why for _, step in parts for why in doubts_of(step, *fields)]
    ids = tuple(dict.fromkeys(step.id for _, step in parts))
    return Value(sum(amount for amount, _ in parts), ids, tuple(dict.fromkeys(doubts)))


def _unweighed(steps: Iterable[StepView], catalogue: Catalogue) -> tuple[int, ...]:
    """Return the steps that laid glass of which the weight or the number of layers was not said."""
    lacking = [
        step.id
        for step, layer, material in _layers(steps, catalogue)
        if material.is_fabric and (layer.gsm is None or layer.count is None)
    ]
    return tuple(dict.fromkeys(lacking))


def _coats(steps: Sequence[StepView], catalogue: Catalogue) -> dict[str, Value]:
    """Return the number of coats by material; per place, the place with the most."""
    counts: dict[str, dict[str, list[tuple[float, StepView]]]] = defaultdict(lambda: defaultdict(list))
    for step, layer, material in _layers(steps, catalogue):
        if not material.is_fabric and layer.count is not None:
            for place in [p.text.casefold() for p in step.record.places] or [ANYWHERE]:
                counts[material.name][place].append((float(layer.count), step))
    found = {}
    for name, by_place in counts.items():
        everywhere = by_place.pop(ANYWHERE, [])
        sums = [_sum([*everywhere, *laid], "layers") for laid in by_place.values()] or [_sum(everywhere, "layers")]
        found[name] = max(sums, key=lambda each: each.value)
    return found


def _first_glass(steps: Iterable[StepView], catalogue: Catalogue) -> Value | None:
    """Return the g/m2 of the first mat or cloth; a tissue is no glass that prints through."""
    for step, layer, material in _layers(steps, catalogue):
        if material.is_fabric and material.name != TISSUE:
            return None if layer.gsm is None else Value(float(layer.gsm), (step.id,), doubts_of(step, "layers"))
    return None


# ---- cure, acts, lots and hands ---------------------------------------------------------------------------


def _short_cure(record: BuildRecord, clocks: Sequence[Clock], making: set[int]) -> Value | None:
    """Return the share of the time to demould that was still to run when the mould was opened; 0 when none was."""
    opening = next((step for step in record.done if step.record.action in OPENING), None)
    setting = [clock for clock in clocks if clock.kind == "demould" and clock.evidence[0] in making]
    if opening is None or not setting:
        return None
    last = max(setting, key=lambda clock: clock.window.opens)
    whole = last.window.opens - last.started_at
    left = max(last.window.opens - opening.act_at, timedelta(0))
    return Value(left / whole, (last.evidence[0], opening.id), last.doubts)


def _made(steps: Iterable[StepView], catalogue: Catalogue) -> dict[tuple[str, str | None], tuple[int, ...]]:
    found: dict[tuple[str, str | None], list[int]] = defaultdict(list)
    for step in steps:
        act = family(step.record.action)
        if act in MADE_ALONE:
            found[act, None].append(step.id)
        for material in materials_in(step.record, catalogue):
            if material.kind in MADE_WITH.get(act, ()):
                found[act, material.name].append(step.id)
    return {what: tuple(dict.fromkeys(ids)) for what, ids in found.items()}


def _lots(steps: Iterable[StepView]) -> dict[tuple[str, str], tuple[int, ...]]:
    found: dict[tuple[str, str], list[int]] = defaultdict(list)
    for step in steps:
        for use in step.record.materials:
            if use.lot:
                name = f"{use.name} {use.part}" if use.part else use.name
                found[name, use.lot].append(step.id)
    return {lot: tuple(dict.fromkeys(ids)) for lot, ids in found.items()}


def _hands(
    record: BuildRecord, steps: Iterable[StepView], stages: Mapping[int, str]
) -> dict[tuple[str, str], tuple[int, ...]]:
    """Return who worked on each stage, by the notes of its acts."""
    found: dict[tuple[str, str], list[int]] = defaultdict(list)
    for step in steps:
        hand = record.hand(step)
        if hand and step.record.action not in UNALIGNED and stages[step.id] != "curing":
            found[stages[step.id], hand].append(step.id)
    return {who: tuple(ids) for who, ids in found.items()}


def _reacting(steps: Iterable[StepView], catalogue: Catalogue) -> tuple[Material, ...]:
    found = [m for step in steps for name in names_in(step.record) if (m := catalogue.get(name)) and m.reacts]
    return tuple(dict.fromkeys(found))
