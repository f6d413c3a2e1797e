"""Which material a question about a mix means, and by which ratio it is to be weighed. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from journal.find.ask import saying
from journal.find.ask.facts import Answer, Facts
from journal.find.ask.question import Question
from journal.find.coats import SECOND_KINDS, Mixed, main_use
from journal.keep.views import StepView
from journal.read.checks import far_ratio
from journal.trade.limits import TradeError
from journal.trade.material import Material
from journal.trade.mix import MixRatio

CATALOGUE = "the catalogue's, none was said on this build"


@dataclass(frozen=True, slots=True)
class Chosen:
    """The ratio to weigh by, where it comes from in words, and what there is to mind about it."""

    ratio: MixRatio
    source: str
    mind: str = ""
    evidence: tuple[int, ...] = ()

    @property
    def words(self) -> str:
        """The ratio and its source: "the catalogue's 100 to 28 by weight", "100 to 29 by weight, as said today"."""
        ratio = f"{saying.parts(self.ratio.parts)} by {self.ratio.by}"
        return f"the catalogue's {ratio}" if self.source == CATALOGUE else f"{ratio}, {self.source}"


def main_meant(question: Question, facts: Facts) -> Material | Answer:
    """Return the main material of the mix asked about, or the answer that says what is lacking.

    One named, a general word for one in use; else what was mixed last, with the second part that was named.
    """
    second = _second_named(question, facts)
    named = [m for m in facts.meant(question.materials) if m.kind not in SECOND_KINDS and (m.reacts or m.second_part)]
    mixed = [batch.material for batch in reversed(facts.batches)]
    if named:
        in_order = [m for m in mixed if m in named] or named
        if len(named) > 1 and not mixed and len({m.name for m in named}) > 1:
            return Answer(
                saying.sentence(f"say which: {saying.listed(m.name for m in named)} are weighed differently"),
                lacks="which material is meant: none of them is in use on this build",
            )
        main = in_order[0]
    elif mixed:
        main = next((m for m in mixed if second is None or m.second_part == second), mixed[0])
    else:
        return Answer(
            "I don't know what it is mixed with: nothing has been mixed on this build.",
            lacks="the material: name it in the question, or log a mix first",
        )
    if second is not None and main.second_part not in (None, second):
        return Answer(
            saying.sentence(f"{main.name} takes {main.second_part}, not {second}"),
            lacks=f"a material on this build that takes {second}: name it in the question",
        )
    return main


def _second_named(question: Question, facts: Facts) -> str | None:
    for name in question.materials:
        material = facts.material(name)
        if material is not None and material.kind in ("hardener", "catalyst"):
            return material.name
    return None


def ratio_for(question: Question, facts: Facts, main: Material) -> Chosen | None:
    """Return the ratio to weigh a material by, or None when there is none to go by.

    In this order: the one in the question; one said on this build; the catalogue's; what two weights made on this
    build; one said on an earlier build of the mould. Ratios that are flagged are passed over.
    """
    if question.ratio:
        return Chosen(_ratio(question.ratio, question.ratio_by, main), "as you ask")
    said = _latest_said(facts.known, facts, main, derived=False)
    if said is not None:
        return _with_mind(_chosen(said, facts, main, "as said"), main)
    if main.ratio:
        return Chosen(_ratio(main.ratio, main.ratio_by, main), CATALOGUE)
    mixed = _latest_said(facts.known, facts, main, derived=True)
    if mixed is not None:
        return _chosen(mixed, facts, main, "as mixed")
    for build in facts.earlier:
        for derived in (False, True):
            found = _latest_said(build.steps, facts, main, derived)
            if found is not None and build.view.outcome != "failed":
                return _chosen(found, facts, main, f"as on {build.view.key}")
    return None


def _latest_said(
    steps: tuple[StepView, ...] | list[StepView], facts: Facts, main: Material, derived: bool
) -> StepView | None:
    for step in reversed(steps):
        ratio = step.record.ratio
        named = main_use(step.record, facts.catalogue)
        if ratio is None or named is None or named[0] != main or ratio.derived != derived:
            continue
        doubts = set(step.record.flags) - set(far_ratio(step.record, facts.catalogue))  # that one is told with it
        flagged = any(flag.field in ("ratio", "amount", "unit") for flag in doubts)
        if step.record.status != "not done" and (not flagged or step.confirmed) and len(ratio.parts) >= 2:
            return step
    return None


def _chosen(step: StepView, facts: Facts, main: Material, how: str) -> Chosen:
    ratio = step.record.ratio
    assert ratio is not None  # what _latest_said returns
    parts = tuple(float(part) for part in ratio.parts)
    when = f"{how} {saying.day(step.act_at, facts.now)}"
    return Chosen(_ratio(parts, ratio.by, main), when, evidence=(step.id,))


def _ratio(parts: tuple[float, ...], by: str | None, main: Material) -> MixRatio:
    densities = tuple(d for d in (main.density, main.density_second) if d is not None)
    return MixRatio(parts, by or "weight", densities if len(densities) == len(parts) else ())


def _with_mind(chosen: Chosen, main: Material) -> Chosen:
    """Return the choice with a word of warning when it is further off the catalogue's ratio than the material bears."""
    if not main.ratio or main.tolerance_percent is None:
        return chosen
    try:
        said, usual = chosen.ratio.per_hundred()[0], _ratio(main.ratio, main.ratio_by, main).per_hundred()[0]
    except TradeError:
        return chosen
    if abs(said - usual) * 100 <= main.tolerance_percent * usual:
        return chosen
    mind = f"mind that the catalogue has {saying.parts(main.ratio)}"
    return Chosen(chosen.ratio, chosen.source, mind, chosen.evidence)


def second_name(main: Material) -> str:
    """Return what the second part is called."""
    return main.second_part or "part B"


def flags_of(batch: Mixed) -> str:
    """Return what is flagged about a batch's weights, in words to add to an answer; "" when nothing is."""
    if batch.step.confirmed:
        return ""
    why = [f.why for f in batch.step.record.flags if f.field in ("ratio", "amount", "unit", "materials")]
    return f"; flagged: {'; '.join(why)}" if why else ""
