"""The tables of plans: what a build is to be made by, and what was said to leave out. Both are only added to."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, composite, mapped_column, relationship

from journal.keep.tables import Base, BuildRow
from journal.keep.times import Moment


class PlanRow(Base):
    """A plan of a build, made from another build's recipe; the latest of a build is in force."""

    __tablename__ = "plan"

    id: Mapped[int] = mapped_column(primary_key=True)
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"), index=True)
    recipe_id: Mapped[int] = mapped_column(ForeignKey("build.id"), index=True)
    scaled: Mapped[dict[str, Any]]
    steps: Mapped[list[Any]]
    who: Mapped[str | None] = mapped_column(String(200))
    started_at: Mapped[datetime]
    started_offset_s: Mapped[int]

    build: Mapped[BuildRow] = relationship(foreign_keys=[build_id], lazy="joined", innerjoin=True)
    recipe: Mapped[BuildRow] = relationship(foreign_keys=[recipe_id], lazy="joined", innerjoin=True)
    started: Mapped[Moment] = composite("started_at", "started_offset_s")


class PlanSkipRow(Base):
    """A step of a plan that was said to be skipped; the words are kept, and the note if it was said in one."""

    __tablename__ = "plan_skip"
    __table_args__ = (Index(None, "plan_id", "number", unique=True),)

    id: Mapped[int] = mapped_column(primary_key=True)
    plan_id: Mapped[int] = mapped_column(ForeignKey("plan.id"))
    number: Mapped[int]
    words: Mapped[str] = mapped_column(Text)
    note_id: Mapped[int | None] = mapped_column(ForeignKey("note.id"), index=True)
    who: Mapped[str | None] = mapped_column(String(200))
    skipped_at: Mapped[datetime]
    skipped_offset_s: Mapped[int]

    skipped: Mapped[Moment] = composite("skipped_at", "skipped_offset_s")
