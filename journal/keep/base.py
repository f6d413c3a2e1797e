"""What every part of the store stands on: the engine, its transactions, and the migrations."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from types import TracebackType
from typing import Self

from sqlalchemy.orm import Session


class Opened:
    """An opened database. Use it as a context manager, or call `close()`."""

    def __init__(self, database_url: str) -> None:
        """Open the database at a SQLAlchemy address; the folder of a SQLite file is made when missing."""
        raise NotImplementedError

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Give back every connection."""
        raise NotImplementedError

    def migrate(self) -> None:
        """Make the tables, or bring those of an older version up to date. Safe to call at every start."""
        raise NotImplementedError

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Give a session that only reads."""
        raise NotImplementedError
        yield

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """Give a session whose changes are kept together, or not at all."""
        raise NotImplementedError
        yield
