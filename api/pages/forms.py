"""What page forms have in common: their fields, who filled them in, and where to go afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, TypeVar
from urllib.parse import quote, unquote

from fastapi import Depends, Request
from pydantic import BaseModel, ValidationError
from starlette.responses import RedirectResponse

from api.problems import Problem, first_complaint

WHO_COOKIE = "who"
YEAR_S = 365 * 24 * 3600
S = TypeVar("S", bound=BaseModel)


async def _fields(request: Request) -> Mapping[str, str]:
    async with request.form() as form:
        return {name: value.strip() for name, value in form.items() if isinstance(value, str)}


Fields = Annotated[Mapping[str, str], Depends(_fields)]


def _who(request: Request) -> str:
    return unquote(request.cookies.get(WHO_COOKIE, ""))


Who = Annotated[str, Depends(_who)]
"""Who last filled in a form on this device, so that gloves type it once."""


def filled(shape: type[S], fields: Mapping[str, str], who: str = "") -> S:
    """Return the form as the shape that the API takes, without what was left empty. Raises Problem 422."""
    given = {name: value for name, value in ({"who": who} | dict(fields)).items() if value}
    try:
        return shape.model_validate(given)
    except ValidationError as error:
        raise Problem(422, first_complaint(error.errors())) from error


def go(where: str, who: str | None = None) -> RedirectResponse:
    """Return the way to the page that shows what was done, so that a reload does not do it again."""
    answer = RedirectResponse(where, status_code=303)
    if who:
        answer.set_cookie(WHO_COOKIE, quote(who), max_age=YEAR_S, samesite="lax", httponly=True)
    return answer
