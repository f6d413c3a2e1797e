"""Examples for OpenAPI, from the invented demo workshop."""

from __future__ import annotations

from typing import Any

from pydantic import ConfigDict


def example(value: Any) -> ConfigDict:
    """Return the model configuration that carries this example into OpenAPI."""
    return ConfigDict(json_schema_extra={"example": value})


SHA256 = "2c26b46b68ffc68ff99b453c1d30413413422d706483bfa0f98a5e886266e7ae"
SAID_AT = "2026-04-13T13:12:00+01:00"
TEXT = "Mixed seven hundred grams of polyester gel coat with fourteen grams of catalyst."
MOULD = {
    "id": 1, "key": "niche", "name": "Scallop-shell niche", "pattern": "Carved pattern of a theatre-box niche",
    "pieces": 2, "size": "1.2 m high, 0.9 m wide", "area_m2": 1.4, "remarks": "", "status": "in use",
    "builds": 3, "pulls": 2,
}  # fmt: skip
BUILD = {
    "id": 2, "key": "niche-2", "name": "Niche 2", "mould_key": "niche", "mould_name": "Scallop-shell niche",
    "started_at": "2026-04-13T08:20:00+01:00", "remarks": "", "outcome": "worked",
    "outcome_text": "Clean release, in use", "outcome_at": "2026-04-24T11:10:00+01:00",
    "outcome_by": "lead maker", "notes": 16, "steps": 24, "photos": 3,
}  # fmt: skip
NOTE = {
    "id": 14, "build_key": "niche-2", "recorded_at": SAID_AT, "arrived_at": "2026-04-13T13:12:09+01:00",
    "who": "lead maker", "device": "bench phone", "client_key": "5f0c6a1e", "state": "read", "error": "",
    "clip": {
        "sha256": SHA256, "media_type": "audio/ogg", "size_bytes": 41203, "duration_s": 6.2, "time_source": "given",
        "warnings": [],
    },
    "text": TEXT,
    "transcript": {
        "text": TEXT, "duration_s": 6.2, "model": "base int8", "doubts": [],
        "words": [{"text": "Mixed", "chars": [0, 5], "start_s": 0.1, "end_s": 0.44, "probability": 0.98}],
    },
}  # fmt: skip
GEL_COAT = {
    "name": "polyester gel coat", "amount": 700.0, "unit": "g", "heard": "seven hundred grams of polyester gel coat",
    "chars": [6, 47], "audio": [0.44, 2.9], "confidence": 0.96, "rule": "amount.of",
}  # fmt: skip
CATALYST = {
    "name": "catalyst", "amount": 14.0, "unit": "g", "heard": "fourteen grams of catalyst",
    "chars": [53, 79], "audio": [3.1, 4.6], "confidence": 0.94, "rule": "amount.of",
}  # fmt: skip
RECORD = {
    "action": "mix", "status": "done", "materials": [GEL_COAT, CATALYST],
    "ratio": {
        "parts": [100.0, 2.0], "by": "weight", "derived": True, "heard": TEXT[6:79], "chars": [6, 79],
        "audio": [0.44, 4.6], "confidence": 0.94, "rule": "ratio.derived",
    },
    "flags": [], "heard": "Mixed", "chars": [0, 5], "audio": [0.1, 0.44], "confidence": 0.97, "rule": "act.verb",
}  # fmt: skip
STEP = {
    "id": 31, "note_id": 14, "build_key": "niche-2", "position": 0, "recorded_at": SAID_AT, "act_at": SAID_AT,
    "record": RECORD, "first_read": RECORD,
    "corrected": False, "confirmed_by": None, "confirmed_at": None, "withdrawn": False,
}  # fmt: skip
PIN = {"id": 2, "place": "left scroll", "step_id": None, "label": "left scroll", "x": 0.31, "y": 0.52}
PHOTO = {
    "id": 4, "build_key": "niche-2", "who": None, "place": "left half",
    "photo": {
        "sha256": SHA256, "media_type": "image/jpeg", "size_bytes": 812345, "width": 3024, "height": 4032,
        "taken_at": "2026-04-13T13:25:00+01:00", "time_source": "file", "warnings": [],
    },
    "pins": [PIN], "step_id": 31,
}  # fmt: skip
CHANGE = {
    "at": "2026-04-13T14:02:00+01:00", "who": "second maker", "noun": "step", "noun_id": 31, "what": "corrected",
    "why": "the scale said 720", "before": {"materials.0.amount": 700.0}, "after": {"materials.0.amount": 720.0},
}  # fmt: skip
UPLOAD = {"received": 24576, "note_id": None, "photo_id": None, "sha256": None}
PROGRESS = {"notes": [{"id": 14, "state": "heard", "finished": False, "entry": "/builds/niche-2/notes/14"}]}
HIT = {
    "noun": "step", "noun_id": 31, "build_key": "niche-2", "build_name": "Niche 2", "mould_key": "niche",
    "mould_name": "Scallop-shell niche", "outcome": "worked", "at": SAID_AT, "note_id": 14, "step_id": 31,
    "action": "mix", "snippet": [["Mixed seven hundred grams of polyester ", False], ["gel coat", True]],
    "audio": [0.44, 2.9], "score": 3.2, "exact": True,
}  # fmt: skip
FAULT = {
    "step_id": 40, "note_id": 20, "build_key": "niche-2", "at": "2026-05-08T15:20:00+01:00", "kind": "chip",
    "text": "small chip", "places": ["right scroll"], "on_pull": 2,
}  # fmt: skip
PULL = {
    "step_id": 40, "build_key": "niche-2", "number": 2, "at": "2026-05-08T15:20:00+01:00",
    "condition": ["small chip"], "faults": ["chip"],
}  # fmt: skip
