"""The tables. Rows never leave the store; it gives out the views of `views.py`.

Transcripts, readings, first-read steps and changes are only ever added. `step.record` is what stands,
`step.first_read` what was read; `step_material` and `step_observation` repeat the parts of the record
that are asked for, and are written in the same transaction.
"""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Double,
    ForeignKey,
    Index,
    MetaData,
    String,
    Text,
    UniqueConstraint,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, composite, mapped_column, relationship

from journal.keep.times import Moment, UtcDateTime
from journal.keep.views import MOULD_STATUSES, NOTE_STATES, OUTCOMES

_NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


def _one_of(column: str, values: tuple[str, ...]) -> CheckConstraint:
    listed = ", ".join(f"'{value}'" for value in values)
    return CheckConstraint(f"{column} IN ({listed})", name=f"{column}_known")


class Base(DeclarativeBase):
    """The base of every table: one naming rule for constraints, times always aware."""

    metadata = MetaData(naming_convention=_NAMES)
    type_annotation_map = {  # noqa: RUF012 (SQLAlchemy reads it off the class)
        datetime: UtcDateTime(),
        float: Double(),
        dict[str, Any]: JSON(),
        list[Any]: JSON(),
    }


class MouldRow(Base):
    """A mould."""

    __tablename__ = "mould"
    __table_args__ = (_one_of("status", MOULD_STATUSES),)

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(String(200), unique=True)
    name: Mapped[str] = mapped_column(String(200), unique=True)
    pattern: Mapped[str] = mapped_column(Text)
    pieces: Mapped[int]
    size: Mapped[str] = mapped_column(Text)
    area_m2: Mapped[float | None]
    remarks: Mapped[str] = mapped_column(Text)
    status: Mapped[str] = mapped_column(String(20))


class BuildRow(Base):
    """One making of a mould."""

    __tablename__ = "build"
    __table_args__ = (_one_of("outcome", OUTCOMES),)

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(String(200), unique=True)
    name: Mapped[str] = mapped_column(String(200), unique=True)
    mould_id: Mapped[int] = mapped_column(ForeignKey("mould.id"), index=True)
    started_at: Mapped[datetime]
    started_offset_s: Mapped[int]
    remarks: Mapped[str] = mapped_column(Text)
    outcome: Mapped[str] = mapped_column(String(20), index=True)
    outcome_text: Mapped[str] = mapped_column(Text)
    outcome_at: Mapped[datetime | None]
    outcome_offset_s: Mapped[int | None]
    outcome_by: Mapped[str | None] = mapped_column(String(200))

    mould: Mapped[MouldRow] = relationship(lazy="joined", innerjoin=True)
    started: Mapped[Moment] = composite("started_at", "started_offset_s")
    outcome_moment: Mapped[Moment | None] = composite("outcome_at", "outcome_offset_s")


