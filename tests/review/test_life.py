"""The life of a mould, and which recipe lasts longest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from journal.review.builds import load
from journal.review.life import MouldLife, lasting, life_of, verdict
from tests.keep.made import seen, step, use
from tests.review.made import built


def life(pulls, retired, recipe=("polyester resin",), key="a-1"):
    return MouldLife(key, "a", recipe, "worked", retired, pulls, False, ())


def test_recipes_are_compared_and_few_worn_out_moulds_are_told():
    lives = [life(20 + n, True, ("epoxy gel coat",), f"b-{n}") for n in range(5)] + [life(6, True)]
    first, second = lasting([*lives, replace(life(99, True), outcome="failed")])
    assert first.recipe == ("epoxy gel coat",)
    assert (first.to_retirement.median, first.to_retirement.warning) == (22.0, "")
    assert second.builds == ("a-1",)
    assert second.to_retirement.warning == "only 1 of 1 have worn out: too few to say"
    assert verdict(lives).startswith("Too few moulds were repaired")


def test_a_life_counts_pulls_faults_and_repairs_in_order(catalogue):
    chipped = step("pull", pull=2, observations=(seen("chip", "small chip"),))
    record = built(
        "a-1",
        (0, step("mix", use("polyester gel coat", 600, "g"), use("catalyst", 12, "g"))),
        (90, step("demould", observations=(seen("good", "came off clean"),))),
        (100, step("pull", pull=1)),
        (120, chipped),
        (121, step("repair", use("polyester gel coat"))),
        (300, step("pull", pull=9)),
    )
    found = life_of(record, catalogue)
    assert [(event.kind, event.pulls) for event in found.events] == [
        ("opened", 0), ("pull", 1), ("pull", 2), ("fault", 2), ("repair", 2), ("pull", 9),
    ]  # fmt: skip
    assert (found.pulls, found.least, found.retired) == (9, True, False)
    assert found.recipe == ("polyester gel coat",)
    retired = replace(record, mould=replace(record.mould, status="retired"))
    assert life_of(retired, catalogue).retired


def test_the_demo_mould_has_two_pulls_and_a_chip(workshop):
    found = life_of(load(workshop.store, "niche-2"), workshop.catalogue)
    assert found.pulls == 2
    assert any("chip" in event.words for event in found.of("fault"))
    assert [event.pulls for event in found.of("pull")] == [1, 2]


@pytest.mark.parametrize("key", ["niche-1", "niche-3"])
def test_a_mould_that_gave_no_casting_has_no_pulls(workshop, key):
    assert life_of(load(workshop.store, key), workshop.catalogue).pulls == 0
