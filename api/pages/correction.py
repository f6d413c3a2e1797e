"""What a filled-in correction form changes in a step; pure. A control that was left alone changes nothing."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from datetime import datetime, tzinfo
from typing import Any

from api.pages.correction_form import LISTS, NOT_SAID, STATUSES, Field, get, ratio_shown, shown
from journal.record import ACTIONS, CONDITION_UNITS


class FormError(ValueError):
    """A control that was filled in with something it cannot hold; says which and what to write."""


def _number(text: str, label: str) -> float:
    # A comma may be a decimal point or a thousands mark: guessing would make a wrong number.
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not 0 <= abs(value) < float("inf"):
        raise FormError(f"{label}: '{text}' is no number; write it like 12.5.")
    return value


def _whole(text: str, label: str) -> int:
    if not text.isdecimal():
        raise FormError(f"{label}: '{text}' is no whole number; write it like 14.")
    return int(text)


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


def _set(item: dict[str, Any], name: str, value: Any) -> None:
    head, _, index = name.partition(".")
    if not index:
        item[head] = value
        return
    pair = list(item.get(head) or (None, None))
    pair[int(index)] = value
    item[head] = pair


def _item(
    name: str, index: int, old: Mapping[str, Any], form: Mapping[str, str], zone: tzinfo | None
) -> dict[str, Any]:
    """Return what of an item was filled in anew, by its field in the record."""
    new, fresh = deepcopy(dict(old)), {}
    for field in LISTS[name][1]:
        text = form.get(f"{name}.{index}.{field.name}")
        if text is None or text.strip() == shown(get(old, field.name), field.kind):
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
    if any(get(added, field.name) is not None for field in LISTS[name][1] if field.kind != "choice"):
        out[f"{name}.{len(old)}"] = added
    return out


def _ratio_changes(record: Mapping[str, Any], form: Mapping[str, str]) -> dict[str, Any]:
    old = record.get("ratio") or {}
    first, second = (form.get(f"ratio.{i}", "").strip() for i in (0, 1))
    by = form.get("ratio.by", "").strip() or None
    before = ratio_shown(record)
    if "ratio.0" not in form or ((first, second) == before and (by == old.get("by") or not first)):
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
    if "pull" in form and text != shown(record.get("pull"), "number"):
        out["pull"] = _whole(text, "Pull") if text else None
    return out


def changes(record: Mapping[str, Any], form: Mapping[str, str], zone: tzinfo | None = None) -> dict[str, Any]:
    """Return what a filled-in form changes, by path; `zone` is the wall time that moments are entered in.

    Raises FormError on a control that cannot be read.
    """
    out = _plain_changes(record, form) | _ratio_changes(record, form)
    for name in LISTS:
        out |= _list_changes(name, record, form, zone)
    return out
