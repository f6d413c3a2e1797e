"""Builds: the makings of a mould, and how each turned out."""

from __future__ import annotations

from datetime import datetime
from typing import Any, cast

from sqlalchemy import Select, func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from journal.keep.history import History, write_down
from journal.keep.index import Entry, index
from journal.keep.lookup import find_build, find_mould, taken
from journal.keep.moulds import change_status
from journal.keep.tables import BuildRow, MouldRow, NoteRow, PhotoRow, StepRow
from journal.keep.texts import checked, checked_or_none, named
from journal.keep.times import Moment, local_or_none
from journal.keep.views import OUTCOMES, BuildView, Change, FieldError, MouldStatus, Outcome

_REMARKS_MOST = 10_000


class Builds(History):
    """The part of the store that keeps builds. A key is an id, a key or a name."""

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
                session.refresh(mould, with_for_update=True)  # two builds begun at once are numbered apart
                row = _build_row(session, mould, started_at, name, remarks)
                session.add(row)
                session.flush()
                after = {"mould": mould.name, "name": row.name, "remarks": row.remarks}
                write_down(session, Change(started_at, who, "build", row.id, "added", "", None, after))
                if mould.status == "planned":
                    why = f"{row.name} was begun"
                    change = Change(started_at, who, "mould", mould.id, "status", why, None, None)
                    change_status(session, mould, "being made", change)
                index(session, [build_entry(row)])
                return _one_build(session, row.id)
        except IntegrityError as error:
            raise taken("build", name or "the next number") from error

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
            change_status(session, row.mould, status, Change(at, who, "mould", 0, "status", why, None, None))
            index(session, [build_entry(row)])
            return _one_build(session, row.id)


def _build_row(session: Session, mould: MouldRow, started_at: datetime, name: str | None, remarks: str) -> BuildRow:
    if name is None:
        number = 1 + len(session.scalars(select(BuildRow.id).where(BuildRow.mould_id == mould.id)).all())
        while session.scalar(select(BuildRow.id).where(BuildRow.key == f"{mould.key}-{number}")):
            number += 1
        name = f"{mould.name} {number}"
    name, key = named("name", name)
    if session.scalar(select(BuildRow.id).where(BuildRow.key == key)):
        raise taken("build", name)
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


def build_entry(row: BuildRow) -> Entry:
    """Return what the full-text index holds of a build."""
    mould = row.mould.name if row.mould.name not in row.name else ""
    texts = (row.name, mould, row.mould.pattern, row.remarks, row.outcome, row.outcome_text)
    text = " · ".join(dict.fromkeys(text for text in texts if text))
    return Entry("build", row.id, row.id, row.started.utc, text)


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
