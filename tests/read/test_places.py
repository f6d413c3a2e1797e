"""Places, as makers say them: regions of a mould or a piece."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("slapped a coat on the left scroll and the flange with a chip brush", ["left scroll", "flange"]),
    ("Two layers on the top flange.", ["top flange"]),
    ("void on the inner edge of the rim", ["inner edge of the rim"]),
    ("small void under the left scroll", ["under the left scroll"]),
    ("brushed it underneath the lip", ["underneath the lip"]),
    ("pinholes on the back of the leaf", ["back of the leaf"]),
    ("a bit thin around the nose", ["around the nose"]),
    ("waxed the A half", ["A half"]),
    ("tissue into the corners and along the return edge", ["corners", "return edge"]),
    ("filled the undercut by the ear", ["undercut by the ear"]),
    ("leaked at the split line", ["split line"]),
    ("poured it in at the pour hole", ["pour hole"]),
    ("a chip at the heel and one on the toe", ["heel", "toe"]),
    ("crack in the hinge of the shell", ["hinge of the shell"]),
    ("mixed it in the pot on the bench", []),
    ("left it in the oven overnight", []),
    ("doesn't come off on the glove", []),
    ("half an hour later the shop was at nineteen", []),
    ("on the other hand it's half past two", []),
    ("topped it up and brought it back to the shop", []),
    ("did the upper left volute, lower right volute and the spigot",
     ["upper left volute", "lower right volute", "spigot"]),
    ("at the end of the day we had two thirds left", []),
    ("stippled gel coat into the deep grooves behind the mane", ["deep grooves behind the mane"]),
    ("left side first", ["left side"]),
    ("bagged it and pulled vacuum on the front face", ["front face"]),
    ("mixed by hand with both hands in the bucket", []),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_places_are_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "place") == expected
