"""How well planted causes of failure are found in an invented year, and how often one is named where none was planted.

    python -m tests.bench.explain [--planted YEARS] [--without YEARS] [--strength SHARE]

Years with planted causes: the rank of each among the factors of its fault, counted over all builds of the year, and
its rank where one failed build with it is held against three sound builds of the shop. Years without: the share in
which any factor is named with confidence for any fault; the goal is 5 % or less. Years are drawn from the seeds 1,
2, 3 ... (with) and 1001, 1002 ... (without), so that the figures come out the same each time.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from journal.review.builds import BuildRecord
from journal.review.explain import explain
from journal.review.factors import Pattern, factors, rate
from journal.settings import Settings
from journal.shop import Shop
from journal.trade.material import Catalogue
from samples.make_year import PLANTED_RATE, MadeBuild, Plant, Year, make_year, records_of

WITHOUT_FROM = 1001
COMPARED = 3  # sound builds that a failed one is held against


@dataclass(frozen=True)
class Found:
    """How a planted cause was found: its rank over the year (None: not at all), whether it was named."""

    plant: Plant
    rank: int | None
    confident: bool


def found_in(year: Year, pattern: Pattern) -> list[Found]:
    found = []
    for plant in year.planted:
        listed = [factor for factor in pattern.of(plant.fault) if factor.name.startswith(plant.factor)]
        rank = pattern.of(plant.fault).index(listed[0]) + 1 if listed else None
        found.append(Found(plant, rank, any(factor.confident for factor in listed)))
    return found


def ranks_one_by_one(
    year: Year, records: list[BuildRecord], catalogue: Catalogue
) -> Iterator[tuple[Plant, int | None]]:
    """Yield the rank of each planted cause that can be seen in one build, for each faulty build that has it."""
    sound = [i for i, made in enumerate(year.builds) if not made.quirks and not made.faults]
    for i, made in enumerate(year.builds):
        for plant in year.planted:
            if plant.quirk in made.quirks and plant.fault in made.faults:
                against = [records[j] for j in _nearest(i, sound, year.builds)]
                likely = explain(records[i], against, catalogue).likely
                ranked = [each.factor for each in likely if plant.fault in each.faults]
                named = plant.factor.partition(":")[0]
                yield plant, ranked.index(named) + 1 if named in ranked else None


def _nearest(own: int, sound: list[int], builds: tuple[MadeBuild, ...]) -> list[int]:
    """Return the sound builds to hold a build against: of its own mould first, then the nearest in time."""
    of_kind = [j for j in sound if builds[j].mould % 3 // 2 == builds[own].mould % 3 // 2]
    return sorted(of_kind, key=lambda j: (builds[j].mould != builds[own].mould, abs(j - own)))[:COMPARED]


def catalogue() -> Catalogue:
    return Shop(Settings()).catalogue


def planted_years(years: int, strength: float, materials: Catalogue) -> None:
    over_years: list[Found] = []
    singly: Counter[int | None] = Counter()
    for seed in range(1, years + 1):
        year = make_year(seed, strength=strength)
        records = records_of(year)
        found = found_in(year, factors(records, materials))
        over_years += found
        singly.update(rank for _, rank in ranks_one_by_one(year, records, materials))
        for each in found:
            sure = "named with confidence" if each.confident else "not named with confidence"
            print(f"year {seed}: {each.plant.quirk} -> {each.plant.fault}: rank {each.rank}, {sure}")
    first_two = sum(found.rank in (1, 2) for found in over_years)
    sure = sum(found.confident for found in over_years)
    print(f"Planted causes ranked first or second over the year: {first_two} of {len(over_years)}; named: {sure}")
    total = sum(singly.values())
    print(f"... of one build against {COMPARED} sound ones: {singly[1] + singly[2]} of {total} ({dict(singly)})")


def years_without(years: int, materials: Catalogue) -> None:
    alarms = 0
    for seed in range(WITHOUT_FROM, WITHOUT_FROM + years):
        pattern = factors(records_of(make_year(seed, planted=False)), materials)
        alarms += bool(pattern.named)
        for factor in pattern.named:
            print(f"year {seed}: {factor.name} named for {factor.fault}, p {factor.p_corrected:.3g}")
    share = rate(alarms, years)
    print(f"False alarms: {alarms} of {years} years without planted causes ({share.low:.1%} to {share.high:.1%})")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--planted", type=int, default=20)
    parser.add_argument("--strength", type=float, default=PLANTED_RATE)
    parser.add_argument("--without", type=int, default=100)
    asked = parser.parse_args()
    materials = catalogue()
    planted_years(asked.planted, asked.strength, materials)
    years_without(asked.without, materials)


if __name__ == "__main__":
    main()
