"""Times in the database: UTC to sort by, and the offset they were given in to show them by."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone

from sqlalchemy import DateTime, Dialect
from sqlalchemy.types import TypeDecorator


class UtcDateTime(TypeDecorator[datetime]):
    """An aware datetime, kept as UTC. SQLite drops the zone of what it is given, so it is put back here."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Return the time in UTC; a naive one is refused, since nobody can say what it means later."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value.isoformat()} has no offset from UTC: give aware times")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Return the time as aware UTC, whatever the database made of it."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant in UTC and the offset, in seconds, of the wall clock that it was read from."""

    utc: datetime
    offset_s: int

    @staticmethod
    def of(at: datetime) -> Moment:
        """Return the moment of an aware datetime."""
        offset = at.utcoffset()
        if offset is None:
            raise ValueError(f"{at.isoformat()} has no offset from UTC: give aware times")
        return Moment(at.astimezone(UTC), int(offset.total_seconds()))

    @property
    def local(self) -> datetime:
        """The instant as the wall clock showed it."""
        return self.utc.astimezone(timezone(timedelta(seconds=self.offset_s)))


def moment_or_none(at: datetime | None) -> Moment | None:
    """Return the moment of a time that may be unknown."""
    return None if at is None else Moment.of(at)


def local_or_none(moment: Moment | None) -> datetime | None:
    """Return the wall time of a moment that may be unknown."""
    return None if moment is None else moment.local
