from fractions import Fraction

import pytest

from journal.read.pieces import split
from journal.read.unit_words import SPELLED
from journal.read.units import unit_at
from journal.trade.quantity import UNITS

BY_DIALECT = {"pint", "quart", "gallon", "fl oz", "mil", "degrees"}


def at_the_end_of(text: str, locale: str = "en-GB"):
    pieces = split(tuple(text.lower().split()))
    return unit_at(pieces, 1, Fraction(5), locale, 0)


@pytest.mark.parametrize("spelling", sorted({word for words in SPELLED for word in words.split()}))
def test_every_spelling_gives_its_unit(spelling):
    name = next(unit for words, unit in SPELLED.items() if spelling in words.split())
    said = "5" + spelling if spelling in ("s", "h", "in") else "5 " + spelling.replace("-", " ")
    found = at_the_end_of(said)
    if spelling in ("part",):
        assert found is None  # "five part" is no number of parts
        return
    assert found is not None
    assert found.unit.name == name or name in BY_DIALECT


def test_every_unit_word_leads_to_a_unit():
    assert set(SPELLED.values()) - BY_DIALECT <= set(UNITS)


@pytest.mark.parametrize("text", ["5 in the pot", "5 s", "five c", "five of them", "5 no", "five can"])
def test_a_common_word_is_no_unit(text):
    assert at_the_end_of(text) is None


@pytest.mark.parametrize(
    ("text", "locale", "unit"),
    [
        ("5 mil of catalyst", "en-GB", "ml"),
        ("5 mil ply", "en-GB", "mm"),
        ("20 mil wet film", "en-GB", "thou"),
        ("5 mil wet film", "en-US", "thou"),
        ("5 mils", "en-US", "thou"),
        ("5 mil overlap", "en-GB", "mm"),
    ],
)
def test_mil_follows_its_surroundings(text, locale, unit):
    value = Fraction(text.split()[0])
    found = unit_at(split(tuple(text.split())), 1, value, locale, 0)
    assert found.unit.name == unit


@pytest.mark.parametrize(
    "text", ["45 degree bias cloth", "45 degrees angle", "90 degrees to the first", "45 degree biax"]
)
def test_an_angle_is_no_temperature(text):
    assert unit_at(split(tuple(text.split())), 1, Fraction(45), "en-GB", 0) is None
