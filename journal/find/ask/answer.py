"""From a question to its answer: one function an intent."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from journal.find.ask import areas, batching, past, state, sums, timing, weights
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.question import Question
from journal.trade.limits import TradeError

ANSWERS: dict[str, Callable[[Question, Facts], Answer]] = {
    "second": weights.second,
    "main": weights.main_for_second,
    "total": weights.total,
    "percent": weights.percent,
    "check mix": weights.check_mix,
    "batches": batching.batch_count,
    "plaster": weights.plaster,
    "layers resin": areas.layers_resin,
    "film": areas.film,
    "thickness": areas.thickness,
    "pot": timing.pot,
    "gel": timing.gel,
    "recoat": timing.recoat,
    "demould": timing.demould,
    "tack": partial(timing.ready, "tack free"),
    "full cure": partial(timing.ready, "full cure"),
    "cure age": timing.cure_age,
    "place": past.put_on,
    "layer on": past.layer_on,
    "release coats": past.release_coats,
    "who": past.who_did,
    "when": past.when_done,
    "ratio": past.ratio_used,
    "lot": past.lot_used,
    "conditions": past.conditions,
    "used": past.used,
    "between": past.between,
    "climate": state.climate,
    "short": state.short,
    "left": state.short,
    "flagged": state.flagged,
    "pulls": state.pulls,
    "faults": state.faults,
    "planned": state.planned,
    "outcome": state.outcome,
    "reason": state.reason,
    "warnings": state.warnings,
    "cautions": state.cautions,
    "casting": sums.casting,
    "ramp": sums.ramp,
    "cost": sums.cost,
    "voids": sums.voids,
    "stoichiometry": sums.stoichiometry,
}


def answer(question: Question, facts: Facts) -> Answer:
    """Return the answer to a question, or what is lacking for one. Pure."""
    if not question.intent:
        return past.not_understood(question)
    try:
        return ANSWERS[question.intent](question, facts)
    except TradeError as error:
        return Answer(f"I can't work that out: {error}.", lacks=str(error))
