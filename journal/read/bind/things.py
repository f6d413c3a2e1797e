"""Counted and measured things of a draft: "two threaded inserts", "three strips of peel ply", "600 mm of tube"."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from journal.read.bind.draft import Draft
from journal.read.evidence import Witness
from journal.read.families import family_of
from journal.read.findings import Findings, Found, NoteWords
from journal.record import MaterialUse

_NAMED_BY = ("JJ", "VBN", "NN", "NNS", "NNP", "HYPH")
_FACTS = ("amount", "condition", "duration", "moment", "layer", "lot", "ratio")
_BY_LENGTH = frozenset({"hardware", "bagging"})
_NOT_THINGS = frozenset(
    "newton newtons nm rpm volts watts bar psi degrees percent "
    "mil mils mm millimetre inch inches times halves half sides side hours hour minutes minute coats grit".split()
)


def is_of_stuff(words: NoteWords, draft: Draft, length: Found) -> bool:
    """Tell whether a length is how much of a thing was used: "600 mm of steel tube", not how long something is."""
    return length.value.unit == "mm" and _stuff(words, draft, length.end) is not None


def _stuff(words: NoteWords, draft: Draft, end: int) -> Found | None:
    if words.lower[end : end + 1] != ("of",):
        return None
    at = end + 1 + (words.lower[end + 1 : end + 2] == ("the",))
    named = (item for item in draft.of("material") if item.start == at)
    return next((item for item in named if family_of(item.value.name, words) in _BY_LENGTH), None)


@dataclass(frozen=True, slots=True)
class Things:
    """Makes the uses of a draft's things."""

    words: NoteWords
    found: Findings
    witness: Witness

    def of(self, draft: Draft) -> list[MaterialUse]:
        """Return counted things by the words said, and lengths and areas of bought stuff by the catalogue's name."""
        measured = self._measured(draft)
        if draft.action == "cut":
            return measured + self._pieces(draft)
        if draft.action not in ("fit", "clean", "store"):
            return measured
        pieces = self._pieces(draft) if draft.action == "fit" else []
        return measured + (pieces or [made for item in draft.of("number") if (made := self._counted(draft, item))])

    def _measured(self, draft: Draft) -> list[MaterialUse]:
        """Return "600 mm of steel tube", "three square metres of peel ply"."""
        out = []
        for item in (*draft.of("condition"), *draft.of("amount")):
            stuff = _stuff(self.words, draft, item.end) if item.value.unit in ("mm", "m2") else None
            if stuff is not None:
                size: Fraction = item.value.value if item.kind == "condition" else item.value.low
                evidence = self.witness.of(item.start, stuff.end, "bind.measured", item.confidence)
                out.append(MaterialUse(stuff.value.name, evidence, None, size, None, item.value.unit))
        return out

    def _counted(self, draft: Draft, item: Found) -> MaterialUse | None:
        lower, tags = self.words.lower, self.words.tags
        end = item.end
        while end < draft.end and tags[end] in _NAMED_BY:
            end += 1
        plural = end > item.end and tags[end - 1] in ("NNS", "NN")
        if not plural or item.value.ordinal or lower[end : end + 1] == ("of",) or lower[item.end] in _NOT_THINGS:
            return None
        if self._is_taken(draft, item, end):
            return None
        name = " ".join(lower[item.end : end])
        evidence = self.witness.of(item.start, end, "bind.things", item.confidence)
        return MaterialUse(name, evidence, None, item.value.low, None, "count")

    def _is_taken(self, draft: Draft, item: Found, end: int) -> bool:
        """Tell whether the number belongs to another fact, or counts what the catalogue names: "two steel tubes"."""
        for kind in _FACTS:
            other = self.found.at(kind, item.start)
            if other is not None and not (kind == "amount" and other.value.unit in (None, "count")):
                return True
        known = any(m.start == item.end and m.end == end and m.value.known for m in draft.of("material"))
        return known and self.found.at("amount", item.start) is not None

    def _pieces(self, draft: Draft) -> list[MaterialUse]:
        sized = [item for kind in ("condition", "amount") for item in draft.of(kind) if item.value.unit in ("mm", "m2")]
        out = []
        for item in draft.of("material"):
            for number in draft.of("number"):
                gap = self.words.lower[number.end : item.start]
                counted = 0 < len(gap) <= 3 and gap[-1] == "of" and family_of(item.value.name, self.words) != "fabric"
                if counted and not any(one.start <= number.start < one.end for one in sized):
                    evidence = self.witness.of(number.start, item.end, "bind.pieces", item.confidence)
                    out.append(MaterialUse(item.value.name, evidence, None, number.value.low, None, "count"))
        return out
