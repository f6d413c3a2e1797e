"""The words of numbers."""

from __future__ import annotations

from fractions import Fraction

UNITS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
}  # fmt: skip
TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
    "eighty": 80, "ninety": 90,
}  # fmt: skip
# "Two four fifties": as many sheets of that weight.
TENS |= {"twenties": 20, "thirties": 30, "fifties": 50, "sixties": 60, "eighties": 80}
# What a count right before it counts, however it runs into a number: "four fifty two layers".
LAID = frozenset({"layer", "layers", "ply", "plies", "coat", "coats", "sheet", "sheets", "skins"})
ZEROS = frozenset({"zero", "nought", "naught", "nil"})
OH = frozenset({"oh", "o", "zero", "nought", "naught"})
SCALES = {"hundred": 100, "thousand": 1000, "million": 1_000_000}
SMALL = UNITS | TEENS | TENS
PLURAL_FRACTIONS = {
    "halves": 2, "thirds": 3, "quarters": 4, "fifths": 5, "sixths": 6, "eighths": 8, "tenths": 10,
    "sixteenths": 16,
}  # fmt: skip
FRACTIONS = {
    "half": 2, "third": 3, "quarter": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10, "sixteenth": 16,
} | PLURAL_FRACTIONS  # fmt: skip
SIGNS = {
    "½": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3),
    "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip
DENOMINATORS = frozenset({2, 3, 4, 5, 6, 8, 10, 16, 32, 64})
ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
    "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12,
}  # fmt: skip
COLLECTIVES = {"couple": 2, "pair": 2, "dozen": 12}

# Any number starts with one of these or with a digit: one look-up a word keeps the scan cheap.
STARTERS = frozenset(
    {"a", "an", "point", "minus", "negative", "double", "oh", "o"}
    | SMALL.keys() | ZEROS | SCALES.keys() | FRACTIONS.keys() | SIGNS.keys() | ORDINALS.keys()
    | COLLECTIVES.keys()
)  # fmt: skip

# "number nine", "lot 4471": digits that name a thing. Only when no unit follows.
NAMED_BEFORE = frozenset(
    {"number", "no", "num", "lot", "grade", "grit", "size", "type", "stage", "step", "mark", "version", "shelf",
     "bay", "bench", "cast", "casting", "pull", "mould", "mold", "page", "code", "serial", "coat", "layer",
     "piece", "half", "part", "section", "day", "batch", "tin", "drum", "pot",
     "sample", "trial", "test", "panel", "specimen", "run", "#"}
)  # fmt: skip
NAMED_ALWAYS = frozenset({"number", "lot", "grade", "grit", "serial", "#"})
NAMED_AFTER = frozenset({"grit", "grade", "series"})
# "this one", "the one": a pronoun.
PRONOUN_BEFORE = frozenset(
    {"this", "that", "the", "which", "each", "every", "last", "first", "next", "another", "other", "new", "old",
     "good", "bad", "same", "any", "no", "big", "small", "large", "little", "left", "right", "top", "bottom",
     "wrong", "only", "second", "third"}
)  # fmt: skip
