"""The build sheet as PDF."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime

from journal.find.first_uses import first_cautions
from journal.keep.views import NoteView, PhotoView, StepView
from journal.paper.page import Paper, moment
from journal.review.queries import queries, totals_in_doubt
from journal.review.sheet import Sheet
from journal.review.values import measured, number, rows
from journal.trade.material import Catalogue

DOUBT = "Values marked with a lozenge and (check) are not confirmed: flagged, or heard or read with little confidence."


def build_sheet_pdf(
    sheet: Sheet, pictures: Mapping[int, bytes], catalogue: Catalogue, confirm_below: float, now: datetime
) -> bytes:
    """Return a build sheet as PDF; `pictures` are copies of its photos without metadata, by photo id."""
    build, mould = sheet.recipe.build, sheet.recipe.mould
    paper = Paper(f"Build sheet of {build.name}", f"{build.name}, printed {moment(now)}", now)
    paper.heading(build.name, 1)
    outcome = build.outcome + (f": {build.outcome_text}" if build.outcome_text else "")
    area = "" if mould.area_m2 is None else measured(mould.area_m2, "m2")
    paper.facts(
        [
            ("Mould", build.mould_name), ("Pattern", mould.pattern), ("Size", mould.size), ("Area", area),
            ("Begun", moment(build.started_at)), ("Outcome", outcome), ("Said by", build.outcome_by or ""),
            ("Remarks", build.remarks),
        ]
    )  # fmt: skip
    paper.boxed("Cautions", sheet.cautions)
    _totals(paper, sheet, totals_in_doubt(sheet.recipe.steps, confirm_below))
    paper.heading("Step by step")
    if any(queries(step, confirm_below) for step in sheet.steps):
        paper.words(DOUBT)
    first = first_cautions(sheet.steps, catalogue)
    _log(paper, sheet, pictures, first, confirm_below)
    if sheet.recipe.faults:
        paper.heading("Found wrong")
        paper.items(
            f"{fault.kind}: {fault.text}"
            + (f" ({', '.join(fault.places)})" if fault.places else "")
            + f", {moment(fault.at)}"
            for fault in sheet.recipe.faults
        )
    return paper.data()


def _totals(paper: Paper, sheet: Sheet, in_doubt: frozenset[str]) -> None:
    if sheet.recipe.totals or sheet.recipe.layers:
        paper.heading("What went in")
    for total in sheet.recipe.totals:
        name = total.name + (f", part {total.part}" if total.part else "")
        per = f", {measured(total.per_m2, total.unit)} per m²" if total.per_m2 is not None else ""
        unsure = total.name in in_doubt or not total.sure
        more = f", and {len(total.without_amount)} batches without a weight" if total.without_amount else ""
        paper.labelled(measured(total.amount, total.unit), [(f"{name}{per}{more}", unsure)])
    for layer in sheet.recipe.layers:
        gsm = f", {number(layer.gsm)} g/m²" if layer.gsm is not None else ""
        unsure = layer.name in in_doubt or bool(layer.without_count)
        paper.labelled(f"{number(layer.count)} ×", [(f"{layer.name}{gsm}", unsure)])


def _log(
    paper: Paper, sheet: Sheet, pictures: Mapping[int, bytes], first: Mapping[int, tuple[str, ...]], below: float
) -> None:
    """Set notes with their steps, and photos, in the order of time, each day under its date."""
    entries: list[tuple[datetime, NoteView | PhotoView]] = [(note.recorded_at, note) for note in sheet.notes]
    entries += [(photo.photo.taken_at, photo) for photo in sheet.photos]
    day: date | None = None
    for at, entry in sorted(entries, key=lambda each: each[0]):
        if at.date() != day:
            day = at.date()
            paper.heading(f"{at:%A} {at.day} {at:%B %Y}", 3)
        if isinstance(entry, PhotoView):
            if entry.id in pictures:
                paper.pictures([(pictures[entry.id], photo_words(entry))], indent=5)
            continue
        for step in sheet.steps_of(entry):
            _step(paper, entry, step, first.get(step.id, ()), below)


def _step(paper: Paper, note: NoteView, step: StepView, cautions: tuple[str, ...], below: float) -> None:
    asked = queries(step, below)
    told = [step.record.status, note.who or ""]
    told += ["corrected"] if step.corrected else []
    told += ["confirmed"] if step.confirmed else []
    mark = " (check)" if "action" in asked.doubtful else ""
    act = f"{note.recorded_at:%H:%M}  {step.record.action.capitalize()}{mark}"
    paper.words(f"{act}  ({', '.join(filter(None, told))})", "B")
    paper.rows(rows(step.record), asked.doubtful, indent=5)
    for text in cautions:
        paper.words(f"Caution: {text}", "I", indent=5)
    for flag in asked.flags:
        paper.query(f"To check, {flag.field}: {flag.why}", indent=5)
    paper.ln(1)


def photo_words(photo: PhotoView) -> str:
    """Return what stands below a photo."""
    return ", ".join(filter(None, (f"Photo, {photo.photo.taken_at:%d %b %H:%M}", photo.place)))
