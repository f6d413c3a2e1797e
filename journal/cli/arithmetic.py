"""The arithmetic by itself: mix, laminate, clock."""

from __future__ import annotations

from dataclasses import asdict
from datetime import datetime, timedelta
from typing import Annotated

import typer

from journal.cli import terminal
from journal.trade import cure
from journal.trade import laminate as plies
from journal.trade import mix as mixing
from journal.trade.limits import TradeError

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]


def mix(
    grams: Annotated[float, typer.Argument(help="The weight that is known, in grams.")],
    ratio: Annotated[str, typer.Option(help="Parts, main first: 100:29, or 100:50:10.")],
    of: Annotated[str, typer.Option(help="What the grams are: A, B, C or total.")] = "A",
    by: Annotated[str, typer.Option(help="weight or volume")] = "weight",
    densities: Annotated[str, typer.Option(help="g/ml of each part, for a ratio by volume: 1.15:0.95")] = "",
    scale: Annotated[float, typer.Option(help="What the scale can show, in grams; 0: all.")] = 0.1,
    as_json: AsJson = False,
) -> None:
    """Weigh a mix: from one weight and the ratio to the others."""
    parts = mixing.MixRatio(_numbers("ratio", ratio), by, _numbers("densities", densities) if densities else ())
    if of.casefold() == "total":
        weighing = mixing.weigh_from_total(parts, grams, scale)
    elif of.upper() in (letters := "ABCDEF"[: len(parts.parts)]):
        weighing = mixing.weigh_from_part(parts, letters.index(of.upper()), grams, scale)
    else:
        raise TradeError("of", f"must be total or one of {', '.join(letters)}, got {of!r}")
    rows = [f"{letter} {weight:g} g" for letter, weight in zip("ABCDEF", weighing.weights, strict=False)]
    terminal.answer(
        as_json, asdict(weighing) | {"total": weighing.total}, f"{', '.join(rows)}, total {weighing.total:g} g"
    )


def laminate(
    area: Annotated[float, typer.Argument(help="Square metres to cover.")],
    layers: Annotated[list[str], typer.Argument(help="COUNTxGSM@PERCENT of glass by weight: 2x450@30")],
    resin_density: Annotated[float, typer.Option(help="g/cm3")] = plies.POLYESTER_DENSITY,
    as_json: AsJson = False,
) -> None:
    """Work out glass, resin, weight and thickness of a laminate."""
    made = plies.laminate(area, [_ply(layer) for layer in layers], resin_density)
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
    as_json: AsJson = False,
) -> None:
    """Shift a pot life, gel or recoat time to a temperature, and say by which rule."""
    shifted = cure.shift(minutes * 60, degc, energy, quoted_at)
    end = None if start is None else start + timedelta(seconds=shifted.seconds)
    words = f"{shifted.seconds / 60:.1f} min at {degc:g} degC ({shifted.rule})" + (
        f", until {end:%H:%M}" if end else ""
    )
    terminal.answer(as_json, asdict(shifted) | {"end": end and end.isoformat()}, words)


def _numbers(field: str, text: str) -> tuple[float, ...]:
    try:
        return tuple(float(number) for number in text.split(":"))
    except ValueError:
        raise TradeError(field, f"must be numbers with colons between them, like 100:29, got {text!r}") from None


def _ply(text: str) -> plies.Ply:
    try:
        count, rest = text.split("x")
        gsm, percent = rest.split("@")
        return plies.Ply(float(gsm), float(percent) / 100, int(count))
    except ValueError:
        raise TradeError("layers", f"must look like 2x450@30 (count, g/m2, percent of glass), got {text!r}") from None
