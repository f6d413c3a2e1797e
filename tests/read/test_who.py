"""Who did it, as far as it was said."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("The apprentice did the flange.", ["apprentice"]),
    ("second maker mixed 300 of resin", ["second maker"]),
    ("I brushed a coat on", ["I"]),
    ("me and the lead maker pulled it", ["me and the lead maker"]),
    ("told the apprentice to wax it", []),
    ("brushed on by the second maker", ["second maker"]),
    ("mixed 300 of resin", []),
    ("Jo laid the first layer", ["Jo"]),
    ("Mixed the resin", []),
    ("I think it's cured", []),
]


AFTER = [
    ("second maker and I laid up the back", ["second maker and I"]),
    ("we poured it at ten", ["we"]),
    ("had the trainee mix the next one", ["trainee"]),
    ("Right, so the lead maker brushed the first coat and the apprentice did the flange.",
     ["lead maker", "apprentice"]),
    ("the second coat went on at six", []),
    ("I reckon it'll be fine", []),
    ("Resin went in at ten", []),
    ("Wax dried in ten minutes", []),
    ("Sam and the apprentice pulled it", ["Sam and the apprentice"]),
    ("like the apprentice said", []),
]  # fmt: skip


LATER = [
    ("the lads did two layers while I was out", ["lads", "I"]),
    ("the apprentice's first go at it", []),
    ("me and the apprentice turned it over", ["me and the apprentice"]),
    ("the second maker says never tilt it", ["second maker"]),
    ("We waxed it and they sprayed it", ["We"]),
    ("Post cured both halves", []),
    ("Gel went on at nine", []),
    ("Callum's brushing the second coat", ["Callum"]),
    ("Had Maria check the thickness", ["Maria"]),
    ("My brother waxed it for me", ["brother"]),
    ("The night shift pulled two castings", ["night shift"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER + LATER)
def test_who_is_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "who") == expected
