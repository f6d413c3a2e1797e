"""The arithmetic by itself: mix, judge, laminate, clock, climate."""

from __future__ import annotations

from dataclasses import asdict
from datetime import UTC, datetime, timedelta
from typing import Annotated

import typer

from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.trade import cure
from journal.trade import laminate as plies
from journal.trade import mix as mixing
from journal.trade.climate import fitness, limits_for
from journal.trade.material import Material, material_named
from journal.trade.notation import numbers_of, ply_of, ratio_of

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]


def mix(
    known: Annotated[float, typer.Argument(help="What is known: grams, or square metres with --of area.")],
    ratio: Annotated[str, typer.Option(help="Parts, main first: 100:29, or 100:50:10.")],
    of: Annotated[str, typer.Option(help="What is known of it: A, B, C, total or area.")] = "A",
    by: Annotated[str, typer.Option(help="weight or volume")] = "weight",
    densities: Annotated[str, typer.Option(help="g/ml of each part, for a ratio by volume: 1.15:0.95")] = "",
    scale: Annotated[float, typer.Option(help="What the scale can show, in grams; 0: all.")] = 0.1,
    gsm: Annotated[float | None, typer.Option(help="With --of area: grams of mix a square metre.")] = None,
    as_json: AsJson = False,
) -> None:
    """Weigh a mix: from one weight, the total or an area and the ratio to the weights."""
    weighing = mixing.weigh(ratio_of(ratio, by, densities), known, of, scale, gsm)
    rows = [f"{letter} {weight:g} g" for letter, weight in zip("ABCDEF", weighing.weights, strict=False)]
    terminal.answer(
        as_json, asdict(weighing) | {"total": weighing.total}, f"{', '.join(rows)}, total {weighing.total:g} g"
    )


def judge(
    weights: Annotated[str, typer.Argument(help="What was weighed, main first: 500:110")],
    ratio: Annotated[str, typer.Option(help="Parts, main first: 100:28.")],
    tolerance: Annotated[float | None, typer.Option(help="Percent that the material bears.")] = None,
    material: Annotated[str | None, typer.Option(help="The material; its tolerance where none is given.")] = None,
    as_json: AsJson = False,
) -> None:
    """Say how far an actual weighing is off the ratio, and what to add to put it right."""
    if tolerance is None and material is not None:
        tolerance = _known(material).tolerance_percent
    found = mixing.judge(ratio_of(ratio), numbers_of("weights", weights), tolerance)
    off = ", ".join(
        f"{letter} {percent:+.1f} %" for letter, percent in zip("BCDEF", found.deviation_percent, strict=False)
    )
    add = ", ".join(f"{grams:.1f} g of {x}" for x, grams in zip("ABCDEF", found.to_add_g, strict=False) if grams > 0.05)
    verdict = {True: "within tolerance; ", False: "outside tolerance; ", None: ""}[found.within_tolerance]
    terminal.answer(as_json, found, f"{off}; {verdict}{f'add {add}' if add else 'nothing to add'}")


def laminate(
    area: Annotated[float, typer.Argument(help="Square metres to cover.")],
    layers: Annotated[list[str], typer.Argument(help="COUNTxGSM@PERCENT of glass by weight: 2x450@30")],
    resin_density: Annotated[float, typer.Option(help="g/cm3")] = plies.POLYESTER_DENSITY,
    as_json: AsJson = False,
) -> None:
    """Work out glass, resin, weight and thickness of a laminate."""
    made = plies.laminate(area, [ply_of(layer) for layer in layers], resin_density)
    words = (
        f"glass {made.glass_g:.0f} g, resin {made.resin_g:.0f} g, together {made.weight_g:.0f} g, "
        f"{made.thickness_mm:.2f} mm thick, {100 * made.glass_weight_fraction:.1f} % glass by weight"
    )
    terminal.answer(as_json, asdict(made) | {"weight_g": made.weight_g}, words)


def clock(
    minutes: Annotated[float, typer.Argument(help="The time as quoted, in minutes.")],
    degc: Annotated[float, typer.Option(help="The temperature now.")],
    quoted_at: Annotated[float, typer.Option(help="The temperature that the time is quoted for.")] = cure.QUOTED_AT_C,
    energy: Annotated[float | None, typer.Option(help="Activation energy in kJ/mol, when known.")] = None,
    start: Annotated[datetime | None, typer.Option(help="When it started; prints when it ends.")] = None,
    material: Annotated[str | None, typer.Option(help="The material; its activation energy if none is given.")] = None,
    as_json: AsJson = False,
) -> None:
    """Shift a pot life, gel or recoat time to a temperature, and say by which rule."""
    if energy is None and material is not None:
        energy = _known(material).activation_energy_kj
    shifted = cure.shift(minutes * 60, degc, energy, quoted_at)
    end = None if start is None else _later(start, shifted.seconds)
    words = f"{shifted.seconds / 60:.1f} min at {degc:g} degC ({shifted.rule})" + (
        f", until {end:%H:%M}" if end else ""
    )
    terminal.answer(as_json, asdict(shifted) | {"end": end and end.isoformat()}, words)


def climate(
    degc: Annotated[float, typer.Argument(help="The air's temperature.")],
    humidity: Annotated[float, typer.Argument(help="Relative humidity, percent.")],
    surface: Annotated[float | None, typer.Option(help="The surface's temperature; default: the air's.")] = None,
    material: Annotated[str | None, typer.Option(help="Hold to the limits of this material.")] = None,
    as_json: AsJson = False,
) -> None:
    """Give the dew point, and say whether air and surface are fit to work in."""
    limits = limits_for(_known(material) if material else None)
    found = fitness(degc, humidity, surface, limits)
    verdict = "; ".join(found.objections) or "fit to work"
    side = f"{abs(found.margin_c):.1f} {'above' if found.margin_c >= 0 else 'below'} it"
    words = f"dew point {found.dew_point_c:.1f} degC, the surface {side}: {verdict} (by {limits.whose})"
    terminal.answer(as_json, asdict(found) | {"limits": limits.whose}, words)


def _later(start: datetime, seconds: float) -> datetime:
    """Return the shop's time so many seconds later, reckoned in instants; a start without an offset is the shop's."""
    with opened_shop() as shop:
        began = start if start.tzinfo else start.replace(tzinfo=shop.zone)
        return (began.astimezone(UTC) + timedelta(seconds=seconds)).astimezone(shop.zone)


def _known(name: str) -> Material:
    with opened_shop() as shop:
        return material_named(shop.catalogue, name)
