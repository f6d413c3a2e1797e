"""The answers of a self-test are the record's; what is in doubt is not asked."""

from __future__ import annotations

from datetime import timedelta
from random import Random

import pytest

from journal.record import Flag
from journal.teach.faults import fault_questions
from journal.teach.question import given_in, mark
from journal.teach.sheet import training_sheet
from journal.teach.teach import test_of as asked_of
from journal.teach.test import mark_all, self_test
from journal.teach.weighing import weigh_questions
from journal.teach.windows import window_questions
from tests.keep.made import evidence, phrase, seen, step, use
from tests.review.made import air, built
from tests.teach.made import BELOW, mixed, shown, taught

GEL = "epoxy gel coat"


def weigh(catalogue, *builds, seed=1):
    return list(weigh_questions(taught(*builds), catalogue, BELOW, Random(seed)))


def batch(outcome="worked", grams=200.0, second=None, parts=("100", "15"), **more):
    made = mixed(GEL, "hardener", grams, second or grams * 0.15, parts=parts, **more)
    return built("niche-1", (1, made), outcome=outcome)


# ---- weigh -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(8))
def test_a_weight_is_the_amount_times_the_builds_ratio(catalogue, seed):
    [question] = weigh(catalogue, batch(), seed=seed)
    main = float(question.asked.rpartition("go to ")[2].split()[0])
    assert main != 200
    assert question.amount == pytest.approx(main * 15 / 100)
    assert f"{question.amount:g} g" in question.reason


def test_three_hundred_grams_at_100_to_29_take_87(catalogue):
    # arithmetic, from memory: 300 x 29 / 100 = 87
    made = built("niche-1", (1, mixed("platinum silicone", "catalyst", 600, 174, parts=("100", "29"))))
    found = [question for seed in range(12) for question in weigh_questions(taught(made), empty(), BELOW, Random(seed))]
    weights = {question.amount for question in found if "go to 300 g" in question.asked}
    assert weights == {87.0}


def empty():
    """A catalogue that knows the material, and neither its ratio nor its tolerance."""
    from journal.trade.material import Material, catalogue_of

    silicone = Material("platinum silicone", "silicone", second_part="catalyst")
    return catalogue_of((silicone, Material("catalyst", "catalyst")))


def test_within_the_tolerance_is_right_and_beyond_it_wrong(catalogue):
    [question] = weigh(catalogue, batch())
    bears = question.tolerance_percent
    assert bears == catalogue.get(GEL).tolerance_percent
    for percent, right in ((0, True), (bears - 0.1, True), (bears + 0.1, False), (-bears - 0.1, False)):
        assert mark(question, str(question.amount * (1 + percent / 100))).right is right, percent


@pytest.mark.parametrize(
    ("given", "right"), [("4,5", True), ("4.5 g", True), ("four", False), ("", False), ("0", False)]
)
def test_a_weight_is_read_as_people_write_it(catalogue, given, right):
    question = next(q for seed in range(30) for q in weigh(catalogue, batch(grams=60.0), seed=seed) if q.amount == 4.5)
    assert mark(question, given).right is right


@pytest.mark.parametrize(
    "made",
    [
        pytest.param(batch(outcome="failed"), id="of a build that failed"),
        pytest.param(batch(outcome="under way"), id="of a build under way"),
        pytest.param(batch(flags=(Flag("ratio", "29 or 15?"),)), id="flagged ratio"),
        pytest.param(batch(flags=(Flag("amount", "which?"),)), id="flagged amount"),
        pytest.param(batch(second=58.0, parts=("100", "29")), id="not what the catalogue bears"),
        pytest.param(batch(by="volume"), id="by volume, weighed in grams"),
    ],
)
def test_a_ratio_that_could_be_wrong_is_not_asked(catalogue, made):
    assert weigh(catalogue, made) == []


def test_a_ratio_heard_with_little_confidence_is_not_asked(catalogue):
    unsure = use(GEL, 200, "g")
    made = step("mix", unsure, use("hardener", 30, "g"))
    object.__setattr__(unsure, "evidence", evidence("two hundred", confidence=0.4))
    assert weigh(catalogue, built("niche-1", (1, made))) == []


# ---- order -------------------------------------------------------------------------------------------


def built_in_order(key, *acts):
    return built(key, *((i, step(act)) for i, act in enumerate(acts, 1)))


def order_of(catalogue, *builds, seed=3):
    found = self_test(taught(*builds), training_sheet(taught(*builds), catalogue, BELOW), catalogue, BELOW, seed)
    return next((question for question in found.questions if question.kind == "order"), None)


def test_the_order_is_that_of_the_acts_and_only_that_is_right(catalogue):
    question = order_of(catalogue, built_in_order("niche-1", "clean", "seal", "release", "wall"))
    texts = {option.letter: option.text for option in question.options}
    assert [texts[letter] for letter in question.letters] == ["clean", "seal", "release", "wall"]
    assert mark(question, " ".join(question.letters.lower())).right
    backwards = mark(question, question.letters[::-1])
    assert not backwards.right
    assert "0 of 4 in their place" in backwards.remark
    assert not mark(question, question.letters[:2]).right


