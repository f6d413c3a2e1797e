"""Glass, resin and thickness: laminate quantities.

Areal weights are g/m2, areas m2, thicknesses mm, densities g/cm3 (the same number as g/ml).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal.trade.limits import TradeError, positive, within

E_GLASS_DENSITY = 2.56  # as used by classification society rules for FRP ships
POLYESTER_DENSITY = 1.20


@dataclass(frozen=True, slots=True)
class Ply:
    """One layer: areal weight in g/m2, glass fraction by weight of the finished layer, how many of it."""

    gsm: float
    glass_fraction: float
    count: int = 1


@dataclass(frozen=True, slots=True)
class Laminate:
    """What a stack of plies takes and makes over an area: grams, mm, and fractions of the whole."""

    glass_g: float
    resin_g: float
    thickness_mm: float
    glass_weight_fraction: float
    glass_volume_fraction: float

    @property
    def weight_g(self) -> float:
        """Glass and resin together, in grams."""
        return self.glass_g + self.resin_g


def volume_fraction(weight_fraction: float, fibre_density: float, matrix_density: float) -> float:
    """Return V_f = (w/rho_f) / (w/rho_f + (1 - w)/rho_m)."""
    w = within("glass fraction", weight_fraction, 0.05, 0.9)
    fibre = w / positive("fibre density", fibre_density)
    return fibre / (fibre + (1 - w) / positive("resin density", matrix_density))


def thickness(gsm: float, weight_fraction: float, fibre_density: float, matrix_density: float) -> float:
    """Return mm of one layer: t = A / (rho_f V_f)."""
    fraction = volume_fraction(weight_fraction, fibre_density, matrix_density)
    return positive("gsm", gsm) / (1000 * fibre_density * fraction)


def resin_gsm(gsm: float, weight_fraction: float) -> float:
    """Return grams of resin a square metre that a layer takes at that glass fraction by weight."""
    w = within("glass fraction", weight_fraction, 0.05, 0.9)
    return positive("gsm", gsm) * (1 - w) / w


def laminate(
    area_m2: float,
    plies: Sequence[Ply],
    resin_density: float = POLYESTER_DENSITY,
    fibre_density: float = E_GLASS_DENSITY,
) -> Laminate:
    """Return what the plies take and make over the area."""
    if not plies:
        raise TradeError("layers", "needs one layer or more")
    area = positive("area", area_m2)
    stack = [(ply, _whole(ply.count)) for ply in plies]
    glass = sum(ply.gsm * n for ply, n in stack)
    resin = sum(resin_gsm(ply.gsm, ply.glass_fraction) * n for ply, n in stack)
    thick = sum(thickness(ply.gsm, ply.glass_fraction, fibre_density, resin_density) * n for ply, n in stack)
    fraction = glass / (glass + resin)
    by_volume = volume_fraction(fraction, fibre_density, resin_density)
    return Laminate(area * glass, area * resin, thick, fraction, by_volume)


def _whole(count: float) -> int:
    if count != int(positive("count", count)):
        raise TradeError("count", f"must be a whole number of layers, got {count:g}")
    return int(count)


def fraction_from_resin(resin_to_glass: float) -> float:
    """Return the glass fraction by weight of a layer that takes `resin_to_glass` g of resin a gram of glass."""
    return 1 / (1 + within("resin to glass", resin_to_glass, 0.12, 19))


def theoretical_density(resin_percent: float, resin_density: float, glass_density: float) -> float:
    """Return T = 100 / (R/D + r/d) in g/cm3, R and r in percent by weight (ASTM D2734)."""
    r = within("resin percent", resin_percent, 1, 99)
    return 100 / (r / positive("resin density", resin_density) + (100 - r) / positive("glass density", glass_density))


def void_content(theoretical: float, measured: float) -> float:
    """Return V = 100 (T - M) / T in percent (ASTM D2734). Below 0 the densities do not belong together."""
    voids = 100 * (positive("theoretical density", theoretical) - positive("measured density", measured)) / theoretical
    if voids < 0:
        raise TradeError("measured density", f"must not be above the theoretical {theoretical:.4g} g/cm3")
    return voids


def glass_by_burn_off(crucible_g: float, before_g: float, after_g: float) -> float:
    """Return the glass content in percent from weights with the crucible: (m3 - m1)/(m2 - m1) x 100."""
    m1, m2, m3 = (positive("weight", grams) for grams in (crucible_g, before_g, after_g))
    if not m1 < m3 <= m2:
        raise TradeError("weights", "must rise from crucible to after burning to before burning")
    return 100 * (m3 - m1) / (m2 - m1)


def gel_coat_gsm(wet_mm: float, density: float) -> float:
    """Return g/m2 of a wet film: mm x density x 1000."""
    return within("wet film", wet_mm, 0.05, 5) * positive("density", density) * 1000


def coverage_sqft_per_us_gallon(thou: float) -> float:
    """Return ft2 that one US gallon covers at a wet film of `thou` thousandths of an inch: 231 in3 / film / 144."""
    return 231 * 1000 / positive("wet film", thou) / 144


def cost(parts: Sequence[tuple[float, float]]) -> float:
    """Return the cost of (kilograms, price a kilogram) pairs, in the prices' currency."""
    return sum(within("kilograms", kg, 0, 1e6) * within("price", price, 0, 1e6) for kg, price in parts)
