"""The command line: one function a command, each a few lines.

Exit status 0: done. 1: the thing asked for is not there or not right. 2: used wrongly.
"""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path
from typing import Annotated, Any

import typer
import uvicorn

from journal import flow
from journal.cli import (
    arithmetic,
    ask,
    demo,
    devices,
    exchange,
    find,
    lan,
    outcomes,
    plan,
    review,
    shelf,
    teach,
    terminal,
    worked,
)
from journal.cli.lines import read_lines
from journal.cli.opened import opened_shop
from journal.flow import USER_ERRORS, Incoming
from journal.record import NoteText, step_to_json
from journal.settings import Settings
from journal.shop import Shop

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    help="Mouldbook: a voice-and-photo process journal for people who build moulds.",
)
ARITHMETIC = (arithmetic.mix, arithmetic.judge, arithmetic.laminate, arithmetic.clock, arithmetic.climate)
for sum_up in (*ARITHMETIC, *worked.COMMANDS):
    app.command(context_settings={"ignore_unknown_options": True})(sum_up)  # so that -5 is a number
for command in (ask.ask, ask.clocks, shelf.shelf, shelf.tin, devices.devices):
    app.command()(command)
for look_back in (review.compare, review.trace, outcomes.life, outcomes.came, teach.teach):
    app.command()(look_back)

app.command()(find.find)
app.add_typer(plan.app, name="plan")
app.command("export")(exchange.export)
app.command("import")(exchange.import_)

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of words.")]
Files = Annotated[list[Path], typer.Argument(help="Recordings, photos or text files.")]
Who = Annotated[str | None, typer.Option(help="Who says so, by role.")]


def main() -> None:
    """Run the command line; what a user can mend is one line on standard error, and exit status 1."""
    try:
        app()
    except USER_ERRORS as error:
        terminal.error(str(error))
        sys.exit(1)


@app.command("demo")
def load_demo(
    serve_it: Annotated[bool, typer.Option("--serve", help="Serve the page afterwards.")] = False,
    data_dir: Annotated[Path | None, typer.Option(help="Where to keep it; default: a folder of its own.")] = None,
    as_json: AsJson = False,
) -> None:
    """Load the demo workshop through the real pipeline, and show it."""
    settings = demo.settings_for(data_dir)
    shop = Shop.open(settings)
    try:
        report = demo.load(shop, quiet=as_json)
        terminal.answer(as_json, report.as_json(), demo.words(shop, report))
    finally:
        shop.close()
    if serve_it:
        _serve(settings)


@app.command()
def serve(
    host: Annotated[str | None, typer.Option(help="Address to listen on; default: this machine only.")] = None,
    port: Annotated[int | None, typer.Option(help="Port to listen on.")] = None,
    on_lan: Annotated[
        bool, typer.Option("--lan", help="Also for paired phones and tablets of the shop's network, over https.")
    ] = False,
) -> None:
    """Serve the page and the API, and hear and read what comes in."""
    given = {name: value for name, value in (("host", host), ("port", port)) if value is not None}
    settings = Settings().model_copy(update=given)
    if on_lan:
        lan.serve_lan(settings)
    else:
        _serve(settings)


def _serve(settings: Settings) -> None:
    settings.to_environment()  # the app is named, not imported: the page stands above the command line
    terminal.say(f"Mouldbook is at http://{settings.host}:{settings.port}/ (Ctrl+C stops it)")
    uvicorn.run("api.app:create_app", factory=True, host=settings.host, port=settings.port, log_level="warning")


@app.command()
def add(
    build: Annotated[str, typer.Argument(help="The build, by name; made when new with --mould.")],
    files: Files,
    mould: Annotated[str | None, typer.Option(help="Make the build, of this mould, when it is new.")] = None,
    who: Who = None,
    as_json: AsJson = False,
) -> None:
    """Take recordings, photos or text into a build, then hear and read them."""
    with opened_shop() as shop:
        if mould is not None:
            flow.ensure_build(shop, mould, build)
        taken = [_take(shop, build, path, who) for path in files]
        with terminal.progress(quiet=as_json) as report:
            flow.process_waiting(shop, report)
        rows = [one | _state(shop, one) for one in taken]
        terminal.answer(as_json, rows, terminal.taken_table(rows))
        if any(row["error"] for row in rows):
            raise typer.Exit(1)


def _take(shop: Shop, build: str, path: Path, who: str | None) -> dict[str, Any]:
    """Take one file in; a bad one is told and the rest go on."""
    row: dict[str, Any] = {"file": str(path), "kind": None, "id": None, "created": False, "error": ""}
    try:
        data = flow.file_bytes(path)
        same_file = f"file {hashlib.sha256(data).hexdigest()}"
        taken = flow.take_in(shop, build, Incoming(data, path.name, who=who, client_key=same_file))
    except USER_ERRORS as error:
        return row | {"error": str(error)}
    return row | {"kind": taken.kind, "id": taken.id, "created": taken.created}


