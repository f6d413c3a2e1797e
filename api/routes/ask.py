"""Questions, typed or spoken."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.concurrency import run_in_threadpool

from api.context import ShopHere
from api.problems import problems
from api.shapes.answers import AnswerShape
from journal import flow
from journal.find.ask.facts import Answer
from journal.shop import Shop

router = APIRouter(prefix="/api/ask", tags=["ask"])
Question = Annotated[str, Query(min_length=1, max_length=500, description="As one would ask aloud")]
Build = Annotated[str | None, Query(description="The build asked about; without it the one under way")]
_RECORDING = {"content": {"audio/*": {"schema": {"type": "string", "format": "binary"}}}, "required": True}


class SpokenAnswerShape(AnswerShape):
    """An answer, and the question as it was heard."""

    heard: str


@router.get("", summary="Answer a question", responses=problems(404, 422))
def ask(shop: ShopHere, q: Question, build: Build = None) -> AnswerShape:
    """Answer from the journal and the arithmetic, in one short sentence, or say what is lacking."""
    return AnswerShape.model_validate(flow.ask(shop, q, build))


@router.post(
    "/spoken",
    summary="Answer a spoken question",
    responses=problems(404, 413, 422),
    openapi_extra={"requestBody": _RECORDING},
)
async def ask_aloud(shop: ShopHere, request: Request, build: Build = None) -> SpokenAnswerShape:
    """Hear the question in a recording, sent as the bare body, and answer it; nothing is kept."""
    heard, answer = await run_in_threadpool(_answered, shop, await request.body(), build)
    return SpokenAnswerShape(**AnswerShape.model_validate(answer).model_dump(), heard=heard)


def _answered(shop: Shop, recording: bytes, build: str | None) -> tuple[str, Answer]:
    heard = flow.hear_only(shop, recording).text
    return heard, flow.ask(shop, heard, build)
