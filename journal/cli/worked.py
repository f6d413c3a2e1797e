"""The shop's other sums: batches, stoichiometry, plaster, casting, cost, voids, ramp, age."""

from __future__ import annotations

from typing import Annotated

import typer

from journal.cli import terminal
from journal.trade import worked
from journal.trade.cure import QUOTED_AT_C

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]
ResinDensity = Annotated[float | None, typer.Option(help="g/ml; default: polyester.")]
GlassDensity = Annotated[float | None, typer.Option(help="g/ml; default: E-glass.")]


def batches(
    total: Annotated[float, typer.Argument(help="Grams in all.")],
    largest: Annotated[float, typer.Option(help="Grams that are safe in one pot.")],
    pot_life: Annotated[float | None, typer.Option(help="Minutes.")] = None,
    speed: Annotated[float | None, typer.Option(help="Grams laid in a minute.")] = None,
    as_json: AsJson = False,
) -> None:
    """Split a total into batches that are safe in one pot and laid within the pot life."""
    _print(worked.batches(total, largest, pot_life, speed), as_json)


def stoichiometry(
    eew: Annotated[float, typer.Argument(help="Epoxide equivalent weight of the resin, g/eq.")],
    ahew: Annotated[float, typer.Argument(help="Amine hydrogen equivalent weight of the hardener, g/eq.")],
    epoxy: Annotated[float, typer.Option(help="Grams of epoxy.")] = 100.0,
    as_json: AsJson = False,
) -> None:
    """Work out an epoxy's hardener from the equivalent weights on the data sheets."""
    _print(worked.stoichiometry(eew, ahew, epoxy), as_json)


def blend(
    parts: Annotated[list[str], typer.Argument(help="GRAMS@EEW each, 0 for a filler: 80@189 10@183 10@0")],
    ahew: Annotated[float, typer.Option(help="Amine hydrogen equivalent weight of the hardener, g/eq.")],
    as_json: AsJson = False,
) -> None:
    """Work out the hardener of a blend of epoxies."""
    _print(worked.blend(" ".join(parts), ahew), as_json)


def additions(
    main: Annotated[float, typer.Argument(help="Grams of the main part.")],
    percents: Annotated[list[str], typer.Argument(help="Percent of each addition: 2 0.5")],
    as_json: AsJson = False,
) -> None:
    """Work out additions in percent of the main part: peroxide, thickener, pigment."""
    _print(worked.additions(main, " ".join(percents)), as_json)


def film(
    area: Annotated[float, typer.Argument(help="Square metres.")],
    wet: Annotated[float, typer.Option(help="Wet film, mm.")],
    density: Annotated[float, typer.Option(help="g/ml")],
    waste: Annotated[float, typer.Option(help="Percent more for what stays in the pot.")] = 0.0,
    as_json: AsJson = False,
) -> None:
    """Work out the gel coat of an area from its wet film thickness."""
    _print(worked.film(area, wet, density, waste), as_json)


def plaster(
    grams: Annotated[float, typer.Argument(help="Grams of plaster.")],
    consistency: Annotated[float, typer.Option(help="Grams of water to 100 g of plaster, from its bag.")],
    as_json: AsJson = False,
) -> None:
    """Work out the water of a plaster."""
    _print(worked.plaster(grams, consistency), as_json)


def casting(
    volume: Annotated[float, typer.Argument(help="Millilitres of the casting.")],
    density: Annotated[float, typer.Option(help="g/ml of what is cast.")],
    ratio: Annotated[str, typer.Option(help="Parts by weight, main first; gives what to weigh.")] = "",
    waste: Annotated[float, typer.Option(help="Percent more for what stays in the pot.")] = 0.0,
    as_json: AsJson = False,
) -> None:
    """Work out what a casting weighs and what to mix for it."""
    _print(worked.casting(volume, density, ratio, waste), as_json)


def cost(
    parts: Annotated[list[str], typer.Argument(help="KILOGRAMS@PRICE each: 1.2@6.50")],
    as_json: AsJson = False,
) -> None:
    """Add up what materials cost, at prices a kilogram."""
    _print(worked.cost(" ".join(parts)), as_json)


def voids(
    density: Annotated[float, typer.Argument(help="The laminate's density as measured, g/ml.")],
    glass: Annotated[float, typer.Option(help="Percent of glass by weight, as after burn-off.")],
    resin_density: ResinDensity = None,
    glass_density: GlassDensity = None,
    as_json: AsJson = False,
) -> None:
    """Work out the voids of a laminate from its density."""
    _print(worked.voids(density, glass, resin_density, glass_density), as_json)


def ramp(
    holds: Annotated[list[str], typer.Argument(help="DEGC@HOURS each: 60@8 80@4")],
    rate: Annotated[float, typer.Option(help="Degrees an hour.")],
    start: Annotated[float, typer.Option(help="The temperature at the start, degC.")] = 20.0,
    as_json: AsJson = False,
) -> None:
    """Work out a post-cure programme: when each temperature is reached and left."""
    _print(worked.ramp(start, " ".join(holds), rate), as_json)


def age(
    log: Annotated[list[str], typer.Argument(help="HOURS@DEGC each: 12@18 6@25")],
    energy: Annotated[float | None, typer.Option(help="Activation energy in kJ/mol, when known.")] = None,
    reference: Annotated[float, typer.Option(help="The temperature to reckon at, degC.")] = QUOTED_AT_C,
    as_json: AsJson = False,
) -> None:
    """Work out the age of a cure from the temperatures it has seen."""
    _print(worked.cure_age(" ".join(log), energy, reference), as_json)


COMMANDS = (additions, batches, film, stoichiometry, blend, plaster, casting, cost, voids, ramp, age)


def _print(made: worked.Worked, as_json: bool) -> None:
    said = [f"{figure.name} {figure.value:.4g} {figure.unit}".strip() for figure in made.figures]
    terminal.answer(as_json, made, "; ".join([", ".join(said), *made.remarks]))
