"""compare and trace from the command line."""

from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from journal.cli.app import app


@pytest.fixture
def mouldbook(workshop, monkeypatch):
    """Return a function that runs a command on the demo workshop."""
    monkeypatch.setenv("MOULDBOOK_DATA_DIR", str(workshop.settings.data_dir))
    monkeypatch.setenv("MOULDBOOK_TIMEZONE", "Europe/London")
    return lambda *words: CliRunner().invoke(app, words)


def test_compare_prints_the_likeliest_cause_first_with_the_makers_words(mouldbook):
    done = mouldbook("compare", "niche-1", "niche-2")
    assert done.exit_code == 0, done.output
    first, second = done.output.index("1. catalyst at 1 per 100"), done.output.index("2. shop at 13 to 14 degC")
    assert first < done.output.index("six grams of catalyst") < second
    assert "What the record lacks" in done.output


def test_compare_answers_in_json(mouldbook):
    answer = json.loads(mouldbook("compare", "niche-1", "niche-2", "--json").output)
    assert answer["explanations"][0]["likely"][0]["factor"] == "little hardener or catalyst"
    assert answer["explanations"][0]["rows"]


def test_compare_all_says_when_there_are_too_few_builds(mouldbook):
    done = mouldbook("compare", "--all")
    assert done.exit_code == 0, done.output
    assert "Too few builds to say" in done.output


def test_compare_wants_builds_or_all(mouldbook):
    assert mouldbook("compare").exit_code == 2
    assert mouldbook("compare", "niche-1", "--all").exit_code == 2


def test_trace_prints_a_recall_list(mouldbook):
    done = mouldbook("trace", "catalyst")
    assert done.exit_code == 0, done.output
    assert "Recall list: catalyst" in done.output
    assert "niche-2" in done.output
    assert json.loads(mouldbook("trace", "niche", "pull", "2", "--json").output)["direction"] == "back"
