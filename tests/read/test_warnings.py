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


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_warnings_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "warning") == expected
