"""The parts of the reading benchmark that could count wrongly."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from journal.read.catalogue import catalogue_from_toml
from journal.read.language import load_language
from journal.read.reader import Reader
from tests.bench.read import cost, quantities, voices
from tests.bench.read.corpus import read_notes
from tests.bench.score import Counts

Row = dict[str, Any]
AT = "2026-03-02T09:00:00+00:00"


def note(key: str, text: str, **more: Any) -> Row:
    return {"id": key, "recorded_at": AT, "text": text, "gold": [], "tags": [], **more}


@pytest.fixture(scope="module")
def reader() -> Reader:
    shop = '"laminating epoxy" = { kind = "epoxy resin" }\n"hardener" = { kind = "hardener" }'
    return Reader(load_language(), catalogue_from_toml(shop))


def test_notes_of_a_build_are_read_in_the_light_of_earlier_ones(reader: Reader) -> None:
    text = "Mixed 400 grams of laminating epoxy with 100 grams of hardener."
    notes = [note("a-1", text, build="a"), note("a-2", "Same again.", build="a"), note("b-1", "Same again.")]
    read = read_notes(reader, notes)
    amounts = {key: [m.get("amount") for s in steps for m in s["materials"]] for key, steps in read.items()}
    assert amounts["a-1"] == amounts["a-2"] == [400.0, 100.0]
    assert 400.0 not in amounts["b-1"]


def test_amounts_are_compared_without_their_materials_and_by_dialect() -> None:
    gold = [
        {"action": "weigh", "materials": [{"name": "water", "amount": 946.352946, "unit": "ml"}]},
        {"action": "fit", "materials": [{"name": "bolts", "amount": 4, "unit": "count"}]},
    ]
    american = note("a", "A quart of water, and four bolts fitted.", locale="en-US", gold=gold)
    ours = {"a": [{"action": "weigh", "materials": [{"name": "plaster", "amount": 946.35, "unit": "ml"}]}]}
    assert quantities.compare([american], ours) == {"ours": Counts(1, 1, 1), "quantulum3": Counts(1, 1, 1)}
    british = american | {"locale": "en-GB"}
    assert quantities.compare([british], ours)["quantulum3"] == Counts(1, 1, 0)


def test_a_build_has_one_voice_of_its_country() -> None:
    british = [note(f"w07-{n:02d}", "Poured it.") for n in range(5)]
    assert len({voices.voice_of(one) for one in british}) == 1
    assert {voices.voice_of(one) for one in british} <= set(voices.TUNED.british)
    american = [note(f"m{n:02d}-01", "Poured it.", locale="en-US") for n in range(40)]
    assert {voices.voice_of(one) for one in american} == set(voices.TUNED.american)


def test_the_cast_that_checks_has_voices_that_nothing_was_tuned_on() -> None:
    tuned = {*voices.TUNED.american, *voices.TUNED.british}
    assert tuned & {*voices.CHECK.american, *voices.CHECK.british} == {"neural, US"}
    assert {*tuned, *voices.CHECK.american, *voices.CHECK.british} == set(voices.VOICES)


def test_what_is_written_as_a_mishearing_is_not_spoken() -> None:
    notes = [note("a", "Brushed the gel code on.", tags=["misheard"]), note("b", "Poured it.")]
    assert [one["id"] for one in voices.spoken(notes)] == ["b"]


def test_every_other_build_is_taken_whole() -> None:
    notes = [note(f"{build}-{n}", "Poured it.") for build in ("a", "b", "c") for n in (1, 2)]
    assert [one["id"] for one in voices.every(notes, 2)] == ["a-1", "a-2", "c-1", "c-2"]
    assert [one["id"] for one in voices.every(notes, 1, first=1)] == ["a-1", "b-1", "c-1"]


def test_noise_makes_another_recording_of_the_same_speech(tmp_path: Path) -> None:
    if not shutil.which("espeak-ng"):
        pytest.skip("espeak-ng is not installed")
    said = [one for n in range(40) if voices.voice_of(one := note(f"x{n}-1", "Poured it.")).startswith("espeak")][:1]
    [(_, clean)] = voices.recordings(said, None, tmp_path)
    [(_, noisy)] = voices.recordings(said, 5.0, tmp_path)
    assert clean != noisy
    assert clean.stat().st_size > 1000
    assert len(list(tmp_path.glob("*.npy"))) == 1


def test_cost_is_a_ratio_and_grows_with_the_words(reader: Reader) -> None:
    notes = [note(str(n), "Mixed 400 grams of laminating epoxy") for n in range(16)]
    whole = cost.whole_pipeline()
    assert set(load_language().pipe_names) < set(whole.pipe_names)
    median, least, most = cost.ratio(reader, whole, notes[:2])
    assert 0 < least <= median <= most
    words = [of[0] for of in cost.by_length(reader, whole, notes).values()]
    assert words == [6.0, 12.0, 24.0, 48.0, 96.0]
