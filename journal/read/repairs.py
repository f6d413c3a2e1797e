"""Self-repair: "three hundred, no, three twenty"; the last word counts, and what it replaces is struck."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from journal.read.findings import Amount, Findings, Found, NoteWords
from journal.read.in_terms import in_terms_of
from journal.read.repair_marks import Mark, marks
from journal.read.replacing import AHEAD, BACK, NUMERIC, has_own_thing, replaced, right_after, swap, without

_PUT_OFF = (
    "n't done it|not done it|n't done that|not yet|n't yet|going to do it|'ll do it|do that later|do it later"
).split("|")
_NEAR = 4
_LEAST_ALIKE = Fraction(3, 4)
_WAYS = frozenset({"way", "versa"})
_EACH = frozenset("each both apiece".split())
_STRUCK_TOO = NUMERIC | {"material"}


def mended(words: NoteWords, found: Findings) -> Findings:
    """Return the findings without those that the speaker took back."""
    struck: list[Found] = []
    kept = found
    for mark in marks(words):
        if mark.strikes and _another_act(found, mark):
            struck.append(_struck(words, mark))  # "... Scratch that. Mixed 500 grams ..."
            continue
        if _only_lacks(words, found, mark):
            continue
        new = _count_anew(kept, mark) or _act_anew(kept, mark) or right_after(words, kept, mark.end)
        better = _exchanged(words, kept, mark)
        better = _repaired(words, kept, mark, new) if better is None and new is not None else better
        if better is not None:
            kept = better
        elif mark.strikes and not _only_planned(words, mark.end):
            struck.append(_struck(words, mark))
    if not struck:
        return kept
    gone = {i for item in struck for i in range(item.start, item.end)}
    out = Findings()
    out.add(item for item in kept if gone.isdisjoint(range(item.start, item.end)))
    out.add(struck)
    return out


def _another_act(found: Findings, mark: Mark) -> bool:
    """Tell whether an act follows that is told instead; "scratch that, I only did one coat" corrects the count."""
    told = any(mark.end <= act.start <= mark.end + AHEAD for act in found.of("act"))
    return told and _count_anew(found, mark) is None


def _act_anew(found: Findings, mark: Mark) -> Found | None:
    """Return the number of an act that is told again with another: "cut it back to 60. No, I cut it back to 50"."""
    acts = found.of("act")
    again = next((act for act in acts if mark.end <= act.start <= mark.end + AHEAD), None)
    before = [act for act in acts if act.end <= mark.start and mark.start - act.end <= 2 * BACK]
    if again is None or mark.strikes or not before or before[-1].value.action != again.value.action:
        return None
    told = (x for kind in ("condition", "amount", "duration") for x in found.of(kind))
    return next((x for x in told if again.end <= x.start <= again.end + _NEAR), None)


def _count_anew(found: Findings, mark: Mark) -> Found | None:
    """Return the layers of which only the count is said after "scratch that", or None."""
    near = (x for x in found.of("layer") if mark.end <= x.start <= mark.end + _NEAR and x.value.name is None)
    return next(near, None) if mark.strikes else None


def _struck(words: NoteWords, mark: Mark) -> Found:
    """Return what "scratch that" strikes, kind "struck": nothing in it is told."""
    return Found("struck", _said_before(words, mark.start), mark.end, None, "repairs.struck")


def _repaired(words: NoteWords, found: Findings, mark: Mark, new: Found) -> Findings | None:
    """Return the findings with the new one in the place of what it corrects, or None where it corrects nothing."""
    if mark.pause:
        return _said_alike(words, found, mark, new)
    return next((out for rule in _RULES if (out := rule(words, found, mark, new)) is not None), None)


def _said_alike(words: NoteWords, found: Findings, mark: Mark, new: Found) -> Findings | None:
    """ "3 percent catalyst, er, 2 percent": a pause corrects only a value of the same kind and unit, near in size."""
    old = replaced(words, found, mark.start, new)
    near = old is not None and mark.start - old.end <= _NEAR and old.kind == new.kind and not has_own_thing(found, new)
    if old is None or not near or not _is_alike(old, new):
        return None
    return swap(found, old, new, range(mark.start, mark.end))


def _is_alike(old: Found, new: Found) -> bool:
    if new.kind == "amount":
        unit, low = new.value.unit, old.value.low
        near = unit == "percent" or (bool(low) and _LEAST_ALIKE <= new.value.low / low <= 1 / _LEAST_ALIKE)
        return unit is not None and unit == old.value.unit and near
    return new.kind in ("duration", "layer") or (new.kind == "condition" and old.value.kind == new.value.kind)


def _of_each(words: NoteWords, found: Findings, mark: Mark, new: Found) -> Findings | None:
    """ "Three hundred of A, three hundred of B, no, make that three fifty of each"."""
    if new.kind not in ("amount", "number") or _EACH.isdisjoint(words.lower[new.end : new.end + 2]):
        return None
    said = [x for x in found.of("amount") if x.end <= mark.start and mark.start - x.end <= 2 * BACK]
    both = [x for x in said if x.value.unit in (None, "g", "ml")][-2:]
    if len(both) < 2:
        return None
    gone = [*both, *(x for x in found.of("amount", "number") if x.start == new.start)]
    return without(found, gone, in_terms_of(found, both[-1], new))


def _told_anew(words: NoteWords, found: Findings, mark: Mark, new: Found) -> Findings | None:
    """ "Strike that, it was the gel coat, 300 with 45": a whole mix is told again."""
    close = next((i for i in range(mark.end, len(words.lower)) if words.lower[i] in ".!?;"), len(words.lower))
    amounts, things = (
        [x for x in found.of(kind) if mark.start <= x.start < close and x.end > mark.end]
        for kind in ("amount", "material")
    )
    told = range(_said_before(words, mark.start), mark.start)
    if any(not x.value.coat and x.start in told for x in found.of("layer")):
        return None  # layers are put right one by one
    known = {(x.value.name, x.value.part) for x in found.of("material") if x.start in told}
    again = len(things) > 1 and {(x.value.name, x.value.part) for x in things} <= known
    named = any(x.value.part is None for x in things)
    if len(amounts) < 2 or not ((mark.strikes and named) or again):
        return None
    gone = [x for x in found if x.start in told and x.kind in _STRUCK_TOO]
    kept = without(found, gone)
    return _in_units_of([x for x in gone if x.kind == "amount"], amounts, kept, found.of("number"))


def _in_units_of(before: list[Found], again: list[Found], found: Findings, numbers: list[Found]) -> Findings:
    """Return the findings with amounts told again in the unit that they had: "ninety grams of A, no, a hundred A"."""
    said = [x for x in before if x.value.unit in ("g", "ml")]
    number = next((n.value.low for x in said for n in numbers if x.start <= n.start < x.end), None)
    if not said or not number or len({x.value.said_unit for x in said}) > 1 or any(x.value.unit for x in again):
        return found
    by, first = said[0].value.low / number, said[0].value
    out = Findings()
    out.add(_times(x, by, first) if x in again else x for x in found)
    return out


def _times(item: Found, by: Fraction, like: Amount) -> Found:
    value = item.value
    value = replace(value, low=value.low * by, high=value.high * by, unit=like.unit, said_unit=like.said_unit)
    return replace(item, value=value)


def _exchanged(words: NoteWords, found: Findings, mark: Mark) -> Findings | None:
    """Exchange two amounts where only that was said: "100 grams of B and 90 of A, no wait, the other way round"."""
    said = words.lower[mark.start : mark.end]
    ended = words.lower[mark.end : mark.end + 1] in ((), (".",), (";",)) or said[-1:] == (".",)
    pair = [x for x in found.of("amount") if x.end <= mark.start and mark.start - x.end <= 2 * BACK][-2:]
    if len(pair) < 2 or not ended or not _WAYS.intersection(said):
        return None
    first, second = pair
    unit = first.value.unit or second.value.unit
    values = [replace(x.value, unit=x.value.unit or unit) for x in (second, first)]
    out = Findings()
    swapped = dict(zip((id(first), id(second)), values, strict=True))
    out.add(replace(x, value=swapped[id(x)]) if id(x) in swapped else x for x in found)
    return out


def _pair(words: NoteWords, found: Findings, mark: Mark, new: Found) -> Findings | None:
    """ "Two hundred and thirty, no, two twenty and thirty three"."""
    old = replaced(words, found, mark.start, new)
    older, newer = (_pair_before(words, found, old) if old else None), _next_bare(words, found, new)
    if old is None or older is None or newer is None:
        return None
    between = range(mark.start, mark.end)
    return swap(swap(found, older, new, between), old, newer, between)


def _single(words: NoteWords, found: Findings, mark: Mark, new: Found) -> Findings | None:
    old = replaced(words, found, mark.start, new)
    return swap(found, old, new, range(mark.start, mark.end)) if old is not None else None


_RULES: tuple[Callable[[NoteWords, Findings, Mark, Found], Findings | None], ...] = (
    _of_each, _told_anew, _pair, _single,
)  # fmt: skip


def _only_lacks(words: NoteWords, found: Findings, mark: Mark) -> bool:
    """Tell whether a bare "no" says that a thing is wanting, not that one was wrong: "four coats of wax, no PVA"."""
    if words.lower[mark.start : mark.end] != ("no",):
        return False
    if any(x.start in (mark.start, mark.end) for x in found.of("observation")):
        return True  # "opened it at 9, no tears"
    return any(x.start == mark.end for x in found.of("material", "layer") if not getattr(x.value, "count", None))


def _next_bare(words: NoteWords, found: Findings, new: Found) -> Found | None:
    """Return the bare number joined to the corrected one, or None."""
    if words.lower[new.end : new.end + 1] not in (("and",), ("with",), ("to",), (",",)) or new.kind not in (
        "number",
        "amount",
    ):
        return None
    return next((x for x in found.of("amount", "number") if x.start == new.end + 1 and _is_bare(x)), None)


def _is_bare(item: Found) -> bool:
    return getattr(item.value, "unit", None) is None


def _pair_before(words: NoteWords, found: Findings, old: Found) -> Found | None:
    """Return the weight before the one that is corrected, within the same list."""
    before = [x for x in found.of("amount") if x.end <= old.start and old.start - x.end <= BACK]
    return before[-1] if before else None


def put_off(words: NoteWords) -> int | None:
    """Return the token where an act is taken back as not done yet ("scratch that, I haven't done it yet"), or None."""
    for mark in marks(words):
        if mark.strikes and _only_planned(words, mark.end):
            return mark.end
    return None


def _said_before(words: NoteWords, start: int) -> int:
    """Return where the statement before a "scratch that" starts."""
    i = start
    while i > 0 and words.lower[i - 1] in (".", ",", "!", "?"):
        i -= 1
    while i > 0 and words.lower[i - 1] not in (".", "!", "?", ";"):
        i -= 1
    return i


def _only_planned(words: NoteWords, end: int) -> bool:
    after = " ".join(words.lower[end : end + 12])
    return any(phrase in after for phrase in _PUT_OFF)
