"""A self-test on some builds: the same seed asks the same of the same records. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from random import Random

from journal.teach.faults import fault_questions
from journal.teach.ordering import order_questions
from journal.teach.question import KINDS, Kind, Marked, Question, mark
from journal.teach.sheet import TrainingSheet
from journal.teach.taught import Taught
from journal.teach.weighing import weigh_questions
from journal.teach.windows import window_questions
from journal.trade.material import Catalogue

_MOST_OF_A_KIND = 2
LACKS: dict[Kind, str] = {
    "order": "Nothing to put in order: fewer than three acts stand for themselves.",
    "weigh": "Nothing to weigh: no ratio of a build that worked is beyond doubt. Confirm a batch to have it asked.",
    "fault": "No fault to spot: none is recorded.",
    "window": "No window to judge: no clock is beyond doubt. Confirm a step to have it asked.",
}


@dataclass(frozen=True, slots=True)
class SelfTest:
    """Questions in the order they are asked; `lacks` says what kinds of question the records do not bear, and why."""

    builds: tuple[str, ...]
    seed: int
    questions: tuple[Question, ...]
    lacks: tuple[str, ...]


def self_test(taught: Taught, sheet: TrainingSheet, catalogue: Catalogue, confirm_below: float, seed: int) -> SelfTest:
    """Return the test of this seed."""
    makers: dict[Kind, Callable[[Random], Iterable[Question]]] = {
        "order": partial(order_questions, taught, sheet),
        "weigh": partial(weigh_questions, taught, catalogue, confirm_below),
        "fault": partial(fault_questions, taught),
        "window": partial(window_questions, taught, catalogue, confirm_below),
    }
    asked: list[Question] = []
    lacks: list[str] = []
    for kind in KINDS:
        chance = Random(f"{seed} {kind}")
        found = list(makers[kind](chance))
        asked += _some(found, chance)
        lacks += [] if found else [LACKS[kind]]
    return SelfTest(taught.keys, seed, tuple(asked), tuple(lacks))


def _some(found: Sequence[Question], chance: Random) -> list[Question]:
    """Return as many as are asked of a kind, those with a photo first, else by chance; in their own order."""
    chosen = sorted(range(len(found)), key=lambda i: (not found[i].photos, chance.random()))[:_MOST_OF_A_KIND]
    return [found[i] for i in sorted(chosen)]


def mark_all(test: SelfTest, given: Mapping[str, str]) -> tuple[Marked, ...]:
    """Return every question of a test with its answer marked; `given` are answers by the question's key."""
    return tuple(mark(question, given.get(question.key, "")) for question in test.questions)
