"""Recipes and plans from the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from journal.cli.app import app
from journal.keep.views import NewMould
from journal.settings import Settings
from journal.shop import Shop
from tests.api.test_plans import RECIPE, say


@pytest.fixture
def workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    monkeypatch.setenv("MOULDBOOK_DATA_DIR", str(tmp_path))
    monkeypatch.setenv("MOULDBOOK_TIMEZONE", "Europe/London")
    shop = Shop.open(Settings())
    shop.store.add_mould(NewMould("Niche", "Shell niche with scrolls", area_m2=1.4), shop.now())
    for _ in range(2):
        shop.store.add_build("niche", shop.now())
    for text in RECIPE:
        say(shop, "niche-1", text)
    shop.store.set_outcome("niche-1", "worked", "Clean release", "lead maker", shop.now())
    return shop


def mouldbook(*arguments: str) -> Result:
    return CliRunner().invoke(app, arguments)


def test_a_recipe_is_found_scaled_followed_and_a_step_of_it_skipped(workshop: Shop) -> None:
    found = json.loads(
        mouldbook("find", "--recipe", "niche", "--material", "gel coat", "--area", "1.5", "--json").stdout
    )
    assert [(offer["build"]["key"], offer["why"][1]) for offer in found] == [("niche-1", "1.4 m2, yours 1.5")]

    scaled = json.loads(mouldbook("plan", "scale", "niche-1", "--area", "0.7", "--json").stdout)
    assert scaled["scale"]["factor"] == 0.5
    assert [use["amount"] for use in scaled["steps"][1]["uses"]] == [350, 7]
    assert "mix 350 grams of polyester gel coat" in mouldbook("plan", "scale", "niche-1", "--area", "0.7").stdout

    started = mouldbook("plan", "start", "niche-2", "--recipe", "niche-1", "--area", "0.7", "--who", "apprentice")
    assert "Next, step 1 of 4: seal with 3 coats of shellac" in started.stdout
    say(workshop, "niche-2", "Sealed it with two coats of shellac.")
    shown = mouldbook("plan", "show", "niche-2").stdout
    assert "off the plan: shellac: 2 laid, planned 3" in shown
    assert "Next, step 2 of 4" in shown
    assert "Next, step 3 of 4" in mouldbook("plan", "skip", "niche-2").stdout
    kept = json.loads(mouldbook("plan", "show", "niche-2", "--json").stdout)
    assert [step["state"] for step in kept["steps"]] == ["done", "skipped", "open", "open"]


def test_nothing_found_and_nothing_to_find_are_told_apart(workshop: Shop) -> None:
    assert mouldbook("find", "--recipe", "--material", "silicone").exit_code == 1
    assert mouldbook("find").exit_code == 2
    assert mouldbook("find", "wax", "--area", "2").exit_code == 2
    shown = mouldbook("find", "shellac", "that", "worked").stdout
    assert "Taken to ask for: " in shown
    assert "outcome worked" in shown
