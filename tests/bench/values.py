"""Values of a step record, and how far a predicted one may be from the labelled one.

Each value says how far it is from another one, 0 or more, or None where the two do not match. Nothing here
trusts its input: a number that is none matches nothing.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

AMOUNT_TOLERANCE = RATIO_TOLERANCE = CONDITION_TOLERANCE = 0.01
GSM_TOLERANCE = 0.03
TIMING_TOLERANCE = 0.02
TEMPERATURE_TOLERANCE_C = 0.6
CLOCK_TOLERANCE_S = 90.0
LEAST_PHRASE_OVERLAP = 0.5

STOP_WORDS = frozenset(
    "a an the and or so to of in on at for with by from as is are was were be been it its this that these "
    "those you i we they he she my our your will just".split()
)
OPPOSITES = (
    ("left", "right"), ("top", "bottom"), ("front", "back"), ("upper", "lower"), ("inner", "outer"),
    ("inside", "outside"),
)  # fmt: skip


# ---- plain parts of a value ---------------------------------------------------------------------------


def plain(text: object) -> str | None:
    """Return a text without case and spare spaces; None for nothing."""
    return None if text is None else " ".join(str(text).casefold().split()) or None


def number(value: object) -> float | None:
    """Return a number; None for nothing and nan, which matches nothing, for what is no number."""
    if value is None:
        return None
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else math.nan


def content_words(text: object) -> frozenset[str]:
    """Return the words of a phrase that carry its meaning; all its words when none does."""
    words = set(re.findall(r"\w+(?:['.]\w+)*", str(text or "").casefold().replace("’", "'")))
    return frozenset(words - STOP_WORDS or words)


def equal(one: object, other: object) -> float | None:
    """Return 0 for equal things."""
    return 0.0 if one == other else None


def near(one: float | None, other: float | None, share: float, absolute: float = 0.0) -> float | None:
    """Return the relative distance of two numbers within a share of the first, or an absolute distance."""
    if one is None or other is None:
        return equal(one, other)
    apart = abs(one - other)
    allowed = max(share * abs(one), absolute) + 1e-9 * max(1.0, abs(one))
    return apart / (abs(one) or 1.0) if apart <= allowed else None


def summed(*gaps: float | None) -> float | None:
    """Return the sum of gaps; None when one part does not match."""
    total = 0.0
    for gap in gaps:
        if gap is None:
            return None
        total += gap
    return total


# ---- values ---------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Said:
    """Words or a pair of words that must be equal: a name, an action with its status, a flagged field."""

    words: tuple[str | None, ...]

    def gap(self, other: Said) -> float | None:
        return equal(self.words, other.words)


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of a material, in which unit."""

    what: tuple[str | None, str | None, str | None]
    value: float | None

    def gap(self, other: Amount) -> float | None:
        return summed(equal(self.what, other.what), near(self.value, other.value, AMOUNT_TOLERANCE))


@dataclass(frozen=True, slots=True)
class Ratio:
    """A stated ratio: the first part over each later one. `by` counts only where the label gives it."""

    quotients: tuple[float, ...]
    by: str | None

    def gap(self, other: Ratio) -> float | None:
        if len(self.quotients) != len(other.quotients) or self.by not in (None, other.by):
            return None
        pairs = zip(self.quotients, other.quotients, strict=True)
        return summed(float(self.by != other.by), *(near(a, b, RATIO_TOLERANCE) for a, b in pairs))


@dataclass(frozen=True, slots=True)
class Layer:
    """Layers or coats of one thing, with their areal weight."""

    what: tuple[str | None, float | None]
    gsm: float | None

    def gap(self, other: Layer) -> float | None:
        return summed(equal(self.what, other.what), near(self.gsm, other.gsm, GSM_TOLERANCE))


@dataclass(frozen=True, slots=True)
class Span:
    """A duration from its least to its most seconds; `kind` is None where only the length is compared."""

    least: float | None
    most: float | None
    kind: str | None = None

    def gap(self, other: Span) -> float | None:
        return summed(
            equal(self.kind, other.kind),
            near(self.least, other.least, TIMING_TOLERANCE),
            near(self.most, other.most, TIMING_TOLERANCE),
        )


@dataclass(frozen=True, slots=True)
class Moment:
    """A point in time. Where one of two lacks its offset, what the wall clock says is compared."""

    kind: str | None
    at: datetime | None

    def gap(self, other: Moment) -> float | None:
        one, two = self.at, other.at
        if self.kind != other.kind or one is None or two is None:
            return None
        if one.tzinfo is None or two.tzinfo is None:
            one, two = one.replace(tzinfo=None), two.replace(tzinfo=None)
        apart = abs((one - two).total_seconds())
        return apart if apart <= CLOCK_TOLERANCE_S else None


@dataclass(frozen=True, slots=True)
class Condition:
    """A measured state."""

    what: tuple[str | None, str | None]
    value: float | None

    def gap(self, other: Condition) -> float | None:
        absolute = TEMPERATURE_TOLERANCE_C if self.what[0] == "temperature" else 0.0
        return summed(equal(self.what, other.what), near(self.value, other.value, CONDITION_TOLERANCE, absolute))


@dataclass(frozen=True, slots=True)
class Words:
    """A phrase by its content words. A phrase about the other side is another phrase."""

    words: frozenset[str]

    def overlap(self, other: Words) -> float:
        total = len(self.words) + len(other.words)
        return 2 * len(self.words & other.words) / total if total else 0.0

    def gap(self, other: Words) -> float | None:
        if self.overlap(other) < LEAST_PHRASE_OVERLAP or any(self._opposed(other, pair) for pair in OPPOSITES):
            return None
        return 1 - self.overlap(other)

    def _opposed(self, other: Words, pair: Iterable[str]) -> bool:
        here, there = self.words.intersection(pair), other.words.intersection(pair)
        return bool(here and there and here != there)


@dataclass(frozen=True, slots=True)
class Seen:
    """An observation: its kind, or else its words, must agree; an agreeing kind is the better match."""

    kind: str | None
    words: Words

    def gap(self, other: Seen) -> float | None:
        if self.kind and self.kind == other.kind:
            return 1 - self.words.overlap(other.words)
        return summed(1.0, self.words.gap(other.words))
