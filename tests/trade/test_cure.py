"""Time and temperature against published worked examples; each test names its source."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from journal.trade.cure import (
    RampPoint,
    Window,
    activation_energy,
    aged,
    arrhenius_time_factor,
    equivalent_age,
    finishes_at,
    halving_time_factor,
    nurse_saul,
    post_cure_ramp,
    shift,
    stretches,
    window_from,
)
from journal.trade.limits import TradeError

DAY = 86_400


@pytest.mark.parametrize(("first", "second", "energy"), [(298, 308, 52.897), (303, 313, 54.66)])
def test_a_rate_that_doubles_in_ten_degrees_has_the_textbook_activation_energy(first, second, energy):
    # standard school-textbook exercise on the Arrhenius equation: answers 52.897 and 54.66 kJ/mol
    assert activation_energy(2, first - 273.15, second - 273.15) == pytest.approx(energy, abs=0.005)


@pytest.mark.parametrize(
    ("degc", "arrhenius", "rule"), [(10, 3.097, 2.828), (15, 2.097, 2.0), (20, 1.439, 1.414), (35, 0.5, 0.5)]
)
def test_pot_life_factors_against_25_degrees(degc, arrhenius, rule):
    # calculated for 52.9 kJ/mol; the halving rule is common practice, no published source
    assert arrhenius_time_factor(52.9, degc) == pytest.approx(arrhenius, abs=0.002)
    assert halving_time_factor(degc) == pytest.approx(rule, abs=0.001)


def test_a_shifted_time_says_which_rule_shifted_it():
    assert shift(1500, 35, None).rule == "halving per 10 degC"
    assert shift(1500, 35, None).seconds == pytest.approx(750)
    assert shift(1500, 25, 60).rule == "arrhenius"
    assert shift(1500, 25, 60).seconds == pytest.approx(1500)


def test_nurse_saul_maturity_of_the_teaching_examples():
    # open teaching examples of concrete maturity; the method is ASTM C1074's
    assert nurse_saul([(28 * DAY, 15)], -11) / DAY == pytest.approx(728)
    assert nurse_saul([(12 * 3600, 20), (12 * 3600, 25)], 0) / 3600 == pytest.approx(540)


def test_equivalent_age_of_a_week_at_30_degrees():
    # inputs CEB-FIP MC90 as taught: Q 33.5 kJ/mol, 7 d at 30 degC, reference 20 degC; calculated 1.5737, 11.02 d.
    # Concrete constants check the arithmetic only, never a resin.
    assert equivalent_age([(7 * DAY, 30)], 33.5, 20) / DAY == pytest.approx(11.02, abs=0.005)
    assert equivalent_age([(7 * DAY, 20)], 33.5, 20) / DAY == pytest.approx(7)


def test_a_post_cure_programme_heats_at_its_rate_and_holds():
    corners = post_cure_ramp(20, [(40, 7200), (60, 14400)], c_per_hour=10)
    assert corners == (
        RampPoint(0, 20), RampPoint(7200, 40), RampPoint(14400, 40), RampPoint(21600, 60), RampPoint(36000, 60),
    )  # fmt: skip


def test_a_window_knows_early_open_late_and_by_how_much():
    start = datetime(2026, 3, 2, 13, 20, tzinfo=UTC)
    window = window_from(start, 3600, 4 * 3600)
    assert [window.state(start + timedelta(hours=h)) for h in (0.5, 2, 5)] == ["early", "open", "late"]
    assert window.margin(start + timedelta(hours=5)) == timedelta(hours=-1)
    assert window.missed_by(start + timedelta(minutes=45)) == timedelta(minutes=15)
    assert window.missed_by(start + timedelta(hours=2)) == timedelta(0)
    assert window_from(start, 0, None).margin(start) is None


def test_a_window_survives_the_clocks_going_forward():
    # the last Sunday of March 2026 in London: 01:00 becomes 02:00, so 8 h later is 09:00 by the wall
    london = ZoneInfo("Europe/London")
    window = window_from(datetime(2026, 3, 29, 0, 0, tzinfo=london).astimezone(UTC), 8 * 3600, None)
    assert window.state(datetime(2026, 3, 29, 8, 59, tzinfo=london)) == "early"
    assert window.state(datetime(2026, 3, 29, 9, 0, tzinfo=london)) == "open"


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: shift(0, 20, None), "time"),
        (lambda: shift(60, 900, None), "temperature"),
        (lambda: arrhenius_time_factor(0, 20), "activation energy"),
        (lambda: activation_energy(2, 20, 20), "temperature"),
        (lambda: equivalent_age([], 33.5, 20), "temperature log"),
        (lambda: nurse_saul([(3600, 900)], 0), "temperature"),
        (lambda: post_cure_ramp(20, [(60, 0)], 10), "hold"),
        (lambda: Window(datetime(2026, 1, 1), None), "window"),  # noqa: DTZ001 - the point of the test
    ],
)
def test_what_the_model_cannot_use_is_refused_by_name(call, field):
    with pytest.raises(TradeError, match=field):
        call()


START = datetime(2026, 11, 23, 14, 5, tzinfo=UTC)


def test_at_one_temperature_a_time_runs_as_it_is_shifted():
    found = finishes_at(START, 900, [(START - timedelta(hours=6), 19)], 52.9)
    assert (found.at - START).total_seconds() == pytest.approx(shift(900, 19, 52.9).seconds)
    assert (found.rule, found.degc) == ("arrhenius", 19)
    assert finishes_at(START, 900, [(START, 15)], None).rule == "halving per 10 degC"
    assert finishes_at(START, 900, [(START, 15)], None).at == START + timedelta(seconds=1800)


@pytest.mark.parametrize("later", [10, 19, 30])
def test_over_changing_temperatures_it_ends_when_the_equivalent_age_is_reached(later):
    # the maturity method of ASTM C1074 with an Arrhenius rate, turned round: the two must agree
    change = START + timedelta(hours=2)
    found = finishes_at(START, 10_000, [(START, 19), (change, later)], 52.9)
    log = [(7200.0, 19.0), ((found.at - change).total_seconds(), float(later))]
    assert equivalent_age(log, 52.9, 25) == pytest.approx(10_000, abs=0.01)


def test_without_a_temperature_the_time_stands_as_quoted():
    assert finishes_at(START, 900, [], 52.9).rule == "as quoted"
    assert finishes_at(START, 900, [], 52.9).at == START + timedelta(seconds=900)


def test_a_reading_after_the_start_holds_from_the_start():
    assert finishes_at(START, 900, [(START + timedelta(minutes=5), 15)], None).at == START + timedelta(seconds=1800)


def test_a_window_in_the_shops_own_zone_survives_the_clocks_going_back():
    # the last Sunday of October 2026 in London: 02:00 becomes 01:00, so 8 h after midnight is 07:00 by the wall
    london = ZoneInfo("Europe/London")
    window = window_from(datetime(2026, 10, 25, 0, 0, tzinfo=london), 8 * 3600, 10 * 3600)
    assert window.state(datetime(2026, 10, 25, 6, 59, tzinfo=london)) == "early"
    assert window.state(datetime(2026, 10, 25, 7, 0, tzinfo=london)) == "open"
    assert window.margin(datetime(2026, 10, 25, 0, 0, tzinfo=london)) == timedelta(hours=10)
    assert finishes_at(datetime(2026, 10, 25, 0, 0, tzinfo=london), 8 * 3600, [], None).at == datetime(
        2026, 10, 25, 7, 0, tzinfo=london
    )


def test_the_log_between_two_instants_takes_each_reading_until_the_next():
    at = datetime(2026, 3, 28, 20, tzinfo=UTC)
    hour = timedelta(hours=1)
    readings = [(at + 2 * hour, 18.0), (at + 5 * hour, 21.0), (at + 50 * hour, 5.0)]
    assert stretches(at, at + 8 * hour, readings) == ((5 * 3600, 18.0), (3 * 3600, 21.0))
    assert stretches(at + 6 * hour, at + 7 * hour, readings) == ((3600, 21.0),)
    assert stretches(at + 60 * hour, at + 61 * hour, readings) == ((3600, 5.0),)
    assert stretches(at, at + hour, ()) == ()


def test_a_log_through_the_night_the_clocks_change_counts_the_hours_that_passed():
    london = ZoneInfo("Europe/London")  # forward at 01:00 on 29 March 2026: 8 hours on the wall are 7
    evening, morning = datetime(2026, 3, 28, 22, tzinfo=london), datetime(2026, 3, 29, 6, tzinfo=london)
    assert stretches(evening, morning, [(evening, 20.0)]) == ((7 * 3600, 20.0),)


def test_the_age_goes_by_the_energy_or_else_by_the_rule():
    # 7 d at 30 degC, 33.5 kJ/mol, reference 20 degC: 11.02 d (the maturity method, calculated)
    week = [(7 * 86400, 30.0)]
    assert aged(week, 33.5, 20).seconds / 86400 == pytest.approx(11.02, abs=0.005)
    assert (aged(week, None, 20).seconds, aged(week, None, 20).rule) == (14 * 86400, "halving per 10 degC")
    with pytest.raises(TradeError, match="temperature log"):
        aged([], None)
