"""Pauses and beginnings said twice are left out of what is read, and stay in what was said."""

import pytest

from journal.read.pauses import fluent
from tests.read.reading import laid, steps, weighed


def left(text: str) -> str:
    return "".join(text[i] for i in fluent(text))


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("two coats of um wax", "two coats of wax"),
        ("Brushed it on the, uh, left scroll", "Brushed it on the left scroll"),
        ("Um, so I waxed it", "so I waxed it"),
        ("I waxed it, er, and buffed it", "I waxed it, and buffed it"),
        ("brushed gel um, two coats", "brushed gel, two coats"),
        ("two uh hundred grams", "two hundred grams"),
        ("and that's it erm", "and that's it"),
        ("Um. Testing.", "Um. Testing."),
        ("3 percent, er, 2 percent", "3 percent, er, 2 percent"),
        ("four hundred uh no four twenty", "four hundred uh no four twenty"),
        ("so I laid up I've laid up two of mat", "so I've laid up two of mat"),
        ("in the in the big bucket", "in the big bucket"),
        ("the the flange", "the flange"),
        ("a thin thin coat", "a thin thin coat"),
        ("part a a hundred", "part a a hundred"),
        ("wet on wet on the flange", "wet on wet on the flange"),
        ("two two hundred gram mats", "two two hundred gram mats"),
        ("when you roll it you roll it slow", "when you roll it you roll it slow"),
    ],
)
def test_what_is_left(said: str, read: str) -> None:
    assert left(said) == read


def test_a_pause_breaks_no_phrase() -> None:
    (step,) = steps("so I mixed uh 400 grams of um laminating epoxy with er 112 grams of the the hardener")
    assert weighed(step) == [("laminating epoxy", 400, "g"), ("hardener", 112, "g")]
    (step,) = steps("I laid up I've laid up two uh layers of um four fifty mat on the er left scroll")
    assert laid(step) == [("chopped strand mat", 2, 450)]
    assert [place.text for place in step.places] == ["left scroll"]


def test_values_point_to_the_words_as_they_were_said() -> None:
    text = "right so um I I waxed the uh left um scroll because uh it sticks"
    (step,) = steps(text)
    for said in (step, *step.places, *step.reasons):
        start, end = said.evidence.chars
        assert said.evidence.heard == text[start:end]
    assert [place.text for place in step.places] == ["left um scroll"]
