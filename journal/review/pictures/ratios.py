"""How far each batch was off the catalogue's ratio, against what the material bears. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from journal.keep.views import StepView
from journal.review.builds import BuildRecord
from journal.review.measures import Dose, measure
from journal.review.pictures.drawing import (
    BOLD_LETTER,
    LETTER,
    NARROW,
    WIDE,
    Cell,
    Drawing,
    Picture,
    Scale,
    Shape,
    doubt_words,
    doubts_in,
    fitted,
    line,
    mark,
    rect,
    text,
)
from journal.review.traits import USUAL_TOLERANCE, per_hundred_of
from journal.trade.material import Catalogue

ROW, TOP = 36.0, 20.0
LEAST_PERCENT, MOST_PERCENT = 15.0, 75.0  # further off than that is drawn at the edge, with its number
KEY = (
    ("band", "what the material bears"),
    ("point circle", "within it"),
    ("point diamond", "outside it"),
    ("point circle doubt", "hollow: to be checked"),
)


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch: its second part per hundred by weight, and what the catalogue has: `norm`, and `low` to `high` borne.

    Where the catalogue has no ratio but the range of the second part, `ranged` is True and `norm` its middle.
    `stated` says that the tolerance is the catalogue's own and no usual one.
    """

    step: StepView
    material: str
    second: str
    mixed: float
    norm: float
    low: float
    high: float
    ranged: bool
    stated: bool
    doubts: tuple[str, ...]

    @property
    def outside(self) -> bool:
        """Whether it is further off than the material bears."""
        return not self.low - 1e-9 <= self.mixed <= self.high + 1e-9

    @property
    def said(self) -> str:
        """How it stands to the catalogue, in words."""
        if self.ranged:
            return f"{self.mixed:.3g} per 100; {self.low:g} to {self.high:g}"
        return f"{self.percent(self.mixed):+.1f} %"

    def percent(self, per_hundred: float) -> float:
        """Return how far so much is off the norm, in percent."""
        return 100 * (per_hundred / self.norm - 1)


def batches_of(record: BuildRecord, catalogue: Catalogue, confirm_below: float) -> tuple[Batch, ...]:
    """Return the batches whose two parts are known, and whose ratio or range is in the catalogue."""
    steps = {step.id: step for step in record.steps}
    found = [_batch(dose, steps, catalogue, confirm_below) for dose in measure(record, catalogue).doses]
    return tuple(batch for batch in found if batch is not None)


def _batch(dose: Dose, steps: dict[int, StepView], catalogue: Catalogue, confirm_below: float) -> Batch | None:
    material, second = catalogue.get(dose.material), catalogue.get(dose.second)
    norm = per_hundred_of(material) if material is not None else None
    usual = second.percent_range if second is not None else None
    step, mixed = steps[dose.per_hundred.step_ids[0]], dose.per_hundred.value
    doubts = tuple(dict.fromkeys((*dose.per_hundred.doubts, *doubts_in(step, confirm_below, "materials", "ratio"))))
    if material is not None and norm:
        share = (material.tolerance_percent or USUAL_TOLERANCE) / 100
        low, high, stated = norm * (1 - share), norm * (1 + share), material.tolerance_percent is not None
    elif usual is not None:
        (low, high), stated = usual, True
    else:
        return None
    middle = norm or (low + high) / 2
    return Batch(step, dose.material, dose.second, mixed, middle, low, high, not norm, stated, doubts)


def ratio_chart(record: BuildRecord, catalogue: Catalogue, confirm_below: float) -> Picture:
    """Return the deviation of each batch from the catalogue's ratio."""
    batches = batches_of(record, catalogue, confirm_below)
    off = [batch for batch in batches if batch.outside]
    told = "; ".join(f"{batch.material}, {batch.said}" for batch in off)
    return Picture(
        name="ratios",
        title="Ratios against the catalogue",
        about=f"{len(batches)} batches. "
        + (f"Outside what the material bears: {told}." if told else "None is outside what the material bears."),
        drawings=tuple(draw(batches, width) for width in (NARROW, WIDE)) if batches else (),
        key=KEY,
        head=("Batch", "Mixed", "Catalogue", "Off", "Borne"),
        rows=tuple(_row(batch) for batch in batches),
        lacks="" if batches else "No batch is logged with both of its parts and a ratio or range in the catalogue.",
    )


def _row(batch: Batch) -> tuple[Cell, ...]:
    norm = f"{batch.low:g} to {batch.high:g}" if batch.ranged else f"{batch.norm:.3g}"
    borne = "the range" if batch.ranged else f"± {batch.percent(batch.high):.3g} %"
    off = "within the range" if batch.ranged else f"{batch.percent(batch.mixed):+.1f} %"
    return (
        Cell(f"{batch.material}, {batch.step.act_at:%a %H:%M}", batch.step.id),
        Cell(f"{batch.mixed:.3g} of {batch.second} per 100 by weight{doubt_words(batch.doubts)}"),
        Cell(norm),
        Cell(f"{'outside the range' if batch.ranged else off + ', outside'}" if batch.outside else off),
        Cell(f"{borne}{'' if batch.stated else ' (usual; the catalogue states none)'}"),
    )


def draw(batches: Sequence[Batch], width: float) -> Drawing:
    """Return a row a batch: its band of tolerance about nought, and its mark, in percent off the catalogue."""
    ends = [abs(batch.percent(value)) for batch in batches for value in (batch.low, batch.high, batch.mixed)]
    most = min(max(1.25 * max(ends), LEAST_PERCENT), MOST_PERCENT)
    scale = Scale(-most, most, 34.0, width - 34.0)
    height = TOP + ROW * len(batches) + 4
    shapes: list[Shape] = [
        line(scale(0), TOP - 4, scale(0), height, "axis-line"),
        text(scale(0), 11, "catalogue", "axis", "middle"),
        text(2, 11, f"{-most:.0f} %", "axis"),
        text(width - 2, 11, f"{most:+.0f} %", "axis", "end"),
    ]
    for i, batch in enumerate(batches):
        shapes += _drawn(batch, TOP + ROW * i, scale, width)
    return Drawing(width, height, tuple(shapes))


def _drawn(batch: Batch, y: float, scale: Scale, width: float) -> Iterator[Shape]:
    low, high = (scale(batch.percent(value)) for value in (batch.low, batch.high))
    said = f"{batch.said}{' ?' if batch.doubts else ''}"
    letter = BOLD_LETTER if batch.outside else LETTER
    room = (width - 8) / letter - len(said) - 2
    label = fitted(f"{batch.step.act_at:%H:%M} {batch.material}", LETTER * room)
    yield rect(low, y + 16, high - low, 14, "band", f"{batch.low:.3g} to {batch.high:.3g} per 100 is borne")
    yield text(2, y + 11, f"{label}: {said}", "label outside" if batch.outside else "label")
    words = f"{batch.material}: {batch.mixed:.3g} per 100, {batch.said}{doubt_words(batch.doubts)}"
    form = "diamond" if batch.outside else "circle"
    yield mark(scale(batch.percent(batch.mixed)), y + 23, form, words, bool(batch.doubts))
