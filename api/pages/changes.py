"""How an entry of the history is written for people; pure."""

from __future__ import annotations

from typing import Any

from journal.keep.views import Change
from journal.review.values import number

SKIPPED = frozenset({"heard", "chars", "audio", "confidence", "rule"})


def _plain(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, float):
        return number(value)
    if isinstance(value, list):
        return ", ".join(_plain(item) for item in value) or "nothing"
    if isinstance(value, dict):
        inside = (f"{name} {_plain(item)}" for name, item in value.items() if name not in SKIPPED and item is not None)
        return ", ".join(inside) or "nothing"
    return str(value)


def told_change(change: Change) -> list[str]:
    """Return what changed, one line a field; nothing when before and after are not both records."""
    before, after = change.before, change.after
    if not isinstance(before, dict) or not isinstance(after, dict):
        return []
    return [
        f"{name}: {_plain(before.get(name))}, now {_plain(after.get(name))}"
        for name in sorted(before.keys() | after.keys())
        if before.get(name) != after.get(name)
    ]
