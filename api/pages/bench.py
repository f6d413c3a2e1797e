"""The bench page: speaks, listens, and shows the last note large; its card of one note by itself."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fastapi import APIRouter
from starlette.responses import Response

from api.context import ShopHere
from api.pages.clocks import clocks_of
from api.pages.forms import Who
from api.pages.plans import bench_part
from api.pages.render import TEMPLATES, render
from api.problems import Problem
from journal.find.first_uses import first_cautions
from journal.keep.views import NoteView
from journal.live import FirstReading
from journal.read.commands import Kind
from journal.record import Flag, Step
from journal.review.values import Row, Value, act, rows
from journal.shop import Shop

router = APIRouter(include_in_schema=False)


@dataclass(frozen=True, slots=True)
class CardStep:
    """A step as the card shows it: its act, status, facts, what is queried, and the places of unsure values."""

    act: Value
    status: str
    rows: tuple[Row, ...]
    flags: tuple[Flag, ...]
    unsure: frozenset[str]


@dataclass(frozen=True, slots=True)
class Card:
    """One note large: its words and steps, or what came of what it commanded.

    `came` is what came of a command or the answer to a question, `queried` whether that asks to be looked at.
    """

    heading: str
    text: str
    steps: tuple[CardStep, ...] = ()
    came: str = ""
    queried: bool = False
    cancelled: bool = False
    trouble: str = ""
    cautions: tuple[str, ...] = ()

    @property
    def query(self) -> bool:
        """Whether anything on the card is to be checked."""
        return self.queried or any(step.flags or step.unsure for step in self.steps)

    @property
    def queries(self) -> str:
        """What is queried, as it is read aloud."""
        whys = [flag.why for step in self.steps for flag in step.flags]
        unsure = [
            f"unsure of {spoken(value)}"
            for step in self.steps
            for row in step.rows
            for value in row.values
            if value.field in step.unsure
        ]
        return ". ".join(dict.fromkeys([*whys, *unsure]))

    @property
    def facts(self) -> str:
        """The steps in one line, as they are read back."""
        return ". ".join(
            ", ".join([f"{step.act.text} {step.status}", *(spoken(v) for row in step.rows for v in row.values)])
            for step in self.steps
        )


def spoken(value: Value) -> str:
    """Return a value in words for the ear."""
    return " ".join(part for part in (value.amount, value.text) if part).replace("\u00a0", " ")


def _steps(steps: Sequence[Step], confirm_below: float) -> tuple[CardStep, ...]:
    return tuple(_step(step, confirm_below) for step in steps)


def _step(step: Step, confirm_below: float) -> CardStep:
    done, facts = act(step), rows(step)
    values = (done, *(value for row in facts for value in row.values))
    unsure = frozenset(value.field for value in values if value.evidence.confidence < confirm_below)
    return CardStep(done, step.status, facts, step.flags, unsure)


def first_card(shop: Shop, first: FirstReading) -> Card:
    """Return the card of a note that is still being spoken, or was just now."""
    kinds = {command.kind for command in first.commands}
    cancelled = bool(kinds & {"cancel"})
    came = first.answer or _first_word(kinds)
    return Card("Just heard", first.text, _steps(first.steps, shop.settings.confirm_below), came, cancelled=cancelled)


def _first_word(kinds: set[Kind]) -> str:
    if "correct" in kinds:
        return "A correction of the last note."
    return "The last note is to be cancelled." if "cancel last" in kinds else ""


def kept_card(shop: Shop, note: NoteView) -> Card:
    """Return the card of a note that is kept."""
    came = shop.store.command_of(note.id) or {}
    steps = [step for step in shop.store.note_steps(note.id) if not step.withdrawn]
    shown = _steps([step.record for step in steps], shop.settings.confirm_below)
    first = first_cautions(shop.store.steps(note.build_id), shop.catalogue)
    return Card(
        heading=f"Note of {note.recorded_at:%H:%M}",
        text=note.text or "",
        steps=shown,
        came=came.get("said", ""),
        queried=bool(came) and not came["applied"],
        cancelled=shop.store.cancelled(note.id) is not None,
        trouble=note.error if note.state == "failed" else "",
        cautions=tuple(dict.fromkeys(text for step in steps for text in first.get(step.id, ()))),
    )


def card_html(card: Card, state: str, note: int | None = None) -> str:
    """Return a card as the page puts it in place; `state` is live, or the note's own."""
    return TEMPLATES.get_template("bench_card.html").render(card=card, state=state, note=note)


@router.get("/builds/{key}/bench")
def bench(shop: ShopHere, key: str, who: Who) -> Response:
    """Show the bench of a build, with its last note."""
    build = shop.store.build(key)
    notes = shop.store.notes(build.id)
    last = notes[-1] if notes else None
    return render(
        "bench.html",
        build=build,
        key=build.key,
        who=who,
        last=last,
        card=kept_card(shop, last) if last else None,
        clocks=clocks_of(shop, build.id, shop.now()),
        most_seconds=shop.settings.max_seconds,
        plan=bench_part(shop, build),
    )


@router.get("/builds/{key}/bench/notes/{note_id}")
def card(shop: ShopHere, key: str, note_id: int) -> Response:
    """Show the card of one note by itself: the page puts it in place of the first one."""
    note = shop.store.note(note_id)
    if note.build_id != shop.store.build(key).id:
        raise Problem(404, f"Note {note_id} is of another build: see /builds/{note.build_key}.")
    return render("bench_card.html", card=kept_card(shop, note), state=note.state, note=note.id)
