"""Devices of the shop's network, and the codes that pair them."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None

_TIME = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Make both tables."""
    op.create_table(
        "device",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("token_sha256", sa.String(length=64), nullable=False),
        sa.Column("paired_at", _TIME, nullable=False),
        sa.Column("paired_offset_s", sa.Integer(), nullable=False),
        sa.Column("seen_at", _TIME, nullable=False),
        sa.Column("seen_offset_s", sa.Integer(), nullable=False),
        sa.Column("revoked_at", _TIME, nullable=True),
        sa.Column("revoked_offset_s", sa.Integer(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
        sa.UniqueConstraint("name", name=op.f("uq_device_name")),
    )
    op.create_table(
        "pairing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code_sha256", sa.String(length=64), nullable=False),
        sa.Column("ends_at", _TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pairing")),
        sa.UniqueConstraint("code_sha256", name=op.f("uq_pairing_code_sha256")),
    )


def downgrade() -> None:
    """Take both tables away: every device must be paired anew."""
    op.drop_table("pairing")
    op.drop_table("device")
