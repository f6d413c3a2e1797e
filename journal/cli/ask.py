"""Questions, and the clocks of a build."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from journal import flow
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.find.ask import saying
from journal.find.ask.facts import Answer
from journal.find.clock import BuildClocks, Clock

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]


def ask(
    words: Annotated[list[str], typer.Argument(help='What you would ask aloud: "how much B for 420".')],
    build: Annotated[str | None, typer.Option(help="The build asked about; default: the one under way.")] = None,
    as_json: AsJson = False,
) -> None:
    """Answer a question in one short sentence, from the journal and the arithmetic."""
    with opened_shop() as shop:
        answer = flow.ask(shop, " ".join(words), build)
        terminal.answer(as_json, answer, answer_words(answer))
        if answer.lacks:
            raise typer.Exit(1)


def clocks(build: Annotated[str, typer.Argument(help="The build, by name.")], as_json: AsJson = False) -> None:
    """Show the running clocks of a build: pot life, the window of the next coat, demould, cure."""
    with opened_shop() as shop:
        found = flow.clocks(shop, build)
        terminal.answer(as_json, found, clocks_table(found, shop.now()))


def answer_words(answer: Answer) -> RenderableType:
    """Return an answer to print: the sentence, and below it what it rests on or lacks."""
    more = f"Lacking: {answer.lacks}" if answer.lacks else answer.why
    steps = f"steps {', '.join(map(str, answer.evidence))}" if answer.evidence else ""
    below = "; ".join(filter(None, (more, steps)))
    return Group(Text(answer.text), *([Text(below, style="dim")] if below else ()))


def clocks_table(clocks: BuildClocks, now: datetime) -> RenderableType:
    """Return the running clocks of a build, and the coats that went on outside their windows."""
    if not clocks.running and not clocks.outside:
        return "No clock is running: nothing was mixed or put on that has a time known for it."
    table = Table("clock", "of", "since", "from", "until", "left", "goes by", box=None, pad_edge=False)
    for clock in clocks.running:
        table.add_row(*_row(clock, now), style="red" if clock.state(now) in ("ending", "over") else None)
    late = [
        Text(
            f"? step {missed.step_id} went on {saying.lasting(missed.missed_by)} too {missed.state} "
            f"on the {missed.below.material} of step {missed.below_id}",
            style="red",
        )
        for missed in clocks.outside
    ]
    return Group(table, *late)


def _row(clock: Clock, now: datetime) -> tuple[str, ...]:
    opens, closes, left = clock.window.opens, clock.window.closes, clock.left(now)
    goes_by = "as said" if clock.source == "said" else f"catalogue, {clock.rule}"
    goes_by += f" at {clock.degc:g} degC" if clock.degc is not None else ""
    waiting = clock.state(now) == "waiting"
    return (
        clock.kind,
        clock.material,
        saying.time_of(clock.started_at, now),
        saying.time_of(opens, now),
        saying.time_of(closes, now) if closes else "",
        ""
        if left is None
        else f"{'in ' if waiting else ''}{'-' if left.total_seconds() < 0 else ''}{saying.lasting(left)}",
        goes_by,
    )
