"""The running clocks of a build: pot life, gel, the window for the next coat, tack free, demould, cure. Pure.

Clocks are worked out from the kept steps whenever they are asked for, so that they survive a restart; they reckon
in instants, so that they survive a change of the clocks on the wall. What was said rules; where nothing was said,
the catalogue's time holds, shifted by the shop's temperature.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from journal.find.clock import LIMITS, BuildClocks, Clock, Outside
from journal.find.coats import OPENING_ACTS, Coat, Mixed, coats, in_order, mixes, shop_temperatures
from journal.keep.views import BuildView, StepView
from journal.record import Timing
from journal.trade.cure import Window, finishes_at
from journal.trade.material import Catalogue, Material

_SHOWN_AFTER = timedelta(minutes=30)  # a pot that has gone off is worth knowing about for that long
Reading = tuple[datetime, float]


def build_clocks(build: BuildView, steps: Iterable[StepView], catalogue: Catalogue, now: datetime) -> BuildClocks:
    """Return the clocks of a build as they stand now; on a build that has ended none runs any more."""
    found = clocks_of(steps, catalogue, now)
    return replace(found, running=()) if ended(build, now) else found


def ended(build: BuildView, now: datetime) -> bool:
    """Return whether the build's outcome had been set by then."""
    return build.outcome != "under way" and (build.outcome_at is None or build.outcome_at <= now)


def clocks_of(steps: Iterable[StepView], catalogue: Catalogue, now: datetime) -> BuildClocks:
    """Return the clocks of a build from its kept steps, as they stand now."""
    every = [step for step in steps if not step.withdrawn]
    done = in_order(every, now)
    readings = shop_temperatures(done)
    batches, laid = mixes(done, catalogue), coats(done, catalogue)
    recoats = {coat.step.id: clock for coat in laid if (clock := _recoat(coat, laid, every, readings))}
    found = [
        *(clock for batch in batches for clock in _batch_clocks(batch, batches, every, readings)),
        *recoats.values(),
        *_setting_clocks(laid, batches, done, readings),
        *_said_waits(every, batches, now),
    ]
    found.sort(key=lambda clock: (clock.started_at, clock.evidence))
    outside = tuple(_outside(laid, done, recoats))
    return BuildClocks(tuple(found), tuple(_running(found, laid, done, now)), outside)


# ---- batches: pot life and gel -------------------------------------------------------------------------


def _batch_clocks(
    batch: Mixed, batches: Sequence[Mixed], steps: Sequence[StepView], readings: Sequence[Reading]
) -> Iterable[Clock]:
    material = batch.material
    for kind, quoted in (("pot life", material.pot_life_s), ("gel", material.gel_s)):
        said = _said_of_batch(kind, batch, batches, steps)
        if said is not None:
            step, timing = said
            seconds = timing.least or timing.most
            if seconds:
                end = _later(batch.step.act_at, seconds)
                yield _clock(kind, material, batch.step, Window(batch.step.act_at, end), said=step)
        elif quoted is not None:
            finish = _finish(batch.step.act_at, quoted, readings, material)
            yield _clock(kind, material, batch.step, Window(batch.step.act_at, finish[0]), shifted=finish[1:])


def _said_of_batch(
    kind: str, batch: Mixed, batches: Sequence[Mixed], steps: Sequence[StepView]
) -> tuple[StepView, Timing] | None:
    """Return what was last said of this time of the batch's material: on mixing it, or of the batch in hand."""
    found = None
    for step in steps:
        for timing in step.record.timings:
            if timing.kind == kind and _batch_meant(step, batches) == batch.material:
                found = (step, timing)
    return found


def _batch_meant(step: StepView, batches: Sequence[Mixed]) -> Material | None:
    """Return the material that a step speaks of: one it names, else that of the latest batch before it."""
    names = {use.name for use in step.record.materials}
    earlier = [batch.material for batch in batches if batch.step.act_at <= step.act_at]
    named = [batch.material for batch in batches if batch.material.name in names]
    meant = named or earlier
    return meant[-1] if meant else None


