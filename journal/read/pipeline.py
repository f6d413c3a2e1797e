"""The steps of reading, in order: each finds one concern in the words of a note."""

from __future__ import annotations

import logging
from collections.abc import Callable

from journal.read import (
    acts,
    amounts,
    asides,
    conditions,
    cues,
    durations,
    layers,
    lots,
    materials,
    moments,
    numbers,
    observations,
    places,
    questions,
    ratios,
    reasons,
    remembered,
    sounds,
    warnings,
    who,
)
from journal.read.findings import Findings, Found, NoteWords

Finder = Callable[[NoteWords, Findings], list[Found]]

STEPS: tuple[tuple[str, Finder], ...] = (
    ("numbers", numbers.find),
    ("ratios", ratios.find),
    ("moments", moments.find),
    ("durations", durations.find),
    ("conditions", conditions.find),
    ("amounts", amounts.find),
    ("sounds", sounds.find),
    ("materials", materials.find),
    ("layers", layers.find),
    ("lots", lots.find),
    ("questions", questions.find),
    ("remembered", remembered.find),
    ("asides", asides.find),
    ("reasons", reasons.find),
    ("cues", cues.find),
    ("warnings", warnings.find),
    ("places", places.find),
    ("observations", observations.find),
    ("who", who.find),
    ("acts", acts.find),
)

log = logging.getLogger(__name__)


def find_all(words: NoteWords) -> Findings:
    """Return everything that the steps find in a note."""
    found = Findings()
    for name, find in STEPS:
        items = find(words, found)
        found.add(items)
        if items and log.isEnabledFor(logging.DEBUG):
            for item in items:
                log.debug("%s: %r %s %s", name, words.doc[item.start : item.end].text, item.rule, item.value)
    return found
