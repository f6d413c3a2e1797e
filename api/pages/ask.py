"""The page that answers questions."""

from __future__ import annotations

from fastapi import APIRouter
from starlette.responses import Response

from api.context import ShopHere
from api.pages.render import render
from api.problems import REFUSALS, problem_of
from journal import flow

router = APIRouter(include_in_schema=False)
EXAMPLES = (
    "How much B for 420?",
    "How long is left on the pot?",
    "When can the next coat go on?",
    "What did we put on the flange last time?",
    "What is flagged?",
)


@router.get("/ask")
def ask(shop: ShopHere, q: str = "", build: str = "") -> Response:
    """Answer a question, or show the empty form with some that can be asked."""
    answer, troubles = None, []
    if q.strip():
        try:
            answer = flow.ask(shop, q[:500], build or None)
        except REFUSALS as error:
            troubles.append(problem_of(error))
    builds = [each for each in shop.store.builds() if each.outcome == "under way" or each.key == build]
    return render("ask.html", *troubles, here="ask", q=q, build=build, answer=answer, builds=builds, examples=EXAMPLES)
