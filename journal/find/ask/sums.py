"""Answers from the shop's other sums: castings by volume, post-cure ramps, cost. Pure."""

from __future__ import annotations

import re

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.question import Question
from journal.find.ask.ratios import main_meant, ratio_for
from journal.trade.cure import post_cure_ramp
from journal.trade.mix import casting_mass, weigh_from_total

_RATE = re.compile(r"(\d+(?:\.\d+)?) (?:degrees?|deg|c)? ?(?:celsius )?(?:an|a|per|each|every) hour")
_FROM_TO = re.compile(r"from (\d+(?:\.\d+)?)\D+?to (\d+(?:\.\d+)?)")
_A_SECOND_S = 1.0


def casting(question: Question, facts: Facts) -> Answer:
    """Answer "how much silicone to fill 3 litres" by the density, and what to weigh for it by the ratio."""
    volume = next((said.value for said in question.amounts if said.unit == "ml"), None)
    if volume is None:
        return Answer("Say the volume, like: how much silicone to fill 3 litres.", lacks="the volume of the casting")
    main = main_meant(question, facts)
    if isinstance(main, Answer):
        return main
    if main.density is None:
        return Answer(
            saying.sentence(f"I don't know the density of {main.name}"),
            lacks=f"the density of {main.name} in the catalogue",
        )
    grams = casting_mass(volume, main.density)
    text = f"{saying.quantity(grams, 'g')} of {main.name} for {saying.quantity(volume, 'ml')}"
    numbers, why = {"grams": grams, "ml": volume}, f"{saying.plain(main.density)} g/ml, no waste"
    chosen = ratio_for(question, facts, main)
    if chosen is None:
        return Answer(saying.sentence(text), why, numbers=numbers)
    weights = weigh_from_total(chosen.ratio, grams).exact
    split = " and ".join(saying.quantity(weight, "g") for weight in weights)
    numbers |= {f"part_{n}_g": weight for n, weight in enumerate(weights, 1)}
    return Answer(
        saying.sentence(f"{text}: {split}, at {chosen.words}"), why, numbers=numbers, evidence=chosen.evidence
    )


def ramp(question: Question, facts: Facts) -> Answer:
    """Answer "how long from 20 to 60 at 10 degrees an hour"."""
    said = question.text.casefold()
    rate, span = _RATE.search(said), _FROM_TO.search(said)
    if rate is None or span is None:
        words = "say both temperatures and how fast, like: from 20 to 60 at 10 degrees an hour"
        return Answer(saying.sentence(words), lacks="the two temperatures, or the rate")
    start, end, degrees = float(span[1]), float(span[2]), float(rate[1])
    hours = post_cure_ramp(start, [(end, _A_SECOND_S)], degrees)[1].seconds / 3600
    text = f"{saying.counted(hours, 'hour')} from {saying.number(start)} to {saying.number(end)} degrees"
    return Answer(
        saying.sentence(f"{text}, at {saying.number(degrees)} degrees an hour"),
        "the difference over the rate",
        numbers={"hours": hours, "start_c": start, "end_c": end},
    )


def cost(question: Question, facts: Facts) -> Answer:
    """Answer what something cost: no price is kept."""
    return Answer(
        "I keep no prices: the page Weigh adds up a cost from kilograms and prices.", lacks="the prices a kilogram"
    )
