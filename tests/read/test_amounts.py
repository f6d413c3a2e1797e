from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from journal.read.findings import Amount
from journal.trade.quantity import UNITS
from tests.read.quantities import both, said

OZ, LB, PINT, US_PINT = (UNITS[name].factor for name in ("oz", "lb", "imperial pint", "us pint"))


def only(text: str, locale: str = "en-GB") -> Amount:
    (found,) = both("amount", text, locale)
    return found.value


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("four hundred grams of resin", 400, "g"),
        ("400g of resin", 400, "g"),
        ("400 grammes", 400, "g"),
        ("1.5kg of plaster", 1500, "g"),
        ("two kay gees of plaster", 2000, "g"),
        ("0,5 kg of epoxy", 500, "g"),
        ("one comma two kilos of rubber", 1200, "g"),
        ("three parts per hundred of fumed silica", 3, "percent"),
        ("one kilo two hundred of silicone", 1200, "g"),
        ("a kilo and a half of clay", 1500, "g"),
        ("one and a half kilos of clay", 1500, "g"),
        ("two and three quarter pounds of plaster", Fraction("2.75") * LB, "g"),
        ("one pound four ounces", 20 * OZ, "g"),
        ("one pound six of part B", 22 * OZ, "g"),
        ("2 lb 4 oz of plaster", 36 * OZ, "g"),
        ("12 oz of resin", 12 * OZ, "g"),
        ("half a pound", LB / 2, "g"),
        ("a pound and a half", LB * 3 / 2, "g"),
        ("half a litre of water", 500, "ml"),
        ("a quarter of a pint of water", PINT / 4, "ml"),
        ("quarter of a pint", PINT / 4, "ml"),
        ("half a dozen litres", 6000, "ml"),
        ("10cc of catalyst", 10, "ml"),
        ("10 mil of catalyst", 10, "ml"),
        ("ten mils of catalyst", 10, "ml"),
        ("500mL of water", 500, "ml"),
        ("another litre of water", 1000, "ml"),
        ("gallon of polyester", UNITS["imperial gallon"].factor, "ml"),
        ("two percent catalyst", 2, "percent"),
        ("1.5% catalyst", Fraction("1.5"), "percent"),
        ("one and a half per cent of pigment", Fraction("1.5"), "percent"),
        ("two square metres of cloth", 2, "m2"),
        ("three mixing pots", 3, "count"),
        ("two chip brushes", 2, "count"),
        ("six drops of pigment", 6, "count"),
        ("a teaspoon of pigment", 1, "count"),
        ("2 bags", 2, "count"),
        ("one brush", 1, "count"),
        ("three fifty grams", 350, "g"),
        ("a hundred and twelve grams", 112, "g"),
        ("101.5 g", Fraction("101.5"), "g"),
        ("one oh one point five grams", Fraction("101.5"), "g"),
        ("600 grams of mat", 600, "g"),
        ("one point four kilos tin silicone", 1400, "g"),
        ("20 grams per kilo of cobalt", 2, "percent"),
        ("15 g to the kilo", Fraction("1.5"), "percent"),
        ("ten ml a litre of hardener", 1, "percent"),
    ],
)
def test_an_amount_lands_in_the_records_unit(text, value, unit):
    amount = only(text)
    assert (amount.low, amount.high, amount.unit) == (value, value, unit)


@pytest.mark.parametrize(
    ("text", "british", "american"),
    [
        ("a pint of water", "568.26125", "473.176473"),
        ("two quarts of water", "2273.045", "1892.705892"),
        ("3 gallons of water", "13638.27", "11356.235352"),
        ("four fl oz of hardener", "113.65225", "118.29411825"),
        ("four fluid ounces of hardener", "113.65225", "118.29411825"),
    ],
)
def test_pints_and_their_kind_follow_the_dialect(text, british, american):
    """Factors: NIST SP 811 Appendix B.8."""
    assert only(text).low == Fraction(british)
    assert only(text, "en-US").low == Fraction(american)


@pytest.mark.parametrize(("text", "value"), [("a US pint of water", US_PINT), ("an imperial pint of water", PINT)])
def test_a_pint_that_says_whose_it_is_needs_no_dialect(text, value):
    assert only(text).low == only(text, "en-US").low == value


def test_ounces_by_volume_are_fluid():
    first, second = both("amount", "33 ounces of resin and 11 of hardener by volume", "en-US")
    assert first.value.low == 33 * UNITS["us fl oz"].factor
    assert second.value.unit is None


@pytest.mark.parametrize(
    ("text", "bound"),
    [
        ("at least 400 grams", "least"),
        ("no less than 400 grams", "least"),
        ("400 grams minimum", "least"),
        ("400 grams or more", "least"),
        ("over 400 grams", "least"),
        ("up to 400 grams", "most"),
        ("no more than 400 grams", "most"),
        ("400 grams max", "most"),
        ("under 400 grams", "most"),
        ("don't mix more than 400 grams", "most"),
        ("never over 400 grams", "most"),
        ("400 grams at the very most", "most"),
        ("poured 400 grams over the mould", None),
        ("400 grams, at least 20 minutes of stirring", None),
    ],
)
def test_a_limit_is_kept(text, bound):
    amount = only(text)
    assert (amount.low, amount.bound) == (400, bound)


@pytest.mark.parametrize("text", ["about 400 grams", "400 grams or so", "400-ish grams", "400 grams give or take ten"])
def test_a_rough_amount_is_marked(text):
    assert only(text).approximate
    assert only(text).low == 400


