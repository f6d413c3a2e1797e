"""What was done on a day, all of it, in a sentence fit for the ear. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts, OneBuild
from journal.find.ask.matching import described, names_in, on_build, where
from journal.find.coats import MIX_ACTS, main_use
from journal.keep.views import StepView

_QUIET = ("check", "wait", "roll", "wet out", "cure", "photograph")  # told only where little else was done
_LITTLE = 2
_ACTS_MOST = 8  # as many are told in one breath; the rest is counted
_FLAGS_MOST = 2
_PAST = {
    "clean": "cleaned", "seal": "sealed with", "release": "released with", "wall": "walled up", "weigh": "weighed",
    "mix": "mixed", "degas": "degassed", "thicken": "thickened with", "tint": "tinted with", "pour": "poured",
    "brush": "brushed on", "stipple": "stippled on", "spray": "sprayed on", "press": "pressed in",
    "fill": "filled with",
    "laminate": "laid", "roll": "rolled", "wet out": "wet it out", "cut": "cut", "wait": "waited",
    "cure": "left to cure",
    "post-cure": "post-cured", "check": "checked", "trim": "trimmed", "sand": "sanded", "drill": "drilled",
    "polish": "polished", "fit": "fitted", "demould": "demoulded", "repair": "repaired", "pull": "took a pull",
    "photograph": "photographed", "store": "stored",
}  # fmt: skip


def day_told(build: OneBuild, steps: Sequence[StepView], facts: Facts) -> Answer:
    """Return all that was done on one day, in the order of the acts, and in a second sentence what is flagged in it."""
    names = names_in(facts, build)
    loud = [step for step in steps if step.record.action not in _QUIET]
    told = loud if len(loud) > _LITTLE else steps
    acts = list(dict.fromkeys(act_told(_main_only(step, facts), names[step.id]) for step in told))
    more = len(acts) - _ACTS_MOST
    if more > 1:
        acts = [*acts[:_ACTS_MOST], f"{more} more acts"]
    who = dict.fromkeys(facts.who(step) for step in steps)
    by = next(iter(who)) if len(who) == 1 else None
    day = saying.day(steps[0].act_at, facts.now)
    text = saying.sentence(f"{day}{on_build(build, facts)}{f' the {by}' if by else ' we'} {saying.listed(acts)}")
    flags = list(dict.fromkeys(f.why for step in steps if not step.confirmed for f in step.record.flags))
    if flags:
        over = f", and {len(flags) - _FLAGS_MOST} more" if len(flags) > _FLAGS_MOST else ""
        text += " " + saying.sentence(f"to check: {'; '.join(flags[:_FLAGS_MOST])}{over}")
    first, last = (saying.clock(step.act_at, facts.now.tzinfo) for step in (steps[0], steps[-1]))
    times = f"from {first} to {last}" if first != last else f"at {first}"
    return Answer(text, times, numbers={"acts": float(len(steps))}, evidence=tuple(step.id for step in steps))


def _main_only(step: StepView, facts: Facts) -> StepView:
    """Return a batch without its second part, which the ear can do without."""
    main = main_use(step.record, facts.catalogue) if step.record.action in MIX_ACTS else None
    return step if main is None else replace(step, record=replace(step.record, materials=(main[1],)))


def act_told(step: StepView, names: Sequence[str]) -> str:
    """Return an act as one tells it: "brushed on epoxy gel coat on the right half", "filled the gap with putty"."""
    past, place = _PAST[step.record.action], where(step)
    what = described(step, names).removesuffix(place)
    if past.endswith(" with"):
        past, place = f"{past.removesuffix(' with')}{place.replace(' on the ', ' the ', 1)}", ""
        what = what if what == step.record.action else f"with {what}"
    if what == step.record.action:  # nothing is known of it but the act and its place
        return f"{past}{place}"
    return f"{past} {what}{place}"
