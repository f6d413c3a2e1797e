"""What a picture is made of: shapes at places, scales that put values there, and the table beneath. Pure.

Lengths are in pixels of the picture, from its top left. `look` names how a shape is drawn; every look differs from
the others in form, not in colour alone, and "doubt" in it says hollow or hatched.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from journal.keep.views import StepView
from journal.review.queries import queries

NARROW, WIDE = 340.0, 720.0  # widths of a phone's sheet and of a desk's, px
LETTER, BOLD_LETTER = 6.6, 7.6  # px a letter takes at the size of the labels, on average
UNSURE = "heard or read with little confidence"
Number = float | int


@dataclass(frozen=True, slots=True)
class Shape:
    """A shape: its SVG element, its attributes, its look, and its words (of text) or title (of all others)."""

    tag: str
    at: tuple[tuple[str, Number | str], ...]
    look: str
    words: str = ""

    def get(self, name: str) -> Number | str:
        """Return one of its attributes."""
        return dict(self.at)[name]


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of the table beneath a picture; `step_id` leads to the step it rests on."""

    words: str
    step_id: int | None = None


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture of one width: its size in px, and its shapes from the back to the front."""

    width: float
    height: float
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture with what it shows in words, a key to its looks, the table that says the same, and what it lacks.

    `drawings` are the same for a phone and for a desk; empty when there is nothing to draw, and `lacks` says why.
    """

    name: str
    title: str
    about: str
    drawings: tuple[Drawing, ...]
    key: tuple[tuple[str, str], ...]
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    lacks: str = ""


def rect(x: float, y: float, width: float, height: float, look: str, words: str = "") -> Shape:
    """Return a rectangle; one that has no width is drawn a pixel wide."""
    at = (("x", _px(x)), ("y", _px(y)), ("width", _px(max(width, 1.0))), ("height", _px(height)))
    return Shape("rect", at, look, words)


def line(x1: float, y1: float, x2: float, y2: float, look: str, words: str = "") -> Shape:
    """Return a line."""
    return Shape("line", (("x1", _px(x1)), ("y1", _px(y1)), ("x2", _px(x2)), ("y2", _px(y2))), look, words)


def text(x: float, y: float, words: str, look: str = "label", anchor: str = "start") -> Shape:
    """Return words; `anchor` is start, middle or end."""
    return Shape("text", (("x", _px(x)), ("y", _px(y)), ("text-anchor", anchor)), look, words)


def path(points: Sequence[tuple[float, float]], look: str, words: str = "") -> Shape:
    """Return a line through points."""
    steps = " ".join(f"{'M' if i == 0 else 'L'}{_px(x):g} {_px(y):g}" for i, (x, y) in enumerate(points))
    return Shape("path", (("d", steps),), look, words)


_POINTS: dict[str, tuple[tuple[float, float], ...]] = {
    "triangle": ((0, -7), (7, 6), (-7, 6)),
    "diamond": ((0, -7), (7, 0), (0, 7), (-7, 0)),
    "square": ((-6, -6), (6, -6), (6, 6), (-6, 6)),
    "cross": ((-6, -4), (-4, -6), (0, -2), (4, -6), (6, -4), (2, 0), (6, 4), (4, 6), (0, 2), (-4, 6), (-6, 4), (-2, 0)),
    "arrow": ((0, -8), (8, 0), (3, 0), (3, 7), (-3, 7), (-3, 0), (-8, 0)),
    "bar": ((-3, -10), (3, -10), (3, 10), (-3, 10)),
}  # fmt: skip


def mark(x: float, y: float, form: str, words: str, doubt: bool = False) -> Shape:
    """Return a mark of a form (circle, triangle, diamond, square, cross, arrow, bar); one in doubt is hollow."""
    look = f"point {form}{' doubt' if doubt else ''}"
    if form == "circle":
        return Shape("circle", (("cx", _px(x)), ("cy", _px(y)), ("r", 6)), look, words)
    around = [(x + dx, y + dy) for dx, dy in _POINTS[form]]
    joined = " ".join(f"{_px(px):g},{_px(py):g}" for px, py in around)
    return Shape("polygon", (("points", joined),), look, words)


