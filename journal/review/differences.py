"""What differed between a build and others: its unusual traits that they do not share, and the aligned acts. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from journal.keep.views import StepView
from journal.record import Timing
from journal.review import traits as named
from journal.review.align import Alignment, Row
from journal.review.builds import family, names_in
from journal.review.measures import Measures, Value
from journal.review.traits import Trait, traits_of
from journal.review.usual import usual_of
from journal.trade.material import Catalogue

TIMING, AMOUNT, EXTRA, MATERIAL = "timing", "amount", "extra step", "other material"
_WORTH_A_WORD = 1.25  # times as long or as much, either way: our choice
_ROW_SIZE = 0.1


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that differed, with its evidence: the steps of the build, and those of the builds it is held against.

    `factor` is one of `traits.FACTORS`, or timing, amount, extra step, other material. `size` 0 to 1; `beyond`
    says that a limit or tolerance was passed; `doubts` are the queries on the values that it rests on.
    """

    factor: str
    subject: str
    words: str
    size: float
    step_ids: tuple[int, ...]
    against_ids: tuple[int, ...] = ()
    doubts: tuple[str, ...] = ()
    beyond: bool = False


def differences(
    measured: Measures, against: Sequence[Measures], alignment: Alignment, catalogue: Catalogue
) -> tuple[Difference, ...]:
    """Return what differed from the builds it is held against, the largest first.

    `alignment` holds the build first, then the others. A trait that every other build shows too is no difference.
    """
    usual = usual_of(against)
    shown = [{trait.name for trait in traits_of(other, usual, catalogue)} for other in against]
    own = [trait for trait in traits_of(measured, usual, catalogue) if _differs(trait, shown, against)]
    found = [
        Difference(
            trait.factor, trait.subject, trait.words, trait.size, trait.step_ids,
            tuple(dict.fromkeys(step_id for other in against for step_id in _held_against(trait, other))),
            trait.doubts, trait.beyond,
        )
        for trait in own
    ]  # fmt: skip
    elsewhere = {what for row in alignment.rows for step in row.steps[1:] if step for what in _acts_with(step)}
    for row in alignment.rows:
        found += _row_differences(row, alignment.keys, elsewhere)
    return tuple(sorted(found, key=lambda each: -each.size))


def _differs(trait: Trait, shown: Sequence[set[str]], against: Sequence[Measures]) -> bool:
    """Return whether some other build lacks the trait; of lots, only when others said theirs."""
    if trait.factor == named.LOT and not any(other.lots for other in against):
        return False
    return any(trait.name not in each for each in shown)


# ---- the evidence on the other side --------------------------------------------------------------------


def _held_against(trait: Trait, other: Measures) -> tuple[int, ...]:
    """Return the steps of another build that show what it did instead."""
    find = _EVIDENCE.get(trait.factor)
    return () if find is None else tuple(dict.fromkeys(find(trait, other)))


def _ids(values: Iterable[Value | None]) -> Iterator[int]:
    for value in values:
        if value is not None:
            yield from value.step_ids


def _of_subject(trait: Trait, found: Mapping[str, Value]) -> Iterator[int]:
    return _ids([found.get(trait.subject)])


def _doses_of(trait: Trait, other: Measures) -> Iterator[int]:
    return _ids(dose.per_hundred for dose in other.doses if dose.material == trait.subject)


def _made(trait: Trait, other: Measures) -> Iterator[int]:
    act, _, name = trait.subject.partition(" with ")
    yield from other.made.get((act, name or None), ())


