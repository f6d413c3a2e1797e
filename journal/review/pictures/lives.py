"""The life of a mould: its pulls over time with faults, repairs and its end. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import datetime

from journal.review.life import LifeEvent, MouldLife
from journal.review.pictures.drawing import (
    NARROW,
    WIDE,
    Cell,
    Drawing,
    Picture,
    Scale,
    Shape,
    doubt_words,
    line,
    mark,
    path,
    text,
)

TOP, PLOT = 24.0, 150.0
FORMS = {"opened": "arrow", "pull": "circle", "fault": "cross", "repair": "square", "retired": "bar"}
KEY = (
    ("point arrow", "opened"),
    ("point circle", "a pull"),
    ("point cross", "a fault"),
    ("point square", "a repair"),
    ("point bar", "retired"),
    ("point circle doubt", "hollow: to be checked"),
)
_STACK = 15.0  # px that marks of one moment are apart


def life_chart(life: MouldLife) -> Picture:
    """Return the life of one making of a mould."""
    return Picture(
        name="life",
        title="Life of the mould",
        about=_about(life),
        drawings=tuple(draw(life.events, life.pulls, width) for width in (NARROW, WIDE)) if life.events else (),
        key=KEY,
        head=("When", "What", "Pulls by then", "Condition", "Where"),
        rows=tuple(_row(event) for event in life.events),
        lacks="" if life.events else "It has not been opened yet.",
    )


def _about(life: MouldLife) -> str:
    counts = Counter(event.kind for event in life.events)
    pulls = f"{'at least ' if life.least else ''}{life.pulls} pull{'' if life.pulls == 1 else 's'}"
    more = f"; the highest number said is {life.pulls}, but only {counts['pull']} are logged" if life.least else ""
    said = f"{pulls}, {_count(counts['fault'], 'fault')}, {_count(counts['repair'], 'repair')}{more}."
    return f"{said} {'Retired.' if life.retired else 'Not retired.'}"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _row(event: LifeEvent) -> tuple[Cell, ...]:
    return (
        Cell(_day(event.at), event.step_id),
        Cell(f"{event.kind}{doubt_words(event.doubts)}"),
        Cell(str(event.pulls)),
        Cell(event.words),
        Cell(", ".join(event.places)),
    )


def _day(at: datetime) -> str:
    return f"{at.day} {at:%b %Y}"


def draw(events: Sequence[LifeEvent], pulls: int, width: float) -> Drawing:
    """Return the pulls as a rising line over the days, with a mark for every event; those of one moment are stacked."""
    first, last = events[0].at, max(event.at for event in events)
    whole = max((last - first).total_seconds(), 1.0)
    across = Scale(0.0, whole, 34.0, width - 16.0)
    up = Scale(0.0, float(max(pulls, 1)), TOP + PLOT, TOP + 20)
    places = [(across((event.at - first).total_seconds()), up(event.pulls)) for event in events]
    shapes: list[Shape] = [
        line(34, TOP + PLOT, width - 16, TOP + PLOT, "axis-line"),
        text(2, TOP + PLOT + 4, "0", "axis"),
        text(2, up(pulls) + 4, f"{pulls}", "axis") if pulls else text(2, TOP, "", "axis"),
        text(2, 11, "Pulls", "axis"),
        text(34, TOP + PLOT + 18, _day(first), "axis"),
        path(list(_risen(places)), "run"),
    ]
    if last > first:
        shapes.append(text(width - 16, TOP + PLOT + 18, _day(last), "axis", "end"))
    shapes += _marks(events, places)
    return Drawing(width, TOP + PLOT + 26, tuple(shapes))


def _risen(places: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Yield the corners of a line that rises at each pull and is level between."""
    before = places[0]
    yield before
    for x, y in places[1:]:
        if y != before[1]:
            yield x, before[1]
        yield x, y
        before = (x, y)


def _marks(events: Sequence[LifeEvent], places: Sequence[tuple[float, float]]) -> Iterator[Shape]:
    taken: list[tuple[float, float]] = []
    for event, (x, y) in zip(events, places, strict=True):
        while any(abs(x - other) < 12 and abs(y - height) < 12 for other, height in taken):
            y -= _STACK
        taken.append((x, y))
        words = f"{event.kind}, {_day(event.at)}, {event.pulls} pulls by then: {event.words}".rstrip(": ")
        yield mark(x, y, FORMS[event.kind], f"{words}{doubt_words(event.doubts)}", bool(event.doubts))
