"""What the rules of status look at: the words before a verb, its form, and the words of its clause."""

from __future__ import annotations

from typing import NamedTuple

from journal.read.segments import Clause


class View(NamedTuple):
    """What a rule looks at: the words before the verb, the verb's form and tag, and the clause's words."""

    lead: tuple[str, ...]
    there: frozenset[str]
    form: str
    span: tuple[str, ...]
    said: str
    head: str
    tag: str
    clause: Clause
    before: Clause | None
    spoken: bool = False
    opening: str = ""
    after: tuple[str, ...] = ()


def is_warned(view: View) -> bool:
    """Tell whether it is said what happens otherwise, or advice goes before: "let it sit or you'll get lumps"."""
    reasons = [item.value.text.casefold() for item in view.clause.of("reason")]
    otherwise = any(text.startswith(("or ", "otherwise")) for text in reasons)
    return otherwise or (view.before is not None and view.before.status == "advised")
