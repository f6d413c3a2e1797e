"""Builds are laid side by side by what was done, where and with what, not by position."""

from __future__ import annotations

from journal.review.align import align
from tests.keep.made import phrase, step, use
from tests.review.made import built, ids, layer

GEL = use("polyester gel coat")


def rows(catalogue, *records):
    return [(row.act, ids(row.steps)) for row in align(records, catalogue).rows]


def test_steps_meet_by_act_and_material_whatever_their_position(catalogue):
    first = built("a-1", (0, step("seal", use("shellac"))), (2, step("brush", GEL)))
    second = built(
        "a-2", (0, step("clean", use("acetone"))), (1, step("brush", GEL)), (2, step("seal", use("shellac")))
    )
    assert rows(catalogue, first, second) == [("clean", [None, 200]), ("seal", [100, 202]), ("brush", [101, 201])]


def test_the_order_decides_between_steps_that_are_alike(catalogue):
    twice = [(1, step("brush", GEL)), (3, step("brush", GEL))]
    assert rows(catalogue, built("a-1", *twice), built("a-2", *twice)) == [
        ("brush", [100, 200]),
        ("brush", [101, 201]),
    ]
    assert rows(catalogue, built("a-1", *twice), built("a-2", twice[0])) == [
        ("brush", [100, 200]),
        ("brush", [101, None]),
    ]


def test_the_place_decides_before_the_order(catalogue):
    left, right = (step("brush", GEL, places=(phrase(place),)) for place in ("left scroll", "right scroll"))
    first, second = built("a-1", (1, left), (2, right)), built("a-2", (1, right), (2, left))
    assert rows(catalogue, first, second) == [("brush", [100, 201]), ("brush", [101, 200])]


def test_another_tool_for_the_same_act_is_the_same_step_and_another_material_too(catalogue):
    first = built("a-1", (0, step("brush", use("release wax"))), (1, step("laminate", layers=(layer("glass cloth"),))))
    second = built(
        "a-2", (0, step("spray", use("release wax"))), (1, step("laminate", layers=(layer("chopped strand mat"),)))
    )
    assert rows(catalogue, first, second) == [("brush", [100, 200]), ("laminate", [101, 201])]


def test_missing_and_extra_steps_stand_in_their_place_and_looking_is_no_step(catalogue):
    first = built("a-1", (0, step("brush", GEL)), (1, step("check")), (2, step("roll")))
    second = built("a-2", (0, step("brush", GEL)), (1, step("fill", use("milled fibre"))), (2, step("roll")))
    found = align([first, second], catalogue).rows
    assert [(row.act, ids(row.steps)) for row in found] == [
        ("brush", [100, 200]),
        ("fill", [None, 201]),
        ("roll", [102, 202]),
    ]
    assert found[1].beside.step_ids == (None, 201)


def test_work_on_the_finished_mould_is_not_laid_to_its_making(catalogue):
    wax = step("release", use("release wax"))
    first = built("a-1", (0, wax), (9, step("demould")))
    second = built("a-2", (0, step("demould")), (1, wax))
    assert ("release", [100, None]) in rows(catalogue, first, second)


def test_three_builds_share_rows_and_planned_steps_are_left_out(catalogue):
    planned = step("fill", status="planned")
    records = [built(f"a-{n}", (0, step("brush", GEL)), (1, planned), (2, step("demould"))) for n in (1, 2, 3)]
    assert rows(catalogue, *records) == [("brush", [100, 200, 300]), ("demould", [102, 202, 302])]


def test_a_build_without_steps_is_an_empty_column(catalogue):
    assert rows(catalogue, built("a-1"), built("a-2", (0, step("roll")))) == [("roll", [None, 200])]
    assert rows(catalogue, built("a-1", (0, step("roll"))), built("a-2")) == [("roll", [100, None])]
