"""A plan followed by what is said: ticked off, off the plan, left out, and what comes next."""

from __future__ import annotations

from dataclasses import replace

import pytest

from journal.find.follow import Progress, follow
from journal.find.planned_step import planned_to_json
from journal.find.recipe import Recipe
from journal.find.scale import Wanted, scaled
from journal.find.telling import next_answer, next_words, ticked_words
from journal.keep.plan_views import PlanView, SkipView
from journal.keep.views import StepView
from journal.record import Flag
from tests.find.kept import AT, CATALOGUE, after, kept, layer, on, use
from tests.find.test_scale import BUILD, MOULD, gel

RECIPE = (
    kept(1, "seal", layers=(layer("shellac", 3),)),
    kept(2, "release", layers=(layer("release wax", 5),)),
    gel(number=3),
    kept(4, "brush", use("polyester gel coat"), places=on("left half")),
    gel(number=5),
    kept(6, "fill", use("polyester resin"), use("milled fibre")),
    kept(7, "laminate", layers=(layer("chopped strand mat", 2, 450),)),
)


def plan_of(times: float = 1, skipped: tuple[int, ...] = ()) -> PlanView:
    made = scaled(Recipe(BUILD, MOULD, RECIPE, (), (), (), (), ()), Wanted(times=times), CATALOGUE, 0.7)
    skips = tuple(SkipView(number, "", None, None, AT) for number in skipped)
    return PlanView(1, "b", "a", {}, tuple(map(planned_to_json, made.steps)), None, AT, skips)


def followed(*steps: StepView, times: float = 1, skipped: tuple[int, ...] = ()) -> Progress:
    return follow(plan_of(times, skipped), steps, CATALOGUE)


def states(progress: Progress) -> list[str]:
    return [each.state for each in progress.steps]


def sealed(number: int = 20, count: int = 3, **more) -> StepView:
    return kept(number, "seal", layers=(layer("shellac", count),), **more)


def test_nothing_said_leaves_the_first_step_next() -> None:
    progress = followed()
    assert progress.done == 0
    assert next_words(progress) == "Next, step 1 of 7: seal with 3 coats of shellac."


def test_a_step_said_ticks_its_planned_one_off() -> None:
    progress = followed(sealed())
    assert states(progress)[:2] == ["done", "open"]
    assert ticked_words(progress, [20]) == "Step 1 done. Next, step 2 of 7: put on 5 coats of release wax."
    assert progress.of_step(20) == progress.steps[0]


def test_a_synonym_and_a_general_word_tick_off_too() -> None:
    assert states(followed(kept(20, "brush", use("gel coat"))))[3] == "done"


def test_two_like_steps_are_ticked_off_in_turn() -> None:
    progress = followed(gel(number=20), gel(number=21))
    assert [each.step_ids for each in progress.steps if each.step_ids] == [(20,), (21,)]


def test_an_amount_off_the_plan_is_said_with_how_much() -> None:
    progress = followed(gel(500, 10, number=20))
    assert progress.steps[2].off == (
        "polyester gel coat: 500 g, planned 700, 29 % less", "catalyst: 10 g, planned 14, 29 % less",
    )  # fmt: skip
    assert "off the plan" in ticked_words(progress, [20])


def test_what_is_near_enough_is_not_off_the_plan() -> None:
    assert followed(gel(706, 14, number=20)).steps[2].off == ()


def test_what_was_short_takes_more_of_the_same_but_no_second_batch() -> None:
    progress = followed(sealed(count=2), sealed(21, 1))
    assert (progress.steps[0].step_ids, progress.steps[0].off) == ((20, 21), ())
    progress = followed(gel(600, 12, number=20), gel(700, 14, number=21))
    assert [each.step_ids for each in progress.steps if each.step_ids] == [(20,), (21,)]


