"""Put the layers of a draft together: counts, names and areal weights that were said apart."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.read.bind.draft import Draft
from journal.read.families import family_of
from journal.read.findings import Found, LayerSaid, NoteWords
from journal.read.layers_patterns import LEAST_HEAVY, LIGHT, STYLES
from journal.record import Flag

_PIECES = frozenset("piece pieces strip strips square squares sheet sheets length lengths patch patches bit bits "
                    "circle circles disc discs ring rings panel panels off".split())  # fmt: skip
_MOST_COATS, _MOST_TOLD = 12, 40
# Of fabrics named without a count, one in four was something else or had one, on new notes.
UNCOUNTED = 0.7
_COUNT_WORDS = frozenset("single double triple twice couple several few both".split())
_LEAST_GSM, _MOST_GSM = 100, 2500
_FACTS = (
    "duration",
    "moment",
    "condition",
    "ratio",
    "areal",
    "lot",
    "reason",
    "cue",
    "warning",
    "observation",
    "place",
)
_NEXT = frozenset({"then", "and", "plus", "with", "followed", "on", "over", "under", "after", "before"})
_TIMES = {"once": 1, "twice": 2, "thrice": 3}
_WHEN = tuple((word,) for word in "it the that they he she we i you everything this his her".split())
_SUMS = (("altogether",), ("total",), ("overall",), ("now",))
_SUMS_TOLD = (("in", "all"), ("in", "total"), ("all", "told"), ("all", "up"), ("so", "far"), ("all", "in"))
_WEIGHED_BARE = frozenset({"laminate", "cut", "roll", "wet out"})
_LAID = frozenset({"laminate", "roll", "wet out", "cut", "press", "repair", "fill", "brush", "wait", "stipple"})


def layers_of(words: NoteWords, draft: Draft) -> tuple[list[Found], set[int]]:
    """Return the draft's layers, and the tokens of materials and areal weights that they use up."""
    said = [item for item in draft.of("layer") if not is_no_layer(words, item)]
    pieces = [_counted(words, draft, _without_fabric(words, item)) for item in said] + _loose(words, draft)
    pieces.sort(key=lambda item: (item.start, item.end))
    out: list[Found] = []
    for piece in pieces:
        joined = _join(words, out[-1], piece) if out else None
        if joined is not None:
            out[-1] = joined
        else:
            out.append(piece)
    used = {token for item in out if not item.value.coat for token in range(item.start, item.end)}
    for item in draft.of("layer"):
        used.update(token for token in range(item.start, item.end) if not item.value.coat)
    out = [item for item in out if not _is_total(words, out, item)]
    kept = [_with_repairs(draft, item) for item in out if item.value.count or item.value.name]
    return [_doubted(words, draft, kept, item) for item in kept], used


def _is_total(words: NoteWords, layers: list[Found], item: Found) -> bool:
    """Tell whether a count sums up coats told before it: "another coat, five coats altogether"."""
    after = words.lower[item.end : item.end + 2]
    summed = after[:1] in _SUMS or after in _SUMS_TOLD
    return summed and any(one.value.coat and item.value.coat and one.end <= item.start for one in layers)


def _with_repairs(draft: Draft, item: Found) -> Found:
    """Return a layer with the flag of its areal weight where that was misheard: "inch and a half mat"."""
    weights = (areal for areal in draft.of("areal") if item.start <= areal.start < item.end)
    flags = tuple(flag for areal in weights for flag in areal.flags if flag.why.startswith("heard"))
    return replace(item, flags=item.flags + flags) if flags else item


def _loose(words: NoteWords, draft: Draft) -> list[Found]:
    """Return fabrics and areal weights that stand outside of any layer, and counts that are said of coats."""
    layers = draft.of("layer")
    out = [_weight(item, item.value.gsm) for item in draft.of("areal") if not _within(layers, item.start)]
    if draft.action in _WEIGHED_BARE and any(item.value.gsm is None for item in layers):
        out += [
            _weight(item, item.value.low) for item in draft.of("amount")
            if item.value.unit is None and _LEAST_GSM <= item.value.low == item.value.high <= _MOST_GSM
            and item.value.low not in STYLES
        ]  # fmt: skip
    out += _twice(words, draft, layers) + _repeated(draft)
    return out + (_fabrics(words, draft, layers) if draft.action in _LAID else [])


