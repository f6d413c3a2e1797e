"""What the stages hand to each other: clips, photos, transcripts and steps.

Everything here is a frozen value. Amounts are exact fractions inside and become plain
numbers only in `step_to_json`. Times are aware datetimes; durations are seconds.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from fractions import Fraction
from typing import Any, Literal

Status = Literal["done", "planned", "advised", "not done"]

ACTIONS = (
    "clean", "seal", "release", "wall", "weigh", "mix", "degas", "thicken", "tint", "pour", "brush",
    "stipple", "spray", "press", "fill", "laminate", "roll", "wet out", "cut", "wait", "cure", "post-cure",
    "check", "trim", "sand", "drill", "polish", "fit", "demould", "repair", "pull", "photograph", "store",
)  # fmt: skip
TIMING_KINDS = (
    "pot life", "gel", "tack", "wait", "mix", "cure", "post-cure", "work", "soak", "demould",
)  # fmt: skip
CLOCK_KINDS = ("start", "end", "due")
CONDITION_UNITS = {
    "temperature": "degC", "humidity": "percent", "vacuum": "mbar", "pressure": "bar",
    "thickness": "mm", "area": "m2", "length": "mm",
}  # fmt: skip
OBSERVATION_KINDS = (
    "void", "pinhole", "bubble", "delamination", "crack", "chip", "tear", "tacky", "soft", "print-through",
    "fisheye", "wrinkle", "warp", "dry glass", "bridging", "blush", "dust", "stuck", "leak", "exotherm",
    "colour", "good", "other",
)  # fmt: skip
FLAG_FIELDS = (
    "amount", "unit", "ratio", "materials", "layers", "timings", "clock", "conditions", "places", "action",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Evidence:
    """Where a value comes from.

    `chars` is [start, end) in the note's text, `audio` seconds in its recording (None for
    typed notes and unplaced words), `confidence` 0 to 1, `rule` the id of the rule that made it.
    """

    heard: str
    chars: tuple[int, int]
    confidence: float = 1.0
    rule: str = ""
    audio: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Flag:
    """What a careful foreman would query: the field it lands in, and why."""

    field: str
    why: str


@dataclass(frozen=True, slots=True)
class MaterialUse:
    """A material named in a step, with or without an amount.

    `amount` is in `unit` (g, ml, percent, m2, mm or count); `amount_most` is the upper end
    when a range was said.
    """

    name: str
    evidence: Evidence
    part: str | None = None
    amount: Fraction | None = None
    amount_most: Fraction | None = None
    unit: str | None = None
    lot: str | None = None


@dataclass(frozen=True, slots=True)
class Ratio:
    """Parts in the order main : second (resin : hardener); `by` is weight, volume or None."""

    parts: tuple[Fraction, ...]
    evidence: Evidence
    by: str | None = None
    derived: bool = False


@dataclass(frozen=True, slots=True)
class Layer:
    """Layers or coats of one thing; `gsm` is the areal weight in g/m2."""

    name: str
    evidence: Evidence
    count: Fraction | None = None
    gsm: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Timing:
    """A duration of a kind in TIMING_KINDS: least and most seconds, None for an open end."""

    kind: str
    least: Fraction | None
    most: Fraction | None
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class ClockTime:
    """A point in time of a kind in CLOCK_KINDS."""

    kind: str
    at: datetime
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Condition:
    """A measured state in the unit of CONDITION_UNITS; `of` says of what, when said."""

    kind: str
    value: Fraction
    unit: str
    evidence: Evidence
    of: str | None = None


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words kept as said: a place, reason, cue or warning."""

    text: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Observation:
    """What was seen or felt, of a kind in OBSERVATION_KINDS."""

    kind: str
    text: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Step:
    """One act of the trade, as read from one note."""

    action: str
    status: Status
    evidence: Evidence
    materials: tuple[MaterialUse, ...] = ()
    ratio: Ratio | None = None
    layers: tuple[Layer, ...] = ()
    timings: tuple[Timing, ...] = ()
    clock: tuple[ClockTime, ...] = ()
    conditions: tuple[Condition, ...] = ()
    places: tuple[Phrase, ...] = ()
    reasons: tuple[Phrase, ...] = ()
    cues: tuple[Phrase, ...] = ()
    warnings: tuple[Phrase, ...] = ()
    observations: tuple[Observation, ...] = ()
    flags: tuple[Flag, ...] = ()
    pull: int | None = None
    who: str | None = None


