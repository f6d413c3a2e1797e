"""Answers from the shop's other sums: castings, ramps, cost, voids, hardener by equivalent weights. Pure."""

from __future__ import annotations

import re

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.question import Question
from journal.find.ask.ratios import main_meant, ratio_for
from journal.find.recipe import totals_of
from journal.trade import laminate
from journal.trade.cure import post_cure_ramp
from journal.trade.mix import casting_mass, hardener_per_hundred, weigh_from_total

_N = r"(\d+(?:\.\d+)?)"
_RATE = re.compile(rf"{_N} (?:degrees?|deg|c)? ?(?:celsius )?(?:an|a|per|each|every) hour")
_FROM_TO = re.compile(rf"from {_N}\D+?to {_N}")
_EEW = re.compile(rf"\b(?:eew|e e w|epox(?:ide|y) equivalent(?: weight)?)\D{{0,12}}?{_N}")
_AHEW = re.compile(
    rf"\b(?:ahew|a h e w|(?:amine )?hydrogen equivalent(?: weight)?|amine equivalent(?: weight)?)\D{{0,12}}?{_N}"
)
_DENSITY = re.compile(rf"\b(?:density(?: of)?|at|is|measured|weighs?) {_N}(?! ?(?:%|percent))")
_GLASS = re.compile(rf"{_N} ?(?:%|percent)")
_PRICE = re.compile(rf"\bat {_N} (?:\w+ )?(?:a|an|per|the|each) (?:kilo|kg|kilogram)\b")
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
    mind = f"; {chosen.mind}" if chosen.mind else ""
    text = f"{text}: {split}, at {chosen.words}{mind}"
    return Answer(saying.sentence(text), why, numbers=numbers, evidence=chosen.evidence)


def ramp(question: Question, facts: Facts) -> Answer:
    """Answer "how long from 20 to 60 at 10 degrees an hour"."""
    rate, span = _RATE.search(question.digits), _FROM_TO.search(question.digits)
    if rate is None or span is None:
        words = (
            "say from what to what temperature and how many degrees an hour, like: from 20 to 60 at 10 degrees an hour"
        )
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
    """Answer "what do 1.2 kilos cost at 6.50 a kilo", and of a material what was used of it on this build."""
    price = _PRICE.search(question.digits)
    if price is None:
        return Answer(
            "I keep no prices: say one, like at 6.50 a kilo, or add them up on the page Weigh.",
            lacks="the prices a kilogram",
        )
    each = float(price[1])
    said = next((x.value for x in question.amounts if x.unit == "g" and x.material is not None), None)
    evidence: tuple[int, ...] = ()
    names = {m.name for m in facts.meant(question.materials)}
    what = saying.listed(sorted(names)) if names else "it"
    if said is None:
        totals = [t for t in totals_of(facts.done) if t.name in names and t.unit == "g"]
        said, evidence = sum(t.amount for t in totals), tuple(i for t in totals for i in t.step_ids)
        if not said:
            return Answer(saying.sentence(f"no weight of {what} was said"), lacks=f"the grams of {what}")
    total = laminate.cost([(said / 1000, each)])
    text = f"{total:.2f} for {saying.quantity(said, 'g')} of {what} at {saying.plain(each)} a kilogram"
    return Answer(
        saying.sentence(text), numbers={"cost": total, "grams": said}, evidence=tuple(dict.fromkeys(evidence))
    )


def voids(question: Question, facts: Facts) -> Answer:
    """Answer "what is the void content at a density of 1.4 with 30 percent glass", by ASTM D2734."""
    density, glass = _DENSITY.search(question.digits), _GLASS.search(question.digits)
    if density is None or glass is None:
        missing = saying.listed(
            what for what, found in (("its measured density", density), ("its percent of glass", glass)) if not found
        )
        words = f"say {missing}, like: void content at a density of 1.4 with 30 percent glass"
        return Answer(saying.sentence(words), lacks=missing)
    named = [m for m in facts.meant(question.materials) if m.reacts]
    mixed = [batch.material for batch in reversed(facts.batches) if batch.material.kind.endswith("resin")]
    resin = next((m for m in (*named, *mixed) if m.density), None)
    resin_density = resin.density if resin and resin.density else laminate.POLYESTER_DENSITY
    theoretical = laminate.theoretical_density(100 - float(glass[1]), resin_density, laminate.E_GLASS_DENSITY)
    share = laminate.void_content(theoretical, float(density[1]))
    name = resin.name if resin else "polyester"
    text = f"{saying.number(share)} percent voids: {density[1]} against {saying.number(theoretical)} without any, "
    text += f"for E-glass in {name} of {resin_density:g}"
    why = f"ASTM D2734; {name} {resin_density:g} g/ml, E-glass {laminate.E_GLASS_DENSITY:g} g/ml"
    return Answer(saying.sentence(text), why, numbers={"voids_percent": share, "theoretical_g_per_ml": theoretical})


def stoichiometry(question: Question, facts: Facts) -> Answer:
    """Answer "how much hardener for an EEW of 190 and an AHEW of 24", for 100 g or the weight said."""
    eew, ahew = _EEW.search(question.digits), _AHEW.search(question.digits)
    if eew is None or ahew is None:
        words = "say both equivalent weights, like: hardener for an EEW of 190 and an AHEW of 24"
        return Answer(saying.sentence(words), lacks="the epoxide and the amine hydrogen equivalent weight")
    epoxy = next((said.value for said in question.amounts if said.unit == "g"), 100.0)
    grams = epoxy * hardener_per_hundred(float(ahew[1]), float(eew[1])) / 100
    text = f"{saying.quantity(grams, 'g')} of hardener for {saying.plain(epoxy)} of epoxy, by the equivalent weights"
    why = "AHEW x 100 / EEW; the ratio on the maker's sheet comes first where it differs"
    return Answer(saying.sentence(text), why, numbers={"hardener_g": grams, "epoxy_g": epoxy})
