"""What is left of each lot, by what the steps used."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from journal.find.recipe import totals_of
from journal.find.shelf import needs_of, shelf, short_for
from journal.keep.views import LotView
from journal.record import MaterialUse
from tests.find.kept import AT, CATALOGUE, after, kept, use
from tests.keep.made import evidence

TODAY = date(2026, 5, 4)


def tin(material="polyester resin", number="4471", held=5000.0, unit="g", use_by=None, opened=AT, steps=()):
    return LotView(1, material, None, number, opened, use_by, held, unit, tuple(steps))


def lotted(name: str, grams: float, lot: str) -> MaterialUse:
    return MaterialUse(name, evidence(name), None, Fraction(str(grams)), None, "g", lot)


def test_what_was_logged_of_a_lot_is_used_up():
    steps = [
        kept(1, "mix", lotted("polyester resin", 1000, "4471")),
        kept(2, "mix", lotted("polyester resin", 500, "4471"), build=2, at=after(hours=1)),
        kept(3, "mix", lotted("polyester resin", 700, "9"), status="planned"),
    ]
    (found,) = shelf([tin()], steps, CATALOGUE, TODAY)
    assert (found.used_g, found.assumed_g, found.stock.left_g, found.step_ids) == (1500, 0, 3500, (1, 2))


def test_an_amount_without_a_lot_is_counted_to_the_lot_in_use_and_told_apart():
    lots = [tin(number="1", opened=after(days=-3)), tin(number="2", opened=after(days=-1)), tin("catalyst", "3", 500)]
    steps = [kept(n, "mix", use("polyester resin", 200, "g"), at=after(days=d)) for n, d in ((1, -5), (2, -2), (3, 0))]
    found = shelf(lots, steps, CATALOGUE, TODAY)
    assert [(each.used_g, each.assumed_g) for each in found] == [(200, 200), (200, 200), (0, 0)]


def test_a_weight_said_when_weighing_and_again_when_mixing_counts_once():
    steps = [kept(1, "weigh", use("polyester resin", 400, "g")), kept(2, "mix", use("polyester resin", 400, "g"))]
    assert shelf([tin(opened=after(days=-1))], steps, CATALOGUE, TODAY)[0].used_g == 400


def test_millilitres_become_grams_by_the_catalogues_density():
    (found,) = shelf([tin(held=2.0, unit="ml")], [], CATALOGUE, TODAY)
    assert found.stock.held_g == pytest.approx(2.4)  # 1.2 g/ml
    (unknown,) = shelf([tin("release wax", held=500.0, unit="ml")], [], CATALOGUE, TODAY)
    assert unknown.stock is None


def test_a_tin_past_its_date_or_overdrawn_is_objected_to_even_if_nobody_stated_what_it_held():
    old = tin(held=None, unit=None, use_by=date(2026, 1, 31))
    assert "past its use-by date 2026-01-31" in shelf([old], [], CATALOGUE, TODAY)[0].objections[0]
    over = shelf([tin(held=100.0)], [kept(1, "mix", lotted("polyester resin", 150, "4471"))], CATALOGUE, TODAY)
    assert "50 g more" in over[0].objections[0]


def test_what_is_short_for_another_build_like_the_last():
    steps = [kept(1, "mix", use("polyester resin", 1000, "g"), use("catalyst", 20, "g"))]
    needs = needs_of(totals_of(steps), CATALOGUE)
    assert needs == {"polyester resin": 1000, "catalyst": 20}
    tins = shelf([tin(held=600.0, opened=None), tin("catalyst", "3", 500, opened=None)], [], CATALOGUE, TODAY)
    (short,) = short_for(needs, tins, TODAY)
    assert (short.material, short.short_g) == ("polyester resin", 400)


def test_a_use_without_a_weight_is_told_since_less_is_left_than_it_seems():
    unweighed = MaterialUse("polyester resin", evidence("resin"), amount=Fraction(400), lot="4471")
    (found,) = shelf([tin()], [kept(1, "mix", unweighed)], CATALOGUE, TODAY)
    assert (found.used_g, found.stock.left_g) == (0, 5000)
    assert "used once without a weight" in found.objections[0]
