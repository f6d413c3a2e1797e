from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from num2words import num2words

from journal.read import numbers
from journal.read.findings import Findings, Number
from tests.read.quantities import both, note, read, said


def values(text: str, locale: str = "en-GB") -> list[Fraction]:
    found = both("number", text, locale)
    return [item.value.low for item in found if item.rule != "numbers.name"]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("three fifty", "350"),
        ("four twenty", "420"),
        ("one twelve", "112"),
        ("one-fifty", "150"),
        ("twelve fifty", "1250"),
        ("two twenty-five", "225"),
        ("a hundred and twelve", "112"),
        ("a hundred twelve", "112"),
        ("twelve hundred", "1200"),
        ("4 hundred", "400"),
        ("1.5 thousand", "1500"),
        ("two and a half", "2.5"),
        ("2 and a half", "2.5"),
        ("two and three quarters", "2.75"),
        ("two and three quarter", "2.75"),
        ("one hundred and thirty and a half", "130.5"),
        ("three quarters", "0.75"),
        ("two thirds", "2/3"),
        ("½", "0.5"),
        ("2½", "2.5"),
        ("2 1/2", "2.5"),
        ("1-1/2", "1.5"),
        ("3/4", "0.75"),
        ("one oh one point five", "101.5"),
        ("one oh five", "105"),
        ("one double oh", "100"),
        ("four four seven one", "4471"),
        ("nineteen point two", "19.2"),
        ("nineteen point two five", "19.25"),
        ("nineteen point twenty-five", "19.25"),
        ("101 point 5", "101.5"),
        ("point nine", "0.9"),
        ("oh point four", "0.4"),
        ("nought point four", "0.4"),
        ("minus nought point nine", "-0.9"),
        ("minus 0.9", "-0.9"),
        ("-0.9", "-0.9"),
        (".5", "0.5"),
        ("1,200", "1200"),
        ("1,234,567.5", "1234567.5"),
        ("a dozen", "12"),
        ("two dozen", "24"),
        ("half a dozen", "6"),
        ("a couple of", "2"),
        ("two thousand three hundred and six", "2306"),
        ("forty-five", "45"),
        ("fourty five", "45"),
    ],
)
def test_a_number_is_read_exactly(text, value):
    assert values(text) == [Fraction(value)]


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("two or three layers", 2, 3),
        ("two to three layers", 2, 3),
        ("two to three hundred grams", 200, 300),
        ("200-250 g", 200, 250),
        ("200–250g", 200, 250),
        ("between five and ten grams", 5, 10),
        ("from 200 to 250 ml", 200, 250),
        ("ten to twelve minutes", 10, 12),
        ("five, ten minutes", 5, 10),
        ("five ten minutes", 5, 10),
        ("two three days", 2, 3),
        ("two, maybe three coats", 2, 3),
    ],
)
def test_a_range_keeps_both_ends(text, low, high):
    (found,) = both("number", text)
    assert (found.value.low, found.value.high) == (low, high)
    assert found.rule == "numbers.range"


@pytest.mark.parametrize(
    "text", ["three fifty grams", "five ten grams", "ten, five minutes", "in five, ten minutes later"]
)
def test_numbers_side_by_side_are_a_range_only_of_time(text):
    assert all(item.value.low == item.value.high for item in both("number", text))


@pytest.mark.parametrize("text", ["third coat", "the second coat", "2nd coat", "the first of them"])
def test_an_ordinal_is_only_an_ordinal(text):
    (found,) = both("number", text)
    assert found.value.ordinal
    assert both("amount", text) == []


@pytest.mark.parametrize(
    "text",
    [
        "number nine",
        "lot 4471",
        "lot four four seven one",
        "grade 80",
        "180 grit",
        "cast number 14",
        "batch 3",
        "coat two",
    ],
)
def test_digits_that_name_a_thing_are_kept_apart(text):
    (found,) = both("number", text)
    assert found.rule == "numbers.name"
    assert both("amount", text) == []


@pytest.mark.parametrize(
    "text", ["p120", "A4 sheet", "this one", "no filler in the last one", "one of them", "at this point"]
)
def test_what_is_no_number_is_none(text):
    assert both("number", text) == []


