"""What came of a mould: its life, and what a person puts on record of it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Annotated

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from journal import flow
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.keep.views import FieldError
from journal.review.lasting import Survival
from journal.review.life import Lasting, MouldLife
from journal.review.outcome import KINDS, NewOutcome
from journal.review.review import Lives

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]


def life(
    mould: Annotated[str | None, typer.Argument(help="The mould, by name; nothing shows all.")] = None,
    as_json: AsJson = False,
) -> None:
    """Show the life of a mould: pulls, faults, repairs, its end; and which recipe lasts longest."""
    with opened_shop() as shop:
        found = flow.lives(shop, mould)
        terminal.answer(as_json, found, lives_words(found))


def came(
    build: Annotated[str, typer.Argument(help="The build, by name.")],
    kind: Annotated[str, typer.Argument(help=f"What came of it: {', '.join(KINDS)}.")],
    words: Annotated[list[str] | None, typer.Argument(help="In what condition, in your words.")] = None,
    seen: Annotated[str | None, typer.Option(help="What was seen: chip, crack, stuck, good and so on.")] = None,
    place: Annotated[str | None, typer.Option(help="Where on the mould.")] = None,
    number: Annotated[int | None, typer.Option(help="The number of the pull.")] = None,
    on: Annotated[str | None, typer.Option(help="When: 2026-04-24 or 2026-04-24T11:00; default now.")] = None,
    photo: Annotated[int | None, typer.Option(help="A kept photo, by its id, that shows the fault.")] = None,
    who: Annotated[str | None, typer.Option(help="Who says so, by role.")] = None,
    as_json: AsJson = False,
) -> None:
    """Put on record that a mould was opened, gave a pull, showed a fault, was repaired or is retired."""
    with opened_shop() as shop:
        at = shop.now() if on is None else _moment(on).replace(tzinfo=shop.zone)
        if photo is not None:
            shop.store.photo(photo)  # what is not there is told before anything is kept
        new = NewOutcome(kind, at, " ".join(words or ()), seen, place, number, who)
        kept = flow.record_outcome(shop, build, new)
        if photo is not None:
            shop.store.show_fault(kept.id, photo, shop.now(), who)
        terminal.answer(as_json, kept, f"Step {kept.id} of {kept.build_key}: {kind}, {kept.act_at:%Y-%m-%d %H:%M}.")


def _moment(text: str) -> datetime:
    try:
        return datetime.fromisoformat(text).replace(tzinfo=None)
    except ValueError as error:
        raise FieldError("on", f"{text!r} is no time: write it like 2026-04-24T11:00") from error


def lives_words(found: Lives) -> RenderableType:
    """Return the lives of moulds to print."""
    parts: list[RenderableType] = []
    for each in found.moulds:
        parts += _life(each)
    parts.append(terminal.heading("Which recipe lasts longest"))
    for recipe in found.recipes:
        parts += _lasting(recipe)
    return Group(*parts, Text(found.verdict))


def _life(each: MouldLife) -> Iterator[RenderableType]:
    more = ", by the number that was said" if each.least else ""
    ended = ", retired" if each.retired else ""
    yield terminal.heading(f"{each.build_key} ({each.outcome}{ended}): {each.pulls} pulls{more}")
    events = Table("when", "what", "pulls by then", "words", "at", box=None, pad_edge=False)
    for event in each.events:
        doubt = " (?)" if event.doubts else ""
        places = ", ".join(event.places)
        events.add_row(f"{event.at:%Y-%m-%d}", event.kind + doubt, str(event.pulls), event.words, places)
    yield events if each.events else Text("Not opened yet.")
    for doubt in dict.fromkeys(doubt for event in each.events for doubt in event.doubts):
        yield Text(f"? {doubt}", style="red")


def _lasting(recipe: Lasting) -> Iterator[RenderableType]:
    named = ", ".join(recipe.recipe) or "nothing named"
    yield Text(f"{named}: {len(recipe.builds)} moulds, {recipe.pulls} pulls", style="bold")
    for label, survival in (("first repair or end", recipe.to_repair), ("end of life", recipe.to_retirement)):
        few = bool(survival.warning)
        yield Text(f"   to the {label}: {survival.warning or half_life(survival)}", style="yellow" if few else "")


def half_life(survival: Survival) -> str:
    """Return how many pulls half of the moulds outlive, with the interval, in words."""
    if survival.median is None:
        return f"more than half of {survival.moulds} still go on"
    most = "open" if survival.high is None else f"{survival.high:g}"
    least = "open" if survival.low is None else f"{survival.low:g}"
    return f"half of {survival.moulds} last {survival.median:g} pulls (95 % interval {least} to {most})"