def _weight(item: Found, gsm: Fraction) -> Found:
    return Found("layer", item.start, item.end, LayerSaid(None, None, gsm), item.rule, item.confidence)


def _fabrics(words: NoteWords, draft: Draft, layers: list[Found]) -> list[Found]:
    """Return the fabrics that are named without a layer's word, with the count of their pieces."""
    out = []
    for item in draft.of("material"):
        is_fabric = family_of(item.value.name, words) == "fabric"
        if item.rule == "materials.verb":
            continue  # "I'll glass the flange"
        if is_fabric and not _within(layers, item.start) and not _is_weave(words, layers, item):
            count, start = _pieces(words, draft, item.start)
            value = LayerSaid(item.value.name, count, None)
            certain = min(item.confidence, UNCOUNTED) if count is None else item.confidence
            out.append(Found("layer", start, item.end, value, item.rule, certain, item.flags))
    return out


def _is_weave(words: NoteWords, layers: list[Found], item: Found) -> bool:
    """Tell whether a fabric's word says how another lies: "three plies of carbon at 0/90"."""
    angled = (
        "minus" in words.lower[item.start : item.end]
        or words.lower[item.start][0].isdigit()
        or words.lower[item.start] == "zero"
    )
    return angled and any(layer.end <= item.start for layer in layers)


def is_no_layer(words: NoteWords, item: Found) -> bool:
    """Tell whether a count of coats is rather a weight: "a hundred and sixty of gel coat", "1 of catalyst"."""
    if not item.value.coat:
        return False
    most = _MOST_TOLD if "coats" in words.lower[item.start : item.end] else _MOST_COATS  # "fifteen coats of latex"
    many = item.value.count is not None and item.value.count > most
    return many or family_of(item.value.name or "", words) in ("second", "filler", "pigment", "water", "solvent")


def _counted(words: NoteWords, draft: Draft, item: Found) -> Found:
    """Return a layer with the count of its sheets or pieces: "four sheets of 6 ounce cloth"."""
    if item.value.count is not None or item.value.coat:
        return item
    inside = next((a.start for a in draft.of("areal") if item.start <= a.start < item.end), item.start)
    count, start = _pieces(words, draft, min(inside, item.start))
    return item if count is None else replace(item, start=start, value=replace(item.value, count=count))


def _pieces(words: NoteWords, draft: Draft, at: int) -> tuple[Fraction | None, int]:
    """Return the count of cut pieces before a fabric ("four strips of the biax") and where it starts."""
    said = [*draft.of("amount"), *draft.of("condition")]
    sized = [item for item in said if item.value.unit not in (None, "count")]
    for number in draft.of("number"):
        if _within(sized, number.start):
            continue  # "three square metres of mat"
        gap = words.lower[number.end : at]
        whole = number.value.low.denominator == 1
        if whole and 0 < len(gap) <= 4 and not _PIECES.isdisjoint(gap) and number.value.low == number.value.high:
            return number.value.low, number.start
    return None, at


def _repeated(draft: Draft) -> list[Found]:
    """Return the layer whose count alone was said again."""
    out = []
    for number in draft.repeats:
        said = [item for item in draft.of("layer") if item.start < number.start]
        if said:
            value = replace(said[-1].value, count=number.value.low)
            out.append(Found("layer", number.start, number.end, value, "layers.repeated", 0.85))
    return out


def _twice(words: NoteWords, draft: Draft, layers: list[Found]) -> list[Found]:
    """Return the coats of "waxed it twice"."""
    if layers or draft.action not in ("release", "seal", "brush", "spray"):
        return []
    names = [item.value.name for item in draft.of("material")]
    counted = [
        n
        for n in draft.of("number")
        if words.lower[n.end : n.end + 1] in (("times",), ("x",)) and n.value.low <= _MOST_COATS
    ]
    if counted:
        value = LayerSaid(names[0] if names else None, counted[0].value.low, None, True)
        return [Found("layer", counted[0].start, counted[0].end + 1, value, "layers.times", 0.88)]
    times = [
        n for n in draft.of("number") if words.lower[n.start - 1] == "x" and n.value.low <= _MOST_COATS and n.start
    ]
    if times and names:
        value = LayerSaid(names[0], times[0].value.low, None, True)
        return [Found("layer", times[0].start - 1, times[0].end, value, "layers.times", 0.88)]
    return [
        Found("layer", i, i + 1, LayerSaid(names[0] if names else None, Fraction(_TIMES[words.lower[i]]), None, True),
              "layers.times", 0.88)
        for i in range(draft.start, draft.end)
        if words.lower[i] in _TIMES and not _within(draft.of("warning"), i) and words.lower[i + 1 : i + 2] not in _WHEN
    ]  # fmt: skip


