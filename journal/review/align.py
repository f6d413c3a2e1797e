"""Lay two or more builds side by side: by act, place, material and stage, order only breaking ties. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linear_sum_assignment

from journal.keep.views import StepView
from journal.review.builds import UNALIGNED, BuildRecord, family, names_in, stages_of
from journal.trade.material import Catalogue

_SAME_ACT, _SAME_FAMILY, _SAME_STAGE, _MATERIAL, _PLACE = 3.0, 2.5, 2.0, 3.0, 1.0
_ORDER = 0.6  # less than any of the others: order only breaks ties
_LEAST = 4.5  # the act and the stage, or the act and most of the materials


@dataclass(frozen=True, slots=True)
class Row:
    """One act across builds: the step of each build, None where a build has no such step."""

    act: str
    stage: str
    steps: tuple[StepView | None, ...]

    @property
    def beside(self) -> Beside:
        """The row by the ids of its steps."""
        return Beside(self.act, self.stage, tuple(step.id if step else None for step in self.steps))


@dataclass(frozen=True, slots=True)
class Beside:
    """One act across builds by the ids of its steps, None where a build has no such step."""

    act: str
    stage: str
    step_ids: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Alignment:
    """Builds side by side: their keys, and a row for each act in the order of the first build."""

    keys: tuple[str, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class _Act:
    """A step as it is matched: what it is, and the number of like ones before it in its build."""

    step: StepView
    family: str
    stage: str
    names: frozenset[str]
    places: frozenset[str]
    rank: int
    share: float  # how far through its build, 0 to 1


def align(records: Sequence[BuildRecord], catalogue: Catalogue) -> Alignment:
    """Lay the done and left-out steps of builds side by side. The first build gives the order of the rows.

    Each further build is laid to the rows so far so that the sum of likenesses is greatest; a step that is
    like none gets a row of its own, after the row of the step before it.
    """
    rows: list[list[_Act | None]] = []
    for number, record in enumerate(records):
        acts = _acts(record, catalogue)
        found = _assigned(rows, acts)
        for row in rows:
            row.append(None)
        at = -1
        for i, act in enumerate(acts):
            if i in found:
                row = found[i]
                row[number] = act
                at = next(k for k, each in enumerate(rows) if each is row)
            else:
                at += 1
                rows.insert(at, [None] * number + [act])
    return Alignment(tuple(record.key for record in records), tuple(_row(row) for row in rows))


def _acts(record: BuildRecord, catalogue: Catalogue) -> list[_Act]:
    stages = stages_of(record.steps, catalogue)
    wanted = [s for s in record.steps if s.record.status in ("done", "not done") and s.record.action not in UNALIGNED]
    acts: list[_Act] = []
    ranks: dict[tuple[str, str, frozenset[str]], int] = {}
    for number, step in enumerate(wanted):
        names = frozenset(names_in(step.record))
        like = (family(step.record.action), stages[step.id], names)
        places = frozenset(place.text.casefold() for place in step.record.places)
        share = number / len(wanted)
        acts.append(_Act(step, like[0], like[1], names, places, ranks.get(like, 0), share))
        ranks[like] = ranks.get(like, 0) + 1
    return acts


def _assigned(rows: Sequence[list[_Act | None]], acts: Sequence[_Act]) -> dict[int, list[_Act | None]]:
    """Return the row that each act, by its number, belongs in."""
    if not rows or not acts:
        return {}
    like = np.array([[max(likeness(act, other) for other in row if other) for row in rows] for act in acts])
    chosen = zip(*linear_sum_assignment(np.where(like < _LEAST, 0.0, like), maximize=True), strict=True)
    return {int(i): rows[int(j)] for i, j in chosen if like[i, j] >= _LEAST}


def likeness(one: _Act, other: _Act) -> float:
    """Return how like two acts are; 0 when they are different acts, or only one is on the finished mould."""
    if one.family != other.family or (one.stage == "in use") != (other.stage == "in use"):
        return 0.0
    same_act = one.step.record.action == other.step.record.action
    score = _SAME_ACT if same_act else _SAME_FAMILY
    score += _SAME_STAGE * (one.stage == other.stage)
    score += _MATERIAL * _shared(one.names, other.names) + _PLACE * _shared(one.places, other.places)
    apart = min(1.0, abs(one.rank - other.rank) / 2) + abs(one.share - other.share)
    return score - _ORDER * apart / 2


def _shared(one: frozenset[str], other: frozenset[str]) -> float:
    """Return the share of names in common, 0 to 1; half when either said none."""
    if not one or not other:
        return 0.5
    return len(one & other) / len(one | other)


def _row(row: Sequence[_Act | None]) -> Row:
    first = next(act for act in row if act is not None)
    return Row(first.step.record.action, first.stage, tuple(act.step if act else None for act in row))
