"""Answers how many batches: by what is safe in one pot, and by what can be laid within the pot life. Pure."""

from __future__ import annotations

import re
from datetime import timedelta

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.question import Question
from journal.find.ask.ratios import main_meant
from journal.find.ask.weights import grams_of
from journal.find.coats import shop_temperatures
from journal.trade.cure import shift
from journal.trade.material import Material
from journal.trade.mix import batches

_SPEED = re.compile(r"(\d+(?:\.\d+)?) ?(?:grams? |g )?(?:of \w+ )?(?:a|per|each|every) minute")


def batch_count(question: Question, facts: Facts) -> Answer:
    """Answer "how many batches for two kilos", by the largest safe batch and, at a speed of laying, the pot life.

    The largest batch is the one that was said, else the catalogue's.
    """
    meant = main_meant(question, facts)
    main = meant if isinstance(meant, Material) else None
    largest = _largest(facts, main)
    if largest is None:
        return Answer(
            "I don't know how much is safe in one pot: say it once, like never more than 500 grams at once.",
            lacks="the largest safe batch: it was not said on this mould and the catalogue does not state it",
        )
    grams, source, evidence = largest
    pot_life = _pot_life(facts, main)
    speed = _SPEED.search(question.plain)
    weights = [said for said in question.weights if speed is None or said.value != float(speed[1])]
    numbers = {"largest_g": grams} | ({"pot_life_s": pot_life} if pot_life else {})
    within = f", each used up within {saying.lasting(timedelta(seconds=pot_life))}" if pot_life else ""
    if not weights:
        text = f"no more than {saying.quantity(grams, 'g')} at once, {source}{within}"
        return Answer(saying.sentence(text), source, numbers=numbers, evidence=evidence)
    if speed is not None and pot_life is None:
        what = f"the pot life of {main.name}" if main else "the pot life"
        return Answer(saying.sentence(f"I don't know {what}: say it once"), lacks=what)
    wanted = grams_of(weights[0], main) if main else weights[0].value
    made = batches(wanted, grams, pot_life, float(speed[1]) / 60 if speed else None)
    count = saying.counted(made.count, "batch" if made.count == 1 else "batche")
    limit = f"no more than {saying.quantity(grams, 'g')} at once, {source}"
    limit = "more would not be laid in time" if made.limited_by == "pot life" else limit
    text = f"{count} of {saying.quantity(made.each_g, 'g')}{within}: {limit}"
    numbers |= {"batches": float(made.count), "each_g": made.each_g}
    return Answer(saying.sentence(text), source, numbers=numbers, evidence=evidence)


def _pot_life(facts: Facts, main: Material | None) -> float | None:
    """Return the seconds of a pot life: of the last batch of it, else the catalogue's at the shop's temperature."""
    clocks = [clock for clock in facts.clocks.all if clock.kind == "pot life" and main and clock.material == main.name]
    if clocks and clocks[-1].window.closes is not None:
        return (clocks[-1].window.closes - clocks[-1].window.opens).total_seconds()
    if main is None or main.pot_life_s is None:
        return None
    readings = shop_temperatures(facts.done)
    if not readings or not main.reacts:
        return main.pot_life_s
    return shift(main.pot_life_s, readings[-1][1], main.activation_energy_kj).seconds


def _largest(facts: Facts, main: Material | None) -> tuple[float, str, tuple[int, ...]] | None:
    steps = [*reversed(facts.known), *(step for build in facts.earlier for step in reversed(build.steps))]
    for step in steps:
        for warning in step.record.warnings:
            if re.search(r"\b(?:more|over|above|bigger)\b", warning.text):
                weights = [said.value for said in facts.understand(warning.text).weights if said.unit == "g"]
                if weights:
                    return weights[0], f"as said {saying.day(step.recorded_at, facts.now)}", (step.id,)
    if main is not None and main.largest_batch_g is not None:
        return main.largest_batch_g, "by the catalogue", ()
    return None
