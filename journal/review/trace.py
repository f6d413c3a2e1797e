"""Where a lot, a batch or a material went, forwards to moulds and pulls, and back from a pull to its lots. Pure.

A batch is a mix; what is done afterwards with its material, on that day and until the next mix of it, is done with it.
A mould that a thing went into passes it on to every pull taken from it. What is mixed on a finished mould before a
pull goes into that pull itself.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from journal.find.coats import mixes
from journal.keep.views import StepView
from journal.record import MaterialUse
from journal.review.builds import OPENING, BuildRecord, family, names_in
from journal.trade.material import Catalogue, name_key

IN_MOULD, IN_PULL = "in the mould", "in the pull itself"
BATCH_LASTS = timedelta(hours=12)  # what was mixed has set by then: common practice, no published source
_BATCH = frozenset({"mix", "thicken", "tint", "degas"})
_USED = frozenset({"brush", "pour", "laminate", "fill", "press", "roll", "seal", "release", "repair", "fit"})


@dataclass(frozen=True, slots=True)
class Used:
    """A step that a thing went into: whether it was named there, or only carried on from its batch.

    `amount` in `unit` is what was said of it; `doubts` are the queries on the step's materials and amounts.
    """

    build_key: str
    mould_key: str
    step_id: int
    at: datetime
    act: str
    places: tuple[str, ...]
    named: bool
    lot: str | None
    amount: float | None
    unit: str | None
    doubts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PullReached:
    """A casting that a thing went into: by its mould, or in the casting itself. `number` is as said."""

    mould_key: str
    build_key: str
    step_id: int
    number: int | None
    at: datetime
    how: str


@dataclass(frozen=True, slots=True)
class LotUsed:
    """A lot that went into something, and the steps that named it. `lot` is None where none was said."""

    material: str
    part: str | None
    lot: str | None
    how: str
    step_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Trace:
    """Where something went, or what went into it: its steps in time order, the moulds and pulls, the lots.

    `warnings` say what the record cannot tell: steps of the same material that named no lot.
    """

    what: str
    direction: str
    used: tuple[Used, ...]
    builds: tuple[str, ...]
    moulds: tuple[str, ...]
    pulls: tuple[PullReached, ...]
    lots: tuple[LotUsed, ...]
    warnings: tuple[str, ...]

    @property
    def found(self) -> bool:
        """Whether there is any trace."""
        return bool(self.used or self.lots)


def lot_key(lot: str) -> str:
    """Return a lot number as lots are compared: case, spaces and dashes do not count."""
    return "".join(letter for letter in lot.casefold() if letter.isalnum())


def trace_lot(records: Sequence[BuildRecord], number: str, catalogue: Catalogue) -> Trace:
    """Return where a lot went; lots of other materials with the same number are in it as well."""
    wanted = lot_key(number)
    made = _forwards(records, lambda step, use: use.lot is not None and lot_key(use.lot) == wanted, catalogue)
    names = {use.name for record in records for use in _uses(record) if use.lot and lot_key(use.lot) == wanted}
    return _traced(f"lot {number}", records, made, _unsaid_lots(records, names))


def trace_material(records: Sequence[BuildRecord], name: str, catalogue: Catalogue) -> Trace:
    """Return where a material went, by its name or a synonym."""
    known = catalogue.get(name)
    wanted = name_key(known.name if known else name)
    made = _forwards(records, lambda step, use: name_key(use.name) == wanted, catalogue)
    seen = {used.step_id for used in made}
    layers = [
        _used(record, step, None)
        for record in records
        for step in record.done
        if step.id not in seen and any(name_key(layer.name) == wanted for layer in step.record.layers)
    ]
    return _traced(known.name if known else name, records, [*made, *layers], ())


def trace_batch(records: Sequence[BuildRecord], step_id: int, catalogue: Catalogue) -> Trace:
    """Return where the batch mixed in that step went."""
    made = _forwards(records, lambda step, use: step.id == step_id, catalogue)
    return _traced(f"the batch of step {step_id}", records, made, ())


def trace_pull(records: Sequence[BuildRecord], step_id: int) -> Trace:
    """Return what went into a casting: the lots of the mould it came from, and those of the casting itself."""
    record = next((r for r in records if any(step.id == step_id for step in r.done)), None)
    if record is None:
        return _traced(f"the pull of step {step_id}", records, (), ())
    into = _into_pull(record, step_id)
    mould = [step for step in record.making if step.id not in {s.id for s in into}]
    lots = [*_lots_used(mould, IN_MOULD), *_lots_used(into, IN_PULL)]
    used = [_used(record, step, use) for step in (*mould, *into) for use in step.record.materials]
    pull = next(step for step in record.done if step.id == step_id)
    said = f"pull {pull.record.pull}" if pull.record.pull is not None else f"the pull of step {step_id}"
    unsaid = [lot.material for lot in lots if lot.lot is None]
    warnings = (f"No lot was said of: {', '.join(dict.fromkeys(unsaid))}.",) if unsaid else ()
    reached = (PullReached(record.mould.key, record.key, step_id, pull.record.pull, pull.act_at, "itself"),)
    return Trace(
        f"{said} of {record.mould.name}", "back", tuple(used), (record.key,), (record.mould.key,), reached,
        tuple(lots), warnings,
    )  # fmt: skip


# ---- forwards --------------------------------------------------------------------------------------------

_Wanted = Callable[[StepView, MaterialUse], bool]


def _forwards(records: Iterable[BuildRecord], wanted: _Wanted, catalogue: Catalogue) -> list[Used]:
    """Return the steps that name the thing, and those that its batches were used up in."""
    found: dict[int, list[Used]] = {}
    for record in records:
        done = record.done
        for step in done:
            for use in step.record.materials:
                if wanted(step, use):
                    found.setdefault(step.id, []).append(_used(record, step, use))
        named = {step.id for step in done if step.id in found}
        for step in _carried_on(done, named, catalogue):
            found.setdefault(step.id, []).append(_used(record, step, None, named=False))
    return [used for uses in found.values() for used in uses]


def _carried_on(done: Sequence[StepView], named: set[int], catalogue: Catalogue) -> Iterator[StepView]:
    """Yield the steps that used up a batch with the thing in it, until its material is mixed again."""
    mains = {mixed.step.id: mixed.material.name for mixed in mixes(done, catalogue)}
    carrying: set[str] = set()
    weighed: set[str] = set()
    latest: str | None = None
    mixed_at: dict[str, datetime] = {}
    for step in _mixed_first(done, mains):
        carrying = {main for main in carrying if step.act_at - mixed_at[main] <= BATCH_LASTS}
        act = step.record.action
        main = mains.get(step.id)
        if main is not None:
            same_batch = act == "mix" and main in weighed
            if same_batch and main in carrying and step.id not in named:
                yield step
            elif not same_batch or step.id in named:
                (carrying.add if step.id in named else carrying.discard)(main)
            (weighed.add if act == "weigh" else weighed.discard)(main)
            latest, mixed_at[main] = main, step.act_at
        elif step.id not in named and family(act) in _BATCH | _USED and _of_batch(step, carrying, latest, catalogue):
            yield step


def _mixed_first(done: Sequence[StepView], mains: Mapping[int, str]) -> Iterator[StepView]:
    """Yield the steps with each note's mixes first: "laid two layers; 800 g of resin" was mixed before it was laid."""
    for _, told in itertools.groupby(done, key=lambda step: step.note_id):
        yield from sorted(told, key=lambda step: step.id not in mains)


