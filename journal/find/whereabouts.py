"""Where on a mould, and in which stage of its making, a line of plain words looks: two of its filters. Pure."""

from __future__ import annotations

import re

from journal.find.ask.matching import on_place
from journal.keep.views import StepView
from journal.read.findings import Findings, NoteWords

_BEFORE = re.compile(r"\b(?:(?:on|at|by|in|under|around|behind|inside|of)\s+)?(?:(?:the|our|that)\s+)?$", re.I)
_LEADING = re.compile(r"^(?:(?:on|at|by|in|around|of)\s+)?(?:the|our|that)\s+|^(?:on|at|in|of)\s+", re.I)
_GEL_ACTS = frozenset({"mix", "weigh", "brush", "stipple", "spray"})
_ACTS = {
    "preparing": frozenset({"clean", "seal", "release", "wall", "polish"}),
    "filling": frozenset({"fill", "thicken"}),
    "laminating": frozenset({"laminate", "roll", "wet out", "press"}),
    "casting": frozenset({"pour", "degas", "pull"}),
    "curing": frozenset({"cure", "post-cure"}),
    "opening": frozenset({"demould"}),
}
_SAID = {
    "preparing": "preparing|preparation|prep", "gel coat": "gel ?coat(?:ing)?", "filling": "filling",
    "laminating": "laminating|lamination|layup|lay up|laying up", "casting": "casting", "curing": "curing|cure",
    "opening": "opening|demoulding|demolding",
}  # fmt: skip
_STAGES = {
    stage: re.compile(
        rf"\b(?:(?:at|in|during) the )?(?:{said}) stage\b|\b(?:while|during|when) (?:we were )?(?:{said})\b", re.I
    )
    for stage, said in _SAID.items()
}
Named = tuple[str, tuple[int, int]]


def place_in(words: NoteWords, found: Findings) -> Named | None:
    """Return the first place that a line names, and the letters of it with the words that lead to it."""
    text = words.doc.text
    for item in found.of("place"):
        start, last = words.doc[item.start].idx, words.doc[item.end - 1]
        lead = _BEFORE.search(text[:start])
        place = _LEADING.sub("", text[start : last.idx + len(last)]).casefold()
        return place, (lead.start() if lead else start, last.idx + len(last))
    return None


def stage_in(text: str) -> Named | None:
    """Return the stage that a line names ("while laminating", "gel coat stage"), and its letters."""
    for stage, pattern in _STAGES.items():
        if match := pattern.search(text):
            return stage, match.span()
    return None


def is_there(place: str, step: StepView) -> bool:
    """Tell whether a step was on a place: "scroll" is on the left scroll too."""
    return on_place(step, (place, place.removesuffix("s"), f"{place}s"))


def is_in(stage: str, step: StepView) -> bool:
    """Tell whether a step's act belongs to a stage; for the gel coat, whether one was mixed or put on."""
    record = step.record
    if stage == "gel coat":
        names = (*(use.name for use in record.materials), *(layer.name for layer in record.layers))
        return record.action in _GEL_ACTS and any("gel coat" in name for name in names)
    return record.action in _ACTS[stage]
