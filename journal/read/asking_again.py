"""Words that ask for what an earlier step had, and by how much it is scaled: "same again", "half that"."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from journal.record import Evidence, MaterialUse

AGAIN = re.compile(
    r"\b(same again|same as (?:before|last time|last|the last|that|the first|yesterday|earlier)|"
    r"(?<!of the )same mix|same amounts?|"
    r"same (?:quantities|batch|weights?|lot|ratio and amounts)|another (?:one )?the same|identical (?:mix|batch)|"
    r"repeat(?:ed)? (?:that|the (?:mix|batch))|ditto|and again the same|exactly the same|"
    r"(?:again|going) with the same|the same again|same (?:but|except|only))\b",
    re.I,
)  # fmt: skip
_SCALES = (
    (re.compile(r"\b(half (?:of )?(?:that|the (?:amount|quantity|batch|size)|as much|a (?:batch|mix))|half[- ]batch|"
                r"halved (?:it|that|the)|(?<!front )(?<!back )(?<!left )(?<!right )(?<!top )"
                r"(?<!bottom )(?<!other )(?<!first )(?<!second )half the)\b", re.I), Fraction(1, 2)),
    (re.compile(r"\b(double (?:that|the|it)|twice (?:that|as much|the)|doubled (?:it|that|the))\b", re.I), Fraction(2)),
    (re.compile(r"\b(a third of (?:that|the)|third of that)\b", re.I), Fraction(1, 3)),
    (re.compile(r"\b(a quarter of (?:that|the)|quarter of that)\b", re.I), Fraction(1, 4)),
    (re.compile(r"\b(three times (?:that|as much)|triple (?:that|the))\b", re.I), Fraction(3)),
)  # fmt: skip

_OF_THAT = frozenset({("half", "that"), ("double", "that"), ("twice", "that"), ("of", "that"), ("as", "much")})
# One of these letters stands in whatever asks; a look for them is much cheaper than the patterns.
_HINTS = ("same", "ditto", "identical", "repeat", "hal", "doubl", "twice", "third", "quarter", "times", "tripl")

Scale = tuple[re.Match[str], Fraction]


def may_ask(text: str) -> bool:
    """Tell whether the text has any of the words by which an earlier step is asked for, at no more than a glance."""
    text = text.lower()
    return any(hint in text for hint in _HINTS)


def copies(text: str) -> bool:
    """Tell whether the words ask for what an earlier step had: "same again", "half that"."""
    return may_ask(text) and (bool(AGAIN.search(text)) or any(pattern.search(text) for pattern, _ in _SCALES))


def is_so_much_of_it(span: tuple[str, ...]) -> bool:
    """Tell whether a batch is made as so much of the one before: "900 with 18 of catalyst, then HALF THAT"."""
    return not _OF_THAT.isdisjoint(pairwise(span))


def scale_in(text: str) -> Scale | None:
    """Return where the words scale what was earlier, and by what: "half that", "twice as much"."""
    found = ((pattern.search(text), by) for pattern, by in _SCALES)
    return next(((match, by) for match, by in found if match is not None), None)


def scaled(use: MaterialUse, by: Fraction, evidence: Evidence, unit: str | None = None) -> MaterialUse:
    """Return a use with its weight scaled; shares and counts stay. `unit` is for one that has none."""
    fixed = use.unit in ("percent", "count")
    return replace(
        use,
        amount=use.amount if use.amount is None or fixed else use.amount * by,
        amount_most=use.amount_most if use.amount_most is None or fixed else use.amount_most * by,
        unit=use.unit or (unit if use.amount is not None else None),
        evidence=evidence,
        lot=None,
    )
