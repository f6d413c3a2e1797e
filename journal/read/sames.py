"""What "the same mat", "of each" and "the same water" take from earlier steps. Pure; `recall.py` resolves the rest."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from journal.read.families import BY_NAME
from journal.record import Flag, Layer, MaterialUse, Step

EACH = "each part"
"""Stands for each of the parts that the latest mix was made of: "400 mils of each"."""

_FABRIC = (
    r"(?:mats?|cloth|glass|tissue|veil|rovings?|biax\w*|carbon|twill|fabric|csm|matting|burlap|hessian|pre-?preg|"
    r"stuff|weight)"
)
_SAME_FABRIC = re.compile(rf"\b(?:same|that|those)\s+(?:[\w-]+\s+){{0,2}}?{_FABRIC}\b", re.I)
_LAID_OVER = re.compile(r"\b(?:over|on|under|onto|into) (?:that|those)\b", re.I)
_MORE_SHEETS = re.compile(r"\b(?:another|more)\b", re.I)
_SAME_AMOUNT = re.compile(r"\bsame (?:(?:amount|quantity|weight|volume) of )?(?:the )?water\b", re.I)
_LEFT_OUT = r"\b(?:left out|leaving out|leave out|without|minus|skipped|no|not)"
# What else a material of a family is called: "half the filler".
_CALLED = {
    "filler": ("filler", "thickener", "silica"), "pigment": ("pigment", "colour", "color", "dye", "tint"),
    "second": ("hardener", "catalyst", "cat", "peroxide", "activator"),
}  # fmt: skip
BATCHED = ("mix", "weigh", "thicken", "tint")
ADDED = ("tint", "thicken")
_LAYERED = ("laminate", "brush", "spray", "release", "seal")
_BATCH = re.compile(r"\b(?:mix|batch|pot|brew|amounts?|weights?)\b", re.I)
_WEIGHED = ("g", "ml", None)


def with_weight(layer: Layer, said: Layer, text: str, earlier: Iterable[Step]) -> Layer:
    """Return a layer with the areal weight that its fabric had when it was laid last, where the words say the same one.

    `earlier` are steps, the latest first. A fabric last laid in two weights keeps none.
    """
    again = _SAME_FABRIC.search(_LAID_OVER.sub("", text)) or (not said.name and _MORE_SHEETS.search(text))
    if layer.gsm is not None or not layer.name or not (again or not said.name):
        return layer
    for step in earlier:
        if not again and step.action != "cut":
            continue  # "cut eight pieces of six ounce cloth ... laid up four layers"
        weights = {one.gsm for one in step.layers if one.name == layer.name and one.gsm is not None}
        if weights:
            return replace(layer, gsm=weights.pop()) if len(weights) == 1 else layer
    return layer


def of_each(step: Step, mixed: Step | None) -> Step:
    """Return the step with an amount "of each" given to each part of the latest mix, else flagged."""
    each = next((use for use in step.materials if use.name == EACH), None)
    if each is None:
        return step
    rest = tuple(use for use in step.materials if use is not each)
    parts = [use for use in mixed.materials if use.amount is not None and use.unit in _WEIGHED] if mixed else []
    if len(parts) < 2:
        flag = Flag("amount", "said of each, but of what was not said")
        return replace(step, materials=(*rest, replace(each, name="")), flags=(*step.flags, flag))
    shared = (replace(each, name=part.name, part=part.part, unit=each.unit or part.unit) for part in parts)
    return replace(step, materials=(*rest, *shared))


def with_same_water(step: Step, text: str, earlier: Iterable[Step]) -> Step:
    """Return the step with the water of an earlier mix where "the same water" was said."""
    if not _SAME_AMOUNT.search(text) or any(use.name == "water" and use.amount is not None for use in step.materials):
        return step
    for before in earlier:
        for use in before.materials:
            if use.name == "water" and use.amount is not None:
                kept = tuple(one for one in step.materials if one.name != "water")
                return replace(step, materials=(*kept, replace(use, evidence=step.evidence, lot=None)))
    return step


def scaled_alone(source: Step, after: str) -> MaterialUse | None:
    """Return the one material of an earlier step that "half the pigment", "double the catalyst" scales; None for all.

    `after` are the words behind "half the".
    """
    for use in source.materials:
        names = {use.name.split()[-1], *_CALLED.get(BY_NAME.get(use.name) or "", ())}
        called = "|".join(re.escape(name) for name in names)
        if use.amount is not None and re.match(
            rf"\s+(?:of\s+)?(?:(?:the|that)\s+)?(?:\w+\s+)?(?:{called})\b", after, re.I
        ):
            return use
    return None


def of_one_scaled(source: Step, scaled: MaterialUse, by: Fraction, whole: bool) -> Step:
    """Return an earlier step with one amount scaled; of that material alone unless the `whole` is made again."""
    amount = scaled.amount * by if scaled.amount is not None else None
    most = scaled.amount_most * by if scaled.amount_most is not None else None
    changed = replace(scaled, amount=amount, amount_most=most)
    if not whole:
        return replace(source, materials=(changed,), ratio=None, layers=())
    same_ratio = None if BY_NAME.get(scaled.name) == "second" else source.ratio
    uses = tuple(changed if use is scaled else use for use in source.materials)
    return replace(source, materials=uses, ratio=same_ratio)


def counted_anew(said: tuple[Layer, ...], source: tuple[Layer, ...]) -> tuple[Layer, ...]:
    """Return layers of which only the count was said as the earlier ones: "same again, three layers this time"."""
    if len(source) != 1 or len(said) != 1 or said[0].name or said[0].gsm is not None:
        return said
    return (replace(said[0], name=source[0].name, gsm=source[0].gsm),)


def as_made_before(step: Step, source: Step, text: str, whole: bool) -> Step:
    """Return the step as the same act as the earlier one; done, where only a part of it was left out."""
    if step.action == "again":
        step = replace(step, action=source.action, layers=() if source.action in BATCHED else step.layers)
    if whole and step.action in ADDED and source.action == "mix":
        step = replace(step, action=source.action)  # "mixed the same again, half the pigment"
    if step.status == "not done" and any(is_left_out(use.name, text) for use in source.materials):
        step = replace(step, status="done")  # "same again with no pigment"
    return step


def is_left_out(name: str, text: str) -> bool:
    """Tell whether the words leave a material out of what is copied: "same again but left out the pigment"."""
    last = re.escape(name.split()[-1]) if name else "-"
    return bool(re.search(rf"{_LEFT_OUT}\s+(?:\w+\s+){{0,2}}?{last}\b", text, re.I))


def as_gypsum_in_use(step: Step, in_use: tuple[str, ...]) -> Step:
    """Return the step with "gypsum" alone as hard gypsum, where that is in use and gypsum plaster is not."""
    in_use = (*in_use, *(use.name for use in step.materials if not _is_bare_gypsum(use)))
    if "hard gypsum" not in in_use or "gypsum plaster" in in_use:
        return step
    uses = (replace(use, name="hard gypsum") if _is_bare_gypsum(use) else use for use in step.materials)
    return replace(step, materials=tuple(uses))


def _is_bare_gypsum(use: MaterialUse) -> bool:
    heard = (use.evidence.heard or "").casefold()
    return use.name == "gypsum plaster" and "gypsum" in heard and "plaster" not in heard


def used_names(step: Step) -> Iterator[str]:
    """Yield the names of a step's materials and layers."""
    for use in step.materials:
        yield use.name
    for layer in step.layers:
        yield layer.name


