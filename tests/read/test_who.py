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


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_who_is_kept_as_said(said: str, expected: list[str]) -> None:
    assert texts(said, "who") == expected
