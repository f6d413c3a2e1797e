"""What a recogniser writes for the words of makers: "3rd of a gallon", "1-2-1", "30 mill", "at 11.05".

A recogniser writes everyday English. Where its spelling of a sound cannot be what a maker meant, the maker's takes its
place, in every hearing alike. A spelling that may change a value is a change, and flagged as one.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from journal.read.hearing.lattice import Way
from journal.read.hearing.mend import Change, Mended, Rewriting
from journal.read.number_words import SMALL
from journal.record import Alternative

_PARTS = {"3rd": "third", "4th": "quarter", "5th": "fifth", "6th": "sixth", "8th": "eighth", "10th": "tenth"}
_COUNT = r"\d+|one|two|three|four|five|six|seven|eight|nine|ten"
_HUNDREDS = "[1-9]|one|two|three|four|five|six|seven|eight|nine"
_WHOLE = rf"{_COUNT}|kilo|litre|liter|pint|quart|gallon|pound|ounce|hour|minute|inch"
_THIN = r"cat|catalyst|mekp|hardener|accelerator|cobalt|pigment|acetone|styrene"
_RESIN = r"resin|epoxy|polyester|vinyl|urethane|silicone|rubber|latex|plaster|gypsum|gel coat|gelcoat"
_UNITS = r"%|percent|per cent|bar|mbar|mm|ml|mils?|kg|kilos?|g|grams?|l|lit[re]+s?|oz|ounces?|inch|inches|degrees|to\b"


def _rule(pattern: str, instead: Callable[[re.Match[str]], str]) -> tuple[re.Pattern[str], Callable[..., str]]:
    return re.compile(pattern, re.IGNORECASE), instead


_FABRIC = r"biax\w*|cloth|mat|csm|glass|fabric|twill|weave|woven|roving|tissue|carbon|aramid|chopped|matting"
_WEIGHED = r"grams?|g|kilos?|kg|ounces?|oz|pounds?|lbs?|ml|litres?|liters?|pints?|cups?"

# Each sounds as what it stands for; the group "said" is what is replaced.
_SAME = (
    _rule(r"\b(?P<said>3rd|4th|5th|6th|8th|10th) of an? ", lambda m: _PARTS[m["said"].lower()]),
    _rule(rf"\b(?:{_COUNT}) ?(?P<said>mills?)\b", lambda m: "mil"),
    _rule(r"\b0?\.\d+ (?:of )?(?:a|the) (?P<said>mill)\b", lambda m: "mil"),
    _rule(r"\bounces? of (?P<said>bee?)\b(?! \w+ing)", lambda m: "b"),
    _rule(r"\bpart (?P<said>bee?)\b(?=[,.;]|$| (?:of|to|by|and|is|was|\d))", lambda m: "b"),
    _rule(r"\bpart (?P<said>eh|ay|hey)\b", lambda m: "a"),
    _rule(
        rf"\b\d+ (?:{_WEIGHED}) (?:of (?:the )?)?(?P<said>bee?)\b(?=[,.;]|$| (?:of|and|with|in|into)\b)", lambda m: "b"
    ),
    _rule(r"\b(?P<said>humidities)(?= (?:at|is|up|down|around|about|\d))", lambda m: "humidity's"),
    _rule(
        r"\b(?P<said>(?:work)?shops)(?= (?:sitting|(?:at |around |about )?\d))",
        lambda m: f"{m['said'][:-1]}'s",
    ),
    _rule(
        rf"\b(?:at|by|since|until|till) (?P<said>(?:1?\d|2[0-3])\.[0-5]\d)\b(?!\.?\d| ?(?:{_UNITS}))",
        lambda m: m["said"].replace(".", ":"),
    ),
)
# Each only sounds much like what it stands for, or is another number.
_ALIKE = (
    _rule(r"\b(?P<said>\d{1,3}-(?:2|to|two)-(?:\d{1,2}|one))\b", lambda m: _ratio(m["said"])),
    _rule(
        rf"(?<!\d )\b(?P<said>(?:{_HUNDREDS}) [1-9]\d)\b(?= ?(?:g|grams?) of\b)",
        lambda m: f"{SMALL.get(m['said'].split()[0].lower(), m['said'].split()[0])}{m['said'].split()[1]}",
    ),
    _rule(rf"\b(?:{_WHOLE}) (?P<said>(?:in|an|on|into|and) (?:a )?half)\b(?! (?:of )?the\b)", lambda m: "and a half"),
    # A count run into the weight of a fabric, "four 17 ounce biax" and "two 450 gram mat": no fabric is so heavy.
    _rule(rf"\b(?P<said>[1-9][0-3]\d)(?=[- ](?:ounce|oz)[- ](?:\w+ )?(?:{_FABRIC})\b)", lambda m: _parted(m["said"])),
    _rule(rf"\b(?P<said>[2-9][1-9]\d\d)(?=[- ](?:gram|g)[- ](?:\w+ )?(?:{_FABRIC})\b)", lambda m: _parted(m["said"])),
    _rule(r"\b\d{2,} ?(?P<said>drums?|drams|rams|crams|grands|grahams?|grumps)\b", lambda m: "grams"),
    # Nothing thin is measured by its length, nor resin by the mile; the "of" between is hardly spoken.
    _rule(rf"\b\d+ ?(?P<said>(?:mm|millimet(?:er|re)s?) o[fn]) (?:\w+ )?(?:{_THIN})\b", lambda m: "ml of"),
    _rule(rf"\b\d+ ?(?P<said>(?:km|kilomet(?:er|re)s?) o[fn]) (?:\w+ ){{0,2}}(?:{_RESIN})\b", lambda m: "kilos of"),
    # No layer is so thick, but a mat may be of so many grams.
    _rule(r"\blayers? of \d{3} ?(?P<said>mm|m)\b", lambda m: "mat"),
    # "Two layers of mat, for 800 biax": a count of what comes next in the list.
    _rule(rf"\blayers? of (?:\w+ ){{1,4}}?\w+, (?P<said>for)(?: of)? [1-9]\d\d (?:{_FABRIC})", lambda m: "four of"),
    _rule(r"\b(?:an|one|\d+) (?P<said>hours?, and) (?:ten|twenty|a quarter|a half)(?=,? it's\b)", lambda m: "hour and"),
)


def _parted(digits: str) -> str:
    return f"{digits[0]} {int(digits[1:])}"


def _ratio(said: str) -> str:
    first, _, second = said.split("-")
    return f"{first} to {1 if second == 'one' else second}"


def respelled(said: Alternative, changes: Sequence[Change] = ()) -> Mended:
    """Return a hearing in the spelling of makers, with its changes so far and those that may change a value."""
    found: list[tuple[tuple[int, int], str, bool]] = []
    for rules, telling in ((_SAME, False), (_ALIKE, True)):
        for pattern, instead in rules:
            for match in pattern.finditer(said.text):
                span, new = match.span("said"), instead(match)
                if new != match["said"] and not any(a < span[1] and span[0] < b for (a, b), _, _ in found):
                    found.append((span, new, telling))
    if not found:
        return Mended(said, tuple(changes))
    return _rewritten(said, changes, sorted(found))


def _rewritten(
    said: Alternative, before: Sequence[Change], found: Sequence[tuple[tuple[int, int], str, bool]]
) -> Mended:
    text, moved, changes = Rewriting(said.text, said.words), list(before), []
    for (start, end), new, telling in found:
        there = [w for w in said.words if w.chars[0] < end and start < w.chars[1]]
        probability = min((w.probability for w in there), default=0.5)
        seconds = (there[0].start_s, there[-1].end_s) if there else (0.0, 0.0)
        text.keep(start)
        shift = len(text.text) - start
        text.replace(end, Way(0, 0, tuple(new.split()), 0.0, probability, "spelling"), seconds)
        text.keep(end)
        changes += text.changes[-1:] if telling else []
        shift = len(text.text) - end - shift
        moved = [_moved(old, change, end, shift) for old, change in zip(before, moved, strict=True)]
    text.keep(len(said.text))
    hearing = replace(said, text=text.text, words=tuple(text.words))
    return Mended(hearing, (*moved, *changes))


def _moved(old: Change, change: Change, end: int, shift: int) -> Change:
    """Return a change with its place moved by what was replaced before its end."""
    first, last = change.chars
    return replace(change, chars=(first + shift * (old.chars[0] >= end), last + shift * (old.chars[1] >= end)))
