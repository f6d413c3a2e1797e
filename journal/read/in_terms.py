"""A bare number as what it corrects: "ten minutes, no, twenty" is twenty minutes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from journal.read.findings import Amount, ConditionSaid, Duration, Findings, Found, LayerSaid, Moment, RatioSaid


def _number_in(found: Findings, item: Found) -> Fraction | None:
    inside = [n for n in found.of("number") if item.start <= n.start and n.end <= item.end]
    return inside[0].value.low if inside else None


def in_terms_of(found: Findings, old: Found, new: Found) -> Found:
    """Return a bare number as what it corrects: minutes, grams, parts, layers; else the new finding itself."""
    if new.kind == "areal" and old.kind == "layer":
        value: Any = replace(old.value, gsm=new.value.gsm)
    elif new.kind == old.kind == "layer" and new.value.name is None:  # "two layers of tissue, scratch that, one layer"
        value = replace(old.value, count=new.value.count or old.value.count, gsm=new.value.gsm or old.value.gsm)
    elif new.kind == old.kind == "condition" and new.value.kind == old.value.kind and new.value.of is None:
        value = replace(new.value, of=old.value.of)  # "shop was 18, no, 19 degrees"
    elif new.kind == old.kind == "moment" and new.value.hour is None and new.value.offset_s is None:
        value = replace(new.value, hour=old.value.hour, half=old.value.half)  # "ten past two, no, twenty past"
    elif new.kind in ("number", "amount") and getattr(new.value, "unit", None) is None:
        value = _converted(old, new, _number_in(found, old))
    else:
        return new
    if value is None:
        return new
    return Found(old.kind, new.start, new.end, value, f"{old.rule}+repairs.bare", min(old.confidence, new.confidence))


def _converted(old: Found, new: Found, said: Fraction | None) -> Any:
    """Return the old finding's value with the new number; `said` is the number that was said in the old one."""
    low, high, value = new.value.low, new.value.high, old.value
    if old.kind == "layer":
        return _layer(value, low)
    if old.kind == "ratio" and len(value.parts) == 2:
        return RatioSaid((value.parts[0], low), value.by)
    if not said:
        return None
    if old.kind == "amount" and value.unit:
        return Amount(low * value.low / said, high * value.low / said, value.unit, value.said_unit)
    if old.kind == "moment" and value.hour is not None:
        return _moment(value, low)
    if old.kind == "duration" and (value.least or value.most):
        by = (value.least or value.most) / said
        return Duration(low * by, high * by, value.hint)
    return replace(value, value=_condition(value, low, said)) if old.kind == "condition" else None


def _condition(old: ConditionSaid, low: Fraction, said: Fraction) -> Fraction:
    """Return the new number in the record's unit: the old value tells what one of the unit that was said is."""
    if old.value == said:
        return low
    if old.kind == "temperature":
        return old.value + (low - said) * Fraction(5, 9)
    return old.value * low / said


def _layer(old: LayerSaid, number: Fraction) -> LayerSaid:
    if old.gsm is not None and number >= 100:
        return replace(old, gsm=number)
    return replace(old, count=number)


def _moment(old: Moment, number: Fraction) -> Moment | None:
    """Return the hour anew, or the minutes where such were said: "at ten, no, eleven", "nine forty, no, fifty"."""
    if number.denominator != 1 or old.hour is None:
        return None
    if 100 <= number < 1260 and number % 100 < 60:  # "at one, no, ten thirty"
        return replace(old, hour=int(number) // 100, minute=int(number) % 100)
    if number > 59:
        return None
    if number <= 12 and not old.minute:
        return replace(old, hour=int(number) + (12 if old.hour > 12 and number < 12 else 0))
    return replace(old, minute=int(number)) if old.minute else None
