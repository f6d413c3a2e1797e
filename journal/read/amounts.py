"""Amounts of material, and the areal weights of fabrics.

"400 g", "half a litre", "two percent", "three brushes" are amounts; "450 gram mat" and "300 gsm" are areal
weights and never amounts. A number that belongs to nothing else is an amount without a unit.
"""

from __future__ import annotations

from journal.read.conditions import is_beside_warmth
from journal.read.findings import Amount, Areal, Findings, Found, NoteWords
from journal.read.layers_patterns import PIECES, SOLD, STYLES
from journal.read.measures import Measure, Measured, measure
from journal.read.nearby import sentence
from journal.read.no_amounts import is_error, is_other_figure, is_price
from journal.read.number_words import PRONOUN_BEFORE, SMALL, UNITS
from journal.read.numbers import Group
from journal.read.ratios import is_share, per_hundred_end
from journal.read.unit_words import COUNTED, FABRIC, LAYERS
from journal.record import Flag

_COUNTED_ELSEWHERE = frozenset(
    {"coat", "coats", "layer", "layers", "ply", "plies", "pass", "passes", "times", "halves", "half", "pieces",
     "sides", "corners", "colour", "colours", "more", "side", "hand", "hands", "people", "of", "at", "percent",
     "part", "o'clock", "past", "batch", "batches", "mixes", "brews", "goes", "pours", "castings", "casts", "pulls",
     "moulds", "molds", "panels", "years", "lads", "pages"}
)  # fmt: skip
_THESE = frozenset({"these", "those", "them", "all"})
_NO_NAME = frozenset("a an and at but by for from in into it on or so the then to was with".split())
_BATCHED = frozenset({"mixed", "weighed", "measured", "mix", "weigh", "pot", "batch", "out", "took", ","})
_MIXED = frozenset({"epoxy", "resin", "silicone", "rubber", "urethane", "polyester", "latex", "gelcoat", "hardener"})
_WHOLE = {"kilo": "mass", "kg": "mass", "kilogram": "mass", "litre": "volume", "liter": "volume"}
_INSIDE = (("in",), ("into",), ("from",), ("to",), ("per",), ("for",))
_TIN_CURED = (("tin", "silicone"), ("tin", "cure"), ("tin", "cured"))  # no tin of it
_HUMID = frozenset({"humidity", "humid", "rh", "relative", "damp", "muggy"})
_STRENGTH = frozenset("thinned thinner diluted dilution strength solution scale full sure done cured".split())
_MOST_SHARE = 30
_AREAL_LEAST, _AREAL_MOST = 20, 2500  # g/m2: from tissue to the heaviest roving


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the amounts and areal weights. Reads the findings before it, to leave alone what they took."""
    measured = measure(words.lower, words.locale)
    taken = _taken(found)
    out = [item for one in measured.measures if (item := _amount(measured, one)) is not None]
    out += _shares(measured)
    taken |= {token for item in out for token in range(item.start, item.end)}
    out += [item for group in measured.bare if (item := _bare(measured, group, taken)) is not None]
    return sorted(out, key=lambda item: item.start)


def _amount(measured: Measured, one: Measure) -> Found | None:
    start, end = measured.scan.pieces.span(one.start, one.end)
    field = "layers" if one.dimension == "areal" else "unit"
    flags: tuple[Flag, ...] = (Flag(field, one.why),) if one.why else ()
    if one.dimension == "areal":
        if one.low != one.high:
            flags = (*flags, Flag("layers", "a range of areal weights was said"))
        return Found("areal", start, end, Areal(one.low), "amounts.areal", one.confidence, flags)
    if not _is_amount(measured, one):
        return None
    if (rate := _rate(measured, one)) is not None:
        return rate
    times = _times(measured, one)
    if times is not None:
        start = measured.scan.pieces.tokens[times.start]
    many = times.low if times else 1
    value = Amount(abs(one.low) * many, abs(one.high) * many, one.unit.canonical, one.said, one.bound, one.rough)
    rule = "amounts.many-of-a-size" if times else "amounts.article-unit" if one.article else "amounts.number-unit"
    flags += _misheard_four(measured, one)
    return Found("amount", start, end, value, rule, one.confidence, flags)


def _shares(measured: Measured) -> list[Found]:
    """Return parts per hundred of something added as percent: "three parts per hundred of fumed silica"."""
    texts, out = measured.scan.pieces.texts, []
    for numeral in measured.scan.numerals:
        end = per_hundred_end(texts, numeral.end)
        if end is not None and is_share(texts, numeral.start, end):
            start, stop = measured.scan.pieces.span(numeral.start, end)
            value = Amount(numeral.value, numeral.value, "percent", "parts per hundred")
            out.append(Found("amount", start, stop, value, "amounts.per-hundred", 0.88))
    return out


def _times(measured: Measured, one: Measure) -> Group | None:
    """Return the count before a packet's size: "two 5 litre tubs of resin", "5 x 20 kg bags of plaster"."""
    texts = measured.scan.pieces.texts
    if not (texts[one.end : one.end + 1] and texts[one.end] in COUNTED) or one.low != one.high:
        return None
    for group in measured.bare:
        gap = texts[group.end : one.core]
        if gap in ((), ("x",)) and group.end <= one.core and group.low == group.high and group.low > 0:
            return group
    return None


