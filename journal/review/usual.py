"""What is usual in some builds: the middle of what they measured. Pure."""

from __future__ import annotations

import statistics
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from journal.review.measures import Measures, Value


@dataclass(frozen=True, slots=True)
class Usual:
    """What is usual in some builds: medians by material and place, and the share of builds with each act."""

    builds: int = 0
    temperature: float | None = None
    humidity: float | None = None
    doses: Mapping[tuple[str, str], float] = field(default_factory=dict)
    glass: Mapping[str, float] = field(default_factory=dict)
    coats: Mapping[str, float] = field(default_factory=dict)
    gel_g: float | None = None
    resin_per_gsm: float | None = None
    made: Mapping[tuple[str, str | None], float] = field(default_factory=dict)

    @property
    def whose(self) -> str:
        """Whose values these are, as words: "the other build's" or "the usual"."""
        return "the other build's" if self.builds == 1 else "the usual"


def usual_of(measured: Sequence[Measures]) -> Usual:
    """Return what is usual in these builds."""
    doses: dict[tuple[str, str], list[float]] = {}
    for each in measured:
        for dose in each.doses:
            doses.setdefault((dose.material, dose.second), []).append(dose.per_hundred.value)
    made = Counter(what for each in measured for what in each.made)
    return Usual(
        builds=len(measured),
        temperature=_median(value.value for each in measured if (value := coldest(each))),
        humidity=_median(value.value for each in measured if (value := dampest(each))),
        doses={key: statistics.median(values) for key, values in doses.items()},
        glass=_medians([each.glass for each in measured]),
        coats=_medians([each.coats for each in measured]),
        gel_g=_median(each.gel_g.value for each in measured if each.gel_g),
        resin_per_gsm=_median(ratio for each in measured if (ratio := resin_per_gsm(each))),
        made={what: count / len(measured) for what, count in made.items()},
    )


def coldest(measured: Measures) -> Value | None:
    """Return the lowest shop temperature, or None when none was logged."""
    return min(measured.temperatures, key=lambda reading: reading.value, default=None)


def dampest(measured: Measures) -> Value | None:
    """Return the highest humidity, or None when none was logged."""
    return max(measured.humidities, key=lambda reading: reading.value, default=None)


def _median(values: Iterable[float]) -> float | None:
    listed = list(values)
    return statistics.median(listed) if listed else None


def _medians(measured: Sequence[Mapping[str, Value]]) -> dict[str, float]:
    names = dict.fromkeys(name for each in measured for name in each)
    return {name: statistics.median(each[name].value for each in measured if name in each) for name in names}


def resin_per_gsm(measured: Measures) -> float | None:
    """Return grams of laminating resin per g/m2 of glass: only to be compared with other builds of that size."""
    glass = most_of(measured.glass)
    return measured.resin_g.value / glass.value if measured.resin_g and glass and glass.value else None


def most_of(values: Mapping[str, Value]) -> Value | None:
    """Return the largest of some values, or None."""
    return max(values.values(), key=lambda each: each.value, default=None)
