"""Whole notes, read as they come."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.record import NoteText, step_to_json
from tests.read.reading import RECORDED, build, reader, steps, weighed

WORDS = st.sampled_from(
    "mixed four hundred grams of resin and 112 hardener no scratch that wax the flange left it twenty minutes at two "
    "then layers 450 mat same again half that 100:28 by weight . , ? gel coat until it is tacky don't or".split()
)


def test_the_same_note_gives_the_same_reading() -> None:
    note = NoteText("Mixed 300 grams of epoxy gel coat with 45 of hardener.", RECORDED)
    assert reader().read(note) == reader().read(note)


def test_an_empty_note_has_no_steps() -> None:
    assert steps("") == ()
    assert steps("   ") == ()


def test_dictated_stops_are_stops() -> None:
    found = steps("waxed the flange full stop mixed 200 grams of epoxy gel coat with 30 of hardener full stop")
    assert [step.action for step in found] == ["release", "mix"]


def test_a_morning_is_read_in_order() -> None:
    found = steps(
        "So I gave the mould a wipe with acetone, put three coats of wax on it, then mixed three hundred grams of "
        "epoxy gel coat with forty five of hardener and brushed it on at ten past nine."
    )
    assert [step.action for step in found] == ["clean", "release", "mix", "brush"]
    assert weighed(found[2]) == [("epoxy gel coat", 300, "g"), ("hardener", 45, "g")]
    assert [c.at.isoformat() for c in found[3].clock] == ["2026-05-04T09:10:00+01:00"]


def test_a_build_is_read_in_the_light_of_its_notes() -> None:
    (step,) = build(
        "Mixed 300 grams of epoxy gel coat with 45 of hardener.", "Brushed the gel coat on the left scroll."
    )
    assert [m.name for m in step.materials] == ["epoxy gel coat"]


def test_a_note_without_time_has_no_clock() -> None:
    (step,) = reader().read(NoteText("Popped it at half eight.")).steps
    assert step.clock == ()


@settings(max_examples=60, deadline=None)
@given(st.lists(WORDS, max_size=40))
def test_no_words_in_any_order_make_reading_fail(words: list[str]) -> None:
    text = " ".join(words)
    for step in steps(text):
        record = step_to_json(step)
        start, end = record["chars"]
        assert text[start:end] == record["heard"]


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Tomorrow I'm fittin' the ribs.", "fittin"),
        ("mixin 400 grams of epoxy", "mixin"),
        ("We’re pourin’ the jacket at four.", "pourin"),
    ],
)
def test_a_dropped_g_is_read_and_the_words_stay_as_they_were_said(text: str, heard: str) -> None:
    words = reader().words(NoteText(text, RECORDED))
    assert heard + "g" in words.lower
    assert words.doc.text == text


@pytest.mark.parametrize("text", ["the resin's in", "the 'resin' and a thin basin", "again in the bin"])
def test_words_that_end_in_in_keep_their_ending(text: str) -> None:
    assert not [word for word in reader().words(NoteText(text, RECORDED)).lower if word.endswith("ing")]
