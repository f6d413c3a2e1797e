"""The form that corrects a step: which controls it has, and what a filled-in form changes; pure.

A control's name is the path of its value in the step record ("materials.0.amount"), so one table
both draws the form and reads it back. A control that was left alone changes nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass
from datetime import datetime, tzinfo
from hashlib import sha256
from json import dumps
from typing import Any, Literal

from journal.record import ACTIONS, CLOCK_KINDS, CONDITION_UNITS, OBSERVATION_KINDS, TIMING_KINDS

Kind = Literal["text", "number", "choice", "minutes", "moment"]
UNITS = ("g", "ml", "percent", "m2", "mm", "count")
STATUSES = ("done", "planned", "advised", "not done")
NOT_SAID = ""


class FormError(ValueError):
    """A control that was filled in with something it cannot hold; says which and what to write."""


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
    """The controls of one item; `path` is the item's. `blank` groups add one when filled in."""

    label: str
    path: str
    controls: tuple[Control, ...]
    blank: bool = False


def fingerprint(record: Mapping[str, Any]) -> str:
    """Return a mark of the record as it stood when the form was drawn, to notice a change in between."""
    return sha256(dumps(record, sort_keys=True).encode()).hexdigest()[:16]


def _get(item: Mapping[str, Any], name: str) -> Any:
    head, _, index = name.partition(".")
    value = item.get(head)
    return value[int(index)] if index and value is not None else value


def _set(item: dict[str, Any], name: str, value: Any) -> None:
    head, _, index = name.partition(".")
    if not index:
        item[head] = value
        return
    pair = list(item.get(head) or (None, None))
    pair[int(index)] = value
    item[head] = pair


def _shown(value: Any, kind: Kind) -> str:
    if value is None:
        return ""
    if kind == "minutes":
        return f"{value / 60:.10g}"
    if kind == "number":
        return f"{value:.10g}"
    if kind == "moment":
        return datetime.fromisoformat(value).strftime("%Y-%m-%dT%H:%M")
    return str(value)


def _number(text: str, label: str) -> float:
    # A comma may be a decimal point or a thousands mark: guessing would make a wrong number.
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not 0 <= abs(value) < float("inf"):
        raise FormError(f"{label}: '{text}' is no number; write it like 12.5.")
    return value


def _moment(text: str, label: str, zone: tzinfo | None) -> str:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise FormError(f"{label}: '{text}' is no time; write it like 2026-04-13T14:05.") from None
    return (moment if moment.tzinfo else moment.replace(tzinfo=zone)).isoformat()


def _entered(text: str, field: Field, zone: tzinfo | None) -> Any:
    if text == NOT_SAID:
        return None
    if field.kind == "number":
        return _number(text, field.label)
    if field.kind == "minutes":
        return _number(text, field.label) * 60
    if field.kind == "moment":
        return _moment(text, field.label, zone)
    if field.options and text not in field.options:
        raise FormError(f"{field.label}: choose one of {', '.join(filter(None, field.options))}.")
    return text


def _controls(name: str, index: int, item: Mapping[str, Any]) -> tuple[Control, ...]:
    return tuple(
        Control(f"{name}.{index}.{f.name}", f.label, f.kind, _shown(_get(item, f.name), f.kind), f.options)
        for f in LISTS[name][1]
    )


def groups(record: Mapping[str, Any]) -> list[Group]:
    """Return the controls for every item of a record, and blank ones for an item that is missing."""
    out = []
    for name, (label, _) in LISTS.items():
        items = record.get(name, [])
        numbered = len(items) > 1
        out += [
            Group(f"{label} {i + 1}" if numbered else label, f"{name}.{i}", _controls(name, i, item))
            for i, item in enumerate(items)
        ]
    out += [
        Group(label, f"{name}.{len(record.get(name, []))}", _controls(name, len(record.get(name, [])), {}), blank=True)
        for name, (label, _) in LISTS.items()
    ]
    return out