def _px(value: float) -> float:
    return round(value, 1)


def fitted(words: str, width: float) -> str:
    """Return words that fit into so many px, cut with an ellipsis."""
    most = max(1, int(width / LETTER))
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"


@dataclass(frozen=True, slots=True)
class Scale:
    """Values from `low` to `high` put from `start` to `end` px; values beyond are put at the edge."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        """Return where a value is."""
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)

    def beyond(self, value: float) -> bool:
        """Return whether a value is not on the scale."""
        return not self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a time scale; one that is `cut` is longer than it is drawn."""

    begins: datetime
    ends: datetime
    start: float
    end: float
    cut: bool


@dataclass(frozen=True, slots=True)
class TimeScale:
    """Times put from left to right; the hours in which nothing was done are drawn short."""

    spans: tuple[Span, ...]

    def __call__(self, at: datetime) -> float:
        """Return where a time is; before the first and after the last it is put at the edge."""
        if at <= self.spans[0].begins:
            return self.spans[0].start
        for span in self.spans:
            if at <= span.ends:
                share = (at - span.begins) / (span.ends - span.begins) if span.ends > span.begins else 1.0
                return span.start + share * (span.end - span.start)
        return self.spans[-1].end

    def beyond(self, at: datetime) -> bool:
        """Return whether a time comes after the last."""
        return at > self.spans[-1].ends


def time_scale(
    moments: Iterable[datetime], start: float, end: float, most: timedelta = timedelta(hours=2)
) -> TimeScale:
    """Return a scale of times from `start` to `end` px; a gap counts for what it lasts, but no more than `most`."""
    ordered = sorted(set(moments))
    if len(ordered) < 2:
        only = ordered[0]
        return TimeScale((Span(only, only + most, start, end, False),))
    gaps = [min(later - earlier, most) for earlier, later in pairwise(ordered)]
    whole = sum(gaps, timedelta())
    spans, at = [], start
    for (earlier, later), gap in zip(pairwise(ordered), gaps, strict=True):
        there = at + (end - start) * (gap / whole)
        spans.append(Span(earlier, later, at, there, later - earlier > most))
        at = there
    return TimeScale(tuple(spans))


def day_marks(scale: TimeScale, height: float, top: float = 14.0) -> list[Shape]:
    """Return a mark for each cut in a time scale and the day that each side of it is, where there is room."""
    first = scale.spans[0].begins
    shapes = [text(scale.spans[0].start, top - 3, f"{first:%a} {first.day} {first:%b}", "axis")]
    room = scale.spans[0].start + 60
    for span in scale.spans:
        if not span.cut:
            continue
        middle = (span.start + span.end) / 2
        shapes.append(
            line(middle, top, middle, height, "cut", f"{_hours(span.ends - span.begins)} in which nothing was logged")
        )
        if span.begins.date() != span.ends.date() and middle + 3 > room and span.end < scale.spans[-1].end:
            shapes.append(text(middle + 3, top - 3, f"{span.ends:%a} {span.ends.day} {span.ends:%b}", "axis"))
            room = middle + 63
    return shapes


def _hours(span: timedelta) -> str:
    hours = span.total_seconds() / 3600
    return f"{hours / 24:.1f} days" if hours >= 48 else f"{hours:.1f} h"


def doubts_in(step: StepView, confirm_below: float, *fields: str) -> tuple[str, ...]:
    """Return why these fields of a step are in doubt: what is flagged, and that it was heard with little confidence."""
    found = queries(step, confirm_below)
    named = {"materials": ("materials", "amount", "unit")}
    wanted = {each for field in fields for each in named.get(field, (field,))}
    why = [flag.why for flag in found.flags if flag.field in wanted]
    if not why and any(place.split(".")[0] in fields for place in found.doubtful):
        why.append(UNSURE)
    return tuple(dict.fromkeys(why))


def doubt_words(doubts: Sequence[str]) -> str:
    """Return doubts as words to stand after a value; "" without any."""
    return f" (to check: {'; '.join(doubts)})" if doubts else ""
