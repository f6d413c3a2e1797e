"""Moulds and builds: names, keys, outcomes."""

from __future__ import annotations

import pytest

from journal.keep.store import Store
from journal.keep.views import FieldError, NameTaken, NewMould, NotKept
from tests.keep.made import AT, build_of, minutes, spoken, step


def test_a_mould_comes_back_by_id_key_and_name(store: Store) -> None:
    mould = store.add_mould(NewMould("Lion Paw Foot", "carved pine", 3, "40 cm", 0.35, "deep toes"), AT)
    assert mould.key == "lion-paw-foot"
    assert mould.status == "planned"
    for key in (mould.id, "lion-paw-foot", "Lion Paw Foot", "lion paw foot", str(mould.id)):
        assert store.mould(key) == mould
    assert store.moulds() == [mould]


@pytest.mark.parametrize(
    ("name", "key"), [("Énorme  façade", "enorme-facade"), ("Ёлка", "елка"), ("a/b?c#d", "a-b-c-d")]
)
def test_keys_are_fit_for_addresses(store: Store, name: str, key: str) -> None:
    assert store.add_mould(NewMould(name), AT).key == key


@pytest.mark.parametrize("again", ["Niche", "niche", " NICHE ", "niche!"])
def test_a_name_is_taken_once(store: Store, again: str) -> None:
    store.add_mould(NewMould("Niche"), AT)
    with pytest.raises(NameTaken, match="choose another name"):
        store.add_mould(NewMould(again), AT)


@pytest.mark.parametrize(
    ("mould", "field"),
    [
        (NewMould(""), "name"),
        (NewMould("!!!"), "name"),
        (NewMould("n" * 300), "name"),
        (NewMould("with\0nul"), "name"),
        (NewMould("Niche", pieces=0), "pieces"),
        (NewMould("Niche", area_m2=-1), "area_m2"),
        (NewMould("Niche", area_m2=float("nan")), "area_m2"),
    ],
)
def test_a_bad_mould_is_refused_with_the_field_named(store: Store, mould: NewMould, field: str) -> None:
    with pytest.raises(FieldError) as caught:
        store.add_mould(mould, AT)
    assert caught.value.field == field
    assert store.moulds() == []


@pytest.mark.parametrize("key", ["nothing", "", "%", 99, "99", "9" * 30, "²"])
def test_an_unknown_mould_or_build_is_not_kept(store: Store, key: str | int) -> None:
    with pytest.raises(NotKept):
        store.mould(key)
    with pytest.raises(NotKept):
        store.build(key)


def test_builds_are_numbered_when_not_named(store: Store) -> None:
    assert build_of(store).name == "Niche 1"
    assert store.add_build("niche", AT, "Niche 2").key == "niche-2"
    assert store.add_build("niche", AT, "The third").key == "the-third"
    assert build_of(store).name == "Niche 4"
    with pytest.raises(NameTaken):
        store.add_build("niche", AT, "niche 4")


def test_a_number_that_was_given_by_hand_is_passed_over(store: Store) -> None:
    store.add_mould(NewMould("Niche"), AT)
    store.add_build("niche", AT, "Niche 2")
    assert store.add_build("niche", AT).key == "niche-3"


def test_builds_come_in_the_order_they_were_started(store: Store) -> None:
    store.add_mould(NewMould("Niche"), AT)
    store.add_mould(NewMould("Cornice"), AT)
    late = store.add_build("niche", minutes(9))
    early = store.add_build("cornice", minutes(3))
    assert [build.id for build in store.builds()] == [early.id, late.id]
    assert [build.id for build in store.builds("niche")] == [late.id]


def test_an_outcome_is_kept_with_who_and_when(store: Store) -> None:
    build = build_of(store)
    assert build.outcome == "under way"
    failed = store.set_outcome(build.key, "failed", "soft gel coat", "lead maker", minutes(60))
    assert (failed.outcome, failed.outcome_text, failed.outcome_by) == (
        "failed",
        "soft gel coat",
        "lead maker",
    )
    assert failed.outcome_at == minutes(60)
    change = store.history("build", build.id)[-1]
    assert change.before == {"outcome": "under way", "text": ""}
    assert (change.who, change.at, change.why) == ("lead maker", minutes(60), "soft gel coat")


def test_an_unknown_outcome_is_refused(store: Store) -> None:
    build = build_of(store)
    with pytest.raises(FieldError, match="under way, worked, failed, given up"):
        store.set_outcome(build.key, "fine", "", None, AT)  # type: ignore[arg-type]


def test_the_status_of_a_mould_follows_its_builds(store: Store) -> None:
    first = build_of(store)
    assert store.mould("niche").status == "being made"
    store.set_outcome(first.id, "failed", "", None, AT)
    assert store.mould("niche").status == "planned"
    second = build_of(store)
    store.set_outcome(second.id, "worked", "", None, AT)
    assert store.mould("niche").status == "in use"
    third = build_of(store)
    store.set_outcome(third.id, "given up", "", None, AT)
    assert store.mould("niche").status == "in use"
    store.set_mould_status("niche", "retired", AT, "lead maker", "worn at the rim")
    store.set_outcome(third.id, "worked", "", None, AT)
    assert store.mould("niche").status == "retired"
    assert [change.after for change in store.history("mould", store.mould("niche").id)[1:]] == [
        "being made",
        "planned",
        "being made",
        "in use",
        "retired",
    ]


def test_a_build_counts_what_it_has(store: Store) -> None:
    build = build_of(store)
    spoken(store, build, "pull number one", step("pull", pull=1), step("check"))
    counted = store.build(build.id)
    assert (counted.notes, counted.steps, counted.photos) == (1, 2, 0)
    assert (store.mould("niche").builds, store.mould("niche").pulls) == (1, 1)
