"""Words that count layers and coats, and words around them. Logic in `layers.py`."""

from __future__ import annotations

LAYER_WORDS = frozenset({"layer", "layers", "ply", "plies", "skin", "skins", "sheet", "sheets"})
SHEETS = frozenset({"sheet", "sheets", "film", "films"})  # which may be of anything
COAT_WORDS = frozenset({"coat", "coats", "film", "films", "wipes", "applications"})
GUN_WORDS = frozenset({"gun", "mil", "mils", "thou", "gravity", "hvlp"})
# "One spray of PVA"; "two passes" where something is sprayed.
SPRAY_WORDS = frozenset({"spray", "sprays", "pass", "passes", "mist", "mists", "dusting", "dustings"})
MISTS = frozenset({"mist", "mists", "dusting", "dustings", "spray"})
SLIGHT = frozenset({"small", "light", "slight", "quick", "little", "wee", "fine"})
# What follows "four more" where coats are meant and nothing else is counted.
MORE_CLOSED = frozenset(
    {".", ",", ";", "and", "tomorrow", "today", "tonight", "after", "on", "then", "to", "later", "before"}
)
ONE = frozenset({"a", "an", "one", "another", "single", "final", "last", "further", "extra"})
ORDINALS = frozenset({
    "first", "second", "third", "fourth", "fifth", "sixth", "1st", "2nd", "3rd", "4th", "5th", "6th",
})  # fmt: skip
COUNTS = {"double": 2, "couple": 2, "both": 2, "twin": 2, "triple": 3, "treble": 3}
# Words between a count and its layer, or a layer and its fabric: "two thin even coats of".
LOOSE = frozenset({
    "of", "the", "more", "a", "an", "thin", "thick", "light", "heavy", "good", "full", "even", "wet", "dry", "fresh",
    "quick", "nice", "mist", "tack", "tie", "flood", "brush", "spray", "further", "extra", "plain", "small", "big",
    "new", "top", "base", "skin", "butter", "key", "barrier", "print", "splash", "beauty", "face", "detail",
    "scratch", "first", "second", "couple", "some", "that", "this",
    "our", "your", "my", "other", "final", "last", "very", "real", "really", "quite", "pretty", "super",
    "heavier", "lighter", "thicker", "thinner", "wetter", "proper", "fine", "finishing",
})  # fmt: skip
MOST_LOOSE = 4
MOST_COATS = 5
NEAR = 8
PIECES = frozenset({"pieces", "piece", "strips", "bits", "sheets", "squares", "patches", "offcuts", "rolls"})
# Areal weights that fabrics are sold in, g/m2: a bare number before a fabric within these is its weight.
LEAST_GSM, MOST_GSM = 15, 2000
LEAST_CROSSED = 100
# The areal weights that fabrics are usually sold in, g/m2: common practice, no published source.
SOLD = frozenset({150, 200, 225, 280, 290, 300, 380, 400, 450, 600, 800, 900, 1200})
NOT_LAID_AFTER = frozenset({"between", "per", "after", "before", "each", "every"})
# "Between the first and second coat", "after the second coat": a coat spoken of, not laid now.
SPOKEN_OF = frozenset({"between", "after", "before", "until", "till", "since"})
# "Half that for the second coat", "it's due its next coat".
AWAITED = SPOKEN_OF | {"for", "due", "needs", "wants", "ready", "awaiting"}
OPENERS = frozenset({"", ",", ".", ";", ":", "and", "then", "-", "so", "next"})
# "Layer one was cloth", "first layer: tissue".
IS = frozenset({"is", "was", "'s", "’s", ":", "-", ",", "being", "="})
# "The shellac over the clay, one coat": the clay is what was coated.
UNDER = frozenset({"over", "on", "onto", "across", "to", "upon", "round", "around", "against"})
# Words between a fabric and the count said after it: "tissue's down, one", "bulker is going in next, two plies".
SKIPPED = frozenset({"x", "×", "times"}) | {
    ",",
    "-",
    "'s",
    "’s",
    "is",
    "are",
    "down",
    "on",
    "in",
    "going",
    "gone",
    "next",
    "all",
    "laid",
}
# A coat may be of the one material said within this reach, but never of these.
REACH, NOT_COATED = (
    12,
    frozenset({"solvent", "water", "clay", "hardware", "second", "pigment", "filler", "bagging", None}),
)
DIRT = frozenset({"dust", "grime", "dirt", "rust", "mud", "paint", "grease", "ice", "snow"})
TIMES = frozenset({"x", "×", "times"})
# Fabrics that are never as heavy as mat.
LIGHT, LEAST_HEAVY = frozenset({"surface tissue"}), 100
MOST_LAYERS = 12
MOST_GUESSED = 60
# Tallies between a count and what it counts: "2 nos. cloth", "1 no. carbon", "3 off 450 mat".
TALLIES = frozenset(
    {"of", "the", "that", "this", "those", "same", "more", "x", "times", "nos", "nos.", "no.", "off", "pcs", "ea"}
)
# Style numbers of stitched glass, in ounces of cloth and of mat run together: no weights (common practice).
STYLES = frozenset({1208, 1308, 1508, 1700, 1708, 1808, 2400, 2408, 1715, 1815, 2415})
STITCHED = "biaxial glass"
# A layer of these is no fabric: "pigment, skin colour".
NO_LAYER = frozenset({"pigment", "second", "filler", "solvent"})
