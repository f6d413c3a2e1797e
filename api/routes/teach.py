"""Training: sheets from builds, self-tests and their marking, progress, and sign-off. Sheets as PDF too."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from starlette.responses import Response

from api.context import Now, ShopHere
from api.problems import problems
from api.shapes.teach import (
    NewSignOffShape,
    ProgressShape,
    SelfTestShape,
    SignOffShape,
    TakenShape,
    TestShape,
    TrainingSheetShape,
)
from journal import flow
from journal.keep.training_views import NewSignOff
from journal.teach import teach
from journal.teach.progress import Progress

router = APIRouter(prefix="/api", tags=["teach"])
PDF_TYPE = "application/pdf"
_PDF: dict[int | str, dict[str, Any]] = {
    200: {"description": "The sheet", "content": {PDF_TYPE: {"schema": {"type": "string", "format": "binary"}}}}
}

Builds = Annotated[list[str], Query(max_length=10, description="Builds to teach from, by key")]
Build = Annotated[str, Query(description="A build, by key")]
Seed = Annotated[int, Query(ge=0, le=teach.LARGEST_SEED, description="The same seed asks the same of the same record")]


@router.get("/teach", summary="A training sheet from builds", responses=problems(404, 422))
def sheet(shop: ShopHere, build: Builds) -> TrainingSheetShape:
    """Return the acts in order with quantities, the makers' words and their seconds, and past mistakes."""
    return TrainingSheetShape.of(flow.training_sheet(shop, build))


def pdf_response(data: bytes, name: str) -> Response:
    """Return a PDF under a file name."""
    plain = "".join(letter if letter.isascii() and (letter.isalnum() or letter in "-_") else "-" for letter in name)
    return Response(data, media_type=PDF_TYPE, headers={"content-disposition": f'inline; filename="{plain}.pdf"'})


@router.get(
    "/teach/sheet.pdf",
    summary="A training sheet as PDF",
    response_class=Response,
    responses=_PDF | problems(404, 422),
)
def sheet_pdf(shop: ShopHere, build: Builds) -> Response:
    """Return the training sheet of builds, to be printed."""
    return pdf_response(flow.training_sheet_pdf(shop, build), f"training-{'-'.join(build)}")


@router.get(
    "/builds/{build_key}/sheet.pdf",
    summary="A build sheet as PDF",
    response_class=Response,
    responses=_PDF | problems(404),
)
def build_sheet_pdf(shop: ShopHere, build_key: str) -> Response:
    """Return the build sheet, to be printed."""
    return pdf_response(flow.build_sheet_pdf(shop, build_key), f"build-{build_key}")


@router.get("/teach/test", summary="A self-test on builds", responses=problems(404, 422))
def self_test(shop: ShopHere, build: Builds, seed: Seed = 0) -> SelfTestShape:
    """Return the questions of a seed, without their answers."""
    return SelfTestShape.of(flow.self_test(shop, build, seed))


@router.post("/teach/test", summary="Have a self-test marked and kept", responses=problems(404, 422))
def take(shop: ShopHere, now: Now, taken: TakenShape) -> TestShape:
    """Return the test as it was marked, with the reason and the words behind each answer."""
    asked = flow.self_test(shop, taken.builds, taken.seed)
    return TestShape.model_validate(teach.take_test(shop.store, asked, taken.answers, taken.apprentice, now))


@router.get("/teach/progress", summary="How apprentices come along on a build", responses=problems(404))
def progress(shop: ShopHere, build: Build) -> list[ProgressShape]:
    """Return each apprentice's tests, and what makers signed off."""
    found: tuple[Progress, ...] = teach.progress_on(shop.store, build)
    return [ProgressShape.model_validate(each) for each in found]


@router.post("/teach/sign-offs", summary="Sign off what an apprentice can do", responses=problems(404, 422))
def sign_off(shop: ShopHere, now: Now, said: NewSignOffShape) -> list[SignOffShape]:
    """Add a maker's word on lessons, or take it back; no entry is ever altered."""
    new = NewSignOff(said.apprentice, said.maker, (), said.verdict, said.remarks)
    entries = teach.sign_off(shop.store, flow.training_sheet(shop, said.builds), said.lessons, new, now)
    return [SignOffShape.model_validate(entry) for entry in entries]
