"""One line of text becomes words and filters."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.find.query import Query, QueryError, parse_query, synonyms_of
from journal.trade.material import Material, catalogue_of

LONDON = ZoneInfo("Europe/London")
CATALOGUE = catalogue_of(
    (
        Material("glass cloth", "glass fabric", synonyms=("woven cloth",), general=("glass",)),
        Material("chopped strand mat", "glass fabric", synonyms=("csm", "mat"), general=("glass",)),
        Material("pva release", "release agent"),
    )
)


def parsed(text: str) -> Query:
    return parse_query(text, CATALOGUE, LONDON)


def test_plain_words_stay_words() -> None:
    assert parsed("  soft   gel coat ") == Query("soft gel coat")
    assert parsed("") == Query()


def test_filters_are_taken_out_wherever_they_stand() -> None:
    assert parsed('soft action:brush material:"Woven Cloth" rim mould:niche outcome:FAILED') == Query(
        "soft rim", material="glass cloth", action="brush", mould="niche", outcome="failed"
    )


@pytest.mark.parametrize("text", ["100:28", "lot:4471", "action:", "http://x", 'material:""', "a action:x:"])
def test_a_colon_alone_makes_no_filter(text: str) -> None:
    if text.endswith("x:"):
        with pytest.raises(QueryError):
            parsed(text)
    else:
        assert parsed(text) == Query(text)


@pytest.mark.parametrize("text", ["action:wet-out", "action:wet_out", 'action:"wet out"', "Action:Wet-Out"])
def test_acts_of_two_words_can_be_joined(text: str) -> None:
    assert parsed(text).action == "wet out"


def test_an_outcome_of_two_words_too() -> None:
    assert parsed("outcome:under-way").outcome == "under way"


def test_a_material_that_the_catalogue_lacks_is_looked_for_as_said() -> None:
    assert parsed("material:Yacht_Varnish").material == "yacht_varnish"


def test_dates_are_days_of_the_shop() -> None:
    query = parsed("since:2026-05 until:2026-05-31")
    assert query.since == datetime(2026, 5, 1, tzinfo=LONDON)
    assert query.until == datetime(2026, 6, 1, tzinfo=LONDON)
    assert parsed("until:2026-12").until == datetime(2027, 1, 1, tzinfo=LONDON)
    assert parsed("since:2026").since == datetime(2026, 1, 1, tzinfo=LONDON)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("action:brusj", "did you mean 'brush'"),
        ("outcome:fine", "under way, worked, failed, given up"),
        ("since:yesterday", "YYYY-MM-DD"),
        ("since:2026-02-30", "no date"),
        ("until:9999", "no date"),
        ("until:9999-12-31", "no date"),
        ("since:0000", "no date"),
    ],
)
def test_a_value_that_no_filter_takes_is_explained(text: str, message: str) -> None:
    with pytest.raises(QueryError, match=message):
        parsed(text)


@given(st.text(max_size=80))
def test_any_text_is_a_query_or_a_clear_refusal(text: str) -> None:
    with suppress(QueryError):
        assert parsed(text).limit


def test_names_of_one_material_are_synonyms_and_general_words_stand_for_several() -> None:
    assert synonyms_of(CATALOGUE) == {
        "glass cloth": ("woven cloth",),
        "woven cloth": ("glass cloth",),
        "glass": ("glass cloth", "chopped strand mat"),
        "chopped strand mat": ("csm", "mat"),
        "csm": ("chopped strand mat", "mat"),
        "mat": ("chopped strand mat", "csm"),
        "pva release": (),
    }
