"""Plans are kept as they were made; the latest of a build is in force, and skips are added to it."""

from __future__ import annotations

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from journal.keep.plan_views import NewPlan, NewSkip
from journal.keep.store import Store
from journal.keep.views import FieldError, NotKept
from tests.keep.made import AT, build_of, minutes

STEPS = ({"number": 1, "action": "seal"}, {"number": 2, "action": "release"})


def planned(store: Store) -> NewPlan:
    build_of(store)
    build_of(store)
    return NewPlan("niche-1", {"by": "area", "factor": 1.5}, STEPS, "lead maker")


def test_a_plan_comes_back_as_it_was_made(store: Store) -> None:
    made = store.add_plan("niche-2", planned(store), AT)
    assert store.plan("niche-2") == made
    assert (made.build_key, made.recipe_key, made.who, made.started_at) == ("niche-2", "niche-1", "lead maker", AT)
    assert made.steps == STEPS
    assert made.scaled == {"by": "area", "factor": 1.5}
    assert store.plan("niche-1") is None


def test_the_latest_plan_of_a_build_is_in_force(store: Store) -> None:
    first = store.add_plan("niche-2", planned(store), AT)
    later = store.add_plan("niche-2", NewPlan("niche-1", {}, STEPS[:1]), minutes(5))
    assert store.plan("niche-2") == later
    assert [plan.id for plan in store.plans()] == [later.id, first.id]


def test_a_step_is_skipped_once_with_the_words_that_said_so(store: Store) -> None:
    store.add_plan("niche-2", planned(store), AT)
    store.skip_planned("niche-2", NewSkip(2, "skip that", who="apprentice"), minutes(3))
    again = store.skip_planned("niche-2", NewSkip(2, "skip it again"), minutes(4))
    assert [(skip.number, skip.words, skip.who, skip.at) for skip in again.skips] == [
        (2, "skip that", "apprentice", minutes(3))
    ]


def test_what_cannot_be_planned_or_skipped_is_refused(store: Store) -> None:
    new = planned(store)
    with pytest.raises(FieldError, match="are none"):
        store.add_plan("niche-2", NewPlan("niche-1", {}, ()), AT)
    with pytest.raises(NotKept, match="no plan"):
        store.skip_planned("niche-2", NewSkip(1), AT)
    with pytest.raises(NotKept):
        store.add_plan("no-such", new, AT)
    store.add_plan("niche-2", new, AT)
    with pytest.raises(FieldError, match="1 to 2"):
        store.skip_planned("niche-2", NewSkip(3), AT)


@pytest.mark.parametrize("line", ["UPDATE plan SET who = 'x'", "DELETE FROM plan", "DELETE FROM plan_skip"])
def test_the_database_refuses_to_alter_a_plan(store: Store, line: str) -> None:
    store.add_plan("niche-2", planned(store), AT)
    store.skip_planned("niche-2", NewSkip(1), AT)
    with pytest.raises(DBAPIError), store.writing() as session:
        session.execute(text(line))
