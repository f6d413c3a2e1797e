"""Run the migrations over the connection that the store hands in."""

from __future__ import annotations

from typing import Any

from alembic import context
from sqlalchemy import Connection

from journal.keep.tables import Base

_FULL_TEXT_INDEX = "search_text"


def _is_ours_to_compare(thing: Any, name: str | None, kind: str, reflected: bool, other: Any) -> bool:
    """Leave out the full-text index: its tables (SQLite) or expression (PostgreSQL) have no model."""
    return not (name or "").startswith(_FULL_TEXT_INDEX)


def _run(connection: Connection) -> None:
    context.configure(
        connection=connection,
        target_metadata=Base.metadata,
        include_object=_is_ours_to_compare,
        render_as_batch=True,
        transactional_ddl=True,
    )
    with context.begin_transaction():
        context.run_migrations()


_run(context.config.attributes["connection"])