def _item(
    name: str, index: int, old: Mapping[str, Any], form: Mapping[str, str], zone: tzinfo | None
) -> dict[str, Any]:
    """Return what of an item was filled in anew, by its field in the record."""
    new, fresh = deepcopy(dict(old)), {}
    for field in LISTS[name][1]:
        text = form.get(f"{name}.{index}.{field.name}")
        if text is None or text.strip() == _shown(_get(old, field.name), field.kind):
            continue
        _set(new, field.name, _entered(text.strip(), field, zone))
        top = field.name.partition(".")[0]
        fresh[top] = new[top]
    if name == "conditions" and "kind" in fresh:
        fresh["unit"] = CONDITION_UNITS[fresh["kind"]]
    return fresh


def _list_changes(name: str, record: Mapping[str, Any], form: Mapping[str, str], zone: tzinfo | None) -> dict[str, Any]:
    old = record.get(name, [])
    out: dict[str, Any] = {}
    for i, item in enumerate(old):
        if form.get(f"out.{name}.{i}"):
            out[f"{name}.{i}"] = None
        else:
            out |= {f"{name}.{i}.{field}": value for field, value in _item(name, i, item, form, zone).items()}
    added = {field: value for field, value in _item(name, len(old), {}, form, zone).items() if value is not None}
    # A choice always stands at one of its entries: an item is there once something was written.
    if any(_get(added, field.name) is not None for field in LISTS[name][1] if field.kind != "choice"):
        out[f"{name}.{len(old)}"] = added
    return out


def _ratio_shown(record: Mapping[str, Any]) -> tuple[str, str]:
    """Return the two parts as the form shows them; a ratio of more parts is not put in two boxes."""
    parts = [_shown(part, "number") for part in (record.get("ratio") or {}).get("parts", ())]
    return (parts[0], parts[1]) if len(parts) == 2 else ("", "")


def _ratio_changes(record: Mapping[str, Any], form: Mapping[str, str]) -> dict[str, Any]:
    old = record.get("ratio") or {}
    first, second = (form.get(f"ratio.{i}", "").strip() for i in (0, 1))
    by = form.get("ratio.by", "").strip() or None
    shown = _ratio_shown(record)
    if "ratio.0" not in form or ((first, second) == shown and (by == old.get("by") or not first)):
        return {}
    if not first and not second:
        return {"ratio": None}
    if not first or not second:
        raise FormError("Ratio: write both parts, or neither.")
    return {"ratio": {"parts": [_number(first, "Ratio"), _number(second, "Ratio")], "by": by}}


def _plain_changes(record: Mapping[str, Any], form: Mapping[str, str]) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for name, options in (("action", ACTIONS), ("status", STATUSES)):
        value = form.get(name, record[name])
        if value not in options:
            raise FormError(f"{name}: choose one of {', '.join(options)}.")
        if value != record[name]:
            out[name] = value
    text = form.get("pull", "").strip()
    if "pull" in form and text != _shown(record.get("pull"), "number"):
        out["pull"] = int(_number(text, "Pull")) if text else None
    return out


def changes(record: Mapping[str, Any], form: Mapping[str, str], zone: tzinfo | None = None) -> dict[str, Any]:
    """Return what a filled-in form changes, by path; `zone` is the wall time that moments are entered in.

    Raises FormError on a control that cannot be read.
    """
    out = _plain_changes(record, form) | _ratio_changes(record, form)
    for name in LISTS:
        out |= _list_changes(name, record, form, zone)
    return out


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
    seen: str


def form_of(record: Mapping[str, Any]) -> Form:
    """Return the form as it stands before anything is filled in."""
    found = groups(record)
    return Form(
        items=tuple(group for group in found if not group.blank),
        blanks=tuple(group for group in found if group.blank),
        action=record["action"],
        status=record["status"],
        ratio=_ratio_shown(record),
        by=(record.get("ratio") or {}).get("by") or "",
        pull=_shown(record.get("pull"), "number"),
        seen=fingerprint(record),
    )
