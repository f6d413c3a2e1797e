"""What is commanded aloud is done to the record when its note is read, and stands in the history."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from journal import flow
from journal.flow import Incoming
from journal.keep.views import NoteView
from journal.obey import obey
from journal.record import Alternative, NoteText, Transcript, Word
from journal.shop import Shop

MORNING = datetime(2026, 4, 13, 10, tzinfo=UTC)
MIX = "Mixed 400 grams of laminating epoxy with 116 grams of hardener."


def say(shop: Shop, *texts: str) -> list[NoteView]:
    notes = []
    for minute, text in enumerate(texts):
        at = MORNING + timedelta(minutes=minute)
        notes.append(flow.take_in(shop, "niche-9", Incoming(text.encode(), given_time=at, who="lead maker")).note)
    flow.process_waiting(shop)
    return [shop.store.note(note.id) for note in notes]


def weighed(shop: Shop, note: NoteView) -> list[float]:
    [step] = shop.store.note_steps(note.id)
    return [float(use.amount) for use in step.record.materials]


def test_a_correction_joins_the_history_and_points_to_its_note(shop):
    mixed, said = say(shop, MIX, "Correct that to 420 grams.")
    [step] = shop.store.note_steps(mixed.id)
    assert weighed(shop, mixed) == [420, 116]
    assert step.first_read["materials"][0]["amount"] == 400  # what was read stays
    change = shop.store.history("step", step.id)[-1]
    assert (change.what, change.who) == ("corrected", "lead maker")
    assert change.why == f'said in note {said.id}: "Correct that to 420 grams."'
    assert shop.store.note_steps(said.id) == []
    came = shop.store.command_of(said.id)
    assert came["applied"]
    assert came["steps"] == [step.id]
    assert came["chars"] == [0, 26]
    assert "400\u00a0g laminating epoxy is now 420\u00a0g" in came["said"]


def test_a_correction_that_breaks_the_ratio_is_queried(shop):
    mixed, said = say(
        shop, "Mixed 400 grams of laminating epoxy with 116 grams of hardener, 100 to 29.", "Correct that to 310."
    )
    [step] = shop.store.note_steps(mixed.id)
    assert [flag.field for flag in step.record.flags]
    assert "Check:" in shop.store.command_of(said.id)["said"]


def test_a_correction_that_fits_two_values_changes_nothing_and_is_queried(shop):
    mixed, said = say(shop, MIX, "Correct that to 180.")
    assert weighed(shop, mixed) == [400, 116]
    [step] = shop.store.note_steps(mixed.id)
    assert "Correct that to 180" in step.record.flags[-1].why
    assert not shop.store.command_of(said.id)["applied"]


def test_a_place_is_corrected(shop):
    laid, _ = say(shop, "Two layers of 450 chopped strand mat on the rim.", "That was the flange, not the rim.")
    [step] = shop.store.note_steps(laid.id)
    assert [place.text for place in step.record.places] == ["flange"]


def test_a_cancelled_note_is_kept_and_its_steps_are_withdrawn(shop):
    [note] = say(shop, MIX + " Cancel that note.")
    assert note.text.startswith("Mixed 400")
    [step] = shop.store.note_steps(note.id)
    assert step.withdrawn
    assert shop.store.cancelled(note.id) == "Cancel that note."
    assert shop.store.steps("niche-9") == []


def test_the_last_note_is_cancelled_and_a_correction_then_means_the_one_before(shop):
    first, second, third, fourth = say(
        shop, "Mixed 300 grams of gel coat.", MIX, "Scratch that note.", "Correct that to 320."
    )
    assert shop.store.cancelled(second.id).startswith("Scratch that note.")
    assert shop.store.cancelled(first.id) is None
    assert weighed(shop, first) == [320]
    assert shop.store.command_of(third.id)["said"] == "Cancelled the note of 10:01."
    assert shop.store.command_of(fourth.id)["applied"]


def test_a_note_cancelled_by_its_sender_is_withdrawn_when_it_is_read(shop):
    taken = flow.take_in(shop, "niche-9", Incoming(MIX.encode(), given_time=MORNING))
    shop.store.cancel_note(taken.id, "Escape", shop.now())
    shop.store.cancel_note(taken.id, "Escape", shop.now())
    flow.process_waiting(shop)
    assert [step.withdrawn for step in shop.store.note_steps(taken.id)] == [True]
    assert [change.what for change in shop.store.history("note", taken.id)].count("cancelled") == 1


def heard(text: str, unsure: str = "", other: str = "") -> NoteText:
    words, at = [], 0
    for i, word in enumerate(text.split()):
        at = text.index(word, at)
        words.append(Word(word, (at, at + len(word)), i / 2, i / 2 + 0.4, 0.3 if word == unsure else 0.95))
    others = (Alternative(other, (), -0.5),) if other else ()
    return NoteText(text, MORNING, transcript=Transcript(text, tuple(words), others))


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (heard("Correct that to 420.", unsure="420."), "heard with 30% confidence"),
        (heard("Correct that to 420.", other="Correct that to 440."), "could have been"),
    ],
)
def test_a_number_that_was_not_heard_for_sure_changes_nothing(shop, text, why):
    mixed, said = say(shop, MIX, "Brushed it on.")
    obey(shop, said, text, flow.commanded(shop, text))
    came = shop.store.command_of(said.id)
    assert why in came["said"]
    assert not came["applied"]
    assert weighed(shop, mixed) == [400, 116]


def test_a_spoken_correction_names_its_seconds(shop):
    mixed, said = say(shop, MIX, "Brushed it on.")
    text = heard("Correct that to 420.")
    for _ in range(2):  # done once, however often the note is processed
        obey(shop, said, text, flow.commanded(shop, text))
    [step] = shop.store.note_steps(mixed.id)
    [change] = shop.store.history("step", step.id)
    assert "at 0 to 1.9 s" in change.why
    assert shop.store.command_of(said.id)["audio"] == [0.0, 1.9]
    assert replace(text, transcript=None).text == text.text
