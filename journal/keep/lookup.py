"""Moulds and builds by what people call them, and notes and photos by what they hold."""

from __future__ import annotations

from typing import Any, TypeVar, cast

from sqlalchemy import or_, select
from sqlalchemy.orm import InstrumentedAttribute, Session

from journal.keep.tables import BuildRow, MouldRow, NoteRow, PhotoRow
from journal.keep.texts import named
from journal.keep.views import FieldError, KeyReused, NameTaken, NotKept

_Sent = TypeVar("_Sent", NoteRow, PhotoRow)


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


def kept_before(session: Session, build_id: int, new: _Sent, content: InstrumentedAttribute[str]) -> _Sent | None:
    """Return the row that a note or photo sent again was kept in: same content in the build, or same key.

    Raises KeyReused when the client key belongs to other content.
    """
    table, sent = type(new), getattr(new, content.key)
    same_content = (table.build_id == build_id) & (content == sent)
    same = same_content if new.client_key is None else or_(table.client_key == new.client_key, same_content)
    rows = list(session.scalars(select(table).where(same)))
    for row in rows:
        if row.build_id != build_id or getattr(row, content.key) != sent:
            raise KeyReused(
                f"the client key {new.client_key!r} belongs to {table.__tablename__} {row.id}, which has"
                " other content: send each under a key of its own"
            )
    return rows[0] if rows else None
