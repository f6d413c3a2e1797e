"""The reference photo of a mould, and the pins on it."""

from __future__ import annotations

from fastapi import APIRouter
from pydantic import BaseModel, Field

from api.context import Now, ShopHere
from api.problems import Problem, problems
from api.shapes.examples import PHOTO, PIN, example
from api.shapes.views import PhotoShape, PinShape
from journal import flow
from journal.keep.views import NewPin
from journal.review.pinned import Marked

router = APIRouter(prefix="/api", tags=["pins"])


class ReferenceChoiceShape(BaseModel):
    """The photo that is to show where the places of a mould are."""

    model_config = example({"photo_id": 4, "who": "lead maker"})

    photo_id: int
    who: str | None = None


class MarkShape(BaseModel):
    """A pin with its number on the photo, and the ids of the steps, photos and faults (by step) at its place."""

    model_config = example({"number": 1, "pin": PIN, "steps": [31], "photos": [5], "faults": [40]})

    number: int
    pin: PinShape
    steps: list[int]
    photos: list[int]
    faults: list[int]

    @classmethod
    def of(cls, mark: Marked) -> MarkShape:
        """Return the shape of a mark."""
        return cls(
            number=mark.number,
            pin=PinShape.model_validate(mark.pin),
            steps=[step.id for step in mark.steps],
            photos=[photo.id for photo in mark.photos],
            faults=[fault.step_id for fault in mark.faults],
        )


class ReferenceShape(BaseModel):
    """A mould's reference photo and what is marked on it."""

    model_config = example(
        {"photo": PHOTO, "marks": [{"number": 1, "pin": PIN, "steps": [31], "photos": [5], "faults": [40]}]}
    )

    photo: PhotoShape
    marks: list[MarkShape]


class NewPinShape(BaseModel):
    """A place, or the fault found in a step, and where it is: fractions of the photo from its top left."""

    model_config = example({"place": "left scroll", "x": 0.31, "y": 0.52, "who": "second maker"})

    x: float = Field(ge=0, le=1)
    y: float = Field(ge=0, le=1)
    place: str | None = Field(default=None, max_length=200)
    step_id: int | None = None
    who: str | None = None


@router.get("/moulds/{mould_key}/reference", summary="The reference photo of a mould", responses=problems(404))
def reference(shop: ShopHere, mould_key: str) -> ReferenceShape:
    """Return the photo with its pins, and what is known of each place from all builds of the mould."""
    found = flow.pinned(shop, mould_key)
    if found is None:
        raise Problem(404, f"The mould {mould_key} has no reference photo yet: choose one of its photos.")
    return ReferenceShape(
        photo=PhotoShape.model_validate(found.photo), marks=[MarkShape.of(mark) for mark in found.marks]
    )


@router.put("/moulds/{mould_key}/reference", summary="Choose the reference photo", responses=problems(404, 422))
def choose(shop: ShopHere, now: Now, mould_key: str, said: ReferenceChoiceShape) -> PhotoShape:
    """Make a photo of the mould its reference photo; pins stay on the photos that they were set on."""
    return PhotoShape.model_validate(shop.store.set_reference(mould_key, said.photo_id, now, said.who))


@router.post("/photos/{photo_id}/pins", status_code=201, summary="Set a pin", responses=problems(404, 422))
def add(shop: ShopHere, now: Now, photo_id: int, said: NewPinShape) -> PinShape:
    """Pin a place or a fault on a photo; one that is pinned there already is moved."""
    pin = NewPin(said.x, said.y, said.place, said.step_id)
    return PinShape.model_validate(shop.store.add_pin(photo_id, pin, now, said.who))


@router.delete("/pins/{pin_id}", summary="Take a pin off", responses=problems(404))
def remove(shop: ShopHere, now: Now, pin_id: int) -> PinShape:
    """Take a pin off its photo; its place and its fault stay."""
    return PinShape.model_validate(shop.store.remove_pin(pin_id, now))
