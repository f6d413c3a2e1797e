from fractions import Fraction

import pytest

from journal.read.findings import ConditionSaid
from tests.read.quantities import both, said


def only(text: str, locale: str = "en-GB") -> ConditionSaid:
    (found,) = both("condition", text, locale)
    return found.value


@pytest.mark.parametrize(
    ("text", "kind", "value", "of"),
    [
        ("shop's at nineteen", "temperature", 19, "shop"),
        ("the shop is at 18 degrees", "temperature", 18, "shop"),
        ("nineteen in the shop", "temperature", 19, "shop"),
        ("already twenty-six in the shed", "temperature", 26, "shop"),
        ("it's 21 degrees in here", "temperature", 21, "shop"),
        ("temperature nineteen point two", "temperature", Fraction("19.2"), None),
        ("temp's 21", "temperature", 21, None),
        ("resin at 21 degrees", "temperature", 21, "resin"),
        ("the resin is at 21", "temperature", 21, "resin"),
        ("oven at 60°C", "temperature", 60, "oven"),
        ("oven's at sixty", "temperature", 60, "oven"),
        ("ramp to 60 at two degrees a minute", "temperature", 60, None),
        ("0.3 mm", "thickness", Fraction("0.3"), None),
        ("half a mil of gel coat", "thickness", Fraction("0.5"), None),
        ("20C", "temperature", 20, None),
        ("20 degrees celsius", "temperature", 20, None),
        ("68F", "temperature", 20, None),
        ("oven at a hundred and forty F", "temperature", 60, "oven"),
        ("amb 19.5", "temperature", Fraction("19.5"), "shop"),
        ("12 millimetre foam core", "thickness", 12, None),
        ("three sixteenths thick", "thickness", Fraction("4.7625"), None),
        ("68 degrees fahrenheit", "temperature", 20, None),
        ("minus five degrees", "temperature", -5, None),
        ("heater's on at twenty two", "temperature", 22, None),
        ("post-cured at 100 for four hours", "temperature", 100, None),
        ("it was only fourteen in here so I lit the stove", "temperature", 14, "shop"),
        ("bit nippy, eleven in the shed", "temperature", 11, "shop"),
        ("warmer now, about twenty six", "temperature", 26, "shop"),
        ("temperature in the workshop this morning, sixteen", "temperature", 16, "shop"),
        ("garage is 9 and falling", "temperature", 9, "shop"),
        ("it's down to seventeen now, that's better", "temperature", 17, "shop"),
        ("six hours at eighty", "temperature", 80, None),
        ("damp, ninety on the dial", "humidity", 90, "shop"),
        ("quite damp, seventy percent", "humidity", 70, None),
        ("fifty five percent humidity", "humidity", 55, None),
        ("humidity's 55%", "humidity", 55, None),
        ("humidity fifty five", "humidity", 55, None),
        ("65 RH", "humidity", 65, None),
        ("relative humidity is 55", "humidity", 55, None),
        ("minus nought point nine bar", "vacuum", 900, None),
        ("-0.9 bar", "vacuum", 900, None),
        ("vacuum at 950 millibar", "vacuum", 950, None),
        ("two bar", "pressure", 2, None),
        ("half a millimetre thick", "thickness", Fraction("0.5"), None),
        ("0.5 mm of gel coat", "thickness", Fraction("0.5"), None),
        ("wet film of 20 thou", "thickness", Fraction("0.508"), None),
        ("500 microns", "thickness", Fraction("0.5"), None),
        ("laminate measures 3.1 mm", "thickness", Fraction("3.1"), None),
        ("75 mm overlap", "length", 75, None),
        ("trimmed back to forty mil", "length", 40, None),
        ("three feet long", "length", Fraction("914.4"), None),
        ("the mould is 1.2 square metres", "area", Fraction("1.2"), None),
        ("ten square feet", "area", Fraction("0.9290304"), None),
    ],
)
def test_a_condition_lands_in_its_unit(text, kind, value, of):
    condition = only(text)
    assert (condition.kind, condition.value, condition.of) == (kind, value, of)


