"""What the steps of reading hand to each other: things found in a note, with their rule.

Every concern (numbers, amounts, durations, materials, acts ...) is a pure function
`find(text: NoteWords, found: Findings) -> list[Found]`; `pipeline.py` lists them in order.
Overlaps are kept; whoever binds decides, and may note the loser.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime
from fractions import Fraction
from typing import Any

from spacy.tokens import Doc

from journal.record import Flag
from journal.trade.material import Catalogue


@dataclass(frozen=True, slots=True)
class NoteWords:
    """A note ready for reading: its words, tagged, and what is known beside them.

    `lower` holds the lower-cased token texts, one a token of `doc`. `probabilities` are those
    of the heard words, one a token, 1.0 for typed notes. `tags` are the fine part-of-speech tags; `spoken` when the
    words were heard, not typed; `said` is the note's text. `starts` are the characters that the tokens start at in it,
    where pauses are left out of `doc`; empty where the tokens stand as in the text.
    """

    doc: Doc
    lower: tuple[str, ...]
    catalogue: Catalogue
    locale: str = "en-GB"
    recorded_at: datetime | None = None
    probabilities: tuple[float, ...] = ()
    tags: tuple[str, ...] = ()
    spoken: bool = False
    said: str = ""
    starts: tuple[int, ...] = ()

    def chars(self, start: int, end: int) -> tuple[int, int]:
        """Return the characters of the tokens [start, end) in the note's text; at least the first token's."""
        last = max(start, end - 1)
        ends = self.starts[last] if self.starts else self.doc[last].idx
        return (self.starts[start] if self.starts else self.doc[start].idx), ends + len(self.doc[last])

    def text(self, start: int, end: int) -> str:
        """Return what the note's text says in the tokens [start, end); an end past the last counts as the last."""
        end = min(end, len(self.lower))
        if start >= end:
            return ""
        first, last = self.chars(start, end)
        return (self.said or self.doc.text)[first:last]


@dataclass(frozen=True, slots=True)
class Found:
    """One thing found in the tokens [start, end) of a note.

    `kind` names the concern; `value` is that kind's payload below; `rule` is the id of the rule
    that made it ("amounts.number-unit"); `confidence` 0 to 1. `said` are the tokens of its words where
    they stand elsewhere: a correction takes the place of what it corrects.
    """

    kind: str
    start: int
    end: int
    value: Any
    rule: str
    confidence: float = 0.95
    flags: tuple[Flag, ...] = ()
    said: tuple[int, int] | None = None

    def moved(self, start: int, end: int) -> Found:
        """Return the same finding on other tokens."""
        return replace(self, start=start, end=end)


def _order(item: Found) -> tuple[int, int]:
    return item.start, item.end


@dataclass(slots=True)
class Findings:
    """All that was found so far, by kind, each kind in the order of the text."""

    by_kind: dict[str, list[Found]] = field(default_factory=dict)
    _at: dict[str, dict[int, Found]] = field(default_factory=dict)
    _together: dict[tuple[str, ...], list[Found]] = field(default_factory=dict)

    def add(self, found: Iterable[Found]) -> None:
        """Add findings, keeping each kind in the order of the text."""
        touched = set()
        for item in found:
            self.by_kind.setdefault(item.kind, []).append(item)
            touched.add(item.kind)
        for kind in touched:
            self._at.pop(kind, None)
            self.by_kind[kind].sort(key=_order)
        if touched:
            self._together.clear()

    def of(self, *kinds: str) -> list[Found]:
        """Return the findings of these kinds in the order of the text."""
        if len(kinds) == 1:
            return self.by_kind.get(kinds[0], [])
        both = self._together.get(kinds)
        if both is None:
            both = [item for kind in kinds for item in self.by_kind.get(kind, ())]
            both.sort(key=_order)
            self._together[kinds] = both
        return both

    def at(self, kind: str, token: int) -> Found | None:
        """Return the first finding of the kind that covers the token, or None."""
        index = self._at.get(kind)
        if index is None:
            index = self._at[kind] = {}
            for item in self.by_kind.get(kind, []):
                for place in range(item.start, item.end):
                    index.setdefault(place, item)
        return index.get(token)

    def __iter__(self) -> Iterator[Found]:
        """Iterate over all findings, kind by kind."""
        return (item for items in self.by_kind.values() for item in items)


