"""The labelled corpus keeps the contract of a step record, and covers every phenomenon."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from journal.read.catalogue import catalogue_from_toml
from journal.record import ACTIONS, CLOCK_KINDS, CONDITION_UNITS, FLAG_FIELDS, OBSERVATION_KINDS, TIMING_KINDS

CORPUS = Path(__file__).parent / "corpus"
PARTS = ("work", "measure")
NOTE_FIELDS = {"id", "build", "recorded_at", "locale", "text", "gold", "tags", "speaker"}
STEP_FIELDS = {
    "action", "status", "materials", "ratio", "layers", "timings", "clock", "conditions", "places", "reasons",
    "cues", "warnings", "observations", "flags", "pull",
}  # fmt: skip
MATERIAL_FIELDS = {"name", "part", "amount", "amount_most", "unit", "lot"}
UNITS = {"g", "ml", "percent", "m2", "mm", "count"}
LEAST_NOTES, LEAST_MEASURED, LEAST_BUILDS = 300, 120, 40
LEAST_OF_A_PHENOMENON, LEAST_OF_AN_ACTION, LEAST_OF_AN_OBSERVATION = 8, 4, 2

Row = dict[str, Any]


def notes_of(part: str) -> list[Row]:
    return [json.loads(line) for line in (CORPUS / f"{part}.jsonl").read_text(encoding="utf-8").splitlines()]


def all_notes() -> list[Row]:
    return [note for part in PARTS for note in notes_of(part)]


def all_steps() -> Iterator[tuple[Row, Row]]:
    for note in all_notes():
        for step in note["gold"]:
            yield note, step


def is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def flags(step: Row, field: str) -> bool:
    return any(flag["field"] == field for flag in step.get("flags", []))


def test_there_are_enough_notes_builds_and_parts() -> None:
    builds = {note["build"] for note in all_notes() if "build" in note}
    assert len(all_notes()) >= LEAST_NOTES
    assert len(builds) >= LEAST_BUILDS
    assert len(notes_of("measure")) >= LEAST_MEASURED


def test_no_build_note_or_text_stands_in_both_parts() -> None:
    for name in ("build", "id", "text"):
        work, measure = ({note.get(name) for note in notes_of(part)} - {None} for part in PARTS)
        assert not work & measure
    assert max(Counter(note["id"] for note in all_notes()).values()) == 1


@pytest.mark.parametrize("part", PARTS)
def test_notes_of_a_build_stand_together_in_the_order_of_time(part: str) -> None:
    finished, last = set(), None
    for note in notes_of(part):
        build = note.get("build")
        if last and build != last.get("build"):
            finished.add(last.get("build"))
        assert build is None or build not in finished
        if last and build and build == last.get("build"):
            assert datetime.fromisoformat(note["recorded_at"]) >= datetime.fromisoformat(last["recorded_at"])
        last = note


def test_each_note_has_its_fields() -> None:
    for note in all_notes():
        assert set(note) <= NOTE_FIELDS
        assert NOTE_FIELDS - {"build", "locale"} <= set(note)
        assert note.get("locale", "en-GB") in ("en-GB", "en-US")
        assert datetime.fromisoformat(note["recorded_at"]).tzinfo is not None
        assert note["text"].strip()
        assert note["speaker"].strip()


def test_each_step_has_an_action_a_status_and_no_empty_field() -> None:
    for note, step in all_steps():
        assert set(step) <= STEP_FIELDS, note["id"]
        assert step["action"] in ACTIONS, note["id"]
        assert step["status"] in ("done", "planned", "advised", "not done"), note["id"]
        assert all(value not in ([], {}, None, "") for value in step.values()), note["id"]


def test_materials_have_the_catalogues_names_and_canonical_units() -> None:
    catalogue = catalogue_from_toml((CORPUS.parents[1] / "journal" / "catalogue.toml").read_text(encoding="utf-8"))
    for note, step in all_steps():
        for use in step.get("materials", []):
            known = catalogue.get(use["name"])
            assert known is None or known.name == use["name"], note["id"]
            assert set(use) <= MATERIAL_FIELDS, note["id"]
            assert use.get("part", "A") in ("A", "B"), note["id"]
            assert ("unit" not in use) or (use["unit"] in UNITS and is_number(use["amount"])), note["id"]
            assert not (known and known.is_fabric and "amount" not in use), note["id"]


def test_an_amount_without_a_unit_is_flagged() -> None:
    for note, step in all_steps():
        bare = any("amount" in use and "unit" not in use for use in step.get("materials", []))
        assert bare == flags(step, "unit"), note["id"]


def test_ratios_and_layers_are_numbers_in_their_order() -> None:
    for note, step in all_steps():
        if ratio := step.get("ratio"):
            assert set(ratio) <= {"parts", "by", "derived"}, note["id"]
            assert len(ratio["parts"]) >= 2, note["id"]
            assert all(is_number(part) and part > 0 for part in ratio["parts"]), note["id"]
            assert ratio["by"] in ("weight", "volume", None), note["id"]
        for layer in step.get("layers", []):
            assert set(layer) == {"name", "count", "gsm"}, note["id"]
            assert layer["count"] is None or layer["count"] > 0, note["id"]
            assert layer["gsm"] is None or 15 <= layer["gsm"] <= 1500 or flags(step, "layers"), note["id"]


def test_times_and_conditions_are_of_a_known_kind_and_unit() -> None:
    for note, step in all_steps():
        for timing in step.get("timings", []):
            least, most = timing["seconds"]
            assert timing["kind"] in TIMING_KINDS, note["id"]
            assert is_number(least), note["id"]
            assert most is None or least <= most, note["id"]
        for moment in step.get("clock", []):
            at, recorded = datetime.fromisoformat(moment["at"]), datetime.fromisoformat(note["recorded_at"])
            assert moment["kind"] in CLOCK_KINDS, note["id"]
            assert at.utcoffset() == recorded.utcoffset(), note["id"]
            assert (at > recorded) if step["status"] == "planned" else (abs((at - recorded).days) <= 1), note["id"]
        for condition in step.get("conditions", []):
            assert CONDITION_UNITS[condition["kind"]] == condition["unit"], note["id"]


def test_phrases_are_as_they_were_said() -> None:
    for note, step in all_steps():
        text = note["text"].casefold()
        for field in ("places", "reasons", "cues", "warnings"):
            assert all(phrase.casefold() in text for phrase in step.get(field, [])), note["id"]
        for seen in step.get("observations", []):
            assert seen["kind"] in OBSERVATION_KINDS, note["id"]
            assert seen["text"].casefold() in text, note["id"]


def test_flags_name_a_field_and_say_why() -> None:
    for note, step in all_steps():
        for flag in step.get("flags", []):
            assert flag["field"] in FLAG_FIELDS, note["id"]
            assert flag["why"].strip(), note["id"]


def test_every_phenomenon_action_and_observation_stands_often_enough() -> None:
    tags = Counter(tag for note in all_notes() for tag in note["tags"])
    wanted = {f"timing: {kind}": LEAST_OF_A_PHENOMENON for kind in TIMING_KINDS}
    wanted |= {f"condition: {kind}": LEAST_OF_A_PHENOMENON for kind in CONDITION_UNITS}
    wanted |= {f"clock: {kind}": LEAST_OF_A_PHENOMENON for kind in CLOCK_KINDS}
    wanted |= {f"action: {action}": LEAST_OF_AN_ACTION for action in ACTIONS}
    wanted |= {f"observation: {kind}": LEAST_OF_AN_OBSERVATION for kind in OBSERVATION_KINDS}
    wanted |= {tag: LEAST_OF_A_PHENOMENON for tag in tags if ":" not in tag}
    assert {tag: tags[tag] for tag, least in wanted.items() if tags[tag] < least} == {}


def test_tags_tell_what_the_labels_hold() -> None:
    for note in all_notes():
        tags, steps = set(note["tags"]), note["gold"]
        assert ("no-step" in tags) == (not steps), note["id"]
        assert ("several-steps" in tags) == (len(steps) > 1), note["id"]
        assert {f"action: {step['action']}" for step in steps} <= tags, note["id"]
        assert {step["status"].replace(" ", "-") for step in steps} - {"done"} <= tags, note["id"]
