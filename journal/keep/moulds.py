"""Moulds and their builds."""

from __future__ import annotations

import math
from dataclasses import asdict
from datetime import datetime
from typing import Any, cast

from sqlalchemy import Select, func, or_, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from journal.keep.history import History, write_down
from journal.keep.index import Entry, index
from journal.keep.tables import BuildRow, MouldRow, NoteRow, PhotoRow, StepRow
from journal.keep.texts import checked, checked_or_none, named
from journal.keep.times import Moment, local_or_none
from journal.keep.views import (
    MOULD_STATUSES,
    OUTCOMES,
    BuildView,
    Change,
    FieldError,
    MouldStatus,
    MouldView,
    NameTaken,
    NewMould,
    NotKept,
    Outcome,
)

_REMARKS_MOST = 10_000


class Moulds(History):
    """The part of the store that keeps moulds and builds. A key is an id, a key or a name."""

    def add_mould(self, mould: NewMould, at: datetime, who: str | None = None) -> MouldView:
        """Keep a mould. Raises NameTaken when there is one of that name, FieldError on a bad value."""
        row = _mould_row(mould)
        try:
            with self.writing() as session:
                if session.scalar(select(MouldRow.id).where(MouldRow.key == row.key)):
                    raise _taken("mould", row.name)
                session.add(row)
                session.flush()
                write_down(session, Change(at, who, "mould", row.id, "added", "", None, asdict(mould)))
                return _one_mould(session, row.id)
        except IntegrityError as error:
            raise _taken("mould", mould.name) from error

    def moulds(self) -> list[MouldView]:
        """Return all moulds by name."""
        with self.reading() as session:
            return [_mould_view(*found) for found in session.execute(_moulds().order_by(MouldRow.name))]

    def mould(self, key: str | int) -> MouldView:
        """Return one mould by id, key or name."""
        with self.reading() as session:
            return _one_mould(session, find_mould(session, key).id)

    def set_mould_status(
        self, key: str | int, status: MouldStatus, at: datetime, who: str | None = None, why: str = ""
    ) -> MouldView:
        """Say what the mould is now. The beginning and the outcome of a build say so as well."""
        if status not in MOULD_STATUSES:
            raise FieldError("status", f"{status!r} is none of: {', '.join(MOULD_STATUSES)}")
        with self.writing() as session:
            row = find_mould(session, key)
            _change_status(session, row, status, Change(at, who, "mould", row.id, "status", why, None, None))
            return _one_mould(session, row.id)

    def add_build(
        self,
        mould_key: str | int,
        started_at: datetime,
        name: str | None = None,
        remarks: str = "",
        who: str | None = None,
    ) -> BuildView:
        """Begin a build; without a name it is the mould's with the next number ("Niche 2").

        Raises NameTaken when there is a build of that name.
        """
        try:
            with self.writing() as session:
                mould = find_mould(session, mould_key)
                row = _build_row(session, mould, started_at, name, remarks)
                session.add(row)
                session.flush()
                after = {"mould": mould.name, "name": row.name, "remarks": row.remarks}
                write_down(session, Change(started_at, who, "build", row.id, "added", "", None, after))
                if mould.status == "planned":
                    why = f"{row.name} was begun"
                    change = Change(started_at, who, "mould", mould.id, "status", why, None, None)
                    _change_status(session, mould, "being made", change)
                index(session, [_build_entry(row)])
                return _one_build(session, row.id)
        except IntegrityError as error:
            raise _taken("build", name or "the next number") from error

    def build(self, key: str | int) -> BuildView:
        """Return one build by id, key or name."""
        with self.reading() as session:
            return _one_build(session, find_build(session, key).id)

    def builds(self, mould_key: str | int | None = None) -> list[BuildView]:
        """Return the builds, of one mould or of all, in the order they were started."""
        with self.reading() as session:
            found = _builds().order_by(BuildRow.started_at, BuildRow.id)
            if mould_key is not None:
                found = found.where(BuildRow.mould_id == find_mould(session, mould_key).id)
            return [_build_view(*each) for each in session.execute(found)]

    def set_outcome(
        self, build_key: str | int, outcome: Outcome, text: str, who: str | None, at: datetime
    ) -> BuildView:
        """Say how a build turned out; `text` is the reason in a person's words."""
        if outcome not in OUTCOMES:
            raise FieldError("outcome", f"{outcome!r} is none of: {', '.join(OUTCOMES)}")
        text = checked("text", text, _REMARKS_MOST)
        with self.writing() as session:
            row = find_build(session, build_key)
            before = {"outcome": row.outcome, "text": row.outcome_text}
            row.outcome, row.outcome_text = outcome, text
            row.outcome_moment, row.outcome_by = Moment.of(at), checked_or_none("who", who)
            after = {"outcome": outcome, "text": text}
            write_down(session, Change(at, who, "build", row.id, "outcome", text, before, after))
            status = _status_after(session, row)
            why = f"{row.name}: {outcome}"
            _change_status(session, row.mould, status, Change(at, who, "mould", 0, "status", why, None, None))
            index(session, [_build_entry(row)])
            return _one_build(session, row.id)


def find_mould(session: Session, key: str | int) -> MouldRow:
    """Return the row of a mould by id, key or name. Raises NotKept."""
    row = _found(session, MouldRow, key)
    if row is None:
        raise NotKept(f"there is no mould {key!r}; the moulds list names those there are")
    return cast(MouldRow, row)


def find_build(session: Session, key: str | int) -> BuildRow:
    """Return the row of a build by id, key or name. Raises NotKept."""
    row = _found(session, BuildRow, key)
    if row is None:
        raise NotKept(f"there is no build {key!r}; the page of its mould names those there are")
    return cast(BuildRow, row)


