"""Where a lot went, forwards to moulds and pulls, and what went into a pull; checked on small builds by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from journal import flow
from journal.keep.views import FieldError, NotKept
from journal.record import Flag
from journal.review.trace import IN_MOULD, IN_PULL, trace_batch, trace_lot, trace_material, trace_pull
from tests.keep.made import step, use
from tests.review.made import built, layer

BRUSH = step("brush", use("polyester gel coat"))
GLASS = step("laminate", layers=(layer("chopped strand mat", 2, 450),))
DEMOULD = step("demould")


def pulled(number):
    return step("pull", pull=number)


def gel_mix(lot=None, **more):
    return step("mix", use("polyester gel coat", 600, "g", lot=lot), use("catalyst", 12, "g"), **more)


def resin_mix(lot=None):
    return step("mix", use("polyester resin", 900, "g", lot=lot), use("catalyst", 18, "g"))


def used(trace):
    return [(each.step_id, each.named) for each in trace.used]


def reached(trace):
    return [(pull.build_key, pull.number, pull.how) for pull in trace.pulls]


def test_a_lot_goes_through_its_batch_to_the_mould_and_every_pull(catalogue):
    made = built("a-1", (0, gel_mix("4471")), (0.2, BRUSH), (90, DEMOULD), (200, pulled(1)), (300, pulled(2)))
    other = built("a-2", (0, gel_mix("4472")), (0.2, BRUSH), (90, DEMOULD), (200, pulled(1)))
    trace = trace_lot([made, other], "4471", catalogue)
    assert used(trace) == [(100, True), (101, False)]
    assert trace.moulds == ("niche",)
    assert trace.builds == ("a-1",)
    assert reached(trace) == [("a-1", 1, IN_MOULD), ("a-1", 2, IN_MOULD)]
    assert (trace.used[0].amount, trace.used[0].unit, trace.used[0].lot) == (600.0, "g", "4471")


def test_a_lot_is_found_however_its_number_is_written(catalogue):
    made = built("a-1", (0, gel_mix("B 44-71")))
    assert trace_lot([made], "b4471", catalogue).found
    assert not trace_lot([made], "4471", catalogue).found


def test_a_new_batch_of_the_material_ends_the_one_before(catalogue):
    made = built("a-1", (0, gel_mix("4471")), (0.2, BRUSH), (3, gel_mix("9")), (3.2, BRUSH))
    assert used(trace_lot([made], "4471", catalogue)) == [(100, True), (101, False)]


def test_a_batch_that_was_weighed_and_then_mixed_is_one(catalogue):
    weighed = step("weigh", use("polyester gel coat", 600, "g", lot="4471"))
    made = built("a-1", (0, weighed), (0.1, gel_mix()), (0.2, BRUSH))
    assert used(trace_lot([made], "4471", catalogue)) == [(100, True), (101, False), (102, False)]


def test_glass_is_laid_with_the_resin_mixed_last_even_when_that_is_told_after_it(catalogue):
    made = built("a-1", (0, resin_mix("77")), (0.2, GLASS), (2, resin_mix("78")), (2.2, GLASS))
    assert used(trace_lot([made], "77", catalogue)) == [(100, True), (101, False)]
    told = built("a-2", (0, GLASS), (0, resin_mix("77")))
    one_note = replace(told, steps=tuple(replace(each, note_id=1) for each in told.steps))
    assert {step_id for step_id, _ in used(trace_lot([one_note], "77", catalogue))} == {200, 201}


def test_what_was_mixed_has_set_by_the_next_day(catalogue):
    made = built("a-1", (0, gel_mix("4471")), (0.2, BRUSH), (30, BRUSH))
    assert used(trace_lot([made], "4471", catalogue)) == [(100, True), (101, False)]


def test_what_is_mixed_on_the_finished_mould_goes_into_the_next_pull_only(catalogue):
    made = built(
        "a-1", (0, gel_mix("1")), (90, DEMOULD), (199, resin_mix("77")), (199.5, GLASS), (210, pulled(1)),
        (300, pulled(2)),
    )  # fmt: skip
    assert reached(trace_lot([made], "77", catalogue)) == [("a-1", 1, IN_PULL)]
    assert reached(trace_lot([made], "1", catalogue)) == [("a-1", 1, IN_MOULD), ("a-1", 2, IN_MOULD)]


def test_a_repair_stays_in_the_mould(catalogue):
    mend = step("repair", use("polyester gel coat", lot="5"))
    made = built(
        "a-1", (0, gel_mix("1")), (90, DEMOULD), (100, pulled(1)), (110, mend), (200, pulled(2)), (300, pulled(3))
    )
    assert reached(trace_lot([made], "5", catalogue)) == [("a-1", 2, IN_MOULD), ("a-1", 3, IN_MOULD)]


def test_builds_that_never_said_their_lot_are_told(catalogue):
    said, unsaid = built("a-1", (0, gel_mix("4471"))), built("a-2", (0, gel_mix()))
    assert "a-2" in trace_lot([said, unsaid], "4471", catalogue).warnings[0]
    assert trace_lot([said], "4471", catalogue).warnings == ()


def test_queried_amounts_stay_queried(catalogue):
    made = built("a-1", (0, gel_mix("4471", flags=(Flag("amount", "heard as sixteen"),))))
    assert trace_lot([made], "4471", catalogue).used[0].doubts == ("heard as sixteen",)


def test_a_material_is_followed_by_its_synonyms_and_its_layers(catalogue):
    made = built("a-1", (0, gel_mix()), (0.2, GLASS))
    assert [step_id for step_id, _ in used(trace_material([made], "MEKP", catalogue))] == [100, 101]
    assert used(trace_material([made], "CSM", catalogue)) == [(101, True)]


def test_a_batch_is_followed_alone(catalogue):
    made = built("a-1", (0, gel_mix()), (0.2, BRUSH), (3, gel_mix()), (3.2, BRUSH))
    assert used(trace_batch([made], 102, catalogue)) == [(102, True), (102, True), (103, False)]


def test_a_pull_leads_back_to_the_lots_of_its_mould_and_its_own(catalogue):
    made = built(
        "a-1", (0, gel_mix("4471")), (90, DEMOULD), (199, resin_mix("77")), (210, pulled(1)), (299, resin_mix("78")),
        (310, pulled(2)),
    )  # fmt: skip
    back = trace_pull([made], 105)
    lots = {(lot.material, lot.lot): lot.how for lot in back.lots if lot.lot}
    assert lots == {("polyester gel coat", "4471"): IN_MOULD, ("polyester resin", "78"): IN_PULL}
    assert "catalyst" in back.warnings[0]
    assert back.direction == "back"


def test_forwards_and_back_agree(catalogue):
    made = built("a-1", (0, gel_mix("4471")), (90, DEMOULD), (199, resin_mix("77")), (210, pulled(1)), (310, pulled(2)))
    for lot in ("4471", "77"):
        forwards = {pull.step_id for pull in trace_lot([made], lot, catalogue).pulls}
        back = {s for s in (103, 104) if lot in {each.lot for each in trace_pull([made], s).lots}}
        assert forwards == back


def test_the_demo_is_traced_from_what_is_kept(workshop):
    forwards = flow.trace(workshop, "catalyst")
    assert {"niche-1", "niche-2"} <= set(forwards.builds)
    assert [pull.number for pull in forwards.pulls if pull.build_key == "niche-2"] == [1, 2]
    assert flow.trace(workshop, "niche pull 2").lots
    assert flow.trace(workshop, "niche-2 cast number 1").lots


def test_what_is_not_there_says_what_is(workshop):
    with pytest.raises(NotKept, match="there are 1, 2"):
        flow.trace(workshop, "niche pull 7")
    with pytest.raises(NotKept, match="nothing is kept of"):
        flow.trace(workshop, "lot 9999")
    with pytest.raises(FieldError, match="name a lot"):
        flow.trace(workshop, "  ")
