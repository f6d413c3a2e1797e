"""Castings that are spoken of by number or by count: "cast nine", "the ninth casting", "three heads out so far"."""

from __future__ import annotations

from journal.read.findings import ActSaid, Findings, Found, NoteWords, Number

_CASTS = frozenset("cast casting castings pull pulls pulling pulled popped demoulded demolded opened took".split())
_CAST_NOUNS = frozenset("cast casting pull casts castings pulls".split())
_LEAVING = frozenset("'s is are has have been just now came come fell popped".split())
_TAKING = frozenset(
    "take took taken get got pop popped lift lifted pull pulled knock knocked bang banged turn turned strip stripped "
    "ease eased demoulded demolded".split()
)
_NO_CASTS = frozenset(
    "moulds molds halves half sides side pieces parts sections jackets cases wedges bolts screws clamps pins nails "
    "pegs weights layers plies coats batches pots brushes rollers bags bubbles holes boards corners edges shims dents "
    "taps knocks whacks blows minutes hours days clips straps bungs dowels inserts".split()
)
_AFTER_OUT = frozenset("so now today already yesterday . , ; ! of and".split())
_OUT = frozenset({("out",), ("off",)})
_STANDS = tuple((word,) for word in "has had is 's was came looks looked got".split())
_AND = (("and",), (",",), (",", "and"))
_REACH = 3


def numbered(words: NoteWords, found: Findings) -> list[Found]:
    """Return the castings that are spoken of by number: "pull number one", "cast nine", "the ninth casting"."""
    out: list[Found] = []
    for number in found.of("number"):
        last = _many_out(words, found, number.start, number.end)
        if last:
            out.append(Found("act", number.start, last, ActSaid("pull", number.start), "acts.pull-number", 0.85))
        elif not _is_measured(found, number.start):
            out += _numbered(words, number, out[-1] if out else None)
    return out


def _numbered(words: NoteWords, number: Found, before: Found | None) -> list[Found]:
    """Return the casting that a number is of, given the one spoken of before it, or nothing."""
    start, end = number.start, number.end
    if start > 0 and words.lower[start - 1] == "numbers":
        return [Found("act", start, end, ActSaid("pull", start), "acts.pull-number", 0.9)]
    named = start > 0 and words.lower[start - 1] in ("number", "no", "#", ".")
    if named:
        start -= 1 + (words.lower[start - 1] == "." and start > 1)
    noun = words.lower[start - 1] in (_CASTS if named else _CAST_NOUNS) if start else False
    for_it = start > 1 and words.lower[start - 2] == "for"
    if noun and not number.value.ordinal and not for_it:
        return [Found("act", start - 1, end, ActSaid("pull", start - 1), "acts.pull-number", 0.95)]
    stands = before is not None and named and words.lower[end : end + 1] in _STANDS
    goes_on = before is not None and _goes_on(words, before, start, named)
    if stands or goes_on or _is_taken_out(words, start, end, named):
        return [Found("act", start, end, ActSaid("pull", start), "acts.pull-number", 0.9)]
    if number.value.ordinal and words.lower[end : end + 1] and words.lower[end] in _CAST_NOUNS:
        return [Found("act", end, end + 1, ActSaid("pull", end), "acts.pull-order", 0.85)]
    return []


def _is_measured(found: Findings, start: int) -> bool:
    """Tell whether a number counts or measures something else than a casting."""
    amount = found.at("amount", start)
    measured = amount is not None and amount.value.unit is not None
    return measured or any(found.at(kind, start) for kind in ("condition", "duration", "moment"))


def _goes_on(words: NoteWords, before: Found, start: int, named: bool) -> bool:
    """Tell whether a number goes on with the casting before it: "pulls seven AND EIGHT out today"."""
    between = words.lower[before.end : start]
    came = named and between[-1:] == ("and",) and between[0] in _LEAVING and len(between) <= _REACH
    return before.rule == "acts.pull-number" and (between in _AND or came)


def _is_taken_out(words: NoteWords, start: int, end: int, named: bool) -> bool:
    """Tell whether a thing is counted as it leaves its mould: "toad one's out", "took out leg number three"."""
    for i in range(end, min(end + 4, len(words.lower))):
        if words.lower[i] in ("out", "taken") or (named and words.lower[i] == "off"):
            return i > end or named
        if words.lower[i] not in _LEAVING:
            break
    before = words.lower[max(0, start - 5) : start]
    return named and ("out" in before or "off" in before) and not _TAKING.isdisjoint(before)


def are_taken(words: NoteWords, found: Findings, tail: int) -> bool:
    """Tell whether castings are counted as they come out: "took four good tiles OFF", "knocked two OUT"."""
    number = next((n for n in found.of("number") if tail <= n.start <= tail + 2), None)
    if number is None or not _is_many(number, found):
        return False
    last = number.end if words.lower[number.end : number.end + 1] in _OUT else _things_end(words, number.end)
    if last is None or found.at("moment", number.start):
        return False
    return not {"out", "off"}.isdisjoint(words.lower[tail : number.start] + words.lower[last : last + 1])


def are_counted(words: NoteWords, found: Findings, tail: int) -> bool:
    """Tell whether what is taken out after the token `tail` is a number of castings: "knocked OUT a dozen ears"."""
    for number in found.of("number"):
        if tail <= number.start <= tail + 2 and _is_many(number, found):
            return _things_end(words, number.end) is not None
    return False


def _many_out(words: NoteWords, found: Findings, start: int, end: int) -> int | None:
    """Return the end of "three heads out", or None."""
    number = found.at("number", start)
    if number is None or not _is_many(number, found):
        return None
    last = _things_end(words, end)
    if last is None or words.lower[last : last + 1] != ("out",):
        return None
    after = words.lower[last + 1 : last + 2]
    return last + 1 if not after or after[0] in _AFTER_OUT else None


def _is_many(number: Found, found: Findings) -> bool:
    """Tell whether a number counts more than one thing."""
    value: Number = number.value
    if value.ordinal or value.low < 2 or found.at("condition", number.start) or found.at("duration", number.start):
        return False
    amount = found.at("amount", number.start)
    return amount is None or amount.value.unit in (None, "count")


def _things_end(words: NoteWords, at: int) -> int | None:
    """Return the end of the plural noun within reach of `at`, or None where it is no casting's."""
    for i in range(at, min(at + _REACH, len(words.lower))):
        if words.tags[i] == "NNS" or (words.tags[i] == "VBZ" and words.lower[i] not in _LEAVING):
            return None if words.lower[i] in _NO_CASTS else i + 1
        if words.tags[i] not in ("JJ", "NN", "JJR", "RBR"):
            return None
    return None
