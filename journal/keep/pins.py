"""The reference photo of a mould, and the pins on photos: places of the mould, and faults found on it."""

from __future__ import annotations

import math
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from journal.keep.history import History, write_down
from journal.keep.lookup import find_mould
from journal.keep.photos import find_photo, photo_view, pin_view, place_row
from journal.keep.steps import NO_FAULT
from journal.keep.tables import PhotoRow, PinRow, ReferenceRow, StepRow
from journal.keep.views import Change, FieldError, NewPin, NotKept, PhotoView, PinView


class Pins(History):
    """The part of the store that knows where things are on a mould."""

    def set_reference(self, mould_key: str | int, photo_id: int, at: datetime, who: str | None = None) -> PhotoView:
        """Make a photo the one that shows where a mould's places are; pins belong to their photo and stay on it.

        Raises NotKept, FieldError for a photo of another mould.
        """
        with self.writing() as session:
            mould, photo = find_mould(session, mould_key), find_photo(session, photo_id)
            if photo.build.mould_id != mould.id:
                raise FieldError("photo_id", f"photo {photo_id} is of the mould {photo.build.mould.name!r}")
            row = _reference(session, mould.id)
            before = row.photo_id if row else None
            if row is None:
                row = ReferenceRow(mould_id=mould.id)
                session.add(row)
            row.photo_id = photo.id
            session.flush()
            if before != photo.id:
                write_down(session, Change(at, who, "mould", mould.id, "reference photo", "", before, photo.id))
            return photo_view(session, photo)

    def reference(self, mould_key: str | int) -> PhotoView | None:
        """Return the reference photo of a mould with its pins, None when none was chosen."""
        with self.reading() as session:
            row = _reference(session, find_mould(session, mould_key).id)
            return None if row is None else photo_view(session, find_photo(session, row.photo_id))

    def add_pin(self, photo_id: int, pin: NewPin, at: datetime, who: str | None = None) -> PinView:
        """Pin a place or a fault on a photo; one that is pinned there already is moved. Raises NotKept, FieldError."""
        if (pin.place is None) == (pin.step_id is None):
            raise FieldError("place", "give either the name of a place, or the fault that was found there")
        for field, value in (("x", pin.x), ("y", pin.y)):
            if not (math.isfinite(value) and 0 <= value <= 1):
                raise FieldError(field, f"{value} is not a fraction of the picture, from 0 to 1")
        with self.writing() as session:
            photo = find_photo(session, photo_id)
            row = _row_for(session, photo, pin)
            before = None if row.id is None else [row.x, row.y]
            row.x, row.y = pin.x, pin.y
            session.add(row)
            session.flush()
            view = pin_view(row)
            after = {"pin": view.label, "x": pin.x, "y": pin.y}
            write_down(session, Change(at, who, "photo", photo.id, "pinned", "", before, after))
            return view

    def remove_pin(self, pin_id: int, at: datetime, who: str | None = None) -> PinView:
        """Take a pin off its photo; its place and its fault stay. Raises NotKept."""
        with self.writing() as session:
            row = session.get(PinRow, pin_id)
            if row is None:
                raise NotKept(f"there is no pin {pin_id}")
            view, photo_id = pin_view(row), row.photo_id
            session.delete(row)
            before = {"pin": view.label, "x": view.x, "y": view.y}
            write_down(session, Change(at, who, "photo", photo_id, "unpinned", "", before, None))
            return view

    def photo_of_pin(self, pin_id: int) -> PhotoView:
        """Return the photo that a pin is on. Raises NotKept."""
        with self.reading() as session:
            row = session.get(PinRow, pin_id)
            if row is None:
                raise NotKept(f"there is no pin {pin_id}")
            return photo_view(session, find_photo(session, row.photo_id))


def _reference(session: Session, mould_id: int) -> ReferenceRow | None:
    return session.scalar(select(ReferenceRow).where(ReferenceRow.mould_id == mould_id))


def _row_for(session: Session, photo: PhotoRow, pin: NewPin) -> PinRow:
    """Return the row of this place or fault on the photo, a new one when it is not pinned there."""
    if pin.place is not None:
        place = place_row(session, photo.build.mould_id, pin.place)
        there = next((row for row in photo.pins if row.place is not None and row.place is place), None)
        return there or PinRow(photo_id=photo.id, place=place)
    step = session.get(StepRow, pin.step_id)
    if step is None or step.withdrawn:
        raise NotKept(f"there is no step {pin.step_id}")
    if step.note.build.mould_id != photo.build.mould_id:
        raise FieldError("step_id", f"step {step.id} is of the mould {step.note.build.mould.name!r}")
    if all(each["kind"] in NO_FAULT for each in step.record["observations"]):
        raise FieldError("step_id", f"nothing was found wrong in step {step.id}")
    there = next((row for row in photo.pins if row.step_id == step.id), None)
    return there or PinRow(photo_id=photo.id, step=step)
