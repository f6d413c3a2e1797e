"""What is exchanged: a noun for each table, its fields, and what makes two rows the same thing.

The fields are read off the tables, so that a new column is exchanged without being named here. A time and the
offset that it was given in are one field, in ISO 8601 with the offset.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any, Literal

from sqlalchemy import JSON, Boolean, Date, Float, Integer, Table

from journal.keep.outcome_tables import FaultPhotoRow
from journal.keep.plan_tables import PlanRow, PlanSkipRow
from journal.keep.tables import Base
from journal.keep.times import Moment, UtcDateTime
from journal.keep.training_tables import SignOffRow, TrainingTestRow
from journal.keep.views import KeepError

FORMAT, VERSION = "mouldbook-exchange", 1
OFFSET = "_offset_s"
Kind = Literal["integer", "number", "string", "boolean", "datetime", "date", "json"]


class ExchangeError(KeepError):
    """What is no exchange file of ours, or is not right in one: where, and what to do."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field: the columns it stands for (a time has two), its kind, and the noun whose `id` it holds, if any."""

    name: str
    columns: tuple[str, ...]
    kind: Kind
    nullable: bool
    refers: str | None = None


@dataclass(frozen=True, slots=True)
class Noun:
    """A noun: the file that holds it is called by its name.

    `key` are the fields that make two rows the same thing, wherever they are; `owner` the field of the noun that a
    row is part of: it comes and goes with that. Rows of one key that differ in a field of `defining` are two things.
    """

    name: str
    table: Table
    about: str
    fields: tuple[Field, ...]
    key: tuple[str, ...]
    owner: str | None = None
    defining: tuple[str, ...] = ()

    def field(self, name: str) -> Field:
        """Return the field of a name."""
        return next(field for field in self.fields if field.name == name)


_KINDS: tuple[tuple[type[Any], Kind], ...] = (
    (Boolean, "boolean"), (Integer, "integer"), (Float, "number"), (UtcDateTime, "datetime"), (Date, "date"),
    (JSON, "json"),
)  # fmt: skip
_TABLES: dict[str, str] = {  # the table of each noun, in the order that they can be made in
    "moulds": "mould", "builds": "build", "places": "place", "notes": "note", "hearings": "hearing",
    "readings": "reading", "steps": "step", "photos": "photo", "pins": "pin", "references": "reference",
    "fault_photos": FaultPhotoRow.__tablename__, "plans": PlanRow.__tablename__,
    "plan_skips": PlanSkipRow.__tablename__, "lots": "lot",
    "training_tests": TrainingTestRow.__tablename__, "sign_offs": SignOffRow.__tablename__,
    "changes": "change",
}  # fmt: skip
NOT_EXCHANGED = {
    "step_material": "worked out from steps.record", "step_observation": "worked out from steps.record",
    "search_entry": "the search index, made anew", "search_word": "the search index, made anew",
    "device": "the secrets of paired devices", "pairing": "the secrets of paired devices",
}  # fmt: skip
_ABOUT = {
    "moulds": "Things built. area_m2 is the surface to be laid up, in square metres.",
    "builds": "The makings of moulds, and how each turned out.",
    "places": "Named regions of moulds.",
    "notes": "What was spoken or typed; media_sha256 names the recording in media/, typed_text what was typed.",
    "hearings": "What was heard in a recording: the text, and each word as [text, first character, character after"
    " the last, first second, last second, probability]. The highest number is in force.",
    "readings": "Readings of notes into steps; the one in force stands.",
    "steps": "Acts read from notes: record as it stands, first_read as it was read.",
    "photos": "Pictures; media_sha256 names the original in media/.",
    "pins": "Places or faults marked on photos; x and y are fractions of the upright picture from the top left.",
    "fault_photos": "Which photo shows what was found wrong in which step.",
    "plans": "Plans of builds, made from another build's recipe; the latest of a build is in force.",
    "plan_skips": "Steps of plans that were said to be skipped.",
    "references": "The photo that shows where a mould's places are.",
    "lots": "What people stated about tins: amount, in unit, is what a tin held when opened.",
    "training_tests": "Self-tests that apprentices took, with every answer as it was marked.",
    "sign_offs": "What makers signed off, or took back; the latest on an item stands.",
    "changes": "The history of everything: who changed what when and why; noun_id is the id of that noun's row.",
}
_KEYS: dict[str, tuple[str, ...]] = {
    "moulds": ("key",), "builds": ("key",), "places": ("mould_id", "name"), "notes": ("build_id", "content"),
    "hearings": ("note_id", "number"), "readings": ("note_id", "number"), "steps": ("reading_id", "position"),
    "photos": ("build_id", "media_sha256"), "pins": ("photo_id", "place_id", "step_id"),
    "fault_photos": ("step_id", "photo_id"), "plans": ("build_id", "recipe_id", "started_at"),
    "plan_skips": ("plan_id", "number"), "references": ("mould_id",), "lots": ("material", "part", "number"),
    "training_tests": ("build_id", "apprentice", "seed", "taken_at"),
    "sign_offs": ("build_id", "apprentice", "stage", "item", "verdict", "maker", "signed_at"),
    "changes": (),
}  # fmt: skip
_OWNERS = {
    "hearings": "note_id", "readings": "note_id", "steps": "note_id", "pins": "photo_id",
    "fault_photos": "photo_id", "plan_skips": "plan_id",
}  # fmt: skip
_DEFINING = {"moulds": ("pattern", "pieces", "size", "area_m2"), "builds": ("mould_id", "started_at")}
# The history names a thing in the singular.
CHANGED = {
    "mould": "moulds", "build": "builds", "note": "notes", "step": "steps", "photo": "photos", "lot": "lots",
}  # fmt: skip


