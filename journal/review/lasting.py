"""How many pulls moulds last: the Kaplan-Meier estimate, its median, and whether one recipe outlasts another. Pure.

A mould that is still in use counts for as many pulls as it has given so far, and no more (Kaplan and Meier, Journal
of the American Statistical Association 53, 1958). The interval of the median are the pulls at which the log-log
interval of the curve holds one half (Brookmeyer and Crowley, Biometrics 38, 1982). Two recipes are held against each
other with the log-rank test (Mantel, Cancer Chemotherapy Reports 50, 1966).
"""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import stats

FEW_ENDED = 5  # fewer than that say little: our choice
CONFIDENCE = 0.95
ALPHA = 0.05
Lived = tuple[int, bool]  # pulls given, and whether the life ended then (False: it goes on)


@dataclass(frozen=True, slots=True)
class Left:
    """The share of moulds that outlive so many pulls, 0 to 1, with its interval; None where it has none.

    `at_risk` is how many had given that many pulls and were still going, `ended` how many ended with it.
    """

    pulls: int
    at_risk: int
    ended: int
    share: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Survival:
    """How many pulls some moulds last. `median` is None while it cannot be said: more than half are still going.

    `low` and `high` are the 95 % interval of the median, None where it is open. `warning` says when too few have
    ended to tell.
    """

    moulds: int
    ended: int
    median: float | None
    low: float | None
    high: float | None
    curve: tuple[Left, ...]
    warning: str


def survival(lives: Sequence[Lived], ended_words: str = "have worn out") -> Survival:
    """Return how long moulds last. `ended_words` say in the warning what ends a life."""
    ended = sum(over for _, over in lives)
    few = f"only {ended} of {len(lives)} {ended_words}: too few to say" if ended < FEW_ENDED else ""
    curve = _curve(lives) if ended else ()
    return Survival(
        moulds=len(lives),
        ended=ended,
        median=_first_at_most_half([(left.pulls, left.share) for left in curve]),
        low=_first_at_most_half([(left.pulls, left.low) for left in curve]),
        high=_first_at_most_half([(left.pulls, left.high) for left in curve]),
        curve=curve,
        warning=few,
    )


def _curve(lives: Sequence[Lived]) -> tuple[Left, ...]:
    left = stats.ecdf(_counted(lives)).sf
    with warnings.catch_warnings(), np.errstate(all="ignore"):  # of shares 0 and 1 there is no interval, but NaN
        warnings.simplefilter("ignore", RuntimeWarning)
        interval = left.confidence_interval(CONFIDENCE, method="log-log")
    rows = zip(left.quantiles, left.probabilities, interval.low.probabilities, interval.high.probabilities, strict=True)
    found = []
    for quantile, share, low, high in rows:
        pulls = int(quantile)
        over = sum(ended and given == pulls for given, ended in lives)
        if over:
            at_risk = sum(given >= pulls for given, _ in lives)
            found.append(Left(pulls, at_risk, over, float(share), _known(low), _known(high)))
    return tuple(found)


def _counted(lives: Sequence[Lived]) -> stats.CensoredData:
    return stats.CensoredData.right_censored([pulls for pulls, _ in lives], [not ended for _, ended in lives])


def _known(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _first_at_most_half(points: Sequence[tuple[int, float | None]]) -> float | None:
    return next((float(pulls) for pulls, share in points if share is not None and share <= 0.5 + 1e-12), None)


def outlasts(one: Sequence[Lived], other: Sequence[Lived]) -> float | None:
    """Return the log-rank p value of two groups of moulds, two-sided; None when too few of either have ended."""
    if min(sum(ended for _, ended in lives) for lives in (one, other)) < FEW_ENDED:
        return None
    return float(stats.logrank(_counted(one), _counted(other)).pvalue)