@dataclass(frozen=True, slots=True)
class Word:
    """One heard word: `chars` in the transcript's text, seconds in the recording, probability 0 to 1."""

    text: str
    chars: tuple[int, int]
    start_s: float
    end_s: float
    probability: float


@dataclass(frozen=True, slots=True)
class Alternative:
    """Another hearing of the same recording, with its average log probability per token."""

    text: str
    words: tuple[Word, ...]
    log_probability: float
    source: str = ""


@dataclass(frozen=True, slots=True)
class Transcript:
    """What was heard in a recording. An empty text means that no speech was found."""

    text: str
    words: tuple[Word, ...] = ()
    alternatives: tuple[Alternative, ...] = ()
    log_probability: float = 0.0
    duration_s: float = 0.0
    model: str = ""
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Clip:
    """A recording as it was taken in. `sha256` names its original bytes; `warnings` say what may be missing."""

    sha256: str
    media_type: str
    size_bytes: int
    duration_s: float
    recorded_at: datetime
    time_source: Literal["given", "file", "arrival"]
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture as it was taken in; width and height are those of the upright picture, in pixels."""

    sha256: str
    media_type: str
    size_bytes: int
    width: int
    height: int
    taken_at: datetime
    time_source: Literal["given", "file", "arrival"]
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NoteText:
    """What the reader is given: the words of one note, when it was recorded, and how it was heard.

    `transcript` is None for typed notes. `locale` (en-GB, en-US) sets the dialect of units.
    """

    text: str
    recorded_at: datetime | None = None
    locale: str = "en-GB"
    transcript: Transcript | None = field(default=None)


def _number(value: Fraction | None) -> float | None:
    return None if value is None else float(value)


def _evidence(evidence: Evidence) -> dict[str, Any]:
    out: dict[str, Any] = {"heard": evidence.heard, "chars": list(evidence.chars)}
    if evidence.audio is not None:
        out["audio"] = [round(second, 2) for second in evidence.audio]
    return out | {"confidence": round(evidence.confidence, 3), "rule": evidence.rule}


def _present(**values: Any) -> dict[str, Any]:
    return {key: value for key, value in values.items() if value is not None}


def _material_to_json(use: MaterialUse) -> dict[str, Any]:
    return {
        "name": use.name,
        **_present(
            part=use.part, amount=_number(use.amount), amount_most=_number(use.amount_most),
            unit=use.unit, lot=use.lot,
        ),
        **_evidence(use.evidence),
    }  # fmt: skip


def _ratio_to_json(ratio: Ratio) -> dict[str, Any]:
    out = {"parts": [float(p) for p in ratio.parts], "by": ratio.by}
    return out | ({"derived": True} if ratio.derived else {}) | _evidence(ratio.evidence)


def _phrases(phrases: tuple[Phrase, ...]) -> list[dict[str, Any]]:
    return [{"text": p.text} | _evidence(p.evidence) for p in phrases]


def step_to_json(step: Step) -> dict[str, Any]:
    """Return the step as the JSON object of the step record's contract; every value carries its evidence."""
    return {
        "action": step.action,
        "status": step.status,
        "materials": [_material_to_json(m) for m in step.materials],
        **({"ratio": _ratio_to_json(step.ratio)} if step.ratio else {}),
        "layers": [
            {"name": x.name, "count": _number(x.count), "gsm": _number(x.gsm)} | _evidence(x.evidence)
            for x in step.layers
        ],
        "timings": [
            {"kind": t.kind, "seconds": [_number(t.least), _number(t.most)]} | _evidence(t.evidence)
            for t in step.timings
        ],
        "clock": [{"kind": c.kind, "at": c.at.isoformat()} | _evidence(c.evidence) for c in step.clock],
        "conditions": [
            {"kind": c.kind, "value": float(c.value), "unit": c.unit} | _present(of=c.of) | _evidence(c.evidence)
            for c in step.conditions
        ],
        "places": _phrases(step.places),
        "reasons": _phrases(step.reasons),
        "cues": _phrases(step.cues),
        "warnings": _phrases(step.warnings),
        "observations": [{"kind": o.kind, "text": o.text} | _evidence(o.evidence) for o in step.observations],
        "flags": [{"field": f.field, "why": f.why} for f in step.flags],
        **_present(pull=step.pull, who=step.who),
        **_evidence(step.evidence),
    }


