"""What the commands print: words and tables for people, JSON for programs, progress on a terminal only."""

from __future__ import annotations

import dataclasses
import json
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path
from typing import Any, TextIO

from rich.console import Console, Group, RenderableType
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn
from rich.table import Table
from rich.text import Text

from journal import flow
from journal.find.recipe import Total
from journal.find.search import Hit
from journal.keep.backup import CheckReport
from journal.keep.views import BuildView, KeepError, MouldView
from journal.record import Step, step_to_json
from journal.review.sheet import Sheet

# What people said is printed as they said it: brackets are no styles in it, and colons no signs.
_out = Console(soft_wrap=False, highlight=False, markup=False, emoji=False)
_err = Console(stderr=True, highlight=False, markup=False, emoji=False)


def say(words: RenderableType) -> None:
    """Print words or a table."""
    _out.print(words)


def error(words: str) -> None:
    """Print one line on standard error."""
    _err.print(Text(" ".join(words.split()), style="red"), soft_wrap=True)


def heading(words: str) -> Text:
    """Return a line that stands out."""
    return Text(f"\n{words}", style="bold")


def json_line(value: Any) -> None:
    """Print a value as one line of JSON."""
    sys.stdout.write(json.dumps(plain(value), ensure_ascii=False) + "\n")
    sys.stdout.flush()


def answer(as_json: bool, value: Any, words: RenderableType) -> None:
    """Print the value as JSON, or else the words."""
    if as_json:
        json_line(value)
    else:
        say(words)


def plain(value: Any) -> Any:
    """Return a view as what JSON can hold: steps as their records, times in ISO 8601, fractions as numbers."""
    if isinstance(value, Step):
        return step_to_json(value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, frozenset):
        return sorted(plain(item) for item in value)
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    if isinstance(value, Fraction):
        return float(value)
    return value.isoformat() if isinstance(value, datetime | date) else value


@contextmanager
def progress(quiet: bool = False) -> Iterator[flow.Progress]:
    """Give a reporter of what is being done: a bar on a terminal, nothing when piped or quiet."""
    columns = (TextColumn("{task.description}"), BarColumn(), TimeElapsedColumn())
    with Progress(*columns, console=_err, transient=True, disable=quiet or not _err.is_terminal) as bar:
        task = bar.add_task("", total=1.0)

        def report(what: str, share: float) -> None:
            bar.update(task, description=what, completed=share)

        yield report


@contextmanager
def lines_of(name: str) -> Iterator[tuple[TextIO, Path]]:
    """Open a file of lines, or standard input for `-`; give it with the folder its paths are relative to."""
    if name == "-":
        yield sys.stdin, Path.cwd()
        return
    try:
        source = Path(name).open(encoding="utf-8")  # noqa: SIM115 - closed below, errors told first
    except OSError as problem:
        raise KeepError(f"{name} cannot be read ({problem.strerror}): give a file of JSON lines, or -") from problem
    with source:
        yield source, Path(name).resolve().parent


def taken_table(rows: Sequence[dict[str, Any]]) -> Table:
    """Return what became of each file."""
    table = Table("file", "kept as", "state", "what was heard or is wrong", box=None, pad_edge=False)
    for row in rows:
        kept = f"{row['kind']} {row['id']}{'' if row['created'] else ' (was there)'}" if row["kind"] else "not kept"
        table.add_row(Path(row["file"]).name, kept, row.get("state", ""), row["error"] or row.get("text", ""))
    return table


def moulds_table(moulds: Sequence[MouldView]) -> RenderableType:
    """Return the moulds."""
    if not moulds:
        return "No moulds yet: mouldbook add BUILD FILE... --mould NAME makes one, mouldbook demo shows some."
    table = Table("mould", "what", "status", "builds", "pulls", box=None, pad_edge=False)
    for mould in moulds:
        table.add_row(mould.key, mould.remarks or mould.pattern, mould.status, str(mould.builds), str(mould.pulls))
    return table


def builds_table(builds: Sequence[BuildView]) -> Table:
    """Return the builds of a mould."""
    table = Table("build", "started", "outcome", "in what way", "notes", "steps", box=None, pad_edge=False)
    for build in builds:
        started = f"{build.started_at:%Y-%m-%d}"
        table.add_row(build.key, started, build.outcome, build.outcome_text, str(build.notes), str(build.steps))
    return table


def steps_table(steps: Sequence[dict[str, Any]]) -> RenderableType:
    """Return steps as records in JSON form, one row each; flags in red below their step."""
    if not steps:
        return "No step in these words."
    table = Table("act", "status", "with", "more", box=None, pad_edge=False)
    for step in steps:
        table.add_row(step["action"], step["status"], _with(step), _more(step))
        for flag in step["flags"]:
            table.add_row("", "", Text(f"? {flag['field']}: {flag['why']}", style="red"), "")
    return table


