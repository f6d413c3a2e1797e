"""Into a shop that has something already: nothing there is altered, and every conflict is told on one line."""

from __future__ import annotations

import json

import pytest

from journal.keep.exchange.document import gather
from journal.keep.exchange.exchange import bring_in, export
from journal.keep.training_views import NewTest
from journal.keep.views import NewMould, NewNote
from tests.keep.exchange.filled import NAMES
from tests.keep.made import AT, minutes, step

MOST = 1_000_000


@pytest.fixture
def exported(filled, media, tmp_path):
    export(filled, media, tmp_path / "out", "json", minutes(40))
    return tmp_path / "out"


@pytest.fixture
def twin(empty, media, exported):
    """A store that holds what the export holds."""
    bring_in(empty, media, exported, MOST, minutes(50))
    return empty


def taken(store, media, exported):
    return bring_in(store, media, exported, MOST, minutes(90))


def test_a_correction_made_here_stays_and_is_told(twin, media, exported):
    step_id = next(s.id for s in twin.note_steps(1) if s.record.action == "mix")
    twin.correct_step(step_id, {"materials.0.amount": 999}, "lead maker", "weighed again", minutes(60))
    before = gather(twin, AT)
    report = taken(twin, media, exported)
    assert report.conflicts == ("note 1 of niche-1: differs from the one here in steps; the one here stays as it is",)
    assert gather(twin, AT) == before


def test_an_outcome_said_here_stays_and_is_told(twin, media, exported):
    twin.set_outcome("niche-1", "worked", "after all", "second maker", minutes(60))
    before = gather(twin, AT)
    report = taken(twin, media, exported)
    [build, mould] = sorted(report.conflicts)
    assert build.startswith("build niche-1: ") or build.startswith("build Niche 1: ")
    assert "outcome" in build
    assert mould.startswith("mould Niche: differs")
    assert gather(twin, AT) == before


def test_notes_that_are_new_go_into_the_build_that_is_here(twin, media, exported, filled, tmp_path):
    note, _ = filled.add_note("niche-1", NewNote(minutes(45), text="one more"))
    filled.keep_steps(note.id, [step("clean")], "reader 1", minutes(46))
    ours, _ = twin.add_note("niche-1", NewNote(minutes(47), text="ours, with the same number"))
    assert ours.id == note.id
    export(filled, media, tmp_path / "later", "json", minutes(48))
    report = bring_in(twin, media, tmp_path / "later", MOST, minutes(90))
    assert report.whole, report.conflicts
    texts = [each.text for each in twin.notes("niche-1")]
    assert {"one more", "ours, with the same number"} <= set(texts)
    brought = next(each for each in twin.notes("niche-1") if each.text == "one more")
    assert brought.id != ours.id
    assert [each.record.action for each in twin.note_steps(brought.id)] == ["clean"]
    assert [change.what for change in twin.history("note", brought.id)] == ["added", "read"]


def test_another_mould_of_the_same_name_is_left_out_with_all_that_is_of_it(empty, media, exported):
    empty.add_mould(NewMould("Niche", "quite another pattern"), AT)
    build = empty.add_build("niche", minutes(-600))
    empty.add_note(build.key, NewNote(AT, text="ours"))
    before = gather(empty, AT)
    report = taken(empty, media, exported)
    assert "another one of that name is here" in report.conflicts[0]
    assert all("left out, because" in conflict for conflict in report.conflicts[1:])
    assert [mould.name for mould in empty.moulds()] == ["Niche", "Paw"]
    assert [note.text for note in empty.notes(build.key)] == ["ours"]
    assert gather(empty, AT)["notes"] == before["notes"]


def test_another_build_of_the_same_name_is_left_out(empty, media, exported):
    empty.add_mould(NewMould("Niche", NAMES, 2, '1.2 m, "high"', 1.2, "line one\nline two, =1+1"), AT, "lead maker")
    empty.add_build("niche", minutes(-600))
    report = taken(empty, media, exported)
    assert any(c.startswith("build ") and "another one of that name" in c for c in report.conflicts)
    assert empty.notes("niche-1") == []
    assert len(empty.notes("niche-again")) == 2


def test_ids_in_a_marked_test_follow_their_notes_steps_and_photos(empty, media, exported):
    empty.add_mould(NewMould("Cornice"), AT)
    build = empty.add_build("cornice", AT)
    note, _ = empty.add_note(build.key, NewNote(AT, text="takes the first number"))
    empty.keep_steps(note.id, [step("clean")], "reader 1", AT)
    empty.keep_test(NewTest("apprentice", (build.key,), 1, ({"kind": "order", "right": False},)), AT)
    report = taken(empty, media, exported)
    assert report.whole, report.conflicts
    [test] = empty.training_tests("niche-1")
    [said] = test.answers[0]["evidence"]
    assert empty.note(said["note_id"]).build_key == "niche-1"
    assert empty.step(said["step_id"]).note_id == said["note_id"]
    assert said["note_id"] != note.id
    [planned] = empty.plan("niche-again").steps
    assert (planned["note_id"], planned["step_id"]) == (said["note_id"], said["step_id"])
    again = taken(empty, media, exported)  # ids that had to change are no difference
    assert again.whole, again.conflicts
    assert again.new == {}


def test_a_client_key_of_something_else_is_no_way_in(empty, media, exported):
    empty.add_mould(NewMould("Cornice"), AT)
    build = empty.add_build("cornice", AT)
    empty.add_note(build.key, NewNote(AT, text="ours", client_key="key-1"))
    report = taken(empty, media, exported)
    assert any("its client_key 'key-1' belongs to something else here" in each for each in report.conflicts)
    assert empty.note_sent_as("key-1").text == "ours"


def test_the_order_of_the_file_does_not_matter(filled, media, empty, exported):
    document = json.loads((exported / "mouldbook.json").read_text())
    backwards = {name: rows[::-1] if isinstance(rows, list) else rows for name, rows in document.items()}
    (exported / "mouldbook.json").write_text(json.dumps(backwards))
    assert taken(empty, media, exported).whole
    assert gather(empty, AT) == gather(filled, AT)
