"""Mixing ratios: "100 to 28 by weight", "100:28", "28 phr", "ten parts to one", "equal parts".

The order is main : second. What the words leave open is kept as it was said, with a flag.
"""

from __future__ import annotations

from fractions import Fraction

from journal.read.findings import Findings, Found, NoteWords, RatioSaid
from journal.read.measures import Measured, measure
from journal.read.number_words import SMALL
from journal.read.numerals import CERTAINTY, Numeral
from journal.read.pairs import BY_WHAT, MIX_WORDS, by_what, sense
from journal.record import Flag

_SECOND = frozenset({"hardener", "hardner", "catalyst", "b", "accelerator", "peroxide", "mekp", "activator", "water"})
_MAIN = frozenset(
    {"resin", "a", "base", "epoxy", "silicone", "rubber", "polyester", "urethane", "gelcoat", "plaster", "gypsum"}
)
_TO = frozenset({"to", "and", ",", "-", "&", "with"})
_ADDED = frozenset(
    "silica pigment filler microballoons balloons talc flock fibre fiber thickener powder dye colour color".split()
)
_RATIO = frozenset({"ratio", "ratios", "proportion", "proportions"})
_JOINED = (("to",), ("and",), ("-",), (":",), ("/",))
_EQUAL = {
    "equal": (("equal", "parts"), ("equal", "amounts"), ("equal", "quantities"), ("equal", "measures")),
    "fifty": (("fifty", "fifty"), ("fifty", "-", "fifty"), ("fifty", "/", "fifty")),
    "50": (("50", "50"), ("50", "-", "50")),
    "half": (("half", "and", "half"),),
    "one": (("one", "for", "one"),),
    "1": (("1", "for", "1"),),
}
_TO_THE_HUNDRED = tuple(
    (way, the, hundred) for way in ("per", "to", "in", "on") for the in ("a", "the") for hundred in ("hundred", "100")
)
_REACH = 6


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the ratios that were said, and single numbers that may be two run together."""
    measured = measure(words.lower, words.locale)
    out: list[Found] = []
    singles = measured.scan.numerals
    at = 0
    while at < len(singles):
        made, used = _ratio(measured, singles, at, words.locale)
        if made is not None:
            out.append(made)
        at += used
    return sorted(out + _equal(measured), key=lambda item: item.start)


def _ratio(measured: Measured, singles: tuple[Numeral, ...], at: int, locale: str) -> tuple[Found | None, int]:
    first = singles[at]
    if first.form == "ordinal" or first.value <= 0 or _is_counted(measured, first):
        return None, 1
    chain, doubt = _chain(measured, singles, at, locale)
    if len(chain) > 1:
        return _said(measured, chain, "ratios.pair", doubt), len(chain)
    parts = _parts(measured, singles, at)
    if len(parts) > 1:
        return _said(measured, parts, "ratios.parts", False), len(parts)
    named = _named(measured, singles, at)
    if len(named) > 1:
        return _said(measured, named, "ratios.named", False), len(named)
    listed = _listed(measured, singles, at)
    if len(listed) > 1:
        return _said(measured, listed, "ratios.listed", False), len(listed)
    made = _per_hundred(measured, first)
    return (made, 1) if made else _beside_cue(measured, singles, at)


def _is_counted(measured: Measured, numeral: Numeral) -> bool:
    """Whether a count stands before: "two of 450 to one of 300"."""
    texts, at = measured.scan.pieces.texts, numeral.start
    return at > 1 and texts[at - 1] == "of" and (texts[at - 2] in SMALL or texts[at - 2].isdecimal())


def _chain(measured: Measured, singles: tuple[Numeral, ...], at: int, locale: str) -> tuple[list[Numeral], bool]:
    """Return the numbers joined as a ratio ("3 to 2 to 1"), and whether they may mean something else."""
    chain, doubt = [singles[at]], False
    joined: tuple[str, ...] = ()
    for second in singles[at + 1 :]:
        first = chain[-1]
        joiner = measured.scan.pieces.texts[first.end : second.start]
        if joiner not in _JOINED or (len(chain) > 1 and joiner != joined):
            break  # "20 to 1: 700 of base"
        meaning = sense(measured.scan.pieces, first, second, locale)
        if meaning not in ("ratio", "unclear") and not (len(chain) > 1 and meaning == "range"):
            break
        doubt, joined = doubt or meaning == "unclear", joiner
        chain.append(second)
    return chain, doubt


def _parts(measured: Measured, singles: tuple[Numeral, ...], at: int) -> list[Numeral]:
    """Read "100 parts resin to 28 parts hardener", "a hundred parts A, twenty-five B", "ten parts to one"."""
    texts = measured.scan.pieces.texts
    chain = [singles[at]]
    if texts[singles[at].end : singles[at].end + 1] not in (("parts",), ("part",)):
        return chain
    for second in singles[at + 1 :]:
        gap = texts[chain[-1].end : second.start]
        behind = texts[second.end : second.end + 2]
        if len(gap) > _REACH or "." in gap or not (_TO & set(gap) or behind[:1] in (("parts",), ("part",))):
            break
        added = len(chain) > 1 and "and" in gap and behind[:1] == ("of",)  # "... to 15 hardener and 3 of pigment"
        if not ({"parts", "part"} & set(behind[:1]) or _SECOND & set(behind) or "to" in gap or added):
            break
        chain.append(second)
    return chain


def _named(measured: Measured, singles: tuple[Numeral, ...], at: int) -> list[Numeral]:
    """Read "ten of A to one of B", "three sand to one cement, by volume": a part named, then "to" the next."""
    texts = measured.scan.pieces.texts
    chain = [singles[at]]
    for second in singles[at + 1 : at + 2]:
        gap = texts[chain[0].end : second.start]
        of = gap[:1] == ("of",) and len(gap) in (3, 4) and texts[second.end : second.end + 1] == ("of",)
        plain = len(gap) in (2, 3) and by_what(texts, second.end, 12) is not None
        falling = chain[0].value >= second.value > 0 and chain[0].value <= 100
        lettered = gap == ("a", "to") and texts[second.end : second.end + 1] == ("b",)
        measures = _is_measured(measured, chain[0]) or _is_measured(measured, second)
        rising = 0 < chain[0].value <= second.value == 100 and by_what(texts, second.end, 6) is not None
        if gap[-1:] == ("to",) and gap[0].isalpha() and (falling or rising or lettered) and not measures:
            if not (of or plain or lettered):
                break
            chain.append(second)
    return chain


def _listed(measured: Measured, singles: tuple[Numeral, ...], at: int) -> list[Numeral]:
    """Return parts of a hundred said one after another: "100 epoxy, 29 hardener, 60 microballoons"."""
    texts = measured.scan.pieces.texts
    chain = [singles[at]]
    if chain[0].value != 100 or _is_measured(measured, chain[0]):
        return chain
    for second in singles[at + 1 :]:
        gap = texts[chain[-1].end : second.start]
        if (
            len(gap) > _REACH
            or {".", "to", "with", "of"} & set(gap)
            or "," not in gap
            or _is_measured(measured, second)
        ):
            break
        if len(chain) == 1 and not _SECOND & {*gap, *texts[second.end : second.end + 2]}:
            break
        chain.append(second)
    return chain


def _said(measured: Measured, chain: list[Numeral], rule: str, doubt: bool) -> Found | None:
    texts = measured.scan.pieces.texts
    if any(numeral.value <= 0 for numeral in chain):
        return None
    end = chain[-1].end
    end += texts[end : end + 1] in (("parts",), ("part",))
    parts = tuple(numeral.value for numeral in chain)
    to_hundred = len(parts) == 2 and parts[0] < parts[1] == 100 and "to" in texts[chain[0].end : chain[0].end + 2]
    if len(parts) == 2 and (to_hundred or _second_first(texts, chain)):
        parts = parts[::-1]
    by, end = _by(texts, chain[0].start, end)
    by = by or (by_what(texts, end, 12) if rule == "ratios.named" else None)
    certainty = min(CERTAINTY[numeral.form] for numeral in chain) * (0.5 if doubt else 1.0)
    flags = (Flag("ratio", "may be a ratio or a time of day"),) if doubt else ()
    start, stop = measured.scan.pieces.span(chain[0].start, end)
    return Found("ratio", start, stop, RatioSaid(parts, by), rule, certainty, flags)


def _second_first(texts: tuple[str, ...], chain: list[Numeral]) -> bool:
    """Whether the hardener was named before the resin."""
    between = set(texts[chain[0].end : chain[1].start])
    if _SECOND & between:
        return True
    if _MAIN & between - {"a"}:
        return False
    led = [text for text in texts[max(0, chain[0].start - _REACH) : chain[0].start] if text in _SECOND or text in _MAIN]
    if len(led) > 1 and led[-2] in _SECOND and led[-1] in _MAIN:
        return "to" in texts[max(0, chain[0].start - _REACH) : chain[0].start]  # "hardener to resin is 1 to 5"
    named = [text for text in texts[chain[1].end : chain[1].end + _REACH] if text in _SECOND or text in _MAIN]
    both = [text for text in named if text != "a"]
    if len(led) < 2 and _SECOND & set(texts[max(0, chain[0].start - 2 * _REACH) : chain[0].start]):
        return bool(both) and both[0] in _MAIN and texts[chain[1].end] == "of"  # "hardener at 1 part to 4 of resin"
    if len(both) > 1 and both[0] in _SECOND and both[1] in _MAIN:
        return "to" in texts[chain[1].end : chain[1].end + _REACH]
    return False


def _by(texts: tuple[str, ...], start: int, end: int) -> tuple[str | None, int]:
    """Return weight or volume, and the end of the ratio with those words when they follow at once."""
    for place in range(end, min(end + _REACH, len(texts) - 1)):
        if texts[place] in (".", ";", "then", "but") or texts[place] in SMALL or texts[place][0].isdecimal():
            break
        by = by_what(texts, place)
        if by is not None:
            return by, place + 2 if place == end else end
    for place in range(max(0, start - 5), start - 1):
        by = by_what(texts, place)
        before = texts[place - 1] if place else ""
        if by is not None and before not in SMALL and not before[-1:].isdecimal():
            return by, end
    for place in range(max(0, start - 4), start - 1):
        if texts[place] in BY_WHAT and texts[place + 1] in _RATIO:
            return BY_WHAT[texts[place]], end  # "weight ratio 100/30"
    return None, end


def _per_hundred(measured: Measured, numeral: Numeral) -> Found | None:
    """Read "28 phr", "28 per hundred", "28 parts per hundred"."""
    texts = measured.scan.pieces.texts
    end = per_hundred_end(texts, numeral.end)
    if end is None:
        return None
    if is_share(texts, numeral.start, end):
        return None
    by, stop = _by(texts, numeral.start, end)
    span = measured.scan.pieces.span(numeral.start, stop)
    certainty = CERTAINTY[numeral.form]
    return Found("ratio", *span, RatioSaid((Fraction(100), numeral.value), by), "ratios.per-hundred", certainty)


def per_hundred_end(texts: tuple[str, ...], at: int) -> int | None:
    """Return the end of "parts per hundred", "phr", "parts B to the hundred" at the place, or None."""
    parts = texts[at : at + 1] == ("parts",)
    at += parts
    at += parts and texts[at : at + 1] != () and texts[at] in _SECOND
    if texts[at : at + 1] == ("phr",):
        return at + 1
    if texts[at : at + 2] in (("per", "hundred"), ("per", "100")):
        return at + 2
    return at + 3 if texts[at : at + 3] in _TO_THE_HUNDRED else None


def is_share(texts: tuple[str, ...], start: int, end: int) -> bool:
    """Whether parts per hundred are of something added: "three parts per hundred of fumed silica"."""
    following = set(texts[end + 1 : end + 4]) if texts[end : end + 1] == ("of",) else set()
    closed = texts[end : end + 1] in ((), (".",), (",",), ("and",))
    return bool(_ADDED & (following or (set(texts[max(0, start - 3) : start]) if closed else set())))


def _beside_cue(measured: Measured, singles: tuple[Numeral, ...], at: int) -> tuple[Found | None, int]:
    """A number that stands where a ratio should: "ratio of 125", "mixed at 128 by weight", "ratio 100 28"."""
    texts = measured.scan.pieces.texts
    numeral = singles[at]
    behind = singles[at + 1] if at + 1 < len(singles) else None
    adjacent = behind is not None and behind.start == numeral.end
    end = behind.end if adjacent and behind is not None else numeral.end
    if not _cued(texts, numeral.start, end) or _is_measured(measured, numeral):
        return None, 1
    by, stop = _by(texts, numeral.start, end)
    span = measured.scan.pieces.span(numeral.start, stop)
    if adjacent and behind is not None and not _is_measured(measured, behind) and behind.value > 0:
        return Found("ratio", *span, RatioSaid((numeral.value, behind.value), by), "ratios.side-by-side", 0.7), 2
    if numeral.value.denominator != 1 or numeral.value < 11:
        return None, 1
    flag = Flag("ratio", f"{int(numeral.value)} may be two numbers of a ratio run together")
    said = RatioSaid((), by, str(int(numeral.value)))
    return Found("ratio", *span, said, "ratios.run-together", 0.4, (flag,)), 1


def _cued(texts: tuple[str, ...], start: int, end: int) -> bool:
    if by_what(texts, end) is not None:
        return True
    before = texts[max(0, start - 3) : start]
    if _RATIO & set(before):
        return True
    return len(before) > 1 and before[-1] == "at" and bool(MIX_WORDS & set(before))


def _is_measured(measured: Measured, numeral: Numeral) -> bool:
    return any(one.core <= numeral.start < one.end for one in measured.measures)


def _equal(measured: Measured) -> list[Found]:
    """Read "equal parts", "fifty fifty", "half and half", "one for one"."""
    texts = measured.scan.pieces.texts
    out = []
    for at in range(len(texts) - 1):
        said = next((phrase for phrase in _EQUAL.get(texts[at], ()) if texts[at : at + len(phrase)] == phrase), None)
        if said is not None:
            end = at + len(said)
            by, stop = _by(texts, at, end)
            if stop == end and texts[end : end + 1] and texts[end] in BY_WHAT:
                by, stop = BY_WHAT[texts[end]], end + 1
            span = measured.scan.pieces.span(at, stop)
            out.append(Found("ratio", *span, RatioSaid((Fraction(1), Fraction(1)), by), "ratios.equal", 0.9))
    return out


def splits(digits: str) -> list[tuple[Fraction, Fraction]]:
    """Return the ratios main : second that may have been run together into these digits.

    "125" may be 100 to 25 (a hundred and twenty-five heard as one number), 1 to 25 or 12 to 5; "1021" may
    also be 10 to 1, with the word "to" heard as 2. The first numbers are the likeliest in speech.
    """
    out: list[tuple[int, int]] = []
    if len(digits) == 3 and digits[0] == "1" and digits[1:] != "00":
        out.append((100, int(digits[1:])))
    for at in range(1, len(digits)):
        first, second = digits[:at], digits[at:]
        if second[0] != "0":
            out.append((int(first), int(second)))
        if second[0] == "2" and len(second) > 1 and second[1] != "0":
            out.append((int(first), int(second[1:])))
    kept = [pair for pair in dict.fromkeys(out) if pair[0] >= pair[1] or pair[0] == 1]
    return [(Fraction(main), Fraction(second)) for main, second in kept]