def _state(shop: Shop, row: dict[str, Any]) -> dict[str, Any]:
    if row["kind"] != "note":
        return {}
    note = shop.store.note(row["id"])
    return {"state": note.state, "text": note.text or "", "error": note.error}


@app.command()
def hear(files: Files, as_json: AsJson = False) -> None:
    """Turn recordings into text, and keep nothing."""
    failed = False
    with opened_shop() as shop:
        for path in files:
            try:
                heard = flow.hear_only(shop, flow.file_bytes(path))
            except USER_ERRORS as error:
                failed = True
                terminal.error(f"{path}: {error}")
                continue
            terminal.answer(as_json, {"file": str(path)} | terminal.plain(heard), heard.text)
    if failed:
        raise typer.Exit(1)


@app.command()
def read(
    text: Annotated[str | None, typer.Argument(help="The words of a note.")] = None,
    lines: Annotated[str | None, typer.Option(help="A file of one JSON object a line; - for standard input.")] = None,
    as_json: AsJson = False,
) -> None:
    """Read words into step records; with --lines, one JSON object in and one out a line."""
    if (text is None) == (lines is None):
        raise typer.BadParameter("give either the words of a note, or --lines FILE")
    with opened_shop() as shop:
        if lines is not None:
            with terminal.lines_of(lines) as (source, folder):
                for answer in read_lines(shop, source, folder):
                    terminal.json_line(answer)
        else:
            note = NoteText(text or "", shop.now(), shop.settings.locale)
            steps = [step_to_json(step) for step in flow.read_only(shop, note).steps]
            terminal.answer(as_json, {"steps": steps}, terminal.steps_table(steps))


@app.command()
def show(
    what: Annotated[str | None, typer.Argument(help="A mould or a build, by name; nothing lists the moulds.")] = None,
    pdf: Annotated[Path | None, typer.Option(help="Write the build sheet as PDF to this file.")] = None,
    as_json: AsJson = False,
) -> None:
    """Show a build sheet, a mould with its builds, or all moulds."""
    with opened_shop() as shop:
        if pdf is not None:
            pdf.write_bytes(flow.build_sheet_pdf(shop, what or ""))
            terminal.answer(as_json, {"file": str(pdf)}, f"The build sheet is in {pdf}.")
        elif what is None:
            moulds = shop.store.moulds()
            terminal.answer(as_json, moulds, terminal.moulds_table(moulds))
        elif (mould := flow.mould_named(shop, what)) is not None:
            builds = shop.store.builds(mould.id)
            terminal.answer(as_json, {"mould": mould, "builds": builds}, terminal.builds_table(builds))
        else:
            sheet = flow.build_sheet(shop, what)
            terminal.answer(as_json, sheet, terminal.sheet(sheet))


@app.command()
def outcome(
    build: Annotated[str, typer.Argument(help="The build, by name.")],
    result: Annotated[str, typer.Argument(help="worked, failed, under way or given up")],
    text: Annotated[str, typer.Option(help="In what way.")] = "",
    who: Who = None,
) -> None:
    """Say how a build turned out."""
    with opened_shop() as shop:
        kept = flow.set_outcome(shop, build, result, text, who)
        terminal.say(f"{kept.key}: {kept.outcome}. {kept.outcome_text}")


@app.command()
def backup(folder: Annotated[Path, typer.Argument(help="Where the copy goes.")], as_json: AsJson = False) -> None:
    """Copy everything, with its sums, into a folder."""
    with opened_shop() as shop:
        report = flow.backup(shop, folder)
        terminal.answer(as_json, report, f"{report.originals} originals and the database are in {folder}.")


@app.command()
def restore(folder: Annotated[Path, typer.Argument(help="Where the copy is.")], as_json: AsJson = False) -> None:
    """Bring a backup back into an empty shop."""
    with opened_shop() as shop:
        report = flow.restore(shop, folder)
        terminal.answer(as_json, report, f"{report.originals} originals and the database are back.")


@app.command()
def check(
    source: Annotated[Path | None, typer.Option("--from", help="A backup to mend what is missing from.")] = None,
    as_json: AsJson = False,
) -> None:
    """Prove the database and every original against its sum; mend from a backup."""
    with opened_shop() as shop:
        report = flow.check(shop, source)
        terminal.answer(as_json, report, terminal.check_words(report))
        if not report.good:
            raise typer.Exit(1)
