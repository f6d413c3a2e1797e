"""Lots and materials in use: what steps say, joined with what people state."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from journal.keep.store import Store
from journal.keep.views import FieldError, NewLot
from journal.record import Layer
from tests.keep.made import AT, build_of, evidence, minutes, spoken, step, use

TIN = NewLot("laminating epoxy", "4471", "A", minutes(-60), date(2027, 1, 31), 5000, "g")


def test_a_lot_spoken_of_is_known_with_its_uses(store: Store) -> None:
    build = build_of(store)
    spoken(store, build, "lot", step("weigh", use("laminating epoxy", 400, "g", part="A", lot="4471")))
    spoken(
        store, build, "again",
        step("mix", use("laminating epoxy", 400, "g", part="A", lot="4471")),
        step("weigh", use("laminating epoxy", 1, "g", part="A", lot="9999"), status="planned"),
        at=minutes(4),
    )  # fmt: skip
    [lot] = store.lots()
    assert (lot.material, lot.part, lot.number, lot.opened_at) == ("laminating epoxy", "A", "4471", AT)
    assert lot.step_ids == tuple(each.id for each in store.steps(build.id)[:2])
    assert lot.use_by is None


def test_what_is_stated_about_a_lot_joins_what_was_said(store: Store) -> None:
    build = build_of(store)
    spoken(store, build, "lot", step("weigh", use("laminating epoxy", 400, "g", part="A", lot="4471")))
    stated = store.state_lot(TIN, AT, "lead maker")
    assert store.lots() == [stated]
    assert (stated.opened_at, stated.use_by, stated.amount, stated.unit) == (
        minutes(-60),
        date(2027, 1, 31),
        5000,
        "g",
    )
    assert len(stated.step_ids) == 1
    assert store.lot("4471") == [stated]
    assert store.lot("none") == []


def test_stating_again_is_history(store: Store) -> None:
    first = store.state_lot(TIN, AT)
    store.state_lot(replace(TIN, amount=4000), minutes(1), "lead maker")
    assert len(store.lots()) == 1
    assert first.id is not None
    stated, restated = store.history("lot", first.id)
    assert stated.before is None
    assert (restated.before["amount"], restated.after["amount"]) == (5000, 4000)


def test_a_lot_number_put_right_leaves_no_wrong_lot(store: Store) -> None:
    build = build_of(store)
    _, [first] = spoken(store, build, "lot", step("weigh", use("hardener", 9, "g", lot="4417")))
    store.correct_step(first.id, {"materials.0.lot": "4471"}, None, "", AT)
    assert [lot.number for lot in store.lots()] == ["4471"]


@pytest.mark.parametrize(
    ("lot", "field"),
    [
        (replace(TIN, material=" "), "material"),
        (replace(TIN, number=""), "number"),
        (replace(TIN, amount=-1), "amount"),
        (replace(TIN, unit=None), "unit"),
        (replace(TIN, unit="tins"), "unit"),
    ],
)
def test_a_bad_lot_is_refused(store: Store, lot: NewLot, field: str) -> None:
    with pytest.raises(FieldError) as caught:
        store.state_lot(lot, AT)
    assert caught.value.field == field


def test_materials_in_use_are_those_of_the_builds_steps(store: Store) -> None:
    build, other = build_of(store), build_of(store)
    mat = (Layer("chopped strand mat", evidence("mat")),)
    spoken(
        store, build, "all",
        step("mix", use("laminating epoxy", 400, "g", part="A", lot="1")),
        step("laminate", use("laminating epoxy", part="A", lot="2"), layers=mat * 2),
        step("brush", use("pva release"), status="planned"),
    )  # fmt: skip
    spoken(store, other, "other", step("mix", use("latex")))
    used = store.materials_in_use(build.key)
    assert [(each.name, each.part, each.lots) for each in used] == [
        ("laminating epoxy", "A", ("1", "2")),
        ("chopped strand mat", None, ()),
    ]
    assert len(used[0].step_ids) == 2
