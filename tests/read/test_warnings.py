"""Warnings, as makers say them: what not to do, and what to look out for."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("Don't press too hard or you drag the fibres.", ["Don't press too hard"]),
    ("Never mix more than 400 grams at once.", ["Never mix more than 400 grams at once"]),
    ("never more than 400 grams at once", ["never more than 400 grams at once"]),
    ("Make sure you get into the corners before you lay the mat.",
     ["Make sure you get into the corners before you lay the mat"]),
    ("I didn't wax the flange", []),
    ("don't know how much is left", []),
    ("never mind, it's fine", []),
    ("don't worry about the edge", []),
    ("watch for bubbles under the lip", ["watch for bubbles under the lip"]),
    ("be careful round the nose, it's thin", ["be careful round the nose"]),
    ("careful not to trap air in the ear", ["careful not to trap air in the ear"]),
    ("mind the edge it's sharp", ["mind the edge"]),
    ("keep the peroxide away from the accelerator", ["keep the peroxide away from the accelerator"]),
    ("lay it no thicker than three mil", ["no thicker than three mil"]),
    ("you don't want to overwork it because it goes white", ["you don't want to overwork it"]),
    ("you don't need to sand it", []),
    ("so you don't trap air", []),
    ("never waxed that one", []),
    ("brush it on thin and don't go back over it", ["don't go back over it"]),
    ("don't rush it and don't skimp on the wax", ["don't rush it", "don't skimp on the wax"]),
    ("whatever you do don't pull on the ears when it comes off",
     ["don't pull on the ears when it comes off"]),
    ("mixed 300 don't let it sit in the pot otherwise it cooks", ["don't let it sit in the pot"]),
    ("we don't have any mat left", []),
    ("I don't think it's cured", []),
]  # fmt: skip


AFTER = [
    ("Don't ever mix the peroxide and the accelerator together.",
     ["Don't ever mix the peroxide and the accelerator together"]),
    ("do not touch it for an hour", ["do not touch it for an hour"]),
    ("make sure the wax is dry then spray the PVA", ["make sure the wax is dry"]),
    ("make sure your gloves are on", ["make sure your gloves are on"]),
    ("I made sure the flange was clean", []),
    ("watch out for the sharp edge on the flange", ["watch out for the sharp edge on the flange"]),
    ("watched it for ten minutes", []),
    ("you mustn't let the first coat dry out", ["you mustn't let the first coat dry out"]),
    ("you can't leave it in the pot or it cooks", ["you can't leave it in the pot"]),
    ("I don't usually bother with tissue", []),
    ("we never got to the second coat", []),
    ("Never, ever thin the gel coat with acetone.", ["Never, ever thin the gel coat with acetone"]),
    ("always wear a mask when you're sanding this", ["always wear a mask when you're sanding this"]),
    ("go easy on the heat gun", ["go easy on the heat gun"]),
    ("keep the heat gun off the wax", ["keep the heat gun off the wax"]),
    ("kept it away from the heater", []),
    ("take care around the whiskers they snap", ["take care around the whiskers"]),
    ("avoid going over it twice", ["avoid going over it twice"]),
    ("try not to stretch the mat", ["try not to stretch the mat"]),
    ("Don't demould until it's stone cold or it'll warp.", ["Don't demould until it's stone cold"]),
    ("no thicker than half a mil per coat", ["no thicker than half a mil per coat"]),
    ("no more than twenty minutes between coats", []),
    ("it doesn't matter if you miss a bit", []),
    ("don't forget to put the vents in", ["don't forget to put the vents in"]),
    ("didn't make sure it was dry", []),
    ("if you don't wax it you'll never get it off", []),
    ("whatever happens never lift it by the flange because it'll crack", ["never lift it by the flange"]),
    ("they don't make that one any more", []),
    ("the halves don't meet at the top", []),
    ("you shouldn't need to sand between coats", []),
]  # fmt: skip


LATER = [
    ("don't go mad with the catalyst", ["don't go mad with the catalyst"]),
    ("you really don't want to be sanding this without a mask",
     ["you really don't want to be sanding this without a mask"]),
    ("be sure to scrape the bottom of the pot", ["be sure to scrape the bottom of the pot"]),
    ("remember to write the lot on the side", ["remember to write the lot on the side"]),
    ("Never leave mixed resin in a deep pot.", ["Never leave mixed resin in a deep pot"]),
    ("gotta watch the temperature on this stuff", ["watch the temperature on this stuff"]),
    ("do not let it pool in the corners and do not flood it", ["do not let it pool in the corners", "do not flood it"]),
    ("must not be touched for a day", ["must not be touched for a day"]),
    ("no need to wax it again", []),
    ("nobody waxed it", []),
    ("I wouldn't go over 400 grams at a time", ["I wouldn't go over 400 grams at a time"]),
    ("keep stirring until it's smooth", []),
    ("mind you it was cold", []),
    ("don't bother with the tissue on this one", []),
    ("careful with the drill near the edge", ["careful with the drill near the edge"]),
    ("carefully brushed it into the ear", []),
    ("don't be tempted to thin it", ["don't be tempted to thin it"]),
    ("he doesn't wax enough", []),
    ("I did not thin it", []),
    ("we do not have any", []),
    ("Watch your fingers when it snaps shut.", ["Watch your fingers when it snaps shut"]),
    ("ease off on the pressure or it'll spring back", ["ease off on the pressure"]),
    ("ideally no more than two kilos in one go", ["no more than two kilos in one go"]),
    ("keep your mask on and never sand it dry", ["keep your mask on", "never sand it dry"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER + LATER)
def test_warnings_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "warning") == expected
