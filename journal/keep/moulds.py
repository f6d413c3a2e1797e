"""Moulds."""

from __future__ import annotations

import math
from dataclasses import asdict
from datetime import datetime
from typing import Any, cast

from sqlalchemy import Select, func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from journal.keep.history import History, write_down
from journal.keep.lookup import find_mould, taken
from journal.keep.tables import BuildRow, MouldRow, StepRow
from journal.keep.texts import checked, named
from journal.keep.views import (
    MOULD_STATUSES,
    Change,
    FieldError,
    MouldStatus,
    MouldView,
    NewMould,
)

_REMARKS_MOST = 10_000


class Moulds(History):
    """The part of the store that keeps moulds. A key is an id, a key or a name."""

    def add_mould(self, mould: NewMould, at: datetime, who: str | None = None) -> MouldView:
        """Keep a mould. Raises NameTaken when there is one of that name, FieldError on a bad value."""
        row = _mould_row(mould)
        try:
            with self.writing() as session:
                if session.scalar(select(MouldRow.id).where(MouldRow.key == row.key)):
                    raise taken("mould", row.name)
                session.add(row)
                session.flush()
                write_down(session, Change(at, who, "mould", row.id, "added", "", None, asdict(mould)))
                return _one_mould(session, row.id)
        except IntegrityError as error:
            raise taken("mould", mould.name) from error

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
            change_status(session, row, status, Change(at, who, "mould", row.id, "status", why, None, None))
            return _one_mould(session, row.id)


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


def change_status(session: Session, mould: MouldRow, status: MouldStatus, change: Change) -> None:
    """Set a mould's status; `change` says when, by whom and why. Nothing is written when it is the same."""
    if mould.status == status:
        return
    before, mould.status = mould.status, status
    write_down(
        session,
        Change(change.at, change.who, "mould", mould.id, "status", change.why, before, status),
    )


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
