"""Self-tests that apprentices took, and what makers signed off: only ever added to."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

_TIME = sa.DateTime(timezone=True)
_TABLES = ("training_test", "sign_off")


def _on_sqlite() -> bool:
    return op.get_context().dialect.name == "sqlite"


def upgrade() -> None:
    """Make both tables, and refuse in the database itself to alter or delete an entry."""
    op.create_table(
        "training_test",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("apprentice", sa.String(length=200), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("builds", sa.JSON(), nullable=False),
        sa.Column("seed", sa.Integer(), nullable=False),
        sa.Column("asked", sa.Integer(), nullable=False),
        sa.Column("right", sa.Integer(), nullable=False),
        sa.Column("answers", sa.JSON(), nullable=False),
        sa.Column("taken_at", _TIME, nullable=False),
        sa.Column("taken_offset_s", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_training_test_build_id_build")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_training_test")),
    )
    op.create_table(
        "sign_off",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("apprentice", sa.String(length=200), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("stage", sa.String(length=40), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("verdict", sa.String(length=20), nullable=False),
        sa.Column("maker", sa.String(length=200), nullable=False),
        sa.Column("remarks", sa.Text(), nullable=False),
        sa.Column("signed_at", _TIME, nullable=False),
        sa.Column("signed_offset_s", sa.Integer(), nullable=False),
        sa.CheckConstraint("verdict IN ('signed', 'taken back')", name=op.f("ck_sign_off_verdict_known")),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_sign_off_build_id_build")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sign_off")),
    )
    for table in _TABLES:
        op.create_index(op.f(f"ix_{table}_build_id"), table, ["build_id"])
        op.create_index(op.f(f"ix_{table}_apprentice_build_id"), table, ["apprentice", "build_id"])
        for event in ("DELETE", "UPDATE"):
            _guard(table, event)


def _guard(table: str, event: str) -> None:
    body = (
        f"BEGIN SELECT RAISE(ABORT, 'evidence in {table} is never altered'); END"
        if _on_sqlite()
        else "FOR EACH ROW EXECUTE FUNCTION evidence_stays()"
    )
    op.execute(f"CREATE TRIGGER {table}_no_{event.lower()} BEFORE {event} ON {table} {body}")


def downgrade() -> None:
    """Take both tables away."""
    for table in _TABLES:
        op.drop_table(table)
