"""A mould's reference photo, and pins that mark a fault instead of a place."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

_ONE_OF_BOTH = "(place_id IS NULL) <> (step_id IS NULL)"


def upgrade() -> None:
    """Make the table of reference photos; let a pin point to the step in which a fault was found."""
    op.create_table(
        "reference",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("mould_id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["mould_id"], ["mould.id"], name=op.f("fk_reference_mould_id_mould")),
        sa.ForeignKeyConstraint(["photo_id"], ["photo.id"], name=op.f("fk_reference_photo_id_photo")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reference")),
        sa.UniqueConstraint("mould_id", name=op.f("uq_reference_mould_id")),
    )
    op.create_index(op.f("ix_reference_photo_id"), "reference", ["photo_id"])
    with op.batch_alter_table("pin") as pin:
        pin.add_column(sa.Column("step_id", sa.Integer(), nullable=True))
        pin.alter_column("place_id", existing_type=sa.Integer(), nullable=True)
        pin.create_foreign_key(op.f("fk_pin_step_id_step"), "step", ["step_id"], ["id"])
        pin.create_unique_constraint(op.f("uq_pin_photo_id_step_id"), ["photo_id", "step_id"])
        pin.create_index(op.f("ix_pin_step_id"), ["step_id"])
        pin.create_check_constraint(op.f("ck_pin_place_or_fault"), _ONE_OF_BOTH)


def downgrade() -> None:
    """Take both away; pins of faults are lost, those of places stay."""
    op.execute("DELETE FROM pin WHERE place_id IS NULL")
    with op.batch_alter_table("pin") as pin:
        pin.drop_constraint(op.f("ck_pin_place_or_fault"), type_="check")
        pin.drop_index(op.f("ix_pin_step_id"))
        pin.drop_constraint(op.f("uq_pin_photo_id_step_id"), type_="unique")
        pin.drop_constraint(op.f("fk_pin_step_id_step"), type_="foreignkey")
        pin.alter_column("place_id", existing_type=sa.Integer(), nullable=False)
        pin.drop_column("step_id")
    op.drop_table("reference")
