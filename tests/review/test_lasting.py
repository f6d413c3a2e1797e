"""How long moulds last, against a published worked example."""

from __future__ import annotations

import pytest

from journal.review.lasting import FEW_ENDED, outlasts, survival

# Remission times in weeks of 42 children with leukaemia, half of them given a drug (6-MP): Freireich et al., Blood 21
# (1963), as in Gehan, Biometrika 52 (1965); Kleinbaum and Klein, Survival Analysis, chapter 2 (from memory).
ENDED = [6, 6, 6, 7, 10, 13, 16, 22, 23]
GOING_ON = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
DRUG = [(n, True) for n in ENDED] + [(n, False) for n in GOING_ON]
NONE = [(n, True) for n in (1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23)]


def test_the_curve_and_its_median_are_those_of_the_published_example():
    found = survival(DRUG)
    told = [(left.pulls, left.at_risk, left.ended, round(left.share, 4)) for left in found.curve]
    assert told == [
        (6, 21, 3, 0.8571), (7, 17, 1, 0.8067), (10, 15, 1, 0.7529), (13, 12, 1, 0.6902), (16, 11, 1, 0.6275),
        (22, 7, 1, 0.5378), (23, 6, 1, 0.4482),
    ]  # fmt: skip
    assert (found.median, found.low, found.high) == (23.0, 13.0, None)
    assert (found.moulds, found.ended, found.warning) == (21, 9, "")


def test_intervals_are_those_that_lifelines_gives():
    # lifelines 0.30.3, KaplanMeierFitter: confidence_interval_ at 6 and at 23, median_survival_times
    first, last = survival(DRUG).curve[0], survival(DRUG).curve[-1]
    assert (first.low, first.high) == (pytest.approx(0.619718, abs=1e-6), pytest.approx(0.951552, abs=1e-6))
    assert (last.low, last.high) == (pytest.approx(0.188052, abs=1e-6), pytest.approx(0.680143, abs=1e-6))
    without = survival(NONE)
    assert (without.median, without.low, without.high) == (8.0, 4.0, 11.0)


def test_the_log_rank_test_is_that_of_the_published_example():
    # chi-square 16.79 on one degree of freedom; lifelines 0.30.3 gives p 4.168809e-05
    assert outlasts(DRUG, NONE) == pytest.approx(4.168809e-05, rel=1e-6)


def test_while_most_go_on_there_is_no_median():
    assert survival([(9, False), (12, False)]).median is None
    assert survival([(2, True), (9, False), (12, False)]).median is None


def test_too_few_that_ended_are_told_and_not_held_against_others():
    few = [(n, True) for n in range(FEW_ENDED - 1)]
    assert survival(few, "broke").warning == "only 4 of 4 broke: too few to say"
    assert survival([*few, (9, True)]).warning == ""
    assert outlasts(few, NONE) is None


def test_one_that_never_gave_a_pull_counts():
    found = survival([(0, True), (3, True)])
    assert [(left.pulls, left.share) for left in found.curve] == [(0, 0.5), (3, 0.0)]
    assert found.median == 0.0
