"""A quick look at the invented year; tests/bench/explain.py measures it over many."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from journal import flow
from journal.record import ACTIONS, OBSERVATION_KINDS, Evidence, Step
from journal.review.factors import factors
from journal.settings import Settings
from journal.shop import Shop
from samples.make_year import PLANTS, Year, keep_year, make_year, records_of


def _evidence(part: object) -> list[Evidence]:
    if isinstance(part, Evidence):
        return [part]
    if isinstance(part, tuple):
        return [found for each in part for found in _evidence(each)]
    if isinstance(part, Step):
        return [found for name in Step.__dataclass_fields__ for found in _evidence(getattr(part, name))]
    return _evidence(part.evidence) if hasattr(part, "evidence") else []


@pytest.fixture(scope="module")
def year() -> Year:
    return make_year(1)


def test_a_year_has_200_builds_6000_notes_and_four_causes_and_is_the_same_each_time(year):
    assert len(year.builds) == 200
    assert 5500 <= sum(len(made.notes) for made in year.builds) <= 6600
    assert len(year.planted) == 4
    assert make_year(1, builds=5) == make_year(1, builds=5)
    assert make_year(1, planted=False, builds=5).planted == ()


def test_its_records_point_to_the_words_they_came_from_and_keep_to_the_contract(year):
    for made in year.builds[:20]:
        for note in made.notes:
            for step in note.steps:
                assert step.action in ACTIONS
                assert all(seen.kind in OBSERVATION_KINDS for seen in step.observations)
                for evidence in _evidence(step):
                    assert note.text[slice(*evidence.chars)] == evidence.heard
        assert [note.at for note in made.notes] == sorted(note.at for note in made.notes)


def test_each_planted_cause_is_ranked_first_or_second(year, catalogue):
    found = factors(records_of(year), catalogue)
    for plant in year.planted:
        assert any(factor.name.startswith(plant.factor) for factor in found.of(plant.fault)[:2]), plant


@pytest.mark.parametrize("seed", [1001, 1002])
def test_nothing_is_named_in_a_year_without_planted_causes(seed, catalogue):
    assert factors(records_of(make_year(seed, planted=False)), catalogue).named == ()


def test_each_cause_can_be_seen_in_the_records_of_a_build_that_has_it(year, catalogue):
    found = factors(records_of(year), catalogue)
    names = {factor.name for factor in found.factors}
    for plant in PLANTS:
        assert any(name.startswith(plant.factor) for name in names), plant


def test_a_kept_year_is_counted_and_traced_like_one_in_memory(tmp_path: Path, catalogue):
    year = make_year(1, builds=6)
    shop = Shop(Settings(data_dir=tmp_path, timezone="UTC"))
    try:
        keep_year(shop, year)
        kept, made = flow.patterns(shop), factors(records_of(year), catalogue)
        assert kept == made
        lot = next(u.lot for s in shop.store.steps(year.builds[0].key) for u in s.record.materials if u.lot)
        assert year.builds[0].key in flow.trace(shop, f"lot {lot}").builds
    finally:
        shop.close()
    assert year.builds[0].notes[-1].at - year.builds[0].started_at > timedelta(days=1)
