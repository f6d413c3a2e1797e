"""The scorer against a small example that was worked out by hand."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.bench.facets import FACETS
from tests.bench.score import Counts, Share, load_notes, load_predicted, score, table
from tests.bench.values import content_words

Row = dict[str, Any]


@pytest.fixture
def lamination() -> Row:
    """One step that has something in every facet."""
    return {
        "action": "laminate",
        "status": "done",
        "materials": [
            {"name": "vinyl ester resin", "amount": 900.0, "unit": "g"},
            {"name": "catalyst", "amount": 2.0, "unit": "percent"},
        ],
        "ratio": {"parts": [100, 2], "by": None},
        "layers": [{"name": "woven roving", "count": 3, "gsm": 600.0}],
        "timings": [{"kind": "gel", "seconds": [900, 1200]}, {"kind": "cure", "seconds": [57600, None]}],
        "clock": [{"kind": "end", "at": "2026-02-10T16:40:00+00:00"}],
        "conditions": [{"kind": "temperature", "value": 20.0, "unit": "degC"}],
        "places": ["upper rim"],
        "reasons": ["because the weave prints through"],
        "cues": ["until the glass goes clear"],
        "warnings": ["don't roll it dry"],
        "observations": [{"kind": "bubble", "text": "two bubbles by the foot"}],
        "flags": [{"field": "timings", "why": "two readings"}],
    }


@pytest.fixture
def notes(lamination: Row) -> list[Row]:
    roll = {"action": "roll", "status": "done"}
    return [
        {"id": "a", "text": "...", "gold": [lamination], "tags": ["wet"]},
        {"id": "b", "text": "...", "gold": [lamination], "tags": ["wet"]},
        {"id": "c", "text": "...", "gold": [], "tags": ["chatter"]},
        {"id": "d", "text": "...", "gold": [roll], "tags": ["wet"]},
    ]


def test_labels_score_full_marks_against_themselves(notes: list[Row]) -> None:
    scores = score(notes, {note["id"]: note["gold"] for note in notes})
    assert {counts.f1 for counts in (scores.facts, *scores.facets.values())} == {1.0}
    assert scores.steps_exact == Share(3, 3)
    assert scores.notes_exact == Share(4, 4)
    assert scores.silent_wrong == Share(0, 2 * (2 + 1 + 1 + 2 + 1))
    assert not scores.misses


def test_a_worked_example_is_counted_to_the_last_value(notes: list[Row], lamination: Row) -> None:
    """Note a is right, b wrong in the ways named, c gets a step that it has not, d gets none."""
    wrong = lamination | {
        "materials": [
            {"name": "Vinyl  ester resin", "amount": 908.0, "unit": "g"},  # within 1 %
            {"name": "catalyst", "amount": 1.5, "unit": "percent"},  # silent
        ],
        "ratio": {"parts": [100, 2.5], "by": "weight"},  # flagged: not silent
        "layers": [{"name": "woven roving", "count": 3, "gsm": 617.0}],  # within 3 %
        "timings": [{"kind": "wait", "seconds": [910, 1190]}, {"kind": "cure", "seconds": [57600, 60000]}],
        "clock": [{"kind": "end", "at": "2026-02-10T17:41:29+01:00"}],  # 89 s late
        "conditions": [{"kind": "temperature", "value": 20.7, "unit": "degC"}],  # silent
        "places": ["lower rim"],  # the other side
        "reasons": ["the weave prints"],
        "flags": [{"field": "ratio"}],
    }
    extra = {"action": "check", "status": "done", "observations": [{"kind": "good", "text": "fine"}]}
    scores = score(notes, {"a": [lamination], "b": [wrong], "c": [extra], "d": []})

    def counted(name: str) -> tuple[int, int, int]:
        counts = scores.facets[name]
        return counts.labelled, counts.predicted, counts.hits

    assert counted("amounts") == (4, 4, 3)
    assert counted("materials") == (4, 4, 4)
    assert counted("ratio") == (2, 2, 1)
    assert counted("layers") == (2, 2, 2)
    assert counted("timings") == (4, 4, 3)
    assert counted("timing_kinds") == (4, 4, 2)
    assert counted("clock") == (2, 2, 2)
    assert counted("conditions") == (2, 2, 1)
    assert counted("actions") == (3, 3, 2)
    assert counted("places") == (2, 2, 1)
    assert counted("reasons") == (2, 2, 2)
    assert counted("observations") == (2, 3, 2)
    assert counted("flags") == (2, 2, 1)
    assert scores.facts == Counts(19, 19, 14)
    assert scores.steps_exact == Share(1, 3)
    assert scores.notes_exact == Share(1, 4)
    assert scores.tags == {"wet": Share(1, 3), "chatter": Share(0, 1)}
    # 2 catalyst at 1.5, 20.7 degrees, and the cure that should be open; of 2 + 1 + 1 + 2 + 1 values a note.
    assert scores.silent_wrong == Share(3, 14)
    assert scores.silent["timings"] == Share(1, 4)
    assert [miss["id"] for miss in scores.misses] == ["b", "c", "d"]


def test_a_closer_value_takes_the_pair(lamination: Row) -> None:
    labelled = {"action": "mix", "conditions": [{"kind": "length", "unit": "mm", "value": v} for v in (100, 101)]}
    got = {"action": "mix", "conditions": [{"kind": "length", "unit": "mm", "value": 100.5}]}
    scores = score([{"id": 1, "gold": [labelled]}], {"1": [got]})
    assert scores.facets["conditions"] == Counts(2, 1, 1)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("under the left scroll", "left scroll", True),
        ("left scroll", "right scroll", False),
        ("the inner edge", "outer edge", False),
        ("so the glass does not bridge", "the glass doesn't bridge", True),
        ("of the", "of the", True),
        ("left scroll", "drain", False),
    ],
)
def test_phrases_match_by_their_content_words_and_side(one: str, other: str, same: bool) -> None:
    [(wanted, _)] = FACETS["places"].read({"places": [one]})
    [(got, _)] = FACETS["places"].read({"places": [{"text": other}]})
    assert (wanted.gap(got) is not None) == same


def test_content_words_leave_stop_words_out_unless_nothing_is_left() -> None:
    assert content_words("In the left scroll") == {"left", "scroll"}
    assert content_words("of it") == {"of", "it"}


def test_a_worked_out_ratio_is_not_scored() -> None:
    step = {"action": "mix", "ratio": {"parts": [100, 25], "by": "weight", "derived": True}}
    assert not FACETS["ratio"].read(step)


@pytest.mark.parametrize("value", [None, 3, "x", {"parts": 4}, [None, 1, {"name": 5, "seconds": "x", "at": 3}]])
def test_a_field_of_the_wrong_shape_is_no_hit_and_no_error(lamination: Row, value: Any) -> None:
    broken = {name: value for name in lamination}
    scores = score([{"id": 1, "gold": [lamination]}], {"1": [broken]})
    assert scores.facts.hits == 0


def test_confidence_and_repairs_are_counted_against_the_labels() -> None:
    gold: Row = {
        "action": "brush",
        "materials": [{"name": "epoxy gel coat", "amount": 50.0, "unit": "g"}],
        "flags": [{"field": "materials", "why": 'heard "gel code"'}],
    }
    good = gold | {
        "materials": [gold["materials"][0] | {"confidence": 0.92}],
        "flags": [{"field": "materials", "why": 'heard "gel code", read as epoxy gel coat'}],
        "confidence": 0.97,
    }
    bad = {
        "action": "pour",
        "materials": [{"name": "latex", "amount": 3.0, "unit": "g", "confidence": 0.6}],
        "flags": [{"field": "layers", "why": 'heard "later"'}],
        "confidence": 0.4,
    }
    scores = score([{"id": 1, "gold": [gold]}, {"id": 2, "gold": []}], {"1": [good], "2": [bad]})
    assert scores.reliability[0.9] == Share(1, 1)
    assert scores.reliability[0.95] == Share(1, 1)
    assert scores.reliability[0.5] == Share(0, 1)
    assert scores.reliability[0.0] == Share(0, 1)
    assert scores.repairs == Counts(1, 2, 1)


def test_files_are_read_and_bad_lines_hold_no_steps(tmp_path: Path, notes: list[Row]) -> None:
    labelled, predicted = tmp_path / "labelled.jsonl", tmp_path / "predicted.jsonl"
    labelled.write_text("\n".join(map(json.dumps, notes)))
    lines = [{"id": "a", "steps": notes[0]["gold"]}, {"id": "b", "error": "no text"}, {"id": "d", "steps": [3]}]
    predicted.write_text("\n".join([*map(json.dumps, lines), "not json", "[]", "{}"]))
    scores = score(load_notes(labelled), load_predicted(predicted))
    assert scores.steps_exact == Share(1, 3)
    assert scores.notes_exact == Share(2, 4)
    assert "facts F1" in table(scores)


def test_an_id_that_stands_twice_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "labelled.jsonl"
    path.write_text('{"id": 1, "gold": []}\n{"id": "1", "gold": []}\n')
    with pytest.raises(ValueError, match="stand twice: 1"):
        load_notes(path)
