"""What every part of the store stands on: the engine, its transactions, and the migrations."""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from alembic import command
from alembic.config import Config
from alembic.util import CommandError
from sqlalchemy import URL, Connection, create_engine, event, make_url, text
from sqlalchemy.exc import ArgumentError, SQLAlchemyError
from sqlalchemy.orm import Session

from journal.keep.views import KeepError

MIGRATIONS = Path(__file__).parent / "migrations"
_BUSY_SECONDS = 30
_MIGRATION_LOCK = 7_226_153  # any number that is ours, for PostgreSQL's advisory lock


class Opened:
    """An opened database. Use it as a context manager, or call `close()`."""

    def __init__(self, database_url: str) -> None:
        """Open the database at a SQLAlchemy address; the folder of a SQLite file is made when missing.

        Raises KeepError when the address makes no sense.
        """
        url = _address(database_url)
        try:
            self.engine = create_engine(url, pool_pre_ping=not _is_sqlite(url))
        except ModuleNotFoundError as error:
            raise KeepError("PostgreSQL needs its driver: install mouldbook[postgresql]") from error
        self.sqlite = _is_sqlite(url)
        if self.sqlite:
            event.listen(self.engine, "connect", _on_sqlite_connect)
            event.listen(self.engine, "begin", _on_sqlite_begin)
        self._to_write = self.engine.execution_options(to_write=True)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Give back every connection."""
        self.engine.dispose()

    def migrate(self) -> None:
        """Make the tables, or bring those of an older version up to date. Safe to call at every start.

        Raises KeepError when the database cannot be reached, or was made by a newer version.
        """
        try:
            with self._to_write.begin() as connection:
                if not self.sqlite:
                    connection.execute(text(f"SELECT pg_advisory_xact_lock({_MIGRATION_LOCK})"))
                command.upgrade(migration_config(connection), "head")
        except CommandError as error:
            raise KeepError(
                f"the database cannot be brought up to date: {error}. If a newer Mouldbook made it, update this one"
            ) from error
        except SQLAlchemyError as error:
            raise KeepError(f"the database cannot be opened: {_first_line(error)}") from error

    def fold_into_one_file(self) -> None:
        """Leave a SQLite database as a single file, fit for copying, with no log beside it."""
        self.engine.dispose()
        with closing(sqlite3.connect(self.engine.url.database or "")) as connection:
            connection.execute("PRAGMA journal_mode = DELETE").close()

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Give a session that only reads."""
        with Session(self.engine) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """Give a session whose changes are kept together, or not at all."""
        with Session(self._to_write) as session, session.begin():
            yield session


def migration_config(connection: Connection) -> Config:
    """Return the configuration of the migrations that ship with this package, over an open connection."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def _is_sqlite(url: URL) -> bool:
    return url.get_backend_name() == "sqlite"


def _address(database_url: str) -> URL:
    try:
        url = make_url(database_url)
    except ArgumentError as error:
        raise KeepError(f"{database_url!r} is no database address: give sqlite:///file.db or so") from error
    if url.drivername in ("postgresql", "postgres"):
        return url.set(drivername="postgresql+psycopg")
    if url.get_backend_name() not in ("sqlite", "postgresql"):
        raise KeepError(f"{url.drivername!r} is not supported: give a sqlite: or postgresql: address")
    if _is_sqlite(url):
        if not url.database or url.database == ":memory:":
            raise KeepError("SQLite needs a file, so that nothing is lost: give sqlite:///file.db")
        Path(url.database).parent.mkdir(parents=True, exist_ok=True)
    return url


def _first_line(error: Exception) -> str:
    return (str(error).splitlines() or [type(error).__name__])[0]


def _on_sqlite_connect(connection: sqlite3.Connection, record: Any) -> None:
    # The driver's own transactions begin too late (at the first write); `_on_sqlite_begin` begins them.
    connection.isolation_level = None
    for pragma in (f"busy_timeout = {_BUSY_SECONDS * 1000}", "synchronous = FULL", "foreign_keys = ON"):
        connection.execute(f"PRAGMA {pragma}").close()
    _write_ahead(connection)


def _write_ahead(connection: sqlite3.Connection) -> None:
    """Turn the write-ahead log on. A new file is refused at once while another connection turns it on: ask again."""
    until = time.monotonic() + _BUSY_SECONDS
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL").close()
            return
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or time.monotonic() > until:
                raise
            time.sleep(0.05)


def _on_sqlite_begin(connection: Connection) -> None:
    # A transaction that reads before it writes must own the write lock from its start: SQLite refuses
    # to upgrade a reader when another writer came first, and the busy timeout does not help there.
    writes = connection.get_execution_options().get("to_write", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