# ---- payloads: the `value` of each kind ------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Number:
    """kind "number": exact, or a range ("two or three"); `high` equals `low` when it is one number."""

    low: Fraction
    high: Fraction
    approximate: bool = False
    ordinal: bool = False


@dataclass(frozen=True, slots=True)
class Amount:
    """kind "amount": a quantity in a canonical unit (g, ml, percent, m2, mm, count), or None when not said.

    `bound` is "least" ("at least"), "most" ("no more than") or None. `said_unit` is the unit's word.
    """

    low: Fraction
    high: Fraction
    unit: str | None
    said_unit: str | None = None
    bound: str | None = None
    approximate: bool = False


@dataclass(frozen=True, slots=True)
class Areal:
    """kind "areal": a fabric's areal weight, g/m2."""

    gsm: Fraction


@dataclass(frozen=True, slots=True)
class ConditionSaid:
    """kind "condition": a measured state in the units of the step record; `of` when said."""

    kind: str
    value: Fraction
    unit: str
    of: str | None = None


@dataclass(frozen=True, slots=True)
class Duration:
    """kind "duration": least and most seconds, None for an open end.

    `hint` is the timing's kind where the words beside it tell ("pot life", "to gel", "between
    coats" -> wait), else None: then the act decides. `ago` marks "ten minutes ago", which is a moment.
    """

    least: Fraction | None
    most: Fraction | None
    hint: str | None = None


@dataclass(frozen=True, slots=True)
class Moment:
    """kind "moment": a point in time, not yet resolved.

    Either a wall-clock time (`hour` 0 to 23, `minute`, `half` "am"/"pm"/None when not said, `day`
    offset in days when said), or `offset_s` seconds from the recording (negative: ago).
    `hint` is start, end or due where the words tell ("started", "finished", "due at").
    """

    hour: int | None = None
    minute: int = 0
    half: str | None = None
    day: int | None = None
    offset_s: Fraction | None = None
    hint: str | None = None


@dataclass(frozen=True, slots=True)
class RatioSaid:
    """kind "ratio": parts in the order main : second; `by` weight, volume or None.

    `run_together` keeps the digits when two numbers may have been run together ("125").
    """

    parts: tuple[Fraction, ...]
    by: str | None = None
    run_together: str | None = None


@dataclass(frozen=True, slots=True)
class MaterialSaid:
    """kind "material": the record's name; `known` when the catalogue knows it.

    `general` for a general word ("resin"), `part` A or B only when said, `misheard` keeps the words
    heard when the name was repaired by sound.
    """

    name: str
    known: bool
    general: bool = False
    part: str | None = None
    misheard: str | None = None


@dataclass(frozen=True, slots=True)
class LayerSaid:
    """kind "layer": layers of a fabric, or coats of something brushed or sprayed."""

    name: str | None
    count: Fraction | None
    gsm: Fraction | None
    coat: bool = False


@dataclass(frozen=True, slots=True)
class ActSaid:
    """kind "act": one act of the trade; `head` is the token of its verb or noun.

    `form` of the verb is base, s, ed or ing, empty for a noun.
    """

    action: str
    head: int
    form: str = ""


@dataclass(frozen=True, slots=True)
class PhraseSaid:
    """kinds "place", "reason", "cue", "warning", "lot", "who", "question", "remembered", "aside": the words as said."""

    text: str


@dataclass(frozen=True, slots=True)
class ObservationSaid:
    """kind "observation": a kind of the step record, and the words."""

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class TermHeard:
    """kind "sound": a term of the trade that is no material ("pot life"), and the words heard in its place."""

    term: str
    heard: str
