"""Observations, as makers say them: what was seen and felt."""

import pytest

from tests.read.telling import told

BEFORE = [
    ("Small void under the left scroll.", [("void", "Small void under the left scroll")]),
    ("found a few pinholes on the nose", [("pinhole", "few pinholes on the nose")]),
    ("a few pips of air in the ear", [("bubble", "few pips of air in the ear")]),
    ("the batch got hot and smoked", [("exotherm", "got hot and smoked")]),
    ("cast nine came out lovely", [("good", "came out lovely")]),
    ("gel coat alligatored on the nose", [("wrinkle", "alligatored on the nose")]),
    ("bit of orange peel on the back", [("fisheye", "bit of orange peel on the back")]),
    ("the mat pulled away from the corner", [("bridging", "pulled away from the corner")]),
    ("flange is a bit tacky still", [("tacky", "a bit tacky still")]),
    ("popped off clean", [("good", "popped off clean")]),
    ("surface has gone milky", [("blush", "gone milky")]),
    ("there's a bloom on it", [("blush", "bloom")]),
    ("no voids that I can see", [("good", "no voids")]),
    ("wait till it's tacky or you get pinholes", []),
    ("watch for bubbles", []),
    ("rolled it so the glass does not bridge", []),
    ("hairline crack along the rim", [("crack", "hairline crack along the rim")]),
    ("the edge chipped when we opened it", [("chip", "chipped")]),
    ("it stuck on the undercut and tore", [("stuck", "stuck on the undercut"), ("tear", "tore")]),
    ("dry patch behind the ear", [("dry glass", "dry patch behind the ear")]),
    ("resin leaked out of the split line", [("leak", "leaked out of the split line")]),
    ("still soft after a day", [("soft", "still soft")]),
    ("popped the bubbles with the heat gun", []),
    ("panel's warped", [("warp", "warped")]),
    ("you can see the weave printing through on the face", [("print-through", "see the weave printing through on the face")]),
    ("dust in the gel coat", [("dust", "dust in the gel coat")]),
    ("it yellowed near the lamp", [("colour", "yellowed")]),
    ("the layers came apart at the flange", [("delamination", "came apart at the flange")]),
    ("if it cracks we'll fill it", []),
    ("brushed a good coat and gave it a good stir", []),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_observations_are_kept_with_their_kind(said: str, expected: list[tuple[str, str]]) -> None:
    assert [(item.value.kind, item.value.text) for item in told(said, "observation")] == expected
