"""Why a mould could have failed: what differed, ranked by how likely it bears on the faults found. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from journal.keep.views import FaultView, StepView
from journal.review import traits as named
from journal.review.align import Beside, align
from journal.review.builds import BuildRecord, faults_of, names_in, signs_of
from journal.review.causes import Cause, causes_of
from journal.review.differences import Difference, differences
from journal.review.measures import Measures, measure
from journal.trade.material import Catalogue

_DOUBTED, _MERELY_DIFFERENT, _SAME_THING = 0.7, 0.6, 1.25
SHOWN_WORDS = "could"  # the record shows what was different; it never shows that it did it


@dataclass(frozen=True, slots=True)
class Likely:
    """Something that could have brought faults about. `score` only ranks; `source` says whose knowledge it is.

    `differences` are the evidence; `faults` the kinds of fault that it bears on, the likeliest first.
    """

    factor: str
    words: str
    why: str
    source: str
    faults: tuple[str, ...]
    score: float
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class Explanation:
    """A build held against others: its faults, what could have caused them, what else differed, what is lacking.

    `rows` lay the acts side by side, this build first. `lacks` says what the record would need to say before a
    usual cause can be looked at.
    """

    build: str
    against: tuple[str, ...]
    faults: tuple[FaultView, ...]
    signs: tuple[FaultView, ...]
    likely: tuple[Likely, ...]
    others: tuple[Difference, ...]
    lacks: tuple[str, ...]
    rows: tuple[Beside, ...]
    caution: str = ""


def explain(record: BuildRecord, against: Sequence[BuildRecord], catalogue: Catalogue) -> Explanation:
    """Return what could have brought a build's faults about, held against builds that went otherwise."""
    measured = measure(record, catalogue)
    others = [measure(other, catalogue) for other in against]
    alignment = align([record, *against], catalogue)
    found = differences(measured, others, alignment, catalogue)
    faults = faults_of(record)
    likely = _ranked(record, faults, found)
    told = {id(difference) for each in likely for difference in each.differences}
    return Explanation(
        build=record.key,
        against=tuple(other.key for other in against),
        faults=faults,
        signs=signs_of(record),
        likely=likely,
        others=tuple(difference for difference in found if id(difference) not in told),
        lacks=tuple(_lacks(record, measured, faults)),
        rows=tuple(row.beside for row in alignment.rows),
        caution=_caution(against),
    )


def _caution(against: Sequence[BuildRecord]) -> str:
    if not against:
        return "Held against no other build: only limits and tolerances could be looked at."
    unhappy = [other.key for other in against if other.build.outcome != "worked"]
    if unhappy:
        return f"Not known to have worked: {', '.join(unhappy)}. What they share with this build may be at fault too."
    return ""


# ---- ranking ---------------------------------------------------------------------------------------------


def _ranked(record: BuildRecord, faults: Sequence[FaultView], found: Sequence[Difference]) -> tuple[Likely, ...]:
    """Return what bears on the faults, the likeliest first; one entry a factor."""
    steps = {step.id: step for step in record.steps}
    scored: dict[str, list[tuple[float, str, Cause, Difference]]] = {}
    for fault in faults:
        for cause in causes_of(fault.kind):
            for difference in found:
                if cause.bears_on(difference.factor, difference.subject):
                    score = cause.weight * _strength(difference, steps[fault.step_id], steps)
                    scored.setdefault(cause.factor, []).append((score, fault.kind, cause, difference))
    return tuple(sorted((_likely(factor, hits) for factor, hits in scored.items()), key=lambda each: -each.score))


def _strength(difference: Difference, fault: StepView, steps: dict[int, StepView]) -> float:
    """Return how far a difference goes, more when it is of the very material or place of the fault."""
    strength = difference.size * (1.0 if difference.beyond else _MERELY_DIFFERENT)
    if difference.doubts:
        strength *= _DOUBTED
    places = {place.text.casefold() for place in fault.record.places}
    here = any(places & {p.text.casefold() for p in steps[i].record.places} for i in difference.step_ids if i in steps)
    return strength * (_SAME_THING if difference.subject in names_in(fault.record) or here else 1.0)


def _likely(factor: str, hits: Sequence[tuple[float, str, Cause, Difference]]) -> Likely:
    ordered = sorted(hits, key=lambda hit: -hit[0])
    score, _, cause, first = ordered[0]
    kinds = tuple(dict.fromkeys(kind for _, kind, _, _ in ordered))
    shown = tuple(dict.fromkeys(difference for *_, difference in ordered))
    more = f" (and {len(shown) - 1} more)" if len(shown) > 1 else ""
    words = f"{first.words}{more}: {SHOWN_WORDS} bear on {' and '.join(kinds)}"
    return Likely(factor, words, cause.why, cause.source, kinds, score, shown)


# ---- what the record lacks ----------------------------------------------------------------------------------


def _lacks(record: BuildRecord, measured: Measures, faults: Sequence[FaultView]) -> Iterator[str]:
    """Yield what is not recorded, but is needed to look at a usual cause of the faults."""
    if not faults:
        yield "No fault is recorded for this build, so that nothing can be weighed against a fault's usual causes."
    if not measured.opened:
        yield "The opening of the mould is not recorded."
    kinds = {fault.kind for fault in faults}
    wanted = dict.fromkeys(cause.factor for kind in sorted(kinds) for cause in causes_of(kind))
    told = (_LACKING[factor](record, measured) for factor in wanted if factor in _LACKING)
    yield from dict.fromkeys(words for words in told if words)


def _batches(ids: Sequence[int]) -> str:
    return f"the batch in step {ids[0]}" if len(ids) == 1 else f"{len(ids)} batches (steps {_listed(ids)})"


def _listed(ids: Iterable[int]) -> str:
    return ", ".join(str(step_id) for step_id in ids)


def _ratio(_: BuildRecord, measured: Measures) -> str:
    if measured.undosed:
        return f"The ratio of {_batches(measured.undosed)} is not said."
    return "" if measured.doses or not measured.reacting else "No mixing ratio is said of any batch."


def _glass(_: BuildRecord, measured: Measures) -> str:
    if measured.unweighed:
        return f"The weight or number of layers is not said in step {_listed(measured.unweighed)}."
    return "" if measured.glass else "No layers of glass are logged."


def _temperature(_: BuildRecord, measured: Measures) -> str:
    return "" if measured.temperatures else "No shop temperature is logged."


def _resin(_: BuildRecord, measured: Measures) -> str:
    return "" if measured.resin_g else "How much laminating resin was mixed is not said of every batch."


def _gel(_: BuildRecord, measured: Measures) -> str:
    return "" if measured.gel_g else "How much gel coat was mixed is not said of every batch."


_LACKING: dict[str, Callable[[BuildRecord, Measures], str]] = {
    named.LITTLE_SECOND: _ratio,
    named.MUCH_SECOND: _ratio,
    named.COLD: _temperature,
    named.HOT: _temperature,
    named.DAMP: lambda _, measured: "" if measured.humidities else "No humidity is logged.",
    named.LOT: lambda _, measured: "" if measured.lots else "No lot number is said of any material.",
    named.HAND: lambda record, _: "" if record.hands else "Who did the work is not recorded.",
    named.THIN_GLASS: _glass,
    named.HEAVY_FIRST: _glass,
    named.LITTLE_RESIN: _resin,
    named.MUCH_RESIN: _resin,
    named.THIN_GEL: _gel,
    named.THICK_GEL: _gel,
}