@pytest.mark.parametrize(
    "text", ["about forty", "roughly forty", "forty-ish minutes", "forty odd minutes", "getting on for forty", "~40"]
)
def test_a_rough_number_is_marked(text):
    assert both("number", text)[0].value.low == 40
    assert both("number", text)[0].value.approximate or both("duration", text)


def test_a_batch_weighed_is_no_name():
    assert both("amount", "batch 300 g")[0].value.low == 300
    assert both("amount", "pot of 300 g")[0].value.low == 300


def test_a_count_of_the_next_thing_is_not_added_to_the_hundreds():
    assert values("one of three hundred and two of four fifty") == [300, 2, 450]
    assert values("three hundred and two of hardener") == [302]
    assert values("biax six hundred three layers") == [600, 3]
    assert values("csm four fifty two plies") == [450, 2]
    assert values("twenty two layers") == [22]
    assert values("two four fifties") == [2, 450]


def test_a_number_covers_its_words():
    words = note("Mixed three hundred and fifty of it")
    (found,) = numbers.find(words, Findings())
    assert words.doc[found.start : found.end].text == "three hundred and fifty"
    assert found.value == Number(Fraction(350), Fraction(350))


@given(st.integers(0, 99_999_999))
def test_any_whole_number_spelled_out_reads_back(value):
    assert values(num2words(value, lang="en_GB")) == [value]


@given(st.integers(0, 1_000_000))
def test_any_decimal_spelled_out_reads_back(hundredths):
    value = Fraction(hundredths, 100)
    # num2words writes 1050.5 as "one thousand and fifty point five"
    assert values(num2words(hundredths / 100, lang="en_GB")) == [value]


@given(st.integers(1, 9999), st.sampled_from(["half", "quarter", "third", "eighth"]))
def test_any_simple_fraction_spelled_out_reads_back(whole, part):
    size = {"half": 2, "quarter": 4, "third": 3, "eighth": 8}[part]
    assert values(f"{num2words(whole)} and a {part} of") == [whole + Fraction(1, size)]


@given(st.integers(0, 99_999_999), st.integers(0, 3))
def test_any_written_number_reads_back(digits, places):
    value = Fraction(digits, 10**places)
    written = f"{digits / 10**places:,.{places}f}"
    assert values(written) == [value]


WORDS = st.sampled_from(
    "three fifty a hundred and twelve to one or half point nine minus oh two 400 g grams of at past ten quarter 100:28 "
    "1/2 ½ , . - : / % to twenty five minutes hour ago layers mat 450 by weight mil the shop about least third "
    "second x "
    "double dozen couple pint degrees c between per parts percent volume until o'clock pm tomorrow".split()
)


@settings(max_examples=300)
@given(st.text(max_size=60) | st.lists(WORDS, max_size=16).map(" ".join))
def test_no_text_breaks_the_reading(text):
    for locale in ("en-GB", "en-US"):
        for tokenizer in ("shop", "plain"):
            words = note(text, locale, tokenizer)
            for item in read(words):
                assert 0 <= item.start < item.end <= len(words.lower)


@settings(max_examples=300)
@given(st.lists(WORDS, min_size=1, max_size=16).map(" ".join), st.data())
def test_a_cut_note_has_no_number_where_the_whole_has_none(text, data):
    """A cut may shorten a number ("three" of "three fifty"), never find one in words that held none."""
    whole = note(text)
    cut = data.draw(st.integers(0, len(whole.lower)))
    held = {token for item in numbers.find(whole, Findings()) for token in range(item.start, item.end)}
    part = note(whole.doc[:cut].text)
    if part.lower != whole.lower[:cut]:
        return  # cut inside what the tokenizer reads as one
    unsure = ("one", "second", "half", "a", "third")  # their neighbour decides whether they are numbers at all
    for item in numbers.find(part, Findings()):
        assert held & set(range(item.start, item.end)) or part.lower[item.end - 1] in unsure


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("mixed four hundred grams of resin with 112 of hardener then rolled it out and left it", 12),
        ("shop's at nineteen and the humidity is fifty five percent so we waited half an hour and went on", 11),
    ],
)
def test_what_lies_well_before_the_cut_is_read_as_in_the_whole(text, cut):
    whole = said("number", text)
    words = text.split()
    part = said("number", " ".join(words[:cut]))
    assert [item.value for item in part] == [item.value for item in whole][: len(part)]
