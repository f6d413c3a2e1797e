"""Two numbers with a word between: a range, a ratio, or a time of day.

"ten to twelve minutes", "ten to one by weight" and "at ten to two" differ only in what stands around them.
One place decides, so that the three readings never contradict each other.
"""

from __future__ import annotations

from typing import Literal

from journal.read.numerals import Numeral
from journal.read.pieces import Pieces
from journal.read.units import unit_at

Sense = Literal["range", "ratio", "clock", "unclear", "none"]

BY_WHAT = {
    "weight": "weight", "mass": "weight", "volume": "volume", "vol": "volume", "wt": "weight",
}  # fmt: skip
RATIO_WORDS = frozenset({"ratio", "ratios", "proportion", "proportions", "parts", "part"})
MIX_WORDS = frozenset({"mix", "mixed", "mixes", "mixing", "mixture", "catalysed", "catalyzed", "blend", "blended"})
PARTS_NAMED = frozenset("resin hardener catalyst base silicone epoxy plaster water a b".split())
MIXED_AT = frozenset(
    "silicone silicones rubber resin epoxy urethane polyurethane latex gelcoat hardener catalyst ratio".split()
)
_SECONDS = frozenset({"hardener", "catalyst", "b", "activator"})
_MOST_PARTS = 120
CLOCK_BEFORE = frozenset({"at", "by", "till", "til", "until", "since", "before", "after", "around", "about", "from",
                          "nearly", "almost", "just", "it's", "gone"})  # fmt: skip
CLOCK_VERBS = frozenset(
    {"started", "start", "starting", "began", "finished", "finish", "done", "poured", "popped", "demoulded", "due",
     "stopped", "ended", "opened", "ready", "laid", "brushed", "gelled", "kicked", "put", "came", "went", "off"}
)  # fmt: skip
CLOCK_AFTER = frozenset({"am", "pm", "o'clock", "today", "tomorrow", "yesterday", "tonight", "sharp"})
DAY_PARTS = frozenset({"morning", "afternoon", "evening", "night"})
MINUTES_TO = frozenset({5, 10, 20, 25})
JOINERS = frozenset({"to", "-", "or", ":", "/", "and", "through"})


def by_what(texts: tuple[str, ...], at: int, reach: int = 1) -> str | None:
    """Return weight or volume when "by weight" and the like starts within `reach` pieces, else None."""
    for place in range(at, min(at + reach, len(texts) - 1)):
        if texts[place] in ("by", "on"):
            the = texts[place + 1] == "the" and place + 2 < len(texts)
            if texts[place + 1 + the] in BY_WHAT:
                return BY_WHAT[texts[place + 1 + the]]
    return None


def sense(pieces: Pieces, first: Numeral, second: Numeral, locale: str) -> Sense:
    """Return what "FIRST joiner SECOND" means; the joiner is the one piece between the two."""
    if first.form == "ordinal" or second.form == "ordinal" or second.value < 0:
        return "none"
    joiner = pieces.texts[first.end]
    rising = first.value < second.value
    if joiner == "or":
        return "range" if rising and second.value <= 10 * first.value else "none"
    if joiner == "and":
        if first.value == 100 and not rising and by_what(pieces.texts, second.end):
            return "ratio"  # "100 and 29 by weight"
        return "range" if rising and "between" in pieces.texts[max(0, first.start - 2) : first.start] else "none"
    if joiner in ":/":
        written = _written(pieces.texts, first, second, joiner)
        measured = written == "ratio" and unit_at(pieces, second.end, second.value, locale, second.start)
        return "none" if measured and measured.unit.dimension != "parts" else written  # "pot 2: 400 g"
    unit = unit_at(pieces, second.end, second.value, locale, second.start)
    if joiner == "-":
        return _dashed(pieces.texts, first, second, unit is not None)
    return _spoken(pieces.texts, first, second, unit is not None and unit.unit.dimension != "parts")


def _written(texts: tuple[str, ...], first: Numeral, second: Numeral, joiner: str) -> Sense:
    if first.form != "digits" or second.form != "digits":
        return "none"
    mixing = _ratio_cue(texts, first, second)
    if joiner == "/":
        more = texts[second.end : second.end + 1] == ("/",)
        whole = first.value >= second.value or first.value == 100 or mixing > 1
        return "ratio" if whole and not (more and not mixing) and second.value > 0 else "none"
    if _looks_like_time(texts, first, second) and texts[second.start].startswith("0"):
        return "clock"  # "13:05": no ratio is written so
    rising = first.value < second.value and _before(texts, first) == "at"
    if _looks_like_time(texts, first, second) and (mixing < 2 or (rising and mixing < 3)):
        mixing = 0 if rising else mixing  # "started mixing at 9:40": no main part is the smaller
        return "clock" if mixing < 1 or _before(texts, first) in CLOCK_BEFORE else "unclear"
    return "ratio" if second.value > 0 else "none"