def _of_batch(step: StepView, carrying: set[str], latest: str | None, catalogue: Catalogue) -> bool:
    """Return whether a step used one of these batches: it names the material, or names none and it was mixed last.

    Glass is laid with the resin mixed last.
    """
    names = set(names_in(step.record))
    if names & carrying:
        return True
    setting = [name for name in names if (known := catalogue.get(name)) is not None and not known.is_fabric]
    return not setting and latest in carrying


def _used(record: BuildRecord, step: StepView, use: MaterialUse | None, named: bool = True) -> Used:
    doubts = [flag.why for flag in step.record.flags if flag.field in ("materials", "amount", "unit")]
    return Used(
        build_key=record.key,
        mould_key=record.mould.key,
        step_id=step.id,
        at=step.act_at,
        act=step.record.action,
        places=tuple(place.text for place in step.record.places),
        named=named,
        lot=use.lot if use else None,
        amount=float(use.amount) if use and use.amount is not None else None,
        unit=use.unit if use else None,
        doubts=() if step.confirmed else tuple(doubts),
    )


def _traced(what: str, records: Sequence[BuildRecord], used: Iterable[Used], warnings: tuple[str, ...]) -> Trace:
    ordered = sorted(used, key=lambda each: (each.at, each.step_id))
    touched = {each.step_id for each in ordered}
    pulls = [pull for record in records for pull in _pulls_reached(record, touched)]
    return Trace(
        what=what,
        direction="forwards",
        used=tuple(ordered),
        builds=tuple(dict.fromkeys(each.build_key for each in ordered)),
        moulds=tuple(dict.fromkeys(each.mould_key for each in ordered)),
        pulls=tuple(sorted(pulls, key=lambda pull: (pull.at, pull.step_id))),
        lots=(),
        warnings=warnings if ordered else (),
    )


