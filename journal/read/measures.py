"""Numbers with their unit, of whatever dimension: what amounts, conditions and durations choose from.

"two and three quarter pounds", "a kilo and a half", "one pound four ounces", "at least sixteen hours",
"200 g to 250 g", "450 gram mat".
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from journal.read.modifiers import Modified, after, after_number, before
from journal.read.nearby import sentence
from journal.read.number_words import OH, SMALL
from journal.read.numbers import Group, Scan, scan
from journal.read.numerals import CERTAINTY, Numeral, numeral_at
from journal.read.unit_words import ABBREVIATIONS, BY_FIRST, COUNTED, DIALECT, FABRIC, LAYERS, VAGUE
from journal.read.units import UnitSaid, fabric_weight, unit_at
from journal.trade.quantity import UNITS, Unit

# A smaller unit may follow its bigger one: "one pound four ounces", "an hour and twenty".
_SMALLER = {
    "lb": ("oz", 16), "kg": ("g", 1000), "hour": ("minute", 60), "minute": ("second", 60), "day": ("hour", 24),
    "l": ("ml", 1000), "foot": ("inch", 12), "imperial gallon": ("imperial pint", 8), "us gallon": ("us pint", 8),
    "m": ("mm", 1000), "imperial pint": ("imperial fl oz", 20), "us pint": ("us fl oz", 16),
}  # fmt: skip
_ARTICLES = frozenset({"a", "an", "another", "one"})
_BETWEEN = frozenset({"more", "extra", "full", "good", "solid", "whole", "further", "-", "level", "heaped"})
# What may follow "two hours thirty" for the thirty to be minutes.
_AFTER_MINUTES = frozenset(". , ; : ! ? and then but between before for at after ago in until till or".split())
_MOST_MAT_OZ = 3
_AS_WIDE = tuple((word,) for word in "thick deep wide long high ply plywood mdf foam board bolt bolts".split())
_MATS = tuple((word,) for word in "mat mats csm chopped".split())
_HOURS = (("hours",), ("hrs",), ("h",))
_AT_THE_HOUR = tuple((word,) for word in "at by from since until till @".split())
_RATIO_WITHIN = Fraction(5, 100)
_ONE_OR_TWO = "may be one amount or two"
_FABRIC_G = (20, 2500)  # g/m2: from tissue to the heaviest roving
_BEFORE_UNIT = frozenset(". , ; : and then with mixed mix took take used weighed poured".split()) | {""}
_NO_GAP = frozenset({"per", "each", "every", "half", "happy", "the"})
_BETWEEN_COATS = (("between",), ("apart",))
_FULL = (("full",), ("good",), ("solid",), ("whole",), ("extra",), ("further",))
_CLOSED = ((), (",",), (".",), ("and",), (";",))
_NEVER_ALONE = frozenset({"second", "degrees", "percent", "parts", "mil"})


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity in the pieces [start, end), in the record's unit of its dimension.

    `core` is where the number itself starts, without "about"; `article` marks "an hour", where no number
    was said; `why` tells of a doubt about the unit.
    """

    low: Fraction
    high: Fraction
    unit: Unit
    said: str
    start: int
    core: int
    end: int
    confidence: float
    rough: bool = False
    bound: str | None = None
    article: bool = False
    why: str | None = None

    @property
    def dimension(self) -> str:
        """The dimension of the unit: mass, time ..."""
        return self.unit.dimension


@dataclass(frozen=True, slots=True)
class Measured:
    """The numbers of a note, its measures, and the numbers that belong to none."""

    scan: Scan
    measures: tuple[Measure, ...]
    bare: tuple[Group, ...]

    def of(self, *dimensions: str) -> list[Measure]:
        """Return the measures of these dimensions, in the order of the text."""
        return [measure for measure in self.measures if measure.unit.dimension in dimensions]


@lru_cache(maxsize=16)
def measure(lower: tuple[str, ...], locale: str) -> Measured:
    """Return the measures of a note. The same words are read once, however many concerns ask."""
    scanned = scan(lower, locale)
    reader = _Reader(scanned, locale)
    measures = _by_volume(scanned.pieces.texts, reader.measures(), locale)
    return Measured(scanned, tuple(_join_ranges(scanned.pieces.texts, measures)), tuple(reader.bare))


