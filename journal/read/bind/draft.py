"""One step in the making: the clauses of one act."""

from __future__ import annotations

from dataclasses import dataclass, field

from journal.read.findings import Found
from journal.read.segments import Clause
from journal.record import Status


@dataclass(slots=True)
class Draft:
    """One step in the making. `said` is False while its act is only inferred from its facts.

    `repeats` are counts said again of the layer before them ("and two on the flange").
    """

    action: str
    status: Status
    clauses: list[Clause]
    said: bool
    rule: str
    confidence: float = 0.95
    acts: list[Found] = field(default_factory=list)
    repeats: list[Found] = field(default_factory=list)

    @property
    def start(self) -> int:
        """The first token of the draft."""
        return min(clause.start for clause in self.clauses)

    @property
    def end(self) -> int:
        """The token after the draft's last."""
        return max(clause.end for clause in self.clauses)

    @property
    def sentence(self) -> int:
        """The number of the sentence that the draft ends in."""
        return self.clauses[-1].sentence

    def of(self, kind: str) -> list[Found]:
        """Return the facts of one kind in all the draft's clauses, in the order of the text."""
        return [item for clause in self.clauses for item in clause.of(kind)]
