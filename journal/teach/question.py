"""A question of a self-test, and how an answer is marked: with the reason, and the words that it rests on. Pure."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from journal.keep.views import PhotoView
from journal.teach.voice import Voice

Kind = Literal["order", "weigh", "fault", "window"]
KINDS: tuple[Kind, ...] = ("order", "weigh", "fault", "window")
_NUMBER = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:g|ml|grams?)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose or to put in order, by its letter."""

    letter: str
    text: str


@dataclass(frozen=True, slots=True)
class Question:
    """A question whose answer comes from the records.

    `key` names it: its kind, and the step it rests on. To `order` belongs a string of letters, the first act first;
    to `fault` and `window` one letter; to `weigh` an `amount` in `unit`, right within `tolerance_percent`.
    `photos` are shown with it, `reason` and `evidence` only with the answer.
    """

    key: str
    kind: Kind
    asked: str
    reason: str
    evidence: tuple[Voice, ...]
    options: tuple[Option, ...] = ()
    letters: str = ""
    amount: float | None = None
    unit: str = ""
    tolerance_percent: float = 0.0
    photos: tuple[PhotoView, ...] = ()

    @property
    def answer(self) -> str:
        """The right answer in words."""
        if self.amount is not None:
            return f"{self.amount:.4g} {self.unit}"
        texts = {option.letter: option.text for option in self.options}
        return "; ".join(texts[letter] for letter in self.letters)


@dataclass(frozen=True, slots=True)
class Marked:
    """An answer as it was marked. `given` is what was answered, in words; empty when nothing was."""

    question: Question
    given: str
    right: bool
    remark: str


def mark(question: Question, given: str) -> Marked:
    """Return how an answer is marked; one that cannot be understood is wrong, and the remark says what is wanted."""
    given = given.strip()
    if not given:
        return Marked(question, "", False, "Not answered.")
    if question.kind == "weigh":
        return _mark_weight(question, given)
    return _mark_letters(question, given)


def given_in(question: Question, fields: Mapping[str, str]) -> str:
    """Return the answer of a form: one field a question, and for an order one a letter, with its place from 1."""
    if question.kind != "order":
        return fields.get(question.key, "")
    places = {option.letter: fields.get(f"{question.key}.{option.letter}", "") for option in question.options}
    if not any(places.values()):
        return fields.get(question.key, "")
    if sorted(places.values()) != [str(i) for i in range(1, len(places) + 1)]:
        return "each place once, please: " + ", ".join(f"{letter} {place or '-'}" for letter, place in places.items())
    return "".join(sorted(places, key=lambda letter: int(places[letter])))


def _mark_weight(question: Question, given: str) -> Marked:
    assert question.amount is not None  # a weight is asked for
    said = _NUMBER.fullmatch(given)
    if said is None:
        return Marked(question, given, False, f"Answer with a number of {question.unit}: 87.")
    value = float(said[1].replace(",", "."))
    percent = 100 * (value - question.amount) / question.amount
    right = math.isclose(value, question.amount) or abs(percent) <= question.tolerance_percent
    off = "exact" if abs(percent) < 0.05 else f"{abs(percent):.1f} % {'over' if percent > 0 else 'under'}"
    bears = "within" if right else "outside"
    remark = f"{off}: {bears} the {question.tolerance_percent:g} % that counts as right."
    return Marked(question, f"{value:g} {question.unit}", right, remark[0].upper() + remark[1:])


def _mark_letters(question: Question, given: str) -> Marked:
    texts = {option.letter: option.text for option in question.options}
    letters = re.sub(r"[\s,;>-]+", "", given).upper()
    wanted = set(texts) if question.kind == "order" else None
    if not set(letters) <= set(texts) or len(letters) != len(question.letters) or (wanted and set(letters) != wanted):
        what = "each letter once, the first act first" if wanted else "one of the letters"
        return Marked(question, given, False, f"Answer with {what}: {', '.join(texts)}.")
    right = letters == question.letters
    remark = "" if right or question.kind != "order" else _out_of_place(question, letters)
    return Marked(question, "; ".join(texts[letter] for letter in letters), right, remark)


def _out_of_place(question: Question, letters: str) -> str:
    count = sum(one == other for one, other in zip(letters, question.letters, strict=True))
    return f"{count} of {len(letters)} in their place."
