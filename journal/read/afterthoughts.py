"""What the end of a saying makes of its beginning: "..., that's how I always mix it", "..., always"."""

from __future__ import annotations

from collections.abc import Sequence

from journal.read.findings import NoteWords
from journal.read.segments import Clause

_LEADS = frozenset(", ; - – — and so but anyway . well".split())
_HABIT = frozenset(
    ("always", "ever", "normally", "usually", "every time", "each time", "every single time", "as a rule",
     "without fail", "every pull", "no exceptions")
)  # fmt: skip
_OURS = frozenset("my our the his her".split())
_RULES = frozenset("rule way habit method".split())
_MANNER = frozenset("how what".split())
_DOERS = frozenset("i we you they he she".split())
_OWN = frozenset("i we 'll will going gonna to need let".split())
_PRESENT = frozenset("VBP VBZ VB".split())


def make_advice(words: NoteWords, clauses: Sequence[Clause]) -> None:
    """Set to advised, in place, what a later clause of its sentence calls a habit or a rule."""
    for i, clause in enumerate(clauses):
        if i and clause.of("warning") and _is_an_order(words, clauses[i - 1], clause):
            clauses[i - 1].status = "advised"
        if not _is_a_habit(words, clause):
            continue
        told = [c for c in clauses[:i] if c.sentence == clause.sentence] or [
            c for c in clauses[:i] if c.sentence == clause.sentence - 1
        ]
        for earlier in (*told, clause):
            earlier.status = "advised"
        if clause.act is not None and clause.act.rule == "acts.do":
            clause.act = None


def _is_an_order(words: NoteWords, order: Clause, warning: Clause) -> bool:
    """Tell whether an order goes before a warning: "leave it soak a minute, and don't go near it"."""
    act = order.act
    if act is None or order.sentence != warning.sentence or order.status != "planned" or act.value.form != "base":
        return False
    return _OWN.isdisjoint(words.lower[order.start : act.value.head])


def _is_a_habit(words: NoteWords, clause: Clause) -> bool:
    start = clause.start
    while start < clause.end and words.lower[start] in _LEADS:
        start += 1
    span = words.lower[start : clause.end]
    if " ".join(span) in _HABIT:
        return True
    if len(span) < 4 or span[0] not in ("that", "this", "which") or span[1] not in ("'s", "is"):
        return False
    if span[2] in _OURS and span[3] in _RULES and "i" not in span[4:] and "we" not in span[4:]:
        return True
    manner = span[2] in _MANNER or span[2:4] == ("the", "way")
    doer = next((n for n in range(3, min(6, len(span))) if span[n] in _DOERS), None)
    if not manner or doer is None:
        return False
    verbs = [words.tags[start + n] for n in range(doer + 1, len(span)) if words.tags[start + n][0] in "VM"]
    return bool(verbs) and verbs[0] in _PRESENT
