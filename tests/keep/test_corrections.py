"""Corrections: a person's values go in, what was heard stays, bad values are refused by name."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from journal.keep.corrections import BY_HAND, corrected
from journal.keep.views import FieldError
from journal.record import Condition, Flag, Layer, Ratio, Timing, step_from_json, step_to_json
from tests.keep.made import evidence, phrase, seen, step, use


def mixed(*flags: Flag) -> dict[str, Any]:
    return step_to_json(
        step(
            "mix",
            use("laminating epoxy", 420, "g", part="A", lot="4471"),
            use("laminating epoxy", 118, "g", part="B"),
            ratio=Ratio((Fraction(100), Fraction(28)), evidence("a hundred to 28"), "weight"),
            layers=(Layer("chopped strand mat", evidence("mat"), Fraction(2), Fraction(450)),),
            timings=(Timing("wait", Fraction(2400), Fraction(2400), evidence("forty minutes")),),
            conditions=(Condition("temperature", Fraction(21), "degC", evidence("21"), "shop"),),
            places=(phrase("left scroll"), phrase("flange")),
            observations=(seen("void", "small void"),),
            flags=flags,
        )
    )


def test_a_corrected_amount_keeps_the_words_it_was_heard_in() -> None:
    before = mixed()
    after = corrected(before, {"materials.0.amount": 320})
    changed = before["materials"][0] | {"amount": 320.0, "confidence": 1.0, "rule": BY_HAND}
    assert after == before | {"materials": [changed, before["materials"][1]]}


def test_the_record_given_is_not_touched() -> None:
    before = mixed()
    corrected(before, {"materials.0.amount": 320, "places": []})
    assert before == mixed()


@pytest.mark.parametrize(
    ("changes", "field", "value"),
    [
        ({"action": "pour"}, "action", "pour"),
        ({"status": "not done"}, "status", "not done"),
        ({"pull": 14}, "pull", 14),
        ({"who": "apprentice"}, "who", "apprentice"),
    ],
)
def test_plain_fields_are_set(changes: dict[str, Any], field: str, value: object) -> None:
    assert corrected(mixed(), changes) == mixed() | {field: value}


def test_a_value_is_taken_out_by_none() -> None:
    before = mixed()
    assert "lot" not in corrected(before, {"materials.0.lot": None})["materials"][0]
    assert "ratio" not in corrected(before, {"ratio": None})
    assert corrected(before, {"places": None})["places"] == []


def test_items_are_removed_by_the_positions_they_had() -> None:
    after = corrected(mixed(), {"places.0": None, "places.1.text": "rim", "materials.1": None})
    assert [place["text"] for place in after["places"]] == ["rim"]
    assert [each["part"] for each in after["materials"]] == ["A"]


def test_an_added_value_has_no_words_but_says_that_a_person_gave_it() -> None:
    after = corrected(mixed(), {"materials.2": {"name": "fumed silica", "amount": 5, "unit": "percent"}})
    added = after["materials"][2]
    assert (added["heard"], added["rule"], added["confidence"]) == ("", BY_HAND, 1.0)
    assert (added["name"], added["amount"], added["unit"]) == ("fumed silica", 5.0, "percent")


def test_a_list_sent_back_whole_keeps_the_evidence_of_what_was_not_changed() -> None:
    before = mixed()
    sent = [
        {"name": "laminating epoxy", "part": "A", "amount": 420, "unit": "g", "lot": "4471"},
        {"name": "laminating epoxy", "part": "B", "amount": 119, "unit": "g"},
    ]
    after = corrected(before, {"materials": sent})
    assert after["materials"][0] == before["materials"][0]
    assert after["materials"][1] == before["materials"][1] | {
        "amount": 119.0, "confidence": 1.0, "rule": BY_HAND,
    }  # fmt: skip


def test_places_may_be_given_as_plain_text() -> None:
    after = corrected(mixed(), {"places": ["flange", "rim"]})
    assert after["places"][0] == mixed()["places"][1]
    assert after["places"][1]["text"] == "rim"


def test_evidence_cannot_be_made_up() -> None:
    before = mixed()
    forged = {"text": "rim", "heard": "on the rim", "chars": [5, 15], "audio": [1, 2], "confidence": 0.5}
    [place] = corrected(before, {"places": [forged]})["places"]
    assert (place["heard"], place["chars"], place["confidence"]) == ("", [0, 0], 1.0)
    assert "audio" not in place


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({}, "changes"),
        ({"colour": "red"}, "colour"),
        ({"heard": "other words"}, "heard"),
        ({"materials.0.heard": "other words"}, "materials.0.heard"),
        ({"materials.0.chars": [0, 1]}, "materials.0.chars"),
        ({"materials.0.chars.0": 5}, "materials.0.chars.0"),
        ({"action": "dance"}, "action"),
        ({"action": None}, "action"),
        ({"status": "maybe"}, "status"),
        ({"materials.0.amount": "lots"}, "materials.0.amount"),
        ({"materials.0.amount": -1}, "materials.0.amount"),
        ({"materials.0.amount": float("inf")}, "materials.0.amount"),
        ({"materials.0.unit": "cups"}, "materials.0.unit"),
        ({"materials.0.name": " "}, "materials.0.name"),
        ({"materials.0.colour": "red"}, "materials.0.colour"),
        ({"materials.5.amount": 1}, "materials.5.amount"),
        ({"materials.x": {}}, "materials.x"),
        ({"materials.-1": None}, "materials.-1"),
        ({"materials": "resin"}, "materials"),
        ({"ratio.parts": [100]}, "ratio.parts"),
        ({"ratio.parts": [100, 0]}, "ratio.parts.1"),
        ({"ratio.by": "eye"}, "ratio.by"),
        ({"layers.0.gsm": 0}, "layers.0.gsm"),
        ({"timings.0.kind": "nap"}, "timings.0.kind"),
        ({"timings.0.seconds": [60, 30]}, "timings.0"),
        ({"timings.0.seconds": [None, None]}, "timings.0"),
        ({"clock": [{"kind": "start", "at": "2026-05-04T14:05:00"}]}, "clock.0.at"),
        ({"conditions.0.unit": "degF"}, "conditions.0"),
        ({"conditions.0.kind": "mood"}, "conditions.0.kind"),
        ({"observations.0.kind": "ghost"}, "observations.0.kind"),
        ({"places": [""]}, "places.0.text"),
        ({"pull": 0}, "pull"),
        ({"flags": [{"field": "mood", "why": "x"}]}, "flags.0.field"),
        ({"action.first": "x"}, "action.first"),
        ({"materials.0.amount.low": 1}, "materials.0.amount.low"),
    ],
)
def test_what_a_record_cannot_hold_is_refused_with_the_field_named(changes: dict[str, Any], field: str) -> None:
    with pytest.raises(FieldError) as caught:
        corrected(mixed(), changes)
    assert caught.value.field == field
    assert caught.value.why


def test_times_given_with_an_offset_keep_it() -> None:
    after = corrected(mixed(), {"clock": [{"kind": "start", "at": "2026-05-04T14:05:00+01:00"}]})
    assert after["clock"][0]["at"] == "2026-05-04T14:05:00+01:00"
    assert step_to_json(step_from_json(after)) == after


def test_a_ratio_worked_out_from_an_amount_goes_when_the_amount_is_corrected() -> None:
    record = mixed()
    record["ratio"] |= {"derived": True}
    assert "ratio" not in corrected(record, {"materials.0.amount": 320})
    assert corrected(record, {"materials.0.lot": "4472"})["ratio"] == record["ratio"]
    assert corrected(mixed(), {"materials.0.amount": 320})["ratio"] == mixed()["ratio"]


def test_a_flag_is_settled_by_a_correction_of_its_field() -> None:
    flagged = mixed(Flag("ratio", "off by 9 %"), Flag("action", "unlikely"))
    assert [flag["field"] for flag in corrected(flagged, {"ratio.parts": [100, 30]})["flags"]] == ["action"]


def test_a_flag_stays_when_it_may_be_about_another_value() -> None:
    flagged = mixed(Flag("amount", "out of range"))
    assert corrected(flagged, {"materials.0.amount": 320})["flags"] == flagged["flags"]
    assert corrected(flagged, {"materials.0.lot": "4417"})["flags"] == flagged["flags"]
    assert corrected(flagged, {"materials": flagged["materials"]})["flags"] == []


def test_flags_can_be_set_outright() -> None:
    flagged = mixed(Flag("ratio", "off by 9 %"))
    given = [{"field": "amount", "why": "out of range"}]
    assert corrected(flagged, {"ratio.parts": [100, 30], "flags": given})["flags"] == given