def _exact(value: float) -> Fraction:
    """Return the fraction a plain number stands for: thirds and the like come back, decimals stay decimal."""
    simple = Fraction(value).limit_denominator(1000)
    return simple if float(simple) == value else Fraction(repr(value))


def _exact_or_none(value: float | None) -> Fraction | None:
    return None if value is None else _exact(value)


def _evidence_from(record: dict[str, Any]) -> Evidence:
    chars, audio = record["chars"], record.get("audio")
    return Evidence(
        heard=record["heard"],
        chars=(chars[0], chars[1]),
        confidence=record["confidence"],
        rule=record["rule"],
        audio=None if audio is None else (audio[0], audio[1]),
    )


def _material_from(record: dict[str, Any]) -> MaterialUse:
    return MaterialUse(
        name=record["name"],
        evidence=_evidence_from(record),
        part=record.get("part"),
        amount=_exact_or_none(record.get("amount")),
        amount_most=_exact_or_none(record.get("amount_most")),
        unit=record.get("unit"),
        lot=record.get("lot"),
    )


def _ratio_from(record: dict[str, Any]) -> Ratio:
    parts = tuple(_exact(part) for part in record["parts"])
    return Ratio(parts, _evidence_from(record), record["by"], record.get("derived", False))


def _layer_from(record: dict[str, Any]) -> Layer:
    count, gsm = _exact_or_none(record["count"]), _exact_or_none(record["gsm"])
    return Layer(record["name"], _evidence_from(record), count, gsm)


def _timing_from(record: dict[str, Any]) -> Timing:
    least, most = (_exact_or_none(second) for second in record["seconds"])
    return Timing(record["kind"], least, most, _evidence_from(record))


def _clock_from(record: dict[str, Any]) -> ClockTime:
    return ClockTime(record["kind"], datetime.fromisoformat(record["at"]), _evidence_from(record))


def _condition_from(record: dict[str, Any]) -> Condition:
    value = _exact(record["value"])
    return Condition(record["kind"], value, record["unit"], _evidence_from(record), record.get("of"))


def _phrases_from(records: list[dict[str, Any]]) -> tuple[Phrase, ...]:
    return tuple(Phrase(record["text"], _evidence_from(record)) for record in records)


def step_from_json(record: dict[str, Any]) -> Step:
    """Return the step that `step_to_json` made this object of; KeyError when it is not such an object."""
    return Step(
        action=record["action"],
        status=record["status"],
        evidence=_evidence_from(record),
        materials=tuple(_material_from(m) for m in record["materials"]),
        ratio=_ratio_from(record["ratio"]) if "ratio" in record else None,
        layers=tuple(_layer_from(x) for x in record["layers"]),
        timings=tuple(_timing_from(t) for t in record["timings"]),
        clock=tuple(_clock_from(c) for c in record["clock"]),
        conditions=tuple(_condition_from(c) for c in record["conditions"]),
        places=_phrases_from(record["places"]),
        reasons=_phrases_from(record["reasons"]),
        cues=_phrases_from(record["cues"]),
        warnings=_phrases_from(record["warnings"]),
        observations=tuple(Observation(o["kind"], o["text"], _evidence_from(o)) for o in record["observations"]),
        flags=tuple(Flag(f["field"], f["why"]) for f in record["flags"]),
        pull=record.get("pull"),
        who=record.get("who"),
    )
