"""A build as a recipe: sums that count each batch once, and say what they lack."""

from __future__ import annotations

from fractions import Fraction

import pytest

from journal.find.recipe import recipe
from journal.keep.store import Store
from journal.record import Flag, Layer, Step
from tests.keep.made import AT, build_of, evidence, minutes, seen, spoken, step, use


def totals(store: Store, *steps: Step) -> list[tuple[str, str | None, str, float]]:
    build = build_of(store)
    spoken(store, build, "a note", *steps)
    return [(t.name, t.part, t.unit, t.amount) for t in recipe(store, build.id).totals]


def test_a_recipe_tells_the_steps_done_and_how_it_turned_out(store: Store) -> None:
    build = build_of(store)
    spoken(
        store, build, "all of it",
        step("mix", use("epoxy", 400, "g", part="A"), use("epoxy", 112, "g", part="B")),
        step("laminate", status="not done"), step("brush", status="planned"), step("cure", status="advised"),
        step("check", observations=(seen("void", "small void"),)), step("pull", pull=1),
    )  # fmt: skip
    store.set_outcome(build.id, "worked", "sharp", None, minutes(9))
    made = recipe(store, build.key)
    assert [each.record.action for each in made.steps] == ["mix", "check", "pull"]
    assert [each.record.action for each in made.left_out] == ["laminate"]
    assert (made.build.outcome, made.mould.key) == ("worked", "niche")
    assert [fault.kind for fault in made.faults] == ["void"]
    assert [pull.number for pull in made.pulls] == [1]
    assert [(t.part, t.amount) for t in made.totals] == [("A", 400.0), ("B", 112.0)]
    assert made.totals[0].sure
    assert made.totals[0].per_m2 == pytest.approx(400 / 1.2)


def test_batches_add_up(store: Store) -> None:
    assert totals(store, step("mix", use("epoxy", 400, "g")), step("mix", use("epoxy", 200.5, "g"))) == [
        ("epoxy", None, "g", 600.5)
    ]


def test_what_was_weighed_and_then_mixed_counts_once(store: Store) -> None:
    weigh, mix = step("weigh", use("epoxy", 400, "g")), step("mix", use("epoxy", 400, "g"))
    assert totals(store, weigh, mix, weigh, mix) == [("epoxy", None, "g", 800.0)]
    assert totals(store, weigh, weigh) == [("epoxy", None, "g", 800.0)]
    assert totals(store, mix, mix) == [("epoxy", None, "g", 800.0)]


def test_a_mix_of_another_weight_is_another_batch(store: Store) -> None:
    weigh, mix = step("weigh", use("epoxy", 400, "g")), step("mix", use("epoxy", 150, "g"))
    assert totals(store, weigh, mix) == [("epoxy", None, "g", 550.0)]


def test_what_is_brushed_from_a_batch_counts_once(store: Store) -> None:
    mix, brush = step("mix", use("gel coat", 420, "g")), step("brush", use("gel coat", 200, "g"))
    assert totals(store, mix, brush) == [("gel coat", None, "g", 420.0)]
    assert totals(store, brush, brush) == [("gel coat", None, "g", 400.0)]


def test_units_are_not_mixed_and_percents_do_not_add(store: Store) -> None:
    mixed = step("mix", use("resin", 1, "g"), use("resin", 2, "ml"), use("catalyst", 2, "percent"))
    assert totals(store, mixed, mixed) == [("resin", None, "g", 2.0), ("resin", None, "ml", 4.0)]


def test_only_what_was_done_counts(store: Store) -> None:
    planned = step("mix", use("resin", 900, "g"), status="planned")
    assert totals(store, planned, step("mix", use("resin", 100, "g"))) == [("resin", None, "g", 100.0)]


def test_a_sum_says_what_it_lacks_and_what_is_queried(store: Store) -> None:
    build = build_of(store)
    flag = Flag("amount", "out of range")
    _, [first, second, third] = spoken(
        store, build, "batches",
        step("mix", use("resin", 100, "g"), flags=(flag, Flag("places", "unclear"))),
        step("mix", use("resin")),
        step("mix", use("resin", 50, "g", amount_most=Fraction(60))),
    )  # fmt: skip
    [total] = recipe(store, build.id).totals
    assert (total.amount, total.amount_most, total.flags) == (150.0, 160.0, (flag,))
    assert total.step_ids == (first.id, third.id)
    assert total.without_amount == (second.id,)
    assert not total.sure


def test_a_corrected_amount_is_the_one_that_counts(store: Store) -> None:
    build = build_of(store)
    _, [first] = spoken(store, build, "mixed", step("mix", use("resin", 420, "g")))
    store.correct_step(first.id, {"materials.0.amount": 120}, None, "", AT)
    assert [total.amount for total in recipe(store, build.id).totals] == [120.0]


def test_layers_add_up_by_weight(store: Store) -> None:
    build = build_of(store)
    mat = Layer("chopped strand mat", evidence("mat"), Fraction(2), Fraction(450))
    light = Layer("chopped strand mat", evidence("mat"), Fraction(1), Fraction(300))
    _, steps = spoken(
        store, build, "layers",
        step("laminate", layers=(mat, light)), step("laminate", layers=(mat,)),
        step("laminate", layers=(Layer("chopped strand mat", evidence("more"), None, Fraction(300)),)),
    )  # fmt: skip
    assert [(x.gsm, x.count, x.without_count) for x in recipe(store, build.id).layers] == [
        (450.0, 4.0, ()),
        (300.0, 1.0, (steps[2].id,)),
    ]
