"""Photos that show a fault."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "fault_photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["step_id"], ["step.id"], name=op.f("fk_fault_photo_step_id_step")),
        sa.ForeignKeyConstraint(["photo_id"], ["photo.id"], name=op.f("fk_fault_photo_photo_id_photo")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fault_photo")),
        sa.UniqueConstraint("step_id", "photo_id", name=op.f("uq_fault_photo_step_id_photo_id")),
    )
    op.create_index(op.f("ix_fault_photo_photo_id"), "fault_photo", ["photo_id"])


def downgrade() -> None:
    """Take it away; the photos stay."""
    op.drop_table("fault_photo")
