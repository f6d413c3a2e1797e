"""Steps: corrected, confirmed, withdrawn; pulls and faults come from them."""

from __future__ import annotations

from datetime import datetime

import pytest

from journal.keep.store import Store
from journal.keep.views import FieldError, KeepError, NotKept
from journal.record import ClockTime, step_to_json
from tests.keep.made import AT, build_of, evidence, minutes, phrase, seen, spoken, step, use


def test_a_correction_is_history_and_what_was_read_stays(store: Store) -> None:
    build = build_of(store)
    read = step("mix", use("hardener", 420, "g"))
    _, [first] = spoken(store, build, "four twenty of hardener", read)
    fixed = store.correct_step(first.id, {"materials.0.amount": 120}, "lead maker", "misheard", minutes(3))
    assert fixed.corrected
    assert fixed.record.materials[0].amount == 120
    assert fixed.first_read == step_to_json(read)
    assert store.step(first.id) == fixed
    [change] = store.history("step", first.id)
    assert (change.who, change.why, change.at, change.what) == (
        "lead maker",
        "misheard",
        minutes(3),
        "corrected",
    )
    assert (change.before, change.after) == (step_to_json(read), fixed.json)


def test_a_correction_that_changes_nothing_is_none(store: Store) -> None:
    build = build_of(store)
    _, [first] = spoken(store, build, "mixed it", step("mix"))
    assert not store.correct_step(first.id, {"action": "mix"}, None, "", AT).corrected
    assert store.history("step", first.id) == []


def test_a_refused_correction_changes_nothing(store: Store) -> None:
    build = build_of(store)
    _, [first] = spoken(store, build, "mixed it", step("mix"))
    with pytest.raises(FieldError):
        store.correct_step(first.id, {"action": "pour", "status": "maybe"}, None, "", AT)
    assert store.step(first.id) == first


def test_a_confirmed_step_says_by_whom_and_when(store: Store) -> None:
    build = build_of(store)
    _, [first] = spoken(store, build, "mixed it", step("mix"))
    assert not first.confirmed
    confirmed = store.confirm_step(first.id, "second maker", minutes(1))
    assert (confirmed.confirmed, confirmed.confirmed_by, confirmed.confirmed_at) == (
        True,
        "second maker",
        minutes(1),
    )


def test_a_withdrawn_step_leaves_the_build_but_not_the_history(store: Store) -> None:
    build = build_of(store)
    note_id, [first, second] = spoken(store, build, "radio", step("mix"), step("pour"))
    store.withdraw_step(first.id, "lead maker", "that was the radio", AT)
    assert [each.id for each in store.steps(build.id)] == [second.id]
    assert [each.withdrawn for each in store.note_steps(note_id)] == [True, False]
    assert store.history("step", first.id)[-1].why == "that was the radio"


def test_a_step_of_an_earlier_reading_cannot_be_corrected(store: Store) -> None:
    build = build_of(store)
    note_id, [first] = spoken(store, build, "mixed it", step("mix"))
    store.keep_steps(note_id, [step("pour")], "reader 2", AT)
    with pytest.raises(KeepError, match="read again"):
        store.correct_step(first.id, {"action": "brush"}, None, "", AT)


def test_an_unknown_step_is_not_kept(store: Store) -> None:
    with pytest.raises(NotKept):
        store.step(3)
    with pytest.raises(NotKept):
        store.confirm_step(3, None, AT)


def test_steps_come_in_the_order_they_were_spoken(store: Store) -> None:
    build = build_of(store)
    spoken(store, build, "later", step("pour"), step("cure"), at=minutes(10))
    spoken(store, build, "earlier", step("mix"), at=minutes(5))
    assert [each.record.action for each in store.steps(build.id)] == ["mix", "pour", "cure"]


def test_an_act_took_place_when_it_was_said_to(store: Store) -> None:
    build = build_of(store)
    began = datetime.fromisoformat("2026-05-04T13:55:00+01:00")
    clock = (ClockTime("start", began, evidence("quarter of an hour ago")),)
    _, [done, planned] = spoken(
        store, build, "started", step("cure", clock=clock), step("cure", clock=clock, status="planned")
    )
    assert (done.act_at, done.recorded_at) == (began, AT)
    assert planned.act_at == AT


def test_pulls_are_the_castings_taken(store: Store) -> None:
    build = build_of(store)
    spoken(store, build, "demould", step("demould"), step("pull", status="planned", pull=2))
    chipped = step("pull", pull=1, observations=(seen("chip", "chip at the rim"), seen("good", "sharp")))
    spoken(store, build, "pull one", chipped, at=minutes(5))
    [pull] = store.pulls("niche")
    assert (pull.number, pull.condition, pull.faults, pull.at) == (
        1,
        ("chip at the rim", "sharp"),
        ("chip",),
        minutes(5),
    )


def test_faults_name_their_places(store: Store) -> None:
    build, other = build_of(store), build_of(store, "Cornice")
    void = step(
        "check",
        places=(phrase("left scroll"),),
        observations=(seen("void", "small void"), seen("soft", "soft gel coat"), seen("good", "no drips")),
    )
    spoken(store, build, "void", void, step("check", observations=(seen("other", "cold"),)))
    spoken(store, other, "warped", step("check", observations=(seen("warp", "warped"),)), at=minutes(1))
    assert [(fault.kind, fault.places) for fault in store.faults(build_key=build.id)] == [
        ("void", ("left scroll",)),
        ("soft", ("left scroll",)),
    ]
    assert [fault.kind for fault in store.faults(mould_key="cornice")] == ["warp"]
    assert [fault.kind for fault in store.faults()] == ["void", "soft", "warp"]


def test_pulls_and_faults_follow_corrections(store: Store) -> None:
    build = build_of(store)
    _, [first] = spoken(store, build, "void", step("check", observations=(seen("void", "void"),)))
    store.correct_step(first.id, {"observations.0.kind": "bubble", "action": "pull", "pull": 3}, None, "", AT)
    assert [fault.kind for fault in store.faults()] == ["bubble"]
    assert [pull.number for pull in store.pulls("niche")] == [3]
