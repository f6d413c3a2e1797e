"""Dew point against published values and psychrolib."""

import psychrolib
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from journal.trade.climate import AirLimits, dew_point, fitness, limits_for
from journal.trade.limits import TradeError
from journal.trade.material import Material

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize(
    ("air", "humidity", "dew"),
    [(20, 50, 9.261), (20, 70, 14.362), (25, 65, 17.964), (30, 55, 19.977), (15, 85, 12.498)],
)
def test_dew_points_by_the_magnus_formula(air, humidity, dew):
    # Magnus with a 17.625, b 243.04 degC: Lawrence, BAMS 86(2):225, 2005
    assert dew_point(air, humidity) == pytest.approx(dew, abs=0.001)


@given(st.floats(5, 40), st.floats(20, 100))
def test_psychrolib_agrees_within_a_twentieth_of_a_degree(air, humidity):
    reference = psychrolib.GetTDewPointFromRelHum(air, humidity / 100)
    assume(reference > 0.1)  # below 0 degC psychrolib gives the frost point over ice
    assert dew_point(air, humidity) == pytest.approx(reference, abs=0.05)


def test_the_quick_rule_holds_in_humid_air():
    # Lawrence 2005: 1 degC lower for each 5 % below 100, above 50 %
    assert dew_point(20, 80) == pytest.approx(20 - (100 - 80) / 5, abs=1)


def test_a_cold_damp_shop_is_objected_to():
    # 18 degC or more, 80 % or less: classification society FRP rules, s. 102
    found = fitness(13, 78, surface_c=12, limits=AirLimits())
    assert any("below 18" in words for words in found.objections)
    assert any("dew point" in words for words in found.objections)
    assert fitness(20, 55, None, AirLimits()).objections == ()


@pytest.mark.parametrize(("air", "humidity"), [(90, 50), (20, 0), (20, 101), (float("nan"), 50)])
def test_air_that_no_shop_has_is_refused(air, humidity):
    with pytest.raises(TradeError, match="must be between"):
        dew_point(air, humidity)


def test_a_materials_own_limits_come_before_the_usual_ones_and_what_is_lacking_is_said():
    own = Material("cold epoxy", "epoxy resin", temperature_range_c=(8, 25), humidity_most_percent=70, dew_margin_c=5)
    limits = limits_for(own)
    assert (limits.least_c, limits.most_c, limits.humidity_most, limits.dew_margin_c) == (8, 25, 70, 5)
    assert limits.whose == "the limits of cold epoxy"
    assert fitness(12, 60, None, limits).objections == ()
    assert "above 70 %" in fitness(12, 75, None, limits).objections[0]
    # dew point at 12 degC and 65 % is 5.6 degC by the Magnus formula: 4.4 below a surface at 10
    assert fitness(12, 65, 10, limits).objections == ("the surface is only 4.4 degC above the dew point, 5 at least",)
    assert "2.0 degC below the dew point" in fitness(12, 65, 3.6, limits).objections[0]
    part = limits_for(Material("rubber", "silicone", temperature_range_c=(15, 35)))
    assert part.whose == "the limits of rubber, with the usual humidity and margin above the dew point"
    assert (part.humidity_most, part.dew_margin_c) == (80, 3)


def test_a_material_without_limits_is_held_to_the_usual_ones_and_that_is_said():
    usual, none = limits_for(None), limits_for(Material("wax", "release"))
    assert usual == AirLimits()
    assert usual.whose == "the usual limits for fibre-reinforced plastics"
    assert none.whose == "the usual limits: the catalogue has none of wax"
    assert (none.least_c, none.most_c, none.humidity_most, none.dew_margin_c) == (18, 35, 80, 3)