@pytest.mark.parametrize(
    ("text", "locale", "celsius"),
    [
        ("shop's at 70 degrees", "en-US", "190/9"),
        ("61 in the shop", "en-US", "145/9"),
        ("resin at 40 degrees", "en-US", "40"),
        ("oven at 140", "en-US", "60"),
        ("post cure 4 hours at 140", "en-US", "60"),
        ("oven at 70 degrees", "en-GB", "70"),
    ],
)
def test_bare_degrees_of_45_and_over_are_fahrenheit_in_an_american_shop(text, locale, celsius):
    assert only(text, locale).value == Fraction(celsius)


@pytest.mark.parametrize("text", ["600 mil total", "five mil balsa core"])
def test_mils_that_no_film_has_are_flagged_in_an_american_shop(text):
    (found,) = said("condition", text, "en-US")
    assert found.flags[0].field == "conditions"


def test_inches_that_a_gauge_fell_are_no_length():
    found = both("condition", "pulled 29 inches on the bag, lost half an inch in ten minutes")
    assert [item.value.kind for item in found] == ["vacuum"]


def test_inches_of_mercury_are_a_vacuum():
    """28 inHg at 33.86389 mbar each (NIST SP 811 Appendix B.8): 948.19 mbar."""
    for text in (
        "28 inches of mercury",
        "pulled 28 inches of vacuum",
        "28 inHg",
        "minus 28 inches",
        "vacuum gauge at 28 inches",
    ):
        assert float(only(text).value) == pytest.approx(948.18892)
        assert only(text).kind == "vacuum"


def test_thirty_psi_is_pressure_in_bar():
    """1 psi is 6894.757 Pa (NIST SP 811 Appendix B.8)."""
    assert float(only("30 psi on the gun").value) == pytest.approx(2.0684271)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("vacuum at 1.2 bar", "more than a full vacuum"),
        ("vac down to 20 millibar", "may be absolute"),
        ("vacuum at 50 millibar absolute", "an absolute pressure was said"),
        ("18 to 22 degrees in the shop", "a range was said"),
        ("20 mil wet film", "may mean"),
    ],
)
def test_a_doubt_is_flagged(text, why):
    (found,) = said("condition", text)
    assert any(why in flag.why for flag in found.flags)
    assert {flag.field for flag in found.flags} == {"conditions"}


@pytest.mark.parametrize(
    "text",
    ["2 inch brush", "45 degree biax", "two percent catalyst", "mixed at 100 to 28", "cured at room temp",
     "two square metres of cloth", "at ten past two", "cured for two hours", "in the shop at two",
     "there are three in the shed",
     "it's going twelve metres up"],
)  # fmt: skip
def test_what_is_no_condition_is_none(text):
    assert both("condition", text) == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("30 by 40 millimetres", [("length", 30), ("length", 40)]),
        ("Shop fifteen. Seventy percent.", [("temperature", 15), ("humidity", 70)]),
        ("humidity fifty eight, shop nineteen", [("humidity", 58), ("temperature", 19)]),
        ("clean room's at 20.5, forty-eight percent", [("temperature", Fraction("20.5")), ("humidity", 48)]),
        ("20 degrees, mould surface 19.8", [("temperature", 20), ("temperature", Fraction("19.8"))]),
        ("dew point's 9 degrees, humidity 70", [("humidity", 70)]),
        ("gauge says 10 inches", [("vacuum", Fraction("338.6389"))]),
        ("it is warped one millimetre", [("length", 1)]),
        ("two more coats, it's a good 6 mm over the nose now", [("thickness", 6)]),
    ],
)
def test_what_is_said_beside_a_condition_is_one_too(text, expected):
    assert [(item.value.kind, item.value.value) for item in both("condition", text)] == expected


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("opened it with air, 2 bar", 2),
        ("6 bar of air in the port side", 6),
        ("sprayed it at 0.8 bar", Fraction("0.8")),
        ("half a bar of air and it lifted", Fraction("0.5")),
        ("into the pressure pot at 4 bar", 4),
        ("blew it dry with air at 3 bar, then bagged it", 3),
    ],
)
def test_air_that_opens_or_sprays_is_pressure(text, value):
    assert (only(text).kind, only(text).value) == ("pressure", value)


