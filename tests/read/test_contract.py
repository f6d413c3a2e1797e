"""The step record's contract, sentence by sentence, through the whole reader."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.read.catalogue import catalogue_from_toml
from journal.read.language import load_language
from journal.read.reader import Reader
from journal.read.recall import EMPTY
from journal.record import NoteText, step_to_json

CATALOGUE = Path(__file__).resolve().parents[2] / "journal" / "catalogue.toml"
AT = datetime.fromisoformat("2026-05-04T14:10:00+01:00")
READER = Reader(load_language(), catalogue_from_toml(CATALOGUE.read_text(encoding="utf-8")))
Step = dict[str, Any]


def read(text: str, *earlier: str, locale: str = "en-GB") -> list[Step]:
    """Return the steps of a note as JSON, after the build's earlier ones."""
    memory = EMPTY
    for words in earlier:
        memory = READER.read(NoteText(words, AT, locale), memory).memory
    return [step_to_json(step) for step in READER.read(NoteText(text, AT, locale), memory).steps]


def acts(steps: list[Step]) -> list[tuple[str, str]]:
    return [(step["action"], step["status"]) for step in steps]


def amounts(step: Step) -> dict[str, tuple[float | None, str | None]]:
    return {use["name"]: (use.get("amount"), use.get("unit")) for use in step["materials"]}


def evidenced(step: Step) -> Iterator[dict[str, Any]]:
    """Yield every value of a step that carries evidence."""
    for field in step.values():
        if isinstance(field, list):
            yield from (value for value in field if isinstance(value, dict) and "chars" in value)


def flagged(step: Step) -> set[str]:
    return {flag["field"] for flag in step["flags"]}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Mixed the laminating epoxy and brushed it on.", [("mix", "done"), ("brush", "done")]),
        ("Slapped a coat of gel coat on with a chip brush.", [("brush", "done")]),
        ("Laid up two layers of 450 chopped strand mat.", [("laminate", "done")]),
        ("Popped it this morning.", [("demould", "done")]),
        ("Cast number nine came out clean.", [("pull", "done")]),
        ("Shop's at nineteen degrees.", [("check", "done")]),
        ("Sprayed the PVA on.", [("release", "done")]),
        ("Bagged it and pulled vacuum.", [("press", "done")]),
        ("Trowelled the fairing compound into the hollow.", [("brush", "done")]),
        ("Left it to cure for six hours.", [("cure", "done")]),
        ("Next I'll wax the flange.", [("release", "planned")]),
        ("I'm going to pour the silicone tomorrow.", [("pour", "planned")]),
        ("You want to stipple the first coat.", [("stipple", "advised")]),
        ("I usually seal the pattern with shellac.", [("seal", "advised")]),
        ("Never brush the gel coat twice.", [("brush", "advised")]),
        ("Skipped the surface tissue.", [("laminate", "not done")]),
        ("Haven't waxed the flange yet.", [("release", "not done")]),
        ("No filler in this one.", [("mix", "not done")]),
        ("Testing, testing.", []),
        ("How much hardener for 420?", []),
        ("Hang on, the phone's going.", []),
    ],
)
def test_acts_and_status(text, expected):
    assert acts(read(text)) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Mixed 400 grams of laminating epoxy with 112 of hardener.",
         {"laminating epoxy": (400, "g"), "hardener": (112, "g")}),
        ("Mixed a kilo and a half of polyester resin with thirty grams of catalyst.",
         {"polyester resin": (1500, "g"), "catalyst": (30, "g")}),
        ("Weighed out twelve ounces of platinum silicone.",
         {"platinum silicone": (pytest.approx(340.19, abs=0.01), "g")}),
        ("Mixed half a litre of water into the gypsum plaster.",
         {"water": (500, "ml"), "gypsum plaster": (None, None)}),
        ("Weighed 300, no, 320 grams of epoxy gel coat.", {"epoxy gel coat": (320, "g")}),
        ("Mixed 500 grams of polyester resin with two percent catalyst.",
         {"polyester resin": (500, "g"), "catalyst": (2, "percent")}),
    ],
)  # fmt: skip
def test_amounts_find_their_material(text, expected):
    [step] = read(text)
    assert amounts(step) == expected


def test_scratch_that_drops_what_it_refers_to():
    steps = read("Mixed 400 grams of laminating epoxy. Scratch that. Mixed 500 grams of polyester resin.")
    assert [amounts(step) for step in steps] == [{"polyester resin": (500, "g")}]


