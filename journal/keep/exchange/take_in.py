"""Rows of a plan into a store, in one transaction, with all that is worked out from them."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import insert
from sqlalchemy.exc import DataError, IntegrityError
from sqlalchemy.orm import Session

from journal.keep.base import Opened
from journal.keep.builds import build_entry
from journal.keep.exchange.document import Document, Row, gather
from journal.keep.exchange.merging import Plan, plan
from journal.keep.exchange.nouns import NOUNS, ExchangeError, Noun, to_columns
from journal.keep.index import index
from journal.keep.notes import index_note
from journal.keep.steps import set_parts, step_entry
from journal.keep.tables import BuildRow, NoteRow, StepRow
from journal.keep.transfer import count_on
from journal.record import step_from_json

_ROWS_AT_ONCE = 500


def merge(store: Opened, document: Document, at: datetime) -> Plan:
    """Add what is new of a checked document to a store; nothing that is there is altered. Returns what was done."""
    added = plan(document, gather(store, at))
    try:
        with store.writing() as session:
            for noun in NOUNS:
                _insert(session, noun, added.new[noun.name])
            if not store.sqlite:
                count_on(session.connection())
            _work_out(session, added)
    except (IntegrityError, DataError) as error:  # a value that no rule here names: nothing was taken in
        raise ExchangeError(f"nothing was taken in: the store refuses what the file holds ({error.orig})") from error
    return added


def _insert(session: Session, noun: Noun, rows: list[Row]) -> None:
    whole = [_columns(noun, row) for row in rows]
    for start in range(0, len(whole), _ROWS_AT_ONCE):
        session.execute(insert(noun.table), whole[start : start + _ROWS_AT_ONCE])


def _columns(noun: Noun, row: Row) -> dict[str, Any]:
    columns: dict[str, Any] = {}
    for field in noun.fields:
        columns |= to_columns(field, row[field.name])
    return columns


def _work_out(session: Session, added: Plan) -> None:
    """Write the rows that steps are asked for by, and the full-text index."""
    index(session, [build_entry(row) for row in _rows(session, BuildRow, added.new["builds"])])
    for note in _rows(session, NoteRow, added.new["notes"]):
        index_note(session, note)
    standing = []
    for step in _rows(session, StepRow, added.new["steps"]):
        set_parts(step, step_from_json(step.record))
        if step.in_force and not step.withdrawn:
            standing.append(step_entry(step))
    index(session, standing)


def _rows(session: Session, table: Any, rows: list[Row]) -> list[Any]:
    return [session.get_one(table, row["id"]) for row in rows]
