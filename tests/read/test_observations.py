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
    ("flange is a bit tacky still", [("tacky", "bit tacky still")]),
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
    ("you can see the weave printing through on the face",
     [("print-through", "see the weave printing through on the face")]),
    ("dust in the gel coat", [("dust", "dust in the gel coat")]),
    ("it yellowed near the lamp", [("colour", "yellowed")]),
    ("the layers came apart at the flange", [("delamination", "came apart at the flange")]),
    ("if it cracks we'll fill it", []),
    ("brushed a good coat and gave it a good stir", []),
]  # fmt: skip


AFTER = [
    ("lots of tiny pinholes all over the face", [("pinhole", "lots of tiny pinholes all over the face")]),
    ("it's gone cloudy on the back", [("blush", "gone cloudy on the back")]),
    ("the first coat wrinkled up round the nose", [("wrinkle", "wrinkled up round the nose")]),
    ("came away lovely", [("good", "came away lovely")]),
    ("couldn't get it off the pattern, it's stuck solid", [("stuck", "stuck solid")]),
    ("Fisheyes on the flange where the wax was thick.", [("fisheye", "Fisheyes on the flange")]),
    ("didn't see any bubbles", [("good", "didn't see any bubbles")]),
    ("no sign of any cracking", [("good", "no sign of any cracking")]),
    ("filled two pinholes on the brow with putty", [("pinhole", "two pinholes on the brow")]),
    ("edges have curled up", [("warp", "curled up")]),
    ("the resin's still a bit sticky on the back", [("tacky", "still a bit sticky on the back")]),
    ("mat bridged across the corner", [("bridging", "bridged across the corner")]),
    ("big air pocket behind the ear", [("void", "big air pocket behind the ear")]),
    ("there was a fly in the gel coat", [("dust", "fly in the gel coat")]),
    ("laid it up and it went on beautifully", [("good", "went on beautifully")]),
    ("if you see pinholes, give it another skim", []),
    ("you usually get a few bubbles there", []),
    ("use the chip brush and a dry brush after", []),
    ("drilled two holes in the flange", []),
    ("put a soft cloth down", []),
    ("the pot was smoking by the time I got to it", [("exotherm", "smoking")]),
    ("second pull tore at the toe", [("tear", "tore at the toe")]),
    ("looks a treat", [("good", "looks a treat")]),
    ("it never cured properly under the lip", [("soft", "never cured properly under the lip")]),
    ("resin's weeping out of the seam", [("leak", "weeping out of the seam")]),
    ("layers have let go on the flange", [("delamination", "let go on the flange")]),
    ("colour's patchy", [("colour", "patchy")]),
    ("the face is warped about two mil", [("warp", "warped")]),
    ("flange is nice and flat", [("good", "nice and flat")]),
    ("some dry fibres at the edge", [("dry glass", "some dry fibres at the edge")]),
    ("tapped it all over and it sounds hollow near the base", [("delamination", "sounds hollow near the base")]),
    ("no print-through, no pinholes", [("good", "no print-through, no pinholes")]),
    ("knocked a corner off it taking it out", [("chip", "knocked a corner off")]),
    ("split the mould and cleaned it", []),
    ("it wasn't quite cured so I left it", [("soft", "wasn't quite cured")]),
    ("not happy with the surface", [("other", "not happy with the surface")]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER)
def test_observations_are_kept_with_their_kind(said: str, expected: list[tuple[str, str]]) -> None:
    assert [(item.value.kind, item.value.text) for item in told(said, "observation")] == expected
