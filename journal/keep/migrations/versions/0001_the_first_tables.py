"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_TIME = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Bring the tables up to this version."""
    op.create_table(
        "change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at_utc", _TIME, nullable=False),
        sa.Column("at_offset_s", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=True),
        sa.Column("noun", sa.String(length=20), nullable=False),
        sa.Column("noun_id", sa.Integer(), nullable=False),
        sa.Column("what", sa.String(length=40), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("before", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("after", sa.JSON(none_as_null=True), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_change")),
    )
    op.create_index(op.f("ix_change_noun_noun_id"), "change", ["noun", "noun_id"])

    op.create_table(
        "lot",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("material", sa.String(length=200), nullable=False),
        sa.Column("part", sa.String(length=20), nullable=False),
        sa.Column("number", sa.String(length=200), nullable=False),
        sa.Column("opened_at", _TIME, nullable=True),
        sa.Column("opened_offset_s", sa.Integer(), nullable=True),
        sa.Column("use_by", sa.Date(), nullable=True),
        sa.Column("amount", sa.Double(), nullable=True),
        sa.Column("unit", sa.String(length=20), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lot")),
        sa.UniqueConstraint("material", "part", "number", name=op.f("uq_lot_material_part_number")),
    )
    op.create_index(op.f("ix_lot_number"), "lot", ["number"])

    op.create_table(
        "mould",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=200), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("pattern", sa.Text(), nullable=False),
        sa.Column("pieces", sa.Integer(), nullable=False),
        sa.Column("size", sa.Text(), nullable=False),
        sa.Column("area_m2", sa.Double(), nullable=True),
        sa.Column("remarks", sa.Text(), nullable=False),
        sa.Column("status", sa.String(length=20), nullable=False),
        sa.CheckConstraint(
            "status IN ('planned', 'being made', 'in use', 'under repair', 'retired')",
            name=op.f("ck_mould_status_known"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_mould")),
        sa.UniqueConstraint("key", name=op.f("uq_mould_key")),
        sa.UniqueConstraint("name", name=op.f("uq_mould_name")),
    )
    op.create_table(
        "search_word",
        sa.Column("word", sa.String(length=100), nullable=False),
        sa.PrimaryKeyConstraint("word", name=op.f("pk_search_word")),
    )
    op.create_table(
        "build",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=200), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("mould_id", sa.Integer(), nullable=False),
        sa.Column("started_at", _TIME, nullable=False),
        sa.Column("started_offset_s", sa.Integer(), nullable=False),
        sa.Column("remarks", sa.Text(), nullable=False),
        sa.Column("outcome", sa.String(length=20), nullable=False),
        sa.Column("outcome_text", sa.Text(), nullable=False),
        sa.Column("outcome_at", _TIME, nullable=True),
        sa.Column("outcome_offset_s", sa.Integer(), nullable=True),
        sa.Column("outcome_by", sa.String(length=200), nullable=True),
        sa.CheckConstraint(
            "outcome IN ('under way', 'worked', 'failed', 'given up')", name=op.f("ck_build_outcome_known")
        ),
        sa.ForeignKeyConstraint(["mould_id"], ["mould.id"], name=op.f("fk_build_mould_id_mould")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_build")),
        sa.UniqueConstraint("key", name=op.f("uq_build_key")),
        sa.UniqueConstraint("name", name=op.f("uq_build_name")),
    )
    op.create_index(op.f("ix_build_mould_id"), "build", ["mould_id"])
    op.create_index(op.f("ix_build_outcome"), "build", ["outcome"])

    op.create_table(
        "place",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("mould_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.ForeignKeyConstraint(["mould_id"], ["mould.id"], name=op.f("fk_place_mould_id_mould")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_place")),
        sa.UniqueConstraint("mould_id", "name", name=op.f("uq_place_mould_id_name")),
    )
    op.create_table(
        "note",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("content", sa.String(length=64), nullable=False),
        sa.Column("client_key", sa.String(length=200), nullable=True),
        sa.Column("recorded_at", _TIME, nullable=False),
        sa.Column("recorded_offset_s", sa.Integer(), nullable=False),
        sa.Column("arrived_at", _TIME, nullable=False),
        sa.Column("arrived_offset_s", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=True),
        sa.Column("device", sa.String(length=200), nullable=True),
        sa.Column("clip", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("media_sha256", sa.String(length=64), nullable=True),
        sa.Column("typed_text", sa.Text(), nullable=True),
        sa.Column("state", sa.String(length=20), nullable=False),
        sa.Column("error", sa.Text(), nullable=False),
        sa.CheckConstraint("state IN ('kept', 'heard', 'read', 'failed')", name=op.f("ck_note_state_known")),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_note_build_id_build")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_note")),
        sa.UniqueConstraint("build_id", "content", name=op.f("uq_note_build_id_content")),
        sa.UniqueConstraint("client_key", name=op.f("uq_note_client_key")),
    )
    op.create_index(op.f("ix_note_build_id_recorded_at"), "note", ["build_id", "recorded_at"])
    op.create_index(op.f("ix_note_media_sha256"), "note", ["media_sha256"])
    op.create_index(op.f("ix_note_state_recorded_at"), "note", ["state", "recorded_at"])

    op.create_table(
        "photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("media_sha256", sa.String(length=64), nullable=False),
        sa.Column("client_key", sa.String(length=200), nullable=True),
        sa.Column("photo", sa.JSON(), nullable=False),
        sa.Column("taken_at", _TIME, nullable=False),
        sa.Column("taken_offset_s", sa.Integer(), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=True),
        sa.Column("device", sa.String(length=200), nullable=True),
        sa.Column("place_id", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_photo_build_id_build")),
        sa.ForeignKeyConstraint(["place_id"], ["place.id"], name=op.f("fk_photo_place_id_place")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_photo")),
        sa.UniqueConstraint("build_id", "media_sha256", name=op.f("uq_photo_build_id_media_sha256")),
        sa.UniqueConstraint("client_key", name=op.f("uq_photo_client_key")),
    )
    op.create_index(op.f("ix_photo_build_id_taken_at"), "photo", ["build_id", "taken_at"])
    op.create_index(op.f("ix_photo_media_sha256"), "photo", ["media_sha256"])
    op.create_index(op.f("ix_photo_place_id"), "photo", ["place_id"])

    op.create_table(
        "hearing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("note_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("heard_at", _TIME, nullable=False),
        sa.Column("heard_offset_s", sa.Integer(), nullable=False),
        sa.Column("transcript", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["note_id"], ["note.id"], name=op.f("fk_hearing_note_id_note")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_hearing")),
        sa.UniqueConstraint("note_id", "number", name=op.f("uq_hearing_note_id_number")),
    )
    op.create_table(
        "pin",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        sa.Column("place_id", sa.Integer(), nullable=False),
        sa.Column("x", sa.Double(), nullable=False),
        sa.Column("y", sa.Double(), nullable=False),
        sa.CheckConstraint("x >= 0 AND x <= 1 AND y >= 0 AND y <= 1", name=op.f("ck_pin_on_the_photo")),
        sa.ForeignKeyConstraint(["photo_id"], ["photo.id"], name=op.f("fk_pin_photo_id_photo")),
        sa.ForeignKeyConstraint(["place_id"], ["place.id"], name=op.f("fk_pin_place_id_place")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pin")),
        sa.UniqueConstraint("photo_id", "place_id", name=op.f("uq_pin_photo_id_place_id")),
    )
    op.create_index(op.f("ix_pin_place_id"), "pin", ["place_id"])

    op.create_table(
        "reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("note_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("reader_version", sa.String(length=200), nullable=False),
        sa.Column("in_force", sa.Boolean(), nullable=False),
        sa.Column("read_at", _TIME, nullable=False),
        sa.Column("read_offset_s", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["note_id"], ["note.id"], name=op.f("fk_reading_note_id_note")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
        sa.UniqueConstraint("note_id", "number", name=op.f("uq_reading_note_id_number")),
    )
    op.create_table(
        "step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("reading_id", sa.Integer(), nullable=False),
        sa.Column("note_id", sa.Integer(), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("action", sa.String(length=20), nullable=False),
        sa.Column("status", sa.String(length=20), nullable=False),
        sa.Column("act_at", _TIME, nullable=False),
        sa.Column("act_offset_s", sa.Integer(), nullable=False),
        sa.Column("record", sa.JSON(), nullable=False),
        sa.Column("first_read", sa.JSON(), nullable=False),
        sa.Column("in_force", sa.Boolean(), nullable=False),
        sa.Column("corrected", sa.Boolean(), nullable=False),
        sa.Column("confirmed_at", _TIME, nullable=True),
        sa.Column("confirmed_offset_s", sa.Integer(), nullable=True),
        sa.Column("confirmed_by", sa.String(length=200), nullable=True),
        sa.Column("withdrawn", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_step_build_id_build")),
        sa.ForeignKeyConstraint(["note_id"], ["note.id"], name=op.f("fk_step_note_id_note")),
        sa.ForeignKeyConstraint(["reading_id"], ["reading.id"], name=op.f("fk_step_reading_id_reading")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_step")),
        sa.UniqueConstraint("reading_id", "position", name=op.f("uq_step_reading_id_position")),
    )
    op.create_index(op.f("ix_step_action_act_at"), "step", ["action", "act_at"])
    op.create_index(op.f("ix_step_build_id_action"), "step", ["build_id", "action"])
    op.create_index(op.f("ix_step_note_id"), "step", ["note_id"])

    op.create_table(
        "search_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("noun", sa.String(length=20), nullable=False),
        sa.Column("noun_id", sa.Integer(), nullable=False),
        sa.Column("build_id", sa.Integer(), nullable=False),
        sa.Column("note_id", sa.Integer(), nullable=True),
        sa.Column("step_id", sa.Integer(), nullable=True),
        sa.Column("at", _TIME, nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["build_id"], ["build.id"], name=op.f("fk_search_entry_build_id_build")),
        sa.ForeignKeyConstraint(["note_id"], ["note.id"], name=op.f("fk_search_entry_note_id_note")),
        sa.ForeignKeyConstraint(["step_id"], ["step.id"], name=op.f("fk_search_entry_step_id_step")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_search_entry")),
        sa.UniqueConstraint("noun", "noun_id", name=op.f("uq_search_entry_noun_noun_id")),
    )
    op.create_index(op.f("ix_search_entry_at"), "search_entry", ["at"])
    op.create_index(op.f("ix_search_entry_build_id"), "search_entry", ["build_id"])
    op.create_index(op.f("ix_search_entry_note_id"), "search_entry", ["note_id"])
    op.create_index(op.f("ix_search_entry_step_id"), "search_entry", ["step_id"])

    op.create_table(
        "step_material",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("part", sa.String(length=20), nullable=False),
        sa.Column("lot", sa.String(length=200), nullable=True),
        sa.ForeignKeyConstraint(["step_id"], ["step.id"], name=op.f("fk_step_material_step_id_step")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_step_material")),
    )
    op.create_index(op.f("ix_step_material_lot"), "step_material", ["lot"])
    op.create_index(op.f("ix_step_material_name_step_id"), "step_material", ["name", "step_id"])
    op.create_index(op.f("ix_step_material_step_id"), "step_material", ["step_id"])

    op.create_table(
        "step_observation",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["step_id"], ["step.id"], name=op.f("fk_step_observation_step_id_step")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_step_observation")),
    )
    op.create_index(op.f("ix_step_observation_kind_step_id"), "step_observation", ["kind", "step_id"])
    op.create_index(op.f("ix_step_observation_step_id"), "step_observation", ["step_id"])


def downgrade() -> None:
    """Take every table away."""
    for table in (
        "step_observation",
        "step_material",
        "search_entry",
        "step",
        "reading",
        "pin",
        "hearing",
        "photo",
        "note",
        "place",
        "build",
        "search_word",
        "mould",
        "lot",
        "change",
    ):
        op.drop_table(table)
