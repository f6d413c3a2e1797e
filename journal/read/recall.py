"""What earlier notes of a build established, and what that makes of "resin", "that", "same again", "half that"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from journal.read.asking_again import AGAIN, may_ask, scale_in, scaled
from journal.read.families import BY_NAME, MAIN
from journal.read.sames import (
    ADDED,
    BATCHED,
    as_gypsum_in_use,
    as_made_before,
    counted_anew,
    is_left_out,
    of_each,
    of_one_scaled,
    once,
    scaled_alone,
    source_of,
    used_names,
    with_same_water,
    with_weight,
)
from journal.record import Flag, MaterialUse, NoteText, Step
from journal.trade.material import Catalogue

_KEPT = 60
_ALIASES = {"gel": "gel coat"}
_CATALYSED = ("resin", "gel coat")  # a share of the second part is said of polyester alone
_BASES = ("base", "stuff", "rubber base", "batch", "batches", "mix", "pot", "pots")
_SECOND_OF = {
    "epoxy resin": "hardener", "epoxy gel coat": "hardener", "polyester resin": "catalyst", "silicone": "catalyst",
    "polyester gel coat": "catalyst", "vinyl ester resin": "catalyst",
}  # fmt: skip
# The weights that chopped strand mat is sold in: a bare "two layers of 450" is mat (common practice).
MAT, GLASS = "chopped strand mat", "glass"
_SOLD_WITHIN = Fraction(3, 100)  # 1.5 oz per square foot is 458, sold as 450
_MAT_GSM = (225, 300, 450, 600, 900)
_COATING = ("gel", "resin", "release", "seal", "rubber", "plaster", "putty")
_PARTS = {"part a": "A", "part b": "B"}
_POURED = ("mix", "degas", "pour", "brush", "spray", "fill", "thicken", "tint", "stipple")
_USED = ("pour", "brush", "spray", "fill", "stipple")
_PRONOUN = re.compile(r"\b(?:it|that|this|them|the rest|rest of it|the lot)\b", re.I)
_GRAMS = re.compile(r"\b(?:grams|grammes)\b", re.I)
_THEM = re.compile(r"\b(?:them|it|those|these|all)\b", re.I)
_SAME_SHARE = re.compile(r"\bsame (?:percentage|percent|catalyst|ratio|rate)\b", re.I)


@dataclass(frozen=True, slots=True)
class Memory:
    """What the notes of one build established so far.

    `names` are the catalogue's materials in use, the latest last; `steps` the latest steps, oldest
    first; `last` the steps of the note before.
    """

    names: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    last: tuple[Step, ...] = ()


EMPTY = Memory()


def remember(memory: Memory, steps: Iterable[Step], note: NoteText | None = None) -> Memory:
    """Return the memory with the steps of one more note; a build's memory is rebuilt from kept steps so."""
    now = tuple(steps)
    if not now:
        return memory
    names = list(memory.names)
    for step in now:
        if step.status in ("advised", "not done"):
            continue
        for name in used_names(step):
            if name in names:
                names.remove(name)
            names.append(name)
    return Memory(tuple(names[-_KEPT:]), (*memory.steps, *now)[-_KEPT:], now)


