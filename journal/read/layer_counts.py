"""How many layers or coats: the counts before and after a fabric or a word for layers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from journal.read.findings import Found
from journal.read.layer_places import Laid
from journal.read.layers_patterns import (
    AWAITED,
    COUNTS,
    LAYER_WORDS,
    LEAST_CROSSED,
    LOOSE,
    MOST_LAYERS,
    MOST_LOOSE,
    NEAR,
    ONE,
    OPENERS,
    ORDINALS,
    PIECES,
    SKIPPED,
    SPOKEN_OF,
    TALLIES,
    TIMES,
)
from journal.read.lexicon import JOINERS

_OF_THEM = (
    ("of", ","), ("of", "."), ("of", "them"), ("of", "em"), ("of", "it"), ("of", "those"), ("of", "'em"),
    ("off",), ("off", ","), ("off", "."), ("off", "and"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Piece:
    """What was said of one layer so far: its tokens and values."""

    start: int
    end: int
    count: Fraction | None = None
    certain: float = 0.9


class Counts(Laid):
    """The counts of one note's layers."""

    def opening(self, at: int) -> Piece | None:
        """One, where nothing is said before: "coat of shellac, then spray of PVA"."""
        described = at > 0 and self.is_loose(at - 1, at) and self.lower[at - 1] not in ("a", "an", "the", "of")
        before = at - described
        opens = (self.lower[before - 1] if before else "") in OPENERS
        single = self.lower[at + 1 : at + 2] == ("of",) and not self.lower[at].endswith("s")
        return Piece(at, at + 1, Fraction(1), 0.86) if opens and single else None

    def numbered(self, at: int) -> Piece | None:
        """One, where it is numbered ("layer one was 200 gram cloth"); the count said after: "sealer, coats two"."""
        after = at + 1 + (self.lower[at + 1 : at + 2] in ((":",), ("-",), ("=",)))
        number = self.number.get(after)
        if number is None or number.value.low > MOST_LAYERS:
            return None
        if self.lower[at] in ("plies", "layers", "coats") and (several := self.named_one_by_one(after)) is not None:
            return Piece(at, several[1], several[0], 0.75)
        if self.lower[at].endswith("s"):
            ends = number.end >= len(self.lower) or self.lower[number.end] in OPENERS
            return Piece(at, number.end, number.value.low, 0.86) if ends and number.rule != "numbers.range" else None
        named = number.rule == "numbers.name" and self.lower[number.end : number.end + 1] != ("of",)
        return Piece(at, number.end, Fraction(1), 0.86) if named else None

    def named_one_by_one(self, at: int) -> tuple[Fraction, int] | None:
        """How many are named, and where that ends: "plies 1 thru 4", "layers three and four", "plies 5, 6"."""
        first = self.number[at].value
        if first.low != first.high:
            return first.high - first.low + 1, self.number[at].end
        last, end = first.low, self.number[at].end
        while self.lower[end : end + 1] and self.lower[end] in ("to", "thru", "through", "-", ",", "and", "&"):
            number = self.number.get(end + 1)
            steps = number.value.low - last if number is not None else Fraction(0)
            if number is None or steps < 1 or (steps > 1 and self.lower[end] in (",", "and", "&")):
                break
            last, end = number.value.low, number.end
        return (last - first.low + 1, end) if last > first.low else None

    def is_awaited(self, piece: Piece) -> bool:
        """Whether one coat is spoken of and not laid: "for the second coat", "it's due its next coat"."""
        if piece.count == 1 and self.lower[piece.end : piece.end + 1] == ("due",):
            return True
        if piece.count != 1 or piece.start == 0:
            return False
        before = self.lower[max(0, piece.start - 2) : piece.start]
        return before[-1] in AWAITED or (before[-1] in ("the", "a", "its", "another") and before[0] in AWAITED)

    def after_more(self, at: int) -> int:
        """The place after "more of the": "two more of the ounce and a half"."""
        while at < len(self.lower) and self.lower[at] in ("more", "of", "the"):
            at += 1
        return at

    def is_plural(self, at: int) -> bool:
        """Whether a weight is counted by its plural: "two 450s", "two four fifties"."""
        areal = self.areal.get(at)
        if areal is None:
            return False
        return self.lower[areal.end : areal.end + 1] == ("s",) or self.lower[areal.end - 1].endswith("ties")

    def count_after(self, at: int) -> Piece | None:
        """The count of layers said after the fabric: "450 mat, two layers", "hessian x 2"."""
        crossed, first = False, at
        while at < len(self.lower) and at - first < NEAR and self.lower[at] in SKIPPED:
            crossed = crossed or self.lower[at] in TIMES
            at += 1
        count = self.count_starting(at)
        if count is None:
            return None
        if crossed and count.count is not None and count.count <= MOST_LAYERS and count.end not in self.material:
            return Piece(at, count.end, count.count)
        closed = count.end >= len(self.lower) or self.lower[count.end] in (",", ".", ";")
        if closed and self.lower[at - 1] == "," and count.count is not None and count.count <= MOST_LAYERS:
            return Piece(at, count.end, count.count, 0.75)  # "tissue's down, one, then ..."
        if self.lower[count.end : count.end + 2] in _OF_THEM:
            return Piece(at, count.end + 1, count.count)
        if LAYER_WORDS.isdisjoint(self.lower[count.end : count.end + 1]):
            return None
        if self.lower[count.end + 1 : count.end + 2] == ("of",):
            return None
        return Piece(at, count.end + 1, count.count)

    def count_starting(self, at: int) -> Piece | None:
        """Return the count that starts at the token: a number, "one", "single"."""
        number = self.number.get(at)
        if number is not None:
            return None if number.value.ordinal or number.value.low.denominator != 1 else _counted(number)
        if self.lower[at : at + 1] in (("one",), ("single",), ("double",), ("triple",)):
            return Piece(at, at + 1, Fraction(COUNTS.get(self.lower[at], 1)))
        return None

    def count_before(self, at: int) -> Piece | None:
        """The count before a layer's word, over loose words between: "two thin coats", "another layer"."""
        for back in range(at, max(-1, at - MOST_LOOSE - 1), -1):
            piece = self.count_ending(back)
            if piece is not None:
                return Piece(piece.start, at + 1, piece.count, piece.certain)
            if back == 0 or not (back - 1 in self.sized or self.is_loose(back - 1, at)):
                return None
        return None

    def is_loose(self, at: int, word: int) -> bool:
        """Whether a word may stand between a count and its layers; before a coat any one that describes it may."""
        if self.lower[at] in LOOSE or self.lower[at] in JOINERS or self.is_tally(at + 1):
            return True
        tag = self.words.tags[at] if self.words.tags else ""
        return at == word - 1 and self.lower[word] in ("coat", "coats") and tag in ("JJ", "NN", "NNP", "VBN", "VBG")

    def count_right_before(self, at: int) -> Piece | None:
        """The count right before a fabric or its weight, or before "of the" between: "two of the 600 biax"."""
        piece = self.count_ending(at)
        while piece is None and at and (self.lower[at - 1] in TALLIES or self.is_described(at)):
            at -= 1
            piece = self.count_ending(at)
            if piece is not None and not PIECES.isdisjoint(self.lower[max(0, at - NEAR) : at]):
                return None  # "eight pieces of 450 mat and four of tissue"
        return piece

    def is_described(self, at: int) -> bool:
        """Whether one adjective stands between a count and a fabric: "two of the heavy mat", "three fresh mats"."""
        tags = self.words.tags
        if tags and tags[at - 1] == "JJ" and at not in self.areal_end and at - 1 not in self.inside:
            return self.lower[at - 1].isalpha() and self.lower[at - 1] not in COUNTS and at in self.material
        return self.is_tally(at)

    def is_tally(self, at: int) -> bool:
        """Whether "nos." or "no." stands before, with a number before it."""
        stop = self.lower[at - 1] == "." and self.lower[at - 2 : at - 1] in (("nos",), ("no",))
        tally = self.lower[at - 1] in ("no", "nos") and self.lower[at : at + 1] == (".",)
        return (stop and at > 2 and at - 2 in self.number_end) or (tally and at - 1 in self.number_end)

    def count_ending(self, at: int) -> Piece | None:
        """Return the count that ends before the token: a number, an ordinal, "double", "another", "a"."""
        word, number = self.lower[at - 1] if at else "", self.number_end.get(at)
        if word in ORDINALS or (number is not None and number.value.ordinal):
            spoken_of = SPOKEN_OF.intersection(self.lower[max(0, at - 5) : at - 1])
            between = "between" in self.lower[max(0, at - 8) : at - 1]  # "between the gel and the first mat"
            return None if spoken_of or between else Piece(at - 1, at, Fraction(1), 0.86)
        if number is not None and number.start in self.sized:
            return None  # "a 10 mil coat"
        if number is not None and at not in self.areal_end:
            return _counted(number) if number.value.low.denominator == 1 else None
        if word in COUNTS:
            start = at - 2 if at > 1 and self.lower[at - 2] == "a" else at - 1
            return Piece(start, at, Fraction(COUNTS[word]))
        led = self.lower[max(0, at - 3) : at - 1]
        if word == "one" and led[-1:] in (("this",), ("that",), ("the",)) and led != ("after", "that"):
            return None
        if word == "last" and self.lower[at : at + 1] == ("of",):
            return None  # "the last of the mat"
        if word in ONE and at - 1 not in self.rate_end:  # "20 minutes a coat" counts no coat
            return Piece(at - 1, at, Fraction(1), 0.85)
        return None

    def weight_and_count(self, at: int) -> tuple[Fraction, Piece] | None:
        """The weight and then the count said after the fabric: "biax 450 x 2"."""
        weight = self.bare_weight(at)
        if weight is None or weight[0] < LEAST_CROSSED or TIMES.isdisjoint(self.lower[weight[1] : weight[1] + 1]):
            return None
        count = self.count_after(weight[1])
        return None if count is None else (weight[0], count)


def _counted(number: Found) -> Piece:
    value = number.value
    if value.low != value.high:
        return Piece(number.start, number.end, value.high, 0.5)
    return Piece(number.start, number.end, value.low)
