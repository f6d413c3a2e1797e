"""Answers by weight: the other part, the total, percentages, what puts a mix right, plaster. Pure."""

from __future__ import annotations

import re
from dataclasses import replace

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.question import Question, Said
from journal.find.ask.ratios import Chosen, flags_of, main_meant, ratio_for, second_name
from journal.trade.limits import given
from journal.trade.material import Material
from journal.trade.mix import (
    Verdict,
    addition,
    judge,
    measure_from_part,
    weigh_from_part,
    weigh_from_total,
)

_SPLIT = re.compile(
    r"of each|split|make(?: up)? \d|total of \d|\d+(?: \w+)? (?:in )?(?:total|altogether|all together|all up|all in)\b"
)
_UNIT_TAKEN = "the number was taken as grams, since no unit was said"


def second(question: Question, facts: Facts) -> Answer:
    """Answer "how much B for 420"."""
    main = main_meant(question, facts)
    if isinstance(main, Answer):
        return main
    if not question.weights:
        return _no_weight(main)
    if len(question.weights) > 1:
        return check_mix(question, facts)
    amount = question.weights[0]
    if question.percent is not None:
        return percent(question, facts)
    chosen = ratio_for(question, facts, main)
    if chosen is None:
        return _no_ratio(main, amount)
    if amount.unit == "ml" and chosen.ratio.by == "volume":
        ml = measure_from_part(chosen.ratio, 0, amount.value)[1]
        return _second(main, amount, chosen, ml, "ml")
    grams = grams_of(amount, main)
    return _second(main, amount, chosen, weigh_from_part(chosen.ratio, 0, grams).weights[1], "g")


def _second(main: Material, amount: Said, chosen: Chosen, value: float, unit: str) -> Answer:
    name = second_name(main)
    of = saying.quantity(amount.value, "ml") if amount.unit == "ml" else saying.plain(amount.value)
    text = f"{saying.quantity(value, unit)} of {name} for {of} of {main.name}, at {chosen.words}"
    return _mixed(text, chosen, amount, {f"second_{unit}": value, "main": amount.value})


def _mixed(text: str, chosen: Chosen, amount: Said, numbers: dict[str, float]) -> Answer:
    mind = f"; {chosen.mind}" if chosen.mind else ""
    why = f"{saying.parts(chosen.ratio.parts)} by {chosen.ratio.by}: {chosen.source}"
    why += f"; {_UNIT_TAKEN}" if amount.unit is None else ""
    return Answer(saying.sentence(text + mind), why, numbers=numbers, evidence=chosen.evidence)


def grams_of(amount: Said, main: Material, part: int = 0) -> float:
    """Return an amount of the question in grams, ml through the density of the main part (0) or the second (1)."""
    if amount.unit != "ml":
        return amount.value
    density = main.density if part == 0 else main.density_second
    return amount.value * given(f"density of {main.name}", density)


def _no_weight(main: Material) -> Answer:
    return Answer(
        saying.sentence(f"say how much {main.name} it is for"),
        lacks=f"the weight of {main.name}",
        why="no weight in it",
    )


def _no_ratio(main: Material, amount: Said) -> Answer:
    name = second_name(main)
    usual = main.percent_range or ((1.0, 3.0) if name == "catalyst" else None)
    lacks = f"a ratio for {main.name}: none was said on this build and the catalogue has none"
    if usual is None:
        return Answer(saying.sentence(f"I have no ratio for {main.name}: say it, or look at its sheet"), lacks=lacks)
    grams = grams_of(amount, main)
    least, most = (addition(grams, share) for share in usual)
    shares = f"{saying.number(usual[0])} to {saying.number(usual[1])} percent"
    text = (
        f"say which percentage: {shares} of {saying.plain(amount.value)} is {saying.number(least)} "
        f"to {saying.number(most)} grams of {name}, and the sheet of the material rules"
    )
    return Answer(saying.sentence(text), lacks=lacks, numbers={"least_g": least, "most_g": most})


def main_for_second(question: Question, facts: Facts) -> Answer:
    """Answer "how much resin goes with 87 of hardener"."""
    main = main_meant(question, facts)
    if isinstance(main, Answer):
        return main
    if not question.weights:
        return Answer(
            saying.sentence(f"say how much {second_name(main)} there is"), lacks=f"the weight of {second_name(main)}"
        )
    if question.weights[0].material in (main.name, *main.general):
        return second(question, facts)
    chosen = ratio_for(question, facts, main)
    if chosen is None:
        return replace(_no_ratio(main, question.weights[0]), numbers={})
    amount = question.weights[0]
    grams = weigh_from_part(chosen.ratio, 1, grams_of(amount, main, 1)).weights[0]
    text = f"{saying.quantity(grams, 'g')} of {main.name} for {saying.plain(amount.value)} of {second_name(main)}"
    return _mixed(f"{text}, at {chosen.words}", chosen, amount, {"main_g": grams, "second": amount.value})


