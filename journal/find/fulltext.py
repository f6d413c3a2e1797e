"""How each database is asked: FTS5 on SQLite, text search vectors on PostgreSQL.

What a person typed is always a quoted string or a bound value here, never syntax.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import reduce
from typing import Any

from sqlalchemy import ColumnElement, Subquery, column, func, literal, literal_column, select, table

from journal.find.terms import Term
from journal.keep.tables import SearchEntryRow

ON, OFF = "\x02", "\x03"  # around a match in a snippet; no text has them
_FTS = table("search_text", column("rowid"), column("text"))
_ENGLISH: ColumnElement[Any] = literal_column("'english'")
_SNIPPET_WORDS = 24


def matches(sqlite: bool, terms: Sequence[Term], every: bool) -> Subquery:
    """Return the entries that every one of the terms matches, or any one of them.

    Columns: entry_id, score (higher is better) and marked (a snippet, with ON and OFF around matches).
    """
    return _fts5(terms, every) if sqlite else _tsvector(terms, every)


def pieces(snippet: str) -> tuple[tuple[str, bool], ...]:
    """Return a marked snippet as pieces, each with whether it matched."""
    parts = re.split(f"({ON}[^{OFF}]*{OFF})", snippet)
    return tuple((part.strip(ON + OFF), part.startswith(ON)) for part in parts if part)


def _fts5(terms: Sequence[Term], every: bool) -> Subquery:
    asked = (" AND " if every else " OR ").join(_fts5_term(term) for term in terms)
    name: ColumnElement[Any] = literal_column("search_text")
    found = select(
        _FTS.c.rowid.label("entry_id"),
        (-func.bm25(name)).label("score"),
        func.snippet(name, 0, ON, OFF, "…", _SNIPPET_WORDS).label("marked"),
    )
    return found.where(name.op("MATCH")(literal(asked))).subquery("found")


def _fts5_term(term: Term) -> str:
    star = " *" if term.prefix else ""
    quoted = (phrase.replace('"', '""') for phrase in term.phrases)
    return "(" + " OR ".join(f'"{phrase}"{star}' for phrase in quoted) + ")"


def _tsvector(terms: Sequence[Term], every: bool) -> Subquery:
    join: Callable[[Any, Any], Any] = func.tsquery_and if every else func.tsquery_or
    asked = reduce(join, (_tsquery(term) for term in terms))
    vector = func.to_tsvector(_ENGLISH, SearchEntryRow.text)
    options = (
        f'StartSel="{ON}", StopSel="{OFF}", MaxWords={_SNIPPET_WORDS}, MinWords=12, MaxFragments=2,'
        ' FragmentDelimiter=" … "'
    )
    found = select(
        SearchEntryRow.id.label("entry_id"),
        func.ts_rank_cd(vector, asked).label("score"),
        func.ts_headline(_ENGLISH, SearchEntryRow.text, asked, options).label("marked"),
    )
    return found.where(vector.op("@@", is_comparison=True)(asked)).subquery("found")


def _tsquery(term: Term) -> Any:
    asked: list[Any] = [func.phraseto_tsquery(_ENGLISH, phrase) for phrase in term.phrases]
    if term.prefix:
        words = (phrase for phrase in term.phrases if re.fullmatch(r"[^\W_]+", phrase))
        asked += [func.to_tsquery(_ENGLISH, f"'{word}':*") for word in words]
    return reduce(func.tsquery_or, asked)
