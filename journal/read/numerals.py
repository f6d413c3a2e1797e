"""One number at a place: digits, words, or both.

"three fifty" is 350, "one oh one point five" 101.5, "two and three quarter" 2.75. Nothing here looks at
units or at the sense of the note; `numbers.py` does.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from journal.read.number_words import (
    COLLECTIVES,
    DENOMINATORS,
    FRACTIONS,
    LAID,
    OH,
    ORDINALS,
    PLURAL_FRACTIONS,
    SCALES,
    SIGNS,
    SMALL,
    STARTERS,
    TEENS,
    TENS,
    UNITS,
    ZEROS,
)
from journal.read.pieces import Pieces
from journal.read.unit_words import FABRIC

_HEAVIEST_OZ = 36  # the heaviest roving
Form = Literal["digits", "words", "fraction", "elided", "sequence", "ordinal", "collective"]
CERTAINTY: dict[Form, float] = {
    "digits": 0.97, "words": 0.95, "fraction": 0.9, "elided": 0.85, "sequence": 0.8, "ordinal": 0.95,
    "collective": 0.9,
}  # fmt: skip


class Numeral(NamedTuple):
    """One number in the pieces [start, end).

    `halves` keeps the two numbers that were put together without a word between ("two", "fifteen"):
    with another sense beside it that is a time, or a range.
    """

    value: Fraction
    start: int
    end: int
    form: Form
    halves: tuple[int, int] | None = None
    scaled: bool = False


def numerals(pieces: Pieces) -> list[Numeral]:
    """Return every number, left to right, none overlapping."""
    found = []
    at, count = 0, len(pieces.texts)
    while at < count:
        text = pieces.texts[at]
        if text in STARTERS or text[0].isdecimal() or text[0] == ".":
            if text == "a" and at + 1 < count and pieces.texts[at + 1] not in STARTERS:
                at += 1
                continue
            numeral = numeral_at(pieces, at)
            if numeral is not None:
                found.append(numeral)
                at = numeral.end
                continue
        at += 1
    return found


def numeral_at(pieces: Pieces, at: int) -> Numeral | None:
    """Return the longest number that starts at the piece, or None."""
    reader = _Reader(pieces.texts)
    if reader.text(at) in ("minus", "negative"):
        inner = numeral_at(pieces, at + 1) if reader.text(at + 1) not in ("minus", "negative", "a") else None
        if inner is None or inner.form in ("ordinal", "collective"):
            return None
        return Numeral(-inner.value, at, inner.end, inner.form)
    numeral = reader.ordinal(at) or reader.collective(at) or reader.fraction(at) or reader.whole(at)
    if numeral is not None and at in pieces.signed:
        return Numeral(-numeral.value, at, numeral.end, numeral.form)
    return numeral


def _is_digits(text: str) -> bool:
    return text.isdecimal()


def _decimal(text: str) -> Fraction | None:
    """The value of a piece of digits, or None: 12, 1,200, 0.5, .9."""
    if not text or not (text[0].isdecimal() or text[0] == ".") or not text[-1].isdecimal():
        return None
    try:
        return Fraction(text.replace(",", ""))
    except ValueError:
        return None


class _Reader:
    """Grammar over the texts of pieces. Each method returns what starts at a piece, or None."""

    __slots__ = ("texts",)

    def __init__(self, texts: tuple[str, ...]) -> None:
        self.texts = texts

    def text(self, at: int) -> str:
        return self.texts[at] if 0 <= at < len(self.texts) else ""

    def after(self, at: int, *words: str) -> int:
        """The place after the words when they stand here, else `at`."""
        return at + len(words) if self.texts[at : at + len(words)] == words else at

    def ordinal(self, at: int) -> Numeral | None:
        text = self.text(at)
        if text[:1].isdecimal() and text[-2:] in ("st", "nd", "rd", "th"):
            return Numeral(Fraction(int(text[:-2])), at, at + 1, "ordinal")
        if text not in ORDINALS or (text in FRACTIONS and self.text(at + 1) == "of"):
            return None
        return Numeral(Fraction(ORDINALS[text]), at, at + 1, "ordinal")

    def collective(self, at: int) -> Numeral | None:
        start, times = at, Fraction(1)
        if self.text(at) == "half":
            at, times = self.after(at + 1, "a"), Fraction(1, 2)
            if self.text(at) != "dozen":
                return None
        elif self.text(at) == "a":
            at += 1
        elif self.text(at + 1) == "dozen" and (count := self.count(at)) is not None:
            at, times = at + 1, Fraction(count)
        size = COLLECTIVES.get(self.text(at))
        if size is None or (self.text(at) == "pair" and start == at):
            return None
        return Numeral(size * times, start, self.after(at + 1, "of"), "collective")

    def count(self, at: int) -> int | None:
        text = self.text(at)
        return int(text) if _is_digits(text) and len(text) < 9 else SMALL.get(text)

    def fraction(self, at: int) -> Numeral | None:
        """half, a quarter, three quarters, 1/2, ½."""
        text = self.text(at)
        if text in SIGNS:
            return Numeral(SIGNS[text], at, at + 1, "fraction")
        start = at
        if text in ("a", "an", "the"):
            at += 1
            text = self.text(at)
        if text in FRACTIONS and text not in PLURAL_FRACTIONS:
            return Numeral(Fraction(1, FRACTIONS[text]), start, at + 1, "fraction") if self._alone(at) else None
        return self._counted_fraction(start) if at == start else None

    def _alone(self, at: int) -> bool:
        return self.text(at) in ("half", "quarter") or self.text(at + 1) in ("of", "inch")

    def _counted_fraction(self, at: int) -> Numeral | None:
        top = self.count(at)
        if top is None or top == 0:
            return None
        if self.text(at + 1) == "/" and (bottom := self.count(at + 2)) in DENOMINATORS and bottom > top:
            return Numeral(Fraction(top, bottom), at, at + 3, "fraction")
        after = self.after(at + 1, "-")
        word = self.text(after)
        if word in FRACTIONS and top < FRACTIONS[word] and (top == 1) == (word not in PLURAL_FRACTIONS):
            return Numeral(Fraction(top, FRACTIONS[word]), at, after + 1, "fraction")
        if word == "quarter" and top == 3:
            return Numeral(Fraction(3, 4), at, after + 1, "fraction")
        return None

    def whole(self, at: int) -> Numeral | None:
        """A whole or decimal number, with its scale and a fraction after it."""
        numeral = self._digits(at) or self._point(at, None) or self._words(at)
        if numeral is None:
            return None
        if numeral.value.denominator == 1:
            numeral = self._point(numeral.end, numeral) or numeral
        return self._and_fraction(numeral)

    def _digits(self, at: int) -> Numeral | None:
        value = _decimal(self.text(at))
        if value is None:
            return None
        return self._scaled(value, at, at + 1, "digits")

    def _scaled(self, value: Fraction, start: int, end: int, form: Form) -> Numeral:
        """Take "hundred", "thousand" and what follows them."""
        scaled = False
        total = Fraction(0)
        while (scale := SCALES.get(self.text(end))) is not None and value:
            scaled = True
            value, end = value * scale, end + 1
            if self.text(end) in SCALES:
                continue
            rest = self._rest(end, scale)
            if rest is None:
                break
            if SCALES.get(self.text(rest[1]), 0) >= scale:  # three hundred and ten thousand
                value, end = value + rest[0], rest[1]
            else:
                total, (value, end) = total + value, rest
        return Numeral(total + value, start, end, form, scaled=scaled)

    def _rest(self, at: int, scale: int) -> tuple[Fraction, int] | None:
        """The smaller number after a scale word: "and twelve", ", two hundred and six", "twenty"."""
        start = at
        if self.text(at) == "," and scale >= 1000:
            pair = self._below_100(at + 1)
            if pair is None or SCALES.get(self.text(pair[1]), scale) >= scale:
                return None
            at += 1
        joined = self.text(at) == "and"
        at += joined
        if joined and self.text(at) in UNITS and self._counts_the_next(at + 1):
            return None
        pair = self._below_100(at)
        if pair is not None and not joined and scale == 100:
            pair = self._without_count(at, pair)
        if pair is not None and not self._fraction_word(pair[1], pair[0]):
            return Fraction(pair[0]), pair[1]
        digits = self.text(at)
        if joined and _is_digits(digits) and len(digits) < len(str(scale)) and at > start:
            return Fraction(int(digits)), at + 1
        return None

    def _without_count(self, at: int, pair: tuple[int, int]) -> tuple[int, int] | None:
        """Leave the count of layers out of the weight before it: "four fifty TWO LAYERS", "three hundred ONE PLY"."""
        if self.text(pair[1]) not in LAID or not pair[0] % 10 > 0 or self.text(pair[1] - 1) not in UNITS:
            return pair
        return (pair[0] - pair[0] % 10, at + 1) if pair[0] > 20 else None

    def _counts_the_next(self, at: int) -> bool:
        """Whether a new count starts: "one of three hundred and TWO OF FOUR fifty"."""
        following = self.text(at + 1)
        return self.text(at) in ("of", "x") and (following in SMALL or following in SCALES or following[:1].isdecimal())

    def _fraction_word(self, at: int, top: int) -> bool:
        """Whether "two hundred and three quarters" goes on with a fraction."""
        word = self.text(at)
        return word in PLURAL_FRACTIONS or (word == "quarter" and top == 3)

    def _below_100(self, at: int) -> tuple[int, int] | None:
        text = self.text(at)
        if text in TENS:
            after = self.after(at + 1, "-")
            unit = UNITS.get(self.text(after))
            return (TENS[text], at + 1) if unit is None else (TENS[text] + unit, after + 1)
        value = SMALL.get(text)
        return None if value is None else (value, at + 1)

    def _words(self, at: int) -> Numeral | None:
        text = self.text(at)
        if text == "a" and self.text(at + 1) in SCALES:
            return self._scaled(Fraction(1), at, at + 1, "words")
        if text in SCALES:
            return self._scaled(Fraction(1), at, at, "words")
        sequence = self._sequence(at)
        if sequence is not None:
            return sequence
        if text in ZEROS:
            return Numeral(Fraction(0), at, at + 1, "words")
        pair = self._below_100(at)
        if pair is None:
            return None
        return self._elided(at, *pair) or self._scaled(Fraction(pair[0]), at, pair[1], "words")

    def _elided(self, at: int, first: int, end: int) -> Numeral | None:
        """Read "three fifty", "twelve fifty", "three-twenty": the word hundred left out."""
        if first > 19:
            return None
        after = self.after(end, "-")
        pair = self._below_100(after)
        if pair is not None and pair[0] > 20:
            pair = self._without_count(after, pair)
        if pair is None or pair[0] < 10 or self.text(pair[1]) in SCALES or (first > 9 and pair[0] < 20):
            return None
        of_cloth = self.text(pair[1]) in ("ounce", "oz") and not FABRIC.isdisjoint(
            self.texts[pair[1] + 1 : pair[1] + 3]
        )
        if of_cloth and pair[0] <= _HEAVIEST_OZ and first < 10:
            return None  # "one twenty-four ounce woven roving"
        return Numeral(Fraction(first * 100 + pair[0]), at, pair[1], "elided", halves=(first, pair[0]))

    def _sequence(self, at: int) -> Numeral | None:
        """Digits said one by one: "one oh five", "four four seven one", "one double oh", "fourteen oh five"."""
        digits, end, said = "", at, 0
        first = TEENS.get(self.text(at))
        if first is not None and self.text(at + 1) in OH and self.text(at + 2) in UNITS:
            minute = UNITS[self.text(at + 2)]
            return Numeral(Fraction(first * 100 + minute), at, at + 3, "sequence", halves=(first, minute))
        early = self._early_hour(at)
        if early is not None:
            return early
        while True:
            times = 2 if self.text(end) == "double" else 1
            word = self.text(end + times - 1)
            digit = "0" if word in OH else str(UNITS[word]) if word in UNITS else ""
            if not digit:
                break
            digits, end, said = digits + digit * times, end + times, said + times
        if said < 3 or self.text(at) in ("oh", "o") or self.text(end) in SCALES:
            return None
        if digits[1] == "0" and said == 3:
            return Numeral(Fraction(int(digits)), at, end, "elided", halves=(int(digits[0]), int(digits[1:])))
        return Numeral(Fraction(int(digits)), at, end, "sequence")

    def _early_hour(self, at: int) -> Numeral | None:
        """Read "oh seven thirty", "oh-six-hundred", "oh eight oh five": an hour of the morning and its minutes."""
        if self.text(at) not in OH:
            return None
        hour_at = self.after(at + 1, "-")
        hour = UNITS.get(self.text(hour_at))
        after = self.after(hour_at + 1, "-")
        if hour is None:
            return None
        if self.text(after) == "hundred":
            return Numeral(Fraction(hour * 100), at, after + 1, "sequence", halves=(hour, 0))
        if self.text(after) in OH and self.text(after + 1) in UNITS:
            minute, end = UNITS[self.text(after + 1)], after + 2
        else:
            minute, end = self._below_100(after) or (0, after)
        if not 0 < minute < 60 or (minute < 10 and end == after + 1):
            return None
        return Numeral(Fraction(hour * 100 + minute), at, end, "sequence", halves=(hour, minute))

    def _point(self, at: int, whole: Numeral | None) -> Numeral | None:
        """Read "point nine", "oh point four", "nineteen point two", "2 point 5"."""
        start = at
        if whole is None and self.text(at) in OH:
            at += 1
        if self.text(at) != "point" and not (self.text(at) == "comma" and whole is not None):
            return None
        if whole is None and self.text(at - 1) in ("this", "that", "the", "which", "some", "a", "any", "what"):
            return None
        digits, end = self._after_point(at + 1)
        if not digits:
            return None
        before = Fraction(0) if whole is None else whole.value
        value = before + Fraction(int(digits), 10 ** len(digits))
        first = start if whole is None else whole.start
        return Numeral(value, first, end, "words" if whole is None else whole.form)

    def _after_point(self, at: int) -> tuple[str, int]:
        text = self.text(at)
        if _is_digits(text) and len(text) <= 6:
            return text, at + 1
        if text in TENS or text in TEENS:
            pair = self._below_100(at)
            return ("", at) if pair is None else (str(pair[0]), pair[1])
        digits = ""
        while (word := self.text(at)) in OH or word in UNITS:
            digits += "0" if word in OH else str(UNITS[word])
            at += 1
        return digits, at

    def _and_fraction(self, numeral: Numeral) -> Numeral:
        """Read "two and a half", "two and three quarters", "2½", "2 1/2", "1-1/2"."""
        if numeral.value.denominator != 1:
            return numeral
        at = numeral.end
        if self.text(at) in SIGNS:
            return Numeral(numeral.value + SIGNS[self.text(at)], numeral.start, at + 1, numeral.form)
        joined = self.text(at) in ("and", "-", "an")
        written = self.text(at + joined + 1) == "/" and _is_digits(self.text(at + joined))
        if not (written if self.text(at) != "and" and self.text(at) != "an" else joined):
            return numeral
        if self.text(at) == "an" and self.text(at + 1) != "half" and self.texts[at + 1 : at + 3] != ("a", "half"):
            return numeral
        part = self.fraction(at + joined)
        if part is None or part.value >= 1:
            return numeral
        return Numeral(numeral.value + part.value, numeral.start, part.end, numeral.form)
