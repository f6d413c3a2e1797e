"""A whole shop out in an open format, and into a shop that may have something already."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Group
from rich.text import Text

from journal import flow
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.keep.exchange.exchange import ImportReport

AsJson = Annotated[bool, typer.Option("--json", help="Print what was done as JSON instead of words.")]


def export(
    target: Annotated[Path, typer.Argument(help="A new folder, or a new file in .zip.")],
    csv: Annotated[bool, typer.Option("--csv", help="One CSV file a noun instead of one JSON file.")] = False,
    as_json: AsJson = False,
) -> None:
    """Write everything in an open format, with its schema and all originals."""
    with opened_shop() as shop:
        report = flow.export(shop, target, "csv" if csv else "json")
        counts = ", ".join(f"{count} {name}" for name, count in report.rows.items() if count)
        lost = [Text(f"lost before, not in it: {sha256}", style="red") for sha256 in report.lost]
        words = Group(Text(f"{report.originals} originals and {counts or 'nothing else'} are in {target}."), *lost)
        terminal.answer(as_json, report, words)
        if report.lost:
            raise typer.Exit(1)


def import_(
    source: Annotated[Path, typer.Argument(help="The folder or file that mouldbook export wrote.")],
    as_json: AsJson = False,
) -> None:
    """Take in what is not here yet; nothing that is here is altered, and every conflict is told."""
    with opened_shop() as shop:
        report = flow.bring_in(shop, source)
        terminal.answer(as_json, report, _words(report))
        if not report.whole:
            raise typer.Exit(1)


def _words(report: ImportReport) -> Group:
    new = ", ".join(f"{count} {name}" for name, count in report.new.items())
    same = ", ".join(f"{count} {name}" for name, count in report.same.items())
    lines = [Text(f"New: {new or 'nothing'}. The same already: {same or 'nothing'}.")]
    lines += [Text(f"Not taken in: {conflict}", style="red") for conflict in report.conflicts]
    lines += [Text(f"Not in the file: the original {sha256}", style="red") for sha256 in report.missing]
    return Group(*lines)