def _looks_like_time(texts: tuple[str, ...], first: Numeral, second: Numeral) -> bool:
    minute = texts[second.start]
    whole = first.end - first.start == 1 and second.end - second.start == 1
    return whole and len(minute) == 2 and minute.isdecimal() and first.value <= 23 and second.value <= 59


def _dashed(texts: tuple[str, ...], first: Numeral, second: Numeral, unit: bool) -> Sense:
    if by_what(texts, second.end) or (not unit and _ratio_cue(texts, first, second) > 1):
        return "ratio"
    return "range" if first.value < second.value else "none"


def _spoken(texts: tuple[str, ...], first: Numeral, second: Numeral, unit: bool) -> Sense:
    rising = first.value < second.value
    if by_what(texts, second.end, 5):
        return "ratio"
    if unit or _before(texts, first) == "from":  # "dropped from nineteen to fourteen"
        return "range" if rising else "none"
    mixing = _ratio_cue(texts, first, second)
    if rising and second.value == 100 and _SECONDS.intersection(texts[max(0, first.start - 8) : first.start]):
        return "ratio"  # "resin 4.2 kg, hardener 1.26 kg, 30 to 100"
    clock = _clock_cue(texts, first, second)
    if clock is not None:
        return _clock_or_ratio(clock, mixing, first, second)
    if first.value > _MOST_PARTS and mixing < 3:
        return "none"  # "600 to 168": two weights
    if mixing or not rising or first.value == 100:
        return "ratio" if second.value > 0 else "none"
    return "range"


def _clock_or_ratio(clock: int, mixing: int, first: Numeral, second: Numeral) -> Sense:
    if clock or mixing:
        if clock == mixing:
            return "unclear"
        return "clock" if clock > mixing else "ratio"
    rising = first.value < second.value
    if second.value > 1:
        return "range" if rising else "unclear"
    return "ratio" if not rising and second.value > 0 else "range"


def _before(texts: tuple[str, ...], first: Numeral, back: int = 1) -> str:
    return texts[first.start - back] if first.start >= back else ""


def _ratio_cue(texts: tuple[str, ...], first: Numeral, second: Numeral) -> int:
    """How strongly the words around speak for a ratio: 0 to 3."""
    before = texts[max(0, first.start - 4) : first.start]
    after = texts[second.end : second.end + 3]
    if RATIO_WORDS & {*before, *after} or by_what(texts, second.end, 5):
        return 3
    if MIX_WORDS & set(before[-2:]):
        return 2
    beside = tuple(word for word in before if word not in (",", "both", "all", "each"))
    told = CLOCK_VERBS.isdisjoint(texts[max(0, first.start - 6) : first.start])
    if second.value == 1 and told and beside[-1:] == ("at",) and not MIXED_AT.isdisjoint(beside[-2:-1]):
        return 3  # "tin silicone at 20 to 1"
    if "to" in before and len(PARTS_NAMED & set(texts[max(0, first.start - 6) : first.start])) > 1:
        return 3  # "hardener to resin is 1 to 5"
    told = second.value == 1 and not _SECONDS.isdisjoint(texts[max(0, first.start - 8) : first.start])
    return 1 if told or MIX_WORDS & {*before, *texts[second.end : second.end + 2]} else 0


def _clock_cue(texts: tuple[str, ...], first: Numeral, second: Numeral) -> int | None:
    """How strongly the words around speak for a time: 0 to 3, or None when these numbers make none."""
    quarter = first.form == "fraction" and first.value * 4 == 1
    if not quarter and first.value not in MINUTES_TO:
        return None
    if second.value.denominator != 1 or not 1 <= second.value <= 12:
        return None
    after = texts[second.end : second.end + 3]
    if quarter or CLOCK_AFTER & set(after[:1]) or DAY_PARTS & set(after):
        return 3
    if CLOCK_VERBS & set(texts[max(0, first.start - 3) : first.start]):
        return 3
    if _before(texts, first) in CLOCK_BEFORE or texts[max(0, first.start - 2) : first.start] == ("it", "'s"):
        return 1 if second.value == 1 else 2
    return 0
