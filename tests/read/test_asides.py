"""Chatter in words of the trade is no step."""

import pytest

from tests.read.reading import steps


@pytest.mark.parametrize(
    "said",
    [
        "He pulled a face at the bill.",
        "Mixed feelings about this one.",
        "Waxing lyrical again.",
        "My wife says I should seal the deal.",
        "Sprayed the weeds out the back.",
        "Cut my thumb on the knife.",
        "Had to trim my beard before the safety lady came.",
        "Filled the kettle.",
        "It's pouring down outside.",
        "I poured myself a coffee.",
        "Forget what I said about the catalyst.",
        "I wonder if the wax has gone off.",
    ],
)
def test_everyday_talk_is_no_step(said: str):
    assert steps(said) == ()


@pytest.mark.parametrize(
    ("said", "action"),
    [
        ("Washed my hands and stippled the second coat.", "stipple"),
        ("Weighed up 400 grams of resin.", "weigh"),
        ("Poured it over the van mould.", "pour"),
        ("Put a pint of the resin aside.", "store"),
    ],
)
def test_the_work_beside_it_is_kept(said: str, action: str):
    assert [step.action for step in steps(said)] == [action]
