"""Cues, as makers say them: how to tell that a thing is ready."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("Mix it until the streaks are gone.", ["until the streaks are gone"]),
    ("stirred it till it was one colour, no streaks, then poured it", ["till it was one colour, no streaks"]),
    ("wait until it's tacky but doesn't come off on the glove", ["until it's tacky but doesn't come off on the glove"]),
    ("wait until it's tacky so the next coat keys", ["until it's tacky"]),
    ("leave it till six o'clock", []),
    ("leave it until tomorrow morning", []),
    ("When it goes dull brush the second coat on.", ["When it goes dull"]),
    ("when I demoulded it the edge tore", []),
    ("once it's rubbery trim the flange", ["once it's rubbery"]),
    ("lay the first layer as soon as it stops smearing", ["as soon as it stops smearing"]),
    ("It should feel like a boiled sweet.", ["should feel like a boiled sweet"]),
    ("you're looking for a thick cream", ["looking for a thick cream"]),
    ("sand until smooth, then wipe it", ["until smooth"]),
    ("rolled it till I couldn't see any white", ["till I couldn't see any white"]),
    ("waited until it had kicked and then laid the mat", ["until it had kicked"]),
    ("wait till it's firm then trim it", ["till it's firm"]),
    ("until next week", []),
    ("cured it until it didn't dent with a fingernail", ["until it didn't dent with a fingernail"]),
    ("mix to a peanut butter consistency", ["peanut butter consistency"]),
    ("it's ready when it snaps off clean", ["when it snaps off clean"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_cues_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "cue") == expected