# ---- coats: the window of the next one, tack -----------------------------------------------------------


def _recoat(coat: Coat, laid: Sequence[Coat], steps: Sequence[StepView], readings: Sequence[Reading]) -> Clock | None:
    at, material = coat.step.act_at, coat.material
    quoted = material.recoat_s
    if (said := _said_wait(coat, laid, steps)) is not None:
        step, timing = said
        opens, closes = _from_said(at, timing)
        if closes is None and quoted is not None:
            closes = max(_finish(at, quoted[1], readings, material)[0], opens)
        return _clock("recoat", material, coat.step, Window(opens, closes), said=step)
    if quoted is None or not coat.covers:
        return None
    earliest, *shifted = _finish(at, quoted[0], readings, material)
    latest = _finish(at, quoted[1], readings, material)[0]
    return _clock("recoat", material, coat.step, Window(earliest, latest), shifted=shifted)


def _said_wait(coat: Coat, laid: Sequence[Coat], steps: Sequence[StepView]) -> tuple[StepView, Timing] | None:
    """Return the wait said on the coat itself, or as planned or advised after it and before the next coat."""
    later = [other.step.act_at for other in laid if other.covers and other.step.act_at > coat.step.act_at]
    until = min(later, default=None)
    for step in steps:
        own = step.id == coat.step.id
        after = step.act_at >= coat.step.act_at and (until is None or step.act_at < until)
        if own or (after and step.record.status in ("planned", "advised")):
            for timing in step.record.timings:
                if timing.kind == "wait":
                    return step, timing
    return None


def _from_said(at: datetime, timing: Timing) -> tuple[datetime, datetime | None]:
    """Return from when to when: "two hours" opens then; "no more than an hour" closes then."""
    least, most = timing.least or Fraction(0), timing.most
    return _later(at, least), None if least or most is None else _later(at, most)


def _setting_clocks(
    laid: Sequence[Coat], batches: Sequence[Mixed], done: Sequence[StepView], readings: Sequence[Reading]
) -> Iterable[Clock]:
    """Yield tack free, demould and full cure of whatever sets: coats of resin, and batches that were poured."""
    setting = [(coat.step, coat.material) for coat in laid if coat.material.reacts]
    for step in done:
        poured = [batch.material for batch in batches if batch.step.act_at <= step.act_at]
        if step.record.action == "pour" and poured:
            setting.append((step, poured[-1]))
    setting += [(batch.step, batch.material) for batch in batches if batch.material.kind == "plaster"]
    for step, material in setting:
        times = {"tack free": material.tack_free_s, "demould": material.cure_s, "full cure": material.full_cure_s}
        for kind, quoted in times.items():
            if quoted is not None:
                ready, *shifted = _finish(step.act_at, quoted, readings, material)
                yield _clock(kind, material, step, Window(ready, None), shifted=shifted)


# ---- what was said of waiting by itself ------------------------------------------------------------------


def _said_waits(steps: Sequence[StepView], batches: Sequence[Mixed], now: datetime) -> Iterable[Clock]:
    """Yield "leave it to cure for six hours", "soak for two minutes", and times by which something is due."""
    for step in steps:
        record = step.record
        if record.status in ("advised", "not done") or step.recorded_at > now:
            continue
        for timing in record.timings:
            seconds = timing.most or timing.least
            if timing.kind in ("cure", "post-cure", "soak", "demould") and seconds:
                ready = _later(step.act_at, seconds)
                meant = _batch_meant(step, batches)
                yield _clock(timing.kind, meant or _named(step), step, Window(ready, None), said=step)
        for due in record.clock:
            if due.kind == "due":
                yield _clock("due", _named(step) or record.action, step, Window(due.at, None), said=step)


def _later(at: datetime, seconds: Fraction) -> datetime:
    """Return the instant so many seconds later; in one zone Python would reckon by the wall clock."""
    return at.astimezone(UTC) + timedelta(seconds=float(seconds))


