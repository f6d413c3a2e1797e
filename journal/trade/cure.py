"""How long it lasts: pot life, windows, cure by temperature, and the maturity method.

Times are seconds, temperatures degrees Celsius, activation energies kJ/mol.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from journal.trade.limits import TradeError, positive, within

GAS_CONSTANT = 8.314462618  # J/(mol K), exact since the SI revision of 2019 (NIST SP 330)
QUOTED_AT_C = 25.0  # pot lives are quoted for 100 g at 25 degC: common practice, no published source
MODEL_RANGE_C = (-20.0, 250.0)


@dataclass(frozen=True, slots=True)
class Shifted:
    """A time shifted by temperature, and the rule that did it ("arrhenius" or "halving per 10 degC")."""

    seconds: float
    rule: str


def arrhenius_time_factor(energy_kj: float, degc: float, reference_c: float = QUOTED_AT_C) -> float:
    """Return by how much a reaction takes longer at `degc` than at the reference: exp(Ea/R (1/T - 1/Tref))."""
    kelvin, reference = (_kelvin(c) for c in (degc, reference_c))
    energy = within("activation energy", energy_kj, 1, 300)
    return math.exp(energy * 1000 / GAS_CONSTANT * (1 / kelvin - 1 / reference))


def halving_time_factor(degc: float, reference_c: float = QUOTED_AT_C) -> float:
    """Return the factor of the shop's rule that 10 degC more halve the time (common practice, no published source)."""
    within("temperature", degc, *MODEL_RANGE_C)
    return float(2 ** ((reference_c - degc) / 10))


def shift(seconds: float, degc: float, energy_kj: float | None, reference_c: float = QUOTED_AT_C) -> Shifted:
    """Return a time quoted at the reference as it is at `degc`: by Arrhenius when the energy is known."""
    positive("time", seconds)
    if energy_kj is None:
        return Shifted(seconds * halving_time_factor(degc, reference_c), "halving per 10 degC")
    return Shifted(seconds * arrhenius_time_factor(energy_kj, degc, reference_c), "arrhenius")


def activation_energy(rate_ratio: float, first_c: float, second_c: float) -> float:
    """Return kJ/mol from how much faster a reaction runs at the second temperature."""
    if first_c == second_c:
        raise TradeError("temperature", "the two must differ")
    inverse = 1 / _kelvin(first_c) - 1 / _kelvin(second_c)
    return GAS_CONSTANT * math.log(positive("rate ratio", rate_ratio)) / inverse / 1000


def nurse_saul(log: Sequence[tuple[float, float]], datum_c: float) -> float:
    """Return the maturity of a temperature log in degC s: the sum of seconds x (degC - datum), never negative.

    `log` holds (seconds, degC) intervals. The method is that of ASTM C1074.
    """
    return sum(
        positive("interval", seconds) * max(0.0, within("temperature", degc, *MODEL_RANGE_C) - datum_c)
        for seconds, degc in _checked(log)
    )


def equivalent_age(log: Sequence[tuple[float, float]], energy_kj: float, reference_c: float) -> float:
    """Return the age in seconds at the reference temperature that the log amounts to.

    te = sum of dt exp(Q/R (1/Tref - 1/T)), the maturity method with an Arrhenius rate.
    """
    return sum(
        positive("interval", seconds) / arrhenius_time_factor(energy_kj, degc, reference_c)
        for seconds, degc in _checked(log)
    )


def aged(log: Sequence[tuple[float, float]], energy_kj: float | None, reference_c: float = QUOTED_AT_C) -> Shifted:
    """Return the age in seconds at the reference temperature, by Arrhenius or, without an energy, the halving rule."""
    if energy_kj is not None:
        return Shifted(equivalent_age(log, energy_kj, reference_c), "arrhenius")
    age = sum(positive("interval", s) / halving_time_factor(degc, reference_c) for s, degc in _checked(log))
    return Shifted(age, "halving per 10 degC")


def stretches(
    start: datetime, end: datetime, readings: Sequence[tuple[datetime, float]]
) -> tuple[tuple[float, float], ...]:
    """Return the (seconds, degC) log between two instants of a shop of these (time, degC) readings.

    A reading holds until the next, the first one also before its time, the last one for good. Without any it is empty.
    """
    known = sorted((when.astimezone(UTC), degc) for when, degc in readings)
    if not known:
        return ()
    first, last = start.astimezone(UTC), end.astimezone(UTC)
    log = []
    for (_, degc), until in zip(known, [*(when for when, _ in known[1:]), last], strict=True):
        stop = min(until, last)
        if stop > first:
            log.append(((stop - first).total_seconds(), degc))
            first = stop
    return tuple(log)


