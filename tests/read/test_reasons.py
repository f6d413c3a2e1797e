"""Reasons, as makers say them: why a thing is done, and what comes of not doing it."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("Rolled the first layer down so the glass doesn't bridge.", ["so the glass doesn't bridge"]),
    ("Don't press too hard or you drag the fibres.", ["or you drag the fibres"]),
    ("put a fillet in the corner so that the mat lies down, then laid two layers", ["so that the mat lies down"]),
    ("added a bit of silica to stop it sagging and brushed it into the undercut", ["to stop it sagging"]),
    ("Used the slow hardener because the shop was at 28.", ["because the shop was at 28"]),
    ("used slow hardener cos it was roasting in here", ["cos it was roasting in here"]),
    ("So I mixed three hundred of resin.", []),
    ("mixed 300 of resin so 87 of hardener", []),
    ("wait till it's tacky otherwise you get pinholes", ["otherwise you get pinholes"]),
    ("Popped a bag over it in case the dust gets in.", ["in case the dust gets in"]),
    ("two coats of wax, just to be safe, then the gel coat", ["just to be safe"]),
    ("warm the resin first, that way it runs into the detail", ["that way it runs into the detail"]),
    ("need to mix another two hundred", []),
    ("going to pour the rest tomorrow", []),
    ("started to go off so I binned it", []),
    ("it took an hour or so to gel", []),
    ("laid the tissue in to avoid print-through and rolled it", ["to avoid print-through"]),
    ("keep it thin, or else it cracks", ["or else it cracks"]),
    ("keep your batches small or it'll cook", ["or it'll cook"]),
    ("since the wax was old I gave it another coat", ["since the wax was old"]),
    ("been an hour since we poured", []),
    ("skipped the second coat due to the humidity", ["due to the humidity"]),
    ("five or six layers, or maybe seven", []),
    ("Poured it from one corner so as not to trap air.", ["so as not to trap air"]),
    ("degassed it to get the air out, poured it at ten past two", ["to get the air out"]),
    ("drilled the flange so we can bolt it up and then polished the edge", ["so we can bolt it up"]),
    ("warmed the B side because it was thick and brushed a coat on the nose", ["because it was thick"]),
    ("wet the pattern down so it doesn't suck the water out of the plaster",
     ["so it doesn't suck the water out of the plaster"]),
    ("it went a bit stiff so far so good", []),
    ("you want to stipple it rather than brush it because brushing drags the tissue",
     ["because brushing drags the tissue"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_reasons_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "reason") == expected
