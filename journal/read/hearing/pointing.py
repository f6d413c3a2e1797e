"""Evidence in the words that were kept, for values that were read from other words of the same seconds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any

from journal.record import Evidence, Transcript, Word


def pointed(value: Any, heard: Transcript) -> Any:
    """Return a step, or any part of one, with its evidence in the words of the kept hearing at the same seconds."""
    if isinstance(value, Evidence):
        return _moved(value, heard)
    if isinstance(value, tuple):
        return tuple(pointed(item, heard) for item in value)
    if is_dataclass(value) and not isinstance(value, type):
        changed = {f.name: pointed(getattr(value, f.name), heard) for f in fields(value)}
        return replace(value, **changed)
    return value


def _moved(evidence: Evidence, heard: Transcript) -> Evidence:
    if not heard.words:
        return replace(evidence, heard=heard.text, chars=(0, len(heard.text)))
    there = _at(heard.words, evidence.audio or (heard.words[0].start_s, heard.words[-1].end_s))
    chars = (there[0].chars[0], there[-1].chars[1])
    return replace(evidence, heard=heard.text[slice(*chars)], chars=chars)


def _at(words: Sequence[Word], seconds: tuple[float, float]) -> list[Word]:
    """Return the words said within the seconds, or the one nearest to them."""
    start, end = seconds
    there = [w for w in words if start <= (w.start_s + w.end_s) / 2 <= end]
    return there or [min(words, key=lambda w: abs(w.start_s + w.end_s - start - end))]
