"""A training sheet holds what was done, in order, in the makers' words, and invents nothing."""

from __future__ import annotations

import pytest

from journal.keep.views import FieldError, NotKept
from journal.review.values import rows
from journal.teach.sheet import ADVICE, CUE, REASON, training_sheet
from journal.teach.taught import load_taught
from journal.teach.teach import sheet_of
from tests.keep.made import phrase, step, use
from tests.review.made import built
from tests.teach.made import BELOW, mixed, shown, taught


@pytest.fixture(scope="module")
def sheet(workshop):
    return sheet_of(workshop.store, workshop.catalogue, ["niche-2"], workshop.settings.confirm_below)


def lesson(sheet, item, place=0):
    return [each for each in sheet.lessons if each.item == item][place]


def test_the_acts_stand_in_the_order_they_were_done_until_castings_are_taken(sheet):
    times = [each.done.step.act_at for each in sheet.lessons]
    assert times == sorted(times)
    items = [each.item for each in sheet.lessons]
    assert items[0] == "seal: shellac"
    assert "mix: polyester gel coat and catalyst" in items
    assert not any(item.startswith("pull") for item in items)


def test_each_value_is_one_of_the_record_and_none_is_invented(sheet):
    for each in sheet.lessons:
        told = {value for row in rows(each.done.step.record) for value in row.values}
        assert {value for row in each.done.rows for value in row.values} <= told


def test_words_are_the_makers_own(sheet, workshop):
    for each in sheet.lessons:
        note = workshop.store.note(each.voice.note_id)
        assert each.voice.text in note.text
        assert each.voice.who == note.who
        for saying in each.sayings:
            assert saying.voice.text.casefold() in workshop.store.note(saying.voice.note_id).text.casefold()


def test_a_queried_amount_is_marked(sheet):
    again = lesson(sheet, "mix: polyester gel coat and catalyst", 1)  # "same again": nobody said how much
    assert {"materials.0", "materials.1"} <= again.done.doubtful
    assert [flag.field for flag in again.done.flags] == ["amount", "amount"]
    assert "polyester gel coat" in sheet.in_doubt


def test_cues_reasons_and_advice_stand_with_their_act(sheet):
    said = {(saying.kind, saying.voice.text) for each in sheet.lessons for saying in each.sayings}
    assert (CUE, "until it was one colour with no streaks") in said
    assert (REASON, "so the glass does not bridge") in said
    assert any(kind == ADVICE and "Don't brush it twice" in text for kind, text in said)


def test_cautions_go_with_the_first_use_of_a_material(sheet):
    first, second = (lesson(sheet, "mix: polyester gel coat and catalyst", i) for i in (0, 1))
    assert any("Peroxide harms eyes" in text for text in first.cautions)
    assert second.cautions == ()
    assert any("Peroxide harms eyes" in text for text in sheet.cautions)


def test_past_builds_of_the_mould_warn_with_what_could_have_brought_a_fault_about(sheet):
    soft = next(each for each in sheet.mistakes if each.kind == "fault" and each.words.startswith("soft"))
    assert soft.builds == ("niche-1",)
    assert any("could bear on soft" in words for words in soft.could)
    assert all("did " not in words for words in soft.could)
    opened = lesson(sheet, "demould")
    assert sheet.mistakes.index(soft) + 1 in opened.mistakes


def test_a_build_that_failed_is_taught_as_a_warning(workshop):
    found = sheet_of(workshop.store, workshop.catalogue, ["niche-1"], BELOW)
    assert "niche-1 failed: learn from what went wrong, do not repeat it." in found.lacks


def test_of_several_builds_the_one_that_worked_comes_first_and_differences_are_told(catalogue):
    seal = step("seal", use("shellac"), words="sealed")
    one = built("niche-1", (1, seal), (3, mixed("polyester gel coat", "catalyst", 700, 14)), (9, step("demould")))
    two = built("niche-2", (1, seal), (3, mixed("polyester gel coat", "catalyst", 500, 10)), (5, step("roll")))
    three = built("niche-3", (1, seal), (2, step("degas")), outcome="failed")
    found = training_sheet(taught(one, two, three), catalogue, BELOW)
    common = {each.item: each.common for each in found.lessons}
    assert common == {
        "seal: shellac": True, "degas": False, "mix: polyester gel coat and catalyst": True, "roll": False,
        "demould": False,
    }  # fmt: skip
    mix = lesson(found, "mix: polyester gel coat and catalyst")
    assert [(other.build_key, [v.amount for v in other.rows[0].values]) for other in mix.others] == [
        ("niche-2", ["500\u00a0g", "10\u00a0g"])
    ]
    assert found.done_on(mix) == "Done on all that worked: niche-1, niche-2."


def test_photos_stand_with_the_act_they_were_taken_near(catalogue):
    one = built("niche-1", (1, step("seal", use("shellac"))), (3, step("roll")))
    near = shown("niche-1", one.steps[1].act_at, step_id=one.steps[1].id)
    found = training_sheet(taught(one, photos=(near,)), catalogue, BELOW)
    assert [each.photos for each in found.lessons] == [(), (near,)]


def test_a_warning_of_a_check_stands_with_the_act_before_it(catalogue):
    one = built("niche-1", (1, step("brush", use("polyester gel coat"))), (2, step("check", cues=(phrase("tacky"),))))
    found = training_sheet(taught(one), catalogue, BELOW)
    assert [(s.kind, s.voice.text) for s in found.lessons[0].sayings] == [(CUE, "tacky")]


def test_what_is_not_there_is_refused(workshop):
    with pytest.raises(NotKept):
        load_taught(workshop.store, ["nowhere-9"])
    with pytest.raises(FieldError, match="1 to 6 builds"):
        load_taught(workshop.store, [])


def test_a_build_without_steps_says_so(catalogue):
    assert "No step that was done is recorded." in training_sheet(taught(built("niche-1")), catalogue, BELOW).lacks
