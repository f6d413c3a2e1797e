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


@pytest.mark.parametrize(
    "said",
    ["Shop's at ninety degrees.", "Humidity 140 percent.", "Degassed it at -150 mbar.", "Post cured it at 16 degrees."],
)
def test_a_state_that_cannot_be_is_flagged(said: str) -> None:
    (step,) = steps(said)
    assert "conditions" in flagged(step)


@pytest.mark.parametrize("said", ["Laid up 2 layers of 4500 gram mat.", "Laid up 52 layers of 450 mat."])
def test_layers_that_cannot_be_are_flagged(said: str) -> None:
    (step,) = steps(said)
    assert "layers" in flagged(step)


def test_nothing_to_query_is_not_queried() -> None:
    (step,) = steps("Mixed 400 grams of laminating epoxy with 112 of hardener, 100 to 28 by weight.")
    assert step.flags == ()


def _ratio_queries(words: str) -> list[str]:
    return [flag.why for step in steps(words) for flag in step.flags if flag.field == "ratio"]


@pytest.mark.parametrize(
    ("said", "query"),
    [
        # (29 / 15 - 1) x 100 = 93.3; the catalogue has the epoxy gel coat at 100 to 15
        (
            "Mixed 300 grams of epoxy gel coat with 87 of hardener, 100 to 29 by weight.",
            "100 to 29 by weight is 93 % over the catalogue's 100 to 15",
        ),
        # catalyst goes in at 1 to 3 percent; 29 / 3 is 867 % more
        (
            "Mixed 300 grams of polyester gel coat with 87 of catalyst, 100 to 29 by weight.",
            "100 to 29 by weight is 867 % over the usual 1 to 3 percent of catalyst",
        ),
        # a general word with hardener is the epoxy one: (2 / 15 - 1) x 100 = -86.7
        (
            "Mixed 300 grams of gel coat with 6 of hardener at 100 to 2.",
            "100 to 2 is 87 % under the catalogue's 100 to 15",
        ),
        # 1 to 1 by volume at 1.15 and 0.95 g/ml is 82.6 to 100 by weight, 28 in the catalogue
        (
            "Mixed 300 ml of laminating epoxy with 300 ml of hardener, 1 to 1 by volume.",
            "1 to 1 by volume is 195 % over the catalogue's 100 to 28",
        ),
        # (1 / 2) / (1 / 10) = 5 times the catalogue's
        (
            "Mixed 200 grams of tin silicone with 100 of catalyst at 2 to 1.",
            "2 to 1 is 400 % over the catalogue's 10 to 1",
        ),
    ],
)
def test_a_stated_ratio_far_from_the_catalogues_is_queried_once_with_the_deviation(said: str, query: str) -> None:
    (why,) = _ratio_queries(said)
    assert why.startswith(query)


@pytest.mark.parametrize(
    "said",
    [
        "Mixed 400 grams of laminating epoxy with 116 of hardener, 100 to 29 by weight.",
        "Mixed 300 ml of laminating epoxy with 100 ml of hardener, 3 to 1 by volume.",  # 27.5 to 100 by weight
        "Mixed 700 grams of polyester gel coat with 14 of catalyst, 100 to 2.",
        "Platinum silicone, ten to one by weight: 1200 grams of A and 120 grams of B.",
        "Tin silicone 800 g, catalyst 40 g, 20:1.",
        "Mixed 400 grams of resin with 116 of hardener, 100 to 29.",
    ],
)
def test_a_ratio_that_is_usual_for_its_material_or_not_known_is_not_queried(said: str) -> None:
    assert _ratio_queries(said) == []


def test_weights_off_a_far_ratio_make_one_query_not_two() -> None:
    (why,) = _ratio_queries("Mixed 300 grams of epoxy gel coat with 60 of hardener, 100 to 29 by weight.")
    assert why == "300 to 60 is 100 to 20, 31 % under the stated 100 to 29"


def test_a_ratio_by_volume_without_densities_is_not_compared_with_one_by_weight() -> None:
    assert _ratio_queries("Mixed 2 litres of tin silicone with a litre of catalyst, 2 to 1 by volume.") == []
