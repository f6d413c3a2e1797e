"""Refuse, in the database itself, to alter or delete what is evidence.

Changes, hearings and what was first read are only ever added; a reading may only come into or go out
of force; of a note, what was said and when stays as it is.
"""

from __future__ import annotations

from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

_WHOLE_ROWS = ("change", "hearing")
_COLUMNS = {
    "note": ("build_id", "content", "clip", "media_sha256", "typed_text", "recorded_at", "recorded_offset_s"),
    "reading": ("note_id", "number", "reader_version", "read_at", "read_offset_s"),
    "step": ("reading_id", "note_id", "build_id", "position", "first_read"),
    "photo": ("build_id", "media_sha256", "photo", "taken_at", "taken_offset_s"),
}


def _on_sqlite() -> bool:
    return op.get_context().dialect.name == "sqlite"


def _guards() -> list[tuple[str, str, str]]:
    """Return (trigger, table, event) of every guard."""
    tables = (*_WHOLE_ROWS, *_COLUMNS)
    deletes = [(f"{table}_no_delete", table, "DELETE") for table in tables]
    updates = [(f"{table}_no_update", table, "UPDATE") for table in _WHOLE_ROWS]
    columns = [(f"{table}_no_update", table, f"UPDATE OF {', '.join(c)}") for table, c in _COLUMNS.items()]
    return deletes + updates + columns


def upgrade() -> None:
    """Put the guards up."""
    if not _on_sqlite():
        op.execute(
            "CREATE FUNCTION evidence_stays() RETURNS trigger LANGUAGE plpgsql AS"
            " $$ BEGIN RAISE EXCEPTION 'evidence in % is never altered', TG_TABLE_NAME; END $$"
        )
    for name, table, event in _guards():
        body = (
            f"BEGIN SELECT RAISE(ABORT, 'evidence in {table} is never altered'); END"
            if _on_sqlite()
            else "FOR EACH ROW EXECUTE FUNCTION evidence_stays()"
        )
        op.execute(f"CREATE TRIGGER {name} BEFORE {event} ON {table} {body}")


def downgrade() -> None:
    """Take the guards down."""
    for name, table, _ in _guards():
        op.execute(f"DROP TRIGGER {name}" + ("" if _on_sqlite() else f" ON {table}"))
    if not _on_sqlite():
        op.execute("DROP FUNCTION evidence_stays()")
