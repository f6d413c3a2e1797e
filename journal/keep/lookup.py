"""Moulds and builds by what people call them: id, key or name."""

from __future__ import annotations

from typing import Any, cast

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from journal.keep.tables import BuildRow, MouldRow
from journal.keep.texts import named
from journal.keep.views import FieldError, NameTaken, NotKept


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


def taken(noun: str, name: str) -> NameTaken:
    """Return the error for a name that another mould or build has."""
    return NameTaken(f"there is a {noun} {name!r} already: choose another name")
