"""What of a step record is compared: each facet reads its values from the JSON of a step.

Nothing here trusts its input: a field of the wrong shape holds no value.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from tests.bench.values import (
    Amount,
    Condition,
    Layer,
    Moment,
    Ratio,
    Said,
    Seen,
    Span,
    Words,
    content_words,
    number,
    plain,
)  # fmt: skip

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Facet:
    """One kind of value of a step.

    `read` gives (value, row it stands in) pairs; the row holds the confidence. A facet that is `distinct`
    counts a value once a note, however often it was said.
    """

    name: str
    read: Callable[[Row], list[tuple[Any, Row]]]
    distinct: bool = False


# ---- reading a step -------------------------------------------------------------------------------------


def listed(step: Row, field: str) -> list[Any]:
    """Return a field as a list: one value stands for a list of one."""
    value = step.get(field)
    if isinstance(value, list):
        return value
    return [] if value is None else [value]


def rows(step: Row, field: str) -> list[Row]:
    """Return the objects of a field."""
    return [value for value in listed(step, field) if isinstance(value, dict)]


def _name(step: Row) -> list[tuple[Said, Row]]:
    return [(Said((plain(m["name"]),)), m) for m in rows(step, "materials") if m.get("name")]


def _amounts(step: Row) -> list[tuple[Amount, Row]]:
    weighed = [m for m in rows(step, "materials") if m.get("amount") is not None]
    return [
        (Amount((plain(m.get("name")), plain(m.get("part")), plain(m.get("unit"))), number(m["amount"])), m)
        for m in weighed
    ]


def _ratio(step: Row) -> list[tuple[Ratio, Row]]:
    out = []
    for row in rows(step, "ratio"):
        parts = [number(part) or math.nan for part in listed(row, "parts")]
        if parts and not row.get("derived"):
            quotients = tuple(parts[0] / part for part in parts[1:]) or (math.nan,)
            out.append((Ratio(quotients, plain(row.get("by"))), row))
    return out


def _layers(step: Row) -> list[tuple[Layer, Row]]:
    return [
        (Layer((plain(x.get("name")), number(x.get("count"))), number(x.get("gsm"))), x) for x in rows(step, "layers")
    ]


def _timings(step: Row, with_kind: bool) -> list[tuple[Span, Row]]:
    out = []
    for row in rows(step, "timings"):
        ends = [number(end) for end in listed(row, "seconds")]
        least, most = ends if len(ends) == 2 else (math.nan, math.nan)
        out.append((Span(least, most, plain(row.get("kind")) if with_kind else None), row))
    return out


def _instant(text: object) -> datetime | None:
    try:
        return datetime.fromisoformat(text)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return None


def _clock(step: Row) -> list[tuple[Moment, Row]]:
    return [(Moment(plain(c.get("kind")), _instant(c.get("at"))), c) for c in rows(step, "clock")]


def _conditions(step: Row) -> list[tuple[Condition, Row]]:
    return [
        (Condition((plain(c.get("kind")), plain(c.get("unit"))), number(c.get("value"))), c)
        for c in rows(step, "conditions")
    ]


def _phrases(field: str) -> Callable[[Row], list[tuple[Words, Row]]]:
    def read(step: Row) -> list[tuple[Words, Row]]:
        said = [v if isinstance(v, dict) else {"text": v} for v in listed(step, field)]
        found = ((content_words(row.get("text", row.get("heard"))), row) for row in said)
        return [(Words(words), row) for words, row in found if words]

    return read


def _observations(step: Row) -> list[tuple[Seen, Row]]:
    return [(Seen(plain(o.get("kind")), Words(content_words(o.get("text")))), o) for o in rows(step, "observations")]


def _flags(step: Row) -> list[tuple[Said, Row]]:
    return [(Said((plain(f["field"]),)), f) for f in rows(step, "flags") if f.get("field")]


FACETS: dict[str, Facet] = {
    facet.name: facet
    for facet in (
        Facet("amounts", _amounts),
        Facet("materials", _name, distinct=True),
        Facet("ratio", _ratio),
        Facet("layers", _layers),
        Facet("timings", lambda step: _timings(step, with_kind=False)),
        Facet("timing_kinds", lambda step: _timings(step, with_kind=True)),
        Facet("clock", _clock),
        Facet("conditions", _conditions),
        Facet("actions", lambda step: [(Said((plain(step.get("action")), plain(step.get("status")))), step)]),
        Facet("actions_only", lambda step: [(Said((plain(step.get("action")),)), step)]),
        *(Facet(field, _phrases(field)) for field in ("places", "reasons", "cues", "warnings")),
        Facet("observations", _observations),
        Facet("flags", _flags, distinct=True),
    )
}


def values(steps: Sequence[Row], facet: Facet) -> list[tuple[Any, Row]]:
    """Return the (value, row) pairs of a note's steps; each value once where the facet is distinct."""
    found = [pair for step in steps for pair in facet.read(step)]
    return list({value: (value, row) for value, row in reversed(found)}.values())[::-1] if facet.distinct else found