def _pulls_reached(record: BuildRecord, touched: set[int]) -> Iterator[PullReached]:
    """Yield the castings that a thing in these steps reached: all from a mould that has it, or only the next one."""
    in_mould = False
    opened = False
    waiting = False
    for step in record.done:
        opened = opened or step.record.action in OPENING
        if step.record.action == "pull":
            if in_mould or waiting or step.id in touched:
                how = IN_MOULD if in_mould else IN_PULL
                yield PullReached(record.mould.key, record.key, step.id, step.record.pull, step.act_at, how)
            waiting = False
        elif step.id in touched:
            stays = not opened or step.record.action in ("repair", "fill")
            in_mould, waiting = in_mould or stays, waiting or not stays


# ---- back --------------------------------------------------------------------------------------------------


def _into_pull(record: BuildRecord, step_id: int) -> list[StepView]:
    """Return the steps on the finished mould between the pull before and this one, and the pull itself."""
    making = {step.id for step in record.making}
    into: list[StepView] = []
    for step in record.done:
        if step.id in making:
            continue
        into.append(step)
        if step.id == step_id:
            return into
        if step.record.action in OPENING:
            into = []
    return into


def _lots_used(steps: Iterable[StepView], how: str) -> list[LotUsed]:
    found: dict[tuple[str, str | None, str | None], list[int]] = {}
    for step in steps:
        for use in step.record.materials:
            found.setdefault((use.name, use.part, use.lot), []).append(step.id)
    said = {(name, part) for name, part, lot in found if lot}
    return [
        LotUsed(name, part, lot, how, tuple(dict.fromkeys(ids)))
        for (name, part, lot), ids in found.items()
        if lot or (name, part) not in said
    ]


def _uses(record: BuildRecord) -> Iterator[MaterialUse]:
    for step in record.done:
        yield from step.record.materials


def _unsaid_lots(records: Iterable[BuildRecord], names: set[str]) -> tuple[str, ...]:
    """Warn of builds that used a material of the lot and never said which lot of it."""
    unsaid = {
        record.key
        for record in records
        for name in names
        if any(use.name == name for use in _uses(record))
        and not any(use.name == name and use.lot for use in _uses(record))
    }
    if not unsaid:
        return ()
    keys = sorted(unsaid)
    listed = ", ".join(keys[:20]) + (f" and {len(keys) - 20} more" if len(keys) > 20 else "")
    return (f"The same material was used without a lot being said in: {listed}. They may have it too.",)
