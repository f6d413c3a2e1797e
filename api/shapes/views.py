"""Moulds, builds, notes, steps, photos and changes: the store's views, as the API sends them."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from api.shapes.examples import BUILD, CHANGE, MOULD, NOTE, PHOTO, PIN, STEP, example
from api.shapes.record import RecordShape


class Shape(BaseModel):
    """A shape filled from the view of the same name."""

    model_config = ConfigDict(from_attributes=True)


class MouldShape(Shape):
    """A mould. `key` stands in addresses; `builds` counts its makings, `pulls` its castings; `area_m2` in m2."""

    model_config = example(MOULD)

    id: int
    key: str
    name: str
    pattern: str
    pieces: int
    size: str
    area_m2: float | None
    remarks: str
    status: str
    builds: int
    pulls: int


class BuildShape(Shape):
    """One making of a mould; notes, steps and photos are counts."""

    model_config = example(BUILD)

    id: int
    key: str
    name: str
    mould_key: str
    mould_name: str
    started_at: datetime
    remarks: str
    outcome: str
    outcome_text: str
    outcome_at: datetime | None
    outcome_by: str | None
    notes: int
    steps: int
    photos: int


class WordShape(Shape):
    """A heard word: its place in the text, its seconds, and how sure the hearing is of it."""

    text: str
    chars: tuple[int, int]
    start_s: float
    end_s: float
    probability: float


class TranscriptShape(Shape):
    """What was heard in a recording; an empty text means that no speech was found."""

    text: str
    words: list[WordShape]
    duration_s: float
    model: str
    doubts: list[str]


class ClipShape(Shape):
    """A recording as it was taken in; `time_source` is given, file or arrival; `warnings` say what may be missing."""

    sha256: str
    media_type: str
    size_bytes: int
    duration_s: float
    time_source: str
    warnings: list[str]


class NoteShape(Shape):
    """A note and how far it has come: kept, heard, read, or failed with the reason in `error`."""

    model_config = example(NOTE)

    id: int
    build_key: str
    recorded_at: datetime
    arrived_at: datetime
    who: str | None
    device: str | None
    client_key: str | None
    state: str
    error: str
    clip: ClipShape | None
    text: str | None
    transcript: TranscriptShape | None


class StepShape(Shape):
    """A step as it stands in `record`, and as it was first read; `act_at` is when it is taken to have happened."""

    model_config = example(STEP)

    id: int
    note_id: int
    build_key: str
    position: int
    recorded_at: datetime
    act_at: datetime
    record: RecordShape = Field(validation_alias="json")
    first_read: RecordShape
    corrected: bool
    confirmed_by: str | None
    confirmed_at: datetime | None
    withdrawn: bool


class PictureShape(Shape):
    """A picture as it was taken in; width and height are those of the upright picture, in pixels."""

    sha256: str
    media_type: str
    size_bytes: int
    width: int
    height: int
    taken_at: datetime
    time_source: str
    warnings: list[str]


class PinShape(Shape):
    """A place, or the fault found in a step, marked on a photo; x and y are fractions of it from the top left."""

    model_config = example(PIN)

    id: int
    place: str | None
    step_id: int | None
    label: str
    x: float
    y: float


class PhotoShape(Shape):
    """A photo of a build; `step_id` is the step nearest in time."""

    model_config = example(PHOTO)

    id: int
    build_key: str
    photo: PictureShape
    who: str | None
    place: str | None
    pins: list[PinShape]
    step_id: int | None


class ChangeShape(Shape):
    """One entry of the history: who changed what, when and why; before and after as JSON values."""

    model_config = example(CHANGE)

    at: datetime
    who: str | None
    noun: str
    noun_id: int
    what: str
    why: str
    before: Any
    after: Any
