"""What goes with a fault over many builds: rates with and without each factor, exact tests, intervals. Pure.

Each factor is a trait (`journal.review.traits`) that some builds show. Its table is tested with Fisher's exact test,
two-sided. The p values of one report are corrected after Holm (Scandinavian Journal of Statistics 6, 1979) in two
lists that share `ALPHA` evenly: the usual causes of each fault, and everything else. So the chance of naming any
factor wrongly stays below `ALPHA`, whatever depends on what, and what the trade knows already is found sooner. Rates
carry Wilson's interval (Journal of the American Statistical Association 22, 1927). What goes together need not be
the cause.
"""

from __future__ import annotations

import functools
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scipy import stats

from journal.review.builds import BuildRecord, faults_of
from journal.review.causes import usual_cause
from journal.review.measures import measure
from journal.review.traits import Trait, traits_of
from journal.review.usual import usual_of
from journal.trade.material import Catalogue

ALPHA = 0.05
CONFIDENCE = 0.95
FAILED = "failed"  # the outcome, beside the kinds of fault
_ALIKE = 0.6  # a phi coefficient from which two factors cannot be told apart: our choice


@dataclass(frozen=True, slots=True)
class Rate:
    """How many of some builds had a fault; `low` and `high` are Wilson's interval of the rate, 0 to 1."""

    faulty: int
    builds: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """The rate, 0 to 1; 0 when there are no builds."""
        return self.faulty / self.builds if self.builds else 0.0


@dataclass(frozen=True, slots=True)
class Factor:
    """A factor and a kind of fault over many builds: the rate with and without it, and how sure the record is.

    `p` is Fisher's exact p value, `p_corrected` that after Holm's correction for all factors of the report; None
    where so few builds have or lack the factor that no outcome could have been told from chance. `alike` are other
    factors that nearly always come with it: the record cannot say which of them it is. `usual` says why it is a
    usual cause of that fault, and whose knowledge that is; "" when it is none.
    """

    name: str
    fault: str
    with_it: Rate
    without_it: Rate
    p: float
    p_corrected: float | None
    builds: tuple[str, ...]
    alike: tuple[str, ...] = ()
    usual: str = ""

    @property
    def confident(self) -> bool:
        """Whether it is more often faulty with the factor, beyond chance."""
        sure = self.p_corrected is not None and self.p_corrected < ALPHA
        return sure and self.with_it.share > self.without_it.share


@dataclass(frozen=True, slots=True)
class Pattern:
    """What goes with each fault in these builds: factors, the likeliest first, and a warning where builds are few."""

    builds: int
    factors: tuple[Factor, ...]
    tested: int
    warnings: tuple[str, ...]

    def of(self, fault: str) -> tuple[Factor, ...]:
        """Return the factors of one kind of fault, the likeliest first."""
        return tuple(factor for factor in self.factors if factor.fault == fault)

    @property
    def rising(self) -> tuple[Factor, ...]:
        """The factors with which a fault was more frequent than without, whether or not by chance."""
        return tuple(factor for factor in self.factors if factor.with_it.share > factor.without_it.share)

    @property
    def named(self) -> tuple[Factor, ...]:
        """The factors named with confidence."""
        return tuple(factor for factor in self.factors if factor.confident)


@functools.lru_cache(maxsize=100_000)
def fisher(with_it: tuple[int, int], without_it: tuple[int, int], alternative: str = "two-sided") -> float:
    """Return Fisher's exact p value of (faulty, sound) with and without a factor."""
    return float(stats.fisher_exact([list(with_it), list(without_it)], alternative=alternative).pvalue)


@functools.lru_cache(maxsize=100_000)
def rate(faulty: int, builds: int) -> Rate:
    """Return a rate with Wilson's interval; with no builds it is anything from 0 to 1."""
    if not builds:
        return Rate(0, 0, 0.0, 1.0)
    interval = stats.binomtest(faulty, builds).proportion_ci(CONFIDENCE, method="wilson")
    return Rate(faulty, builds, float(interval.low), float(interval.high))


@functools.lru_cache(maxsize=100_000)
def least_p(with_it: int, builds: int, faulty: int) -> float:
    """Return the smallest p value that these margins allow: when as many faulty builds as can be have the factor."""
    both = min(with_it, faulty)
    most = fisher((both, with_it - both), (faulty - both, builds - with_it - faulty + both))
    none = max(0, with_it + faulty - builds)
    fewest = fisher((none, with_it - none), (faulty - none, builds - with_it - faulty + none))
    return min(most, fewest)


def holm(values: Sequence[float]) -> list[float]:
    """Return p values corrected after Holm, in the order given: step-down, never falling, at most 1."""
    corrected, so_far = [0.0] * len(values), 0.0
    for rank, i in enumerate(sorted(range(len(values)), key=lambda i: values[i])):
        so_far = max(so_far, min(1.0, (len(values) - rank) * values[i]))
        corrected[i] = so_far
    return corrected


