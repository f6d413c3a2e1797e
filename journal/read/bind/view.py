"""What the ways to infer an act look at: a clause, its words, and the families of things named in it."""

from __future__ import annotations

from dataclasses import dataclass

from journal.read.families import family_of
from journal.read.findings import Found, NoteWords
from journal.read.segments import Clause

_WEIGHTS = frozenset({"g", "ml"})
_LEAST_BARE = 5  # a smaller bare number counts things


@dataclass(frozen=True, slots=True)
class View:
    """What a rule looks at: the clause, its words, and the families of things named in it."""

    words: NoteWords
    clause: Clause
    span: tuple[str, ...]
    said: str
    families: frozenset[str]

    def has(self, these: frozenset[str]) -> bool:
        """Tell whether one of these words is in the clause."""
        return not these.isdisjoint(self.span)

    @property
    def weights(self) -> list[Found]:
        """The amounts by weight or volume, bare numbers that may be such among them."""
        return [
            a for a in self.clause.of("amount")
            if a.value.unit in _WEIGHTS or (a.value.unit is None and a.value.low >= _LEAST_BARE)
        ]  # fmt: skip


def families_in(words: NoteWords, clause: Clause) -> frozenset[str]:
    """Return the families of the things named in a clause."""
    out = {family_of(item.value.name, words) for item in clause.of("material")}
    out |= {"second" for item in clause.of("material") if item.value.part == "B"}
    for item in clause.of("layer"):
        if not item.value.coat:
            out.add("fabric")
        elif item.value.name is None or family_of(item.value.name, words):
            named = "of" in words.lower[item.start : item.end]  # "four coats of wax", not ", three coats"
            out |= {"coat", family_of(item.value.name or "", words) if named else None}
    return frozenset(family for family in out if family)
