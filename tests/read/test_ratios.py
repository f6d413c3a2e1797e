from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from num2words import num2words

from journal.read.findings import RatioSaid
from journal.read.ratios import splits
from tests.read.quantities import both, said


def only(text: str) -> RatioSaid:
    (found,) = both("ratio", text)
    return found.value


@pytest.mark.parametrize(
    ("text", "parts", "by"),
    [
        ("100 to 28", [100, 28], None),
        ("a hundred to twenty-eight by weight", [100, 28], "weight"),
        ("100:28", [100, 28], None),
        ("hardener 1.26 kg, 30 to 100", [100, 30], None),
        ("six hundred of silicone, both at ten to one", [10, 1], None),
        ("100/28", [100, 28], None),
        ("100 to 28 by mass", [100, 28], "weight"),
        ("ten to one", [10, 1], None),
        ("mixed at ten to one", [10, 1], None),
        ("10:1 by weight", [10, 1], "weight"),
        ("tin silicone at 20 to 1: 700 of base", [20, 1], None),
        ("twenty nine to the hundred", [100, 29], None),
        ("100 parts resin to 15 hardener and 3 of pigment by weight", [100, 15, 3], "weight"),
        ("weight ratio controlled 100/30", [100, 30], "weight"),
        ("ten of A to one of B going by the weight", [10, 1], "weight"),
        ("three sand to one cement plus a bit of water, by volume", [3, 1], "volume"),
        ("half and half", [1, 1], None),
        ("eighty-five parts B per hundred of A by weight", [100, 85], "weight"),
        ("hardener mixed in at one part to four of resin by volume", [4, 1], "volume"),
        ("60 of water to 100 of hard gypsum by weight", [100, 60], "weight"),
        ("hardener to resin is 1 to 5", [5, 1], None),
        ("2 to 1 by volume", [2, 1], "volume"),
        ("two to one on volume", [2, 1], "volume"),
        ("4:1", [4, 1], None),
        ("one to one", [1, 1], None),
        ("equal parts by volume", [1, 1], "volume"),
        ("fifty fifty", [1, 1], None),
        ("100 parts to 28 parts", [100, 28], None),
        ("100 parts resin to 28 parts hardener", [100, 28], None),
        ("a hundred parts A, twenty-five B", [100, 25], None),
        ("three parts resin one part hardener", [3, 1], None),
        ("one part hardener to ten parts resin", [10, 1], None),
        ("67 parts water to 100 parts plaster", [100, 67], None),
        ("ten parts to one", [10, 1], None),
        ("ratio 100 28", [100, 28], None),
        ("100 and 29 by weight", [100, 29], "weight"),
        ("28 per hundred", [100, 28], None),
        ("28 parts per hundred", [100, 28], None),
        ("28 phr", [100, 28], None),
        ("14.7 phr by weight", [100, Fraction("14.7")], "weight"),
        ("mixed at 4 to 1", [4, 1], None),
        ("mix ratio two to one", [2, 1], None),
        ("3:2:1", [3, 2, 1], None),
        ("three to two to one by volume", [3, 2, 1], "volume"),
        ("100 epoxy, 29 hardener, 60 microballoons", [100, 29, 60], None),
        ("one hundred resin, twenty-nine hardener, fifteen milled fibre, all by weight", [100, 29, 15], "weight"),
        ("1 to 10, resin to catalyst by volume", [1, 10], "volume"),
    ],
)
def test_a_ratio_keeps_main_to_second(text, parts, by):
    ratio = only(text)
    assert (list(ratio.parts), ratio.by) == (parts, by)


@pytest.mark.parametrize(
    "text",
    ["ten to twelve minutes", "two to three layers", "at ten to two", "quarter to nine", "14:05", "at 2:15",
    "1/2 litre",
     "5-10 minutes", "200 to 250 grams", "two percent", "lot 4471", "two parts of it are dry", "started at ten to one",
     "poured it, it's ten to one",
     "between five and ten", "100 grams", "mixed 100 grams", "4/5/26",
     "temperature dropped from nineteen to fourteen", "pot 2: 400 g of resin", "casting 1: 6 ml of A", "tub 3: 5 kg"],
)  # fmt: skip
def test_what_is_no_ratio_is_none(text):
    assert both("ratio", text) == []


@pytest.mark.parametrize("text", ["ratio of 125", "125 by weight", "mixed at 128", "ratio's 421 by volume"])
def test_numbers_run_together_are_kept_flagged_and_not_guessed(text):
    (found,) = both("ratio", text)
    assert found.value.parts == ()
    assert found.value.run_together in ("125", "128", "421")
    assert found.flags[0].field == "ratio"
    assert found.confidence < 0.5


@pytest.mark.parametrize(
    ("digits", "among"),
    [
        ("125", (100, 25)),
        ("128", (100, 28)),
        ("10028", (100, 28)),
        ("421", (4, 1)),
        ("1021", (10, 1)),
        ("101", (10, 1)),
    ],
)
def test_the_ratios_that_may_have_been_run_together_are_listed(digits, among):
    assert among in splits(digits)


def test_the_likeliest_of_three_digits_is_a_hundred_to_the_rest():
    assert splits("125")[0] == (100, 25)


@given(st.integers(2, 100), st.integers(1, 99), st.sampled_from([" by weight", " by volume"]), st.booleans())
def test_any_ratio_spelled_out_reads_back(main, second, by, words):
    first, last = (num2words(main, lang="en_GB"), num2words(second, lang="en_GB")) if words else (main, second)
    assume(main != second)
    (found,) = said("ratio", f"mixed it {first} to {last}{by}")
    assert found.value.parts == (main, second)
    assert found.value.by == by.split()[-1]


@given(st.integers(1, 2000), st.integers(1, 2000))
def test_a_split_never_makes_up_digits(main, second):
    for first, last in splits(f"{main}{second}"):
        assert first >= last or first == 1
        assert str(last) in f"{main}{second}"


@pytest.mark.parametrize("text", ["started mixing at 9:40", "mixed 600 to 168"])
def test_a_time_or_two_weights_are_no_ratio(text):
    assert both("ratio", text) == []


def test_parts_to_the_hundred_and_a_ratio_beside_its_catalyst_are_main_to_second():
    assert only("127 of hardener, which is fifteen parts to the hundred").parts == (100, 15)
    assert only("600 grams of tin silicone, 30 of catalyst, at 20 to 1").parts == (20, 1)
