"""Photos of a build, the step each one is near, and places pinned on them."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from journal.keep.history import History, write_down
from journal.keep.lookup import find_build, find_mould, kept_before
from journal.keep.packing import pack_photo, unpack_photo
from journal.keep.steps import NO_FAULT, standing_steps
from journal.keep.tables import BuildRow, MouldRow, PhotoRow, PinRow, PlaceRow, StepRow
from journal.keep.texts import checked, checked_or_none
from journal.keep.times import Moment
from journal.keep.views import Change, FieldError, NewPhoto, NotKept, PhotoView, PinView


class Photos(History):
    """The part of the store that keeps photos and places."""

    def add_photo(self, build_key: str | int, photo: NewPhoto) -> tuple[PhotoView, bool]:
        """Keep a photo; False says that it was kept before (same bytes in this build, or same client key).

        Raises KeyReused when the client key comes with another picture.
        """
        new = _photo_row(photo)
        try:
            with self.writing() as session:
                build = find_build(session, build_key)
                kept = kept_before(session, build.id, new, PhotoRow.media_sha256)
                if kept is not None:
                    return photo_view(session, kept), False
                new.build = build
                if photo.place:
                    new.place = place_row(session, build.mould_id, photo.place)
                session.add(new)
                session.flush()
                after = {"build": build.key, "content": new.media_sha256, "place": photo.place}
                at = photo.arrived_at or photo.photo.taken_at
                write_down(session, Change(at, new.who, "photo", new.id, "added", "", None, after))
                return photo_view(session, new), True
        except IntegrityError:  # another writer kept the same photo in the same moment
            with self.reading() as session:
                build = find_build(session, build_key)
                kept = kept_before(session, build.id, _photo_row(photo), PhotoRow.media_sha256)
                if kept is None:
                    raise
                return photo_view(session, kept), False

    def photo(self, photo_id: int) -> PhotoView:
        """Return one photo."""
        with self.reading() as session:
            row = find_photo(session, photo_id)
            return photo_view(session, row)

    def photo_sent_as(self, client_key: str) -> PhotoView | None:
        """Return the photo that was sent under this key, or None when there is none yet."""
        with self.reading() as session:
            row = session.scalar(select(PhotoRow).where(PhotoRow.client_key == client_key))
            return None if row is None else photo_view(session, row)

    def photos(self, build_key: str | int) -> list[PhotoView]:
        """Return a build's photos in the order they were taken."""
        with self.reading() as session:
            build = find_build(session, build_key)
            acts = _acts(session, build.id)
            of_it = select(PhotoRow).where(PhotoRow.build_id == build.id)
            in_order = of_it.order_by(PhotoRow.taken_at, PhotoRow.id)
            return [_view_near(row, acts) for row in session.scalars(in_order)]

    def place_photo(
        self,
        photo_id: int,
        place: str,
        at: datetime,
        x: float | None = None,
        y: float | None = None,
        who: str | None = None,
    ) -> PhotoView:
        """Say which place of the mould a photo shows; with x and y, pin the place on it."""
        if (x is None) != (y is None):
            raise FieldError("x" if x is None else "y", "give both x and y, or neither")
        with self.writing() as session:
            row = find_photo(session, photo_id)
            before = {"place": row.place.name if row.place else None}
            row.place = place_row(session, row.build.mould_id, place)
            if x is not None and y is not None:
                _pin(row, row.place, _fraction("x", x), _fraction("y", y))
            session.flush()
            after = {"place": row.place.name, "x": x, "y": y}
            write_down(session, Change(at, who, "photo", row.id, "placed", "", before, after))
            return photo_view(session, row)

    def places(self, mould_key: str | int) -> list[str]:
        """Return the places named on a mould, on photos and in steps, by name."""
        with self.reading() as session:
            mould = find_mould(session, mould_key)
            names = set(session.scalars(select(PlaceRow.name).where(PlaceRow.mould_id == mould.id)))
            of_it = standing_steps().join(BuildRow, BuildRow.id == StepRow.build_id)
            for step in session.scalars(of_it.where(BuildRow.mould_id == mould.id)):
                names.update(place_name(place["text"]) for place in step.record["places"])
            return sorted(names)


def find_photo(session: Session, photo_id: int) -> PhotoRow:
    """Return the row of a photo. Raises NotKept."""
    row = session.get(PhotoRow, photo_id)
    if row is None:
        raise NotKept(f"there is no photo {photo_id}")
    return row


def _photo_row(photo: NewPhoto) -> PhotoRow:
    return PhotoRow(
        media_sha256=photo.photo.sha256,
        client_key=checked_or_none("client_key", photo.client_key),
        photo=pack_photo(photo.photo),
        taken=Moment.of(photo.photo.taken_at),
        who=checked_or_none("who", photo.who),
        device=checked_or_none("device", photo.device),
    )


def place_name(text: str) -> str:
    """Return a place as it is kept: lower case, single blanks."""
    return " ".join(text.casefold().split())


def place_row(session: Session, mould_id: int, place: str) -> PlaceRow:
    """Return the row of a mould's place, a new one when it was not named before. Raises FieldError."""
    name = place_name(checked("place", place))
    if not name:
        raise FieldError("place", "is empty: name a region of the mould")
    session.get(MouldRow, mould_id, with_for_update=True)  # two who name a new place at once make one
    row = session.scalar(select(PlaceRow).where(PlaceRow.mould_id == mould_id, PlaceRow.name == name))
    return row or PlaceRow(mould_id=mould_id, name=name)


def _fraction(field: str, value: float) -> float:
    if not 0 <= value <= 1:
        raise FieldError(field, f"{value} is not a fraction of the picture, from 0 to 1")
    return value


def _pin(row: PhotoRow, place: PlaceRow, x: float, y: float) -> None:
    for pin in row.pins:
        if pin.place is place:
            pin.x, pin.y = x, y
            return
    row.pins.append(PinRow(place=place, x=x, y=y))


def _acts(session: Session, build_id: int) -> list[tuple[datetime, int]]:
    """Return when each of a build's steps took place, in UTC, with its id, in the order spoken."""
    of_it = standing_steps().where(StepRow.build_id == build_id, StepRow.status == "done")
    times = of_it.with_only_columns(StepRow.act_at, StepRow.id, maintain_column_froms=True)
    return [(at, step_id) for at, step_id in session.execute(times)]


def photo_view(session: Session, row: PhotoRow) -> PhotoView:
    """Return the view of a photo, near its step."""
    return _view_near(row, _acts(session, row.build_id))


def _view_near(row: PhotoRow, acts: list[tuple[datetime, int]]) -> PhotoView:
    nearest = min(acts, key=lambda act: abs(act[0] - row.taken.utc), default=None)
    return PhotoView(
        id=row.id,
        build_id=row.build_id,
        build_key=row.build.key,
        photo=unpack_photo(row.photo),
        who=row.who,
        place=row.place.name if row.place else None,
        pins=tuple(pin_view(pin) for pin in row.pins),
        step_id=nearest[1] if nearest else None,
    )


def pin_view(row: PinRow) -> PinView:
    """Return the view of a pin."""
    place = row.place.name if row.place else None
    seen = row.step.record["observations"] if row.step else []
    faults = [f"{each['kind']}: {each['text']}" for each in seen if each["kind"] not in NO_FAULT]
    return PinView(place, row.x, row.y, row.id, row.step_id, "; ".join(faults))
