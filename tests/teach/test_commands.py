"""teach, export and import from the command line."""

from __future__ import annotations

import json

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from journal.cli.app import app
from journal.shop import Shop
from tests.find.typed_workshop import Clock, typed_workshop


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """A workshop of our own: these commands write to it."""
    shop: Shop = typed_workshop(tmp_path_factory.mktemp("own"), Clock("2026-11-25T09:00:00+00:00"))
    yield shop
    shop.close()


@pytest.fixture
def mouldbook(own, monkeypatch):
    monkeypatch.setenv("MOULDBOOK_DATA_DIR", str(own.settings.data_dir))
    monkeypatch.setenv("MOULDBOOK_TIMEZONE", "Europe/London")
    return lambda *words, **more: CliRunner().invoke(app, words, **more)


def test_the_sheet_is_printed_in_the_makers_words(mouldbook):
    done = mouldbook("teach", "niche-2", "niche-1")
    assert done.exit_code == 0, done.output
    assert "so the glass does not bridge" in done.output
    assert "niche-1 failed" in done.output
    assert "What went wrong before" in done.output


def test_the_sheet_answers_in_json(mouldbook):
    answer = json.loads(mouldbook("teach", "niche-2", "--json").output)
    assert answer["lessons"][0]["item"] == "seal: shellac"


def test_a_test_is_answered_line_by_line(mouldbook, own):
    asked = mouldbook("teach", "niche-2", "--test", "--seed", "7", "--who", "apprentice", input="ABC\n10.4 g\n")
    assert asked.exit_code == 0, asked.output
    assert "right (seed 7)" in asked.output
    kept = own.store.training_tests("niche-2")[-1]
    assert [answer["right"] for answer in kept.answers][:2] == [False, True]
    assert "Mixed seven hundred grams" in asked.output
    shown = mouldbook("teach", "niche-2", "--progress")
    assert "weigh 1 of 2" in shown.output


def test_lessons_are_signed_off_by_number(mouldbook):
    done = mouldbook("teach", "niche-2", "--sign-off", "1,2", "--who", "apprentice", "--by", "lead maker")
    assert done.exit_code == 0, done.output
    assert "signed: seal: shellac" in done.output
    assert "seal: shellac" in mouldbook("teach", "niche-2", "--progress").output
    assert mouldbook("teach", "niche-2", "--sign-off", "x").exit_code == 2
    assert mouldbook("teach", "niche-2", "--test", "--progress").exit_code == 2


def test_sheets_are_written_as_pdf(mouldbook, tmp_path):
    for words in (("show", "niche-2"), ("teach", "niche-2", "niche-3")):
        done = mouldbook(*words, "--pdf", str(tmp_path / "sheet.pdf"))
        assert done.exit_code == 0, done.output
        assert "polyester gel coat" in PdfReader(tmp_path / "sheet.pdf").pages[0].extract_text()


def test_everything_goes_out_and_comes_in_again(mouldbook, tmp_path, monkeypatch):
    for form in ((), ("--csv",)):
        target = tmp_path / f"out{len(form)}.zip"
        done = mouldbook("export", str(target), *form)
        assert done.exit_code == 0, done.output
        with monkeypatch.context() as other:
            other.setenv("MOULDBOOK_DATA_DIR", str(tmp_path / f"new{len(form)}"))
            first = mouldbook("import", str(target), "--json")
            assert json.loads(first.output)["new"]["builds"] == 5
            again = mouldbook("import", str(target))
            assert again.exit_code == 0, again.output
            assert "New: nothing" in again.output
            assert mouldbook("outcome", "niche-2", "failed").exit_code == 0
            told = mouldbook("import", str(target))
            assert told.exit_code == 1
            assert "Not taken in: build niche-2" in " ".join(told.output.split())