def _named(step: StepView) -> str:
    return next((use.name for use in step.record.materials), "")


# ---- which of them matter --------------------------------------------------------------------------------


def _running(found: Sequence[Clock], laid: Sequence[Coat], done: Sequence[StepView], now: datetime) -> Iterable[Clock]:
    """Yield what is worth showing: not what a later coat or the opening of the mould has settled."""
    opened = max((step.act_at for step in done if step.record.action in OPENING_ACTS), default=None)
    covering = [(i, coat) for i, coat in enumerate(laid) if coat.covers]
    on_top = {coat.step.id for i, coat in enumerate(laid) if not any(n > i and c.lies_on(coat) for n, c in covering)}
    last_set = {clock.kind: clock.evidence[0] for clock in found if clock.kind in ("demould", "full cure")}
    for clock in found:
        if opened is not None and clock.started_at <= opened and clock.kind not in ("post-cure", "due", "full cure"):
            continue
        if clock.kind in ("recoat", "tack free") and clock.evidence[0] not in on_top:
            continue
        if clock.kind in last_set and last_set[clock.kind] != clock.evidence[0]:
            continue
        end = clock.window.closes if clock.kind in LIMITS else clock.window.opens
        if clock.kind not in ("recoat", "demould", "cure") and end is not None and now - end > _SHOWN_AFTER:
            continue
        yield clock


def _outside(laid: Sequence[Coat], done: Sequence[StepView], recoats: dict[int, Clock]) -> Iterable[Outside]:
    for i, coat in enumerate(laid):
        below = _below(coat, laid[:i], done)
        window = recoats.get(below.step.id) if below is not None else None
        if below is None or window is None or below.step.note_id == coat.step.note_id:
            continue  # two coats told in one breath have one time between them
        state = window.window.state(coat.step.act_at)
        # glass and paste go on glass wet on wet, and sanding makes a key: common practice, no published source
        if state == "open" or (state == "early" and below.glass and (coat.glass or not coat.covers)):
            continue
        if state == "late" and _acts_between(("sand",), below.step, coat.step, done):
            continue
        missed = window.window.missed_by(coat.step.act_at)
        yield Outside(coat.step.id, below.step.id, window, state, missed)


def _below(coat: Coat, earlier: Sequence[Coat], done: Sequence[StepView]) -> Coat | None:
    below = next((other for other in reversed(earlier) if other.covers and coat.lies_on(other)), None)
    if below is None or _acts_between(OPENING_ACTS, below.step, coat.step, done):
        return None
    return below


def _acts_between(acts: Sequence[str], first: StepView, last: StepView, done: Sequence[StepView]) -> bool:
    return any(step.record.action in acts and first.act_at < step.act_at <= last.act_at for step in done)


# ---- making one --------------------------------------------------------------------------------------------


def _finish(
    start: datetime, seconds: float, readings: Sequence[Reading], material: Material
) -> tuple[datetime, str, float | None]:
    """Return the end of a quoted time, the rule that shifted it, and the temperature; only reactions shift."""
    finish = finishes_at(start, seconds, readings if material.reacts else (), material.activation_energy_kj)
    return finish.at, finish.rule, finish.degc


def _clock(
    kind: str,
    material: Material | str,
    step: StepView,
    window: Window,
    said: StepView | None = None,
    shifted: Sequence[str | float | None] = ("as said", None),
) -> Clock:
    rule, degc = shifted
    grounds = [step] if said is None or said.id == step.id else [step, said]
    doubts = [
        flag.why
        for ground in grounds
        if not ground.confirmed
        for flag in ground.record.flags
        if flag.field in ("timings", "clock", "conditions")
    ]
    return Clock(
        kind=kind,
        material=material if isinstance(material, str) else material.name,
        started_at=step.act_at,
        window=window,
        source="catalogue" if said is None else "said",
        rule=str(rule),
        degc=degc if isinstance(degc, float) else None,
        evidence=tuple(ground.id for ground in grounds),
        places=tuple(place.text for place in step.record.places),
        doubts=tuple(doubts),
    )