def test_a_range_of_amounts_keeps_both_ends():
    for text in ("200 to 250 grams", "200 g to 250 g", "between 200 and 250 grams", "200-250g"):
        assert (only(text).low, only(text).high) == (200, 250)


@pytest.mark.parametrize("text", ["112 of hardener", "with 112 of hardener", "hardener 112", "gel coat 112"])
def test_an_amount_without_a_unit_has_none(text):
    (found,) = both("amount", text)
    assert (found.value.low, found.value.unit, found.rule) == (112, None, "amounts.bare")
    assert found.confidence < 0.9


@pytest.mark.parametrize(
    ("text", "gsm"),
    [
        ("450 gram mat", "450"),
        ("two layers of 450 gram mat", "450"),
        ("six hundred gsm woven roving", "600"),
        ("450gsm", "450"),
        ("450 grammes per square metre", "450"),
        ("300g/m2", "300"),
        ("300 g/m²", "300"),
        ("two layers of 450", "450"),
        ("450 mat", "450"),
        ("30 gram tissue", "30"),
        ("1st layer 300", "300"),
        ("2 x 450", "450"),
        ("biax now, 600 gram, three plies of it", "600"),
        # oz/ft2 and oz/yd2 from NIST SP 811 Appendix B.8; which goes with which is common practice
        ("1.5 oz mat", "457.7276"),
        ("1 1/2 ounce mat", "457.7276"),
        ("ounce and a half mat", "457.7276"),
        ("one and a half ounces per square foot", "457.7276"),
        ("ten ounce cloth", "339.0575"),
        ("10 oz per square yard", "339.0575"),
        ("24 oz woven roving", "813.738"),
        ("one twenty-four ounce woven roving", "813.738"),
        ("inch and a half mat", "457.7276"),
        ("six ounce glass", "203.4345"),
    ],
)
def test_a_fabrics_weight_is_areal_and_never_an_amount(text, gsm):
    for locale in ("en-GB", "en-US"):
        (found,) = both("areal", text, locale)
        assert float(found.value.gsm) == pytest.approx(float(gsm), rel=1e-6)
        assert all(item.value.unit != "g" and item.value.low < 10 for item in both("amount", text, locale))


@pytest.mark.parametrize(
    "text",
    ["ten ml syringes", "600 by 400", "2 by 2 twill", "3 x 450 mat", "1h30", "tin 4471b", "wet film 20 mil",
    "two coats of wax", "three layers of mat", "2 inch brush", "at ten past two", "p400", "number nine",
     "100 to 28 by weight", "forty minutes", "shop's at nineteen", "the third pot", "50% humidity", "in one cup",
     "the humidity in the shop at seventy-eight percent",
     "half the mould", "left half", "cost me 240 pounds", "9 euros a kilo", "$85 a gallon", "450 centipoise",
     "shore A 30", "page 45", "the hardener was 2 grams over", "out by 5 grams", "two batches"],
)  # fmt: skip
def test_what_is_no_amount_is_none(text):
    assert both("amount", text) == []


SPELLINGS = {
    "g": "grams", "kg": "kilos", "oz": "ounces", "lb": "pounds", "ml": "millilitres", "l": "litres",
    "imperial pint": "pints", "imperial quart": "quarts", "imperial gallon": "gallons",
    "imperial fl oz": "fluid ounces",
}  # fmt: skip


@given(st.integers(1, 999_999), st.sampled_from(sorted(SPELLINGS)))
def test_any_amount_spelled_out_with_its_unit_reads_back(hundredths, unit):
    spelled = f"{num2words(hundredths / 100, lang='en_GB')} {SPELLINGS[unit]} of resin"
    (found,) = said("amount", spelled)
    assert found.value.low == found.value.high == Fraction(hundredths, 100) * UNITS[unit].factor
    assert found.value.unit == UNITS[unit].canonical


@given(st.integers(1, 999_999), st.sampled_from(["g", "kg", "oz", "lb", "ml", "l"]), st.booleans())
def test_any_amount_written_reads_back(hundredths, unit, spaced):
    written = f"{hundredths / 100:.2f}{' ' if spaced else ''}{unit} of resin"
    assert only(written).low == Fraction(hundredths, 100) * UNITS[unit].factor


def test_ounces_of_a_fabric_that_is_not_named_are_flagged():
    (found,) = both("areal", "two layers of six ounce", "en-US")
    assert float(found.value.gsm) == pytest.approx(203.4345, rel=1e-6)
    assert found.flags[0].field == "layers"


@pytest.mark.parametrize(
    ("text", "grams"), [("5 x 20 kg bags of plaster", 100_000), ("four 20 gram sachets of pigment", 80)]
)
def test_packets_of_one_size_add_up(text, grams):
    assert only(text).low == grams


def test_a_kilo_and_grams_are_two_amounts_where_the_ratio_says_so():
    found = both("amount", "100 to 30 by weight, 2 kilo and 600 gram")
    assert [item.value.low for item in found] == [2000, 600]
    (one,) = both("amount", "a kilo and 200 grams of silicone")
    assert one.value.low == 1200
    assert {flag.field for flag in one.flags} == {"unit"}


def test_for_in_front_of_a_weight_is_flagged_since_it_may_be_four():
    (found,) = said("amount", "mixed for 120 grams of epoxy")
    assert found.value.low == 120
    assert found.flags[0].field == "amount"
    (found,) = said("amount", "enough for 120 grams of epoxy")
    assert not found.flags


def test_mil_in_american_speech_is_flagged_when_it_may_be_a_thickness():
    (found,) = said("amount", "10 mils of catalyst", "en-US")
    assert found.value.unit == "ml"
    assert found.flags
