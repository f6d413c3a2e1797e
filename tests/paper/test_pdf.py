"""Sheets as PDF, read back: text that can be selected, doubts marked in word and shape, photos without metadata."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from PIL import Image
from pypdf import PdfReader

from journal.capture.photo import PhotoLimits, make_copies
from journal.keep.views import PhotoView
from journal.paper.build_sheet import build_sheet_pdf
from journal.paper.page import LACKING, Paper
from journal.paper.training_sheet import training_sheet_pdf
from journal.review.queries import queries
from journal.review.sheet import build_sheet
from journal.teach.teach import sheet_of
from tests.api.workshop import picture
from tests.keep.made import photo
from tests.teach.conftest import catalogue, workshop

__all__ = ["catalogue", "workshop"]
NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
BELOW = 0.7


def words(data):
    """Return the text of every page, as a reader would copy it."""
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages).split())


@pytest.fixture(scope="module")
def sheet(workshop):
    return build_sheet(workshop.store, workshop.catalogue, "niche-2")


@pytest.fixture(scope="module")
def built(sheet, workshop):
    return build_sheet_pdf(sheet, {}, workshop.catalogue, BELOW, NOW)


@pytest.fixture(scope="module")
def taught(workshop):
    found = sheet_of(workshop.store, workshop.catalogue, ["niche-2", "niche-1"], BELOW)
    return found, training_sheet_pdf(found, {}, NOW)


def test_title_language_and_page_numbers_are_set(built):
    reader = PdfReader(io.BytesIO(built))
    assert reader.metadata.title == "Build sheet of niche-2"
    assert reader.trailer["/Root"]["/Lang"] == "en-GB"
    count = len(reader.pages)
    assert count > 1
    for number, page in enumerate(reader.pages, 1):
        assert f"Page {number} of {count}" in page.extract_text()


def test_nothing_is_fetched_and_no_address_stands_in_it(built):
    assert not re.search(rb"https?://|/URI", built)
    for page in PdfReader(io.BytesIO(built)).pages:
        for font in page["/Resources"]["/Font"].values():
            descendant = font.get_object()["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in descendant["/FontDescriptor"].get_object()  # the font travels with it


def test_every_step_and_amount_of_the_build_is_on_the_sheet(built, sheet):
    told = words(built)
    for step in sheet.steps:
        assert step.record.action.capitalize() in told
        for use in step.record.materials:
            assert use.name in told
            if use.amount is not None and use.unit == "g":
                assert f"{float(use.amount):g} g" in told
    assert "1.4 m²" in told
    assert "20 °C" in told


def test_a_value_in_doubt_has_a_word_and_a_shape(sheet, workshop):
    told = words(build_sheet_pdf(sheet, {}, workshop.catalogue, BELOW, NOW))
    doubtful = [field for step in sheet.steps for field in queries(step, BELOW).doubtful]
    assert "materials.0" in doubtful
    assert told.count("(check)") >= len(doubtful)
    for step in sheet.steps:
        for flag in step.record.flags:
            assert f"To check, {flag.field}: {flag.why}" in told


def test_the_lozenge_is_drawn_and_not_only_coloured():
    plain, marked = (Paper("x", "x", NOW) for _ in range(2))
    plain.labelled("Ratio", [("100 : 29", False)])
    marked.labelled("Ratio", [("100 : 29", True)])
    drawn = [PdfReader(io.BytesIO(p.data())).pages[0].get_contents().get_data() for p in (plain, marked)]
    paths = [data.count(b" l\n") + data.count(b" l ") for data in drawn]
    assert paths[1] > paths[0]


def test_signs_of_the_trade_and_other_alphabets_are_printed():
    paper = Paper("Формы", "x", NOW)
    paper.words("10 µm, 21 °C, ½ kg, 450 g/m², 2 × 3 ≥ 5, Μούλδ, Форма, Łódź, šablona, “so”")
    reader = PdfReader(io.BytesIO(paper.data()))
    told = reader.pages[0].extract_text()
    for sign in ("µ", "°", "½", "²", "×", "≥", "Μούλδ", "Форма", "Łódź", "šablona"):
        assert sign in told
    assert reader.metadata.title == "Формы"


@pytest.mark.parametrize(
    "text", ["鋳型 42", "קליפה", "قالب", "\U0001f600", "a\x00b", "{nb} %s \\ (", "x" * 3000, " ", "\n\n"]
)
def test_what_the_font_lacks_is_shown_as_lacking_and_breaks_nothing(text):
    paper = Paper(text, text, NOW)
    paper.heading(text)
    paper.words(text)
    paper.labelled(text, [(text, True)])
    paper.boxed(text, [text] * 3)
    paper.query(text)
    told = words(paper.data())
    assert told
    if "鋳" in text:
        assert f"{LACKING}{LACKING} 42" in told  # not left out in silence


def test_a_value_is_never_parted_from_its_mark_by_a_page():
    paper = Paper("x", "x", NOW)
    for i in range(120):
        paper.labelled(f"Row {i}", [(f"value {i}", True)])
    for page in PdfReader(io.BytesIO(paper.data())).pages:
        lines = page.extract_text()
        assert lines.count("Row ") == lines.count("(check)")


def test_photos_are_copies_without_metadata_and_told_in_words(sheet, workshop):
    taken = Image.open(io.BytesIO(picture()))
    exif = Image.Exif()
    exif[0x010F] = "a camera that says who and where"
    spied = io.BytesIO()
    taken.save(spied, "JPEG", exif=exif)
    copy = make_copies(spied.getvalue(), PhotoLimits(10_000_000, 10_000_000)).page
    view = PhotoView(5, 1, "niche-2", photo("x", sheet.notes[0].recorded_at), None, "left scroll", (), None)
    data = build_sheet_pdf(replace(sheet, photos=(view,)), {5: copy}, workshop.catalogue, BELOW, NOW)
    assert b"a camera that says" not in data
    assert "left scroll" in words(data)
    images = [image for page in PdfReader(io.BytesIO(data)).pages for image in page.images]
    assert len(images) == 1
    assert not Image.open(io.BytesIO(images[0].data)).getexif()


def test_the_training_sheet_has_words_lessons_and_past_mistakes(taught):
    sheet, data = taught
    told = words(data)
    assert "niche-1 failed: learn from what went wrong, do not repeat it." in told
    for lesson in sheet.lessons:
        assert f"{lesson.number}. {lesson.item}" in told
        assert " ".join(lesson.voice.text.split()) in told
    for mistake in sheet.mistakes:
        assert " ".join(mistake.words.split()) in told
    for caution in sheet.cautions:
        assert caution in told


def test_the_same_sheet_gives_the_same_bytes(sheet, workshop, built):
    assert build_sheet_pdf(sheet, {}, workshop.catalogue, BELOW, NOW) == built
