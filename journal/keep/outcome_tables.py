"""The table of photos that show a fault."""

from __future__ import annotations

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from journal.keep.tables import Base, PhotoRow, StepRow


class FaultPhotoRow(Base):
    """A photo that shows what was found wrong in a step."""

    __tablename__ = "fault_photo"
    __table_args__ = (UniqueConstraint("step_id", "photo_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    step_id: Mapped[int] = mapped_column(ForeignKey("step.id"))
    photo_id: Mapped[int] = mapped_column(ForeignKey("photo.id"), index=True)

    photo: Mapped[PhotoRow] = relationship(lazy="joined", innerjoin=True)
    step: Mapped[StepRow] = relationship()