@dataclass(slots=True)
class Recall:
    """Resolves the steps of one note, in order, against a memory and against the note itself.

    `rest` is what the note goes on with after the step's own words: "... but left out the pigment".
    """

    catalogue: Catalogue
    memory: Memory
    note_steps: list[Step] = field(default_factory=list)
    rest: str = ""

    def resolved(self, step: Step, text: str) -> Step:
        """Return the step with general words, pronouns and "same again" resolved; `text` is its own words."""
        step = self._copied(of_each(step, self._latest_mix()), text)
        step = with_same_water(as_gypsum_in_use(step, self.memory.names), text, self._earlier())
        own = [use.name for use in step.materials if use.name and not self.catalogue.meant_by(use.name)]
        before = self.memory
        if own:
            self.memory = replace(before, names=tuple(dict.fromkeys((*before.names, *own))))
        materials = once(use for use in (self._named(use, step) for use in step.materials) if use is not None)
        if not materials and any(use.amount and not use.name for use in step.materials):
            step = replace(step, flags=(*step.flags, Flag("amount", "what an amount is of was not said")))
        names = (replace(layer, name=self._layer_name(layer.name, layer.gsm, step)) for layer in step.layers)
        named = tuple(
            with_weight(new, said, text, self._earlier()) for new, said in zip(names, step.layers, strict=True)
        )
        guessed = any(
            not said.name and found.name in (MAT, GLASS) for said, found in zip(step.layers, named, strict=True)
        )
        flags = (*step.flags, Flag("layers", "no fabric was said")) if guessed else step.flags
        step = replace(step, materials=materials, layers=tuple(x for x in named if x.name), flags=flags)
        step = self._of_the_pronoun(self._laid_after_cutting(step, text), text)
        self.memory = replace(remember(before, [step]), last=(step,) if step.materials else self.memory.last)
        self.note_steps.append(step)
        return step

    def _earlier(self) -> Iterator[Step]:
        """Yield the steps of the build so far, the latest first."""
        return iter((*reversed(self.note_steps), *reversed(self.memory.steps)))

    def _latest_mix(self) -> Step | None:
        weighed = (s for s in self._earlier() if s.action in BATCHED and any(u.amount for u in s.materials))
        return next(weighed, None)

    def _of_the_pronoun(self, step: Step, text: str) -> Step:
        """Return the step with the material that "it" or "the rest" means, of this note or the one before."""
        if step.materials or step.layers or step.action not in _POURED or not _PRONOUN.search(text):
            return step
        for earlier in (*reversed(self.note_steps), *reversed(self.memory.last)):
            for use in earlier.materials:
                if BY_NAME.get(use.name) in MAIN or self._is_two_part(use.name):
                    return replace(step, materials=(MaterialUse(use.name, step.evidence, use.part),))
        return step

    def _laid_after_cutting(self, step: Step, text: str) -> Step:
        """Return the step with the fabric that "them" means: "cut two squares of tissue and stippled them down"."""
        cut = self.note_steps[-1] if self.note_steps else None
        if cut is None or cut.action != "cut" or step.action == "weigh" or step.layers or not _THEM.search(text):
            return step
        whole = re.search(r"\ball\b", text)  # "laid all four down"
        layers = tuple(
            replace(layer, count=layer.count if whole else None, gsm=None, evidence=step.evidence)
            for layer in cut.layers
        )
        return replace(step, layers=layers)

    # ---- general words and pronouns --------------------------------------------------------------------

    def in_use(self, general: str) -> str | None:
        """Return the one material in use that the general word may stand for, or None."""
        meant = {material.name for material in self.catalogue.meant_by(general)}
        used = [name for name in self.memory.names if name in meant]
        return used[0] if len(used) == 1 else None

    def main(self, now: Step | None = None) -> str | None:
        """Return the main material of this step, or of the latest that named one, or None."""
        weighed = [s for s in self.memory.steps if s.action in BATCHED and any(u.amount for u in s.materials)]
        told = reversed(self.note_steps)
        steps: list[Step] = [*([now] if now else []), *told, *reversed(weighed), *reversed(self.memory.steps)]
        for step in steps:
            for use in step.materials:
                if BY_NAME.get(use.name) in MAIN or self._is_two_part(use.name):
                    return use.name
        return None

    def _just_cut(self, step: Step) -> str | None:
        """Return the one fabric that was cut before it was weighed: "cut all the mat and weighed it, 950 grams"."""
        cut = self.note_steps[-1] if self.note_steps else None
        if step.action != "weigh" or cut is None or cut.action != "cut" or len(cut.layers) != 1:
            return None
        return cut.layers[0].name

    def second(self, now: Step) -> str | None:
        """Return the second part that goes into the main material in use, or None."""
        main = self.catalogue.get(self.main(now) or "")
        if main is not None and main.second_part:
            return main.second_part
        used = next((name for name in reversed(self.memory.names) if BY_NAME.get(name) == "second"), None)
        return used or (_SECOND_OF.get(main.kind) if main is not None else None)

    def _is_two_part(self, name: str) -> bool:
        material = self.catalogue.get(name)
        return bool(material and (material.second_part or material.ratio))

    def _named(self, use: MaterialUse, step: Step) -> MaterialUse | None:
        if not use.name:
            name = self._just_cut(step) or self.main()
            return replace(use, name=name) if name else None
        if use.name in _ALIASES:
            use = replace(use, name=_ALIASES[use.name])
        if use.name in _BASES:
            name = self.main(step)
            return replace(use, name=name) if name else use
        if use.name == "second part":
            name = self.second(step)
            if use.unit == "percent" and name != "catalyst":
                shared = name is None and any(other.name in _CATALYSED for other in step.materials)
                return replace(use, name="catalyst") if shared else None
            return replace(use, name=name) if name else None
        if use.name in _PARTS:
            name = self.main()
            return replace(use, name=name, part=_PARTS[use.name]) if name else use
        if self.catalogue.meant_by(use.name):
            return replace(use, name=self.in_use(use.name) or use.name)
        return use

    def _layer_name(self, name: str, gsm: Fraction | None, step: Step) -> str:
        if name:
            return self.in_use(name) or name if self.catalogue.meant_by(name) else name
        for use in step.materials:
            if use.amount is None and use.name and BY_NAME.get(use.name) in _COATING and step.action != "laminate":
                return self.in_use(use.name) or use.name
        for earlier in reversed(self.memory.steps):
            same = [x.name for x in earlier.layers if gsm is None or x.gsm == gsm]
            just_cut = earlier.action == "cut" and step.action == "laminate" and earlier in self.note_steps
            if same and (earlier.action == step.action or just_cut):
                return same[-1]
        if step.action == "laminate" and gsm is not None:
            return MAT if any(abs(gsm / sold - 1) < _SOLD_WITHIN for sold in _MAT_GSM) else GLASS
        if step.status == "advised":
            return ""
        return self.main(step) or "" if step.action in ("brush", "spray", "pour", "stipple") else ""

    # ---- same again ------------------------------------------------------------------------------------

    def _copied(self, step: Step, text: str) -> Step:
        if not may_ask(text):
            return step
        again, scale = AGAIN.search(text), scale_in(text)
        if again is None and scale is None:
            return self._with_same_share(step, text)
        weighed = scale is not None and any(use.amount is not None for use in step.materials)
        if weighed or (again is None and step.action in _USED):
            return step  # "poured half of that": how much of each part was poured, nobody weighed
        told = {self.in_use(use.name) or use.name for use in step.materials}
        source = source_of(self.memory.steps, step, told, text, only_amounts=again is None)
        if source is None:
            return replace(step, flags=(*step.flags, Flag("materials", "nothing earlier to copy from")))
        step = as_made_before(step, source, text, whole=again is not None)
        by = scale[1] if scale else Fraction(1)
        alone = scaled_alone(source, text[scale[0].end() :]) if scale else None
        if alone is None and again is None and step.action in ADDED:  # "half the pigment", of which no amount is known
            return replace(step, flags=(*step.flags, Flag("materials", "nothing earlier to copy from")))
        if alone is not None:
            source, by = of_one_scaled(source, alone, by, whole=again is not None), Fraction(1)
        return self._with_amounts_of(source, by, step, text, with_layers=again is not None)

    def _with_amounts_of(self, source: Step, by: Fraction, step: Step, text: str, with_layers: bool) -> Step:
        """Return the step with the materials, the stated ratio and perhaps the layers of an earlier one."""
        evidence = step.evidence
        said = {use.name or self.main() for use in step.materials if use.amount is not None}
        if any(not use.name and use.amount is not None for use in step.materials):  # "same again, but 400"
            step = replace(step, flags=(*step.flags, Flag("amount", "how much of the other parts was not said")))
            source = replace(source, materials=tuple(use for use in source.materials if use.amount is None))
        unit = "g" if _GRAMS.search(text) else None
        materials = tuple(scaled(use, by, evidence, unit) for use in source.materials if use.name not in said)
        if any(use.amount is not None and use.unit is None for use in materials):
            step = replace(step, flags=(*step.flags, Flag("unit", "what was copied has no unit")))
        materials = tuple(use for use in materials if not is_left_out(use.name, text + self.rest))
        kept = tuple(use for use in step.materials if use.amount is not None)
        copied = tuple(replace(x, evidence=evidence) for x in source.layers) if with_layers else ()
        return replace(
            step,
            materials=kept + materials or step.materials,
            ratio=step.ratio or (replace(source.ratio, evidence=evidence) if source.ratio else None),
            layers=counted_anew(step.layers, source.layers) if with_layers and step.layers else step.layers or copied,
        )

    def _with_same_share(self, step: Step, text: str) -> Step:
        """Return the step with the percentages of the latest mix where "same percentage" was said."""
        if not _SAME_SHARE.search(text) or any(use.unit == "percent" for use in step.materials):
            return step
        if step.ratio is None and "ratio" in text.casefold():
            said = [earlier.ratio for earlier in self.memory.steps if earlier.ratio and not earlier.ratio.derived]
            return replace(step, ratio=replace(said[-1], evidence=step.evidence)) if said else step
        for earlier in reversed(self.memory.steps):
            shares = tuple(replace(u, evidence=step.evidence) for u in earlier.materials if u.unit == "percent")
            if shares:
                return replace(step, materials=step.materials + shares)
        return step
