"""A bare number after two weights that is their ratio, run together by a recogniser."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.read.bind.draft import Draft
from journal.read.bind.weights import MASS
from journal.read.checks import splits
from journal.read.findings import RatioSaid


def take_lone_ratio(draft: Draft) -> None:
    """Take a bare number after two weights as a ratio run together, where it can be split so: "so 128"."""
    weights = [a for a in draft.of("amount") if a.value.unit in MASS]
    for clause in draft.clauses:
        for item in list(clause.of("amount")):
            value = item.value
            whole = value.unit is None and value.low == value.high and value.low.denominator == 1
            if len(weights) < 1 or draft.of("ratio") or not whole or value.low < 110 or item.start < weights[-1].end:
                continue
            pair = [a.value.low for a in draft.of("amount") if a is not item][:2]
            digits = str(int(value.low))
            if len(pair) == 2 and any(
                abs(b / a / (pair[1] / pair[0]) - 1) < Fraction(3, 100) for a, b in splits(digits)
            ):
                said = RatioSaid((), None, digits)
                clause.facts["amount"].remove(item)
                clause.facts.setdefault("ratio", []).append(replace(item, kind="ratio", value=said))