def test_acts_that_builds_did_in_different_order_are_not_asked(catalogue):
    one = built_in_order("niche-1", "clean", "seal", "release", "wall")
    two = built_in_order("niche-2", "seal", "clean", "release", "wall")
    question = order_of(catalogue, one, two)
    assert {"clean", "seal"} - {option.text for option in question.options}


def test_an_order_is_read_from_the_places_of_a_form(catalogue):
    question = order_of(catalogue, built_in_order("niche-1", "clean", "seal", "release"))
    fields = {f"{question.key}.{letter}": str(i) for i, letter in enumerate(question.letters, 1)}
    assert given_in(question, fields) == question.letters
    assert mark(question, given_in(question, fields | {f"{question.key}.A": "9"})).right is False
    assert given_in(question, {}) == ""


# ---- window ------------------------------------------------------------------------------------------


def windows(catalogue, seed, *told, outcome="worked"):
    return list(window_questions(taught(built("niche-1", *told, outcome=outcome)), catalogue, BELOW, Random(seed)))


@pytest.mark.parametrize("seed", range(12))
def test_a_window_is_judged_by_the_builds_clock(catalogue, seed):
    told = ((0, step("check", conditions=air(25))), (1, step("brush", use(GEL))))
    [question] = [q for q in windows(catalogue, seed, *told) if "recoat" in q.key]
    earliest, latest = (timedelta(seconds=s) for s in catalogue.get(GEL).recoat_s)
    begun, asked = moments(question.asked)
    after = asked - begun
    right = "too early" if after < earliest else "too late" if after > latest else "in time"
    assert question.answer == right
    assert mark(question, question.letters).right


def moments(asked):
    """Return the two moments named in a question: when it was begun, and when it is asked for."""
    import re
    from datetime import datetime

    found = re.findall(r"at (\d\d:\d\d) on (\d+ \w+)", asked)
    return [datetime.strptime(f"{day} 2026 {clock} +0000", "%d %b %Y %H:%M %z") for clock, day in found]


def test_the_reason_is_told_by_the_clock_on_the_wall(workshop):
    found = asked_of(workshop.store, workshop.catalogue, ["niche-2"], BELOW, 7)
    pots = [question for question in found.questions if "pot-life" in question.key]
    assert pots
    for question in pots:  # said in summer time: 13:10 is when it was mixed, in the answer as in the question
        mixed_at = question.evidence[0].at
        assert f"{mixed_at:%H}:" in question.asked
        ends = question.reason.partition("until ")[2][:2]
        assert int(ends) >= mixed_at.hour


# ---- fault -------------------------------------------------------------------------------------------


def test_a_fault_is_asked_with_the_photo_of_its_place(catalogue):
    opened = step("demould", observations=(seen("tear", "tore"),), places=(phrase("hinge"),))
    made = built("niche-1", (1, step("brush", use(GEL))), (30, opened), outcome="failed")
    near = shown("niche-1", made.steps[1].act_at - timedelta(minutes=20), "Hinge")
    far = shown("niche-1", made.steps[0].act_at, "Hinge", id_=2)
    [question] = fault_questions(taught(made, photos=(near, far)), Random(1))
    assert question.photos == (near,)
    assert question.answer == "tear"
    assert "tore" not in question.asked
    options = {option.text for option in question.options}
    assert len(options) == 4
    assert not options & {"crack", "chip", "good", "other"}  # what could be taken for it is no choice


# ---- the test as a whole -----------------------------------------------------------------------------


def test_the_same_seed_asks_the_same_and_another_something_else(workshop):
    one, again, other = (asked_of(workshop.store, workshop.catalogue, ["niche-2"], BELOW, seed) for seed in (7, 7, 8))
    assert one == again
    assert one != other


def test_every_answer_has_its_reason_and_words_of_the_record(workshop):
    found = asked_of(workshop.store, workshop.catalogue, ["niche-2"], BELOW, 7)
    assert {question.kind for question in found.questions} == {"order", "weigh", "fault", "window"}
    for question in found.questions:
        assert question.reason
        for voice in question.evidence:
            assert voice.text in workshop.store.note(voice.note_id).text


def test_all_right_answers_are_marked_right_and_none_at_all_wrong(workshop):
    found = asked_of(workshop.store, workshop.catalogue, ["niche-2"], BELOW, 7)
    right = {q.key: q.letters or str(q.amount) for q in found.questions}
    assert all(marked.right for marked in mark_all(found, right))
    assert not any(marked.right for marked in mark_all(found, {}))


def test_a_record_that_bears_no_question_says_why(catalogue):
    nothing = taught(built("niche-1"))
    found = self_test(nothing, training_sheet(nothing, catalogue, BELOW), catalogue, BELOW, 1)
    assert found.questions == ()
    assert len(found.lacks) == 4
