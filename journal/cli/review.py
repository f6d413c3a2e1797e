"""What differed between builds, what goes with a fault, and where a lot went."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Annotated

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from journal import flow
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.review.explain import Explanation
from journal.review.factors import Factor, Pattern, Rate
from journal.review.review import Comparison
from journal.review.trace import Trace

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]
_MOST_OTHERS, _MOST_FACTORS = 12, 15


def compare(
    builds: Annotated[
        list[str] | None, typer.Argument(help="Builds, by name; one alone: against those that worked.")
    ] = None,
    every: Annotated[bool, typer.Option("--all", help="Count over all builds of the shop instead.")] = False,
    as_json: AsJson = False,
) -> None:
    """Say what differed between builds, and what could have caused a fault."""
    if every == bool(builds):
        raise typer.BadParameter("name builds to compare, or give --all")
    with opened_shop() as shop:
        if every:
            pattern = flow.patterns(shop)
            terminal.answer(as_json, pattern, Group(*_pattern(pattern)))
        else:
            found = flow.compare(shop, builds or [])
            terminal.answer(as_json, found, comparison_words(found))


def trace(
    what: Annotated[list[str], typer.Argument(help="A lot, a material, a batch (batch 31) or a pull (niche pull 2).")],
    as_json: AsJson = False,
) -> None:
    """Say where a lot, a batch or a material went, or what went into a pull: a recall list to print."""
    with opened_shop() as shop:
        found = flow.trace(shop, " ".join(what))
        terminal.answer(as_json, found, trace_words(found))


def comparison_words(found: Comparison) -> RenderableType:
    """Return a comparison to print."""
    parts = [part for each in found.explanations for part in _explanation(each, found)]
    return Group(*parts, *(_pattern(found.pattern) if found.pattern else ()))


def _explanation(each: Explanation, found: Comparison) -> Iterator[RenderableType]:
    yield terminal.heading(f"{each.build} held against {', '.join(each.against)}")
    yield Text("Found wrong: " + ("; ".join(f"{f.kind}, {f.text}" for f in each.faults) or "nothing recorded"))
    if each.signs:
        yield Text("Seen before: " + "; ".join(f"{sign.kind}, {sign.text}" for sign in each.signs))
    for number, likely in enumerate(each.likely, 1):
        yield Text(f"\n{number}. {likely.words}", style="bold")
        yield Text(f"   {likely.why} ({likely.source})")
        for difference in likely.differences:
            yield from _evidence(difference.step_ids, difference.against_ids, found)
            yield from (Text(f"   ? {doubt}", style="red") for doubt in difference.doubts)
    if each.others:
        yield terminal.heading("Also different")
        yield from (Text(f"   {difference.words}") for difference in each.others[:_MOST_OTHERS])
        if len(each.others) > _MOST_OTHERS:
            yield Text(f"   and {len(each.others) - _MOST_OTHERS} more; --json lists them")
    if each.lacks:
        yield terminal.heading("What the record lacks")
        yield from (Text(f"   {words}") for words in each.lacks)
    if each.caution:
        yield Text(f"\n{each.caution}", style="yellow")


def _evidence(ids: Iterable[int], against_ids: Iterable[int], found: Comparison) -> Iterator[Text]:
    for step in (*found.cite(ids), *found.cite(against_ids)):
        yield Text(f'   {step.build_key}, step {step.step_id}, {step.at:%d %b %H:%M}: "{step.words}"', style="dim")


def _pattern(pattern: Pattern) -> Iterator[RenderableType]:
    yield terminal.heading(f"Over {pattern.builds} builds: faults with and without each factor")
    table = Table("fault", "factor", "with", "without", "p", "corrected", "", box=None, pad_edge=False)
    for factor in pattern.rising[:_MOST_FACTORS]:
        table.add_row(*_factor_row(factor), style="bold" if factor.confident else None)
    yield table
    yield Text(
        f"Fisher's exact test, {pattern.tested} tests corrected after Holm, half of the 5 % for usual causes; 95 % "
        "intervals after Wilson. "
        "What goes together need not be the cause."
    )
    yield from (Text(warning, style="yellow") for warning in pattern.warnings)


def _factor_row(factor: Factor) -> tuple[str, ...]:
    corrected = "too few" if factor.p_corrected is None else f"{factor.p_corrected:.2g}"
    alike = f"comes with {', '.join(factor.alike)}" if factor.alike and factor.confident else ""
    usual = "a usual cause" if factor.usual else ""
    return (
        factor.fault, factor.name, _rate(factor.with_it), _rate(factor.without_it), f"{factor.p:.2g}", corrected,
        "; ".join(filter(None, (usual, alike))),
    )  # fmt: skip


def _rate(rate: Rate) -> str:
    return f"{rate.faulty} of {rate.builds} ({100 * rate.low:.0f} to {100 * rate.high:.0f} %)"


def trace_words(found: Trace) -> RenderableType:
    """Return a trace to print: what it went into, or what went into it."""
    parts: list[RenderableType] = [terminal.heading(f"Recall list: {found.what}")]
    if found.lots:
        lots = Table("material", "lot", "where", "steps", box=None, pad_edge=False)
        for lot in found.lots:
            name = f"{lot.material} {lot.part}" if lot.part else lot.material
            lots.add_row(name, lot.lot or "not said", lot.how, ", ".join(map(str, lot.step_ids)))
        parts.append(lots)
    else:
        parts.append(Text(f"Moulds: {', '.join(found.moulds)}. Builds: {', '.join(found.builds)}."))
        pulls = Table("mould", "build", "pull", "when", "how", box=None, pad_edge=False)
        for pull in found.pulls:
            number = "not said" if pull.number is None else str(pull.number)
            pulls.add_row(pull.mould_key, pull.build_key, number, f"{pull.at:%Y-%m-%d %H:%M}", pull.how)
        parts.append(pulls if found.pulls else Text("No pull is recorded from them."))
        parts.append(terminal.heading("Steps"))
        parts.append(_used_table(found))
    return Group(*parts, *(Text(f"? {warning}", style="red") for warning in found.warnings))


def _used_table(found: Trace) -> Table:
    steps = Table("step", "build", "when", "act", "amount", "lot", "at", box=None, pad_edge=False)
    for used in found.used:
        amount = "" if used.amount is None else f"{used.amount:g} {used.unit or '(no unit)'}"
        act = used.act if used.named else f"{used.act} (from the batch)"
        doubt = " (?)" if used.doubts else ""
        steps.add_row(
            str(used.step_id), used.build_key, f"{used.at:%Y-%m-%d %H:%M}", act, amount + doubt, used.lot or "",
            ", ".join(used.places),
        )  # fmt: skip
    return steps
