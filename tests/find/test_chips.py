"""Plain words taken apart: filters, the words they came from, and what is left."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from journal.find.chips import Asked, plain_words
from journal.find.query import Query
from journal.read.pipeline import find_all
from journal.record import NoteText
from tests.read.reading import reader

NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)


def asked(text: str, given: Query | None = None) -> Asked:
    words = reader().words(NoteText(text, NOW))
    return plain_words(words, find_all(words), given or Query(words=text), NOW)


def labels(text: str) -> dict[str, str]:
    return {chip.field: chip.label for chip in asked(text).chips}


def test_one_line_asks_for_a_material_an_act_a_temperature_and_an_outcome():
    found = asked("epoxy putty undercut fill under 20 degrees that worked")
    assert {chip.field: chip.label for chip in found.chips} == {
        "material": "epoxy putty", "action": "fill", "temperature": "under 20 °C", "outcome": "worked",
        "place": "undercut",
    }  # fmt: skip
    assert (found.query.material, found.query.action, found.query.outcome) == ("epoxy putty", "fill", "worked")
    assert (found.place, found.query.words) == ("undercut", "")
    assert found.warmth is not None
    assert (found.warmth.holds(19), found.warmth.holds(21)) == (True, False)


@pytest.mark.parametrize(
    ("text", "field", "label"),
    [
        ("csm on the flange", "material", "chopped strand mat"),
        ("mild fibre in the undercuts", "material", "milled fibre"),
        ("shellac that went wrong", "outcome", "failed"),
        ("gel coat over 400 grams", "amount", "over 400 g"),
        ("silicone 10 to 1", "ratio", "10 to 1"),
        ("polyester gel coat at 2 percent", "ratio", "about 2 %"),
        ("two coats of release wax", "layers", "2 x release wax"),
        ("void on the left scroll", "place", "left scroll"),
        ("soft gel coat by the hinge", "place", "hinge"),
        ("bubbles in the gel coat stage", "stage", "gel coat"),
        ("what went wrong while laminating", "stage", "laminating"),
        ("warmer than 22 degrees", "temperature", "over 22 °C"),
        ("gel coat last month", "time", "last month"),
    ],
)
def test_each_kind_of_filter_is_taken_from_the_words(text: str, field: str, label: str):
    assert labels(text)[field] == label


@pytest.mark.parametrize(
    ("text", "since", "until"),
    [
        ("wax yesterday", (2026, 11, 24), (2026, 11, 25)),
        ("wax last week", (2026, 11, 16), (2026, 11, 23)),
        ("wax last month", (2026, 10, 1), (2026, 11, 1)),
        ("wax last year", (2025, 1, 1), (2026, 1, 1)),
        ("wax in march", (2026, 3, 1), (2026, 4, 1)),
        ("wax in december", (2025, 12, 1), (2026, 1, 1)),
        ("wax in march 2025", (2025, 3, 1), (2025, 4, 1)),
        ("wax in 2025", (2025, 1, 1), (2026, 1, 1)),
        ("wax since june", (2026, 6, 1), None),
        ("wax before june", None, (2026, 6, 1)),
    ],
)
def test_a_time_is_a_span_of_days(text: str, since, until):
    query = asked(text).query
    assert query.since == (since and datetime(*since, tzinfo=UTC))
    assert query.until == (until and datetime(*until, tzinfo=UTC))


def test_a_chip_taken_away_takes_its_words_with_it():
    found = asked("gel coat over 400 grams that worked")
    without = {chip.field: found.without(chip) for chip in found.chips}
    assert without["outcome"] == "gel coat over 400 grams"
    assert without["amount"] == "gel coat that worked"


def test_what_was_written_out_as_a_filter_is_not_taken_from_the_words_again():
    found = asked("gel coat that worked", Query(words="gel coat that worked", outcome="failed"))
    assert found.query.outcome == "failed"
    assert "outcome" not in {chip.field for chip in found.chips}
