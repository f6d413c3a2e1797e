"""Corrections of a step record: a person's values go in, what was heard stays. Pure.

A record is checked as a whole after the changes, against the contract of the step record.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field, ValidationError, model_validator

from journal.keep.views import FieldError
from journal.record import (
    ACTIONS,
    CLOCK_KINDS,
    CONDITION_UNITS,
    FLAG_FIELDS,
    OBSERVATION_KINDS,
    TIMING_KINDS,
    step_from_json,
    step_to_json,
)

BY_HAND = "person.corrected"
UNITS = ("g", "ml", "percent", "m2", "mm", "count")
_EVIDENCE = ("heard", "chars", "audio", "confidence", "rule")
_LISTS = (
    "materials", "layers", "timings", "clock", "conditions", "places", "reasons", "cues", "warnings",
    "observations",
)  # fmt: skip
_SETTLES = {"materials": {"materials", "amount", "unit"}}

Text = Annotated[str, Field(min_length=1, max_length=2000, pattern=r"\S")]
Name = Annotated[str, Field(min_length=1, max_length=200, pattern=r"\S")]
Number = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]


def _one_of(values: tuple[str, ...]) -> AfterValidator:
    def check(value: str) -> str:
        if value not in values:
            raise ValueError(f"{value!r} is none of: {', '.join(values)}")
        return value

    return AfterValidator(check)


class _Checked(BaseModel):
    model_config = ConfigDict(extra="forbid", str_strip_whitespace=True)


class _Evident(_Checked):
    heard: str = ""
    chars: tuple[int, int] = (0, 0)
    audio: tuple[float, float] | None = None
    confidence: float = Field(1.0, ge=0, le=1)
    rule: str = BY_HAND


class _Material(_Evident):
    name: Name
    part: Name | None = None
    amount: Number | None = None
    amount_most: Number | None = None
    unit: Annotated[str, _one_of(UNITS)] | None = None
    lot: Name | None = None


class _Ratio(_Evident):
    parts: list[Positive] = Field(min_length=2, max_length=9)
    by: Literal["weight", "volume"] | None = None
    derived: bool = False


class _Layer(_Evident):
    name: Name
    count: Number | None = None
    gsm: Positive | None = None


class _Timing(_Evident):
    kind: Annotated[str, _one_of(TIMING_KINDS)]
    seconds: tuple[Number | None, Number | None]

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        least, most = self.seconds
        if least is None and most is None:
            raise ValueError("seconds: give the least, the most, or both")
        if least is not None and most is not None and least > most:
            raise ValueError("seconds: the least is more than the most")
        return self


class _Clock(_Evident):
    kind: Annotated[str, _one_of(CLOCK_KINDS)]
    at: AwareDatetime


class _Condition(_Evident):
    kind: Annotated[str, _one_of(tuple(CONDITION_UNITS))]
    value: Annotated[float, Field(allow_inf_nan=False)]
    unit: str
    of: Name | None = None

    @model_validator(mode="after")
    def _in_its_unit(self) -> Self:
        if self.unit != CONDITION_UNITS[self.kind]:
            raise ValueError(f"unit: {self.kind} is given in {CONDITION_UNITS[self.kind]}")
        return self


class _Phrase(_Evident):
    text: Text


class _Observation(_Evident):
    kind: Annotated[str, _one_of(OBSERVATION_KINDS)]
    text: Text


class _Flag(_Checked):
    field: Annotated[str, _one_of(FLAG_FIELDS)]
    why: Text


class StepRecord(_Evident):
    """The contract of a step record, against which a correction and what is brought in are checked."""

    action: Annotated[str, _one_of(ACTIONS)]
    status: Literal["done", "planned", "advised", "not done"]
    materials: list[_Material] = []
    ratio: _Ratio | None = None
    layers: list[_Layer] = []
    timings: list[_Timing] = []
    clock: list[_Clock] = []
    conditions: list[_Condition] = []
    places: list[_Phrase] = []
    reasons: list[_Phrase] = []
    cues: list[_Phrase] = []
    warnings: list[_Phrase] = []
    observations: list[_Observation] = []
    flags: list[_Flag] = []
    pull: Annotated[int, Field(gt=0)] | None = None
    who: Name | None = None


def corrected(record: dict[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """Return the record with the changes in it; see `Store.correct_step` for their form.

    Flags on the corrected fields are settled by the correction and go, where it is clear which value
    they were about; `flags` among the changes sets them outright. Raises FieldError.
    """
    if not changes:
        raise FieldError("changes", "are empty: name a field and its new value")
    changed = deepcopy(record)
    removed: list[tuple[list[Any], Any]] = []
    for path, value in changes.items():
        _put(changed, path, deepcopy(value), removed)
    for items, item in removed:
        items[:] = [each for each in items if each is not item]
    checked = _checked(_with_phrases(changed))
    _keep_evidence(record, checked)
    if "ratio" not in changes and _is_stale_ratio(record, checked):
        del checked["ratio"]
    if "flags" not in changes:
        settled = set().union(*(_settled(record, path) for path in changes))
        checked["flags"] = [flag for flag in checked["flags"] if flag["field"] not in settled]
    return step_to_json(step_from_json(checked))


def _is_stale_ratio(before: dict[str, Any], after: dict[str, Any]) -> bool:
    """Tell whether a ratio was worked out from amounts that are no longer those."""
    amounts = [[(use["name"], use.get("amount"), use.get("unit")) for use in r["materials"]] for r in (before, after)]
    return bool(after.get("ratio", {}).get("derived")) and amounts[0] != amounts[1]


def _put(record: dict[str, Any], path: str, value: Any, removed: list[tuple[list[Any], Any]]) -> None:
    top, *rest = path.split(".")
    if top not in StepRecord.model_fields or set(_EVIDENCE) & {top, *rest}:
        known = ", ".join(name for name in StepRecord.model_fields if name not in _EVIDENCE)
        raise FieldError(path, f"is not a field that can be corrected; those are: {known}")
    if not rest:
        record[top] = [] if value is None and top in _LISTS else value
        return
    holder: Any = record
    for name in (top, *rest[:-1]):
        holder = _inside(holder, name, path)
    if isinstance(holder, list):
        _put_item(holder, path, value, removed)
    elif isinstance(holder, dict):
        holder[rest[-1]] = value
    else:
        raise FieldError(path, f"the step has no {rest[-1]} there")


def _inside(holder: Any, name: str, path: str) -> Any:
    try:
        return holder[int(name)] if isinstance(holder, list) else holder[name]
    except (KeyError, IndexError, ValueError, TypeError) as error:
        raise FieldError(path, f"the step has no {name} there") from error


def _put_item(items: list[Any], path: str, value: Any, removed: list[tuple[list[Any], Any]]) -> None:
    last = path.split(".")[-1]
    if not (last.isascii() and last.isdigit() and int(last) <= len(items)):
        raise FieldError(path, f"give a position from 0 to {len(items)}")
    if value is None and int(last) < len(items):
        removed.append((items, items[int(last)]))  # taken out at the end: positions must not shift
    elif int(last) < len(items):
        items[int(last)] = value
    else:
        items.append(value)


def _with_phrases(record: dict[str, Any]) -> dict[str, Any]:
    """Let a place or a reason be given as plain text."""
    for name in ("places", "reasons", "cues", "warnings"):
        if isinstance(record[name], list):
            record[name] = [{"text": p} if isinstance(p, str) else p for p in record[name]]
    return record


def _checked(record: dict[str, Any]) -> dict[str, Any]:
    try:
        dumped = StepRecord.model_validate(record).model_dump()
    except ValidationError as error:
        first = error.errors()[0]
        raise FieldError(".".join(map(str, first["loc"])), _plain(first["msg"])) from error
    for clock in dumped["clock"]:
        clock["at"] = clock["at"].isoformat()
    if dumped["ratio"] is None:
        del dumped["ratio"]
    return dumped


def _plain(message: str) -> str:
    message = message.removeprefix("Value error, ")
    return message[:1].lower() + message[1:]


def _keep_evidence(before: dict[str, Any], after: dict[str, Any]) -> None:
    """Give each value the evidence it had; a value that a person altered or added says so."""
    for name in _LISTS:
        for item in after[name]:
            _evidence_of(item, before[name])
    if "ratio" in after:
        _evidence_of(after["ratio"], [before["ratio"]] if "ratio" in before else [])
    for name in _EVIDENCE:
        after[name] = before.get(name)


def _evidence_of(item: dict[str, Any], olds: list[dict[str, Any]]) -> None:
    old = _ancestor(item, olds)
    unaltered = old is not None and _facts(old) == _facts(item)
    item["heard"] = old["heard"] if old else ""
    item["chars"] = old["chars"] if old else (0, 0)
    item["audio"] = old.get("audio") if old else None
    item["confidence"] = old["confidence"] if old and unaltered else 1.0
    item["rule"] = old["rule"] if old and unaltered else BY_HAND


def _ancestor(item: dict[str, Any], olds: list[dict[str, Any]]) -> dict[str, Any] | None:
    """Return the old value that this one came from: the same words heard, else the same name."""
    same_words = [
        old
        for old in olds
        if item["heard"] and (old["heard"], tuple(old["chars"])) == (item["heard"], tuple(item["chars"]))
    ]
    same_facts = [old for old in olds if _facts(old) == _facts(item)]
    same_name = [old for old in olds if _called(old) == _called(item)]
    # Two values may share their words ("400 of A and B"); the name then tells them apart.
    both = [old for old in same_words if old in same_name]
    found = both or same_words or same_facts or same_name
    return found[0] if found else None


def _called(item: dict[str, Any]) -> tuple[Any, ...]:
    key = next((name for name in ("name", "kind", "text") if name in item), "by")
    return (item.get(key), item.get("part"))


def _facts(item: dict[str, Any]) -> dict[str, Any]:
    facts = {name: value for name, value in item.items() if name not in _EVIDENCE and value is not None}
    return {name: list(v) if isinstance(v, tuple) else v for name, v in facts.items() if v is not False}


def _settled(record: dict[str, Any], path: str) -> set[str]:
    top, *rest = path.split(".")
    if not rest:
        return _SETTLES.get(top, {top})
    items = record.get(top)
    if isinstance(items, list) and len(items) > 1:
        return set()  # which of them the flag was about cannot be told: it stays
    return {rest[-1], top} if rest[-1] in ("amount", "unit") else _SETTLES.get(top, {top})
