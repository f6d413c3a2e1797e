"""The step record goes to JSON and back without a loss."""

from __future__ import annotations

import json
from datetime import datetime
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.record import (
    ACTIONS,
    ClockTime,
    Condition,
    Evidence,
    Flag,
    Layer,
    MaterialUse,
    Observation,
    Phrase,
    Ratio,
    Step,
    Timing,
    step_from_json,
    step_to_json,
)

HEARD = Evidence("four hundred of A", (6, 23), 0.93, "amounts.number-unit", (1.25, 2.5))
TYPED = Evidence("on the flange", (30, 43), 1.0, "places.known")


def full_step() -> Step:
    return Step(
        action="mix",
        status="done",
        evidence=HEARD,
        materials=(
            MaterialUse("laminating epoxy", HEARD, "A", Fraction(400), Fraction(420), "g", "4471"),
            MaterialUse("fumed silica", TYPED, amount=Fraction(1, 3), unit="percent"),
            MaterialUse("hardener", TYPED),
        ),
        ratio=Ratio((Fraction(100), Fraction("28.5")), HEARD, "weight", derived=True),
        layers=(Layer("chopped strand mat", TYPED, Fraction(3, 2), Fraction("457.7")), Layer("wax", TYPED)),
        timings=(
            Timing("wait", None, Fraction(1200), HEARD),
            Timing("cure", Fraction(57600), None, TYPED),
        ),
        clock=(ClockTime("start", datetime.fromisoformat("2026-05-04T14:05:00+01:00"), HEARD),),
        conditions=(Condition("temperature", Fraction("21.5"), "degC", HEARD, "shop"),),
        places=(Phrase("flange", TYPED),),
        reasons=(Phrase("so the glass does not bridge", TYPED),),
        cues=(Phrase("until the streaks are gone", TYPED),),
        warnings=(Phrase("do not press too hard", TYPED),),
        observations=(Observation("void", "small void", TYPED),),
        flags=(Flag("ratio", "28.5 is 2 % off the catalogue"),),
        pull=9,
        who="apprentice",
    )


def test_a_full_step_comes_back_from_json_as_it_was() -> None:
    step = full_step()
    assert step_from_json(json.loads(json.dumps(step_to_json(step)))) == step


def test_a_bare_step_comes_back_from_json_as_it_was() -> None:
    step = Step("check", "done", TYPED)
    assert step_from_json(step_to_json(step)) == step


def test_an_object_that_is_no_step_is_refused() -> None:
    with pytest.raises(KeyError):
        step_from_json({"action": "mix"})


EVIDENCE = st.builds(
    Evidence,
    st.text(max_size=20),
    st.tuples(st.integers(0, 99), st.integers(0, 99)),
    st.integers(0, 1000).map(lambda n: n / 1000),
    st.text(max_size=9),
    st.none() | st.tuples(*[st.integers(0, 90_000).map(lambda n: n / 100)] * 2),
)
DECIMALS = st.decimals(0, 100_000, places=3, allow_nan=False).map(Fraction)
MATERIALS = st.builds(
    MaterialUse,
    st.text(max_size=9),
    EVIDENCE,
    part=st.sampled_from([None, "A", "B"]),
    amount=st.none() | DECIMALS,
    unit=st.sampled_from([None, "g", "ml"]),
)


@given(
    action=st.sampled_from(ACTIONS),
    evidence=EVIDENCE,
    materials=st.lists(MATERIALS, max_size=3).map(tuple),
    parts=st.lists(DECIMALS, min_size=2, max_size=3).map(tuple),
    seconds=st.tuples(st.none() | DECIMALS, st.none() | DECIMALS),
)
def test_any_step_of_decimal_values_survives_the_round_trip(
    action: str,
    evidence: Evidence,
    materials: tuple[MaterialUse, ...],
    parts: tuple[Fraction, ...],
    seconds: tuple[Fraction | None, Fraction | None],
) -> None:
    step = Step(
        action,
        "planned",
        evidence,
        materials,
        Ratio(parts, evidence),
        timings=(Timing("wait", *seconds, evidence),),
    )
    assert step_from_json(json.loads(json.dumps(step_to_json(step)))) == step


@given(st.floats(0, allow_nan=False, allow_infinity=False))
def test_any_amount_keeps_the_very_number_it_has_in_json(amount: float) -> None:
    step = Step("weigh", "done", TYPED, (MaterialUse("resin", TYPED, amount=Fraction(amount), unit="g"),))
    record = step_to_json(step)
    assert step_to_json(step_from_json(record)) == record
