"""Turns a template beside the page modules into an answer; everything put into it is escaped."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.exceptions import HTTPException
from starlette.responses import HTMLResponse

from api.pages.changes import told_change
from journal.review import values


def _clock(moment: datetime) -> str:
    return f"{moment:%H:%M}"


def _day(moment: datetime) -> str:
    return f"{moment:%A} {moment.day} {moment:%B %Y}"


def _moment(moment: datetime) -> str:
    return f"{_day(moment)}, {_clock(moment)}"


def _capital(text: str) -> str:
    """Return a text with a capital and the rest as it is; Jinja's own filter makes degC and lot AB-12 small."""
    return text[:1].upper() + text[1:]


def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters |= {
        "clock": _clock,
        "day": _day,
        "moment": _moment,
        "number": values.number,
        "duration": values.duration,
        "measured": values.measured,
        "told": told_change,
        "capitalize": _capital,
    }
    return environment


TEMPLATES = _environment()


def render(template: str, *troubles: HTTPException, told: str = "", **context: Any) -> HTMLResponse:
    """Return the page, with what went wrong at its head; the first trouble gives the status code.

    `here` names the noun whose entry in the main navigation is marked, `told` is good news.
    """
    given = {"here": "", "told": told, "troubles": [trouble.detail for trouble in troubles]} | context
    return HTMLResponse(
        TEMPLATES.get_template(template).render(given),
        status_code=troubles[0].status_code if troubles else 200,
        headers={"cache-control": "no-cache"},
    )
