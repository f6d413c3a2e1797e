"""Self-repair: "three hundred, no, three twenty"; the last word counts, and what it replaces is struck."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from journal.read.findings import Amount, Duration, Findings, Found, LayerSaid, NoteWords, RatioSaid

# What a speaker says between the wrong word and the right one; longest first.
_MARKS: tuple[tuple[str, ...], ...] = tuple(
    sorted(
        (
            tuple(phrase.split())
            for phrase in (
                "no|nope|sorry|i mean|make that|make it|or rather|rather|correction|scratch that|strike that|"
                "scrap that|delete that|ignore that|forget that|cancel that|i tell a lie|tell a lie|my mistake|"
                "that 's wrong|thats wrong|that is wrong|hang on|hold on|wait|no wait|actually|whoops|oops|"
                "i meant|well actually|not that|excuse me|beg your pardon|let me correct that|er no|um no|my bad"
            ).split("|")
        ),
        key=len,
        reverse=True,
    )
)
_FIRST = frozenset(mark[0] for mark in _MARKS)
_BETWEEN = frozenset(
    ", . - – — : uh um er erm well oh it 's it's was were is that the a about so ah hm just be should read".split()
)
_STRIKES = frozenset((verb, "that") for verb in "scratch strike scrap delete ignore forget cancel".split())
_PUT_OFF = (
    "n't done it|not done it|n't done that|not yet|n't yet|going to do it|'ll do it|do that later|do it later"
).split("|")
_NUMERIC = frozenset({"amount", "number", "areal", "duration", "ratio", "layer", "condition", "moment"})
_KINDS = (
    "duration",
    "ratio",
    "layer",
    "condition",
    "moment",
    "areal",
    "amount",
    "number",
    "material",
    "place",
    "lot",
    "act",
)
_BACK, _AHEAD = 9, 2


def mended(words: NoteWords, found: Findings) -> Findings:
    """Return the findings without those that the speaker took back."""
    struck: set[int] = set()
    kept, changed = found, False
    for start, end, strikes in _marks(words):
        if strikes and any(end <= act.start <= end + _AHEAD for act in found.of("act")):
            struck.update(range(_said_before(words, start), end))  # "... Scratch that. Mixed 500 grams ..."
            continue
        new = _right_after(words, kept, end)
        old = _replaced(words, kept, start, new) if new is not None else None
        if new is not None and old is not None:
            older, newer = _pair_before(words, kept, old), _next_bare(words, kept, new)
            if older is not None and newer is not None:  # "two hundred and thirty, no, two twenty and thirty three"
                kept = _swap(kept, older, new, range(start, end))
                kept, changed = _swap(kept, old, newer, range(start, end)), True
                continue
            kept, changed = _swap(kept, old, new, range(start, end)), True
        elif strikes and not _only_planned(words, end):
            struck.update(range(_said_before(words, start), end))
    if not struck and not changed:
        return found
    out = Findings()
    out.add(item for item in kept if struck.isdisjoint(range(item.start, item.end)))
    return out


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
    before = [x for x in found.of("amount") if x.end <= old.start and old.start - x.end <= _BACK]
    return before[-1] if before else None


def put_off(words: NoteWords) -> int | None:
    """Return the token where an act is taken back as not done yet ("scratch that, I haven't done it yet"), or None."""
    for _, end, strikes in _marks(words):
        if strikes and _only_planned(words, end):
            return end
    return None


def _marks(words: NoteWords) -> Iterator[tuple[int, int, bool]]:
    """Yield (start, end, strikes) of each run of correcting words; end is where the right words start."""
    lower, i = words.lower, 0
    while i < len(lower):
        if lower[i] not in _FIRST:
            i += 1
            continue
        end, strikes = i, False
        while end < len(lower):
            mark = next((m for m in _MARKS if lower[end : end + len(m)] == m), None)
            if mark is None and (lower[end] not in _BETWEEN or end == i):
                break
            strikes = strikes or mark in _STRIKES
            end += len(mark) if mark else 1
        if end > i:
            yield i, end, strikes
        i = max(end, i + 1)


def _right_after(words: NoteWords, found: Findings, at: int) -> Found | None:
    """Return the widest finding that the correction starts with, or None."""
    items = [x for kind in _KINDS for x in found.of(kind) if at - _AHEAD <= x.start <= at + _AHEAD and x.end > at]
    near = [x for x in items if x.start >= at - 1]
    return min(near, key=lambda x: (max(x.start, at), -x.end, _KINDS.index(x.kind)), default=None)


def _replaced(words: NoteWords, found: Findings, start: int, new: Found) -> Found | None:
    """Return the finding before the correction that the new one replaces, or None."""
    alike = _NUMERIC if new.kind in _NUMERIC else {new.kind}
    items = [
        x for kind in _KINDS if kind in alike for x in found.of(kind)
        if x.start < start and x.end <= start and start - x.end <= _BACK and _may_replace(x, new)
    ]  # fmt: skip
    same = [x for x in items if x.kind == new.kind]
    pick = same if same and max(x.end for x in same) >= max(x.end for x in items) - 2 else items
    best = max(pick, key=lambda x: (x.end, x.end - x.start), default=None)
    if best is not None and new.kind == "areal" and best.kind in ("areal", "number", "amount"):
        return found.at("layer", best.start) or best
    return best


def _may_replace(old: Found, new: Found) -> bool:
    if old.kind == new.kind or {old.kind, new.kind} & {"number", "amount"}:
        return True
    return {old.kind, new.kind} <= {"areal", "layer"}


def _swap(found: Findings, old: Found, new: Found, mark: range) -> Findings:
    """Return the findings with the new one in the old one's place, in the old one's unit where it has none."""
    better = _in_terms_of(found, old, new)
    gone = set(range(old.start, old.end)) | set(mark)
    span, own_place = (new.start, new.end), _has_own_thing(found, new)
    moved = better is not new or not own_place
    kept = [x for x in found if not _is_struck(x, new, gone) and not (moved and _is_told_again(x, new, better))]
    if moved:
        place = span if own_place else (old.start, old.end)
        kept.append(replace(better, start=place[0], end=place[1], said=span))
    out = Findings()
    out.add(kept)
    return out


def _is_struck(item: Found, new: Found, gone: set[int]) -> bool:
    """Tell whether the finding is what was corrected; the material beside a corrected number stays."""
    other_material = item.kind == "material" and new.kind != "material"
    return item is not new and item.kind in _KINDS and item.start in gone and not other_material


def _is_told_again(item: Found, new: Found, better: Found) -> bool:
    """Tell whether the finding is the new one itself, which is given in the place of the old one."""
    if item is new:
        return True
    return better is not new and new.start <= item.start < new.end and item.kind in ("amount", "number", "areal")


def _has_own_thing(found: Findings, new: Found) -> bool:
    """Tell whether the corrected words name their own thing: "no, 250 of gel"."""
    return any(new.end <= m.start <= new.end + 3 for m in found.of("material")) or new.kind in (
        "material",
        "place",
        "act",
    )


def _number_in(found: Findings, item: Found) -> Fraction | None:
    inside = [n for n in found.of("number") if item.start <= n.start and n.end <= item.end]
    return inside[0].value.low if inside else None


def _in_terms_of(found: Findings, old: Found, new: Found) -> Found:
    """Return a bare number as what it corrects: minutes, grams, parts, layers; else the new finding itself."""
    if new.kind == "areal" and old.kind == "layer":
        value: Any = replace(old.value, gsm=new.value.gsm)
    elif new.kind in ("number", "amount") and getattr(new.value, "unit", None) is None:
        value = _converted(old, new, _number_in(found, old))
    else:
        return new
    if value is None:
        return new
    return Found(old.kind, new.start, new.end, value, f"{old.rule}+repairs.bare", min(old.confidence, new.confidence))


def _converted(old: Found, new: Found, said: Fraction | None) -> Any:
    """Return the old finding's value with the new number; `said` is the number that was said in the old one."""
    low, high, value = new.value.low, new.value.high, old.value
    if old.kind == "layer":
        return _layer(value, low)
    if old.kind == "ratio" and len(value.parts) == 2:
        return RatioSaid((value.parts[0], low), value.by)
    if not said:
        return None
    if old.kind == "amount" and value.unit:
        return Amount(low * value.low / said, high * value.low / said, value.unit, value.said_unit)
    if old.kind == "duration" and (value.least or value.most):
        by = (value.least or value.most) / said
        return Duration(low * by, high * by, value.hint)
    return replace(value, value=value.value - said + low) if old.kind == "condition" else None


def _layer(old: LayerSaid, number: Fraction) -> LayerSaid:
    if old.gsm is not None and number >= 100:
        return replace(old, gsm=number)
    return replace(old, count=number)


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