def test_no_unit_anywhere_keeps_the_number_and_queries_the_unit():
    [step] = read("Mixed 400 of laminating epoxy.", "Mixed 300 grams of laminating epoxy.")
    assert amounts(step) == {"laminating epoxy": (400, None)}
    assert "unit" in flagged(step)


@pytest.mark.parametrize(
    ("text", "parts", "by"),
    [
        ("Mixed the laminating epoxy a hundred to twenty eight by weight.", [100, 28], "weight"),
        ("Mixed the urethane resin one to one by volume.", [1, 1], "volume"),
        ("Mixed platinum silicone at 10:1.", [10, 1], None),
    ],
)
def test_stated_ratios(text, parts, by):
    [step] = read(text)
    assert (step["ratio"]["parts"], step["ratio"]["by"]) == (parts, by)
    assert "derived" not in step["ratio"]


def test_a_ratio_from_two_weights_is_derived():
    [step] = read("Mixed 300 grams of epoxy gel coat with 87 grams of hardener.")
    assert step["ratio"]["derived"]
    assert step["ratio"]["parts"] == [100, 29]


def test_weights_that_disagree_with_the_stated_ratio_are_queried_with_the_deviation():
    [step] = read("Mixed 300 grams of epoxy gel coat with 57 grams of hardener, 100 to 29 by weight.")
    assert "ratio" in flagged(step)
    assert any("34 %" in flag["why"] for flag in step["flags"])


@pytest.mark.parametrize(
    ("text", "locale", "gsm"),
    [
        ("Two layers of 450 gram chopped strand mat.", "en-GB", 450),
        ("Two layers of ounce and a half chopped strand mat.", "en-US", 457.73),
        ("Two layers of ten ounce glass cloth.", "en-US", 339.06),
    ],
)
def test_a_fabrics_weight_is_areal_and_no_amount(text, locale, gsm):
    [step] = read(text, locale=locale)
    assert step["layers"][0]["count"] == 2
    assert step["layers"][0]["gsm"] == pytest.approx(gsm, rel=1e-4)
    assert not any(use.get("amount") for use in step["materials"])


def test_coats_count_in_layers_and_name_their_material():
    [step] = read("Two coats of release wax on the flange.")
    assert [(layer["name"], layer["count"]) for layer in step["layers"]] == [("release wax", 2)]
    assert [use["name"] for use in step["materials"]] == ["release wax"]


@pytest.mark.parametrize(
    ("text", "kind", "seconds"),
    [
        ("Left it about forty minutes.", "wait", [2400, 2400]),
        ("Let it cure overnight.", "cure", [28800, 57600]),
        ("Leave it to cure at least sixteen hours.", "cure", [57600, None]),
        ("Stirred it for three minutes.", "mix", [180, 180]),
        ("Pot life is twenty five minutes.", "pot life", [1500, 1500]),
        ("It gelled in twelve minutes.", "gel", [720, 720]),
    ],
)
def test_timings(text, kind, seconds):
    [step] = read(text)
    assert [(t["kind"], t["seconds"]) for t in step["timings"]] == [(kind, seconds)]


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("Mixed the polyester resin at ten past two.", "2026-05-04T14:10:00+01:00"),
        ("Mixed the polyester resin, started ten minutes ago.", "2026-05-04T14:00:00+01:00"),
        ("Popped it at half eight.", "2026-05-04T08:30:00+01:00"),
        ("I'm going to demould it at four.", "2026-05-04T16:00:00+01:00"),
    ],
)
def test_clock_times_are_the_nearest_that_fit(text, at):
    [step] = read(text)
    assert [c["at"] for c in step["clock"]] == [at]


@pytest.mark.parametrize(
    ("text", "locale", "expected"),
    [
        ("Shop's at nineteen degrees, humidity fifty five percent.", "en-GB",
         {"temperature": (19, "degC"), "humidity": (55, "percent")}),
        ("Shop's at seventy degrees.", "en-US", {"temperature": (pytest.approx(21.11, abs=0.01), "degC")}),
        ("Pulled a vacuum of minus nought point nine bar.", "en-GB", {"vacuum": (900, "mbar")}),
    ],
)  # fmt: skip
def test_conditions(text, locale, expected):
    [step] = read(text, locale=locale)
    assert {c["kind"]: (c["value"], c["unit"]) for c in step["conditions"]} == expected