def source_of(steps: tuple[Step, ...], step: Step, told: set[str], text: str, only_amounts: bool) -> Step | None:
    """Return the latest step that has something to copy, of the same act and material where there is one.

    `told` are the names of the materials that the copying words tell.
    """

    def rank(earlier: Step) -> tuple[bool, int, bool]:
        named = bool(told & set(used_names(earlier))) or not told
        elsewhere = step.places and step.action == "again" and not step.layers and not _BATCH.search(text)
        weighed = earlier.action in BATCHED and not elsewhere
        added = step.action in ADDED and len(earlier.materials) > 1  # "same again but half the pigment"
        return (named, 2 if added else int(earlier.action == step.action), weighed)

    fit = [
        s for s in steps
        if (s.action in BATCHED and any(use.amount is not None for use in s.materials))
        or (s.layers and not only_amounts and s.action in _LAYERED)
    ]  # fmt: skip
    return max(reversed(fit), key=rank, default=None)


def once(uses: Iterable[MaterialUse]) -> tuple[MaterialUse, ...]:
    """Return the uses without those that only name what another weighs; a lot that was said of them is kept."""
    kept = list(uses)
    weighed = {use.name for use in kept if use.amount is not None}
    lots = {use.name: use.lot for use in kept if use.lot and use.amount is None}
    named: set[str] = set()
    out = []
    for use in kept:
        if use.amount is not None or (use.name not in weighed and use.name not in named):
            lot = lots.get(use.name)
            out.append(replace(use, lot=lot) if lot and use.lot is None else use)
            named.add(use.name)
    return tuple(out)
