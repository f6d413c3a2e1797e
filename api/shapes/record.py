"""What the API sends: the step record's contract, as models that OpenAPI can show."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from pydantic import BaseModel, Field

Status = Literal["done", "planned", "advised", "not done"]


class Sourced(BaseModel):
    """A value with the words it came from: `chars` in the note's text, `audio` seconds in its recording."""

    heard: str
    chars: tuple[int, int]
    audio: tuple[float, float] | None = None
    confidence: float = Field(ge=0, le=1)
    rule: str = ""


class MaterialShape(Sourced):
    """A material; `unit` is g, ml, percent, m2, mm or count."""

    name: str
    part: str | None = None
    amount: float | None = None
    amount_most: float | None = None
    unit: str | None = None
    lot: str | None = None


class RatioShape(Sourced):
    """Parts in the order main : second, `by` weight or volume where it was said."""

    parts: list[float]
    by: str | None = None
    derived: bool = False


class LayerShape(Sourced):
    """Layers or coats; `gsm` is the areal weight in g/m2."""

    name: str
    count: float | None = None
    gsm: float | None = None


class TimingShape(Sourced):
    """A duration as [least, most] seconds; null is an open end."""

    kind: str
    seconds: tuple[float | None, float | None]


class ClockShape(Sourced):
    """A point in time: start, end or due."""

    kind: str
    at: datetime


class ConditionShape(Sourced):
    """A measured state, `of` the shop, resin, oven or mould where it was said."""

    kind: str
    value: float
    unit: str
    of: str | None = None


class PhraseShape(Sourced):
    """Words kept as they were said."""

    text: str


class ObservationShape(PhraseShape):
    """What was seen or felt."""

    kind: str


class FlagShape(BaseModel):
    """What a careful foreman would query."""

    field: str
    why: str


class RecordShape(Sourced):
    """A step record: one act of the trade."""

    action: str
    status: Status
    materials: list[MaterialShape] = []
    ratio: RatioShape | None = None
    layers: list[LayerShape] = []
    timings: list[TimingShape] = []
    clock: list[ClockShape] = []
    conditions: list[ConditionShape] = []
    places: list[PhraseShape] = []
    reasons: list[PhraseShape] = []
    cues: list[PhraseShape] = []
    warnings: list[PhraseShape] = []
    observations: list[ObservationShape] = []
    flags: list[FlagShape] = []
    pull: int | None = None
    who: str | None = None