def _by_volume(texts: tuple[str, ...], measures: list[Measure], locale: str) -> list[Measure]:
    """Read "33 ounces of resin and 11 of hardener by volume": fluid ounces."""
    if "volume" not in texts:
        return measures
    fluid = UNITS[DIALECT.get(locale, DIALECT["en-GB"])["fl oz"]]
    return [
        replace(one, unit=fluid, low=one.low / one.unit.factor * fluid.factor,
                high=one.high / one.unit.factor * fluid.factor, confidence=one.confidence * 0.9)
        if one.unit.name == "oz" and "volume" in sentence(texts, one.start, one.end, 14) else one
        for one in measures
    ]  # fmt: skip


class _Reader:
    """Walks over the numbers and the units that stand without one ("an hour")."""

    def __init__(self, scanned: Scan, locale: str) -> None:
        self.scan, self.locale = scanned, locale
        self.pieces, self.texts = scanned.pieces, scanned.pieces.texts
        self.bare: list[Group] = []

    def measures(self) -> list[Measure]:
        by_start = {group.start: group for group in self.scan.groups}
        out: list[Measure] = []
        at, count = 0, len(self.texts)
        while at < count:
            group = by_start.get(at)
            found = self._numbered(group) if group else self._unnumbered(at, out)
            if found is not None:
                out.append(found)
                at = found.end
                continue
            if group is not None:
                self.bare.append(group)
            at = group.end if group else at + 1
        return out

    def _unit(self, at: int, value: Fraction, near: int) -> UnitSaid | None:
        return unit_at(self.pieces, at, value, self.locale, near)

    def _numbered(self, group: Group) -> Measure | None:
        form = group.numeral.form
        if group.name or form == "ordinal" or is_hour_of_day(self.texts, group.numeral):
            return None
        at = after_number(self.texts, group.end)
        rough = at != group.end or group.around.rough or form == "collective"
        unit = self._unit(at, group.high, group.start) or self._unit_after_words(group, at) or self._inch(group)
        if unit is None:
            return None
        measured = Measure(
            unit.unit.to_canonical(group.low), unit.unit.to_canonical(group.high), unit.unit, unit.said,
            group.first, group.start, unit.end, CERTAINTY[form] * unit.confidence, rough, group.around.bound,
            why=unit.why,
        )  # fmt: skip
        if not group.range:
            measured = self._with_smaller(measured, group.high)
        return self._finished(measured)

    def _unit_after_words(self, group: Group, at: int) -> UnitSaid | None:
        """Read "half a litre", "a quarter of a pint", "24-hour", "ten more minutes", "a couple of hours"."""
        texts = self.texts
        if group.numeral.form == "fraction" or 0 < group.high < 1:
            at += texts[at : at + 1] == ("of",)
            at += texts[at : at + 1] in (("a",), ("an",), ("the",))
            return self._unit(at, group.high, group.start) if at > group.end else None
        if texts[at : at + 2] == ("more", "ounce"):
            return None  # "two more ounce and a half": two more of that mat
        if at < len(texts) and texts[at] in _BETWEEN:
            return self._unit(at + 1, group.high, group.start)
        return None

    def _inch(self, group: Group) -> UnitSaid | None:
        """Read "three sixteenths thick", "five-eighths ply": eighths and sixteenths are of an inch."""
        eighths = group.numeral.form == "fraction" and group.high.denominator in (8, 16, 32, 64)
        if not eighths or self.texts[group.end : group.end + 1] not in _AS_WIDE:
            return None
        return UnitSaid(UNITS["inch"], group.end, "inch", 0.9)

    def _unnumbered(self, at: int, out: list[Measure]) -> Measure | None:
        """Read a unit with no number: "an hour", "a kilo and a half", "hour and twenty", "ounce and a half"."""
        article = self.texts[at] in _ARTICLES
        place = at + article
        place += article and self.texts[place : place + 1] in _FULL
        word = self.texts[place] if place < len(self.texts) else ""
        if article and word in COUNTED:
            return self._one_container(at, place)
        if word not in BY_FIRST or word in ABBREVIATIONS or (article and out and out[-1].end == at):
            return None  # the last: "five grams a litre"
        unit = self._unit(place, Fraction(1), at)
        if unit is None or unit.unit.dimension in ("count", "percent", "temperature", "parts", "areal"):
            return None
        if word in _NEVER_ALONE and self.texts[place + 1 : place + 2] != ("and",):
            return None
        return self._one(at, unit, article)

    def _one(self, at: int, unit: UnitSaid, article: bool) -> Measure | None:
        around = before(self.texts, at)
        one = Measure(
            unit.unit.to_canonical(Fraction(1)), unit.unit.to_canonical(Fraction(1)), unit.unit, unit.said,
            around.start, at, unit.end, 0.9, around.rough, around.bound, article=True,
        )  # fmt: skip
        if unit.unit.dimension == "time" and self.texts[unit.end : unit.end + 2] == ("or", "two"):
            return replace(one, high=2 * one.high, end=unit.end + 2, article=False)
        full = self._with_smaller(one, Fraction(1))
        if full is one and not (article or self._one_of(at, unit)):
            return None
        if full is one and (self.texts[at] == "one" or unit.unit.name in ("bar", "second")):
            return None
        return self._finished(full)

    def _one_container(self, at: int, place: int) -> Measure | None:
        """Read "a teaspoon of pigment": one; "a pot", "a brush" on their own count nothing."""
        if self.texts[place + 1 : place + 2] != ("of",):
            return None
        vague = self.texts[at] != "one" and self.texts[place] in VAGUE
        return Measure(Fraction(1), Fraction(1), UNITS["count"], COUNTED[self.texts[place]], at, at, place + 1, 0.8,
                       article=vague)  # fmt: skip

    def _one_of(self, at: int, unit: UnitSaid) -> bool:
        """Read "gallon of polyester": one, when nothing else stands before it."""
        opening = (self.texts[at - 1] if at else "") in _BEFORE_UNIT
        if unit.unit.dimension == "time":
            behind = self.texts[unit.end : unit.end + 2]
            before = self.texts[at - 1] if at else ""
            between = behind[:1] in _BETWEEN_COATS and before not in _NO_GAP
            return behind == ("or", "so") or between  # "hour between each"
        return opening and self.texts[unit.end : unit.end + 1] == ("of",) and not self.texts[at].endswith("s")

    def _with_smaller(self, big: Measure, value: Fraction) -> Measure:
        """Take what is added to a unit: "and a half", "and twenty", "four ounces", "20"."""
        texts, at = self.texts, big.end
        if texts[at : at + 6] == ("-", "and", "-", "a", "-", "half"):
            return self._added(big, big.unit.factor / 2, at + 6)
        joined = texts[at : at + 1] == ("and",)
        numeral = numeral_at(self.pieces, at + joined) if at + joined < len(texts) else None
        if numeral is None or numeral.form in ("ordinal", "collective") or numeral.value < 0:
            return big
        if numeral.form == "fraction":
            three_quarters = big.unit.name == "hour" and numeral.value * 4 == 3  # "an hour three quarters"
            if not (joined or three_quarters) or self._has_own_unit(numeral):
                return big
            return self._added(big, numeral.value * big.unit.factor, numeral.end)
        return self._with_smaller_unit(big, numeral, joined)

    def _has_own_unit(self, numeral: Numeral) -> bool:
        at = numeral.end
        at += self.texts[at : at + 1] == ("of",)
        at += self.texts[at : at + 1] in (("a",), ("an",))
        return self._unit(at, numeral.value, numeral.start) is not None

    def _with_smaller_unit(self, big: Measure, numeral: Numeral, joined: bool) -> Measure:
        name, many = _SMALLER.get(big.unit.name, ("", 0))
        if not 0 < numeral.value < many:
            return big
        unit = self._unit(numeral.end, numeral.value, numeral.start)
        if unit is not None:
            more = unit.unit.to_canonical(numeral.value)
            if unit.unit.name != name or (joined and self._is_pair(big, more)):
                return big
            added = self._added(big, more, unit.end)
            return replace(added, why=_ONE_OR_TWO) if joined and big.unit.name in ("kg", "l") else added
        if not joined and (rest := self._rest(big, numeral)):
            why = f"taken for {int(rest)} {name}"
            return replace(self._added(big, UNITS[name].to_canonical(rest), numeral.end, 0.9), why=why)
        fives = numeral.value % 5 == 0
        following = self.texts[numeral.end] if numeral.end < len(self.texts) else "."
        if following == "to" and numeral.end + 1 < len(self.texts) and self.texts[numeral.end + 1].isalpha():
            following = "." if numeral_at(self.pieces, numeral.end + 1) is None else following  # "to lay up"
        if name != "minute" or following in ("of", "to", "past", "percent", "%"):
            return big
        if not joined and not (fives and following in _AFTER_MINUTES):
            return big
        return self._added(big, numeral.value * 60, numeral.end, 0.9 if fives else 0.6)

    def _is_pair(self, big: Measure, more: Fraction) -> bool:
        """Whether a ratio in the note says that "2 kilo and 600 gram" are the two parts: "100 to 30"."""
        for first, second in pairwise(self.scan.numerals):
            joined = self.texts[first.end : second.start] in (("to",), (":",), ("/",))
            if joined and abs(more * first.value - big.low * second.value) <= _RATIO_WITHIN * big.low * second.value:
                return True
        return False

    def _rest(self, big: Measure, numeral: Numeral) -> Fraction | None:
        """The smaller units that a bare number adds: "one kilo TWO HUNDRED", "a kilo FOUR of", "one pound SIX of"."""
        before = self.texts[big.start - 1] if big.start else ""
        behind = self.texts[numeral.end : numeral.end + 1]
        if big.unit.name == "lb":
            return numeral.value if numeral.form == "words" and behind == ("of",) else None
        if big.unit.name not in ("kg", "l"):
            return None
        if numeral.value % 50 == 0 and 100 <= numeral.value < 1000:
            return numeral.value if behind in _CLOSED or (behind == ("of",) and before in _BEFORE_UNIT) else None
        figure = numeral.form == "words" and numeral.value.denominator == 1 and 0 < numeral.value < 10
        return numeral.value * 100 if figure and behind == ("of",) else None

    @staticmethod
    def _added(big: Measure, more: Fraction, end: int, certainty: float = 1.0) -> Measure:
        return replace(
            big, low=big.low + more, high=big.high + more, end=end, confidence=big.confidence * certainty,
            article=False,
        )  # fmt: skip

    def _finished(self, measured: Measure) -> Measure:
        """Take the words after it along, and see whether the weight is a fabric's."""
        measured = self._misheard_ounce(measured)
        areal = fabric_weight(self.texts, measured.end, measured.unit) or self._beside_layers(measured)
        if areal is not None:
            per = areal.factor / measured.unit.factor
            why = None
            if areal.name != "g/m2" and not FABRIC & set(self.texts[measured.end : measured.end + 3]):
                why = "ounces of a fabric that is not named: per square foot up to 3, per square yard above"
            return replace(measured, unit=areal, low=measured.low * per, high=measured.high * per, why=why)
        behind = after(self.texts, measured.end)
        if behind.end == measured.end and behind.bound is None:
            return measured
        return replace(
            measured, end=self._tolerance_end(behind), rough=measured.rough or behind.rough,
            bound=measured.bound or behind.bound,
        )  # fmt: skip

    def _misheard_ounce(self, measured: Measure) -> Measure:
        """Read "inch and a half mat" as the ounces that it is sold by, flagged."""
        light = measured.unit.name == "inch" and measured.low <= _MOST_MAT_OZ * measured.unit.factor
        if not light or self.texts[measured.end : measured.end + 1] not in _MATS:
            return measured
        ounces = UNITS["oz/ft2"].factor / measured.unit.factor
        return replace(
            measured, unit=UNITS["oz/ft2"], low=measured.low * ounces, high=measured.high * ounces,
            why=f"heard {measured.said}, read as ounce",
        )  # fmt: skip

    def _tolerance_end(self, behind: Modified) -> int:
        """Take the number after "give or take" along: it is a margin, not another amount."""
        if self.texts[behind.start : behind.end][-1:] != ("take",):
            return behind.end
        margin = numeral_at(self.pieces, behind.end) if behind.end < len(self.texts) else None
        if margin is None:
            return behind.end
        unit = self._unit(margin.end, margin.value, margin.start)
        return margin.end if unit is None else unit.end

    def _beside_layers(self, measured: Measure) -> Unit | None:
        """Read "two layers of 450 gram", "biax, 600 gram, three plies": a fabric's weight, said apart from it."""
        texts, start, end = self.texts, measured.start, measured.end
        name = measured.unit.name
        if name not in ("g", "oz") or texts[end : end + 1] == ("of",):
            return None
        at = start - (texts[start - 1 : start] == ("the",))
        of_layers = at >= 2 and texts[at - 1] == "of" and texts[at - 2] in LAYERS
        of_layers = of_layers or (at >= 2 and texts[at - 1] in LAYERS and texts[at - 2] in SMALL)
        if name == "oz":
            held = texts[end : end + 1] and texts[end] in COUNTED  # "two of the eight ounce cups"
            of_layers = of_layers or (measured.said == "ounce" and not held and _counts_cloth(texts, start))
            mat = measured.high <= _MOST_MAT_OZ * measured.unit.factor
            return UNITS["oz/ft2" if mat else "oz/yd2"] if of_layers else None
        if not _FABRIC_G[0] <= measured.low <= _FABRIC_G[1]:
            return None
        plies = LAYERS & set(texts[end : end + 4])
        fabric = FABRIC & set(sentence(texts, start, end, 14 if plies else 8))
        beside = fabric and (plies or (measured.said == "gram" and not measured.rough))
        return UNITS["g/m2"] if of_layers or beside else None


