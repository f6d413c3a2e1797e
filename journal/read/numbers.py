"""Numbers and ranges of a note: "three fifty", "two or three", "between five and ten", "number nine"."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from journal.read.findings import Findings, Found, NoteWords, Number
from journal.read.modifiers import Modified, after_number, before
from journal.read.number_words import NAMED_AFTER, NAMED_ALWAYS, NAMED_BEFORE, PRONOUN_BEFORE
from journal.read.numerals import CERTAINTY, Numeral, numerals
from journal.read.pairs import JOINERS, sense
from journal.read.pieces import Pieces, split
from journal.read.units import unit_at


class Group(NamedTuple):
    """A number or a range in the pieces [start, end), and the words that make it rough or a limit.

    `first` is where those words start; `name` marks digits that name a thing ("lot 4471", "number nine").
    """

    low: Fraction
    high: Fraction
    start: int
    end: int
    numeral: Numeral
    around: Modified
    name: bool = False

    @property
    def first(self) -> int:
        """The first piece, with "about" or "at least"."""
        return self.around.start

    @property
    def range(self) -> bool:
        """Whether two ends were said."""
        return self.low != self.high


@dataclass(frozen=True, slots=True)
class Scan:
    """The pieces of a note, its single numbers, and its numbers with ranges put together."""

    pieces: Pieces
    numerals: tuple[Numeral, ...]
    groups: tuple[Group, ...]


_COUNTED = (("coat",), ("layer",), ("ply",), ("pass",))
_AT_A_TIME = frozenset("at by since till until".split())
_TO_THE_HOUR = tuple((share, to) for share in ("quarter", "half", "five", "ten", "twenty") for to in ("to", "past"))


@lru_cache(maxsize=16)
def scan(lower: tuple[str, ...], locale: str) -> Scan:
    """Return the numbers of a note. The same words are read once, however many concerns ask."""
    pieces = split(lower)
    singles = numerals(pieces)
    groups = []
    at = 0
    while at < len(singles):
        group, used = _group(pieces, singles, at, locale)
        groups.append(group)
        at += used
    return Scan(pieces, tuple(singles), tuple(groups))


def _group(pieces: Pieces, singles: list[Numeral], at: int, locale: str) -> tuple[Group, int]:
    first = singles[at]
    around = before(pieces.texts, first.start)
    if at + 1 < len(singles):
        ends = _range(pieces, first, singles[at + 1], locale)
        if ends is not None:
            start = _range_start(pieces.texts, around.start)
            around = Modified(start, first.start, around.rough, around.bound)
            return Group(*ends, first.start, singles[at + 1].end, singles[at + 1], around), 2
    if first.halves is not None and _adjacent_range(pieces, *first.halves, first.end, locale):
        low, high = map(Fraction, first.halves)
        return Group(low, high, first.start, first.end, first, around), 1
    named = _is_name(pieces, first, locale)
    return Group(first.value, first.value, first.start, first.end, first, around, named), 1


def _range(pieces: Pieces, first: Numeral, second: Numeral, locale: str) -> tuple[Fraction, Fraction] | None:
    """Return both ends when the two numbers are one range."""
    gap = pieces.texts[first.end : second.start]
    if gap == () and pieces.texts[max(0, first.start - 2) : first.start] in _TO_THE_HOUR:
        return None  # "at quarter to four eight hours at sixty"
    if gap == (",",) and first.start and pieces.texts[first.start - 1] in _AT_A_TIME:
        return None  # "wax on at ten, fifteen minutes between coats"
    if gap in ((), (",",), ("or", "maybe"), (",", "maybe"), (",", "or")):
        spoken = gap not in ((), (",",))
        if first.form == "ordinal" or second.form == "ordinal" or not first.value < second.value:
            return None
        if spoken or _adjacent_range(pieces, first.value, second.value, second.end, locale):
            return first.value, second.value
        return None
    if len(gap) != 1 or gap[0] not in JOINERS or sense(pieces, first, second, locale) != "range":
        return None
    low, high = first.value, second.value
    if second.scaled and low < 10 and not first.scaled and low < high / 100 <= 10 and high % 100 == 0:
        low *= 100  # "two to three hundred"
    return low, high


def _adjacent_range(pieces: Pieces, low: Fraction | int, high: Fraction | int, end: int, locale: str) -> bool:
    """Whether two numbers side by side are a range: "five, ten minutes", "two three days" of time."""
    if not low < high <= 3 * low or high > 60 or low.denominator != 1:
        return False
    if low >= 5 and (low % 5 or high % 5):
        return False
    unit = unit_at(pieces, end, Fraction(high), locale, end)
    if unit is None or unit.unit.dimension != "time" or unit.unit.name == "second":
        return False
    return pieces.texts[unit.end : unit.end + 1] not in (("later",), ("after",), ("on",))


def _range_start(texts: tuple[str, ...], start: int) -> int:
    """Take "between" or "from" before a range along."""
    return start - 1 if start > 0 and texts[start - 1] in ("between", "from") else start


def _is_name(pieces: Pieces, numeral: Numeral, locale: str) -> bool:
    texts = pieces.texts
    after = texts[numeral.end] if numeral.end < len(texts) else ""
    if after in NAMED_AFTER:
        return True
    at = numeral.start
    previous = texts[at - 1] if at else ""
    if previous == "." and at > 1 and texts[at - 2] == "no":
        return True
    if previous in NAMED_ALWAYS:
        return previous != "number" or texts[max(0, at - 3) : at - 1][-1:] != ("a",)
    if numeral.form in ("ordinal", "fraction") or previous not in NAMED_BEFORE or numeral.value.denominator != 1:
        return False
    if previous in ("coat", "layer", "part", "day", "tin", "pot") and (numeral.value > 19 or numeral.halves):
        return False
    if previous == "no" and at > 1 and texts[at - 2] in (",", "-", "and"):
        return False
    if previous in ("half", "part") or (previous == "no" and numeral.form == "words"):
        return previous == "part" and numeral.value < 10 and after not in ("to", "parts", ",")
    return unit_at(pieces, after_number(texts, numeral.end), numeral.value, locale, numeral.start) is None


def _is_pronoun(texts: tuple[str, ...], group: Group) -> bool:
    """Whether "one" is a pronoun: "this one", "no filler in the last one", "one of them"."""
    if group.end - group.start != 1 or texts[group.start] != "one":
        return False
    before_it = texts[group.start - 1] if group.start else ""
    if texts[group.end : group.end + 1] in _COUNTED:
        return False  # "just the one coat"
    return before_it in PRONOUN_BEFORE or texts[group.end : group.end + 1] == ("of",)


def _second_of_time(texts: tuple[str, ...], group: Group) -> bool:
    """Whether "second" is of time and no ordinal: "thirty second", "a second"."""
    if texts[group.start] != "second" or group.start == 0:
        return False
    word = texts[group.start - 1]
    return word[-1:].isdecimal()


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return every number and range of the note, the digits that name a thing among them (rule numbers.name)."""
    scanned = scan(words.lower, words.locale)
    out = []
    for group in scanned.groups:
        texts = scanned.pieces.texts
        if _is_pronoun(texts, group) or _second_of_time(texts, group):
            continue
        start, end = scanned.pieces.span(group.first, group.end)
        form = group.numeral.form
        rule = "numbers.name" if group.name else "numbers.range" if group.range else f"numbers.{form}"
        value = Number(group.low, group.high, group.around.rough or form == "collective", ordinal=form == "ordinal")
        out.append(Found("number", start, end, value, rule, CERTAINTY[form] * (0.95 if group.range else 1.0)))
    return out