def test_pots_of_one_batch_belong_to_one_step() -> None:
    first = gel(700, 14, number=20)
    progress = followed(first, times=2)
    assert progress.steps[2].state == "begun"
    assert next_words(progress).startswith("Go on with step 3 of 7, pot 2 of 2")
    progress = followed(first, gel(700, 14, number=21), times=2)
    assert (progress.steps[2].state, progress.steps[2].step_ids, progress.steps[2].off) == ("done", (20, 21), ())


def test_another_material_or_act_is_beside_the_plan() -> None:
    progress = followed(kept(20, "laminate", layers=(layer("glass cloth", 1, 200),)), kept(21, "sand"))
    assert progress.beside == (20, 21)
    assert progress.done == 0
    assert ticked_words(progress, [20, 21]) == ""


def test_what_is_passed_over_stays_open_and_is_said() -> None:
    progress = followed(sealed(), gel(number=21))
    assert progress.next is not None
    assert progress.next.planned.number == 4
    assert [each.planned.number for each in progress.passed] == [2]
    assert "Still open before it: step 2, release." in next_words(progress)


def test_a_step_said_not_to_be_done_is_left_out() -> None:
    progress = followed(kept(20, "fill", use("milled fibre"), status="not done"))
    assert progress.steps[5].state == "left out"


def test_a_step_skipped_is_not_next() -> None:
    progress = followed(skipped=(1,))
    assert progress.next is not None
    assert (progress.next.planned.number, states(progress)[0]) == (2, "skipped")


def test_what_was_planned_advised_withdrawn_or_said_before_does_not_count() -> None:
    steps = (
        sealed(20, status="planned"), sealed(21, status="advised"), replace(sealed(22), withdrawn=True),
        replace(sealed(23), recorded_at=after(hours=-1)),
    )  # fmt: skip
    assert followed(*steps).done == 0


def test_place_weight_of_layers_and_ratio_off_the_plan_are_said() -> None:
    progress = followed(
        kept(20, "brush", use("polyester gel coat"), places=on("right half")),
        kept(21, "laminate", layers=(layer("chopped strand mat", 1, 300),)),
    )
    assert progress.steps[3].off == ("on right half, planned on left half",)
    assert progress.steps[6].off == (
        "chopped strand mat: 1 laid, planned 2", "chopped strand mat: 300 g/m2, planned 450",
    )  # fmt: skip


def test_what_is_queried_in_a_note_is_queried_in_the_plan() -> None:
    progress = followed(gel(number=20, flags=(Flag("amount", "700 or 70"),)))
    assert "queried: 700 or 70" in progress.steps[2].off


def test_doubts_are_told_with_the_step_and_the_answer_has_its_evidence() -> None:
    doubtful = gel(flags=(Flag("amount", "14 or 40 of catalyst"),))
    made = scaled(Recipe(BUILD, MOULD, (doubtful,), (), (), (), (), ()), Wanted(times=1), CATALOGUE, 0.7)
    plan = PlanView(1, "b", "a", {}, tuple(map(planned_to_json, made.steps)), None, AT, ())
    answer = next_answer(follow(plan, (), CATALOGUE))
    assert "Check first: 14 or 40 of catalyst." in answer.text
    assert answer.evidence == (1,)
    assert answer.numbers == {"step": 1, "steps": 1, "done": 0}


def test_a_plan_that_is_done_says_so() -> None:
    progress = followed(skipped=tuple(range(1, 8)))
    assert progress.next is None
    assert next_words(progress) == "The plan is done, all 7 steps of it."


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 0, 1)])
def test_the_order_of_the_acts_counts_not_that_of_the_list(order: tuple[int, ...]) -> None:
    steps = [sealed(20, at=after(minutes=1)), gel(number=21, at=after(minutes=2)), gel(number=22, at=after(minutes=3))]
    progress = followed(*(steps[i] for i in order))
    assert [each.step_ids for each in progress.steps if each.step_ids] == [(20,), (21,), (22,)]