def _checked(log: Sequence[tuple[float, float]]) -> Sequence[tuple[float, float]]:
    if not log:
        raise TradeError("temperature log", "needs one interval or more")
    return log


def _kelvin(degc: float) -> float:
    return within("temperature", degc, *MODEL_RANGE_C) + 273.15


@dataclass(frozen=True, slots=True)
class RampPoint:
    """A point of a post-cure programme: seconds from its start, degC."""

    seconds: float
    degc: float


def post_cure_ramp(start_c: float, holds: Sequence[tuple[float, float]], c_per_hour: float) -> tuple[RampPoint, ...]:
    """Return the corners of a programme that heats at `c_per_hour` to each (degC, seconds held) in turn."""
    rate = positive("rate", c_per_hour) / 3600
    points = [RampPoint(0.0, within("start temperature", start_c, *MODEL_RANGE_C))]
    for degc, held in holds:
        within("hold temperature", degc, *MODEL_RANGE_C)
        arrived = points[-1].seconds + abs(degc - points[-1].degc) / rate
        points += [RampPoint(arrived, degc), RampPoint(arrived + positive("hold", held), degc)]
    return tuple(points)


@dataclass(frozen=True, slots=True)
class Window:
    """From when to when something may be done; `closes` None stays open.

    Takes aware datetimes and keeps them in UTC: arithmetic is on instants, so that a change of the clocks does
    not move a window. Within one zone Python reckons by the wall clock.
    """

    opens: datetime
    closes: datetime | None

    def __post_init__(self) -> None:
        if self.opens.tzinfo is None or (self.closes is not None and self.closes.tzinfo is None):
            raise TradeError("window", "needs times with their offset from UTC")
        object.__setattr__(self, "opens", self.opens.astimezone(UTC))
        object.__setattr__(self, "closes", None if self.closes is None else self.closes.astimezone(UTC))
        if self.closes is not None and self.closes < self.opens:
            raise TradeError("window", "closes before it opens")

    def state(self, at: datetime) -> str:
        """Return "early", "open" or "late"."""
        if at < self.opens:
            return "early"
        return "late" if self.closes is not None and at > self.closes else "open"

    def margin(self, at: datetime) -> timedelta | None:
        """Return how long is left until it closes; negative when late, None when it stays open."""
        return None if self.closes is None else self.closes - at

    def missed_by(self, at: datetime) -> timedelta:
        """Return how far outside the window `at` is; zero inside."""
        if at < self.opens:
            return self.opens - at
        return max(at - self.closes, timedelta(0)) if self.closes is not None else timedelta(0)


def window_from(start: datetime, earliest_s: float, latest_s: float | None) -> Window:
    """Return the window that opens `earliest_s` and closes `latest_s` seconds after the start."""
    within("earliest", earliest_s, 0, 10**9)
    began = start.astimezone(UTC)
    closes = None if latest_s is None else began + timedelta(seconds=positive("latest", latest_s))
    return Window(began + timedelta(seconds=earliest_s), closes)


@dataclass(frozen=True, slots=True)
class Finish:
    """When a time quoted at the reference has run, by the shop's temperatures; the rule, and the last degC used.

    `rule` is "arrhenius", "halving per 10 degC", or "as quoted" when no temperature is known.
    """

    at: datetime
    rule: str
    degc: float | None


def finishes_at(
    start: datetime, seconds: float, readings: Sequence[tuple[datetime, float]], energy_kj: float | None
) -> Finish:
    """Return when `seconds`, quoted at 25 degC, have run in a shop of these (time, degC) readings.

    The maturity method turned round: each stretch counts at the rate of its temperature. A reading holds until
    the next, the first one also before its time, the last one for good.
    """
    left, at = positive("time", seconds), start.astimezone(UTC)
    if not readings:
        return Finish(at + timedelta(seconds=left), "as quoted", None)
    known = sorted((when.astimezone(UTC), degc) for when, degc in readings)
    for (_, degc), until in zip(known, [*(when for when, _ in known[1:]), None], strict=True):
        needed = shift(left, degc, energy_kj)
        if until is None or at + timedelta(seconds=needed.seconds) <= until:
            return Finish(at + timedelta(seconds=needed.seconds), needed.rule, degc)
        if until > at:
            left -= left * (until - at).total_seconds() / needed.seconds
            at = until
    raise AssertionError("the last reading holds for good")
