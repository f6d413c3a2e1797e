"""A build as a recipe, its faults and pulls, and what was heard and read along the way."""

from __future__ import annotations

from datetime import datetime

from api.shapes.examples import BUILD, CHANGE, FAULT, MOULD, PHOTO, PULL, RECORD, STEP, TEXT, example
from api.shapes.record import RecordShape
from api.shapes.views import BuildShape, MouldShape, PhotoShape, Shape, StepShape, TranscriptShape


class TotalShape(Shape):
    """How much of a material went in, in `unit`, and per m2 when the mould's area is known."""

    name: str
    part: str | None
    unit: str
    amount: float
    per_m2: float | None
    step_ids: list[int]


class LayerTotalShape(Shape):
    """How many layers or coats of one thing went on; `gsm` is g/m2 of one layer."""

    name: str
    gsm: float | None
    count: float
    step_ids: list[int]


class FaultShape(Shape):
    """Something found wrong: its kind of observation, the words, and the places of its step."""

    model_config = example(FAULT)

    step_id: int
    note_id: int
    build_key: str
    at: datetime
    kind: str
    text: str
    places: list[str]
    on_pull: int | None


class PullShape(Shape):
    """A casting taken from a mould; `condition` holds the observations, as said."""

    model_config = example(PULL)

    step_id: int
    build_key: str
    number: int | None
    at: datetime
    condition: list[str]
    faults: list[str]


class RecipeShape(Shape):
    """What a build did and how it turned out: the steps done, those left out, and the totals of the done ones."""

    build: BuildShape
    mould: MouldShape
    steps: list[StepShape]
    left_out: list[StepShape]
    totals: list[TotalShape]
    layers: list[LayerTotalShape]
    faults: list[FaultShape]
    pulls: list[PullShape]


class SheetShape(Shape):
    """A build on one sheet. `steps` are all in force; `cautions` go with its materials and replace no data sheet."""

    model_config = example(
        {
            "recipe": {
                "build": BUILD,
                "mould": MOULD,
                "steps": [STEP],
                "left_out": [],
                "totals": [
                    {
                        "name": "polyester gel coat",
                        "part": None,
                        "unit": "g",
                        "amount": 1400.0,
                        "per_m2": 1000.0,
                        "step_ids": [31, 34],
                    }
                ],
                "layers": [{"name": "chopped strand mat", "gsm": 450.0, "count": 2.0, "step_ids": [36]}],
                "faults": [FAULT],
                "pulls": [PULL],
            },
            "steps": [STEP],
            "photos": [PHOTO],
            "cautions": ["Peroxide harms eyes: wear goggles."],
        }
    )

    recipe: RecipeShape
    steps: list[StepShape]
    photos: list[PhotoShape]
    cautions: list[str]


class HearingShape(Shape):
    """One hearing of a recording; the highest number is in force."""

    model_config = example(
        {
            "number": 1,
            "heard_at": CHANGE["at"],
            "transcript": {"text": TEXT, "words": [], "duration_s": 6.2, "model": "base int8", "doubts": []},
        }
    )

    number: int
    heard_at: datetime
    transcript: TranscriptShape


class ReadingShape(Shape):
    """One reading of a note, as read, before any correction."""

    model_config = example(
        {"number": 1, "read_at": CHANGE["at"], "reader_version": "1", "in_force": True, "records": [RECORD]}
    )

    number: int
    read_at: datetime
    reader_version: str
    in_force: bool
    records: list[RecordShape]
