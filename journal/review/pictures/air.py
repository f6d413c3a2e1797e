"""The temperature of the shop over a build, against the limits of its materials and the windows of its coats. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from journal.keep.views import StepView
from journal.review.builds import BuildRecord, materials_in
from journal.review.measures import SHOP_MOST_C
from journal.review.pictures.drawing import (
    NARROW,
    WIDE,
    Cell,
    Drawing,
    Picture,
    Scale,
    Shape,
    TimeScale,
    day_marks,
    doubt_words,
    doubts_in,
    line,
    mark,
    path,
    rect,
    text,
    time_scale,
)
from journal.review.pictures.timeline import Lane, lanes_of
from journal.trade.climate import AirLimits, limits_for
from journal.trade.material import Catalogue

TOP, PLOT, STRIP = 20.0, 150.0, 16.0
KEY = (
    ("point circle", "a temperature that was said, within the limits"),
    ("point triangle", "below the least or above the most"),
    ("limit-line", "the strictest limits of the materials used"),
    ("bar window", "from the earliest to the latest time of the next coat"),
    ("point circle doubt", "hollow: to be checked"),
)


@dataclass(frozen=True, slots=True)
class Said:
    """A temperature of the shop that was said, in degC."""

    at: datetime
    degc: float
    step_id: int
    doubts: tuple[str, ...]


def temperatures_of(record: BuildRecord, confirm_below: float) -> tuple[Said, ...]:
    """Return the temperatures of the shop said while a build was made; ovens and post-cures are not the shop."""
    return tuple(said for step in record.making for said in _said(step, confirm_below))


def _said(step: StepView, confirm_below: float) -> Iterator[Said]:
    if step.record.action == "post-cure":
        return
    for condition in step.record.conditions:
        if condition.kind == "temperature" and condition.of in (None, "shop") and condition.value <= SHOP_MOST_C:
            doubts = doubts_in(step, confirm_below, "conditions", "clock")
            yield Said(step.act_at, float(condition.value), step.id, doubts)


def limits_of(record: BuildRecord, catalogue: Catalogue) -> tuple[AirLimits | None, AirLimits | None]:
    """Return the strictest least and most of the materials that set in a build; None where nothing sets."""
    reacting = {m.name: m for step in record.making for m in materials_in(step.record, catalogue) if m.reacts}
    limits = [limits_for(material) for material in reacting.values()]
    if not limits:
        return None, None
    return max(limits, key=lambda each: each.least_c), min(limits, key=lambda each: each.most_c)


def temperature_chart(record: BuildRecord, catalogue: Catalogue, confirm_below: float) -> Picture:
    """Return the temperatures of a build against its limits and windows."""
    said = temperatures_of(record, confirm_below)
    least, most = limits_of(record, catalogue)
    lanes = lanes_of(record, catalogue, confirm_below)
    wrong = [f"{each.degc:g} degC on {each.at:%a %H:%M}" for each in said if _against(each, least, most)]
    told = f"Outside the limits: {', '.join(wrong)}." if wrong else "None is outside the limits."
    return Picture(
        name="temperature",
        title="Temperature against limits and windows",
        about=f"{len(said)} temperatures of the shop. {_limit_words(least, most)} {told}",
        drawings=tuple(draw(said, (least, most), lanes, width) for width in (NARROW, WIDE)) if said else (),
        key=KEY,
        head=("When", "Shop", "Against the limits"),
        rows=tuple(_row(each, least, most) for each in said),
        lacks="" if said else "No temperature of the shop is logged for this build.",
    )


def _limit_words(least: AirLimits | None, most: AirLimits | None) -> str:
    if least is None or most is None:
        return "No material that sets is named, so that no limit is known."
    return f"At least {least.least_c:g} degC ({_whose(least)}), at most {most.most_c:g} degC ({_whose(most)})."


def _whose(limits: AirLimits) -> str:
    usual = any("temperature" in name for name in limits.lacking)
    return f"{limits.material}{', the usual limit: the catalogue states none' if usual else ''}"


def _against(said: Said, least: AirLimits | None, most: AirLimits | None) -> str:
    if least is not None and said.degc < least.least_c:
        return f"{least.least_c - said.degc:g} degC too cold"
    if most is not None and said.degc > most.most_c:
        return f"{said.degc - most.most_c:g} degC too warm"
    return ""


def _row(said: Said, least: AirLimits | None, most: AirLimits | None) -> tuple[Cell, ...]:
    within = "within them" if least is not None else "no limit known"
    return (
        Cell(f"{said.at:%a} {said.at.day} {said.at:%b} {said.at:%H:%M}", said.step_id),
        Cell(f"{said.degc:g} degC{doubt_words(said.doubts)}"),
        Cell(_against(said, least, most) or within),
    )


def draw(
    said: Sequence[Said], limits: tuple[AirLimits | None, AirLimits | None], lanes: Sequence[Lane], width: float
) -> Drawing:
    """Return the temperatures over time, the limits across, and the windows of the coats in strips below."""
    least, most = limits
    values = [each.degc for each in said]
    values += [least.least_c] if least else []
    values += [most.most_c] if most and max(values) > most.most_c - 5 else []  # a limit far off only flattens it
    up = Scale(min(values) - 2, max(values) + 2, TOP + PLOT, TOP)
    windows = [lane for lane in lanes if any(time.look == "window" for time in lane.times)]
    across = time_scale([each.at for each in said] + [lane.at for lane in lanes], 34.0, width - 12.0)
    height = TOP + PLOT + 22 + STRIP * len(windows)
    shapes = [*day_marks(across, TOP + PLOT), *_limit_lines(least, most, up, width)]
    shapes += [text(2, up(value) + 4, f"{value:g}°", "axis") for value in _ticks(values)]
    shapes.append(path([(across(each.at), up(each.degc)) for each in said], "run"))
    for each in said:
        against = _against(each, least, most)
        words = f"{each.degc:g} degC, {each.at:%a %H:%M}{', ' + against if against else ''}{doubt_words(each.doubts)}"
        form = "triangle" if against else "circle"
        shapes.append(mark(across(each.at), up(each.degc), form, words, bool(each.doubts)))
    shapes += _strips(windows, across, TOP + PLOT)
    return Drawing(width, height, tuple(shapes))


def _limit_lines(least: AirLimits | None, most: AirLimits | None, up: Scale, width: float) -> Iterator[Shape]:
    if least is not None:
        y = up(least.least_c)
        yield line(34, y, width - 12, y, "limit-line", f"least {least.least_c:g} degC")
        yield text(width - 12, y + 13, f"least {least.least_c:g} °C", "axis", "end")
    if most is not None and not up.beyond(most.most_c):
        y = up(most.most_c)
        yield line(34, y, width - 12, y, "limit-line", f"most {most.most_c:g} degC")
        yield text(width - 12, y - 5, f"most {most.most_c:g} °C", "axis", "end")


def _ticks(values: Sequence[float]) -> list[float]:
    return sorted({min(values), max(values)})


def _strips(windows: Sequence[Lane], across: TimeScale, top: float) -> Iterator[Shape]:
    if windows:
        yield text(34, top + 15, "Windows of the next coat", "axis")
    for i, lane in enumerate(windows):
        y = top + 21 + STRIP * i
        for time in lane.times:
            begins, ends = across(time.begins), across(time.ends) if time.ends else across.spans[-1].end
            doubt = " doubt" if time.doubts else ""
            yield rect(begins, y, ends - begins, STRIP - 6, f"bar window{doubt}", f"on {lane.label}")
