"""Notes: kept once, heard, read, and never altered."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta, timezone

import pytest

from journal.keep.store import Store
from journal.keep.views import FieldError, KeepError, KeyReused, NewNote, NotKept
from journal.record import Transcript
from tests.keep.made import AT, build_of, clip, heard, minutes, spoken, step, use


def test_a_recording_goes_from_kept_to_heard_to_read(store: Store) -> None:
    build = build_of(store)
    note, created = store.add_note(build.key, NewNote(AT, clip=clip(), who="apprentice", device="bench 2"))
    assert created
    assert (note.state, note.text, note.clip) == ("kept", None, clip())
    assert (note.who, note.device, note.recorded_at) == ("apprentice", "bench 2", AT)
    transcript = heard("mixed four hundred grams")
    heard_note = store.keep_transcript(note.id, transcript, minutes(1))
    assert (heard_note.state, heard_note.text, heard_note.transcript) == (
        "heard",
        transcript.text,
        transcript,
    )
    steps = store.keep_steps(note.id, [step("mix", use("hardener", 87, "g"))], "reader 1", minutes(2))
    assert store.note(note.id).state == "read"
    assert store.steps(build.key) == steps
    assert steps[0].record == step("mix", use("hardener", 87, "g"))


def test_typed_text_needs_no_hearing(store: Store) -> None:
    build = build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, text="  shop's at nineteen "))
    assert (note.state, note.text, note.typed) == ("heard", "shop's at nineteen", True)
    store.keep_steps(note.id, [step()], "reader 1", AT)
    assert store.note(note.id).state == "read"
    with pytest.raises(FieldError, match="typed"):
        store.keep_transcript(note.id, heard("other words"), AT)


def test_the_same_bytes_twice_in_a_build_are_one_note(store: Store) -> None:
    build, other = build_of(store), build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, clip=clip()))
    assert store.add_note(build.id, NewNote(minutes(5), clip=clip())) == (note, False)
    assert store.add_note(other.id, NewNote(AT, clip=clip()))[1]


def test_the_same_client_key_twice_is_one_note(store: Store) -> None:
    build = build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, text="same again", client_key="k1"))
    assert store.add_note(build.id, NewNote(AT, text="same again", client_key="k1")) == (note, False)


def test_a_client_key_with_other_content_loses_neither(store: Store) -> None:
    build, other = build_of(store), build_of(store)
    store.add_note(build.id, NewNote(AT, clip=clip("one"), client_key="k1"))
    with pytest.raises(KeyReused, match="k1"):
        store.add_note(build.id, NewNote(AT, clip=clip("two"), client_key="k1"))
    with pytest.raises(KeyReused):
        store.add_note(other.id, NewNote(AT, clip=clip("one"), client_key="k1"))
    assert len(store.notes(build.id)) == 1


def test_the_same_words_typed_at_another_time_are_another_note(store: Store) -> None:
    build = build_of(store)
    assert store.add_note(build.id, NewNote(AT, text="same again"))[1]
    assert store.add_note(build.id, NewNote(minutes(5), text="same again"))[1]
    assert not store.add_note(build.id, NewNote(AT, text="same again"))[1]


@pytest.mark.parametrize(
    ("note", "field"),
    [
        (NewNote(AT), "text"),
        (NewNote(AT, text="  "), "text"),
        (NewNote(AT, text="a\0b"), "text"),
        (NewNote(AT, text="words", clip=clip()), "text"),
        (NewNote(AT, text="words", who="w" * 201), "who"),
    ],
)
def test_a_note_that_says_nothing_or_two_things_is_refused(store: Store, note: NewNote, field: str) -> None:
    build = build_of(store)
    with pytest.raises(FieldError) as caught:
        store.add_note(build.id, note)
    assert caught.value.field == field


def test_a_note_without_a_zone_is_refused(store: Store) -> None:
    build = build_of(store)
    with pytest.raises(ValueError, match="offset"):
        store.add_note(build.id, NewNote(datetime(2026, 5, 4, 14, 10), text="words"))  # noqa: DTZ001


def test_notes_come_in_the_order_they_were_recorded_whatever_their_offset(store: Store) -> None:
    build = build_of(store)
    last, _ = store.add_note(build.id, NewNote(minutes(30), text="third"))
    winter = datetime(2026, 5, 4, 13, 20, tzinfo=timezone(timedelta(0)))  # 14:20 in summer time
    middle, _ = store.add_note(build.id, NewNote(winter, text="second"))
    first, _ = store.add_note(build.id, NewNote(AT, text="first"))
    assert [note.id for note in store.notes(build.id)] == [first.id, middle.id, last.id]


def test_notes_waiting_are_those_not_read_and_not_failed(store: Store) -> None:
    build = build_of(store)
    ids = [store.add_note(build.id, NewNote(minutes(n), clip=clip(str(n))))[0].id for n in range(4)]
    store.keep_transcript(ids[1], heard("some words"), AT)
    store.keep_transcript(ids[2], heard("other words"), AT)
    store.keep_steps(ids[2], [], "reader 1", AT)
    store.fail_note(ids[3], "the file holds no sound", AT)
    assert [note.id for note in store.notes_waiting()] == ids[:2]
    assert store.note(ids[3]).error == "the file holds no sound"


def test_a_failed_note_can_be_tried_again_from_where_it_was(store: Store) -> None:
    build = build_of(store)
    unheard, _ = store.add_note(build.id, NewNote(AT, clip=clip("a")))
    heard_one, _ = store.add_note(build.id, NewNote(AT, clip=clip("b")))
    store.keep_transcript(heard_one.id, heard("some words"), AT)
    for note in (unheard, heard_one):
        store.fail_note(note.id, "no memory", AT)
    assert store.retry_note(unheard.id, AT).state == "kept"
    assert store.retry_note(heard_one.id, AT).state == "heard"
    assert store.retry_note(heard_one.id, AT).error == ""


def test_hearing_again_adds_a_hearing_and_keeps_the_first(store: Store) -> None:
    build = build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, clip=clip()))
    first, second = heard("gel code on the flange"), heard("gel coat on the flange")
    store.keep_transcript(note.id, first, minutes(1))
    assert store.keep_transcript(note.id, second, minutes(2)).text == "gel coat on the flange"
    hearings = store.hearings(note.id)
    assert [(h.number, h.transcript, h.heard_at) for h in hearings] == [
        (1, first, minutes(1)),
        (2, second, minutes(2)),
    ]


def test_reading_again_takes_the_place_of_the_last_reading(store: Store) -> None:
    build = build_of(store)
    note_id, _ = spoken(store, build, "mixed it", step("mix"), step("brush"))
    steps = store.keep_steps(note_id, [step("pour")], "reader 2", minutes(9))
    assert [each.record.action for each in store.steps(build.id)] == ["pour"]
    assert steps == store.steps(build.id)
    readings = store.readings(note_id)
    assert [(r.number, r.reader_version, r.in_force) for r in readings] == [
        (1, "reader 1", False),
        (2, "reader 2", True),
    ]
    assert [each.action for each in readings[0].steps] == ["mix", "brush"]


@pytest.mark.parametrize("word", ["corrected", "confirmed", "withdrawn"])
def test_a_persons_word_stands_against_a_new_reading(store: Store, word: str) -> None:
    build = build_of(store)
    note_id, [first] = spoken(store, build, "mixed it", step("mix"))
    if word == "corrected":
        store.correct_step(first.id, {"action": "pour"}, "lead maker", "", AT)
    elif word == "confirmed":
        store.confirm_step(first.id, "lead maker", AT)
    else:
        store.withdraw_step(first.id, "lead maker", "it was the radio", AT)
    standing = store.step(first.id)
    assert store.keep_steps(note_id, [step("brush")], "reader 2", AT) == [standing]
    assert store.readings(note_id)[1].steps == (step("brush"),)
    assert not store.readings(note_id)[1].in_force


def test_a_recording_is_not_read_before_it_is_heard(store: Store) -> None:
    build = build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, clip=clip()))
    with pytest.raises(KeepError, match="not been heard"):
        store.keep_steps(note.id, [step()], "reader 1", AT)


def test_silence_is_heard_as_no_words(store: Store) -> None:
    build = build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, clip=clip()))
    assert store.keep_transcript(note.id, Transcript(""), AT).text == ""


def test_every_detail_of_a_transcript_comes_back(store: Store) -> None:
    build = build_of(store)
    note, _ = store.add_note(build.id, NewNote(AT, clip=clip()))
    from journal.record import Alternative

    said = heard("for 120 grams")
    other = Alternative("four twenty grams", heard("four twenty grams").words, -0.31, "beam")
    said = replace(said, alternatives=(other,), doubts=("low probability", "repeats"))
    assert store.keep_transcript(note.id, said, AT).transcript == said


def test_an_unknown_note_is_not_kept(store: Store) -> None:
    for ask in (store.note, store.hearings, store.readings, store.note_steps):
        with pytest.raises(NotKept, match="no note 7"):
            ask(7)


def test_a_notes_history_tells_its_whole_way(store: Store) -> None:
    build = build_of(store)
    note_id, _ = spoken(store, build, "mixed it", step("mix"))
    store.fail_note(note_id, "no room on the disk", minutes(3))
    assert [change.what for change in store.history("note", note_id)] == ["added", "heard", "read", "failed"]
    assert store.history("note", note_id)[-1].why == "no room on the disk"
