"""Steps as the store gives them out, made without a store. Invented."""

from __future__ import annotations

from datetime import datetime, timedelta
from fractions import Fraction
from importlib import resources
from typing import Any

from journal.keep.views import StepView
from journal.read.catalogue import catalogue_from_toml
from journal.record import ClockTime, Condition, Flag, Layer, MaterialUse, Phrase, Timing, step_to_json
from tests.keep.made import AT, evidence, step, use

CATALOGUE = catalogue_from_toml(resources.files("journal").joinpath("catalogue.toml").read_text(encoding="utf-8"))


def after(**span: float) -> datetime:
    return AT + timedelta(**span)


def kept(number: int, action: str, *uses: MaterialUse, at: datetime = AT, **more: Any) -> StepView:
    """Return a step as kept; each is of a note of its own unless `note` says which."""
    note, build = more.pop("note", number), more.pop("build", 1)
    record = step(action, *uses, **more)
    json = step_to_json(record)
    return StepView(number, note, build, f"build-{build}", 0, at, at, record, json, json, False, None, None, False)


def degrees(value: float, of: str | None = "shop") -> Condition:
    return Condition("temperature", Fraction(str(value)), "degC", evidence("degrees"), of)


def humid(value: float) -> Condition:
    return Condition("humidity", Fraction(str(value)), "percent", evidence("humidity"))


def timing(kind: str, least: float | None, most: float | None) -> Timing:
    return Timing(kind, *(None if s is None else Fraction(s) for s in (least, most)), evidence(kind))


def due(at: datetime) -> ClockTime:
    return ClockTime("due", at, evidence("due"))


def on(*places: str) -> tuple[Phrase, ...]:
    return tuple(Phrase(place, evidence(place)) for place in places)


def layer(name: str, count: int | None = 1, gsm: int | None = None) -> Layer:
    return Layer(
        name, evidence(name), None if count is None else Fraction(count), None if gsm is None else Fraction(gsm)
    )


__all__ = ["AT", "CATALOGUE", "Flag", "after", "degrees", "due", "humid", "kept", "layer", "on", "timing", "use"]
