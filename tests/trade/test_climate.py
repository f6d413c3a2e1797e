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


def test_a_materials_own_limits_come_before_the_usual_ones():
    own = Material("cold epoxy", "epoxy resin", temperature_range_c=(8, 25), humidity_most_percent=70)
    assert limits_for(own) == AirLimits(8, 25, 70)
    assert fitness(12, 65, None, limits_for(own)).objections == ()
    assert "above 70 %" in fitness(12, 75, None, limits_for(own)).objections[0]
    assert limits_for(None) == limits_for(Material("wax", "release")) == AirLimits()