def _rate(measured: Measured, one: Measure) -> Found | None:
    """Read "15 grams per kilo of accelerator" as 1.5 percent; a volume to a kilo is kept, with a flag."""
    texts = measured.scan.pieces.texts
    after = texts[one.end : one.end + 2]
    to_the = after == ("to", "the") or after == ("to", "a")
    at = one.end + (2 if to_the else 1)
    if not (to_the or after[:1] in (("per",), ("/",), ("a",))) or one.low != one.high:
        return None
    whole = _WHOLE.get(texts[at]) if at < len(texts) else None
    if whole is None or one.dimension not in ("mass", "volume"):
        return None
    start, end = measured.scan.pieces.span(one.start, at + 1)
    share = one.low / 10  # g in 1000 g
    if to_the and share > _MOST_SHARE:
        return None  # "3 kilos to a litre of water"
    flags = () if one.dimension == whole else (Flag("amount", f"{one.said} to a {texts[at]}: no share by weight"),)
    return Found("amount", start, end, Amount(share, share, "percent", one.said), "amounts.rate", 0.8, flags)


def _misheard_four(measured: Measured, one: Measure) -> tuple[Flag, ...]:
    """Flag "mixed for 120 grams": "four" is often heard as "for", and no other words stand between."""
    texts = measured.scan.pieces.texts
    if texts[max(0, one.core - 1) : one.core] != ("for",) or one.dimension not in ("mass", "volume"):
        return ()
    if not set(texts[max(0, one.core - 3) : one.core - 1]) & (_BATCHED | _MIXED):
        return ()
    return (Flag("amount", f"'for {' '.join(texts[one.core : one.end])}' may be a number with four in it"),)


def _is_amount(measured: Measured, one: Measure) -> bool:
    texts = measured.scan.pieces.texts
    if is_price(texts, one) or is_error(texts, one):
        return False
    if one.dimension == "percent":
        strength = _STRENGTH & set(texts[one.end : one.end + 1]) or is_beside_warmth(texts, one)
        reach = 6 if texts[max(0, one.start - 1) : one.start] == ("at",) else 4  # "humidity in the shop at 78 percent"
        return not strength and not _HUMID & set(texts[max(0, one.start - reach) : one.end + 3])
    if one.dimension == "count" and one.low == 1 and texts[max(0, one.start - 1) : one.start] in _INSIDE:
        return False  # "together in one cup"
    if one.dimension == "area":
        return texts[one.end : one.end + 1] == ("of",)
    if texts[one.end : one.end + 2] in _TIN_CURED:
        return True
    if texts[one.end : one.end + 1] and texts[one.end] in COUNTED and one.dimension in ("mass", "volume"):
        return texts[one.end + 1 : one.end + 2] == ("of",)  # "ten ml syringes" is a size
    return one.dimension in ("mass", "volume", "count")


def _taken(found: Findings) -> set[int]:
    """The tokens that a time, ratio or condition was read from."""
    items = found.of("ratio", "moment", "duration", "condition", "areal", "lot")
    return {token for item in items for token in range(item.start, item.end)}


