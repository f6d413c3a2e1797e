"""How a step's values are written for people: one row a fact, each value with the words it came from.

Pure. Times are written in the offset they were said in: the wall time of the shop. The same rows stand on
the timeline, the evidence page and the sheet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import floor, log10

from journal.record import Evidence, Layer, MaterialUse, Phrase, Ratio, Step, Timing

# A number and its unit stay on one line: "55" at the end of one and "%" on the next is read wrongly.
TIED = "\u00a0"
UNITS = {"percent": "%", "degC": "°C", "m2": "m²", "count": ""}


@dataclass(frozen=True, slots=True)
class Value:
    """One value in words: `field` is its place in the record (`materials.0`), `amount` the part to set large."""

    field: str
    text: str
    evidence: Evidence
    amount: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """A label and its values, with what a foreman would query about them."""

    label: str
    values: tuple[Value, ...]


def number(value: Fraction | float | int) -> str:
    """Write a number as a scale shows it: two decimals, under one three figures, and no idle zeros."""
    plain = float(value)
    decimals = 2 if abs(plain) >= 1 or plain == 0 else 2 - floor(log10(abs(plain)))
    return f"{plain:.{decimals}f}".rstrip("0").rstrip(".")


def quantity(amount: Fraction | None, unit: str | None, most: Fraction | None = None) -> str:
    """Write an amount with its unit; a missing unit is said, since it must not be guessed."""
    if amount is None:
        return ""
    span = number(amount) if most is None or most == amount else f"{number(amount)} to {number(most)}"
    return f"{span} (no unit said)" if unit is None else f"{span}{TIED}{UNITS.get(unit, unit)}".strip()


def measured(amount: float, unit: str) -> str:
    """Write a number in its unit."""
    return f"{number(amount)}{TIED}{UNITS.get(unit, unit)}".strip()


def duration(seconds: Fraction | float) -> str:
    """Write seconds as days, hours, minutes and seconds, the two largest that are not zero."""
    left = round(float(seconds))
    if left == 0:
        return f"0{TIED}s"
    parts = []
    for size, unit in ((86400, "d"), (3600, "h"), (60, "min"), (1, "s")):
        count, left = divmod(left, size)
        if count:
            parts.append(f"{count}{TIED}{unit}")
    return " ".join(parts[:2])


def span(least: Fraction | None, most: Fraction | None) -> str:
    """Write a least and a most duration the way they are said."""
    if least is None and most is None:
        return "not said"
    if most is None:
        return f"at least {duration(least or 0)}"
    if not least:
        return f"up to {duration(most)}"
    return duration(least) if least == most else f"{duration(least)} to {duration(most)}"


def material(use: MaterialUse) -> tuple[str, str]:
    """Return a material's name with its part and lot, and its amount."""
    name = use.name + (f", part {use.part}" if use.part else "") + (f", lot {use.lot}" if use.lot else "")
    return name, quantity(use.amount, use.unit, use.amount_most)


def ratio(said: Ratio) -> str:
    """Write a ratio as parts, how they are measured, and whether it was worked out from weights."""
    parts = " : ".join(number(part) for part in said.parts)
    by = f" by {said.by}" if said.by else ""
    return f"{parts}{by}{' (worked out)' if said.derived else ''}"


def layer(said: Layer) -> tuple[str, str]:
    """Return a layer's name with its areal weight, and how many there are."""
    name = said.name + (f", {number(said.gsm)}{TIED}g/m²" if said.gsm is not None else "")
    return name, f"{number(said.count)}{TIED}×" if said.count is not None else ""


def timing(said: Timing) -> tuple[str, str]:
    """Return a timing's kind and its length."""
    return said.kind, span(said.least, said.most)


def _phrases(field: str, phrases: tuple[Phrase, ...]) -> tuple[Value, ...]:
    return tuple(Value(f"{field}.{i}", p.text, p.evidence) for i, p in enumerate(phrases))


def _materials(step: Step) -> Iterator[Value]:
    for i, use in enumerate(step.materials):
        text, amount = material(use)
        yield Value(f"materials.{i}", text, use.evidence, amount)


def _layers(step: Step) -> Iterator[Value]:
    for i, said in enumerate(step.layers):
        text, amount = layer(said)
        yield Value(f"layers.{i}", text, said.evidence, amount)


def _timings(step: Step) -> Iterator[Value]:
    for i, said in enumerate(step.timings):
        text, amount = timing(said)
        yield Value(f"timings.{i}", text, said.evidence, amount)


def _clock(step: Step) -> Iterator[Value]:
    for i, said in enumerate(step.clock):
        yield Value(f"clock.{i}", said.kind, said.evidence, f"{said.at:%H:%M}, {said.at.day} {said.at:%b}")


def _conditions(step: Step) -> Iterator[Value]:
    for i, said in enumerate(step.conditions):
        text = said.kind + (f" of the {said.of}" if said.of else "")
        yield Value(f"conditions.{i}", text, said.evidence, quantity(said.value, said.unit))


def act(step: Step) -> Value:
    """Return what was done as a value: it was heard and read like any other."""
    return Value("action", step.action, step.evidence)


def rows(step: Step) -> tuple[Row, ...]:
    """Return the step's facts in the order of the record, without the empty ones."""
    seen = tuple(Value(f"observations.{i}", o.text, o.evidence, note=o.kind) for i, o in enumerate(step.observations))
    stated = (Value("ratio", ratio(step.ratio), step.ratio.evidence),) if step.ratio else ()
    pulls = (Value("pull", f"number {step.pull}", step.evidence),) if step.pull is not None else ()
    every = (
        Row("Materials", tuple(_materials(step))),
        Row("Ratio", stated),
        Row("Layers", tuple(_layers(step))),
        Row("Timings", tuple(_timings(step))),
        Row("Clock", tuple(_clock(step))),
        Row("Conditions", tuple(_conditions(step))),
        Row("Pull", pulls),
        Row("Places", _phrases("places", step.places)),
        Row("Seen", seen),
        Row("Until", _phrases("cues", step.cues)),
        Row("Because", _phrases("reasons", step.reasons)),
        Row("Mind", _phrases("warnings", step.warnings)),
    )
    return tuple(row for row in every if row.values)
