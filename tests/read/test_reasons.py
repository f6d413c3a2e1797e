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


AFTER = [
    ("Put the second coat on thicker so the weave can't show through.", ["so the weave can't show through"]),
    ("I ran out of the fast stuff so I used slow", []),
    ("chamfered the edge so it releases easier and sanded it", ["so it releases easier"]),
    ("Left a tail on the peel ply so there's something to grab.", ["so there's something to grab"]),
    ("warm the tin up first because cold resin won't wet the mat", ["because cold resin won't wet the mat"]),
    ("I never pour straight on the detail, it traps air.", ["it traps air"]),
    ("Don't mix more than half a kilo, it'll go off in the bucket.", ["it'll go off in the bucket"]),
    ("thinned it ten percent with acetone to help it spray", ["to help it spray"]),
    ("put a bead of clay in the corner to keep the resin from leaking", ["to keep the resin from leaking"]),
    ("bagged it to get a better squeeze on the corners then left it", ["to get a better squeeze on the corners"]),
    ("we did it in two halves because you'd never get it off in one piece",
     ["because you'd never get it off in one piece"]),
    ("as it was a humid day I kept the heater on", ["as it was a humid day"]),
    ("brush it from the middle out as you go", []),
    ("two layers of woven on the flange for stiffness", ["for stiffness"]),
    ("left it for two hours", []),
    ("you have to be quick or the stuff gels on the brush", ["or the stuff gels on the brush"]),
    ("either PVA or wax is fine", []),
    ("So that's the first half done.", []),
    ("so what I did was put another coat on", []),
    ("stop there if it's stringing because you'll pull the first coat off", ["because you'll pull the first coat off"]),
    ("Cut darts in the mat so it lies flat around the nose, then stippled it down.",
     ["so it lies flat around the nose"]),
    ("held back ten grams of hardener since it was thirty degrees in there", ["since it was thirty degrees in there"]),
    ("waxed it five times cause it's a new mould", ["cause it's a new mould"]),
    ("tied a string to the core so we don't lose it and poured the rest in", ["so we don't lose it"]),
    ("clean the brush straight away otherwise it's scrap", ["otherwise it's scrap"]),
    ("Mixed some milled fibre in for strength and filled the corners with it.", ["for strength"]),
    ("add it slow to avoid lumps", ["to avoid lumps"]),
    ("forgot to keep the lid on", []),
    ("the trick is to stop before it drags", []),
    ("I tilt the mould so the air can get out of the toes", ["so the air can get out of the toes"]),
    ("Keep the layers staggered or you'll get a ridge.", ["or you'll get a ridge"]),
    ("pulled it early in case it locked on", ["in case it locked on"]),
    ("that took an hour because of the undercuts", ["because of the undercuts"]),
    ("seal it twice since plaster drinks the first coat", ["since plaster drinks the first coat"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER)
def test_reasons_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "reason") == expected
