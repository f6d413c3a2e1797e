"""Recipes offered for a job: what worked first, why they are like it, and what is not known."""

from __future__ import annotations

from dataclasses import replace

import pytest

from journal.find.offers import Candidate, Job, Offer, offers
from journal.keep.views import Outcome
from journal.trade.limits import TradeError
from tests.find.kept import CATALOGUE, degrees, kept, layer, use
from tests.find.test_scale import BUILD, MOULD


def made(key: str, material: str = "polyester gel coat", **more) -> Candidate:
    outcome: Outcome = more.get("outcome", "worked")
    steps = (
        kept(1, "check", conditions=(degrees(more.get("degc", 20)),)),
        kept(2, "brush", use(material), layers=(layer("chopped strand mat"),)),
    )
    mould = replace(MOULD, name=key, pattern=more.get("shape", "shell niche"), area_m2=more.get("area", 1.4))
    return Candidate(replace(BUILD, key=key, name=key, outcome=outcome), mould, steps, more.get("pulls", 0))


def keys(found: list[Offer]) -> list[str]:
    return [offer.build.key for offer in found]


def test_what_worked_comes_before_a_likelier_one_that_failed() -> None:
    found = offers([made("failed", outcome="failed"), made("worked", area=3)], Job(area_m2=1.4), CATALOGUE)
    assert keys(found) == ["worked", "failed"]


def test_the_nearest_in_area_temperature_and_shape_comes_first_and_says_why() -> None:
    near = made("near", area=1.5, degc=19, shape="shell niche with scrolls", pulls=2)
    far = made("far", area=6, degc=30, shape="column base")
    first, second = offers([far, near], Job("gel coat", 1.4, 20, "shel niche"), CATALOGUE)
    assert (first.build.key, first.pulls) == ("near", 2)
    assert first.why == (
        "made with polyester gel coat", "1.5 m2, yours 1.4", "made at 19 degrees, yours 20",
        "shell niche with scrolls: shell, niche",
    )  # fmt: skip
    assert second.unlike == ("6 m2, yours 1.4", "made at 30 degrees, yours 20", "another shape: column base")
    assert first.likeness > second.likeness


def test_of_two_alike_the_one_with_more_castings_comes_first() -> None:
    assert keys(offers([made("few", pulls=1), made("many", pulls=30)], Job(), CATALOGUE)) == ["many", "few"]


@pytest.mark.parametrize(
    "asked", ["epoxy gel coat", "Epoxy Gelcoat", "epoxy gel cote", "epoxi gel coat", "gel coat", "epoxy gel"]
)
def test_a_material_is_meant_by_its_synonyms_general_words_and_slips(asked: str) -> None:
    found = offers([made("mine", "epoxy gel coat"), made("other", "shellac")], Job(asked), CATALOGUE)
    assert keys(found) == ["mine"]


def test_a_build_without_the_material_is_not_offered() -> None:
    assert offers([made("a")], Job("platinum silicone"), CATALOGUE) == []


def test_what_is_not_known_of_a_build_is_said() -> None:
    (offer,) = offers([made("a", area=None)], Job(area_m2=1), CATALOGUE)
    assert offer.unlike == ("the area of niche is not stated",)


@pytest.mark.parametrize("wrong", [{"area_m2": 0}, {"area_m2": float("nan")}, {"degc": 300}])
def test_a_job_that_cannot_be_is_refused(wrong: dict) -> None:
    with pytest.raises(TradeError):
        Job(**wrong)