@pytest.mark.parametrize(
    "text", ["sucked the air out, 0.9 bar", "bag's down at 0.9 bar", "pulled 0.9 bar", "0.9 bar of vacuum on the line"]
)
def test_air_drawn_out_is_vacuum(text):
    assert (only(text).kind, only(text).value) == ("vacuum", 900)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("a clay wall 50 mm high", "length", 50),
        ("the frame half an inch off the skin", "length", Fraction("12.7")),
        ("stood 10 mm clear of the coat", "length", 10),
        ("poured to an inch above the nose", "length", Fraction("25.4")),
        ("buttered it on to 8 mm over the nose", "thickness", 8),
        ("trowelled to 10 mm across the back", "thickness", 10),
        ("half an inch of plaster all over", "thickness", Fraction("12.7")),
        ("slushed the wax to about five mil", "thickness", 5),
        ("three coats of gel, 0.8 of a mil all up", "thickness", Fraction("0.8")),
        ("box of 18 mm ply", "thickness", 18),
        ("the wall's about five millimetres", "thickness", 5),
        ("measured it, 4.2 mm at the flange", "thickness", Fraction("4.2")),
        ("measured the crack, 40 mm", "length", 40),
        ("laid up to 6 mm", "thickness", 6),
    ],
)
def test_a_size_is_a_thickness_where_stuff_was_laid_so(text, kind, value):
    assert (only(text).kind, only(text).value) == (kind, value)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("walls next, 60 high", "length", 60),
        ("the jacket's 12 thick", "thickness", 12),
        ("pulled it down to minus 0.95, holding", "vacuum", 950),
    ],
)
def test_a_size_or_vacuum_without_a_unit_is_taken_and_flagged(text, kind, value):
    (found,) = both("condition", text)
    assert (found.value.kind, found.value.value) == (kind, value)
    assert any("no unit was said" in flag.why for flag in found.flags)


@pytest.mark.parametrize(
    ("text", "value", "of"),
    [
        ("it dropped to 12 overnight", 12, "shop"),
        ("shed at 29, so quick", 29, "shop"),
        ("out after 25 minutes, mould at 22", 22, "mould"),
        ("mould was still warm, 38", 38, "mould"),
        ("next time I pour it at eighty two", 82, None),
        ("heated the wax to 75", 75, None),
        ("exotherm peaked at 92", 92, "resin"),
        ("it's 14 in the lab today", 14, "shop"),
        ("stinking hot thirty four in the shed", 34, "shop"),
        ("kept it at 25 overnight", 25, None),
        ("garage only got to 12 today", 12, "shop"),
        ("took it to 60 over two hours", 60, None),
        ("brought it up slow to 45 and left it there overnight", 45, None),
        ("it's sitting at sixty-two on the surface", 62, "mould"),
        ("480 grams to 57 of hardener, resin at twenty-three", 23, "resin"),
    ],
)
def test_a_bare_number_is_the_warmth_of_what_is_named(text, value, of):
    assert (only(text).kind, only(text).value, only(text).of) == ("temperature", value, of)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("shop 19, resin 22", [19, 22]),
        ("post cure 60 for four hours, then 80 for two", [60, 80]),
        ("resin at 400, hardener at 112", []),
        ("resin at 20, hardener at 5", []),
        ("poured it at 6", []),
        ("shed at 8", []),
        ("vacuum's holding at 28, no leaks", []),
    ],
)
def test_listed_temperatures_are_read_and_weights_and_hours_left_alone(text, expected):
    assert [item.value.value for item in both("condition", text)] == expected


def test_two_places_each_keep_their_temperature():
    first, second = both("condition", "The shop is at 18 degrees and the resin is at 21.")
    assert (first.value.of, first.value.value) == ("shop", 18)
    assert (second.value.of, second.value.value) == ("resin", 21)


@pytest.mark.parametrize(
    "text",
    ["it's only 300 so one more coat", "it was only about sixty grams", "sanded it with 240",
     "cold today so gave it 20",
     "back to it at two", "the shop has 12 clamps"],
)  # fmt: skip
def test_a_number_that_tells_no_weather_is_no_temperature(text):
    assert both("condition", text) == []


def test_a_second_thickness_needs_no_word_for_it():
    first, second = both("condition", "thickness 3.4 mm on the crown, 5 mm at the skirt")
    assert [(item.value.kind, item.value.value) for item in (first, second)] == [
        ("thickness", Fraction("3.4")), ("thickness", 5),
    ]  # fmt: skip
