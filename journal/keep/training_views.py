"""What the store takes in and gives out of training: frozen values. Times are aware datetimes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

Verdict = Literal["signed", "taken back"]


@dataclass(frozen=True, slots=True)
class NewTest:
    """A self-test as it was marked: `answers` are JSON objects with `kind`, `right` and whatever else is shown."""

    apprentice: str
    builds: tuple[str, ...]
    seed: int
    answers: tuple[dict[str, Any], ...]


@dataclass(frozen=True, slots=True)
class TestView:
    """A self-test that was taken: `asked` questions, `right` answers. `build_key` is the first of `builds`."""

    __test__ = False  # pytest takes it for a test else

    id: int
    apprentice: str
    build_key: str
    builds: tuple[str, ...]
    seed: int
    asked: int
    right: int
    answers: tuple[dict[str, Any], ...]
    taken_at: datetime


@dataclass(frozen=True, slots=True)
class NewSignOff:
    """A maker's word on acts of a build: `items` are (stage, item) as the training sheet names them."""

    apprentice: str
    maker: str
    items: tuple[tuple[str, str], ...]
    verdict: Verdict = "signed"
    remarks: str = ""


@dataclass(frozen=True, slots=True)
class SignOffView:
    """One entry of what was signed off, or taken back."""

    id: int
    apprentice: str
    build_key: str
    stage: str
    item: str
    verdict: Verdict
    maker: str
    remarks: str
    signed_at: datetime
