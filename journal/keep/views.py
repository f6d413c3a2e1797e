"""What the store takes in and gives out: frozen values, never rows.

Times are aware datetimes in the offset they were given in, so that the wall time of the shop comes
back; amounts are in the units of the step record; areas in m2; pins in fractions of the upright picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Literal

from journal.record import Clip, Photo, Step, Transcript

Outcome = Literal["under way", "worked", "failed", "given up"]
OUTCOMES: tuple[Outcome, ...] = ("under way", "worked", "failed", "given up")
MouldStatus = Literal["planned", "being made", "in use", "under repair", "retired"]
MOULD_STATUSES: tuple[MouldStatus, ...] = ("planned", "being made", "in use", "under repair", "retired")
NoteState = Literal["kept", "heard", "read", "failed"]
NOTE_STATES: tuple[NoteState, ...] = ("kept", "heard", "read", "failed")
Noun = Literal["mould", "build", "note", "step", "photo", "lot", "device"]


@dataclass(frozen=True, slots=True)
class NewMould:
    """A mould to be kept. `area_m2` is the surface to be laid up; `size` is as people say it."""

    name: str
    pattern: str = ""
    pieces: int = 1
    size: str = ""
    area_m2: float | None = None
    remarks: str = ""


@dataclass(frozen=True, slots=True)
class MouldView:
    """A mould. `key` stands in addresses ("niche"); `builds` counts its makings, `pulls` its castings."""

    id: int
    key: str
    name: str
    pattern: str
    pieces: int
    size: str
    area_m2: float | None
    remarks: str
    status: MouldStatus
    builds: int = 0
    pulls: int = 0


@dataclass(frozen=True, slots=True)
class BuildView:
    """One making of a mould. `key` stands in addresses ("niche-2"); notes, steps and photos are counts."""

    id: int
    key: str
    name: str
    mould_id: int
    mould_key: str
    mould_name: str
    started_at: datetime
    remarks: str
    outcome: Outcome
    outcome_text: str
    outcome_at: datetime | None
    outcome_by: str | None
    notes: int = 0
    steps: int = 0
    photos: int = 0


@dataclass(frozen=True, slots=True)
class NewNote:
    """A note to be kept: a recording (`clip`) or typed `text`, exactly one of the two.

    `client_key` is the sender's own name for it, so that sending again is safe; `arrived_at` is when
    the shop's machine got it (`recorded_at` when not given).
    """

    recorded_at: datetime
    clip: Clip | None = None
    text: str | None = None
    who: str | None = None
    device: str | None = None
    client_key: str | None = None
    arrived_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class NoteView:
    """A note: what was said or typed, and how far it has come.

    `text` is the typed text, or what was heard in the hearing in force, None until heard; `transcript`
    is that hearing (None for typed notes). `error` says why the state is failed, "" otherwise.
    """

    id: int
    build_id: int
    build_key: str
    recorded_at: datetime
    arrived_at: datetime
    who: str | None
    device: str | None
    client_key: str | None
    state: NoteState
    error: str
    clip: Clip | None
    text: str | None
    transcript: Transcript | None
    hearings: int = 0
    readings: int = 0

    @property
    def typed(self) -> bool:
        """Whether the note was typed, so that there is nothing to hear."""
        return self.clip is None


@dataclass(frozen=True, slots=True)
class HearingView:
    """One hearing of a recording; the highest `number` is in force, number 1 is the first."""

    number: int
    heard_at: datetime
    transcript: Transcript


@dataclass(frozen=True, slots=True)
class ReadingView:
    """One reading of a note into steps, as read, before any correction."""

    number: int
    read_at: datetime
    reader_version: str
    in_force: bool
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class StepView:
    """A step in force: as read, or as a person corrected it.

    `record` and `json` hold it as it stands, `first_read` as it was read, untouched. `position` counts
    from 0 within its note; `recorded_at` is that of the note, `act_at` when the act is taken to have
    happened: the start or end that was said, else `recorded_at`.
    """

    id: int
    note_id: int
    build_id: int
    build_key: str
    position: int
    recorded_at: datetime
    act_at: datetime
    record: Step
    json: dict[str, Any]
    first_read: dict[str, Any]
    corrected: bool
    confirmed_by: str | None
    confirmed_at: datetime | None
    withdrawn: bool

    @property
    def confirmed(self) -> bool:
        """Whether a person has said that the step is right."""
        return self.confirmed_at is not None


@dataclass(frozen=True, slots=True)
class NewPhoto:
    """A photo to be kept; `place` names a region of the mould, when the maker said one."""

    photo: Photo
    who: str | None = None
    device: str | None = None
    client_key: str | None = None
    arrived_at: datetime | None = None
    place: str | None = None


@dataclass(frozen=True, slots=True)
class NewPin:
    """A pin to be put on a photo, at fractions of its width and height: a place, or the fault found in a step."""

    x: float
    y: float
    place: str | None = None
    step_id: int | None = None


@dataclass(frozen=True, slots=True)
class PinView:
    """A place or a fault marked on a photo; x and y are fractions of its width and height, from the top left.

    A fault has no place but the step in which it was found, and in `found` what was found.
    """

    place: str | None
    x: float
    y: float
    id: int
    step_id: int | None = None
    found: str = ""

    @property
    def label(self) -> str:
        """What the pin marks, in words."""
        return self.place or self.found


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A photo of a build; `step_id` is the step nearest in time, None when the build has none."""

    id: int
    build_id: int
    build_key: str
    photo: Photo
    who: str | None
    place: str | None
    pins: tuple[PinView, ...]
    step_id: int | None


