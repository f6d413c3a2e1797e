"""What is put up for confirmation, and when it no longer is."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from fractions import Fraction
from typing import Any

import pytest

from journal.keep.views import StepView
from journal.record import Evidence, Flag, MaterialUse, Ratio, Step, step_to_json
from journal.review.queries import next_to_check, queries, totals_in_doubt

AT = datetime(2026, 5, 4, 14, 10, tzinfo=UTC)
LIMIT = 0.7


def said(confidence: float) -> Evidence:
    return Evidence("as said", (0, 7), confidence)


def kept(step: Step, **known: Any) -> StepView:
    view = StepView(
        id=1, note_id=1, build_id=1, build_key="niche-1", position=0, recorded_at=AT, act_at=AT, record=step,
        json=step_to_json(step), first_read=step_to_json(step), corrected=False, confirmed_by=None,
        confirmed_at=None, withdrawn=False,
    )  # fmt: skip
    return replace(view, **known)


def mix(epoxy: float = 0.9, hardener: float = 0.9, act: float = 0.9, *flags: Flag) -> Step:
    return Step(
        "mix",
        "done",
        said(act),
        materials=(
            MaterialUse("laminating epoxy", said(epoxy), amount=Fraction(400), unit="g"),
            MaterialUse("hardener", said(hardener), amount=Fraction(116), unit="g"),
        ),
        ratio=Ratio((Fraction(100), Fraction(29)), said(0.9), "weight"),
        flags=flags,
    )


def test_nothing_is_asked_about_values_that_are_sure() -> None:
    assert not queries(kept(mix()), LIMIT)


def test_a_value_under_the_limit_is_asked_about_and_one_at_it_is_not() -> None:
    assert queries(kept(mix(epoxy=0.69, hardener=0.7)), LIMIT).doubtful == {"materials.0"}


def test_the_act_itself_is_asked_about() -> None:
    asked = queries(kept(mix(act=0.16)), LIMIT)
    assert (asked.doubtful, asked.unsure) == ({"action"}, 1)


def test_an_act_that_a_person_named_is_not_asked_about() -> None:
    read = step_to_json(mix(act=0.16)) | {"action": "weigh"}
    assert not queries(kept(mix(act=0.16), first_read=read, corrected=True), LIMIT)


@pytest.mark.parametrize(
    ("field", "places"),
    [
        ("amount", {"materials.0", "materials.1"}),
        ("unit", {"materials.0", "materials.1"}),
        ("ratio", {"ratio"}),
        ("action", {"action"}),
    ],
)
def test_a_flag_is_about_the_values_of_its_field(field: str, places: set[str]) -> None:
    asked = queries(kept(mix(0.9, 0.9, 0.9, Flag(field, "why"))), LIMIT)
    assert (asked.doubtful, asked.unsure, len(asked.flags)) == (places, 0, 1)


def test_a_flag_is_shown_even_when_no_value_stands_in_its_field() -> None:
    assert queries(kept(mix(0.9, 0.9, 0.9, Flag("timings", "why"))), LIMIT)


def test_nothing_is_asked_once_a_person_has_spoken() -> None:
    flagged = mix(0.1, 0.1, 0.1, Flag("ratio", "why"))
    assert not queries(kept(flagged, confirmed_at=AT), LIMIT)
    assert not queries(kept(flagged, withdrawn=True), LIMIT)


def test_a_total_rests_on_its_least_sure_part() -> None:
    assert totals_in_doubt([kept(mix()), kept(mix(hardener=0.2))], LIMIT) == {"hardener"}


def test_checking_goes_on_with_the_next_and_then_from_the_start() -> None:
    first, second, third = (kept(mix(epoxy=0.1), id=i, position=i) for i in range(3))
    assert next_to_check([first, second, third], second, LIMIT) == third
    assert next_to_check([first, second], third, LIMIT) == first
    assert next_to_check([kept(mix())], first, LIMIT) is None
