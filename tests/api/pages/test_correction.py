"""A filled-in form changes what was filled in, and nothing else."""

from __future__ import annotations

from datetime import timedelta, timezone
from typing import Any

import pytest

from api.pages.correction import FormError, changes
from api.pages.correction_form import fingerprint, form_of

EVIDENCE = {"heard": "as said", "chars": [0, 7], "confidence": 0.9, "rule": "r"}
RECORD: dict[str, Any] = {
    "action": "mix",
    "status": "done",
    "materials": [
        {"name": "laminating epoxy", "amount": 340.194277, "unit": "g", **EVIDENCE},
        {"name": "hardener", **EVIDENCE},
    ],
    "ratio": {"parts": [100.0, 29.0], "by": None, **EVIDENCE},
    "layers": [],
    "timings": [{"kind": "wait", "seconds": [2400.0, None], **EVIDENCE}],
    "clock": [{"kind": "start", "at": "2026-05-04T14:05:30+01:00", **EVIDENCE}],
    "conditions": [{"kind": "temperature", "value": 21.0, "unit": "degC", "of": "shop", **EVIDENCE}],
    "places": [{"text": "flange", **EVIDENCE}],
    "reasons": [],
    "cues": [],
    "warnings": [],
    "observations": [],
    "flags": [],
    **EVIDENCE,
}
ZONE = timezone(timedelta(hours=1))


def untouched() -> dict[str, str]:
    form = form_of(RECORD)
    fields = {control.path: control.value for group in (*form.items, *form.blanks) for control in group.controls}
    return fields | {
        "action": form.action, "status": form.status, "ratio.0": form.ratio[0], "ratio.1": form.ratio[1],
        "ratio.by": form.by, "pull": form.pull,
    }  # fmt: skip


def changed(**filled: str) -> dict[str, Any]:
    fields = {name.replace("__", "."): value for name, value in filled.items()}
    return changes(RECORD, untouched() | fields, ZONE)


def test_a_form_left_alone_changes_nothing_even_where_it_shows_fewer_digits() -> None:
    assert changed() == {}


@pytest.mark.parametrize(
    ("filled", "expected"),
    [
        ({"action": "weigh"}, {"action": "weigh"}),
        ({"status": "planned"}, {"status": "planned"}),
        ({"materials__0__amount": "320"}, {"materials.0.amount": 320.0}),
        ({"materials__0__unit": ""}, {"materials.0.unit": None}),
        ({"materials__1__part": "B"}, {"materials.1.part": "B"}),
        ({"ratio__1": "28"}, {"ratio": {"parts": [100.0, 28.0], "by": None}}),
        ({"ratio__by": "weight"}, {"ratio": {"parts": [100.0, 29.0], "by": "weight"}}),
        ({"ratio__0": "", "ratio__1": ""}, {"ratio": None}),
        ({"timings__0__seconds__1": "60"}, {"timings.0.seconds": [2400.0, 3600.0]}),
        ({"clock__0__at": "2026-05-04T14:15"}, {"clock.0.at": "2026-05-04T14:15:00+01:00"}),
        ({"conditions__0__kind": "humidity"}, {"conditions.0.kind": "humidity", "conditions.0.unit": "percent"}),
        ({"places__0__text": "rim"}, {"places.0.text": "rim"}),
        ({"out__places__0": "1"}, {"places.0": None}),
        ({"places__1__text": "left scroll"}, {"places.1": {"text": "left scroll"}}),
        ({"pull": "14"}, {"pull": 14}),
    ],
)
def test_what_was_filled_in_is_what_changes(filled: dict[str, str], expected: dict[str, Any]) -> None:
    assert changed(**filled) == expected


def test_a_condition_that_is_added_comes_with_its_unit() -> None:
    added = changed(conditions__1__kind="humidity", conditions__1__value="55")
    assert added == {"conditions.1": {"kind": "humidity", "value": 55.0, "unit": "percent"}}


@pytest.mark.parametrize(
    "filled",
    [
        {"materials__0__amount": "1,200"},
        {"materials__0__amount": "nan"},
        {"materials__0__amount": "inf"},
        {"materials__0__unit": "ounces"},
        {"ratio__0": ""},
        {"clock__0__at": "ten past two"},
        {"action": "dance"},
        {"pull": "3.7"},
    ],
)
def test_what_cannot_be_read_is_refused_and_never_guessed(filled: dict[str, str]) -> None:
    with pytest.raises(FormError):
        changed(**filled)


def test_a_ratio_of_three_parts_is_left_alone() -> None:
    record = RECORD | {"ratio": {"parts": [100.0, 50.0, 2.0], "by": "weight", **EVIDENCE}}
    form = form_of(record)
    assert form.ratio == ("", "")
    assert changes(record, {"ratio.0": "", "ratio.1": "", "ratio.by": "weight"}) == {}


def test_the_fingerprint_changes_with_any_value() -> None:
    assert fingerprint(RECORD) == fingerprint(dict(reversed(RECORD.items())))
    assert fingerprint(RECORD) != fingerprint(RECORD | {"status": "planned"})
