"""What a correction replaces: the finding of its kind that was said last, in whose unit a bare number is."""

from __future__ import annotations

from dataclasses import replace

from journal.read.families import family_of
from journal.read.findings import Findings, Found, NoteWords
from journal.read.in_terms import in_terms_of

NUMERIC = frozenset({"amount", "number", "areal", "duration", "ratio", "layer", "condition", "moment"})
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
BACK, AHEAD = 9, 2
_IS = frozenset("was is 's were should".split())
_ALIKE = NUMERIC | {"material"}


def right_after(words: NoteWords, found: Findings, at: int) -> Found | None:
    """Return the widest finding that the correction starts with, or None."""
    items = [x for kind in _KINDS for x in found.of(kind) if at - AHEAD <= x.start <= at + AHEAD and x.end > at]
    near = [x for x in items if x.start >= at - 1]
    named = next((x for x in near if x.kind == "material" and words.lower[x.end : x.end + 1] and
                  words.lower[x.end] in _IS), None)  # fmt: skip
    if named is not None:  # "no, biax was six hundred"
        told = [x for k in ("areal", "amount", "layer", "number") for x in found.of(k) if x.start == named.end + 1]
        near = told or near
    return min(near, key=lambda x: (max(x.start, at), -x.end, _KINDS.index(x.kind)), default=None)


def replaced(words: NoteWords, found: Findings, start: int, new: Found) -> Found | None:
    """Return the finding before the correction that the new one replaces, or None."""
    alike = _ALIKE if new.kind in NUMERIC else {new.kind}
    far = [
        x for kind in _KINDS if kind in alike for x in found.of(kind)
        if x.start < start and x.end <= start and start - x.end <= 2 * BACK and _may_replace(words, x, new)
    ]  # fmt: skip
    items = _of_the_same_thing(found, far, new) or [x for x in far if start - x.end <= BACK]
    same = [x for x in items if x.kind == new.kind]
    pick = same if same and max(x.end for x in same) >= max(x.end for x in items) - 2 else items
    best = max(pick, key=lambda x: (x.end, x.end - x.start), default=None)
    if best is not None and best.kind == "number":  # the number of "two percent": the amount is corrected
        best = next((x for x in items if x.kind != "number" and x.start <= best.start < x.end), best)
    if best is not None and best.kind in ("number", "amount") and getattr(best.value, "unit", None) is None:
        best = _said_twice(found, best) or best
    if best is not None and new.kind == "areal" and best.kind in ("areal", "number", "amount"):
        return found.at("layer", best.start) or best
    return best


def _of_the_same_thing(found: Findings, items: list[Found], new: Found) -> list[Found]:
    """Return the amounts that were said of the material that the new one is said of: "no, 50 of B"."""
    own = _thing(found, new) if new.kind == "amount" else None
    return [x for x in items if x.kind == "amount" and _is_alike(_thing(found, x), own)] if own else []


def _thing(found: Findings, item: Found) -> Found | None:
    """Return the material that an amount is said of, where it stands right after it."""
    return next((m for m in found.of("material") if item.end <= m.start < item.end + 3), None)


def _is_alike(one: Found | None, other: Found | None) -> bool:
    return one is not None and other is not None and (one.value.name, one.value.part) == (
        other.value.name, other.value.part,
    )  # fmt: skip


def _said_twice(found: Findings, bare: Found) -> Found | None:
    """Return the amount that a bare number only says again: "ten grams of catalyst, ten, no, twelve"."""
    near = [x for x in found.of("amount", "duration", "layer") if 0 <= bare.start - x.end <= BACK // 2]
    same = [x for x in near if _first_number(found, x) == bare.value.low]
    return same[-1] if same else None


def _first_number(found: Findings, item: Found) -> object:
    return next((n.value.low for n in found.of("number") if item.start <= n.start < item.end), None)


def _may_replace(words: NoteWords, old: Found, new: Found) -> bool:
    if old.kind == "material" != new.kind:  # "put carbon on, correction, glass cloth, two layers"
        fabric = family_of(old.value.name, words) == "fabric"
        return fabric and new.kind == "layer" and not new.value.coat and bool(new.value.name)
    if old.kind == new.kind or {old.kind, new.kind} & {"number", "amount"}:
        return True
    return {old.kind, new.kind} <= {"areal", "layer"}


def swap(found: Findings, old: Found, new: Found, mark: range) -> Findings:
    """Return the findings with the new one in the old one's place, in the old one's unit where it has none."""
    better = in_terms_of(found, old, new)
    gone = set(range(old.start, old.end)) | set(mark)
    again = _thing(found, new) if old.kind == new.kind == "amount" else None
    again = again if again and again.start >= new.end and _is_alike(_thing(found, old), again) else None
    span, own_place = (new.start, new.end), again is None and has_own_thing(found, new)
    moved = better is not new or not own_place
    laid = [x for x in found if _is_of_layers(x, old, new)]
    moved = moved and not laid
    kept = [
        replace(x, value=replace(x.value, name=new.value.name)) if x in laid else x
        for x in found
        if not (x is new and any(not one.value.coat for one in laid))
        and x is not again
        and not _is_struck(x, new, gone)
        and not (moved and _is_told_again(x, new, better))
    ]
    if moved:
        place = span if own_place else (old.start, old.end)
        kept.append(replace(better, start=place[0], end=place[1], said=span))
    out = Findings()
    out.add(kept)
    return out


def _is_of_layers(item: Found, old: Found, new: Found) -> bool:
    """Tell whether layers are of a corrected material: "two coats of wax, no, sorry, PVA"."""
    if item.kind != "layer" or old.kind != "material" or new.kind != "material" or new.value.part:
        return False
    return bool(item.start <= old.start < item.end and item.value.name == old.value.name)


def _is_struck(item: Found, new: Found, gone: set[int]) -> bool:
    """Tell whether the finding is what was corrected; the material beside a corrected number stays."""
    other_material = item.kind == "material" and new.kind != "material"
    return item is not new and item.kind in _KINDS and item.start in gone and not other_material


def _is_told_again(item: Found, new: Found, better: Found) -> bool:
    """Tell whether the finding is the new one itself, which is given in the place of the old one."""
    if item is new:
        return True
    return better is not new and new.start <= item.start < new.end and item.kind in ("amount", "number", "areal")


def has_own_thing(found: Findings, new: Found) -> bool:
    """Tell whether the corrected words name their own thing: "no, 250 of gel"."""
    return any(new.end <= m.start <= new.end + 3 for m in found.of("material")) or new.kind in (
        "material",
        "place",
        "act",
    )


def without(found: Findings, gone: list[Found], better: Found | None = None) -> Findings:
    """Return the findings without some and the bare numbers in them, and with a better one."""
    tokens = {i for x in gone if x.kind in NUMERIC for i in range(x.start, x.end)}
    out = Findings()
    out.add(x for x in found if x not in gone and not (x.kind in ("amount", "number") and x.start in tokens))
    out.add([better] if better is not None else [])
    return out
