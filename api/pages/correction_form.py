"""The form that corrects a step: which controls it has, and what they hold; pure.

A control's name is the path of its value in the step record ("materials.0.amount"), so one table both
draws the form and reads it back (`api.pages.correction`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from json import dumps
from typing import Any, Literal

from journal.record import CLOCK_KINDS, CONDITION_UNITS, OBSERVATION_KINDS, TIMING_KINDS

Kind = Literal["text", "number", "choice", "minutes", "moment"]
UNITS = ("g", "ml", "percent", "m2", "mm", "count")
STATUSES = ("done", "planned", "advised", "not done")
NOT_SAID = ""


@dataclass(frozen=True, slots=True)
class Field:
    """One field of an item: its name in the record, its label, and how it is entered."""

    name: str
    label: str
    kind: Kind = "text"
    options: tuple[str, ...] = ()


PARTS = (NOT_SAID, "A", "B")
LISTS: dict[str, tuple[str, tuple[Field, ...]]] = {
    "materials": (
        "Material",
        (
            Field("name", "Material"),
            Field("amount", "Amount", "number"),
            Field("amount_most", "to, if a range", "number"),
            Field("unit", "Unit", "choice", (NOT_SAID, *UNITS)),
            Field("part", "Part", "choice", PARTS),
            Field("lot", "Lot"),
        ),
    ),
    "layers": (
        "Layer",
        (
            Field("name", "Layer or coat of"),
            Field("count", "How many", "number"),
            Field("gsm", "g/m² of one", "number"),
        ),
    ),
    "timings": (
        "Timing",
        (
            Field("kind", "Kind", "choice", TIMING_KINDS),
            Field("seconds.0", "At least, minutes", "minutes"),
            Field("seconds.1", "At most, minutes", "minutes"),
        ),
    ),
    "clock": (
        "Time",
        (Field("kind", "Kind", "choice", CLOCK_KINDS), Field("at", "At", "moment")),
    ),
    "conditions": (
        "Condition",
        (
            Field("kind", "Kind", "choice", tuple(CONDITION_UNITS)),
            Field("value", "Value", "number"),
            Field("of", "Of", "choice", (NOT_SAID, "shop", "resin", "oven", "mould")),
        ),
    ),
    "places": ("Place", (Field("text", "Place"),)),
    "observations": (
        "Seen",
        (Field("kind", "Kind", "choice", OBSERVATION_KINDS), Field("text", "Words")),
    ),
    "cues": ("Until", (Field("text", "Until"),)),
    "reasons": ("Because", (Field("text", "Because"),)),
    "warnings": ("Mind", (Field("text", "Mind"),)),
}
"""Every list of the record: what one item is called, and its fields."""


@dataclass(frozen=True, slots=True)
class Control:
    """One control of the form: the path of its value, its label, and what it holds now."""

    path: str
    label: str
    kind: Kind
    value: str
    options: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Group:
    """The controls of one item; `path` is the item's, `out` whether it is to be taken out."""

    label: str
    path: str
    controls: tuple[Control, ...]
    out: bool = False


def fingerprint(record: Mapping[str, Any]) -> str:
    """Return a mark of the record as it stood when the form was drawn, to notice a change in between."""
    return sha256(dumps(record, sort_keys=True).encode()).hexdigest()[:16]


def get(item: Mapping[str, Any], name: str) -> Any:
    """Return the value of a field of an item; `seconds.0` is the first of its pair."""
    head, _, index = name.partition(".")
    value = item.get(head)
    return value[int(index)] if index and value is not None else value


def shown(value: Any, kind: Kind) -> str:
    """Write a value the way its control holds it."""
    if value is None:
        return ""
    if kind == "minutes":
        return f"{value / 60:.10g}"
    if kind == "number":
        return f"{value:.10g}"
    if kind == "moment":
        return datetime.fromisoformat(value).strftime("%Y-%m-%dT%H:%M")
    return str(value)


def _group(label: str, name: str, index: int, item: Mapping[str, Any], filled: Mapping[str, str]) -> Group:
    path = f"{name}.{index}"
    controls = []
    for field in LISTS[name][1]:
        value = filled.get(f"{path}.{field.name}", shown(get(item, field.name), field.kind))
        controls.append(Control(f"{path}.{field.name}", field.label, field.kind, value, field.options))
    return Group(label, path, tuple(controls), bool(filled.get(f"out.{path}")))


def _items(record: Mapping[str, Any], filled: Mapping[str, str]) -> Iterator[Group]:
    for name, (label, _) in LISTS.items():
        items = record.get(name, [])
        for i, item in enumerate(items):
            yield _group(f"{label} {i + 1}" if len(items) > 1 else label, name, i, item, filled)


def _blanks(record: Mapping[str, Any], filled: Mapping[str, str]) -> Iterator[Group]:
    for name, (label, _) in LISTS.items():
        yield _group(label, name, len(record.get(name, [])), {}, filled)


def ratio_shown(record: Mapping[str, Any]) -> tuple[str, str]:
    """Return the two parts as the form shows them; a ratio of more parts is not put in two boxes."""
    parts = [shown(part, "number") for part in (record.get("ratio") or {}).get("parts", ())]
    return (parts[0], parts[1]) if len(parts) == 2 else ("", "")


@dataclass(frozen=True, slots=True)
class Form:
    """The form of one record: its items, blank ones to add, and the values that stand alone."""

    items: tuple[Group, ...]
    blanks: tuple[Group, ...]
    action: str
    status: str
    ratio: tuple[str, str]
    by: str
    pull: str
    why: str
    seen: str


def form_of(record: Mapping[str, Any], filled: Mapping[str, str] | None = None) -> Form:
    """Return the form as it stands, or as it was filled in when what was filled in could not be taken."""
    given = filled or {}
    first, second = ratio_shown(record)
    return Form(
        items=tuple(_items(record, given)),
        blanks=tuple(_blanks(record, given)),
        action=given.get("action", record["action"]),
        status=given.get("status", record["status"]),
        ratio=(given.get("ratio.0", first), given.get("ratio.1", second)),
        by=given.get("ratio.by", (record.get("ratio") or {}).get("by") or ""),
        pull=given.get("pull", shown(record.get("pull"), "number")),
        why=given.get("why", ""),
        seen=fingerprint(record),
    )
