"""What is on the shelf, and what a person states about a tin."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

import typer
from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from journal import flow
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.find.ask import saying
from journal.find.shelf import Tin
from journal.keep.views import NewLot

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]


def shelf(as_json: AsJson = False) -> None:
    """Show the lots on the shelf: opened when, how much is left, what speaks against them."""
    with opened_shop() as shop:
        found = flow.tins(shop)
        terminal.answer(as_json, found, tins_table(found))


def tin(
    material: Annotated[str, typer.Argument(help="The material, by its name in the catalogue.")],
    number: Annotated[str, typer.Argument(help="The lot's number, as on the label.")],
    part: Annotated[str | None, typer.Option(help="A or B.")] = None,
    amount: Annotated[float | None, typer.Option(help="What it held when opened.")] = None,
    unit: Annotated[str | None, typer.Option(help="The amount's unit: g or ml.")] = None,
    use_by: Annotated[datetime | None, typer.Option(formats=["%Y-%m-%d"], help="The last day to use it.")] = None,
    opened: Annotated[datetime | None, typer.Option(help="When it was opened; default: at its first use.")] = None,
    who: Annotated[str | None, typer.Option(help="Who says so, by role.")] = None,
) -> None:
    """State what a tin holds and when it expires; stating it again replaces that."""
    with opened_shop() as shop:
        known = shop.catalogue.get(material)
        at = None if opened is None else opened if opened.tzinfo else opened.replace(tzinfo=shop.zone)
        lot = NewLot(known.name if known else material, number, part, at, use_by and use_by.date(), amount, unit)
        shop.store.state_lot(lot, shop.now(), who)
        stated = [each for each in flow.tins(shop) if (each.lot.material, each.lot.number) == (lot.material, number)]
        terminal.say(tins_table(stated))


def tins_table(tins: list[Tin] | tuple[Tin, ...]) -> RenderableType:
    """Return tins as a table; what speaks against one stands below it."""
    if not tins:
        return "No tin yet: say its lot in a note, or state it with mouldbook tin MATERIAL NUMBER."
    table = Table("material", "lot", "opened", "use by", "held", "used", "left", box=None, pad_edge=False)
    for each in tins:
        lot, stock = each.lot, each.stock
        table.add_row(
            f"{lot.material}{f' {lot.part}' if lot.part else ''}",
            lot.number,
            f"{lot.opened_at:%Y-%m-%d}" if lot.opened_at else "",
            lot.use_by.isoformat() if lot.use_by else "",
            f"{stock.held_g:g} g" if stock else "not stated",
            f"{each.used_g:g} g",
            saying.quantity(stock.left_g, "g") if stock else "",
        )
        for words in each.objections:
            table.add_row(Text(f"? {words}", style="red"))
    return table