def total(question: Question, facts: Facts) -> Answer:
    """Answer "what do 300 and 87 come to", "how much of each for 500 in total", "the total for 300 of resin"."""
    amounts = question.weights
    if len(amounts) > 1:
        units = {said.unit for said in amounts} - {None}
        if len(units) > 1:
            return Answer("Grams and millilitres do not add up: say all of them in grams.", lacks="one unit for all")
        added = sum(said.value for said in amounts)
        text = f"{saying.plain(added)} {saying.UNITS[next(iter(units), 'g') or 'g']} in all"
        why = f"{' + '.join(saying.plain(said.value) for said in amounts)} = {saying.plain(added)}"
        return Answer(saying.sentence(text), why, numbers={"total_g": added})
    main = main_meant(question, facts)
    if isinstance(main, Answer):
        return main
    if not amounts:
        return _no_weight(main)
    chosen = ratio_for(question, facts, main)
    if chosen is None:
        return _no_ratio(main, amounts[0])
    grams = grams_of(amounts[0], main)
    if _SPLIT.search(question.plain):
        first, other = weigh_from_total(chosen.ratio, grams).weights[:2]
        text = f"{saying.quantity(first, 'g')} of {main.name} and {saying.quantity(other, 'g')} of {second_name(main)}"
        text += f" make {saying.plain(grams)}"
    else:
        first, other = weigh_from_part(chosen.ratio, 0, grams).weights[:2]
        text = f"{saying.quantity(first + other, 'g')} in all: {saying.plain(first)} of {main.name} "
        text += f"with {saying.number(other)} of {second_name(main)}"
    numbers = {"main_g": first, "second_g": other, "total_g": first + other}
    return _mixed(f"{text}, at {chosen.words}", chosen, amounts[0], numbers)


def percent(question: Question, facts: Facts) -> Answer:
    """Answer "two percent of 700", "what percent is 14 in 700", and "what percentage of catalyst did we use"."""
    amounts = question.weights
    if question.percent is not None and amounts:
        grams = addition(amounts[0].value, question.percent)
        name = next((m for m in question.materials if _is_addition(facts.material(m))), None)
        of = f" of {name}" if name else ""
        text = f"{saying.quantity(grams, 'g')}{of}: {saying.plain(question.percent)} percent of "
        text += f"{saying.plain(amounts[0].value)}"
        why = f"{saying.plain(question.percent)} % by weight of the main part" + (
            f"; {_UNIT_TAKEN}" if amounts[0].unit is None else ""
        )
        return Answer(saying.sentence(text), why, numbers={"addition_g": grams})
    if question.percent is not None:
        return Answer("Say of how much: a percentage by itself weighs nothing.", lacks="the weight of the main part")
    if len(amounts) == 2:
        small, large = sorted(said.value for said in amounts)
        share = 100 * small / given("main weight", large)
        text = f"{saying.number(share)} percent: {saying.plain(small)} in {saying.plain(large)}"
        return Answer(saying.sentence(text), numbers={"percent": share})
    return _percent_used(question, facts)


def _is_addition(material: Material | None) -> bool:
    return material is not None and (material.percent_range is not None or material.kind in ("hardener", "catalyst"))


def _percent_used(question: Question, facts: Facts) -> Answer:
    wanted = facts.meant(question.materials)
    for batch in reversed(facts.batches):
        use = batch.second
        if use is None or use.amount is None or (batch.material not in wanted and _mains(wanted)):
            continue
        share = float(use.amount) if use.unit == "percent" else None
        if share is None and batch.main.amount and use.unit == batch.main.unit:
            share = float(100 * use.amount / batch.main.amount)
        if share is None:
            continue
        text = f"{saying.number(share)} percent of {use.name} in the {batch.material.name}, "
        text += f"mixed {saying.moment(batch.step.act_at, facts.now)}{flags_of(batch)}"
        return Answer(saying.sentence(text), numbers={"percent": share}, evidence=(batch.step.id,))
    return Answer("No batch on this build has both its weights.", lacks="the weights of both parts of a batch")


