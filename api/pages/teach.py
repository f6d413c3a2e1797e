"""The pages of training: a sheet from one build or several, self-tests, progress and sign-off. They need no script."""

from __future__ import annotations

from collections.abc import Mapping
from random import SystemRandom
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Query
from starlette.responses import Response

from api.context import Now, ShopHere
from api.pages.forms import Fields, Who, go
from api.pages.render import render
from api.problems import REFUSALS, Problem, problem_of
from journal import flow
from journal.keep.training_views import NewSignOff, SignOffView
from journal.shop import Shop
from journal.teach import teach
from journal.teach.question import given_in
from journal.teach.sheet import TrainingSheet
from journal.teach.voice import Voice

router = APIRouter(include_in_schema=False)
_SEEDS = 1_000_000

Also = Annotated[list[str], Query(max_length=10, description="More builds to teach from, by key")]


def _keys(key: str, also: list[str]) -> list[str]:
    """Return the builds of a page; fields that were left empty do not count."""
    return [key, *(other.strip() for other in also if other.strip())]


def _address(keys: list[str], rest: str = "") -> str:
    also = urlencode([("also", key) for key in keys[1:]])
    return f"/teach/{keys[0]}{rest}" + (f"?{also}" if also else "")


def _asked(fields: Mapping[str, str], key: str) -> list[str]:
    """Return the builds that a form was filled in for."""
    return _keys(key, fields.get("also", "").split(","))


def _voices(sheet: TrainingSheet) -> list[Voice]:
    every = [voice for lesson in sheet.lessons for voice in (lesson.voice, *(s.voice for s in lesson.sayings))]
    return list({voice.note_id: voice for voice in every if voice.audio is not None}.values())


def _sheet(shop: Shop, keys: list[str], who: str, *troubles: Problem) -> Response:
    sheet = flow.training_sheet(shop, keys)
    first = sheet.builds[0].key
    progress = teach.progress_on(shop.store, first)
    signed: dict[tuple[str, str], list[SignOffView]] = {}
    for entry in (entry for each in progress for entry in each.signed):
        signed.setdefault((entry.stage, entry.item), []).append(entry)
    return render(
        "teach.html",
        *troubles,
        here="moulds",
        sheet=sheet,
        keys=keys,
        also=",".join(keys[1:]),
        test_address=_address(keys, "/test"),
        pdf_address="/api/teach/sheet.pdf?" + urlencode([("build", key) for key in keys]),
        heard=_voices(sheet),
        progress=progress,
        signed=signed,
        others=[build for build in shop.store.builds() if build.key not in keys],
        who=who,
    )


@router.get("/teach/{key}")
def sheet(shop: ShopHere, key: str, who: Who, also: Also = []) -> Response:  # noqa: B006 - FastAPI copies it
    """Show the training sheet, and how apprentices come along."""
    return _sheet(shop, _keys(key, also), who)


def _test(shop: Shop, keys: list[str], seed: int, who: str, *troubles: Problem) -> Response:
    test = flow.self_test(shop, keys, seed)
    return render(
        "teach_test.html",
        *troubles,
        here="moulds",
        test=test,
        keys=keys,
        also=",".join(keys[1:]),
        sheet_address=_address(keys),
        who=who,
    )


@router.get("/teach/{key}/test")
def self_test(
    shop: ShopHere,
    key: str,
    who: Who,
    also: Also = [],  # noqa: B006 - FastAPI copies it
    seed: Annotated[int | None, Query(ge=0, le=teach.LARGEST_SEED)] = None,
) -> Response:
    """Ask a self-test: that of the seed, or a new one."""
    return _test(shop, _keys(key, also), SystemRandom().randrange(_SEEDS) if seed is None else seed, who)


@router.post("/teach/{key}/test")
def take(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Mark a self-test from the form, and keep it."""
    keys = _asked(fields, key)
    seed = int(fields["seed"]) if fields.get("seed", "").isdecimal() else 0
    try:
        asked = flow.self_test(shop, keys, seed)
        given = {question.key: given_in(question, fields) for question in asked.questions}
        kept = teach.take_test(shop.store, asked, given, fields.get("apprentice", ""), now)
    except REFUSALS as error:
        return _test(shop, keys, min(seed, teach.LARGEST_SEED), who, problem_of(error))
    return go(f"/teach/{kept.build_key}/tests/{kept.id}", kept.apprentice)


@router.get("/teach/{key}/tests/{test_id}")
def result(shop: ShopHere, key: str, test_id: int) -> Response:
    """Show a self-test as it was marked, with the reason and the words behind each answer."""
    kept = shop.store.training_test(test_id)
    if kept.build_key != shop.store.build(key).key:
        raise Problem(404, f"Self-test {test_id} is of another build: see /teach/{kept.build_key}.")
    heard = {said["note_id"]: said for answer in kept.answers for said in answer["evidence"] if said["audio"]}
    keys = list(kept.builds)
    return render(
        "teach_result.html",
        here="moulds",
        test=kept,
        heard=list(heard.values()),
        sheet_address=_address(keys),
        test_address=_address(keys, "/test"),
    )


@router.post("/teach/{key}/sign-off")
def sign_off(shop: ShopHere, now: Now, key: str, fields: Fields, who: Who) -> Response:
    """Sign off lessons from the form, or take that back."""
    keys = _asked(fields, key)
    numbers = [int(name[7:]) for name in fields if name.startswith("lesson.") and name[7:].isdecimal()]
    verdict = teach.VERDICTS[fields.get("verdict") == "taken back"]
    maker = fields.get("maker", "")
    new = NewSignOff(fields.get("apprentice", ""), maker, (), verdict, fields.get("remarks", ""))
    try:
        teach.sign_off(shop.store, flow.training_sheet(shop, keys), numbers, new, now)
    except REFUSALS as error:
        return _sheet(shop, keys, who, problem_of(error))
    return go(f"{_address(keys)}#progress", maker)
