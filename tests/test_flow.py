"""The way of a note from end to end, on real speech."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from journal import flow
from journal.capture.kind import CaptureError
from journal.flow import Incoming
from journal.keep.views import FieldError, NotKept

SPOKEN = "notes/niche-3-03.opus"  # 300 g of epoxy gel coat, 87 g of hardener, 100 to 29


def test_a_spoken_mix_becomes_a_step_whose_values_point_to_the_words_and_seconds(shop, sample):
    taken = flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN), who="lead maker"))
    note = flow.process_note(shop, taken.id)
    assert note.state == "read"
    [step] = shop.store.steps("niche-9")
    amounts = {use.name: (float(use.amount), use.unit) for use in step.record.materials}
    assert amounts == {"epoxy gel coat": (300, "g"), "hardener": (87, "g")}
    assert [float(part) for part in step.record.ratio.parts] == [100, 29]
    for use in step.record.materials:
        start, end = use.evidence.chars
        assert note.text[start:end] == use.evidence.heard
        began, ended = use.evidence.audio
        assert 0 <= began < ended <= note.clip.duration_s


def test_the_original_is_kept_to_the_byte_and_the_same_file_is_one_note(shop, sample):
    first = flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN)))
    again = flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN), filename="other name.opus"))
    assert (first.created, again.created, first.id) == (True, False, again.id)
    assert shop.media.read(first.note.clip.sha256) == sample(SPOKEN)


def test_the_time_of_a_note_is_the_given_one_else_the_files_else_its_arrival(shop, sample):
    in_file = flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN))).note
    assert (in_file.recorded_at, in_file.clip.time_source) == (datetime(2026, 11, 23, 14, 5, tzinfo=UTC), "file")
    given = datetime(2026, 11, 24, 8, 0, tzinfo=UTC)
    note = flow.take_in(shop, "niche-9", Incoming(sample("notes/paw-1-01.opus"), given_time=given)).note
    assert (note.recorded_at, note.clip.time_source) == (given, "given")
    assert flow.take_in(shop, "niche-9", Incoming(b"Two coats of wax.")).note.recorded_at == shop.now()


def test_a_later_note_is_read_in_the_light_of_earlier_ones(shop):
    for minute, words in enumerate(
        (b"Mixed 700 grams of polyester gel coat with 14 grams of catalyst.", b"Same again.")
    ):
        at = datetime(2026, 4, 13, 10, minute, tzinfo=UTC)
        flow.take_in(shop, "niche-9", Incoming(words, given_time=at))
    flow.process_waiting(shop)
    first, second = shop.store.steps("niche-9")
    said = [(use.name, use.amount, use.unit) for use in first.record.materials]
    assert said == [(use.name, use.amount, use.unit) for use in second.record.materials]
    assert second.record.clock == ()


def test_a_photo_joins_the_build_at_the_time_it_was_taken_and_its_copies_carry_no_metadata(shop, sample):
    photo = flow.take_in(shop, "niche-9", Incoming(sample("photos/niche-2-a.jpg"))).photo
    assert photo.photo.taken_at == datetime(2026, 4, 13, 12, 25, tzinfo=UTC)
    for name in (flow.PAGE_COPY, flow.THUMBNAIL):
        copy = shop.media.derived(photo.photo.sha256, name)
        assert b"Exif" not in copy
        assert b"2026:04:13" not in copy


@pytest.mark.parametrize(
    ("data", "says"),
    [(b"", "empty"), (b"OggS" + b"\0" * 400, "damaged|no sound"), (b"\x89PNG\r\n\x1a\n" + b"\0" * 50, "photo|picture")],
)
def test_a_bad_file_is_a_clear_error_and_the_rest_goes_on(shop, sample, data, says):
    with pytest.raises(CaptureError, match=says):
        flow.take_in(shop, "niche-9", Incoming(data))
    assert flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN))).created


def test_a_file_over_the_limit_is_refused_with_the_limit(shop, sample):
    shop.settings = shop.settings.model_copy(update={"max_bytes": 1000})
    with pytest.raises(CaptureError, match="limit"):
        flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN)))


def test_a_note_that_cannot_be_heard_is_failed_with_the_reason_and_its_recording_stays(shop, sample):
    shop.settings = shop.settings.model_copy(update={"weights": str(shop.settings.data_dir / "nowhere")})
    taken = flow.take_in(shop, "niche-9", Incoming(sample(SPOKEN)))
    note = flow.process_note(shop, taken.id)
    assert note.state == "failed"
    assert "nowhere" in note.error
    assert shop.media.read(taken.note.clip.sha256) == sample(SPOKEN)


def test_a_fault_of_ours_fails_the_note_and_keeps_what_was_said(shop, monkeypatch):
    note = flow.take_in(shop, "niche-9", Incoming(b"Two coats of wax.")).note
    monkeypatch.setattr(shop.reader, "read", lambda *_: 1 / 0)
    failed = flow.process_note(shop, note.id)
    assert (failed.state, failed.text) == ("failed", "Two coats of wax.")
    assert flow.OUR_FAULT in failed.error
    assert shop.store.notes_waiting() == []


def test_a_correction_stands_beside_what_was_first_read(shop):
    flow.take_in(shop, "niche-9", Incoming(b"Mixed 400 grams of laminating epoxy."))
    flow.process_waiting(shop)
    [step] = shop.store.steps("niche-9")
    corrected = flow.correct(shop, step.id, {"materials.0.amount": 420}, "lead maker", "said 420")
    assert float(corrected.record.materials[0].amount) == 420
    assert corrected.first_read["materials"][0]["amount"] == 400
    with pytest.raises(FieldError):
        flow.correct(shop, step.id, {"materials.0.weight": 1}, "lead maker", "")


def test_a_correction_is_queried_like_a_reading(shop):
    said = b"Mixed 300 grams of laminating epoxy with 84 grams of hardener, 100 to 28."
    flow.take_in(shop, "niche-9", Incoming(said))
    flow.process_waiting(shop)
    [step] = shop.store.steps("niche-9")
    assert step.record.flags == ()
    wrong = flow.correct(shop, step.id, {"materials.1.amount": 57}, "apprentice", "")
    assert [flag.field for flag in wrong.record.flags] == ["ratio"]
    assert "32 % under" in wrong.record.flags[0].why
    assert flow.correct(shop, step.id, {"materials.1.amount": 84}, "lead maker", "").record.flags == ()


def test_a_general_word_brings_the_cautions_of_all_that_it_may_mean(shop):
    flow.take_in(shop, "niche-9", Incoming(b"Brushed resin on the flange."))
    flow.process_waiting(shop)
    cautions = flow.build_sheet(shop, "niche-9").cautions
    assert any("skin" in caution for caution in cautions)
    assert any("Styrene" in caution for caution in cautions)


def test_an_unknown_build_keeps_nothing(shop, sample):
    with pytest.raises(NotKept):
        flow.take_in(shop, "no such build", Incoming(sample(SPOKEN)))


def test_a_sheet_shows_cautions_for_what_was_used(shop):
    flow.take_in(shop, "niche-9", Incoming(b"Mixed 700 grams of polyester gel coat with 14 grams of catalyst."))
    flow.process_waiting(shop)
    sheet = flow.build_sheet(shop, "niche-9")
    assert any("goggles" in caution for caution in sheet.cautions)
    assert "safety data sheet" in sheet.cautions[-1]


def test_a_search_finds_the_words_of_a_step(shop):
    flow.take_in(shop, "niche-9", Incoming(b"Brushed two coats of shellac on the left scroll."))
    flow.process_waiting(shop)
    assert {hit.build_key for hit in flow.search(shop, "shellac material:shellac")} == {"niche-9"}
    assert flow.search(shop, "vacuum") == []
