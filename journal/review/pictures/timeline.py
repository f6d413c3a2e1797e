"""The times of a build: its batches with their pot life, its coats with the window of the next, its demould. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from journal.find.clock import Clock, Outside
from journal.find.clocks import clocks_of
from journal.find.coats import coats, in_order, mixes
from journal.keep.views import StepView
from journal.review.builds import OPENING, BuildRecord
from journal.review.pictures.drawing import (
    BOLD_LETTER,
    LETTER,
    NARROW,
    WIDE,
    Cell,
    Drawing,
    Picture,
    Shape,
    day_marks,
    doubt_words,
    doubts_in,
    fitted,
    mark,
    rect,
    text,
    time_scale,
)
from journal.review.values import duration
from journal.trade.material import Catalogue

LANE, TOP = 36.0, 20.0
NOT_OPENED = "no opening is logged"
FORMS = {"": "circle", "early": "triangle", "late": "diamond"}
KEY = (
    ("point circle", "laid, mixed or opened; not known to be outside its time"),
    ("point triangle", "too early"),
    ("point diamond", "too late"),
    ("bar window", "from the earliest to the latest time of the next coat"),
    ("bar limit", "pot life and gel: to be used up by its end"),
    ("bar wait", "to be left until its end"),
    ("point circle doubt", "hollow: to be checked"),
)


@dataclass(frozen=True, slots=True)
class Time:
    """A clock as it is drawn: from when to when it says so; `ends` is None where it stays open."""

    kind: str
    look: str
    begins: datetime
    ends: datetime | None
    source: str
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lane:
    """One act on the time line with its clocks. `state` is early or late, `missed` by how much; else ""."""

    label: str
    at: datetime
    step_id: int
    times: tuple[Time, ...]
    state: str = ""
    missed: timedelta = timedelta()
    doubts: tuple[str, ...] = ()
    stands: str = "not known to have missed one"

    @property
    def told(self) -> str:
        """By how much it missed its window, in words; "" when it did not."""
        return f"{duration(self.missed.total_seconds())} too {self.state}" if self.state else ""


def lanes_of(record: BuildRecord, catalogue: Catalogue, confirm_below: float) -> tuple[Lane, ...]:
    """Return the batches, the coats and the opening of a build, in the order of the acts."""
    end = max((step.act_at for step in record.steps), default=record.build.started_at) + timedelta(seconds=1)
    done = in_order(record.steps, end)
    opened = next((step for step in done if step.record.action in OPENING), None)
    making = done if opened is None else done[: done.index(opened)]
    clocks = clocks_of(record.steps, catalogue, end)
    outside = {each.step_id: each for each in clocks.outside}
    lanes = [*_batches(making, catalogue, clocks.all, confirm_below)]
    lanes += _coats(making, catalogue, clocks.all, outside, confirm_below)
    lanes.sort(key=lambda lane: (lane.at, lane.step_id))
    return (*lanes, *_opening(opened, [step.id for step in making], clocks.all, confirm_below))


def _batches(
    making: Sequence[StepView], catalogue: Catalogue, clocks: Sequence[Clock], confirm_below: float
) -> Iterator[Lane]:
    for batch in mixes(making, catalogue):
        of_it = [c for c in clocks if c.evidence[0] == batch.step.id and c.kind in ("pot life", "gel")]
        times = tuple(Time(c.kind, "limit", c.started_at, c.window.closes, _source(c), c.doubts) for c in of_it)
        doubts = doubts_in(batch.step, confirm_below, "materials", "clock", "timings")
        yield Lane(f"Mixed: {batch.material.name}", batch.step.act_at, batch.step.id, times, doubts=doubts, stands="")


def _coats(
    making: Sequence[StepView],
    catalogue: Catalogue,
    clocks: Sequence[Clock],
    outside: dict[int, Outside],
    confirm_below: float,
) -> Iterator[Lane]:
    windows = {clock.evidence[0]: clock for clock in clocks if clock.kind == "recoat"}
    for coat in coats(making, catalogue):
        clock = windows.get(coat.step.id)
        times: tuple[Time, ...] = ()
        if clock is not None:
            window = clock.window
            times = (Time("next coat", "window", window.opens, window.closes, _source(clock), clock.doubts),)
        missed = outside.get(coat.step.id)
        doubts = doubts_in(coat.step, confirm_below, "materials", "layers", "clock", "timings")
        if missed is not None:
            doubts = tuple(dict.fromkeys((*doubts, *missed.below.doubts)))
        yield Lane(
            label=f"{coat.step.record.action.capitalize()}: {_laid(coat.step, coat.material.name)}",
            at=coat.step.act_at,
            step_id=coat.step.id,
            times=times,
            state=missed.state if missed else "",
            missed=missed.missed_by if missed else timedelta(),
            doubts=doubts,
        )


def _laid(step: StepView, name: str) -> str:
    glass = [layer.name for layer in step.record.layers]
    where = ", ".join(place.text for place in step.record.places)
    return f"{' and '.join(glass) or name}{f', {where}' if where else ''}"


def _opening(
    opened: StepView | None, making: Sequence[int], clocks: Sequence[Clock], confirm_below: float
) -> Iterator[Lane]:
    """Yield the opening against the last time to demould, or that time by itself while it is not opened."""
    setting = [c for c in clocks if c.kind in ("demould", "cure") and c.evidence[0] in making]
    last = max(setting, key=lambda clock: clock.window.opens, default=None)
    if opened is None and last is None:
        return
    times = () if last is None else (
        Time(last.kind, "wait", last.started_at, last.window.opens, _source(last), last.doubts),
    )  # fmt: skip
    if opened is None:
        assert last is not None
        yield Lane(
            "To be opened", last.window.opens, last.evidence[0], times, doubts=last.doubts, stands="not opened yet"
        )
        return
    early = last is not None and opened.act_at < last.window.opens
    missed = last.window.opens - opened.act_at if last is not None and early else timedelta()
    doubts = tuple(
        dict.fromkeys((*doubts_in(opened, confirm_below, "clock", "action"), *(last.doubts if last else ())))
    )
    stands = "no time to demould is known" if last is None else "after its time to demould"
    yield Lane("Opened", opened.act_at, opened.id, times, "early" if early else "", missed, doubts, stands)


def _source(clock: Clock) -> str:
    if clock.source == "said":
        return "as said"
    warmth = f" at {clock.degc:g} degC" if clock.degc is not None else ""
    return f"catalogue{warmth}, {clock.rule}"


def timeline(record: BuildRecord, catalogue: Catalogue, confirm_below: float) -> Picture:
    """Return the time line of a build."""
    lanes = lanes_of(record, catalogue, confirm_below)
    outside = [lane for lane in lanes if lane.state]
    told = "; ".join(f"{lane.label}, {lane.told}" for lane in outside)
    return Picture(
        name="timeline",
        title="Coats, windows and clocks",
        about=f"{len(lanes)} acts with their times. "
        + (f"Outside their time: {told}." if told else "None is known to be outside its time."),
        drawings=tuple(draw(lanes, width) for width in (NARROW, WIDE)) if lanes else (),
        key=KEY,
        head=("Act", "When", "Its times", "Against the window"),
        rows=tuple(_row(lane) for lane in lanes),
        lacks="" if lanes else "No batch, coat or opening is logged yet.",
    )


def _row(lane: Lane) -> tuple[Cell, ...]:
    times = "; ".join(f"{_told(time)} ({time.source}){doubt_words(time.doubts)}" for time in lane.times)
    return (
        Cell(lane.label, lane.step_id),
        Cell(_when(lane.at)),
        Cell(times or "none known"),
        Cell(f"{lane.told or lane.stands}{doubt_words(lane.doubts)}"),
    )


def _told(time: Time) -> str:
    if time.look != "window":
        return f"{time.kind} until {_when(time.ends)}" if time.ends else time.kind
    return f"{time.kind} from {_when(time.begins)}" + (f" to {_when(time.ends)}" if time.ends else ", no end known")


def _when(at: datetime) -> str:
    return f"{at:%a} {at.day} {at:%b} {at:%H:%M}"


def draw(lanes: Sequence[Lane], width: float) -> Drawing:
    """Return the lanes, one under the other: the words of each over its clocks and its mark."""
    scale = time_scale(_moments(lanes), 10.0, width - 10.0)
    height = TOP + LANE * len(lanes) + 4
    shapes: list[Shape] = [*day_marks(scale, height)]
    for i, lane in enumerate(lanes):
        y = TOP + LANE * i
        shapes.append(text(2, y + 11, _label(lane, width), "label outside" if lane.state else "label"))
        for time in lane.times:
            begins, ends = scale(time.begins), scale(time.ends) if time.ends else scale.spans[-1].end
            look = f"bar {time.look}{' doubt' if time.doubts else ''}"
            inset = 3.0 if time.kind == "gel" else 0.0
            shapes.append(rect(begins, y + 17 + inset, ends - begins, 12 - 2 * inset, look, _told(time)))
        if lane.stands == NOT_OPENED:
            continue  # it has a time, but nobody has done anything at it
        words = f"{lane.label}, {_when(lane.at)}{', ' + lane.told if lane.told else ''}{doubt_words(lane.doubts)}"
        shapes.append(mark(scale(lane.at), y + 23, FORMS[lane.state], words, bool(lane.doubts)))
    return Drawing(width, height, tuple(shapes))


def _label(lane: Lane, width: float) -> str:
    after = f" - {lane.told}" if lane.told else ""
    doubt = " ?" if lane.doubts else ""
    start = f"{lane.at:%H:%M} "
    letter = BOLD_LETTER if lane.state else LETTER
    room = (width - 8) / letter - len(start + after + doubt)
    return f"{start}{fitted(lane.label, LETTER * room)}{after}{doubt}"


def _moments(lanes: Iterable[Lane]) -> Iterator[datetime]:
    """Yield the times that the scale is made of: the acts, and the ends of what was limited by the pot."""
    for lane in lanes:
        yield lane.at
        yield from (time.ends for time in lane.times if time.look == "limit" and time.ends is not None)
