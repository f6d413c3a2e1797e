"""Errors as one line that says what to do: problem details (RFC 9457) for programs, a page for people."""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from functools import partial
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from pydantic import BaseModel
from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse, Response
from starlette.types import Scope

from api.pages.render import render
from api.shapes.examples import example
from journal.flow import USER_ERRORS
from journal.keep.arriving import NotJoined, TooLarge, TooMuchArriving
from journal.keep.media import MediaMissing
from journal.keep.views import KeyReused, NameTaken, NotKept

log = logging.getLogger(__name__)


class Problem(HTTPException):
    """What went wrong and what to do about it, on one line, with its status code."""


class ProblemDetails(BaseModel):
    """An error: its status code, the code's name, and one line that says what to do."""

    model_config = example({"status": 404, "title": "Not Found", "detail": "There is no build 'b9': see /api/builds."})

    status: int
    title: str
    detail: str


REFUSALS = (HTTPException, *USER_ERRORS)
"""What a person can mend, whoever raised it."""
CODES: tuple[tuple[type[Exception], int], ...] = (
    (NotKept, 404),
    (MediaMissing, 404),
    (NameTaken, 409),
    (KeyReused, 409),
    (NotJoined, 412),
    (TooLarge, 413),
    (TooMuchArriving, 507),
)


def problem_of(error: Exception) -> Problem:
    """Return the problem of a refusal: its words as they are, and the code of its kind (422 when none fits)."""
    if isinstance(error, HTTPException):
        return Problem(error.status_code, error.detail, dict(error.headers or {}))
    code = next((code for kind, code in CODES if isinstance(error, kind)), 422)
    return Problem(code, str(error))


def problems(*codes: int) -> dict[int | str, dict[str, Any]]:
    """Return the `responses` of a route that may answer with these codes."""
    return {code: {"model": ProblemDetails, "description": HTTPStatus(code).phrase} for code in codes}


def problem_response(scope: Scope, problem: HTTPException) -> Response:
    """Return the problem as JSON under /api and as a page elsewhere."""
    title = HTTPStatus(problem.status_code).phrase
    if not scope["path"].startswith(("/api/", "/static/")):
        return render(
            "problem.html", Problem(problem.status_code, problem.detail), title=title, code=problem.status_code
        )
    body = ProblemDetails(status=problem.status_code, title=title, detail=str(problem.detail))
    return JSONResponse(
        body.model_dump(),
        status_code=problem.status_code,
        headers=dict(problem.headers or {}),
        media_type="application/problem+json",
    )


def first_complaint(errors: Sequence[Any]) -> str:
    """Return the first thing that pydantic finds wrong, as one line."""
    first = errors[0]
    where = ".".join(str(part) for part in first["loc"] if part not in {"body", "query", "path"}) or "body"
    return f"{where}: {first['msg'][:1].lower()}{first['msg'][1:]}. Correct it and send it again."


def _described(stock: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    """Return the stock description with every refusal as what it is; it would call them plain JSON."""
    schema = stock()
    content = {"application/problem+json": {"schema": {"$ref": "#/components/schemas/ProblemDetails"}}}
    for path in schema["paths"].values():
        for operation in path.values():
            for code, answer in operation["responses"].items():
                if code.startswith("4"):
                    answer["content"] = content
    for unused in ("HTTPValidationError", "ValidationError"):
        schema["components"]["schemas"].pop(unused, None)
    return schema


def answer_with_problems(app: FastAPI) -> None:
    """Make the app answer every error as a problem."""

    async def refused(request: Request, error: Exception) -> Response:
        problem = problem_of(error)
        if problem.detail == HTTPStatus(problem.status_code).phrase:  # the framework's own: says nothing to do
            problem.detail = (
                f"{request.method} {request.url.path} is not served here: see /moulds or /api/openapi.json."
            )
        return problem_response(request.scope, problem)

    async def invalid(request: Request, error: Exception) -> Response:
        assert isinstance(error, RequestValidationError)
        return problem_response(request.scope, Problem(422, first_complaint(error.errors())))

    async def broken(request: Request, error: Exception) -> Response:
        log.error("%s %s broke", request.method, request.url.path, exc_info=error)
        detail = "Something broke here. What was recorded is kept; the server's log says what happened."
        return problem_response(request.scope, Problem(500, detail))

    app.openapi = partial(_described, app.openapi)  # type: ignore[method-assign]
    for kind in REFUSALS:
        app.add_exception_handler(kind, refused)
    app.add_exception_handler(RequestValidationError, invalid)
    app.add_exception_handler(Exception, broken)
