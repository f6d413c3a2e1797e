"""What an apprentice and a maker ask of the record: a sheet, a test, how far somebody is, and to sign it off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from journal.keep.store import Store
from journal.keep.training_views import NewSignOff, NewTest, SignOffView, TestView, Verdict
from journal.keep.views import FieldError
from journal.teach.progress import Progress, answer_to_json, progress_of
from journal.teach.sheet import TrainingSheet, training_sheet
from journal.teach.taught import load_taught
from journal.teach.test import SelfTest, mark_all, self_test
from journal.trade.material import Catalogue

LARGEST_SEED = 2**31 - 1  # what the smallest integer column holds


def sheet_of(store: Store, catalogue: Catalogue, build_keys: Sequence[str | int], below: float) -> TrainingSheet:
    """Return the training sheet of builds; values of a confidence `below` are in doubt. Raises NotKept, FieldError."""
    return training_sheet(load_taught(store, build_keys), catalogue, below)


def test_of(store: Store, catalogue: Catalogue, build_keys: Sequence[str | int], below: float, seed: int) -> SelfTest:
    """Return the self-test of a seed. Raises NotKept, FieldError."""
    if not 0 <= seed <= LARGEST_SEED:
        raise FieldError("seed", f"{seed} is not between 0 and {LARGEST_SEED}")
    taught = load_taught(store, build_keys)
    return self_test(taught, training_sheet(taught, catalogue, below), catalogue, below, seed)


def take_test(store: Store, test: SelfTest, given: Mapping[str, str], apprentice: str, now: datetime) -> TestView:
    """Mark a self-test and keep it; `given` are answers by the question's key. Raises FieldError.

    Answers to a question that is not asked are refused: the record has changed since, and the test with it.
    """
    unknown = given.keys() - {question.key for question in test.questions}
    if unknown:
        raise FieldError("answers", "are to questions that the record no longer asks: take the test again")
    if not test.questions:
        raise FieldError("builds", f"bear no question yet: {' '.join(test.lacks)}")
    answers = tuple(answer_to_json(marked) for marked in mark_all(test, given))
    return store.keep_test(NewTest(apprentice, test.builds, test.seed, answers), now)


def progress_on(store: Store, build_key: str | int) -> tuple[Progress, ...]:
    """Return how each apprentice comes along on a build. Raises NotKept."""
    return progress_of(store.training_tests(build_key), store.sign_offs(build_key))


def sign_off(
    store: Store, sheet: TrainingSheet, numbers: Sequence[int], new: NewSignOff, now: datetime
) -> list[SignOffView]:
    """Sign off lessons of a sheet by their numbers, or take that back. Raises FieldError naming an unknown one."""
    lessons = {lesson.number: lesson for lesson in sheet.lessons}
    unknown = [str(number) for number in numbers if number not in lessons]
    if unknown:
        raise FieldError("items", f"has no {', '.join(unknown)}; the sheet has 1 to {len(lessons)}")
    items = tuple((lessons[number].stage, lessons[number].item) for number in dict.fromkeys(numbers))
    named = NewSignOff(new.apprentice, new.maker, tuple(dict.fromkeys(items)), new.verdict, new.remarks)
    return store.sign_off(sheet.builds[0].key, named, now)


VERDICTS: tuple[Verdict, ...] = ("signed", "taken back")
