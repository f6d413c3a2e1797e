"""Builds found by plain words over an invented year, held against its records and against plain full text."""

from __future__ import annotations

import pytest

from journal import flow
from tests.bench.search import asked_all, year_shop

pytestmark = [pytest.mark.slow, pytest.mark.timeout(900)]  # a year is kept first


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    shop, year = year_shop(tmp_path_factory.mktemp("year"))
    yield shop, year
    shop.close()


def test_of_sixty_searches_the_right_build_is_among_the_first_three_for_55_and_more(kept):
    asked = asked_all(*kept)
    assert len(asked) == 60
    assert all(each.fitting for each in asked)
    right = sum(each.right(each.ours) for each in asked)
    assert right >= 55, [each.words for each in asked if not each.right(each.ours)]
    assert right > sum(each.right(each.plain) for each in asked)


def test_where_nothing_fits_all_it_is_said_what_was_let_go(kept):
    shop, _ = kept
    found = flow.find(shop, "release wax over 90 kilos that worked")
    assert found.let_go == ("amount",)
    assert {recipe.build.outcome for recipe in found.recipes} == {"worked"}


def test_of_builds_that_match_alike_those_that_worked_and_were_cast_from_come_first(kept):
    shop, _ = kept
    found = flow.find(shop, "shellac", limit=200)
    outcomes = [recipe.build.outcome for recipe in found.recipes[:5]]
    assert outcomes == ["worked"] * 5
    assert found.recipes[0].pulls >= found.recipes[-1].pulls


def test_a_line_that_names_nothing_known_finds_nothing(kept):
    shop, _ = kept
    assert flow.find(shop, "xylophone").hits == ()
