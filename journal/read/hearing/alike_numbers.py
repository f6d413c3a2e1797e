"""Weights that were misheard as numbers that sound alike: 420 of "for 120", where the ratio wants it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from journal.read.numbers import scan
from journal.record import Flag, MaterialUse, Step

LEADS = {
    "for": 4,
    "four": 4,
    "fore": 4,
    "to": 2,
    "too": 2,
    "two": 2,
    "won": 1,
    "one": 1,
    "ate": 8,
    "free": 3,
    "tree": 3,
}
_PIECES = re.compile(r"[a-z]+(?:'[a-z]+)?|\d+(?:\.\d+)?|[^\w\s]")
_TEENS = {Fraction(teen): Fraction(10 * (teen - 10)) for teen in range(13, 20)}
_LIKE = _TEENS | {ty: teen for teen, ty in _TEENS.items()}
AGREES = Fraction(2, 100)


def broken_numbers(text: str, locale: str) -> int:
    """Return how many numbers no one says so: "three hundred and three sixty-six"."""
    said = scan(tuple(_PIECES.findall(text.casefold())), locale).numerals
    return sum(one.end == other.start and one.form == "words" and one.value >= 100 for one, other in pairwise(said))


def sound_alikes(amount: Fraction, word_before: str, spoken: bool) -> Iterator[Fraction]:
    """Yield the numbers that an amount may have been misheard from: 420 of "for 120", 450 of "for 50".

    Teens and tens (15, 50) are mistaken only by a machine that listens, so only when `spoken`.
    """
    lead = LEADS.get(word_before)
    if lead is not None and amount.denominator == 1 and 10 <= amount < 200:
        yield Fraction(100 * lead + int(amount) % 100)
    if spoken and amount in _LIKE:
        yield _LIKE[amount]
    if spoken and amount > 100 and amount % 100 in _LIKE:
        yield amount - amount % 100 + _LIKE[amount % 100]


def settled(step: Step, pair: tuple[MaterialUse, MaterialUse], wanted: Fraction, before: Callable[[MaterialUse], str],
            spoken: bool) -> Step:  # fmt: skip
    """Return the step with the one weight of the pair repaired that then agrees with the wanted ratio.

    `wanted` is second to main; `before` gives the word before a weight. Returns the step as it is when no
    reading agrees, or more than one.
    """
    main, second = pair
    if main.amount is None or second.amount is None:
        return step
    readings = []
    for use in pair:
        for value in sound_alikes(use.amount or Fraction(0), before(use), spoken):
            top, bottom = (second.amount, value) if use is main else (value, main.amount)
            if abs(top / bottom / wanted - 1) <= AGREES:
                readings.append((use, value))
    if len(readings) != 1:
        return step
    use, value = readings[0]
    why = f'heard "{before(use)} {float(use.amount or 0):g}", read as {float(value):g}: the ratio wants it'
    mended = tuple(replace(m, amount=value) if m is use else m for m in step.materials)
    return replace(step, materials=mended, flags=(*step.flags, Flag("amount", why)))