class NoteRow(Base):
    """A note. `content` is the sum that makes the same bytes in one build the same note."""

    __tablename__ = "note"
    __table_args__ = (
        UniqueConstraint("build_id", "content"),
        Index(None, "build_id", "recorded_at"),
        Index(None, "state", "recorded_at"),
        _one_of("state", NOTE_STATES),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"))
    content: Mapped[str] = mapped_column(String(64))
    client_key: Mapped[str | None] = mapped_column(String(200), unique=True)
    recorded_at: Mapped[datetime]
    recorded_offset_s: Mapped[int]
    arrived_at: Mapped[datetime]
    arrived_offset_s: Mapped[int]
    who: Mapped[str | None] = mapped_column(String(200))
    device: Mapped[str | None] = mapped_column(String(200))
    clip: Mapped[dict[str, Any] | None] = mapped_column(JSON(none_as_null=True))
    media_sha256: Mapped[str | None] = mapped_column(String(64), index=True)
    typed_text: Mapped[str | None] = mapped_column(Text)
    state: Mapped[str] = mapped_column(String(20))
    error: Mapped[str] = mapped_column(Text)

    build: Mapped[BuildRow] = relationship(lazy="joined", innerjoin=True)
    hearings: Mapped[list[HearingRow]] = relationship(order_by="HearingRow.number")
    readings: Mapped[list[ReadingRow]] = relationship(order_by="ReadingRow.number")
    recorded: Mapped[Moment] = composite("recorded_at", "recorded_offset_s")
    arrived: Mapped[Moment] = composite("arrived_at", "arrived_offset_s")


class HearingRow(Base):
    """One hearing of a note's recording."""

    __tablename__ = "hearing"
    __table_args__ = (UniqueConstraint("note_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    note_id: Mapped[int] = mapped_column(ForeignKey("note.id"))
    number: Mapped[int]
    heard_at: Mapped[datetime]
    heard_offset_s: Mapped[int]
    transcript: Mapped[dict[str, Any]]

    heard: Mapped[Moment] = composite("heard_at", "heard_offset_s")


class ReadingRow(Base):
    """One reading of a note. At most one of a note's readings is in force."""

    __tablename__ = "reading"
    __table_args__ = (UniqueConstraint("note_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    note_id: Mapped[int] = mapped_column(ForeignKey("note.id"))
    number: Mapped[int]
    reader_version: Mapped[str] = mapped_column(String(200))
    in_force: Mapped[bool]
    read_at: Mapped[datetime]
    read_offset_s: Mapped[int]

    steps: Mapped[list[StepRow]] = relationship(order_by="StepRow.position", back_populates="reading")
    moment: Mapped[Moment] = composite("read_at", "read_offset_s")


class StepRow(Base):
    """A step: as it was read, and as it stands. `act_at` is when it is taken to have happened."""

    __tablename__ = "step"
    __table_args__ = (
        UniqueConstraint("reading_id", "position"),
        Index(None, "build_id", "action"),
        Index(None, "action", "act_at"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    reading_id: Mapped[int] = mapped_column(ForeignKey("reading.id"))
    note_id: Mapped[int] = mapped_column(ForeignKey("note.id"), index=True)
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"))
    position: Mapped[int]
    action: Mapped[str] = mapped_column(String(20))
    status: Mapped[str] = mapped_column(String(20))
    act_at: Mapped[datetime]
    act_offset_s: Mapped[int]
    record: Mapped[dict[str, Any]]
    first_read: Mapped[dict[str, Any]]
    in_force: Mapped[bool]
    corrected: Mapped[bool]
    confirmed_at: Mapped[datetime | None]
    confirmed_offset_s: Mapped[int | None]
    confirmed_by: Mapped[str | None] = mapped_column(String(200))
    withdrawn: Mapped[bool]

    reading: Mapped[ReadingRow] = relationship(back_populates="steps")
    note: Mapped[NoteRow] = relationship(lazy="joined", innerjoin=True)
    materials: Mapped[list[StepMaterialRow]] = relationship(cascade="all, delete-orphan")
    observations: Mapped[list[StepObservationRow]] = relationship(cascade="all, delete-orphan")
    act: Mapped[Moment] = composite("act_at", "act_offset_s")
    confirmed: Mapped[Moment | None] = composite("confirmed_at", "confirmed_offset_s")


class StepMaterialRow(Base):
    """A material or layer named in a step as it stands."""

    __tablename__ = "step_material"
    __table_args__ = (Index(None, "name", "step_id"), Index(None, "lot"))

    id: Mapped[int] = mapped_column(primary_key=True)
    step_id: Mapped[int] = mapped_column(ForeignKey("step.id"), index=True)
    name: Mapped[str] = mapped_column(String(200))
    part: Mapped[str] = mapped_column(String(20))
    lot: Mapped[str | None] = mapped_column(String(200))


class StepObservationRow(Base):
    """An observation of a step as it stands."""

    __tablename__ = "step_observation"
    __table_args__ = (Index(None, "kind", "step_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    step_id: Mapped[int] = mapped_column(ForeignKey("step.id"), index=True)
    kind: Mapped[str] = mapped_column(String(20))
    text: Mapped[str] = mapped_column(Text)


class PlaceRow(Base):
    """A named region of a mould."""

    __tablename__ = "place"
    __table_args__ = (UniqueConstraint("mould_id", "name"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    mould_id: Mapped[int] = mapped_column(ForeignKey("mould.id"))
    name: Mapped[str] = mapped_column(String(200))


class PhotoRow(Base):
    """A photo of a build."""

    __tablename__ = "photo"
    __table_args__ = (UniqueConstraint("build_id", "media_sha256"), Index(None, "build_id", "taken_at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"))
    media_sha256: Mapped[str] = mapped_column(String(64), index=True)
    client_key: Mapped[str | None] = mapped_column(String(200), unique=True)
    photo: Mapped[dict[str, Any]]
    taken_at: Mapped[datetime]
    taken_offset_s: Mapped[int]
    who: Mapped[str | None] = mapped_column(String(200))
    device: Mapped[str | None] = mapped_column(String(200))
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id"), index=True)

    build: Mapped[BuildRow] = relationship(lazy="joined", innerjoin=True)
    place: Mapped[PlaceRow | None] = relationship(lazy="joined")
    pins: Mapped[list[PinRow]] = relationship(order_by="PinRow.id", lazy="selectin")
    taken: Mapped[Moment] = composite("taken_at", "taken_offset_s")


class PinRow(Base):
    """A place, or a fault by its step, pinned on a photo, at fractions of its width and height."""

    __tablename__ = "pin"
    __table_args__ = (
        UniqueConstraint("photo_id", "place_id"),
        UniqueConstraint("photo_id", "step_id"),
        CheckConstraint("x >= 0 AND x <= 1 AND y >= 0 AND y <= 1", name="on_the_photo"),
        CheckConstraint("(place_id IS NULL) <> (step_id IS NULL)", name="place_or_fault"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    photo_id: Mapped[int] = mapped_column(ForeignKey("photo.id"))
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id"), index=True)
    step_id: Mapped[int | None] = mapped_column(ForeignKey("step.id"), index=True)
    x: Mapped[float]
    y: Mapped[float]

    place: Mapped[PlaceRow | None] = relationship(lazy="joined")
    step: Mapped[StepRow | None] = relationship()


class ReferenceRow(Base):
    """The photo that shows where a mould's places are."""

    __tablename__ = "reference"

    id: Mapped[int] = mapped_column(primary_key=True)
    mould_id: Mapped[int] = mapped_column(ForeignKey("mould.id"), unique=True)
    photo_id: Mapped[int] = mapped_column(ForeignKey("photo.id"), index=True)


class LotRow(Base):
    """What people stated about a lot; its uses are in `step_material`. `part` is "" when it has none."""

    __tablename__ = "lot"
    __table_args__ = (UniqueConstraint("material", "part", "number"), Index(None, "number"))

    id: Mapped[int] = mapped_column(primary_key=True)
    material: Mapped[str] = mapped_column(String(200))
    part: Mapped[str] = mapped_column(String(20))
    number: Mapped[str] = mapped_column(String(200))
    opened_at: Mapped[datetime | None]
    opened_offset_s: Mapped[int | None]
    use_by: Mapped[date | None]
    amount: Mapped[float | None]
    unit: Mapped[str | None] = mapped_column(String(20))

    opened: Mapped[Moment | None] = composite("opened_at", "opened_offset_s")


class DeviceRow(Base):
    """A device that may talk to this machine from the network, by the sum of its token; until it is revoked."""

    __tablename__ = "device"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(200), unique=True)
    token_sha256: Mapped[str] = mapped_column(String(64))
    paired_at: Mapped[datetime]
    paired_offset_s: Mapped[int]
    seen_at: Mapped[datetime]
    seen_offset_s: Mapped[int]
    revoked_at: Mapped[datetime | None]
    revoked_offset_s: Mapped[int | None]

    paired: Mapped[Moment] = composite("paired_at", "paired_offset_s")
    seen: Mapped[Moment] = composite("seen_at", "seen_offset_s")
    revoked: Mapped[Moment | None] = composite("revoked_at", "revoked_offset_s")


class PairingRow(Base):
    """A code that may pair one device, by its sum; gone when it was used."""

    __tablename__ = "pairing"

    id: Mapped[int] = mapped_column(primary_key=True)
    code_sha256: Mapped[str] = mapped_column(String(64), unique=True)
    ends_at: Mapped[datetime]


class ChangeRow(Base):
    """One entry of the history."""

    __tablename__ = "change"
    __table_args__ = (Index(None, "noun", "noun_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    at_utc: Mapped[datetime]
    at_offset_s: Mapped[int]
    who: Mapped[str | None] = mapped_column(String(200))
    noun: Mapped[str] = mapped_column(String(20))
    noun_id: Mapped[int]
    what: Mapped[str] = mapped_column(String(40))
    why: Mapped[str] = mapped_column(Text)
    before: Mapped[Any] = mapped_column(JSON(none_as_null=True), nullable=True)
    after: Mapped[Any] = mapped_column(JSON(none_as_null=True), nullable=True)

    at: Mapped[Moment] = composite("at_utc", "at_offset_s")


class SearchEntryRow(Base):
    """The words of one build, note or step, as the full-text index has them."""

    __tablename__ = "search_entry"
    __table_args__ = (UniqueConstraint("noun", "noun_id"), Index(None, "build_id"), Index(None, "at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    noun: Mapped[str] = mapped_column(String(20))
    noun_id: Mapped[int]
    build_id: Mapped[int] = mapped_column(ForeignKey("build.id"))
    note_id: Mapped[int | None] = mapped_column(ForeignKey("note.id"), index=True)
    step_id: Mapped[int | None] = mapped_column(ForeignKey("step.id"), index=True)
    at: Mapped[datetime]
    text: Mapped[str] = mapped_column(Text)


class SearchWordRow(Base):
    """A word that was ever indexed: what a misspelt word is compared with."""

    __tablename__ = "search_word"

    word: Mapped[str] = mapped_column(String(100), primary_key=True)
