"""The air and the surface: dew point, and whether the shop is fit to work in.

Temperatures are degrees Celsius, humidity is relative, in percent.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from journal.trade.limits import within
from journal.trade.material import Material

MAGNUS_A, MAGNUS_B = 17.625, 243.04  # Alduchov and Eskridge 1996, as used by Lawrence, BAMS 86(2):225, 2005
LEAST_MARGIN_C = 3.0  # surface above the dew point: common practice; ISO 8502-4 gives guidance on condensation


def dew_point(air_c: float, humidity_percent: float) -> float:
    """Return the dew point in degC by the Magnus formula; air -40 to 60 degC, humidity 1 to 100 %."""
    air = within("air temperature", air_c, -40, 60)
    humidity = within("humidity", humidity_percent, 1, 100)
    gamma = math.log(humidity / 100) + MAGNUS_A * air / (MAGNUS_B + air)
    return MAGNUS_B * gamma / (MAGNUS_A - gamma)


@dataclass(frozen=True, slots=True)
class Fitness:
    """The shop's air against a material: the dew point, the surface's margin above it, and what stands against it."""

    dew_point_c: float
    margin_c: float
    objections: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AirLimits:
    """The limits to hold: least and most degC, most percent humidity, least degC of the surface above the dew point.

    The defaults (18 degC or more, 80 % or less) are a classification society's rules for FRP. `lacking` names what
    the catalogue does not state of the material meant, so that the default stands in.
    """

    least_c: float = 18.0
    most_c: float = 35.0
    humidity_most: float = 80.0
    dew_margin_c: float = LEAST_MARGIN_C
    material: str | None = None
    lacking: tuple[str, ...] = ()

    @property
    def whose(self) -> str:
        """Whose limits they are, in words, with what the catalogue lacks of them."""
        if self.material is None:
            return "the usual limits for fibre-reinforced plastics"
        if self.none_stated:
            return f"the usual limits: the catalogue has none of {self.material}"
        lacking = f", with the usual {' and '.join(self.lacking)}" if self.lacking else ""
        return f"the limits of {self.material}{lacking}"

    @property
    def none_stated(self) -> bool:
        """Whether the catalogue states no limit of the material meant."""
        return len(self.lacking) == len(_LIMITS)


_LIMITS = ("temperature", "humidity", "margin above the dew point")


def limits_for(material: Material | None) -> AirLimits:
    """Return a material's own limits; where the catalogue states none, the usual ones, named as lacking."""
    usual = AirLimits()
    if material is None:
        return usual
    least, most = material.temperature_range_c or (usual.least_c, usual.most_c)
    stated = (material.temperature_range_c, material.humidity_most_percent, material.dew_margin_c)
    return AirLimits(
        least,
        most,
        material.humidity_most_percent or usual.humidity_most,
        material.dew_margin_c or usual.dew_margin_c,
        material.name,
        tuple(name for name, value in zip(_LIMITS, stated, strict=True) if value is None),
    )


def fitness(air_c: float, humidity_percent: float, surface_c: float | None, limits: AirLimits) -> Fitness:
    """Return whether air and surface are fit for the material; the surface is taken as the air's when not given."""
    dew = dew_point(air_c, humidity_percent)
    surface = air_c if surface_c is None else within("surface temperature", surface_c, -40, 120)
    checks = (
        (air_c < limits.least_c, f"{air_c:g} degC is below {limits.least_c:g}"),
        (air_c > limits.most_c, f"{air_c:g} degC is above {limits.most_c:g}"),
        (
            humidity_percent > limits.humidity_most,
            f"{humidity_percent:g} % is above {limits.humidity_most:g} %",
        ),
        (surface - dew < limits.dew_margin_c, _too_near(surface - dew, limits.dew_margin_c)),
    )
    return Fitness(dew, surface - dew, tuple(words for wrong, words in checks if wrong))


def _too_near(margin: float, least: float) -> str:
    side = f"only {margin:.1f} degC above" if margin >= 0 else f"{-margin:.1f} degC below"
    return f"the surface is {side} the dew point, {least:g} at least"