def _without_fabric(words: NoteWords, item: Found) -> Found:
    """Return a coat without the fabric's name that stands near: "a thin coat on the tissue side"."""
    value = item.value
    if value.coat and value.name and family_of(value.name, words) in ("fabric", "clay", "hardware", "solvent", "water"):
        return replace(item, value=replace(value, name=None))
    return item


def _doubted(words: NoteWords, draft: Draft, layers: list[Found], item: Found) -> Found:
    """Return a layer with a flag where a number beside it may be the count or the weight that it lacks."""
    value: LayerSaid = item.value
    why = None
    if value.count is not None and value.count > _MOST_COATS:
        why = f"{float(value.count):g} layers are more than usual"
    elif not value.coat:
        idle = _idle_numbers(draft, layers)
        spoken = [i for i in range(draft.start, draft.end) if words.lower[i] in _COUNT_WORDS and not _within(layers, i)]
        if value.count is None and (spoken or any(n <= _MOST_COATS for n in idle)):
            why = "a number said apart from it may be its count"
        elif value.gsm is None and any(LEAST_HEAVY <= n <= _MOST_GSM for n in idle):
            why = "a number said apart from it may be its weight"
    return item if why is None else replace(item, flags=(*item.flags, Flag("layers", why)))


def _idle_numbers(draft: Draft, layers: list[Found]) -> list[Fraction]:
    """Return the whole numbers of a draft that no fact was made of."""
    taken = [item for kind in _FACTS for item in draft.of(kind)]
    taken += [item for item in draft.of("amount") if item.value.unit is not None]
    return [
        number.value.low for number in draft.of("number")
        if number.value.low.denominator == 1 and number.value.low > 0
        and not number.value.ordinal and number.rule != "numbers.name"
        and not _within(layers, number.start) and not _within(taken, number.start)
    ]  # fmt: skip


def _within(items: list[Found], token: int) -> bool:
    return any(item.start <= token < item.end for item in items)


def _specified(words: NoteWords, a: LayerSaid, b: LayerSaid) -> bool:
    """Tell whether the second piece says which one the first is: "fibreglass, two layers of 8 ounce cloth"."""
    if a.name is None or b.name is None or a.coat or a.name == b.name:
        return False
    return any(material.name == b.name for material in words.catalogue.meant_by(a.name))


def _is_another(gap: tuple[str, ...], a: LayerSaid, b: LayerSaid) -> bool:
    """Tell whether the second piece begins a layer of its own: "tissue, then two of 450", "three layers: tissue"."""
    if a.name and b.count is not None and b.gsm is not None:
        laid = gap in (("'s", "on", ","), ("is", "on", ","), ("on", ","), ("'s", "in", ","), ("down", ","))
        return a.name in LIGHT or (not laid and not _NEXT.isdisjoint(gap))
    for one, other in ((a, b), (b, a)):
        if one.name in LIGHT and other.gsm is not None and other.gsm >= LEAST_HEAVY:
            return True
    return a.name is None and a.gsm is None and gap[:1] == (":",)


def _join(words: NoteWords, first: Found, second: Found) -> Found | None:
    """Return two neighbours as one layer where neither says again what the other has said."""
    a, b = first.value, second.value
    fabric = any(not x.coat and family_of(x.name or "", words) == "fabric" for x in (a, b))
    if a.coat != b.coat and (a.gsm or b.gsm or fabric):
        return None
    specified = _specified(words, a, b)
    for name in ("count", "gsm") if specified else ("name", "count", "gsm"):
        if getattr(a, name) is not None and getattr(b, name) is not None:
            return None
    if specified:
        a = replace(a, name=b.name)
    elif _is_another(words.lower[first.end : second.start], a, b):
        return None
    value = LayerSaid(a.name or b.name, a.count or b.count, a.gsm or b.gsm, a.coat or b.coat)
    return replace(first, end=max(first.end, second.end), value=value, flags=first.flags + second.flags,
                   confidence=min(first.confidence, second.confidence))  # fmt: skip
