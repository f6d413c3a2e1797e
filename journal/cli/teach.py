"""A training sheet, a self-test, progress and sign-off from the command line."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from random import SystemRandom
from typing import Annotated

import typer
from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from journal import flow
from journal.cli import terminal
from journal.cli.opened import opened_shop
from journal.find.recipe import Total
from journal.keep.training_views import NewSignOff, TestView
from journal.review.values import TIED, Row, measured
from journal.shop import Shop
from journal.teach import teach as training
from journal.teach.progress import Progress
from journal.teach.question import Question
from journal.teach.sheet import Lesson, TrainingSheet
from journal.teach.test import SelfTest

_SEEDS = 1_000_000


def teach(
    builds: Annotated[list[str], typer.Argument(help="The builds to teach from, by name.")],
    test: Annotated[bool, typer.Option("--test", help="Ask a self-test instead; answers go to the record.")] = False,
    seed: Annotated[int | None, typer.Option(help="With --test: the same seed asks the same.")] = None,
    who: Annotated[str, typer.Option(help="The apprentice, by name or role.")] = "apprentice",
    progress: Annotated[bool, typer.Option("--progress", help="Show how apprentices come along instead.")] = False,
    signs: Annotated[str, typer.Option("--sign-off", help="Lessons that --who can do, by number: 1,4,5.")] = "",
    back: Annotated[str, typer.Option("--take-back", help="Lessons whose sign-off is taken back.")] = "",
    by: Annotated[str, typer.Option(help="The maker who signs off.")] = "",
    remarks: Annotated[str, typer.Option(help="With --sign-off or --take-back: what is to be said about it.")] = "",
    pdf: Annotated[Path | None, typer.Option(help="Write the sheet as PDF to this file.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")] = False,
) -> None:
    """Show a training sheet in the makers' own words; test on it, show progress, sign off."""
    asked = [bool(each) for each in (test, progress, signs, back, pdf)]
    if sum(asked) > 1:
        raise typer.BadParameter("give one of --test, --progress, --sign-off, --take-back and --pdf")
    with opened_shop() as shop:
        if test:
            _test(shop, builds, SystemRandom().randrange(_SEEDS) if seed is None else seed, who, as_json)
        elif signs or back:
            new = NewSignOff(who, by, (), "signed" if signs else "taken back", remarks)
            _sign(shop, builds, _numbers(signs or back), new, as_json)
        elif pdf is not None:
            pdf.write_bytes(flow.training_sheet_pdf(shop, builds))
            terminal.answer(as_json, {"file": str(pdf)}, f"The training sheet is in {pdf}.")
        elif progress:
            found = training.progress_on(shop.store, flow.training_sheet(shop, builds).builds[0].key)
            terminal.answer(as_json, found, progress_words(found))
        else:
            sheet = flow.training_sheet(shop, builds)
            terminal.answer(as_json, sheet, sheet_words(sheet))


def _numbers(text: str) -> list[int]:
    try:
        return [int(part) for part in text.replace(",", " ").split()]
    except ValueError as error:
        raise typer.BadParameter(f"{text!r}: give the numbers of lessons, like 1,4,5") from error


# ---- a self-test -------------------------------------------------------------------------------------


def _test(shop: Shop, builds: Sequence[str], seed: int, who: str, as_json: bool) -> None:
    asked = flow.self_test(shop, builds, seed)
    given = {}
    for number, question in enumerate(asked.questions, 1):
        if not as_json:
            terminal.say(_question_words(number, question, asked))
        given[question.key] = _answered(as_json)
    kept = training.take_test(shop.store, asked, given, who, shop.now())
    terminal.answer(as_json, kept, Group(*_result(kept), *(Text(words, style="dim") for words in asked.lacks)))


def _answered(quiet: bool) -> str:
    """Return one line of standard input; nothing when there are no more."""
    if not quiet:
        terminal.say(Text("Answer: ", style="bold"))
    return sys.stdin.readline().strip()


def _question_words(number: int, question: Question, asked: SelfTest) -> RenderableType:
    photos = [Text(f"   photo {photo.id}: /api/photos/{photo.id}/large", style="dim") for photo in question.photos]
    options = [Text(f"   {option.letter}  {option.text}") for option in question.options]
    if question.kind == "order":
        options.append(Text("   Answer with the letters, the first act first."))
    return Group(terminal.heading(f"{number} of {len(asked.questions)}. {question.asked}"), *photos, *options)


