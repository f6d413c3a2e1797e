"""Scales put values where they belong, to the pixel."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from journal.review.pictures.drawing import LETTER, Scale, fitted, mark, time_scale

NINE = datetime(2026, 4, 13, 9, 0, tzinfo=UTC)


def hours(count: float) -> timedelta:
    return timedelta(hours=count)


def test_a_scale_puts_values_between_its_ends_and_those_beyond_at_the_edge():
    scale = Scale(-20, 20, 40, 240)
    assert [scale(value) for value in (-20, 0, 5, 20, 99, -99)] == [40, 140, 165, 240, 240, 40]
    assert (scale.beyond(20), scale.beyond(21)) == (False, True)


def test_hours_in_which_nothing_was_done_are_drawn_short():
    scale = time_scale([NINE, NINE + hours(1), NINE + hours(24), NINE + hours(25)], 0, 400)
    # 1 h, then 23 h that count for 2, then 1 h: a quarter, a half and a quarter of 400 px
    assert [span.end for span in scale.spans] == [100, 300, 400]
    assert [span.cut for span in scale.spans] == [False, True, False]
    assert [scale(NINE + hours(h)) for h in (-5, 0.5, 12.5, 24.5, 99)] == [0, 50, 200, 350, 400]
    assert scale.beyond(NINE + hours(25.1))


def test_a_single_time_has_a_scale():
    scale = time_scale([NINE], 10, 110)
    assert (scale(NINE), scale(NINE + hours(1))) == (10, 60)


@given(st.lists(st.integers(0, 500), min_size=1, max_size=12), st.integers(0, 500), st.integers(0, 500))
def test_later_is_never_further_left(acts, one, other):
    scale = time_scale([NINE + hours(h) for h in acts], 10, 330)
    early, late = sorted((one, other))
    assert 10 <= scale(NINE + hours(early)) <= scale(NINE + hours(late)) <= 330 + 1e-9


def test_a_mark_in_doubt_is_hollow_and_each_form_is_its_own():
    assert mark(10, 20, "circle", "laid", doubt=True).look == "point circle doubt"
    assert mark(10, 20, "triangle", "early").get("points") == "10,13 17,26 3,26"
    assert len({mark(0, 0, form, "").at for form in ("triangle", "diamond", "square", "cross", "arrow", "bar")}) == 6


def test_words_are_cut_to_fit():
    assert fitted("polyester gel coat", 18 * LETTER + 1) == "polyester gel coat"
    assert fitted("polyester gel coat", 10 * LETTER + 1) == "polyester…"
