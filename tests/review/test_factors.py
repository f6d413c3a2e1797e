"""Rates, exact tests and corrections, against published worked examples and independent arithmetic."""

from __future__ import annotations

from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy import stats

from journal.review.factors import factors, fisher, holm, least_p, pattern, rate
from journal.review.traits import Trait
from tests.keep.made import seen, step
from tests.review.made import built


def test_the_lady_tasting_tea():
    # R. A. Fisher, The Design of Experiments (1935), chapter II: eight cups, four with the milk in first. All
    # right has 1 chance in 70; with one pair exchanged or better it is 17 in 70.
    assert fisher((4, 0), (0, 4), "greater") == pytest.approx(1 / 70)
    assert fisher((3, 1), (1, 3), "greater") == pytest.approx(17 / 70)
    assert fisher((4, 0), (0, 4)) == pytest.approx(2 / 70)
    assert fisher((3, 1), (1, 3)) == pytest.approx(34 / 70)


@given(*(some.integers(0, 12) for _ in range(4)))
def test_the_p_value_is_the_sum_of_the_tables_that_are_no_likelier(a, b, c, d):
    total = comb(a + b + c + d, a + c)
    chances = [comb(a + b, x) * comb(c + d, a + c - x) for x in range(min(a + b, a + c) + 1)]
    own = chances[a]
    assert fisher((a, b), (c, d)) == pytest.approx(sum(x for x in chances if x <= own) / total, abs=1e-9)


def test_wilsons_interval():
    # R. G. Newcombe, Statistics in Medicine 17 (1998), 857-872, table I, score method (values from memory)
    for faulty, builds, low, high in ((81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611)):
        found = rate(faulty, builds)
        assert (round(found.low, 4), round(found.high, 4)) == (low, high)
    assert (rate(0, 0).low, rate(0, 0).high) == (0.0, 1.0)


def test_holms_correction():
    # the usual textbook example of the step-down method (from memory)
    assert holm([0.01, 0.04, 0.03, 0.005]) == pytest.approx([0.03, 0.06, 0.06, 0.02])
    assert holm([]) == []


@given(some.lists(some.floats(0, 1), min_size=1, max_size=8))
def test_a_corrected_value_is_between_the_raw_one_and_bonferronis(values):
    for raw, corrected in zip(values, holm(values), strict=True):
        assert raw <= corrected <= min(1.0, raw * len(values)) + 1e-12 or corrected == 1.0


def test_the_smallest_p_value_that_margins_allow():
    every = [
        stats.fisher_exact([[x, 3 - x], [4 - x, 13 + x]]).pvalue for x in range(4)
    ]  # 3 builds with the factor, 4 faulty, 20 in all
    assert least_p(3, 20, 4) == pytest.approx(min(every))


def _shop(with_faulty, with_sound, without_faulty, without_sound, name="cold shop"):
    cold = [Trait(name, "", name, 1.0)]
    traits = [cold] * (with_faulty + with_sound) + [[]] * (without_faulty + without_sound)
    faults = [{"soft"}] * with_faulty + [set()] * with_sound + [{"soft"}] * without_faulty + [set()] * without_sound
    return [f"b-{i}" for i in range(len(traits))], traits, faults


def test_a_factor_that_goes_with_a_fault_is_named_with_its_rates():
    found = pattern(*_shop(8, 2, 3, 87))
    [factor] = found.named
    assert (factor.name, factor.fault) == ("cold shop", "soft")
    assert (factor.with_it.faulty, factor.with_it.builds) == (8, 10)
    assert (factor.without_it.faulty, factor.without_it.builds) == (3, 90)
    assert factor.p == pytest.approx(stats.fisher_exact([[8, 2], [3, 87]]).pvalue)
    assert factor.builds == tuple(f"b-{i}" for i in range(8))


def test_a_factor_that_protects_is_not_named_as_a_cause():
    found = pattern(*_shop(0, 30, 15, 15))
    assert found.factors[0].p_corrected < 0.05
    assert found.named == ()


def _among_many(name):
    keys, traits, faults = _shop(4, 2, 8, 86, name)
    many = [[Trait("lot", str(n), "", 1.0) for n in range(60) if (i + n) % 3 == 0] for i in range(len(traits))]
    alone = pattern(keys, traits, faults)
    return alone, pattern(keys, [[*own, *more] for own, more in zip(traits, many, strict=True)], faults)


def test_many_factors_make_each_harder_to_name():
    alone, among = _among_many("large batch")
    assert [factor.name for factor in alone.named] == ["large batch"]
    assert among.named == ()


def test_a_usual_cause_of_the_fault_is_not_drowned_by_what_else_is_counted():
    alone, among = _among_many("cold shop")
    assert [factor.p_corrected for factor in among.named] == [factor.p_corrected for factor in alone.named]
    [factor] = among.named
    assert "cold slows the cure" in factor.usual
    assert factor.p_corrected == pytest.approx(2 * factor.p)  # one usual cause, with half of the five percent


def test_too_few_builds_are_plainly_told():
    found = pattern(*_shop(2, 0, 0, 2))
    assert found.named == ()
    assert found.factors[0].p_corrected is None
    assert "Too few builds to say what goes with soft" in found.warnings[0]
    assert "Nothing to count" in pattern(*_shop(0, 2, 0, 2)).warnings[0]


def test_builds_are_too_few_as_well_when_the_many_factors_leave_no_room():
    keys, traits, faults = _shop(2, 1, 0, 20, "large batch")  # p 0.012 at best
    assert pattern(keys, traits, faults).warnings == ()
    many = [
        [*own, *(Trait("lot", str(n), "", 1.0) for n in range(9) if i % (n + 2) == 0)] for i, own in enumerate(traits)
    ]
    assert "Too few builds" in pattern(keys, many, faults).warnings[0]


def test_factors_that_always_come_together_are_told_together():
    keys, traits, faults = _shop(8, 2, 3, 87)
    both = [[*own, Trait("lot", "9", "", 1.0)] if own else own for own in traits]
    assert {factor.alike for factor in pattern(keys, both, faults).named} == {("lot: 9",), ("cold shop",)}


def test_a_mere_difference_is_no_factor():
    keys, traits, faults = _shop(8, 2, 3, 87)
    mild = [[Trait(t.factor, t.subject, t.words, t.size, beyond=False) for t in own] for own in traits]
    assert pattern(keys, mild, faults).factors == ()


def test_builds_under_way_are_not_counted_and_a_tacky_coat_on_its_way_is_no_fault(catalogue):
    tacky = step("check", observations=(seen("tacky", "still tacky"),))
    done = built("a-1", (0, tacky), (9, step("demould", observations=(seen("soft", "soft"),))), outcome="failed")
    found = factors([done, built("a-2", (0, tacky), outcome="under way")], catalogue)
    assert found.builds == 1
    assert {factor.fault for factor in found.factors} <= {"soft", "failed"}
