"""What a person puts on record of a mould is a note with a step, that counts like any other."""

from __future__ import annotations

from datetime import timedelta

import pytest

from journal.keep.store import Store
from journal.keep.views import FieldError, NewMould, NewNote, NotKept
from journal.review.builds import load, load_all
from journal.review.life import life_of, said_retired
from journal.review.outcome import NewOutcome, record_outcome, told
from tests.api.workshop import MORNING

LATER = MORNING + timedelta(days=20)


def put(store, kind, **more):
    return record_outcome(store, "paw-1", NewOutcome(kind, more.pop("at", LATER), **more), LATER + timedelta(days=30))


@pytest.fixture
def store(tmp_path):
    store = Store(f"sqlite:///{tmp_path}/mouldbook.db")
    store.migrate()
    store.add_mould(NewMould("Paw"), MORNING)
    store.add_build("paw", MORNING)
    store.set_outcome("paw-1", "worked", "", None, MORNING)
    yield store
    store.close()


def test_every_value_points_to_its_words():
    new = NewOutcome("pull", LATER, "small chip on the edge", "chip", "left scroll", 3, "second maker")
    text, step = told(new)
    assert text == "Pull 3: chip, small chip on the edge; at left scroll."
    assert (step.action, step.status, step.pull) == ("pull", "done", 3)
    for evidence in (step.evidence, step.observations[0].evidence, step.places[0].evidence):
        assert text[slice(*evidence.chars)] == evidence.heard
    assert step.observations[0].evidence.heard == "chip, small chip on the edge"
    assert step.places[0].evidence.heard == "left scroll"


def test_a_life_is_put_on_record_from_the_opening_to_its_end(store, catalogue):
    put(store, "opened", seen="good", words="came off clean")
    put(store, "pull", number=1, at=LATER + timedelta(days=1))
    put(store, "pull", number=2, seen="chip", at=LATER + timedelta(days=2))
    put(store, "repair", words="filled the chip", place="edge", at=LATER + timedelta(days=3))
    kept = put(store, "retired", words="worn out", at=LATER + timedelta(days=9), who="lead maker")
    life = life_of(load(store, "paw-1"), catalogue)
    assert [(event.kind, event.pulls) for event in life.events] == [
        ("opened", 0), ("pull", 1), ("pull", 2), ("fault", 2), ("repair", 2), ("retired", 2),
    ]  # fmt: skip
    assert (life.retired, life.lived, life.sound) == (True, (2, True), (2, True))
    assert not any(event.doubts for event in life.events)
    assert store.mould("paw").status == "retired"
    assert kept.confirmed_by == "lead maker"
    assert [change.what for change in store.history("step", kept.id)] == ["confirmed"]
    assert store.note(kept.note_id).state == "read"


def test_one_making_retired_leaves_a_mould_with_another_in_use(store):
    store.add_build("paw", MORNING)
    store.set_outcome("paw-2", "worked", "", None, MORNING)
    put(store, "opened")
    put(store, "retired")
    assert store.mould("paw").status == "in use"


def test_a_withdrawn_entry_is_out_of_the_life(store, catalogue):
    put(store, "opened")
    kept = put(store, "retired")
    store.withdraw_step(kept.id, None, "it is not", LATER)
    record = load(store, "paw-1")
    assert life_of(record, catalogue).of("retired") == ()


@pytest.mark.parametrize(
    ("new", "field"),
    [
        (NewOutcome("lost", LATER), "kind"),
        (NewOutcome("pull", LATER + timedelta(days=90)), "at"),
        (NewOutcome("pull", LATER.replace(tzinfo=None)), "at"),
        (NewOutcome("pull", LATER, seen="ugly"), "seen"),
        (NewOutcome("fault", LATER, "something"), "seen"),
        (NewOutcome("repair", LATER, number=3), "number"),
        (NewOutcome("pull", LATER, number=0), "number"),
    ],
)
def test_what_is_not_right_is_told_and_nothing_is_kept(store, new, field):
    with pytest.raises(FieldError) as told_so:
        record_outcome(store, "paw-1", new, LATER + timedelta(days=30))
    assert told_so.value.field == field
    assert store.notes("paw-1") == []


def test_a_pull_that_is_on_record_is_not_put_there_twice(store):
    first = put(store, "pull", number=1)
    with pytest.raises(FieldError, match=f"correct step {first.id} instead"):
        put(store, "pull", number=1, at=LATER + timedelta(hours=1))
    with pytest.raises(NotKept):
        record_outcome(store, "nothing", NewOutcome("pull", LATER), LATER)


def test_a_retirement_that_was_only_heard_is_in_doubt_and_does_not_count(store, catalogue):
    put(store, "opened")
    put(store, "pull", number=1, at=LATER + timedelta(days=1))
    store.add_note("paw-1", NewNote(LATER + timedelta(days=2), text="The paw mould is worn out. Bin it."))
    (record,) = load_all(store)
    life = life_of(record, catalogue)
    (heard,) = life.of("retired")
    assert (heard.step_id, heard.words, bool(heard.doubts)) == (None, "The paw mould is worn out", True)
    assert not life.retired
    put(store, "pull", number=2, at=LATER + timedelta(days=3))  # it gave another, so it was not
    assert life_of(load(store, "paw-1"), catalogue).of("retired") == ()


@pytest.mark.parametrize(
    ("words", "clause"),
    [
        ("We retired the mould today", "We retired the mould today"),
        ("it is not worn out yet", ""),
        ("Fine. Scrap it, no more castings.", "Scrap it"),
        ("when it is worn out we make another", ""),
        ("nearly worn out", ""),
        ("two coats of wax", ""),
    ],
)
def test_the_clause_that_says_a_life_is_over(words, clause):
    assert said_retired(words) == clause


def test_all_builds_at_once_are_the_builds_one_by_one(workshop):
    together = load_all(workshop.store)
    assert together == [load(workshop.store, build.id) for build in workshop.store.builds()]
    assert load_all(workshop.store, "niche") == [load(workshop.store, b.id) for b in workshop.store.builds("niche")]
