"""The full-text index over search_entry, kept in step by the database in the same transaction.

SQLite: an FTS5 table without content of its own, written by triggers. PostgreSQL: an index over the
text search vector of the words.
"""

from __future__ import annotations

from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

_FORGET = "INSERT INTO search_text (search_text, rowid, text) VALUES ('delete', old.id, old.text);"
_TAKE_IN = "INSERT INTO search_text (rowid, text) VALUES (new.id, new.text);"
_TRIGGERS = {
    "search_text_insert": ("INSERT", _TAKE_IN),
    "search_text_delete": ("DELETE", _FORGET),
    "search_text_update": ("UPDATE", _FORGET + " " + _TAKE_IN),
}


def _on_sqlite() -> bool:
    return op.get_context().dialect.name == "sqlite"


def upgrade() -> None:
    """Make the index and take in what is there."""
    if not _on_sqlite():
        op.execute("CREATE INDEX search_text ON search_entry USING gin (to_tsvector('english', text))")
        return
    op.execute(
        "CREATE VIRTUAL TABLE search_text USING fts5 (text, content='search_entry', content_rowid='id',"
        " tokenize='porter unicode61 remove_diacritics 2', prefix='3')"
    )
    for name, (event, body) in _TRIGGERS.items():
        op.execute(f"CREATE TRIGGER {name} AFTER {event} ON search_entry BEGIN {body} END")
    op.execute("INSERT INTO search_text (search_text) VALUES ('rebuild')")


def downgrade() -> None:
    """Take the index away; the words stay in search_entry."""
    if not _on_sqlite():
        op.execute("DROP INDEX search_text")
        return
    for name in _TRIGGERS:
        op.execute(f"DROP TRIGGER {name}")
    op.execute("DROP TABLE search_text")