def test_never_is_advice_with_its_clause_as_warning_and_what_follows_as_reason():
    [step] = read("Don't brush it twice or you drag the fibres.")
    assert step["status"] == "advised"
    assert [w["text"] for w in step["warnings"]] == ["Don't brush it twice"]
    assert [r["text"] for r in step["reasons"]] == ["or you drag the fibres"]


def test_an_upper_limit_is_a_warning_and_no_amount():
    [step] = read("Never mix more than 400 grams of laminating epoxy at once.")
    assert not any(use.get("amount") for use in step["materials"])
    assert step["warnings"]


def test_same_again_copies_amounts_ratio_and_layers_but_no_clock():
    before = "Mixed 700 grams of polyester gel coat with 14 grams of catalyst at ten past one because it is cold."
    [step] = read("Same again.", before)
    assert amounts(step) == {"polyester gel coat": (700, "g"), "catalyst": (14, "g")}
    assert (step["clock"], step["conditions"], step["reasons"]) == ([], [], [])


def test_half_that_halves_the_amounts():
    [step] = read("Mixed half that.", "Mixed 700 grams of polyester gel coat with 14 grams of catalyst.")
    assert amounts(step) == {"polyester gel coat": (350, "g"), "catalyst": (7, "g")}


def test_a_pronoun_is_its_material_without_an_amount():
    steps = read("Poured it over the paw.", "Mixed 500 grams of platinum silicone.")
    assert amounts(steps[0]) == {"platinum silicone": (None, None)}


def test_a_general_word_is_the_one_such_material_in_use():
    [step] = read("Brushed the gel coat on.", "Mixed 300 grams of epoxy gel coat with 87 of hardener.")
    assert set(amounts(step)) == {"epoxy gel coat"}
    assert set(amounts(read("Brushed the gel coat on.")[0])) == {"gel coat"}


def test_pulls_have_their_number_and_faults_their_place():
    [step] = read("Pull number 14, small void under the left scroll.")
    assert (step["action"], step["pull"]) == ("pull", 14)
    assert [o["kind"] for o in step["observations"]] == ["void"]
    assert "left scroll" in step["places"][0]["text"]


def test_a_misheard_name_is_repaired_and_flagged_with_what_was_heard():
    [step] = read("Brushed the first gel code on the left half.", "Mixed 300 grams of epoxy gel coat.")
    assert "materials" in flagged(step)
    assert any("gel code" in flag["why"] for flag in step["flags"])


def test_every_value_points_to_its_words():
    text = (
        "Right, mixed 400 grams of laminating epoxy, lot 4471, with 112 of hardener at ten past two in the left half."
    )
    for step in read(text):
        values = list(evidenced(step))
        assert values
        for value in values:
            start, end = value["chars"]
            assert text[start:end] == value["heard"]
            assert 0 <= value["confidence"] <= 1
            assert value["rule"]


WORDS = st.sampled_from(
    "mixed four hundred no grams of epoxy the with hardener at ten past two coats wax on left 450 mat until"
    " tacky because never don't same again half that about 1.5 oz degrees and then brushed lot A B to by weight".split()
)


@settings(max_examples=150, deadline=None)
@given(st.one_of(st.text(max_size=80), st.lists(WORDS, max_size=25).map(" ".join)))
def test_no_text_makes_the_reader_raise(text):
    for step in read(text):
        for value in evidenced(step):
            start, end = value["chars"]
            assert 0 <= start <= end <= len(text)


NOTES = (
    "Mixed 400 grams of laminating epoxy with 112 grams of hardener at ten past two.",
    "Two layers of 450 gram chopped strand mat on the left half, then one of 300.",
    "Shop's at nineteen degrees, humidity fifty five percent, left it forty minutes between coats.",
    "Mixed seven hundred grams of polyester gel coat with fourteen grams of catalyst, two percent.",
)


@pytest.mark.parametrize("note", NOTES)
def test_cutting_a_note_between_words_never_invents_an_amount(note):
    whole = {(use["amount"], use.get("unit")) for step in read(note) for use in step["materials"] if use.get("amount")}
    spoken = {amount for amount, _ in whole} | {
        100,
        4,
        7,
        700,
        14,
        2,
        400,
        112,
    }  # "seven", "seven hundred" are both said
    words = note.split()
    for end in range(1, len(words)):
        for step in read(" ".join(words[:end])):
            for use in step["materials"]:
                assert use.get("amount") is None or use["amount"] in spoken or step["flags"], words[:end]
