"""A reader for the tests, with the catalogue that every shop starts with, and a short way to write steps."""

from datetime import datetime
from functools import cache
from importlib.resources import files

from journal.read.catalogue import catalogue_from_toml
from journal.read.language import load_language
from journal.read.reader import Reader
from journal.read.recall import EMPTY, Memory
from journal.record import NoteText, Step

RECORDED = datetime.fromisoformat("2026-05-04T14:10:00+01:00")


@cache
def reader() -> Reader:
    return Reader(load_language(), catalogue_from_toml(files("journal").joinpath("catalogue.toml").read_text("utf-8")))


def steps(text: str, memory: Memory = EMPTY, locale: str = "en-GB") -> tuple[Step, ...]:
    return reader().read(NoteText(text, RECORDED, locale), memory).steps


def build(*texts: str) -> tuple[Step, ...]:
    """Read notes of one build in order; return the steps of the last."""
    memory, last = EMPTY, ()
    for text in texts:
        reading = reader().read(NoteText(text, RECORDED), memory)
        memory, last = reading.memory, reading.steps
    return last


def weighed(step: Step) -> list[tuple[str, float | None, str | None]]:
    """Return (name, amount, unit) of the materials that have an amount."""
    return [(m.name, float(m.amount), m.unit) for m in step.materials if m.amount is not None]


def laid(step: Step) -> list[tuple[str, float | None, float | None]]:
    """Return (name, count, gsm) of the layers, weights rounded."""
    return [
        (x.name, None if x.count is None else float(x.count), None if x.gsm is None else round(float(x.gsm)))
        for x in step.layers
    ]


def flagged(step: Step) -> set[str]:
    return {flag.field for flag in step.flags}
