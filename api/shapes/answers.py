"""Answers, clocks, the arithmetic and the shelf, as the API sends them."""

from __future__ import annotations

from datetime import date, datetime

from pydantic import BaseModel, Field

from api.shapes.examples import example
from api.shapes.views import Shape
from journal.find.clock import BuildClocks, Clock, Outside
from journal.find.shelf import Tin

_CLOCK = {
    "kind": "recoat", "material": "epoxy gel coat", "started_at": "2026-11-23T14:15:00+00:00",
    "opens": "2026-11-23T15:01:30+00:00", "closes": "2026-11-23T18:54:00+00:00", "state": "open", "left_s": 3840.0,
    "source": "catalogue", "rule": "arrhenius", "degc": 19.0, "evidence": [53], "places": ["right half"], "doubts": [],
}  # fmt: skip
_OUTSIDE = {"step_id": 58, "below_id": 53, "below": "epoxy gel coat", "state": "late", "missed_by_s": 49860.0}


class AnswerShape(Shape):
    """An answer fit for reading aloud; `lacks` says what is missing when the question could not be answered."""

    model_config = example(
        {
            "text": "122 grams of hardener for 420 of epoxy gel coat, at 100 to 29 by weight, as said today.",
            "why": "100 to 29 by weight: as said today", "lacks": "", "numbers": {"second_g": 121.8, "main": 420.0},
            "evidence": [52],
        }
    )  # fmt: skip

    text: str
    why: str
    lacks: str
    numbers: dict[str, float]
    evidence: list[int]


class ClockShape(BaseModel):
    """A running clock: waiting before it opens, then open, ending near its end, and over."""

    model_config = example(_CLOCK)

    kind: str
    material: str
    started_at: datetime
    opens: datetime
    closes: datetime | None
    state: str
    left_s: float | None
    source: str
    rule: str
    degc: float | None
    evidence: list[int]
    places: list[str]
    doubts: list[str]

    @classmethod
    def of(cls, clock: Clock, now: datetime) -> ClockShape:
        """Return the clock as it stands now, in the offset of `now`."""
        left, closes = clock.left(now), clock.window.closes
        return cls(
            kind=clock.kind,
            material=clock.material,
            started_at=clock.started_at,
            opens=clock.window.opens.astimezone(now.tzinfo),
            closes=None if closes is None else closes.astimezone(now.tzinfo),
            state=clock.state(now),
            left_s=None if left is None else left.total_seconds(),
            source=clock.source,
            rule=clock.rule,
            degc=clock.degc,
            evidence=list(clock.evidence),
            places=list(clock.places),
            doubts=list(clock.doubts),
        )


class OutsideShape(BaseModel):
    """A coat that went on outside the window of the one below: early or late, and by how many seconds."""

    model_config = example(_OUTSIDE)

    step_id: int
    below_id: int
    below: str
    state: str
    missed_by_s: float

    @classmethod
    def of(cls, missed: Outside) -> OutsideShape:
        """Return the miss."""
        return cls(
            step_id=missed.step_id,
            below_id=missed.below_id,
            below=missed.below.material,
            state=missed.state,
            missed_by_s=missed.missed_by.total_seconds(),
        )


class ClocksShape(BaseModel):
    """The clocks of a build as they stood at `now`, in the order they began."""

    model_config = example({"now": "2026-11-23T17:50:00+00:00", "running": [_CLOCK], "outside": [_OUTSIDE]})

    now: datetime
    running: list[ClockShape]
    outside: list[OutsideShape]

    @classmethod
    def of(cls, clocks: BuildClocks, now: datetime) -> ClocksShape:
        """Return the clocks as they stand now."""
        running = [ClockShape.of(clock, now) for clock in clocks.running]
        return cls(now=now, running=running, outside=[OutsideShape.of(missed) for missed in clocks.outside])


class WeighingShape(Shape):
    """Weights in grams, main part first, as the scale can show them, and exactly."""

    model_config = example({"weights": [300.0, 87.0], "exact": [300.0, 87.0], "total": 387.0, "deviation_percent": 0.0})

    weights: list[float]
    exact: list[float]
    total: float
    deviation_percent: float


class VerdictShape(Shape):
    """How far each later part is off, percent; grams to add of each part; null when no tolerance was given."""

    model_config = example({"deviation_percent": [-21.43], "to_add_g": [0.0, 30.0], "within_tolerance": False})

    deviation_percent: list[float]
    to_add_g: list[float]
    within_tolerance: bool | None


class LaminateShape(Shape):
    """What a stack of plies takes and makes: grams, millimetres, and fractions of the whole."""

    model_config = example(
        {
            "glass_g": 630.0, "resin_g": 1470.0, "weight_g": 2100.0, "thickness_mm": 1.051,
            "glass_weight_fraction": 0.3, "glass_volume_fraction": 0.167,
        }
    )  # fmt: skip

    glass_g: float
    resin_g: float
    weight_g: float
    thickness_mm: float
    glass_weight_fraction: float
    glass_volume_fraction: float


class AirShape(Shape):
    """The dew point, the surface's margin above it, and what speaks against working."""

    model_config = example(
        {"dew_point_c": 8.34, "margin_c": 10.66, "objections": [], "limits": "the usual limits: the catalogue has none"}
    )

    dew_point_c: float
    margin_c: float
    objections: list[str]
    limits: str = ""


class FigureShape(Shape):
    """One figure of a sum, with its name and unit; the unit is empty for a count or a sum of money."""

    model_config = example({"name": "water", "value": 700.0, "unit": "g"})

    name: str
    value: float
    unit: str


class WorkedShape(Shape):
    """A sum worked out: its figures in the order to read them, and what is to be kept in mind."""

    model_config = example({"figures": [{"name": "water", "value": 700.0, "unit": "g"}], "remarks": []})

    figures: list[FigureShape]
    remarks: list[str]


class NewTinShape(BaseModel):
    """What a person states about a tin; stating it again replaces that."""

    model_config = example(
        {"material": "hardener", "number": "4471", "amount": 1000.0, "unit": "g", "use_by": "2027-03-31"}
    )

    material: str = Field(min_length=1, max_length=200)
    number: str = Field(min_length=1, max_length=100)
    part: str | None = None
    amount: float | None = Field(default=None, ge=0, le=1e7)
    unit: str | None = None
    use_by: date | None = None
    who: str | None = None


class TinShape(BaseModel):
    """A lot on the shelf, in grams; held and left are null when nobody stated what it held."""

    model_config = example(
        {
            "material": "hardener", "number": "4471", "part": None, "opened_at": "2026-11-23T14:05:00+00:00",
            "use_by": "2027-03-31", "held_g": 1000.0, "used_g": 315.0, "left_g": 685.0, "assumed_g": 228.0,
            "objections": [], "step_ids": [52],
        }
    )  # fmt: skip

    material: str
    number: str
    part: str | None
    opened_at: datetime | None
    use_by: date | None
    held_g: float | None
    used_g: float
    left_g: float | None
    assumed_g: float
    objections: list[str]
    step_ids: list[int]

    @classmethod
    def of(cls, tin: Tin) -> TinShape:
        """Return the tin."""
        return cls(
            material=tin.lot.material,
            number=tin.lot.number,
            part=tin.lot.part,
            opened_at=tin.lot.opened_at,
            use_by=tin.lot.use_by,
            held_g=tin.stock.held_g if tin.stock else None,
            used_g=tin.used_g,
            left_g=tin.stock.left_g if tin.stock else None,
            assumed_g=tin.assumed_g,
            objections=list(tin.objections),
            step_ids=list(tin.step_ids),
        )
