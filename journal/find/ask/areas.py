"""Answers by area: resin for layers of glass, gel coat for a film. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.matching import on_place
from journal.find.ask.question import Question
from journal.find.ask.ratios import ratio_for, second_name
from journal.keep.views import StepView
from journal.trade.laminate import POLYESTER_DENSITY, Ply, fraction_from_resin, gel_coat_gsm, laminate
from journal.trade.material import Material
from journal.trade.mix import weigh_from_total

USUAL_FILM_MM = 0.5  # gel coat goes on 0.4 to 0.6 mm wet: common practice, no published source
_WHOLE = re.compile(r"\b(?:whole|entire|all (?:of|over)|full|both halves|everything|complete)\b")


@dataclass(frozen=True, slots=True)
class _Area:
    m2: float
    words: str
    evidence: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class _Fabric:
    material: Material
    gsm: float
    evidence: tuple[int, ...] = ()


def layers_resin(question: Question, facts: Facts) -> Answer:
    """Answer "how much resin for two more layers on the rim"."""
    area = _area(question, facts)
    if isinstance(area, Answer):
        return area
    fabric = _fabric(question, facts)
    if isinstance(fabric, Answer):
        return fabric
    if fabric.material.resin_to_glass is None:
        return _lacking(f"how much resin {fabric.material.name} takes", "its resin to glass ratio in the catalogue")
    count = int(question.layers or 1)
    ply = Ply(fabric.gsm, fraction_from_resin(fabric.material.resin_to_glass), count)
    made = laminate(area.m2, [ply])
    text = f"{saying.quantity(made.resin_g, 'g')} of mixed resin for {saying.counted(count, 'layer')} of "
    text += f"{saying.plain(fabric.gsm)} {fabric.material.name} on {area.words}"
    numbers = {"resin_g": made.resin_g, "glass_g": made.glass_g, "area_m2": area.m2}
    split, parts = _split(question, facts, made.resin_g)
    why = f"{saying.plain(fabric.material.resin_to_glass)} of resin to 1 of {fabric.material.name} by weight, no waste"
    evidence = (*area.evidence, *fabric.evidence)
    return Answer(saying.sentence(text + split), why, numbers=numbers | parts, evidence=evidence)


def thickness(question: Question, facts: Facts) -> Answer:
    """Answer "how thick will two layers of 450 mat be"."""
    fabric = _fabric(question, facts)
    if isinstance(fabric, Answer):
        return fabric
    if fabric.material.resin_to_glass is None:
        return _lacking(f"how much resin {fabric.material.name} takes", "its resin to glass ratio in the catalogue")
    named = [m for m in facts.meant(question.materials) if m.reacts]
    resins = [*named, *(batch.material for batch in reversed(facts.batches) if batch.material.kind.endswith("resin"))]
    density = next((resin.density for resin in resins if resin.density), POLYESTER_DENSITY)
    count = int(question.layers or 1)
    made = laminate(1.0, [Ply(fabric.gsm, fraction_from_resin(fabric.material.resin_to_glass), count)], density)
    text = f"{saying.number(made.thickness_mm)} millimetres: {saying.counted(count, 'layer')} of "
    text += f"{saying.plain(fabric.gsm)} {fabric.material.name}"
    why = f"{saying.plain(fabric.material.resin_to_glass)} of resin to 1 of glass by weight, resin {density:g} g/ml"
    return Answer(saying.sentence(text), why, numbers={"thickness_mm": made.thickness_mm}, evidence=fabric.evidence)


def _split(question: Question, facts: Facts, resin_g: float) -> tuple[str, dict[str, float]]:
    """Return how the mixed resin parts into main and second, when this build has a resin and its ratio is known."""
    named = [m for m in facts.meant(question.materials) if m.reacts]
    mixed = [batch.material for batch in facts.batches if batch.material.kind.endswith("resin")]
    for main in [*(m for m in named if m in mixed), *reversed(mixed)][:1]:
        chosen = ratio_for(question, facts, main)
        if chosen is not None:
            first, other = weigh_from_total(chosen.ratio, resin_g).weights[:2]
            words = f": {saying.number(first)} of {main.name} and {saying.number(other)} of {second_name(main)}"
            return words, {"main_g": first, "second_g": other}
    return "", {}


def film(question: Question, facts: Facts) -> Answer:
    """Answer "how much gel coat for half a square metre"."""
    choices = [m for m in facts.meant(question.materials or ("gel coat",)) if m.kind.endswith("gel coat")]
    if len(choices) != 1:
        names = saying.listed(m.name for m in choices)
        return _lacking(f"which gel coat: {names}", "which gel coat is meant")
    main = choices[0]
    area = _area(question, facts)
    if isinstance(area, Answer):
        return area
    if main.density is None:
        return _lacking(f"the density of {main.name}", f"the density of {main.name} in the catalogue")
    thick = question.thickness_mm or USUAL_FILM_MM
    grams = area.m2 * gel_coat_gsm(thick, main.density)
    text = f"{saying.quantity(grams, 'g')} of {main.name} for {area.words} at {saying.plain(thick)} millimetres wet"
    why = f"{saying.plain(thick)} mm x {saying.plain(main.density)} g/ml x {saying.plain(area.m2)} m2, no waste"
    return Answer(saying.sentence(text), why, numbers={"grams": grams, "area_m2": area.m2}, evidence=area.evidence)


def _lacking(what: str, lacks: str) -> Answer:
    return Answer(saying.sentence(f"I don't know {what}"), lacks=lacks)


def _area(question: Question, facts: Facts) -> _Area | Answer:
    """Return the area of the question, of a place as it was said once, or of the whole mould; never a guess."""
    if question.area_m2 is not None:
        return _Area(question.area_m2, f"{saying.number(question.area_m2)} square metres")
    if question.places and not _WHOLE.search(question.plain):
        for step in _all_steps(facts):
            areas = [c for c in step.record.conditions if c.kind == "area"]
            if areas and on_place(step, question.places):
                m2 = float(areas[-1].value)
                return _Area(m2, f"the {question.places[0]}, {saying.number(m2)} square metres", (step.id,))
        place = question.places[0]
        return _lacking(
            f"how big the {place} is: say it once, like the {place} is 0.3 square metres", f"the area of the {place}"
        )
    if facts.mould.area_m2 is not None:
        m2 = facts.mould.area_m2
        return _Area(m2, f"the whole mould, {saying.number(m2)} square metres")
    return _lacking("the area: say how many square metres", f"the area of the mould {facts.mould.key}")


def _all_steps(facts: Facts) -> list[StepView]:
    return [*reversed(facts.known), *(step for build in facts.earlier for step in reversed(build.steps))]


def _fabric(question: Question, facts: Facts) -> _Fabric | Answer:
    """Return the fabric of the question, else what was laid last there, else what was laid last on this build."""
    named = [m for m in facts.meant(question.materials) if m.is_fabric]
    if named and question.gsm is not None:
        return _Fabric(named[0], question.gsm)
    laid = [step for step in reversed(facts.done) if any(layer.gsm for layer in step.record.layers)]
    there = [step for step in laid if question.places and on_place(step, question.places)]
    for step in (*there, *laid):
        for layer in reversed(step.record.layers):
            material = facts.material(layer.name)
            if layer.gsm and material is not None and material.is_fabric and (not named or material in named):
                return _Fabric(material, question.gsm or float(layer.gsm), (step.id,))
    if named and len(named[0].gsm) == 1:
        return _Fabric(named[0], named[0].gsm[0])
    return _lacking(
        "which glass: say the fabric and its weight a square metre", "the fabric and its grams a square metre"
    )
