"""A recipe scaled, a plan started from it, shown, and steps of it skipped."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated

import typer
from rich.console import Group, RenderableType
from rich.text import Text

from journal import planning
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.find.follow import Progress
from journal.find.planned_step import PlannedStep
from journal.find.scale import RESOLUTION_G, Scaled, Wanted
from journal.find.telling import next_words, planned_words
from journal.keep.plan_views import NewSkip

app = typer.Typer(no_args_is_help=True, help="Follow a recipe: scale it, start a plan from it, see how far it is.")
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]
Area = Annotated[float | None, typer.Option(help="Scale to this area, in m2.")]
Volume = Annotated[float | None, typer.Option(help="Scale what is poured to this volume, in ml.")]
Times = Annotated[float | None, typer.Option(help="Scale everything by this.")]
Resolution = Annotated[float, typer.Option(help="What your scale shows, in g.")]
Who = Annotated[str | None, typer.Option(help="Who says so, by role.")]
Build = Annotated[str, typer.Argument(help="The build, by name.")]


@app.command()
def scale(
    build: Annotated[str, typer.Argument(help="The build whose recipe it is, by name.")],
    area: Area = None,
    volume: Volume = None,
    times: Times = None,
    resolution: Resolution = RESOLUTION_G,
    as_json: AsJson = False,
) -> None:
    """Show a build as a recipe, scaled; nothing is kept."""
    with opened_shop() as shop:
        _, made = planning.scaled_recipe(shop, build, Wanted(area, volume, times, resolution))
        terminal.answer(as_json, made, Group(*_scaled(made)))


@app.command()
def start(
    build: Build,
    recipe: Annotated[str, typer.Option(help="The build whose recipe is followed, by name.")],
    area: Area = None,
    volume: Volume = None,
    times: Times = None,
    resolution: Resolution = RESOLUTION_G,
    who: Who = None,
    as_json: AsJson = False,
) -> None:
    """Scale a recipe and follow it in a build from now on."""
    with opened_shop() as shop:
        progress = planning.start(shop, build, recipe, Wanted(area, volume, times, resolution), who)
        terminal.answer(as_json, progress, Group(*_progress(progress)))


@app.command()
def show(build: Build, as_json: AsJson = False) -> None:
    """Show how far the plan of a build is, what is off it, and what is next."""
    with opened_shop() as shop:
        progress = planning.planned(shop, build)
        terminal.answer(as_json, progress, Group(*_progress(progress)))


@app.command()
def skip(
    build: Build,
    number: Annotated[int, typer.Argument(min=0, help="The step; the next one when left out.")] = 0,
    why: Annotated[str, typer.Option(help="What is to be said about it.")] = "",
    who: Who = None,
    as_json: AsJson = False,
) -> None:
    """Skip a step of the plan."""
    with opened_shop() as shop:
        progress = planning.skip(shop, build, NewSkip(number, why, None, who))
        terminal.answer(as_json, progress, Text(next_words(progress)))


def _scaled(made: Scaled) -> Iterator[RenderableType]:
    scale = made.scale
    yield terminal.heading(f"{len(made.steps)} steps, {scale.factor:.4g} times the recipe, by {scale.by}")
    for step in made.steps:
        yield from _step(step)
    yield from (Text(f"not scaled: {words}", style="dim") for words in made.not_scaled)


def _step(step: PlannedStep, mark: str = "") -> Iterator[RenderableType]:
    yield Text(f"{mark}{step.number}. {planned_words(step)}")
    yield from (Text(f"   {words}", style="dim") for words in step.mind)
    doubts: Sequence[str] = (*step.doubts, *(doubt for use in step.uses for doubt in use.doubts))
    yield from (Text(f"   ? {words}", style="red") for words in doubts)


def _progress(progress: Progress) -> Iterator[RenderableType]:
    plan = progress.plan
    yield terminal.heading(f"{plan.build_key}: {progress.done} of {len(progress.steps)}, from {plan.recipe_key}")
    for each in progress.steps:
        yield from _step(each.planned, f"{each.state:9} ")
        yield from (Text(f"   off the plan: {words}", style="red") for words in each.off)
    yield Text(next_words(progress), style="bold")
