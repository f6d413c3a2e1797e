"""What usually goes wrong: faults, missed windows, passed limits and queries of past builds, each with its steps. Pure.

A fault says what `could` have brought it about, never what did: that is `review.explain`'s to weigh.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from journal.keep.views import FaultView
from journal.review.builds import BuildRecord, faults_of
from journal.review.explain import Explanation, explain
from journal.review.measures import measure
from journal.review.traits import HAND, LOT, TOO_EARLY, TOO_LATE, traits_of
from journal.review.usual import usual_of
from journal.trade.material import Catalogue

FAULT, WINDOW, LIMIT, QUERY = "fault", "window", "limit", "query"
_MOST_CAUSES, _MOST_LIMITS = 2, 6
_MISHEARD = ("unsure of", "heard ")  # queries of the hearing, which no hand at the bench could have got right
_ASKED_OF = ("ratio", "amount", "unit", "layers", "timings", "conditions")  # what a hand can get wrong


@dataclass(frozen=True, slots=True)
class Mistake:
    """Something that went wrong in past builds, or was queried. `could` says what could have brought it about.

    `doubts` are queries on the values that it rests on.
    """

    kind: str
    words: str
    builds: tuple[str, ...]
    step_ids: tuple[int, ...]
    could: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def mistakes_in(records: Sequence[BuildRecord], catalogue: Catalogue) -> tuple[Mistake, ...]:
    """Return what went wrong in builds: faults first, then windows missed and limits passed, then what was queried."""
    sound = [record for record in records if record.build.outcome == "worked"]
    explained = {record.key: _explained(record, sound, catalogue) for record in records}
    found: list[Mistake] = []
    for record in records:
        found += (_fault(fault, explained[record.key]) for fault in faults_of(record))
    told = " ".join(words for mistake in found for words in mistake.could)
    limits = [each for record in records for each in _limits(record, sound, catalogue) if each.words not in told]
    limits.sort(key=lambda each: each.kind != WINDOW)
    return (*found, *limits[:_MOST_LIMITS], *_queried(records))


def _explained(record: BuildRecord, sound: Sequence[BuildRecord], catalogue: Catalogue) -> Explanation | None:
    if not faults_of(record):
        return None
    return explain(record, [other for other in sound if other is not record], catalogue)


def _fault(fault: FaultView, explained: Explanation | None) -> Mistake:
    likely = [each for each in explained.likely if fault.kind in each.faults] if explained else []
    places = [place for place in fault.places if place.casefold() not in fault.text.casefold()]
    place = f", {', '.join(places)}" if places else ""
    pull = f" (pull {fault.on_pull})" if fault.on_pull is not None else ""
    return Mistake(
        kind=FAULT,
        words=f"{fault.kind}: {fault.text}{place}{pull}",
        builds=(fault.build_key,),
        step_ids=(fault.step_id,),
        could=tuple(f"{each.words}: {each.why} ({each.source})" for each in likely[:_MOST_CAUSES]),
        doubts=tuple(d for each in likely[:_MOST_CAUSES] for diff in each.differences for d in diff.doubts),
    )


def _limits(record: BuildRecord, sound: Sequence[BuildRecord], catalogue: Catalogue) -> Iterator[Mistake]:
    """Yield the limits that a build passed; who did it, and from which tin, is nobody's lesson."""
    usual = usual_of([measure(other, catalogue) for other in sound if other is not record])
    for trait in traits_of(measure(record, catalogue), usual, catalogue):
        if trait.beyond and trait.factor not in (LOT, HAND):
            kind = WINDOW if trait.factor in (TOO_EARLY, TOO_LATE) else LIMIT
            yield Mistake(kind, trait.words, (record.key,), trait.step_ids, doubts=trait.doubts)


def _queried(records: Sequence[BuildRecord]) -> Iterator[Mistake]:
    """Yield what was queried, one entry a field; a query that a person has settled or confirmed is none."""
    asked: dict[str, list[tuple[str, int, str]]] = defaultdict(list)
    for record in records:
        for step in record.done:
            for flag in () if step.confirmed else step.record.flags:
                if not flag.why.startswith(_MISHEARD):
                    asked[flag.field].append((record.key, step.id, flag.why))
    for field in _ASKED_OF:
        if asked[field]:
            ids = tuple(dict.fromkeys(step_id for _, step_id, _ in asked[field]))
            times = "once" if len(ids) == 1 else f"in {len(ids)} steps"
            builds = tuple(dict.fromkeys(key for key, _, _ in asked[field]))
            yield Mistake(QUERY, f"the {field} was queried {times}, thus: {asked[field][0][2]}", builds, ids)
