"""The training sheet as PDF."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from journal.paper.build_sheet import DOUBT, photo_words
from journal.paper.page import Paper, moment
from journal.review.values import measured, number
from journal.teach.sheet import Lesson, TrainingSheet


def training_sheet_pdf(sheet: TrainingSheet, pictures: Mapping[int, bytes], now: datetime) -> bytes:
    """Return a training sheet as PDF; `pictures` are copies of its photos without metadata, by photo id."""
    paper = Paper(f"Training sheet: {sheet.title}", f"Training sheet: {sheet.title}, printed {moment(now)}", now)
    paper.heading(f"Training sheet: {sheet.title}", 1)
    paper.facts(
        (build.name, f"begun {moment(build.started_at)}, {build.outcome}"
         + (f": {build.outcome_text}" if build.outcome_text else ""))
        for build in sheet.builds
    )  # fmt: skip
    for words in sheet.lacks:
        paper.query(words)
    paper.boxed("Cautions", sheet.cautions)
    if sheet.doubtful:
        paper.words(DOUBT)
    _ready(paper, sheet)
    stage = ""
    for lesson in sheet.lessons:
        if lesson.stage != stage:
            stage = lesson.stage
            paper.heading(stage.capitalize())
        _lesson(paper, lesson, sheet, pictures)
    _mistakes(paper, sheet)
    return paper.data()


def _ready(paper: Paper, sheet: TrainingSheet) -> None:
    if sheet.totals or sheet.layers:
        paper.heading(f"Have ready, as on {sheet.builds[0].name}")
    for total in sheet.totals:
        unsure = total.name in sheet.in_doubt or not total.sure
        name = total.name + (f", part {total.part}" if total.part else "")
        paper.labelled(measured(total.amount, total.unit), [(name, unsure)])
    for layer in sheet.layers:
        gsm = f", {number(layer.gsm)} g/m²" if layer.gsm is not None else ""
        unsure = layer.name in sheet.in_doubt or bool(layer.without_count)
        paper.labelled(f"{number(layer.count)} ×", [(f"{layer.name}{gsm}", unsure)])


def _lesson(paper: Paper, lesson: Lesson, sheet: TrainingSheet, pictures: Mapping[int, bytes]) -> None:
    mark = " (check)" if "action" in lesson.done.doubtful else ""
    paper.heading(f"{lesson.number}. {lesson.item}{mark}", 3)
    if told := sheet.done_on(lesson):
        paper.words(told, indent=5)
    spoken = f", {lesson.voice.who}" if lesson.voice.who else ""
    paper.words(
        f"\N{LEFT DOUBLE QUOTATION MARK}{lesson.voice.text}\N{RIGHT DOUBLE QUOTATION MARK}{spoken}", "I", indent=5
    )
    paper.rows(lesson.done.rows, lesson.done.doubtful, indent=5)
    for other in lesson.others:
        paper.words(f"{other.build_key} did it otherwise:", indent=5)
        paper.rows(other.rows, other.doubtful, indent=10)
        for flag in other.flags:
            paper.query(f"To check, {flag.field}: {flag.why}", indent=10)
    for saying in lesson.sayings:
        paper.labelled(saying.kind.capitalize(), [(saying.voice.text, False)], indent=5)
    for text in lesson.cautions:
        paper.words(f"Caution: {text}", "I", indent=5)
    for flag in lesson.done.flags:
        paper.query(f"To check, {flag.field}: {flag.why}", indent=5)
    if lesson.mistakes:
        paper.words(f"What went wrong before: {', '.join(map(str, lesson.mistakes))}, below.", indent=5)
    shown = [(pictures[photo.id], photo_words(photo)) for photo in lesson.photos if photo.id in pictures]
    paper.pictures(shown, indent=5)


def _mistakes(paper: Paper, sheet: TrainingSheet) -> None:
    if sheet.mistakes:
        paper.heading("What went wrong before")
    for i, mistake in enumerate(sheet.mistakes, 1):
        paper.words(f"{i}. {mistake.kind.capitalize()} on {', '.join(mistake.builds)}: {mistake.words}")
        paper.items(mistake.could, indent=5)
        for doubt in mistake.doubts:
            paper.query(f"To check: {doubt}", indent=5)
