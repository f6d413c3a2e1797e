"""Weighing a mix: from any one weight to the others, by weight or through densities by volume.

Weights are grams, densities g/ml, percentages of the main material by weight.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from journal.trade.limits import TradeError, given, positive, within


@dataclass(frozen=True, slots=True)
class MixRatio:
    """Parts in the order main : second (: third), by weight or by volume.

    `densities` (g/ml, one a part) are needed to weigh a ratio by volume. Raises TradeError for
    fewer than two parts, a part of 0 or less, or densities that do not match the parts.
    """

    parts: tuple[float, ...]
    by: str = "weight"
    densities: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        if len(self.parts) < 2:
            raise TradeError("ratio", f"needs two parts or more, got {len(self.parts)}")
        for part in self.parts:
            positive("ratio", part)
        if self.by not in {"weight", "volume"}:
            raise TradeError("by", f"must be weight or volume, got {self.by!r}")
        if self.densities and len(self.densities) != len(self.parts):
            raise TradeError("densities", f"must be {len(self.parts)}, one a part, got {len(self.densities)}")
        for density in self.densities:
            positive("density", density)

    def by_weight(self) -> tuple[float, ...]:
        """Return the parts by weight; for a ratio by volume, part x density (TradeError without densities)."""
        if self.by == "weight":
            return self.parts
        if not self.densities:
            raise TradeError("density", "of each part is needed to weigh a ratio by volume")
        return tuple(part * density for part, density in zip(self.parts, self.densities, strict=True))

    def by_volume(self) -> tuple[float, ...]:
        """Return the parts by volume; for a ratio by weight, part / density (TradeError without densities)."""
        if self.by == "volume":
            return self.parts
        if not self.densities:
            raise TradeError("density", "of each part is needed to measure a ratio by volume")
        return tuple(part / density for part, density in zip(self.parts, self.densities, strict=True))

    def per_hundred(self) -> tuple[float, ...]:
        """Return the later parts by weight per hundred of the first: 100 V_B rho_B / (V_A rho_A)."""
        first, *later = self.by_weight()
        return tuple(100 * part / first for part in later)


@dataclass(frozen=True, slots=True)
class Weighing:
    """What to put on the scale, in grams: one weight a part, as the scale can show it.

    `exact` are the weights before rounding, `deviation_percent` how far rounding moves the
    second part off the ratio.
    """

    weights: tuple[float, ...]
    exact: tuple[float, ...]
    deviation_percent: float

    @property
    def total(self) -> float:
        """The sum of the weights as shown, in grams."""
        return sum(self.weights)


def weigh_from_part(ratio: MixRatio, part: int, grams: float, resolution_g: float = 0.0) -> Weighing:
    """Return the weighing in which part number `part` (0 is the main one) weighs `grams`."""
    weights = ratio.by_weight()
    within("part", part, 0, len(weights) - 1)
    return _weighing(ratio, positive("grams", grams) / weights[part], resolution_g)


def weigh_from_total(ratio: MixRatio, grams: float, resolution_g: float = 0.0) -> Weighing:
    """Return the weighing whose parts add up to `grams`."""
    return _weighing(ratio, positive("total", grams) / sum(ratio.by_weight()), resolution_g)


def weigh_for_area(ratio: MixRatio, area_m2: float, gsm: float, waste_percent: float = 0.0) -> Weighing:
    """Return the weighing that covers `area_m2` at `gsm` grams of mix a square metre, plus waste."""
    waste = within("waste", waste_percent, 0, 100)
    return weigh_from_total(ratio, positive("area", area_m2) * positive("gsm", gsm) * (1 + waste / 100))


def weigh(
    ratio: MixRatio, known: float, of: str = "A", resolution_g: float = 0.0, gsm: float | None = None
) -> Weighing:
    """Return the weighing from the one thing that is known of it.

    `of` says what it is: a part by its letter or the "total", in grams, or the "area" in m2, which takes `gsm`
    grams of mix a square metre.
    """
    letters = "ABCDEF"[: len(ratio.parts)]
    if of.casefold() == "total":
        return weigh_from_total(ratio, known, resolution_g)
    if of.casefold() == "area":
        total = positive("area", known) * given("gsm", gsm)
        return weigh_from_total(ratio, total, resolution_g)
    if len(of) == 1 and of.upper() in letters:
        return weigh_from_part(ratio, letters.index(of.upper()), known, resolution_g)
    raise TradeError("of", f"must be total, area or one of {', '.join(letters)}, got {of!r}")


def measure_from_part(ratio: MixRatio, part: int, ml: float) -> tuple[float, ...]:
    """Return the ml of each part, in measuring cups, when part number `part` (0 is the main one) is `ml`."""
    volumes = ratio.by_volume()
    within("part", part, 0, len(volumes) - 1)
    return tuple(positive("ml", ml) / volumes[part] * each for each in volumes)


def _weighing(ratio: MixRatio, scale: float, resolution_g: float) -> Weighing:
    within("resolution", resolution_g, 0, 1000)
    exact = tuple(scale * part for part in ratio.by_weight())
    shown = tuple(_to_resolution(grams, resolution_g) for grams in exact)
    if min(shown) <= 0:
        raise TradeError("resolution", f"of {resolution_g:g} g is too coarse for {min(exact):.3g} g")
    return Weighing(shown, exact, deviation_percent(ratio, shown)[0])


def _to_resolution(grams: float, resolution_g: float) -> float:
    if not resolution_g:
        return grams
    return round(math.floor(grams / resolution_g + 0.5) * resolution_g, 6)


def deviation_percent(ratio: MixRatio, weights: Sequence[float]) -> tuple[float, ...]:
    """Return how far each later part is off the ratio, in percent of what it should weigh.

    +5.0 means that 5 % too much went in for the weight of the main part.
    """
    parts = ratio.by_weight()
    if len(weights) != len(parts):
        raise TradeError("weights", f"must be {len(parts)}, one a part, got {len(weights)}")
    main = positive("main weight", weights[0])
    wanted = [main * part / parts[0] for part in parts[1:]]
    return tuple(
        100 * (positive("weight", grams) - want) / want for grams, want in zip(weights[1:], wanted, strict=True)
    )


def put_right(ratio: MixRatio, weights: Sequence[float]) -> tuple[float, ...]:
    """Return the grams to add of each part so that the weighing meets the ratio; nothing is taken out.

    The part that is furthest over sets the size of the batch, so its own addition is 0.
    """
    parts = ratio.by_weight()
    deviation_percent(ratio, weights)  # refuses what cannot be weighed
    scale = max(grams / part for grams, part in zip(weights, parts, strict=True))
    return tuple(max(0.0, scale * part - grams) for grams, part in zip(weights, parts, strict=True))


@dataclass(frozen=True, slots=True)
class Verdict:
    """An actual weighing against its ratio: percent that each later part is off, and grams to add of each part.

    `within_tolerance` is None when no tolerance is known.
    """

    deviation_percent: tuple[float, ...]
    to_add_g: tuple[float, ...]
    within_tolerance: bool | None


def judge(ratio: MixRatio, weights: Sequence[float], tolerance_percent: float | None) -> Verdict:
    """Return how far an actual weighing is off the ratio, whether the material bears it, and what puts it right."""
    off = deviation_percent(ratio, weights)
    bears = None
    if tolerance_percent is not None:
        bears = max(abs(percent) for percent in off) <= within("tolerance", tolerance_percent, 0, 100)
    return Verdict(off, put_right(ratio, weights), bears)


def addition(main_g: float, percent: float) -> float:
    """Return the grams of an addition (peroxide, thickener, pigment) given in percent by weight of the main part."""
    return positive("main weight", main_g) * within("percent", percent, 0, 400) / 100


@dataclass(frozen=True, slots=True)
class Batches:
    """How a total is split: `count` batches of `each_g`, and which limit set the size."""

    count: int
    each_g: float
    limited_by: str


def batches(total_g: float, largest_g: float, pot_life_s: float | None = None, g_per_s: float | None = None) -> Batches:
    """Split a total into equal batches that are safe in one pot and can be laid within the pot life.

    `largest_g` is the largest safe batch. With `pot_life_s` and the speed of laying `g_per_s`, a batch
    is no larger than what can be used up in the pot life.
    """
    limits = {"largest safe batch": positive("largest batch", largest_g)}
    if pot_life_s is not None and g_per_s is not None:
        limits["pot life"] = positive("pot life", pot_life_s) * positive("speed", g_per_s)
    limit = min(limits, key=lambda name: limits[name])
    count = math.ceil(positive("total", total_g) / limits[limit] - 1e-9)
    return Batches(count, total_g / count, limit if count > 1 else "none")


def amine_hydrogen_equivalent(molar_mass: float, active_hydrogens: int) -> float:
    """Return AHEW, g per equivalent: molar mass (g/mol) over the number of active hydrogens."""
    return positive("molar mass", molar_mass) / positive("active hydrogens", active_hydrogens)


def hardener_per_hundred(ahew: float, eew: float) -> float:
    """Return grams of amine hardener per 100 g of epoxy: AHEW x 100 / EEW (both g per equivalent)."""
    return positive("AHEW", ahew) * 100 / positive("EEW", eew)


def blend_equivalent(components: Sequence[tuple[float, float | None]]) -> float:
    """Return the equivalent weight of a blend: total mass over the sum of mass / equivalent weight.

    `components` are (grams, equivalent weight); None as the equivalent weight marks an inert part (filler).
    """
    total = sum(positive("grams", grams) for grams, _ in components)
    equivalents = sum(grams / positive("equivalent weight", eq) for grams, eq in components if eq is not None)
    if not equivalents:
        raise TradeError("components", "need one reactive part or more")
    return total / equivalents


def plaster_water(plaster_g: float, consistency: float) -> float:
    """Return grams of water for plaster at a consistency (grams of water per 100 g of plaster)."""
    return positive("plaster", plaster_g) * within("consistency", consistency, 18.6, 200) / 100


def plaster_for_water(water_g: float, consistency: float) -> float:
    """Return grams of plaster for water at a consistency (grams of water per 100 g of plaster)."""
    return 100 * positive("water", water_g) / within("consistency", consistency, 18.6, 200)


def plaster_consistency(water_g: float, plaster_g: float) -> float:
    """Return the consistency of a plaster mix: grams of water per 100 g of plaster."""
    return 100 * positive("water", water_g) / positive("plaster", plaster_g)


def casting_mass(volume_ml: float, density: float | None, waste_percent: float = 0.0) -> float:
    """Return grams to mix for a casting: volume x density x (1 + waste)."""
    waste = within("waste", waste_percent, 0, 100)
    return positive("volume", volume_ml) * given("density", density) * (1 + waste / 100)


def casting_volume(grams: float, density: float | None) -> float:
    """Return the ml that a casting of that weight takes up; with water (1 g/ml), what a filled mould was weighed at."""
    return positive("grams", grams) / given("density", density)