def _bare(measured: Measured, group: Group, taken: set[int]) -> Found | None:
    texts = measured.scan.pieces.texts
    start, end = measured.scan.pieces.span(group.start, group.end)
    if group.name or group.numeral.form in ("ordinal", "fraction") or not taken.isdisjoint(range(start, end)):
        return None
    the = texts[max(0, group.start - 2) : group.start] == ("of", "the")  # "three of the four fifty"
    before = texts[max(0, group.start - 2 - the) : group.start - the]
    following = texts[group.end : group.end + 3]
    if _is_fabric_weight(texts, group, before, following):
        return Found("areal", start, end, Areal(group.low), "amounts.bare-areal", 0.85)
    if _is_side(before, following) or _is_code(measured, group) or _is_how_hot(before, following):
        return None
    if is_other_figure(texts, group.start, group.end) or _is_a_name(texts, group, following):
        return None
    one = texts[group.start : group.end] == ("one",)
    parted = following[:1] == ("part",) and following[1:2] in (("a",), ("b",))
    if one or (not parted and following[:1] and following[0] in _COUNTED_ELSEWHERE - {"of", "at"}):
        return None
    if group.low <= 0 or (before and before[-1] in PRONOUN_BEFORE | _THESE and group.low < 10):
        return None
    start, end = measured.scan.pieces.span(group.first, group.end)
    value = Amount(group.low, group.high, None, None, group.around.bound, group.around.rough)
    named = following[:1] == ("of",) or (following and following[0].isalpha() and following[0] not in _NO_NAME)
    return Found("amount", start, end, value, "amounts.bare", 0.86 if named else 0.5)


def _is_count(before: tuple[str, ...]) -> bool:
    """Whether "2 x" goes before."""
    return len(before) == 2 and before[1] == "x" and (before[0] in UNITS or before[0] in "123456789")


def _is_side(before: tuple[str, ...], following: tuple[str, ...]) -> bool:
    """Whether the number is one of "600 by 400" or "3 x 450"."""
    return before[-1:] in (("by",), ("x",)) or following[:1] in (("by",), ("x",), ("rpm",))


def _is_how_hot(before: tuple[str, ...], following: tuple[str, ...]) -> bool:
    """Whether the number says how hot or when something was done ("poured at 165"), not how much ("came in at 240")."""
    alone = not following or following[0] in (",", ".", "and", "so", "then", "because", "in", "when", ";")
    return before[-1:] == ("at",) and before[:1] not in (("in",), ("out",), ("weighed",), ("weighs",)) and alone


def _is_a_name(texts: tuple[str, ...], group: Group, following: tuple[str, ...]) -> bool:
    """Whether the number names a product: "the slow one, the 209, so ..."."""
    alone = following[:1] in ((), (",",), (".",))
    return alone and texts[max(0, group.start - 2) : group.start] == (",", "the")


def _is_code(measured: Measured, group: Group) -> bool:
    """Whether letters are written against the digits: "4471b"."""
    tokens, texts = measured.scan.pieces.tokens, measured.scan.pieces.texts
    return group.end < len(texts) and tokens[group.end] == tokens[group.end - 1] and texts[group.end].isalpha()


def _is_fabric_weight(
    texts: tuple[str, ...], group: Group, before: tuple[str, ...], following: tuple[str, ...]
) -> bool:
    """Whether a bare number is g/m2: "450 mat", "two layers of 450", "300 mat, then two of 450"."""
    if group.range or group.low in STYLES or not _AREAL_LEAST <= group.low <= _AREAL_MOST:
        return False
    if following and following[0] in FABRIC:
        return group.low >= 100 or following[0] in ("tissue", "veil")
    if group.low < 100 or following[:1] == ("of",):
        return False
    if len(before) == 2 and before[0] in LAYERS and before[1] in ("of", ","):
        return True
    if len(before) == 2 and before[0] in PIECES and before[1] == "of" and group.low in SOLD:
        return True
    if group.low in SOLD and (before[-1:] in (("layer",), ("ply",)) or _is_count(before)):
        return True
    near = set(sentence(texts, group.start, group.end, 14))
    plural = following[:1] == ("s",) or texts[group.end - 1].endswith("ties")
    if plural and group.low in SOLD and before[-1:] and before[-1] in SMALL and near & (FABRIC | LAYERS):
        return True  # "two 450s", "two four fifties"
    counted = before[-1:] == ("of",) and (before[0] in SMALL or before[0] in ("another", "more"))
    again = before[-1:] == ("another",) or counted
    return group.low in SOLD and again and bool(near & (FABRIC | LAYERS))
