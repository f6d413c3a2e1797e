"""A whole store copied into another one, between databases of the same or of different kinds."""

from __future__ import annotations

import sqlite3
from typing import cast

from sqlalchemy import Connection, Integer, func, insert, select, text
from sqlalchemy.exc import DatabaseError

from journal.keep.base import Opened
from journal.keep.tables import Base

_ROWS_AT_ONCE = 500


def copy_store(source: Opened, target: Opened) -> None:
    """Copy everything into an empty, migrated store. The source may be written to meanwhile.

    SQLite into SQLite goes page by page (its online backup); else row by row, as of one moment.
    """
    if source.sqlite and target.sqlite:
        _copy_pages(source, target)
        target.migrate()
    else:
        _copy_rows(source, target)


def faults_of_database(store: Opened) -> tuple[str, ...]:
    """Return what the database finds wrong with itself; empty when nothing is."""
    if not store.sqlite:
        return ()  # PostgreSQL keeps its own sums and holds its constraints at every write
    try:
        with store.engine.connect() as connection:
            return _sqlite_faults(connection)
    except DatabaseError as error:
        return (str(error.orig),)


def _sqlite_faults(connection: Connection) -> tuple[str, ...]:
    whole = [str(row[0]) for row in connection.execute(text("PRAGMA integrity_check"))]
    dangling = [
        f"{table} row {row} points to a missing row of {parent}"
        for table, row, parent, _ in connection.execute(text("PRAGMA foreign_key_check"))
    ]
    return (*(line for line in whole if line != "ok"), *dangling)


def _copy_pages(source: Opened, target: Opened) -> None:
    target.engine.dispose()
    taken, given = source.engine.raw_connection(), target.engine.raw_connection()
    try:
        cast(sqlite3.Connection, taken.driver_connection).backup(cast(sqlite3.Connection, given.driver_connection))
    finally:
        taken.close()
        given.close()


def _copy_rows(source: Opened, target: Opened) -> None:
    as_of_now = {} if source.sqlite else {"isolation_level": "REPEATABLE READ"}
    with source.engine.connect().execution_options(**as_of_now) as taken, target.engine.begin() as given:
        for table in Base.metadata.sorted_tables:
            rows = taken.execute(select(table).order_by(*table.primary_key))
            for batch in rows.mappings().partitions(_ROWS_AT_ONCE):
                given.execute(insert(table), [dict(row) for row in batch])
        if not target.sqlite:
            count_on(given)


def count_on(connection: Connection) -> None:
    """Let PostgreSQL number new rows after the copied ones."""
    for table in Base.metadata.sorted_tables:
        if isinstance(table.c[next(iter(table.primary_key)).name].type, Integer):
            last = select(func.coalesce(func.max(table.c.id), 0) + 1).scalar_subquery()
            sequence = func.pg_get_serial_sequence(table.name, "id")
            connection.execute(select(func.setval(sequence, last, False)))
