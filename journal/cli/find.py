"""Find with plain words, and recipes for the job at hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from journal import flow, planning
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.find.found import Findings
from journal.find.offers import Job, Offer
from journal.shop import Shop


def find(
    words: Annotated[
        list[str] | None, typer.Argument(help="Words, and material: action: mould: outcome: since: until:")
    ] = None,
    recipes: Annotated[
        bool, typer.Option("--recipe", help="Offer recipes for a job; the words are its shape.")
    ] = False,
    material: Annotated[str, typer.Option(help="With --recipe: the material.")] = "",
    area: Annotated[float | None, typer.Option(help="With --recipe: the area in m2.")] = None,
    degrees: Annotated[float | None, typer.Option(help="With --recipe: the shop's temperature in degC.")] = None,
    limit: Annotated[int, typer.Option(min=1, max=500, help="The most that is shown.")] = 20,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")] = False,
) -> None:
    """Find steps, notes and builds by plain words, as "resin undercut fill under 25 degrees that worked"."""
    text = " ".join(words or [])
    if recipes:
        job = Job(material, area, degrees, text)
    elif not text or material or area is not None or degrees is not None:
        raise typer.BadParameter("give words to find; --material, --area and --degrees go with --recipe")
    with opened_shop() as shop:
        found = _recipes(shop, job, limit, as_json) if recipes else _words(shop, text, limit, as_json)
    if not found:
        raise typer.Exit(1)


def _words(shop: Shop, text: str, limit: int, as_json: bool) -> bool:
    found = flow.find(shop, text, limit)
    terminal.answer(as_json, found, Group(*_taken(found), terminal.hits_table(found.hits)))
    return bool(found.hits)


def _taken(found: Findings) -> Iterator[RenderableType]:
    if found.asked.chips:
        yield Text("Taken to ask for: " + ", ".join(f"{chip.field} {chip.label}" for chip in found.asked.chips))
    if found.let_go:
        yield Text(f"Nothing fits all of that; left out: {', '.join(found.let_go)}")


def _recipes(shop: Shop, job: Job, limit: int, as_json: bool) -> bool:
    offers = planning.recipes_for(shop, job, limit)
    terminal.answer(as_json, offers, _offers(offers))
    return bool(offers)


def _offers(offers: Sequence[Offer]) -> RenderableType:
    if not offers:
        return "No build that has ended used that: try a wider name, like gel coat or resin."
    table = Table("build", "outcome", "castings", "like yours", "unlike, or not known", box=None, pad_edge=False)
    for offer in offers:
        why, unlike = "; ".join(offer.why), "; ".join(offer.unlike)
        table.add_row(offer.build.key, offer.build.outcome, str(offer.pulls), why, unlike)
    return Group(table, Text("Scale one: mouldbook plan scale BUILD --area M2", style="dim"))
