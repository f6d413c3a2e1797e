"""Factors as published in NIST Special Publication 811 (2008), Appendix B.8, and as pint has them."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.trade.quantity import CANONICAL, UNITS, convert


@pytest.mark.parametrize(
    ("unit", "factor"),
    [
        # exact by definition, NIST SP 811 Appendix B.8 (printed there to seven figures or exactly)
        ("oz", "28.349523125"),
        ("lb", "453.59237"),
        ("us fl oz", "29.5735295625"),
        ("imperial fl oz", "28.4130625"),
        ("us gallon", "3785.411784"),
        ("imperial gallon", "4546.09"),
        ("us pint", "473.176473"),
        ("imperial pint", "568.26125"),
        ("us quart", "946.352946"),
        ("imperial quart", "1136.5225"),
        ("inch", "25.4"),
        ("foot", "304.8"),
        ("yard", "914.4"),
        ("thou", "0.0254"),
        ("micron", "0.001"),
        ("sq foot", "0.09290304"),
        ("sq yard", "0.83612736"),
        ("sq inch", "0.00064516"),
    ],
)
def test_a_defined_factor_is_exact(unit, factor):
    assert UNITS[unit].factor == Fraction(factor)


@pytest.mark.parametrize(
    ("unit", "factor", "relative"),
    [
        # rounded in NIST SP 811 Appendix B.8 to the figures given
        ("psi", "0.06894757", 1e-7),
        ("inHg", "0.03386389", 1e-7),
        ("oz/yd2", "33.90575", 1e-7),
        ("oz/ft2", "305.1517", 1e-7),
    ],
)
def test_a_derived_factor_agrees_with_the_printed_figures(unit, factor, relative):
    assert float(UNITS[unit].factor) == pytest.approx(float(factor), rel=relative)


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"), [("32", "0"), ("212", "100"), ("-40", "-40"), ("72", "200/9"), ("0", "-160/9")]
)
def test_fahrenheit_is_exact(fahrenheit, celsius):
    assert convert(fahrenheit, "degF") == (Fraction(celsius), "degC")


PINT_NAMES = {
    "g": "gram", "mg": "milligram", "kg": "kilogram", "oz": "ounce", "lb": "pound", "ml": "milliliter",
    "cl": "centiliter",
    "l": "liter", "us fl oz": "fluid_ounce", "us pint": "pint", "us quart": "quart", "us gallon": "gallon",
    "imperial fl oz": "imperial_fluid_ounce", "imperial pint": "imperial_pint", "imperial quart": "imperial_quart",
    "imperial gallon": "imperial_gallon", "micron": "micrometer", "thou": "thou", "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter", "inch": "inch", "foot": "foot", "yard": "yard", "mm2": "millimeter**2", "cm2": "centimeter**2",
    "m2": "meter**2", "sq inch": "inch**2", "sq foot": "foot**2", "sq yard": "yard**2", "g/m2": "gram/meter**2",
    "kg/m2": "kilogram/meter**2", "oz/ft2": "ounce/foot**2", "oz/yd2": "ounce/yard**2", "second": "second",
    "minute": "minute", "hour": "hour", "day": "day", "week": "week", "pascal": "pascal", "kPa": "kilopascal",
    "mbar": "millibar", "bar": "bar", "psi": "psi", "inHg": "inch_Hg", "percent": "percent",
}  # fmt: skip
PINT_CANONICAL = {
    "mass": "gram", "volume": "milliliter", "length": "millimeter", "area": "meter**2", "areal": "gram/meter**2",
    "time": "second", "pressure": "bar", "percent": "percent",
}  # fmt: skip


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", sorted(PINT_NAMES))
def test_a_factor_agrees_with_pint(registry, unit):
    expected = registry.Quantity(1.0, PINT_NAMES[unit]).to(PINT_CANONICAL[UNITS[unit].dimension]).magnitude
    tolerance = 1e-6 if unit == "inHg" else 1e-12  # the inch of mercury has no exact definition
    assert float(UNITS[unit].factor) == pytest.approx(expected, rel=tolerance)


def test_every_unit_of_a_size_is_checked_against_pint():
    assert set(UNITS) - set(PINT_NAMES) == {"degC", "degF", "count", "parts"}


@given(st.fractions(), st.sampled_from(sorted(UNITS)))
def test_a_conversion_is_undone_without_loss(value, name):
    unit = UNITS[name]
    assert unit.from_canonical(unit.to_canonical(value)) == value


def test_each_dimension_has_its_record_unit_with_factor_one():
    for dimension, name in CANONICAL.items():
        unit = next(unit for unit in UNITS.values() if unit.dimension == dimension and unit.factor == 1)
        assert unit.canonical == name


def test_an_unknown_unit_names_the_known_ones():
    with pytest.raises(ValueError, match=r"unknown unit 'stone': use one of .*imperial pint"):
        convert(1, "stone")
