"""What stands where in a note of layers: fabrics, areal weights, numbers, by the token where they start or end."""

from __future__ import annotations

from fractions import Fraction

from journal.read.findings import Amount, Areal, Findings, Found, MaterialSaid, NoteWords, Number
from journal.read.layers_patterns import (
    GUN_WORDS,
    IS,
    LEAST_GSM,
    MOST_GSM,
    ORDINALS,
    SOLD,
    STYLES,
)
from journal.read.lexicon import lexicon_of
from journal.read.measures import measure


class Laid:
    """One note's findings, by the token where they start or end."""

    def __init__(self, words: NoteWords, found: Findings) -> None:
        self.words, self.lower = words, words.lower
        self.material = {m.start: m for m in found.of("material")}
        self.inside = {t for m in self.material.values() for t in range(m.start, m.end)}
        self.material_end = {m.end: m for m in self.material.values()}
        self.areal = {a.start: a for a in found.of("areal")}
        self.areal_end = {a.end: a for a in found.of("areal")}
        self.number_end = {n.end: n for n in found.of("number")}
        self.number = {n.start: n for n in found.of("number")}
        self.weighed_end = {a.end for a in found.of("amount") if a.value.unit not in (None, "count")}
        # "300 gram" before a fabric is its weight; where the fabric was misheard it was taken for an amount.
        self.gram_end = {a.end: a for a in found.of("amount") if self.lower[a.end - 1] == "gram"}
        self.grams = {a.start: a for a in found.of("amount") if a.value.unit == "g"}
        sizes = measure(words.lower, words.locale)
        spans = (sizes.scan.pieces.span(one.start, one.end) for one in sizes.of("length", "temperature", "pressure"))
        self.sized = {token for start, end in spans for token in range(start, end)}
        self.rate_end = self.weighed_end | {d.end for d in found.of("duration")}
        self.unit_start = {a.start for a in found.of("amount") if a.value.unit is not None}
        self.timed = {m.start for m in found.of("moment", "condition", "duration")}
        self.sprayed = any(word.startswith("spray") or word in GUN_WORDS for word in self.lower)

    def is_fabric(self, item: Found) -> bool:
        """Whether the catalogue lists the material among its fabrics."""
        value: MaterialSaid = item.value
        entry = lexicon_of(self.words.catalogue).fabrics
        return value.name in entry

    def is_weighed(self, start: int) -> bool:
        """Whether an amount stands before: "300 grams of mat"."""
        at = start
        while at and self.lower[at - 1] in ("of", "the"):
            at -= 1
        return at in self.weighed_end

    def is_numbered(self, at: int) -> bool:
        """Whether "layer one", "the first layer" goes on with what it is: "is", "was", a colon."""
        if self.lower[at : at + 1] == () or self.lower[at] not in IS:
            return False
        return self.number_end.get(at) is not None or (at > 1 and self.lower[at - 2] in ORDINALS)

    def weight_after(self, at: int, counted: bool = False) -> tuple[Fraction | None, int]:
        """The areal weight said after a fabric: "biaxial glass, 600 gram", of counted layers "4 layers mat 450 g"."""
        if (said := self._weight_at(at)) is not None:
            return said
        start = at + 1 if self.lower[at : at + 1] in ((",",), ("(",)) else at
        areal, gram = self.areal.get(start), next((a for a in self.gram_end.values() if a.start == start), None)
        gram = self.grams.get(at, gram) if counted else gram
        if areal is not None and areal.end not in self.material:
            return areal.value.gsm, areal.end
        if gram is not None and gram.end not in self.material and is_weight(gram.value):
            return gram.value.low, gram.end
        return None, at

    def _weight_at(self, at: int) -> tuple[Fraction, int] | None:
        """The weight said after "at", in which fabrics are sold: "six of biaxial AT 600"."""
        if self.lower[at : at + 1] != ("at",) or at + 1 in self.timed:
            return None
        areal, weight = self.areal.get(at + 1), self.bare_weight(at + 1)
        if areal is not None:
            return areal.value.gsm, areal.end
        bare = weight is not None and weight[0] in SOLD and weight[1] - 1 not in self.sized
        return weight if bare and at + 1 not in self.unit_start else None

    def bare_weight(self, at: int) -> tuple[Fraction, int] | None:
        """Return the number at the token as g/m2, and where it ends, when fabrics are sold in such weights."""
        number = self.number.get(at)
        if number is None or not is_weight(number.value):
            return None
        return number.value.low, number.end

    def weight_before(self, at: int) -> tuple[Fraction | None, int]:
        """The areal weight right before a fabric; a bare number is grams per square metre."""
        areal = self.areal_end.get(at)
        if areal is not None:
            value: Areal = areal.value
            return value.gsm, areal.start
        number = self.number_end.get(at) or self.gram_end.get(at)
        if number is not None and is_weight(number.value):
            return number.value.low, number.start
        return None, at


def is_weight(number: Number | Amount) -> bool:
    """Whether a number may be an areal weight, g/m2: no ordinal, no range, no style number."""
    ordinal = isinstance(number, Number) and number.ordinal
    sold = LEAST_GSM <= number.low <= MOST_GSM and number.low not in STYLES
    return number.low == number.high and not ordinal and sold