def _found(session: Session, table: type[MouldRow] | type[BuildRow], key: str | int) -> Any:
    if isinstance(key, int):
        return session.get(table, key)
    try:
        _, slug = named("key", key)
    except FieldError:
        return None
    row = session.scalar(select(table).where(or_(table.key == slug, table.name == key)))
    if row is None and key.isascii() and key.isdigit() and len(key) < 10:
        return session.get(table, int(key))
    return row


def _taken(noun: str, name: str) -> NameTaken:
    return NameTaken(f"there is a {noun} {name!r} already: choose another name")


def _mould_row(mould: NewMould) -> MouldRow:
    name, key = named("name", mould.name)
    if mould.pieces < 1:
        raise FieldError("pieces", f"{mould.pieces} is less than 1")
    if mould.area_m2 is not None and not (math.isfinite(mould.area_m2) and mould.area_m2 > 0):
        raise FieldError("area_m2", f"{mould.area_m2} is not more than 0")
    return MouldRow(
        key=key,
        name=name,
        pattern=checked("pattern", mould.pattern, _REMARKS_MOST),
        pieces=mould.pieces,
        size=checked("size", mould.size),
        area_m2=mould.area_m2,
        remarks=checked("remarks", mould.remarks, _REMARKS_MOST),
        status="planned",
    )


def _build_row(session: Session, mould: MouldRow, started_at: datetime, name: str | None, remarks: str) -> BuildRow:
    if name is None:
        number = 1 + len(session.scalars(select(BuildRow.id).where(BuildRow.mould_id == mould.id)).all())
        while session.scalar(select(BuildRow.id).where(BuildRow.key == f"{mould.key}-{number}")):
            number += 1
        name = f"{mould.name} {number}"
    name, key = named("name", name)
    if session.scalar(select(BuildRow.id).where(BuildRow.key == key)):
        raise _taken("build", name)
    return BuildRow(
        key=key,
        name=name,
        mould=mould,
        started=Moment.of(started_at),
        remarks=checked("remarks", remarks, _REMARKS_MOST),
        outcome="under way",
        outcome_text="",
    )


def _status_after(session: Session, build: BuildRow) -> MouldStatus:
    """Return what an outcome makes of the mould: a mould that is in use or put away stays so."""
    status = cast(MouldStatus, build.mould.status)
    if build.outcome == "worked":
        return status if status == "retired" else "in use"
    if status not in ("planned", "being made"):
        return status
    session.flush()
    under_way = select(BuildRow.id).where(BuildRow.mould_id == build.mould_id, BuildRow.outcome == "under way")
    return "planned" if session.scalar(under_way.limit(1)) is None else "being made"


def _change_status(session: Session, mould: MouldRow, status: MouldStatus, change: Change) -> None:
    if mould.status == status:
        return
    before, mould.status = mould.status, status
    write_down(
        session,
        Change(change.at, change.who, "mould", mould.id, "status", change.why, before, status),
    )


def _build_entry(row: BuildRow) -> Entry:
    texts = (row.name, row.mould.name, row.mould.pattern, row.remarks, row.outcome, row.outcome_text)
    text = " · ".join(dict.fromkeys(text for text in texts if text))
    return Entry("build", row.id, row.id, row.started.utc, text)


def _moulds() -> Select[Any]:
    builds = select(func.count()).where(BuildRow.mould_id == MouldRow.id).scalar_subquery()
    pulls = (
        select(func.count())
        .select_from(StepRow)
        .join(BuildRow, BuildRow.id == StepRow.build_id)
        .where(
            BuildRow.mould_id == MouldRow.id,
            StepRow.action == "pull",
            StepRow.status == "done",
            StepRow.in_force,
            ~StepRow.withdrawn,
        )
        .scalar_subquery()
    )
    return select(MouldRow, builds, pulls)


def _one_mould(session: Session, mould_id: int) -> MouldView:
    session.flush()
    return _mould_view(*session.execute(_moulds().where(MouldRow.id == mould_id)).one())


def _mould_view(row: MouldRow, builds: int, pulls: int) -> MouldView:
    return MouldView(
        id=row.id,
        key=row.key,
        name=row.name,
        pattern=row.pattern,
        pieces=row.pieces,
        size=row.size,
        area_m2=row.area_m2,
        remarks=row.remarks,
        status=cast(MouldStatus, row.status),
        builds=builds,
        pulls=pulls,
    )


def _builds() -> Select[Any]:
    notes = select(func.count()).where(NoteRow.build_id == BuildRow.id).scalar_subquery()
    steps = (
        select(func.count())
        .where(StepRow.build_id == BuildRow.id, StepRow.in_force, ~StepRow.withdrawn)
        .scalar_subquery()
    )
    photos = select(func.count()).where(PhotoRow.build_id == BuildRow.id).scalar_subquery()
    return select(BuildRow, notes, steps, photos)


def _one_build(session: Session, build_id: int) -> BuildView:
    session.flush()
    return _build_view(*session.execute(_builds().where(BuildRow.id == build_id)).one())


def _build_view(row: BuildRow, notes: int, steps: int, photos: int) -> BuildView:
    return BuildView(
        id=row.id,
        key=row.key,
        name=row.name,
        mould_id=row.mould_id,
        mould_key=row.mould.key,
        mould_name=row.mould.name,
        started_at=row.started.local,
        remarks=row.remarks,
        outcome=cast(Outcome, row.outcome),
        outcome_text=row.outcome_text,
        outcome_at=local_or_none(row.outcome_moment),
        outcome_by=row.outcome_by,
        notes=notes,
        steps=steps,
        photos=photos,
    )
