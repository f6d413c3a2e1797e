"""A running clock of a build, and a coat that missed its window: what `clocks` works out. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from journal.trade.cure import Window

LIMITS = ("pot life", "gel")  # to be used up before they end; all others are waited for
_WARN_SHARE, _WARN_LEAST, _WARN_MOST = 0.2, timedelta(minutes=2), timedelta(minutes=30)


@dataclass(frozen=True, slots=True)
class Clock:
    """One running time of a build. `window` opens when the thing may be done and closes when it no longer may.

    `kind` is pot life, gel, recoat, tack free, demould, full cure, cure, post-cure, soak or due. `source` is
    "said" or "catalogue", `rule` how temperature shifted it ("as said", "arrhenius", "halving per 10 degC" or
    "as quoted"), `degc` the last temperature used. `evidence` are the ids of the steps that it rests on, the
    one it began with first; `doubts` what is flagged in them.
    """

    kind: str
    material: str
    started_at: datetime
    window: Window
    source: str
    rule: str
    degc: float | None
    evidence: tuple[int, ...]
    places: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    def state(self, now: datetime) -> str:
        """Return "waiting" before it opens, then "open", "ending" near its end, and "over"."""
        state = self.window.state(now)
        if state != "open":
            return "waiting" if state == "early" else "over"
        margin = self.window.margin(now)
        return "ending" if margin is not None and margin <= self._warning() else "open"

    def left(self, now: datetime) -> timedelta | None:
        """Return how long until it opens, or else until it closes: negative when over, None when it stays open."""
        return self.window.opens - now if now < self.window.opens else self.window.margin(now)

    def _warning(self) -> timedelta:
        assert self.window.closes is not None  # asked only of a window that closes
        return min(max(_WARN_SHARE * (self.window.closes - self.window.opens), _WARN_LEAST), _WARN_MOST)


@dataclass(frozen=True, slots=True)
class Outside:
    """A coat that went on outside the window of the one below: "early" or "late", and by how much."""

    step_id: int
    below_id: int
    below: Clock
    state: str
    missed_by: timedelta


@dataclass(frozen=True, slots=True)
class BuildClocks:
    """All clocks of a build in the order they began, those worth showing now, and coats outside their windows."""

    all: tuple[Clock, ...]
    running: tuple[Clock, ...]
    outside: tuple[Outside, ...]

    def of(self, kind: str) -> tuple[Clock, ...]:
        """Return the running clocks of that kind, in the order they began."""
        return tuple(clock for clock in self.running if clock.kind == kind)
