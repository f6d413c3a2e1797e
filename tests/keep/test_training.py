"""Self-tests and sign-offs are only ever added to."""

from __future__ import annotations

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from journal.keep.training_views import NewSignOff, NewTest
from journal.keep.views import FieldError, NotKept
from journal.teach.progress import progress_of
from tests.keep.made import AT, build_of, minutes

ANSWERS = ({"kind": "weigh", "right": True}, {"kind": "weigh", "right": False}, {"kind": "order", "right": True})


def signed(store, build, verdict="signed", maker="lead maker", at=AT, item="mix: epoxy"):
    new = NewSignOff("Apprentice", maker, (("gel coat", item),), verdict, "by eye")
    return store.sign_off(build.key, new, at)


def test_a_test_comes_back_as_it_was_marked(store):
    build, other = build_of(store), build_of(store)
    kept = store.keep_test(NewTest(" Apprentice ", (build.key, other.key), 7, ANSWERS), AT)
    assert store.training_test(kept.id) == kept
    assert (kept.apprentice, kept.builds, kept.asked, kept.right) == ("Apprentice", (build.key, other.key), 3, 2)
    assert (kept.taken_at, kept.answers) == (AT, ANSWERS)
    assert store.training_tests(build.key) == [kept]
    assert store.training_tests(other.key) == []


def test_the_latest_word_on_an_item_stands_and_every_entry_stays(store):
    build = build_of(store)
    store.keep_test(NewTest("Apprentice", (build.key,), 7, ANSWERS), AT)
    signed(store, build)
    signed(store, build, "taken back", "second maker", minutes(1))
    signed(store, build, item="roll")
    [one] = progress_of(store.training_tests(build.key), store.sign_offs(build.key))
    assert [entry.item for entry in one.signed] == ["roll"]
    assert [entry.verdict for entry in one.entries] == ["signed", "taken back", "signed"]
    assert [(tally.kind, tally.right, tally.asked) for tally in one.tallies] == [("order", 1, 1), ("weigh", 1, 2)]


def test_names_that_differ_in_capitals_are_one_apprentice(store):
    build = build_of(store)
    store.keep_test(NewTest("APPRENTICE", (build.key,), 7, ANSWERS), AT)
    signed(store, build)
    assert len(progress_of(store.training_tests(build.key), store.sign_offs(build.key))) == 1


@pytest.mark.parametrize("maker", ["apprentice", " APPRENTICE ", ""])
def test_nobody_signs_off_their_own_work_or_without_a_name(store, maker):
    build = build_of(store)
    with pytest.raises(FieldError, match="maker"):
        signed(store, build, maker=maker)
    assert store.sign_offs(build.key) == []


def test_what_is_not_there_is_refused(store):
    build = build_of(store)
    with pytest.raises(NotKept):
        store.training_test(9)
    with pytest.raises(NotKept):
        store.keep_test(NewTest("Apprentice", ("nowhere",), 7, ANSWERS), AT)
    with pytest.raises(FieldError, match="apprentice"):
        store.keep_test(NewTest(" ", (build.key,), 7, ANSWERS), AT)
    with pytest.raises(FieldError, match="items"):
        store.sign_off(build.key, NewSignOff("Apprentice", "lead maker", ()), AT)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE sign_off SET maker = 'x'",
        "DELETE FROM sign_off",
        "DELETE FROM training_test",
        "UPDATE training_test SET apprentice = 'x'",
    ],
)
def test_the_database_refuses_to_alter_an_entry(store, statement):
    build = build_of(store)
    store.keep_test(NewTest("Apprentice", (build.key,), 7, ANSWERS), AT)
    signed(store, build)
    with pytest.raises(DatabaseError, match="never altered"), store.engine.begin() as connection:
        connection.execute(text(statement))