def _with(step: dict[str, Any]) -> str:
    used = [
        f"{m['name']}{' ' + m['part'] if m.get('part') else ''}"
        + (f" {m['amount']:g} {m.get('unit') or '(no unit)'}" if m.get("amount") is not None else "")
        + (f" (lot {m['lot']})" if m.get("lot") else "")
        for m in step["materials"]
    ]
    layers = [
        " ".join(
            filter(
                None,
                (
                    f"{layer['count']:g} x" if layer.get("count") else "",
                    layer["name"],
                    f"{layer['gsm']:g} g/m2" if layer.get("gsm") else "",
                ),
            )
        )
        for layer in step["layers"]
    ]
    return "; ".join(used + layers)


def _more(step: dict[str, Any]) -> str:
    ratio = step.get("ratio")
    parts = [":".join(f"{p:g}" for p in ratio["parts"]) + f" by {ratio['by'] or '?'}"] if ratio else []
    parts += [f"{t['kind']} {_span(t['seconds'])}" for t in step["timings"]]
    parts += [f"{c['kind']} {datetime.fromisoformat(c['at']):%H:%M}" for c in step["clock"]]
    parts += [f"{c['kind']} {c['value']:g} {c['unit']}" for c in step["conditions"]]
    parts += [f"at {p['text']}" for p in step["places"]]
    parts += [f"saw {o['kind']}: {o['text']}" for o in step["observations"]]
    parts += [phrase["text"] for key in ("cues", "reasons", "warnings") for phrase in step[key]]
    return "; ".join(parts)


def _span(seconds: Sequence[float | None]) -> str:
    least, most = (None if s is None else _duration(s) for s in seconds)
    if least == most:
        return least or ""
    return f"at least {least}" if most is None else f"up to {most}" if not seconds[0] else f"{least} to {most}"


def _duration(seconds: float) -> str:
    minutes = seconds / 60
    if minutes < 1:
        return f"{seconds:g} s"
    return f"{minutes:g} min" if minutes < 120 else f"{minutes / 60:g} h"


def sheet(made: Sheet) -> RenderableType:
    """Return a build sheet."""
    build, mould = made.recipe.build, made.recipe.mould
    title = f"{build.key}: {mould.remarks or mould.name}, started {build.started_at:%Y-%m-%d}, {build.outcome}"
    rows = Table("when", "act", "with", "more", box=None, pad_edge=False)
    for note in made.notes:
        for number, view in enumerate(made.steps_of(note)):
            step = view.json
            act = step["action"] if step["status"] == "done" else f"{step['action']} ({step['status']})"
            rows.add_row(f"{note.recorded_at:%d %b %H:%M}" if number == 0 else "", act, _with(step), _more(step))
            for flag in step["flags"]:
                rows.add_row("", "", Text(f"? {flag['field']}: {flag['why']}", style="red"), "")
    totals = [_total(total) for total in made.recipe.totals]
    words: list[RenderableType] = [
        heading(title),
        Text(build.outcome_text, style="italic"),
        rows,
        heading("Used: " + ("; ".join(totals) or "no amounts recorded")),
        Text(f"Photos: {len(made.photos)}"),
        *(Text(caution, style="yellow") for caution in made.cautions),
    ]
    return Group(*words)


def _total(total: Total) -> str:
    """Return a sum; one that rests on a queried value, or leaves a batch out, says so."""
    doubt = (
        "" if total.sure else " (?)" if not total.without_amount else f" (? and {len(total.without_amount)} unweighed)"
    )
    return f"{total.name}{' ' + total.part if total.part else ''} {total.amount:g} {total.unit}{doubt}"


def hits_table(hits: Sequence[Hit]) -> RenderableType:
    """Return what a search found."""
    if not hits:
        return "Nothing found: try fewer words, or mouldbook show for what there is."
    table = Table("build", "outcome", "when", "what", "words", box=None, pad_edge=False)
    for hit in hits:
        snippet = Text()
        for piece, matched in hit.snippet:
            snippet.append(piece, style="bold" if matched else "")
        table.add_row(hit.build_key, hit.outcome, f"{hit.at:%Y-%m-%d %H:%M}", hit.action or hit.noun, snippet)
    return table


def check_words(report: CheckReport) -> str:
    """Return what a check found."""
    return "Everything is there and whole." if report.good else f"Not whole: {plain(report)}"
