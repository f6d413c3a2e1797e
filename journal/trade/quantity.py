"""Units of the trade as exact fractions of the record's units.

Factors are exact by definition unless marked, from NIST Special Publication 811 (2008), Appendix B:
"Conversion factors". The record's units are g, ml, mm, m2, g/m2, s, degC, bar, percent and count.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Dimension = Literal[
    "mass", "volume", "length", "area", "areal", "time", "temperature", "pressure", "percent", "count", "parts"
]  # fmt: skip

CANONICAL: dict[Dimension, str] = {
    "mass": "g", "volume": "ml", "length": "mm", "area": "m2", "areal": "g/m2", "time": "s",
    "temperature": "degC", "pressure": "bar", "percent": "percent", "count": "count", "parts": "parts",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: canonical value = (value - zero) x factor. `zero` is 0 but for degrees Fahrenheit."""

    name: str
    dimension: Dimension
    factor: Fraction = Fraction(1)
    zero: Fraction = Fraction(0)

    @property
    def canonical(self) -> str:
        """The record's unit for this dimension."""
        return CANONICAL[self.dimension]

    def to_canonical(self, value: Fraction) -> Fraction:
        """Return the value, said in this unit, in the record's unit of its dimension."""
        return (value - self.zero) * self.factor

    def from_canonical(self, value: Fraction) -> Fraction:
        """Return a value in the record's unit in this unit."""
        return value / self.factor + self.zero


_POUND_G = Fraction("453.59237")
_OUNCE_G = _POUND_G / 16
_INCH_MM = Fraction("25.4")
_FOOT_M = Fraction("0.3048")
_YARD_M = Fraction("0.9144")
_US_GALLON_ML = Fraction("3785.411784")  # 231 cubic inches
_IMPERIAL_GALLON_ML = Fraction("4546.09")
_PSI_BAR = Fraction("0.45359237") * Fraction("9.80665") / Fraction("0.0254") ** 2 / 100_000
_INHG_BAR = Fraction("3386.389") / 100_000  # conventional inch of mercury: rounded in SP 811, not exact

UNITS: dict[str, Unit] = {
    unit.name: unit
    for unit in (
        Unit("mg", "mass", Fraction(1, 1000)),
        Unit("g", "mass"),
        Unit("kg", "mass", Fraction(1000)),
        Unit("oz", "mass", _OUNCE_G),
        Unit("lb", "mass", _POUND_G),
        Unit("ml", "volume"),
        Unit("cl", "volume", Fraction(10)),
        Unit("l", "volume", Fraction(1000)),
        Unit("us fl oz", "volume", _US_GALLON_ML / 128),
        Unit("us pint", "volume", _US_GALLON_ML / 8),
        Unit("us quart", "volume", _US_GALLON_ML / 4),
        Unit("us gallon", "volume", _US_GALLON_ML),
        Unit("imperial fl oz", "volume", _IMPERIAL_GALLON_ML / 160),
        Unit("imperial pint", "volume", _IMPERIAL_GALLON_ML / 8),
        Unit("imperial quart", "volume", _IMPERIAL_GALLON_ML / 4),
        Unit("imperial gallon", "volume", _IMPERIAL_GALLON_ML),
        Unit("micron", "length", Fraction(1, 1000)),
        Unit("thou", "length", _INCH_MM / 1000),
        Unit("mm", "length"),
        Unit("cm", "length", Fraction(10)),
        Unit("m", "length", Fraction(1000)),
        Unit("inch", "length", _INCH_MM),
        Unit("foot", "length", _FOOT_M * 1000),
        Unit("yard", "length", _YARD_M * 1000),
        Unit("mm2", "area", Fraction(1, 1_000_000)),
        Unit("cm2", "area", Fraction(1, 10_000)),
        Unit("m2", "area"),
        Unit("sq inch", "area", (_INCH_MM / 1000) ** 2),
        Unit("sq foot", "area", _FOOT_M**2),
        Unit("sq yard", "area", _YARD_M**2),
        Unit("g/m2", "areal"),
        Unit("kg/m2", "areal", Fraction(1000)),
        Unit("oz/ft2", "areal", _OUNCE_G / _FOOT_M**2),
        Unit("oz/yd2", "areal", _OUNCE_G / _YARD_M**2),
        Unit("second", "time"),
        Unit("minute", "time", Fraction(60)),
        Unit("hour", "time", Fraction(3600)),
        Unit("day", "time", Fraction(86_400)),
        Unit("week", "time", Fraction(604_800)),
        Unit("degC", "temperature"),
        Unit("degF", "temperature", Fraction(5, 9), Fraction(32)),
        Unit("pascal", "pressure", Fraction(1, 100_000)),
        Unit("kPa", "pressure", Fraction(1, 100)),
        Unit("mbar", "pressure", Fraction(1, 1000)),
        Unit("bar", "pressure"),
        Unit("psi", "pressure", _PSI_BAR),
        Unit("inHg", "pressure", _INHG_BAR),
        Unit("percent", "percent"),
        Unit("count", "count"),
        Unit("parts", "parts"),
    )
}


def convert(value: Fraction | int | str, unit: str) -> tuple[Fraction, str]:
    """Return the exact value in the record's unit, and that unit's name.

    Raises ValueError for a unit that is not in UNITS.
    """
    found = UNITS.get(unit)
    if found is None:
        raise ValueError(f"unknown unit {unit!r}: use one of {', '.join(sorted(UNITS))}")
    return found.to_canonical(Fraction(value)), found.canonical