def _mains(materials: tuple[Material, ...]) -> bool:
    return any(material.reacts for material in materials)


def check_mix(question: Question, facts: Facts) -> Answer:
    """Answer "I put 110 in 500, is that right" and "is the last mix right": off by how much, and what to add."""
    main = main_meant(question, facts)
    if isinstance(main, Answer):
        return main
    weights, evidence = _weights_of(question, facts, main)
    if weights is None:
        return Answer("Say both weights, or log the mix first.", lacks="the weights of both parts")
    chosen = ratio_for(question, facts, main)
    if chosen is None:
        return _no_ratio(main, Said(weights[0], "g"))
    found = judge(chosen.ratio, weights, main.tolerance_percent)
    off = found.deviation_percent[0]
    text = _verdict(found, weights, main, chosen)
    numbers = {"off_percent": off, "add_main_g": found.to_add_g[0], "add_second_g": found.to_add_g[1]}
    why = (
        f"{main.name} bears {saying.plain(main.tolerance_percent)} %"
        if main.tolerance_percent
        else "no tolerance known"
    )
    return Answer(saying.sentence(text), why, numbers=numbers, evidence=(*evidence, *chosen.evidence))


def _weights_of(question: Question, facts: Facts, main: Material) -> tuple[tuple[float, float] | None, tuple[int, ...]]:
    """Return main and second weight: of the question, where the main one is named or larger, or of the last batch."""
    if len(question.weights) == 2:
        first, other = (grams_of(said, main, 1 if _names_second(said, main) else 0) for said in question.weights)
        swapped = _names_second(question.weights[0], main) or (
            not _names_second(question.weights[1], main) and first < other
        )
        return ((other, first) if swapped else (first, other)), ()
    for batch in reversed(facts.batches):
        if batch.material == main and batch.main.amount and batch.second is not None and batch.second.amount:
            if batch.main.unit == batch.second.unit == "g":
                return (float(batch.main.amount), float(batch.second.amount)), (batch.step.id,)
            return None, ()
    return None, ()


def _names_second(said: Said, main: Material) -> bool:
    return said.material is not None and said.material == second_name(main)


def _verdict(found: Verdict, weights: tuple[float, ...], main: Material, chosen: Chosen) -> str:
    off, name = found.deviation_percent[0], second_name(main)
    both = f"{saying.plain(weights[1])} of {name} in {saying.plain(weights[0])} of {main.name}"
    ratio = f"at {chosen.words}"
    if found.within_tolerance or abs(off) < 0.05:
        return f"yes, {both} is right, {saying.number(abs(off))} percent off {ratio}"
    side, (add, what) = ("short", (found.to_add_g[1], name)) if off < 0 else ("over", (found.to_add_g[0], main.name))
    return f"no, {both} is {saying.number(abs(off))} percent {side}: add {saying.quantity(add, 'g')} of {what}, {ratio}"


def plaster(question: Question, facts: Facts) -> Answer:
    """Answer "how much water for three kilos of plaster", and how much plaster for the water."""
    kinds = [m for m in facts.meant(question.materials) if m.kind == "plaster"]
    in_use = [batch.material for batch in reversed(facts.batches) if batch.material.kind == "plaster"]
    choices = kinds or in_use[:1] or [m for m in facts.catalogue.materials if m.kind == "plaster"]
    if len(choices) > 1:
        each = (f"{m.name} takes {saying.parts(m.ratio[1:])} to the hundred" for m in choices if m.ratio)
        return Answer(saying.sentence(f"say which: {saying.listed(each)}"), lacks="which plaster is meant")
    if not question.weights:
        return _no_weight(choices[0])
    amount, main = question.weights[0], choices[0]
    chosen = ratio_for(question, facts, main)
    if chosen is None:
        return _no_ratio(main, amount)
    if amount.material == "water" or re.search(r"how much (?:\w+ )?plaster|how much " + main.name, question.plain):
        grams = weigh_from_part(chosen.ratio, 1, amount.value).weights[0]
        text = f"{saying.quantity(grams, 'g')} of {main.name} for {saying.quantity(amount.value, 'ml')} of water"
        return _mixed(f"{text}, at {chosen.words}", chosen, amount, {"plaster_g": grams})
    water = weigh_from_part(chosen.ratio, 0, grams_of(amount, main)).weights[1]
    text = f"{saying.quantity(water, 'ml')} of water for {saying.quantity(amount.value, amount.unit)} of {main.name}"
    return _mixed(f"{text}, at {chosen.words}", chosen, amount, {"water_g": water})