@dataclass(frozen=True, slots=True)
class NewLot:
    """What a person states about a tin: `amount` in `unit` is what it held when opened."""

    material: str
    number: str
    part: str | None = None
    opened_at: datetime | None = None
    use_by: date | None = None
    amount: float | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class LotView:
    """A lot: what was stated about it, and its uses in steps. `opened_at` is its first use if not stated.

    `id` is None for a lot that was only spoken of.
    """

    id: int | None
    material: str
    part: str | None
    number: str
    opened_at: datetime | None
    use_by: date | None
    amount: float | None
    unit: str | None
    step_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class MaterialInUse:
    """A material named in a build's steps, with the lots spoken of and when it was first used."""

    name: str
    part: str | None
    lots: tuple[str, ...]
    first_at: datetime
    step_ids: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PullView:
    """A casting taken from a mould. `number` is as said; `condition` the observations, as said."""

    step_id: int
    build_key: str
    number: int | None
    at: datetime
    condition: tuple[str, ...]
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FaultView:
    """Something found wrong: its kind of observation, the words, and the places of its step."""

    step_id: int
    note_id: int
    build_key: str
    at: datetime
    kind: str
    text: str
    places: tuple[str, ...]
    on_pull: int | None


@dataclass(frozen=True, slots=True)
class DeviceView:
    """A device that was paired; `seen_at` is when it last asked for anything, to the minute."""

    id: int
    name: str
    paired_at: datetime
    seen_at: datetime
    revoked_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """One entry of the history: who changed what of a noun, when and why; before and after as JSON values."""

    at: datetime
    who: str | None
    noun: Noun
    noun_id: int
    what: str
    why: str
    before: Any
    after: Any


class KeepError(Exception):
    """What the store refuses, in words that say what to do."""


class NotKept(KeepError, LookupError):
    """Nothing is kept under that id or name."""

    def __str__(self) -> str:
        return str(self.args[0]) if self.args else ""


class NameTaken(KeepError):
    """Another mould, build or device has that name already."""


class NotPaired(KeepError):
    """A code that pairs nothing: mistyped, used, or too old."""


class KeyReused(KeepError):
    """A client key came again with different content: one of the two would be lost."""


class FieldError(KeepError, ValueError):
    """A value that a record cannot hold; `field` names it ("materials.0.amount")."""

    def __init__(self, field: str, why: str) -> None:
        super().__init__(f"{field}: {why}")
        self.field = field
        self.why = why
