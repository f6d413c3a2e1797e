"""Amounts by a general-purpose library, quantulum3, beside ours on the same notes.

quantulum3 names no materials, so only the value and its unit are compared, of weights, volumes and percents:
all amounts of a note, whatever they are of. quantulum3 runs without its optional trained classifier.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterable, Mapping

with warnings.catch_warnings():
    warnings.simplefilter("ignore", UserWarning)  # that its classifier is not installed
    from quantulum3 import parser

from tests.bench.facets import FACETS, Row
from tests.bench.score import Counts, pair
from tests.bench.values import Amount

COMPARED = frozenset({"g", "ml", "percent"})
# Exact by definition (NIST SP 811, appendix B); pints, quarts and gallons by the note's dialect.
UNITS = {
    "gram": ("g", 1.0), "kilogram": ("g", 1000.0), "milligram": ("g", 0.001), "ounce": ("g", 28.349523125),
    "pound-mass": ("g", 453.59237), "litre": ("ml", 1000.0), "liter": ("ml", 1000.0), "millilitre": ("ml", 1.0),
    "milliliter": ("ml", 1.0), "centilitre": ("ml", 10.0), "cubic centimetre": ("ml", 1.0),
    "percentage": ("percent", 1.0),
}  # fmt: skip
BY_DIALECT = {
    "fluid ounce": (28.4130625, 29.5735295625), "pint": (568.26125, 473.176473),
    "quart": (1136.5225, 946.352946), "gallon": (4546.09, 3785.411784),
}  # fmt: skip


def _said_amounts(steps: Iterable[Row]) -> list[Amount]:
    amounts = [value for step in steps for value, _ in FACETS["amounts"].read(step)]
    return [Amount((None, None, a.what[2]), a.value) for a in amounts if a.what[2] in COMPARED]


def _library_amounts(note: Row) -> list[Amount]:
    american = note.get("locale") == "en-US"
    out = []
    for quantity in parser.parse(note["text"]):
        name = quantity.unit.name
        if name in UNITS:
            unit, factor = UNITS[name]
        elif name in BY_DIALECT:
            unit, factor = "ml", BY_DIALECT[name][american]
        else:
            continue
        out.append(Amount((None, None, unit), quantity.value * factor))
    return out


def compare(notes: Iterable[Row], predicted: Mapping[str, list[Row]]) -> dict[str, Counts]:
    """Return the counts of amounts without their materials, by ours and by quantulum3."""
    counts = {"ours": Counts(), "quantulum3": Counts()}
    for note in notes:
        wanted = _said_amounts(note["gold"])
        for name, got in (("ours", _said_amounts(predicted[note["id"]])), ("quantulum3", _library_amounts(note))):
            hits = pair(wanted, got, lambda one, other: one.gap(other))
            counts[name].add(len(wanted), len(got), len(hits))
    return counts