def _result(kept: TestView) -> Iterator[RenderableType]:
    yield terminal.heading(f"{kept.apprentice}: {kept.right} of {kept.asked} right (seed {kept.seed})")
    for number, answer in enumerate(kept.answers, 1):
        verdict = "right" if answer["right"] else "wrong"
        yield Text(f"{number}. {verdict}: {answer['answer']}. {answer['remark']}".rstrip(), style="bold")
        yield Text(f"   You answered: {answer['given'] or 'nothing'}")
        yield Text(f"   {answer['reason']}")
        for said in answer["evidence"]:
            at = "" if said["audio"] is None else f", {said['audio'][0]:g} to {said['audio'][1]:g} s"
            yield Text(f'   {said["build"]}, note {said["note_id"]}{at}: "{said["words"]}"', style="dim")


# ---- progress and sign-off ---------------------------------------------------------------------------


def _sign(shop: Shop, builds: Sequence[str], numbers: Sequence[int], new: NewSignOff, as_json: bool) -> None:
    sheet = flow.training_sheet(shop, builds)
    entries = training.sign_off(shop.store, sheet, numbers, new, shop.now())
    words = [Text(f"{e.verdict}: {e.item} ({e.stage}), {e.apprentice}, by {e.maker}") for e in entries]
    terminal.answer(as_json, entries, Group(*words))


def progress_words(found: Sequence[Progress]) -> RenderableType:
    """Return how apprentices come along, to print."""
    parts: list[RenderableType] = []
    for each in found:
        tallies = ", ".join(f"{tally.kind} {tally.right} of {tally.asked}" for tally in each.tallies)
        parts.append(terminal.heading(f"{each.apprentice}: {len(each.tests)} tests; {tallies or 'nothing asked yet'}"))
        signed = Table("signed off", "stage", "by", "when", box=None, pad_edge=False)
        for entry in each.signed:
            signed.add_row(entry.item, entry.stage, entry.maker, f"{entry.signed_at:%Y-%m-%d %H:%M}")
        parts.append(signed if each.signed else Text("Nothing is signed off."))
    return Group(*parts) if parts else "Nobody has taken a test on this build yet."


# ---- the sheet ---------------------------------------------------------------------------------------


def sheet_words(sheet: TrainingSheet) -> RenderableType:
    """Return a training sheet to print."""
    parts: list[RenderableType] = [terminal.heading(f"Training sheet: {sheet.title}")]
    parts += [Text(words, style="yellow") for words in (*sheet.lacks, *sheet.cautions)]
    ready = [_total(total, sheet) for total in sheet.totals]
    parts.append(Text("Have ready: " + ("; ".join(ready) or "no amounts recorded")))
    for lesson in sheet.lessons:
        parts += _lesson(lesson, sheet)
    if sheet.mistakes:
        parts.append(terminal.heading("What went wrong before"))
    for number, mistake in enumerate(sheet.mistakes, 1):
        parts.append(Text(f"{number}. {mistake.kind}, {', '.join(mistake.builds)}: {mistake.words}"))
        parts += [Text(f"   {words}", style="dim") for words in mistake.could]
        parts += [Text(f"   ? {words}", style="red") for words in mistake.doubts]
    return Group(*parts)


def _total(total: Total, sheet: TrainingSheet) -> str:
    part = f" {total.part}" if total.part else ""
    doubt = " (?)" if total.name in sheet.in_doubt or not total.sure else ""
    return f"{total.name}{part} {measured(total.amount, total.unit)}{doubt}".replace(TIED, " ")


def _lesson(lesson: Lesson, sheet: TrainingSheet) -> Iterator[RenderableType]:
    yield terminal.heading(f"{lesson.number}. {lesson.item}, {lesson.stage}. {sheet.done_on(lesson)}")
    yield Text(f'   "{lesson.voice.text}" {lesson.voice.who or ""}'.rstrip(), style="italic")
    for row in lesson.done.rows:
        yield Text(f"   {_row(row, lesson.done.doubtful)}")
    for other in lesson.others:
        told = "; ".join(_row(row, other.doubtful) for row in other.rows)
        yield Text(f"   {other.build_key} otherwise: {told}", style="dim")
        yield from (Text(f"   ? {other.build_key}, {flag.field}: {flag.why}", style="red") for flag in other.flags)
    for saying in lesson.sayings:
        yield Text(f"   {saying.kind}: {saying.voice.text}")
    yield from (Text(f"   ! {words}", style="yellow") for words in lesson.cautions)
    yield from (Text(f"   ? {flag.field}: {flag.why}", style="red") for flag in lesson.done.flags)
    if lesson.mistakes:
        yield Text(f"   see below: {', '.join(map(str, lesson.mistakes))}")


def _row(row: Row, doubtful: frozenset[str]) -> str:
    values = [
        f"{value.amount} {value.text}".strip() + (" (?)" if value.field in doubtful else "") for value in row.values
    ]
    return f"{row.label}: {', '.join(values)}".replace(TIED, " ")
