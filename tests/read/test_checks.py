"""What a careful foreman queries."""

import pytest

from tests.read.reading import flagged, steps


def test_the_ratio_of_two_weights_is_worked_out() -> None:
    (step,) = steps("Mixed 300 grams of epoxy gel coat with 45 of hardener.")
    assert step.ratio is not None
    assert step.ratio.derived
    assert [float(part) for part in step.ratio.parts] == [100, 15]


def test_a_stated_ratio_stands_and_agreeing_weights_are_not_flagged() -> None:
    # 300 g at 100 to 29 by weight takes 87 g (arithmetic).
    (step,) = steps("Mixed 300 grams of laminating epoxy with 87 of hardener at 100 to 29 by weight.")
    assert step.ratio is not None
    assert not step.ratio.derived
    assert "ratio" not in flagged(step)


def test_weights_that_disagree_with_the_ratio_are_flagged_with_the_deviation() -> None:
    (step,) = steps("Mixed 350 grams of laminating epoxy and 60 of hardener at 100 to 28.")
    (why,) = [flag.why for flag in step.flags if flag.field == "ratio"]
    assert "39 %" in why  # 60 to 350 is 17.14 to 100; 17.14 / 28 is 38.8 % short


def test_a_ratio_run_together_is_repaired_where_the_weights_agree() -> None:
    (step,) = steps("Mixed 200 grams of laminating epoxy with 50 of hardener, 125 by weight.")
    assert step.ratio is not None
    assert [float(part) for part in step.ratio.parts] == [100, 25]
    assert "ratio" in flagged(step)


def test_a_ratio_run_together_is_left_where_nothing_agrees() -> None:
    (step,) = steps("Mixed 200 grams of laminating epoxy with 90 of hardener, 125 by weight.")
    assert step.ratio is None or step.ratio.derived
    assert "ratio" in flagged(step)


def test_a_weight_misheard_is_repaired_where_sound_and_ratio_agree() -> None:
    (step,) = steps("Mixed for 120 grams of laminating epoxy with 63 grams of hardener, at 100 to 15.")
    assert [float(m.amount or 0) for m in step.materials] == [420, 63]
    assert "amount" in flagged(step)


@pytest.mark.parametrize("said", ["Shop's at ninety degrees.", "Humidity 140 percent."])
def test_a_state_that_cannot_be_is_flagged(said: str) -> None:
    (step,) = steps(said)
    assert "conditions" in flagged(step)


def test_nothing_to_query_is_not_queried() -> None:
    (step,) = steps("Mixed 400 grams of laminating epoxy with 112 of hardener, 100 to 28 by weight.")
    assert step.flags == ()
