"""The published schema of the exchange format: JSON Schema (2020-12), and Table Schema for the CSV files."""

from __future__ import annotations

from typing import Any

from journal.keep.corrections import StepRecord
from journal.keep.exchange.nouns import CHANGED, FORMAT, NOUNS, VERSION, Field, Noun

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_TYPES: dict[str, dict[str, Any]] = {
    "integer": {"type": "integer"}, "number": {"type": "number"}, "string": {"type": "string"},
    "boolean": {"type": "boolean"}, "datetime": {"type": "string", "format": "date-time"},
    "date": {"type": "string", "format": "date"},
    "json": {},
}  # fmt: skip
_TABLE_TYPES = {"json": "any", "datetime": "datetime"}
_RECORDS = ("record", "first_read")


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a document."""
    record = StepRecord.model_json_schema(ref_template="#/$defs/{model}")
    definitions = record.pop("$defs", {}) | {"StepRecord": record}
    head = {
        "format": {"const": FORMAT},
        "version": {"const": VERSION},
        "exported_at": {"type": "string", "format": "date-time"},
    }
    return {
        "$schema": DIALECT,
        "title": "Exchange of a mould shop's journal",
        "description": "One list for each noun; fields that end in _id hold the id of a row in the file.",
        "type": "object",
        "properties": head | {noun.name: _list_of(noun) for noun in NOUNS},
        "required": ["format", "version"],
        "additionalProperties": False,
        "$defs": {name.lstrip("_"): _renamed(each) for name, each in definitions.items()},
    }


def _renamed(value: Any) -> Any:
    """Return a definition whose references have names without our underscores."""
    if isinstance(value, dict):
        return {key: _renamed(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_renamed(item) for item in value]
    return value.replace("#/$defs/_", "#/$defs/") if isinstance(value, str) else value


def _list_of(noun: Noun) -> dict[str, Any]:
    return {
        "type": "array",
        "description": noun.about,
        "items": {
            "type": "object",
            "properties": {field.name: _type_of(noun, field) for field in noun.fields},
            "required": [field.name for field in noun.fields if not field.nullable],
            "additionalProperties": False,
        },
    }


def _type_of(noun: Noun, field: Field) -> dict[str, Any]:
    if noun.name == "steps" and field.name in _RECORDS:
        return {"$ref": "#/$defs/StepRecord"}
    if noun.name == "changes" and field.name == "noun":
        return {"enum": list(CHANGED)}
    found = dict(_TYPES[field.kind])
    if field.nullable and "type" in found:
        found["type"] = [found["type"], "null"]
    if field.refers:
        found["description"] = f"the id of a row of {field.refers}"
    return found


def data_package(exported_at: str) -> dict[str, Any]:
    """Return the Data Package of the CSV files: their Table Schemas, and where the media lie."""
    return {
        "name": FORMAT,
        "version": str(VERSION),
        "created": exported_at,
        "resources": [_resource(noun) for noun in NOUNS],
    }


def _resource(noun: Noun) -> dict[str, Any]:
    fields = [_table_field(field) for field in noun.fields]
    keys = [
        {"fields": field.name, "reference": {"resource": field.refers, "fields": "id"}}
        for field in noun.fields
        if field.refers
    ]
    schema: dict[str, Any] = {"fields": fields, "primaryKey": "id", "missingValues": [""]}
    return {
        "name": noun.name.replace("_", "-"),
        "path": f"{noun.name}.csv",
        "description": noun.about,
        "profile": "tabular-data-resource",
        "encoding": "utf-8",
        "schema": schema | ({"foreignKeys": keys} if keys else {}),
    }


def _table_field(field: Field) -> dict[str, Any]:
    found: dict[str, Any] = {"name": field.name, "type": _TABLE_TYPES.get(field.kind, field.kind)}
    if field.kind == "datetime":
        found["format"] = "any"  # ISO 8601 with the offset that it was given in
    if field.kind == "json":
        found["description"] = "JSON in the cell"
    if field.name == "id" or (not field.nullable and field.kind not in ("string", "json")):
        found["constraints"] = {"required": True}
    return found