def factors(records: Sequence[BuildRecord], catalogue: Catalogue) -> Pattern:
    """Return what goes with each kind of fault, and with failing, in builds whose outcome is known."""
    ended = [record for record in records if record.build.outcome != "under way"]
    measured = [measure(record, catalogue) for record in ended]
    usual = usual_of(measured) if measured else None
    traits = [traits_of(each, usual, catalogue) for each in measured] if usual else []
    faults = [{fault.kind for fault in faults_of(record)} | _failed(record) for record in ended]
    return pattern([record.key for record in ended], traits, faults)


def _failed(record: BuildRecord) -> set[str]:
    return {FAILED} if record.build.outcome == "failed" else set()


def pattern(keys: Sequence[str], traits: Sequence[Iterable[Trait]], faults: Sequence[set[str]]) -> Pattern:
    """Return what goes with each fault; traits that pass no limit are no factors. The three run side by side."""
    having: dict[str, set[int]] = defaultdict(set)
    subjects: dict[str, tuple[str, str]] = {}
    for i, shown in enumerate(traits):
        for trait in shown:
            if trait.beyond:
                having[trait.name].add(i)
                subjects[trait.name] = trait.factor, trait.subject
    faulty: dict[str, set[int]] = defaultdict(set)
    for i, kinds in enumerate(faults):
        for kind in kinds:
            faulty[kind].add(i)
    found = [_factor(name, kind, having[name], faulty[kind], keys) for kind in faulty for name in having]
    usual = [usual_cause(factor.fault, *subjects[factor.name]) for factor in found]
    testable = [i for i, factor in enumerate(found) if _could_tell(factor, len(keys))]
    corrected = _corrected([found[i].p for i in testable], [usual[i] is not None for i in testable])
    by_number = dict(zip(testable, corrected, strict=True))
    alike = {name: _alike(name, having, len(keys)) for name in having}
    settled = [
        replace(
            factor,
            p_corrected=by_number.get(i),
            alike=alike[factor.name],
            usual=f"{cause.why} ({cause.source})" if (cause := usual[i]) else "",
        )
        for i, factor in enumerate(found)
    ]
    settled.sort(key=_rank)
    return Pattern(len(keys), tuple(settled), len(testable), tuple(_warnings(settled, faulty, len(keys))))


def _factor(name: str, kind: str, having: set[int], faulty: set[int], keys: Sequence[str]) -> Factor:
    both, total = len(having & faulty), len(keys)
    with_it, without_it = (both, len(having) - both), (len(faulty) - both, total - len(having) - len(faulty) + both)
    return Factor(
        name, kind, rate(both, len(having)), rate(without_it[0], total - len(having)), fisher(with_it, without_it),
        None, tuple(keys[i] for i in sorted(having & faulty)),
    )  # fmt: skip


def _least_p(factor: Factor, builds: int) -> float:
    return least_p(factor.with_it.builds, builds, factor.with_it.faulty + factor.without_it.faulty)


def _could_tell(factor: Factor, builds: int) -> bool:
    """Return whether these margins could show anything; they are fixed before it is seen who failed with what."""
    return _least_p(factor, builds) < ALPHA


def _corrected(values: Sequence[float], usual: Sequence[bool]) -> list[float]:
    """Return p values corrected in two lists, usual causes and the rest; each list has half of ALPHA."""
    out = [1.0] * len(values)
    for kind in (True, False):
        listed = [i for i, each in enumerate(usual) if each is kind]
        for i, p in zip(listed, holm([values[i] for i in listed]), strict=True):
            out[i] = min(1.0, 2 * p)
    return out


def _rank(factor: Factor) -> tuple[bool, float, float]:
    return factor.with_it.share <= factor.without_it.share, factor.p, factor.without_it.share - factor.with_it.share


def _alike(name: str, having: dict[str, set[int]], total: int) -> tuple[str, ...]:
    """Return the other factors whose phi coefficient with this one is high."""
    own = having[name]
    return tuple(other for other, builds in having.items() if other != name and _phi(own, builds, total) >= _ALIKE)


def _phi(one: set[int], other: set[int], total: int) -> float:
    spread = len(one) * (total - len(one)) * len(other) * (total - len(other))
    return (total * len(one & other) - len(one) * len(other)) / spread**0.5 if spread else 0.0


def _warnings(found: Sequence[Factor], faulty: dict[str, set[int]], total: int) -> Iterable[str]:
    """Warn of faults of which no factor could have been named, however the builds had fallen out."""
    if not faulty:
        yield f"Nothing to count: {total} builds have an outcome, and none of them a fault or a failure."
    tested = Counter(bool(factor.usual) for factor in found if factor.p_corrected is not None)
    for kind, builds in faulty.items():
        best = [
            2 * tested[bool(f.usual)] * _least_p(f, total)
            for f in found
            if f.fault == kind and f.p_corrected is not None
        ]
        if min(best, default=1.0) >= ALPHA:
            yield (
                f"Too few builds to say what goes with {kind}: {len(builds)} of {total} show it, and whatever they had"
                " in common could be chance. Compare them one by one."
            )
