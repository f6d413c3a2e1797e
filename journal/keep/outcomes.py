"""The photos that show the faults found on a mould or a casting."""

from __future__ import annotations

from collections import defaultdict
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from journal.keep.history import History, write_down
from journal.keep.lookup import find_mould
from journal.keep.outcome_tables import FaultPhotoRow
from journal.keep.photos import find_photo, photo_view
from journal.keep.steps import NO_FAULT
from journal.keep.tables import BuildRow, StepRow
from journal.keep.views import Change, FieldError, NotKept, PhotoView


class Outcomes(History):
    """The part of the store that keeps which photo shows which fault."""

    def show_fault(self, step_id: int, photo_id: int, at: datetime, who: str | None = None) -> PhotoView:
        """Say that a photo shows the fault found in a step; saying so again changes nothing.

        Raises NotKept, FieldError for a photo of another mould and for a step in which nothing was found wrong.
        """
        try:
            with self.writing() as session:
                step, photo = session.get(StepRow, step_id), find_photo(session, photo_id)
                if step is None or step.withdrawn:
                    raise NotKept(f"there is no step {step_id}")
                if all(seen["kind"] in NO_FAULT for seen in step.record["observations"]):
                    raise FieldError("step_id", f"nothing was found wrong in step {step_id}")
                if step.note.build.mould_id != photo.build.mould_id:
                    raise FieldError("photo_id", f"photo {photo_id} is of the mould {photo.build.mould.name!r}")
                same = select(FaultPhotoRow).where(FaultPhotoRow.step_id == step.id, FaultPhotoRow.photo_id == photo.id)
                if session.scalar(same) is None:
                    session.add(FaultPhotoRow(step=step, photo=photo))
                    write_down(session, Change(at, who, "step", step.id, "photo added", "", None, photo.id))
                return photo_view(session, photo)
        except IntegrityError:  # another writer said the same in the same moment
            with self.reading() as session:
                return photo_view(session, find_photo(session, photo_id))

    def unshow_fault(self, step_id: int, photo_id: int, at: datetime, who: str | None = None) -> None:
        """Say that a photo does not show that fault; the photo stays, and so does the history. Raises NotKept."""
        with self.writing() as session:
            of_it = FaultPhotoRow.step_id == step_id, FaultPhotoRow.photo_id == photo_id
            row = session.scalar(select(FaultPhotoRow).where(*of_it))
            if row is None:
                raise NotKept(f"photo {photo_id} is not said to show the fault of step {step_id}")
            session.delete(row)
            write_down(session, Change(at, who, "step", step_id, "photo taken off", "", photo_id, None))

    def fault_photos(self, mould_key: str | int) -> dict[int, list[PhotoView]]:
        """Return the photos said to show the faults of a mould, by the id of the fault's step. Raises NotKept."""
        found: dict[int, list[PhotoView]] = defaultdict(list)
        with self.reading() as session:
            of_it = select(FaultPhotoRow).join(StepRow, StepRow.id == FaultPhotoRow.step_id)
            of_it = of_it.join(BuildRow, BuildRow.id == StepRow.build_id)
            of_it = of_it.where(BuildRow.mould_id == find_mould(session, mould_key).id)
            for row in session.scalars(of_it.order_by(FaultPhotoRow.id)):
                found[row.step_id].append(photo_view(session, row.photo))
        return dict(found)
