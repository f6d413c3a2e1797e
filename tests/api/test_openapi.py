"""The API describes itself fully: each route says what it is for, what it answers, and gives an example."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import BaseModel

from api.app import create_app
from api.shapes import examples, sheet, views
from api.shapes.record import RecordShape

SCHEMA = create_app().openapi()
ROUTES = [
    pytest.param(path, method, operation, id=f"{method} {path}")
    for path, methods in SCHEMA["paths"].items()
    for method, operation in methods.items()
]


def _resolved(schema: dict[str, Any]) -> dict[str, Any]:
    if "$ref" in schema:
        return SCHEMA["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]]  # type: ignore[no-any-return]
    return schema


@pytest.mark.parametrize(("path", "method", "operation"), ROUTES)
def test_each_route_is_described_with_its_answer_and_an_example(
    path: str, method: str, operation: dict[str, Any]
) -> None:
    assert operation["summary"][0].isupper()
    assert operation["description"]
    assert operation["tags"]
    answer = next(answer for code, answer in operation["responses"].items() if code in {"200", "201"})
    for kind, content in answer["content"].items():
        schema = _resolved(content["schema"])
        if kind != "application/json":
            assert schema["format"] == "binary"
            continue
        inner = _resolved(schema["items"]) if schema.get("type") == "array" else schema
        assert inner["example"]


@pytest.mark.parametrize(("path", "method", "operation"), ROUTES)
def test_each_body_has_an_example(path: str, method: str, operation: dict[str, Any]) -> None:
    content = operation.get("requestBody", {}).get("content", {}).get("application/json")
    if content is not None:
        assert content.get("example") or _resolved(content["schema"])["example"]


@pytest.mark.parametrize(("path", "method", "operation"), ROUTES)
def test_each_refusal_is_a_problem(path: str, method: str, operation: dict[str, Any]) -> None:
    for code, answer in operation["responses"].items():
        if code.startswith("4"):
            schema = answer["content"]["application/problem+json"]["schema"]
            assert _resolved(schema)["title"] == "ProblemDetails"
            assert list(answer["content"]) == ["application/problem+json"]


@pytest.mark.parametrize(
    ("shape", "value"),
    [
        (views.MouldShape, examples.MOULD),
        (views.BuildShape, examples.BUILD),
        (views.NoteShape, examples.NOTE),
        (views.PhotoShape, examples.PHOTO),
        (views.ChangeShape, examples.CHANGE),
        (sheet.FaultShape, examples.FAULT),
        (sheet.PullShape, examples.PULL),
        (RecordShape, examples.RECORD),
        (views.StepShape, {**examples.STEP, "json": examples.RECORD}),
    ],
)
def test_each_example_is_one(shape: type[BaseModel], value: dict[str, Any]) -> None:
    shape.model_validate(value)
