"""The shelf: what was stated of each tin, what the kept steps used of it, and what a build needs. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from journal.find.recipe import Total
from journal.keep.views import LotView, StepView
from journal.record import MaterialUse
from journal.trade.material import Catalogue, name_key
from journal.trade.stock import LotStock, Shortage, objections, shortages

_BATCH_ACTS = ("weigh", "mix", "thicken", "tint")


@dataclass(frozen=True, slots=True)
class Tin:
    """A lot on the shelf. `stock` is None when nobody stated what it held, or not in a unit that can be weighed.

    `assumed_g` is the part of what was used that was logged without a lot while this one was the lot in use;
    `step_ids` are all steps counted, `objections` what speaks against using it today.
    """

    lot: LotView
    stock: LotStock | None
    used_g: float
    assumed_g: float
    step_ids: tuple[int, ...]
    objections: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Use:
    step: StepView
    use: MaterialUse
    grams: float | None  # None: how much was not said, or not in a unit that can be weighed


def shelf(lots: Sequence[LotView], steps: Iterable[StepView], catalogue: Catalogue, today: date) -> tuple[Tin, ...]:
    """Return every lot with what was used of it by the steps done, and what speaks against it.

    An amount logged without a lot is counted to the lot of its material that was opened or named last before it.
    A weight said when weighing and again when mixing counts once.
    """
    uses = list(_uses(steps, catalogue))
    named: dict[int, list[_Use]] = {i: [] for i in range(len(lots))}
    assumed: dict[int, list[_Use]] = {i: [] for i in range(len(lots))}
    for use in uses:
        i = _lot_of(use, lots)
        if i is not None:
            (named if use.use.lot else assumed)[i].append(use)
    return tuple(_tin(lot, named[i], assumed[i], catalogue, today) for i, lot in enumerate(lots))


def _tin(lot: LotView, named: Sequence[_Use], assumed: Sequence[_Use], catalogue: Catalogue, today: date) -> Tin:
    used, guessed = (sum(use.grams or 0.0 for use in uses) for uses in (named, assumed))
    held = _grams(lot.amount, lot.unit, lot.material, lot.part, catalogue)
    stock = LotStock(lot.material, lot.number, held or 0.0, used + guessed, lot.use_by, lot.part)
    against = objections(stock, today) if held is not None else _dated(lot, today)
    unweighed = sum(use.grams is None for use in (*named, *assumed))
    if unweighed:
        times = "once" if unweighed == 1 else f"{unweighed} times"
        against += (f"lot {lot.number} of {lot.material} was used {times} without a weight, so less of it is left",)
    ids = tuple(dict.fromkeys((*lot.step_ids, *(use.step.id for use in (*named, *assumed)))))
    return Tin(lot, stock if held is not None else None, used + guessed, guessed, ids, against)


def _dated(lot: LotView, today: date) -> tuple[str, ...]:
    stock = LotStock(lot.material, lot.number, 1.0, 0.0, lot.use_by, lot.part)
    return objections(stock, today)


def _uses(steps: Iterable[StepView], catalogue: Catalogue) -> Iterable[_Use]:
    weighed: dict[tuple[int, str, str | None], float] = {}
    for step in sorted(steps, key=lambda step: (step.act_at, step.position)):
        if step.record.status != "done" or step.withdrawn or step.record.action not in _BATCH_ACTS:
            continue
        for use in step.record.materials:
            amount = None if use.amount is None else float(use.amount)
            grams = _grams(amount, use.unit, use.name, use.part, catalogue)
            key = (step.build_id, use.name, use.part)
            if step.record.action != "weigh" and grams is not None and weighed.pop(key, None) == grams:
                continue
            if step.record.action == "weigh" and grams is not None:
                weighed[key] = grams
            yield _Use(step, use, grams)


def _grams(amount: float | None, unit: str | None, name: str, part: str | None, catalogue: Catalogue) -> float | None:
    """Return grams, through the catalogue's density where ml were said; None where that cannot be known."""
    if amount is None or unit == "g":
        return amount
    material = catalogue.get(name)
    density = None if material is None else material.density_second if part == "B" else material.density
    return amount * density if unit == "ml" and density is not None else None


def _lot_of(use: _Use, lots: Sequence[LotView]) -> int | None:
    same = [i for i, lot in enumerate(lots) if lot.material == use.use.name and lot.part == use.use.part]
    if use.use.lot is not None:
        return next((i for i in same if lots[i].number == use.use.lot), None)
    opened = [i for i in same if (at := lots[i].opened_at) is not None and at <= use.step.act_at]
    return max(opened, key=lambda i: _opened(lots[i]), default=None)


def _opened(lot: LotView) -> datetime:
    assert lot.opened_at is not None  # asked only of lots that are opened
    return lot.opened_at


def needs_of(totals: Iterable[Total], catalogue: Catalogue) -> dict[str, float]:
    """Return the grams of each material that a build took, from the totals of its recipe."""
    needs: dict[str, float] = {}
    for total in totals:
        grams = _grams(total.amount_most or total.amount, total.unit, total.name, total.part, catalogue)
        if grams is not None:
            needs[total.name] = needs.get(total.name, 0.0) + grams
    return needs


def short_for(needs: Mapping[str, float], tins: Iterable[Tin], today: date) -> tuple[Shortage, ...]:
    """Return what is short of those needs; only tins whose content was stated count."""
    stated = {name_key(tin.lot.material): tin.lot.material for tin in tins}
    named = {stated.get(name_key(name), name): grams for name, grams in needs.items()}
    return shortages(named, [tin.stock for tin in tins if tin.stock is not None], today)
