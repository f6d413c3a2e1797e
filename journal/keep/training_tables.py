"""The tables of training: self-tests as they were marked, and what makers signed off. Both are only added to."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, composite, mapped_column, relationship

from journal.keep.tables import Base, BuildRow
from journal.keep.times import Moment


class TrainingTestRow(Base):
    """A self-test that an apprentice took, on one build or several, with every answer as it was marked."""

    __tablename__ = "training_test"
    __table_args__ = (Index(None, "apprentice", "build_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    apprentice: Mapped[str] = mapped_column(String(200))
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"), index=True)
    builds: Mapped[list[Any]]
    seed: Mapped[int]
    asked: Mapped[int]
    right: Mapped[int]
    answers: Mapped[list[Any]]
    taken_at: Mapped[datetime]
    taken_offset_s: Mapped[int]

    build: Mapped[BuildRow] = relationship(lazy="joined", innerjoin=True)
    taken: Mapped[Moment] = composite("taken_at", "taken_offset_s")


class SignOffRow(Base):
    """A maker's word that an apprentice can do an act of a build, or that it is taken back."""

    __tablename__ = "sign_off"
    __table_args__ = (
        Index(None, "apprentice", "build_id"),
        CheckConstraint("verdict IN ('signed', 'taken back')", name="verdict_known"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    apprentice: Mapped[str] = mapped_column(String(200))
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"), index=True)
    stage: Mapped[str] = mapped_column(String(40))
    item: Mapped[str] = mapped_column(Text)
    verdict: Mapped[str] = mapped_column(String(20))
    maker: Mapped[str] = mapped_column(String(200))
    remarks: Mapped[str] = mapped_column(Text)
    signed_at: Mapped[datetime]
    signed_offset_s: Mapped[int]

    build: Mapped[BuildRow] = relationship(lazy="joined", innerjoin=True)
    signed: Mapped[Moment] = composite("signed_at", "signed_offset_s")
