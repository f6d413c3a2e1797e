"""Words around a material's name that change what it means. Logic in `materials.py` and `parts.py`."""

from __future__ import annotations

ARTICLES = frozenset({
    "a", "an", "any", "more", "my", "our", "some", "that", "the", "these", "this", "those", "your",
})  # fmt: skip

# The last word of a name with the word after it, or before it: then it is no material at all.
NOT_BEFORE = {
    "water": {
        "level", "line", "tight", "jet", "resistant", "proof", "mark", "marks", "white", "thin", "based",
        "pressure",
    },
    "glass": {"transition", "content", "smooth", "ratio"},
    "mat": {"finish", "finished", "black", "white", "surface", "sheen", "paint", "varnish"},
    "matt": {"finish", "finished", "black", "white", "surface", "sheen", "paint", "varnish"},
    "tissue": {"paper", "papers", "side"},
    "gel": {"time", "point", "stage", "state", "test"},
    "wax": {"paper"},
    "resin": {"rich", "starved", "poor", "content", "infusion", "infused", "trap", "transfer"},
    "carbon": {"copy", "dioxide", "monoxide", "filter", "paper"},
    "plaster": {"board", "boards"},
    "rubber": {"band", "bands", "stamp"},
    "cloth": {"tape"},
    "cat": {"litter", "food", "flap"},
    "urethane": {"foam", "paint", "varnish", "sealant"},
    "polyurethane": {"foam", "paint", "varnish", "sealant"},
    "epoxy": {"paint", "primer", "floor"},
    "ply": {"of"},
    "poly": {"sheet", "sheeting", "bag", "bags", "film", "tube", "tubing", "filler", "pot", "pots", "tunnel", "board"},
}  # fmt: skip
NOT_AFTER = {
    "glass": {"like", "as", "looking", "magnifying", "safety", "watch"},
    "mat": {"door", "floor", "cutting", "heat", "heating", "rubber", "silicone"},
    "cloth": {
        "clean", "damp", "tack", "lint", "free", "soft", "microfibre", "microfiber", "polishing", "wiping", "dish",
        "drop", "dust", "table", "tea", "cotton", "cheese", "emery", "oily", "buffing",
    },
    "tissue": {"clean", "paper", "toilet"},
    "water": {"under", "like"},
    "cat": {"shop", "stray"},
    "wax": {"candle", "ear", "sealing"},
    "rubber": {"like"},
}  # fmt: skip

# "The plaster pattern": a thing made of it long ago.
MADE_OF = frozenset({"pattern", "patterns", "mould", "mold", "moulds", "molds", "plug", "model", "master", "original",
                     "block", "blocks", "blank", "blanks"})  # fmt: skip

# Short names that are something else without these before them (or an amount): the shop has a cat.
NEEDED_BEFORE = {
    "chop": {"of", "layer", "layers", "ply", "plies", "more", "the"},
    "cat": {"of", "with", "and", "more", "less", "%", "percent", "no", "in"},
    "gel": {
        "of",
        "more",
        "some",
        "coat",
        "coats",
        "black",
        "white",
        "grey",
        "gray",
        "clear",
        "tooling",
        "orange",
        "green",
    },
    "bag": {"under"},
    "0/90": {"of", "the"},
}
NEEDED_AFTER = {"gel": {"on"}}
# A bag is a vacuum bag beside these, or a vacuum.
BAGGING = frozenset({"peel ply", "bleeder cloth"})
# Verbs that say their material: "waxed the rim twice".
VERB_FORMS = {
    "waxed": "wax", "waxing": "wax", "shellacked": "shellac", "shellacking": "shellac", "bagged": "vacuum bag",
    "bagging": "vacuum bag", "soaped": "soap", "soaping": "soap",
}  # fmt: skip
RAGS = frozenset({"cloth", "tissue"})

# A tool or place named after its material: "rubber gloves", "the wax brush", "plaster room".
TOOLS = frozenset({
    "bench", "bill", "bowl", "brush", "brushes", "cup", "cupboard", "cups", "dispenser", "gasket",
    "glove", "gloves", "goggles", "gun", "hammer", "kidney", "knife", "mallet", "mixer",
    "pump", "rod", "roller", "rollers", "room", "scraper", "shelf", "spatula",
    "squeegee", "squeegees", "supplier", "tool", "tools",
})  # fmt: skip

# Names that are verbs as well ("wax the flange", "glass it over").
VERBS = frozenset(
    {"wax", "fairing", "plaster", "putty", "shellac", "water", "glass", "pigment", "rubber", "cat", "resin"}
)
OBJECTS = frozenset({"the", "it", "them", "that", "this", "your", "my", "both", "all", "every", "over", "up", "in"})

VERB_AFTER = frozenset({"", ".", ",", ";", "and", "then", "to", "now", "will", "'ll", "not", "n't", "do", "we", "i"})

# Words between a heading and the general word that takes its material: "polyester trial: 250 g resin".
HEADING = 8
# A family said first and the general word later: "polyester tooling gel coat".
BETWEEN = frozenset({
    "based", "black", "blue", "casting", "clear", "cure", "cured", "fresh", "gray", "green", "grey",
    "laminating", "mixed", "mold", "mould", "orange", "red", "surface", "tooling", "white",
})  # fmt: skip

# What follows an amount and is no material ("80 percent humidity").
NOT_MATERIAL = frozenset({
    "a", "afternoon", "area", "b", "batch", "bucket", "cast", "casting", "chance", "coat", "coats",
    "cup", "day", "days", "degree", "degrees", "depth", "diameter", "each", "edge", "error", "evening",
    "fabric", "face", "flange", "gap", "half", "heat", "height", "hole", "holes", "hour", "hours",
    "humidity", "it", "job", "layer", "layers", "length", "light", "load", "loss", "lot", "lots",
    "material", "minute", "minutes", "mix", "mixture", "moisture", "mold", "morning", "mould", "one",
    "ones", "overlap", "part", "parts", "piece", "pot", "power", "pressure", "pull", "radius", "ratio",
    "reinforcement", "relative", "rest", "same", "scale", "second", "seconds", "shell", "shrinkage",
    "side", "slope", "speed", "strength", "stuff", "surface", "thickness", "time", "tin", "today",
    "tolerance", "tomorrow", "tonight", "total", "vacuum", "volume", "way", "weight", "width",
    "summer", "winter", "spring", "autumn", "night", "noon", "weather",
    "yesterday", "inch", "inches", "ounce", "ounces", "gram", "grams", "kilo", "kilos", "foot", "feet",
})  # fmt: skip
COLOURS = frozenset("black white grey gray red blue green yellow brown ivory cream colour color".split())
LAID = frozenset({"coat", "coats", "layer", "layers"})
# Tags of words that a name is made of; it ends with a noun ("ground slate").
MATTER = ("NN", "JJ", "VBN", "VBG")

# "the B half of the mould" is a place, no part of a mix.
PLACES_AFTER = frozenset({
    "bench", "end", "face", "flange", "frame", "half", "mold", "mould", "panel", "piece", "section",
    "shell", "shift", "side", "team",
})  # fmt: skip
PART_WORDS = frozenset({"part", "component", "side"})
