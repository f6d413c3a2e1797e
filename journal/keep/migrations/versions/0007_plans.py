"""Plans that builds are made by, and the steps of them that were skipped: only ever added to."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None

_TIME = sa.DateTime(timezone=True)
_TABLES = ("plan", "plan_skip")


def _on_sqlite() -> bool:
    return op.get_context().dialect.name == "sqlite"


def upgrade() -> None:
    """Make both tables, and refuse in the database itself to alter or delete an entry."""
    op.create_table(
        "plan",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("recipe_id", sa.Integer(), nullable=False),
        sa.Column("scaled", sa.JSON(), nullable=False),
        sa.Column("steps", sa.JSON(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=True),
        sa.Column("started_at", _TIME, nullable=False),
        sa.Column("started_offset_s", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_plan_build_id_build")),
        sa.ForeignKeyConstraint(["recipe_id"], ["build.id"], name=op.f("fk_plan_recipe_id_build")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan")),
    )
    op.create_index(op.f("ix_plan_build_id"), "plan", ["build_id"])
    op.create_index(op.f("ix_plan_recipe_id"), "plan", ["recipe_id"])
    op.create_table(
        "plan_skip",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("plan_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("note_id", sa.Integer(), nullable=True),
        sa.Column("who", sa.String(length=200), nullable=True),
        sa.Column("skipped_at", _TIME, nullable=False),
        sa.Column("skipped_offset_s", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_plan_skip_plan_id_plan")),
        sa.ForeignKeyConstraint(["note_id"], ["note.id"], name=op.f("fk_plan_skip_note_id_note")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan_skip")),
    )
    op.create_index(op.f("ix_plan_skip_plan_id_number"), "plan_skip", ["plan_id", "number"], unique=True)
    op.create_index(op.f("ix_plan_skip_note_id"), "plan_skip", ["note_id"])
    for table in _TABLES:
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
    for table in reversed(_TABLES):
        op.drop_table(table)
