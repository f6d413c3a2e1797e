"""Put the layers of a draft together: counts, names and areal weights that were said apart."""

from __future__ import annotations

from dataclasses import replace

from journal.read.bind.drafts import Draft
from journal.read.families import family_of
from journal.read.findings import Areal, Found, LayerSaid, NoteWords

_LAID = frozenset({"laminate", "roll", "wet out", "cut", "press", "repair", "fill", "brush", "wait", "stipple"})


def layers_of(words: NoteWords, draft: Draft) -> tuple[list[Found], set[int]]:
    """Return the draft's layers, and the tokens of materials and areal weights that they use up."""
    pieces = [_without_fabric(words, item) for item in draft.of("layer")] + _loose(words, draft)
    pieces.sort(key=lambda item: (item.start, item.end))
    out: list[Found] = []
    for piece in pieces:
        joined = _join(out[-1], piece) if out else None
        if joined is not None:
            out[-1] = joined
        else:
            out.append(piece)
    used = {token for item in out if not item.value.coat for token in range(item.start, item.end)}
    for item in draft.of("layer"):
        used.update(token for token in range(item.start, item.end) if not item.value.coat)
    return [item for item in out if item.value.count or item.value.name], used


def _loose(words: NoteWords, draft: Draft) -> list[Found]:
    """Return fabrics and areal weights that stand outside of any layer, as layers without a count."""
    layers = draft.of("layer")
    out = []
    for item in draft.of("areal"):
        if not any(layer.start <= item.start < layer.end for layer in layers):
            out.append(
                Found(
                    "layer", item.start, item.end, LayerSaid(None, None, _gsm(item.value)), item.rule, item.confidence
                )
            )
    if draft.action == "laminate" and any(item.value.gsm is None for item in layers):
        for item in draft.of("amount"):
            if item.value.unit is None and 100 <= item.value.low == item.value.high <= 2500:
                out.append(Found("layer", item.start, item.end, LayerSaid(None, None, item.value.low), item.rule, 0.8))
    if draft.action in _LAID:
        for item in draft.of("material"):
            inside = any(layer.start <= item.start < layer.end for layer in layers)
            if not inside and family_of(item.value.name, words) == "fabric":
                out.append(Found("layer", item.start, item.end, LayerSaid(item.value.name, None, None),
                                 item.rule, item.confidence, item.flags))  # fmt: skip
    return out


def _without_fabric(words: NoteWords, item: Found) -> Found:
    """Return a coat without the fabric's name that stands near: "a thin coat on the tissue side"."""
    value = item.value
    if value.coat and value.name and family_of(value.name, words) == "fabric":
        return replace(item, value=replace(value, name=None))
    return item


def _gsm(areal: Areal) -> object:
    return areal.gsm


def _join(first: Found, second: Found) -> Found | None:
    """Return two neighbours as one layer where neither says again what the other has said."""
    a, b = first.value, second.value
    if a.coat != b.coat and (a.gsm or b.gsm):
        return None
    for name in ("name", "count", "gsm"):
        if getattr(a, name) is not None and getattr(b, name) is not None:
            return None
    value = LayerSaid(a.name or b.name, a.count or b.count, a.gsm or b.gsm, a.coat or b.coat)
    return replace(first, end=max(first.end, second.end), value=value, flags=first.flags + second.flags,
                   confidence=min(first.confidence, second.confidence))  # fmt: skip
