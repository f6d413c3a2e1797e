"""A document as CSV files (RFC 4180, UTF-8), one a noun, and back. Pure.

An empty cell is a value that is not there, or an empty text where there must be one. Two more files are for reading
in a spreadsheet and are not read back: every amount by step, and every heard word with its seconds.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from journal.keep.exchange.document import Document, Row
from journal.keep.exchange.nouns import FORMAT, NOUNS, VERSION, ExchangeError, Field, Noun

READ_ONLY = ("step_amounts", "heard_words")
_LARGEST_CELL = 64 * 1024 * 1024


def to_csv(document: Document) -> Iterator[tuple[str, str]]:
    """Yield the name of each file and its text."""
    for noun in NOUNS:
        names = [field.name for field in noun.fields]
        rows = ([_cell(field, row[field.name]) for field in noun.fields] for row in document[noun.name])
        yield f"{noun.name}.csv", _text([names, *rows])
    yield "step_amounts.csv", _text(_amounts(document))
    yield "heard_words.csv", _text(_words(document))


def from_csv(package: Mapping[str, Any], texts: Mapping[str, str]) -> Document:
    """Return the document of CSV files, to be checked like any other. Raises ExchangeError."""
    if package.get("name") != FORMAT:
        raise ExchangeError(f"datapackage.json is not of the format {FORMAT!r}")
    version = package.get("version")
    document: Document = {"format": FORMAT, "version": VERSION if version == str(VERSION) else version}
    for noun in NOUNS:
        document[noun.name] = _rows(noun, texts.get(f"{noun.name}.csv", ""))
    return document


def _text(rows: Iterable[Iterable[Any]]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _cell(field: Field, value: Any) -> str:
    if value is None:
        return ""
    if field.kind == "json":
        return json.dumps(value, ensure_ascii=False)
    if field.kind == "boolean":
        return "true" if value else "false"
    return repr(value) if field.kind == "number" else str(value)


def _rows(noun: Noun, text: str) -> list[Row]:
    csv.field_size_limit(_LARGEST_CELL)
    fields = {field.name: field for field in noun.fields}
    reader = csv.DictReader(io.StringIO(text, newline=""), strict=True)
    try:
        unknown = set(reader.fieldnames or ()) - fields.keys()
        if unknown:
            raise ExchangeError(f"{noun.name}.csv: {', '.join(sorted(unknown))} is no column of it")
        return [_row(noun, fields, row, number) for number, row in enumerate(reader, 2)]
    except csv.Error as error:
        raise ExchangeError(f"{noun.name}.csv, line {reader.line_num}: {error}") from error


def _row(noun: Noun, fields: Mapping[str, Field], row: Mapping[str, Any], number: int) -> Row:
    if None in row or None in row.values():
        raise ExchangeError(f"{noun.name}.csv, row {number}: it has not as many cells as the head of the table")
    found = {}
    for name, cell in row.items():
        try:
            found[name] = _value(fields[name], cell)
        except ValueError as error:
            raise ExchangeError(f"{noun.name}.csv, row {number}: {name} cannot be read: {error}") from error
    return found


def _value(field: Field, cell: str) -> Any:
    if cell == "":
        return "" if field.kind == "string" and not field.nullable else None
    if field.kind == "json":
        return json.loads(cell)
    if field.kind == "boolean":
        if cell not in ("true", "false"):
            raise ValueError(f"{cell!r} is neither true nor false")
        return cell == "true"
    if field.kind == "integer":
        return int(cell)
    return float(cell) if field.kind == "number" else cell


# ---- for reading in a spreadsheet ----------------------------------------------------------------------


def _amounts(document: Document) -> Iterator[list[Any]]:
    yield [
        "step_id", "build", "act_at", "action", "status", "in_force", "withdrawn", "material", "part", "amount",
        "amount_most", "unit", "lot", "heard", "from_s", "to_s", "confidence", "flags",
    ]  # fmt: skip
    builds = {row["id"]: row["key"] for row in document["builds"]}
    for row in document["steps"]:
        record = row["record"]
        flags = "; ".join(f"{flag['field']}: {flag['why']}" for flag in record.get("flags", ()))
        for use in record.get("materials", ()):
            span = use.get("audio") or ("", "")
            yield [
                row["id"], builds[row["build_id"]], row["act_at"], record["action"], record["status"],
                "true" if row["in_force"] else "false", "true" if row["withdrawn"] else "false", use["name"],
                use.get("part", ""), use.get("amount", ""), use.get("amount_most", ""), use.get("unit", ""),
                use.get("lot", ""), use.get("heard", ""), *span, use.get("confidence", ""), flags,
            ]  # fmt: skip


def _words(document: Document) -> Iterator[list[Any]]:
    yield ["note_id", "hearing_number", "position", "word", "start_s", "end_s", "probability"]
    for row in document["hearings"]:
        for position, (word, _, _, start_s, end_s, probability) in enumerate(row["transcript"]["words"]):
            yield [row["note_id"], row["number"], position, word, start_s, end_s, probability]