def is_hour_of_day(texts: tuple[str, ...], numeral: Numeral) -> bool:
    """Whether the hours are of the clock: "1430 hours", "oh seven hundred hours", "at 14h30"."""
    start, end, value = numeral.start, numeral.end, numeral.value
    if texts[end : end + 1] == ("h",) and texts[end + 1 : end + 2] and texts[end + 1].isdecimal():
        return texts[max(0, start - 1) : start] in _AT_THE_HOUR and value < 24
    written = texts[start].isdecimal() and len(texts[start]) == 4
    said = numeral.halves is not None and (value >= 1000 or texts[start] in OH)
    return texts[end : end + 1] in _HOURS and (written or said) and value < 2400 and value % 100 < 60


def _counts_cloth(texts: tuple[str, ...], start: int) -> bool:
    """Whether a count goes before the weight of a cloth: "two more of the OUNCE AND A HALF", "one of TEN OUNCE"."""
    at = start - (texts[start - 1 : start] == ("the",))
    if texts[at - 1 : at] == ("more",):
        return at > 1 and (texts[at - 2] in SMALL or texts[at - 2].isdecimal())
    counted = texts[at - 2] in SMALL or texts[at - 2].isdecimal() or texts[at - 2] == "more" if at > 1 else False
    return texts[at - 1 : at] == ("of",) and counted


def _join_ranges(texts: tuple[str, ...], measures: list[Measure]) -> list[Measure]:
    """Read "200 g to 250 g", "between two hours and three hours": one range."""
    out: list[Measure] = []
    for second in measures:
        first = out[-1] if out else None
        if first is None or first.dimension != second.dimension or not first.high < second.low:
            out.append(second)
            continue
        gap = texts[first.end : second.start]
        between = gap == ("and",) and "between" in texts[max(0, first.start - 2) : first.core]
        halves = gap == (",",) and first.article and texts[second.core] in BY_FIRST and first.unit == second.unit
        ranged = gap in (("to",), ("-",), ("or",)) or between or halves  # "a day, day and a half"
        if ranged and first.bound is None and second.bound is None:
            out[-1] = replace(
                second, low=first.low, start=first.start, core=first.core, rough=first.rough or second.rough,
                confidence=min(first.confidence, second.confidence),
            )  # fmt: skip
        else:
            out.append(second)
    return out