def _noun(name: str) -> Noun:
    table = Base.metadata.tables[_TABLES[name]]
    return Noun(
        name, table, _ABOUT[name], tuple(_fields(table)), _KEYS[name], _OWNERS.get(name), _DEFINING.get(name, ())
    )


def _fields(table: Table) -> Iterator[Field]:
    names = {table_name: noun for noun, table_name in _TABLES.items()}
    for column in table.columns:
        if column.name.endswith(OFFSET):
            continue
        kind: Kind = next((kind for type_, kind in _KINDS if isinstance(column.type, type_)), "string")
        name = column.name
        columns: tuple[str, ...] = (column.name,)
        if kind == "datetime":
            name = column.name.removesuffix("_utc")
            columns = (column.name, column.name.removesuffix("_at").removesuffix("_utc") + OFFSET)
        refers = next((names[key.column.table.name] for key in column.foreign_keys), None)
        yield Field(name, columns, kind, bool(column.nullable), refers)


NOUNS = tuple(_noun(name) for name in _TABLES)
BY_NAME = {noun.name: noun for noun in NOUNS}


def to_plain(field: Field, row: Any) -> Any:
    """Return the value of a field in a row of its table, as JSON can hold it."""
    value = row[field.columns[0]]
    if value is None:
        return None
    if field.kind == "datetime":
        return Moment(value, row[field.columns[1]]).local.isoformat()
    return value.isoformat() if isinstance(value, date) else value


def to_columns(field: Field, value: Any) -> dict[str, Any]:
    """Return the columns that hold a field's value. Raises ValueError with what is wrong with it."""
    if value is None:
        if not field.nullable:
            raise ValueError("is missing")
        return dict.fromkeys(field.columns)
    if field.kind == "datetime":
        moment = Moment.of(_time(value))
        return {field.columns[0]: moment.utc, field.columns[1]: moment.offset_s}
    return {field.columns[0]: _CHECKS[field.kind](value)}


def _time(value: Any) -> datetime:
    moment = datetime.fromisoformat(_string(value))
    if moment.tzinfo is None:
        raise ValueError("has no offset from UTC; write times like 2026-04-13T13:12:00+01:00")
    if not 1900 < moment.astimezone(UTC).year < 9000:
        raise ValueError("is no time of this world")
    return moment


def _string(value: Any) -> str:
    if not isinstance(value, str):
        raise ValueError("is no text")
    if "\0" in value:
        raise ValueError("has a NUL character in it")
    return value


def _integer(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not -(2**31) <= value < 2**31:
        raise ValueError("is no whole number")
    return value


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or value != value or abs(value) == float("inf"):
        raise ValueError("is no number")
    return float(value)


def _boolean(value: Any) -> bool:
    if not isinstance(value, bool):
        raise ValueError("is neither true nor false")
    return value


_CHECKS: dict[str, Any] = {
    "integer": _integer, "number": _number, "string": _string, "boolean": _boolean,
    "date": lambda value: date.fromisoformat(_string(value)), "json": lambda value: value,
}  # fmt: skip
