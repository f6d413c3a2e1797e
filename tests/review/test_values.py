"""How values are written for people. A wrong digit here is as bad as one misheard."""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.record import (
    ClockTime,
    Condition,
    Evidence,
    Layer,
    MaterialUse,
    Observation,
    Phrase,
    Ratio,
    Step,
    Timing,
)
from journal.review import values

SAID = Evidence("as said", (0, 7))


def plain(text: str) -> str:
    """Return the text with ordinary spaces: a number is tied to its unit on the page."""
    return text.replace(values.TIED, " ")


@pytest.mark.parametrize(
    ("number", "written"),
    [
        (0, "0"), (1, "1"), (100, "100"), (1200, "1200"), (1234567, "1234567"), (12.5, "12.5"), (340.194277, "340.19"),
        (0.1, "0.1"), (0.005, "0.005"), (0.0471, "0.0471"), (Fraction(1, 3), "0.333"), (99.999, "100"),
    ],
)  # fmt: skip
def test_a_number_is_written_as_a_scale_shows_it(number: float, written: str) -> None:
    assert values.number(number) == written


@given(st.floats(min_value=1e-6, max_value=1e7))
def test_a_written_number_is_never_far_from_the_number(number: float) -> None:
    assert float(values.number(number)) == pytest.approx(number, rel=0.006, abs=0)


@pytest.mark.parametrize(
    ("seconds", "written"),
    [
        (0, "0 s"),
        (45, "45 s"),
        (90, "1 min 30 s"),
        (2400, "40 min"),
        (3600, "1 h"),
        (57600, "16 h"),
        (90000, "1 d 1 h"),
    ],
)
def test_a_duration_is_written_in_its_largest_units(seconds: float, written: str) -> None:
    assert plain(values.duration(seconds)) == written


@pytest.mark.parametrize(
    ("least", "most", "written"),
    [
        (2400, 2400, "40 min"), (300, 600, "5 min to 10 min"), (57600, None, "at least 16 h"),
        (0, 1200, "up to 20 min"), (None, 1200, "up to 20 min"), (28800, 57600, "8 h to 16 h"),
        (None, None, "not said"),
    ],
)  # fmt: skip
def test_a_timing_keeps_its_open_end(least: int | None, most: int | None, written: str) -> None:
    ends = (None if end is None else Fraction(end) for end in (least, most))
    assert plain(values.span(*ends)) == written


def test_an_amount_without_a_unit_says_so() -> None:
    assert values.quantity(Fraction(300), None) == "300 (no unit said)"
    assert plain(values.quantity(Fraction(2), "percent")) == "2 %"
    assert values.quantity(Fraction(3), "count") == "3"
    assert plain(values.quantity(Fraction(300), "g", Fraction(350))) == "300 to 350 g"


def test_a_step_becomes_rows_without_empty_ones() -> None:
    step = Step(
        "mix",
        "done",
        SAID,
        materials=(
            MaterialUse("laminating epoxy", SAID, "A", Fraction(400), None, "g", "4471"),
            MaterialUse("hardener", SAID),
        ),
        ratio=Ratio((Fraction(100), Fraction(29)), SAID, "weight", derived=True),
        layers=(Layer("chopped strand mat", SAID, Fraction(2), Fraction(450)),),
        timings=(Timing("pot life", Fraction(1500), Fraction(1500), SAID),),
        clock=(ClockTime("start", datetime.fromisoformat("2026-05-04T14:05:00+01:00"), SAID),),
        conditions=(Condition("temperature", Fraction(21), "degC", SAID, "shop"),),
        places=(Phrase("flange", SAID),),
        observations=(Observation("void", "small void", SAID),),
        pull=14,
    )
    written = [
        (row.label, [(plain(value.amount), plain(value.text)) for value in row.values]) for row in values.rows(step)
    ]
    assert written == [
        ("Materials", [("400 g", "laminating epoxy, part A, lot 4471"), ("", "hardener")]),
        ("Ratio", [("", "100 : 29 by weight (worked out)")]),
        ("Layers", [("2 ×", "chopped strand mat, 450 g/m²")]),
        ("Timings", [("25 min", "pot life")]),
        ("Clock", [("14:05, 4 May", "start")]),
        ("Conditions", [("21 °C", "temperature of the shop")]),
        ("Pull", [("", "number 14")]),
        ("Places", [("", "flange")]),
        ("Seen", [("", "small void")]),
    ]