_EVIDENCE: dict[str, Callable[[Trait, Measures], Iterator[int]]] = {
    named.LITTLE_SECOND: _doses_of,
    named.MUCH_SECOND: _doses_of,
    named.COLD: lambda _, other: _ids(other.temperatures),
    named.HOT: lambda _, other: _ids(other.temperatures),
    named.DAMP: lambda _, other: _ids(other.humidities),
    named.EARLY_DEMOULD: lambda _, other: _ids([other.short_cure]),
    named.THIN_GLASS: lambda _, other: _ids(other.glass.values()),
    named.HEAVY_FIRST: lambda _, other: _ids([other.first_glass]),
    named.LITTLE_RESIN: lambda _, other: _ids([other.resin_g]),
    named.MUCH_RESIN: lambda _, other: _ids([other.resin_g]),
    named.THICK_GEL: lambda _, other: _ids([other.gel_g]),
    named.THIN_GEL: lambda trait, other: _ids([other.coats.get(trait.subject, other.gel_g)]),
    named.FEW_COATS: lambda trait, other: _of_subject(trait, other.coats),
    named.MISSING: _made,
}


# ---- act by act ------------------------------------------------------------------------------------------


def _acts_with(step: StepView) -> set[tuple[str, str]]:
    return {(family(step.record.action), name) for name in names_in(step.record) or ("",)}


def _row_differences(row: Row, keys: Sequence[str], elsewhere: set[tuple[str, str]]) -> Iterator[Difference]:
    """Yield how the first build's step differs from those beside it, and steps that only it has."""
    own, others = row.steps[0], [(step, key) for step, key in zip(row.steps[1:], keys[1:], strict=True) if step]
    if own is None or row.stage == "in use":
        return
    if not others and own.record.action not in ("wait", "cure") and not _acts_with(own) & elsewhere:
        words = f"{own.record.action} {' and '.join(names_in(own.record))}: not in {' or '.join(keys[1:])}"
        yield Difference(EXTRA, own.record.action, words, _ROW_SIZE / 2, (own.id,))
    for other, key in others:
        yield from _timings(own, other, key)
        yield from _amounts(own, other, key)
        yield from _materials(own, other, key)


def _timings(own: StepView, other: StepView, key: str) -> Iterator[Difference]:
    theirs = {timing.kind: timing for timing in other.record.timings}
    for timing in own.record.timings:
        seconds, wanted = _seconds(timing), _seconds(theirs.get(timing.kind))
        if seconds and wanted and _apart(seconds / wanted):
            words = f"{own.record.action}, {timing.kind}: {_span(seconds)}, in {key} {_span(wanted)}"
            yield Difference(TIMING, timing.kind, words, _ROW_SIZE, (own.id,), (other.id,))


def _seconds(timing: Timing | None) -> float | None:
    said = None if timing is None else timing.least or timing.most
    return None if said is None else float(said)


def _span(seconds: float) -> str:
    return f"{seconds / 60:g} min" if seconds < 7200 else f"{seconds / 3600:g} h"


def _apart(ratio: float) -> bool:
    return not 1 / _WORTH_A_WORD < ratio < _WORTH_A_WORD


def _amounts(own: StepView, other: StepView, key: str) -> Iterator[Difference]:
    theirs = {(use.name, use.part, use.unit): use for use in other.record.materials if use.amount}
    for use in own.record.materials:
        same = theirs.get((use.name, use.part, use.unit))
        if use.amount and same and same.amount and _apart(float(use.amount / same.amount)):
            said = f"{float(use.amount):g} {use.unit or 'without a unit'} of {use.name}"
            words = f"{own.record.action}: {said}, in {key} {float(same.amount):g}"
            yield Difference(AMOUNT, use.name, words, _ROW_SIZE, (own.id,), (other.id,))


def _materials(own: StepView, other: StepView, key: str) -> Iterator[Difference]:
    ours, theirs = set(names_in(own.record)), set(names_in(other.record))
    if ours and theirs and not ours & theirs:
        words = f"{own.record.action} with {', '.join(sorted(ours))}, in {key} with {', '.join(sorted(theirs))}"
        yield Difference(MATERIAL, own.record.action, words, 2 * _ROW_SIZE, (own.id,), (other.id,))
