"""A training sheet: what was done in one build or several, act by act, in the words of those who did it. Pure.

Nothing is invented: every quantity is a value of a step, marked when it is in doubt, and every word is said
somewhere in the record.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from journal.find.first_uses import first_cautions, kinds_of, names_of
from journal.find.recipe import LayerTotal, Total, layers_of, totals_of
from journal.keep.views import BuildView, MouldView, PhotoView, StepView
from journal.record import Flag
from journal.review.align import Row as Aligned
from journal.review.align import align
from journal.review.builds import BuildRecord, names_in
from journal.review.queries import queries, totals_in_doubt
from journal.review.values import Row, rows
from journal.teach.mistakes import Mistake, mistakes_in
from journal.teach.taught import Taught
from journal.teach.voice import Voice
from journal.trade.cautions import cautions_for
from journal.trade.material import Catalogue

# Where builds can differ in a way that is worth a word; the rest is said in the maker's own words.
COMPARED = ("Materials", "Ratio", "Layers", "Timings", "Conditions")
SPOKEN = ("Until", "Because", "Mind", "Seen")  # rows that stand on the sheet as sayings
_FINISHING = "finishing"  # on the opened mould, before the first casting
CUE, REASON, WARNING, ADVICE, SEEN = "until", "because", "mind", "advice", "seen"


@dataclass(frozen=True, slots=True)
class Saying:
    """A cue (until), a reason (because), a warning (mind), advice or something seen, in the maker's words."""

    kind: str
    voice: Voice


@dataclass(frozen=True, slots=True)
class Done:
    """How one build did an act: its step, the values in words, which of them are in doubt, and what is queried."""

    build_key: str
    step: StepView
    rows: tuple[Row, ...]
    doubtful: frozenset[str]
    flags: tuple[Flag, ...]


@dataclass(frozen=True, slots=True)
class Lesson:
    """One act to be learnt. `item` names it the same on every sheet; `done` shows it as the first build did it.

    `common` says that every build taught from that worked did it (of all of them, when none is known to have
    worked). `steps` are those of each build of the sheet, None where it has none; `others` are builds that did it
    otherwise, with the rows that differ. `mistakes` are numbers of the sheet's mistakes, from 1.
    """

    number: int
    stage: str
    item: str
    done: Done
    voice: Voice
    steps: tuple[StepView | None, ...]
    builds: tuple[str, ...]
    common: bool
    others: tuple[Done, ...]
    sayings: tuple[Saying, ...]
    photos: tuple[PhotoView, ...]
    cautions: tuple[str, ...]
    mistakes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class TrainingSheet:
    """What is taught from some builds. `totals` and `layers` are those of the first build, to have ready.

    `in_doubt` are the names whose totals rest on a value in doubt; `lacks` what the sheet cannot tell, and why.
    """

    builds: tuple[BuildView, ...]
    moulds: tuple[MouldView, ...]
    lessons: tuple[Lesson, ...]
    mistakes: tuple[Mistake, ...]
    totals: tuple[Total, ...]
    layers: tuple[LayerTotal, ...]
    in_doubt: frozenset[str]
    cautions: tuple[str, ...]
    lacks: tuple[str, ...]

    @property
    def title(self) -> str:
        """The builds by name."""
        return ", ".join(build.name for build in self.builds)

    @property
    def stages(self) -> tuple[str, ...]:
        """The stages of the lessons, each once."""
        return tuple(dict.fromkeys(lesson.stage for lesson in self.lessons))

    def done_on(self, lesson: Lesson) -> str:
        """Return which builds a lesson was done on, in words; empty on a sheet of one build."""
        if len(self.builds) == 1:
            return ""
        worked = sum(build.outcome == "worked" for build in self.builds)
        every = "all that worked: " if lesson.common and worked > 1 else ""
        return f"Done on {every}{', '.join(lesson.builds)}."

    @property
    def doubtful(self) -> bool:
        """Whether any value on the sheet is marked as in doubt."""
        return any(each.doubtful for lesson in self.lessons for each in (lesson.done, *lesson.others))


def training_sheet(taught: Taught, catalogue: Catalogue, confirm_below: float) -> TrainingSheet:
    """Return what is taught from builds; values heard or read below `confirm_below` are in doubt."""
    found = tuple(mistakes_in(taught.every, catalogue))
    lessons = tuple(_lessons(taught, catalogue, confirm_below, found))
    first = taught.builds[0]
    made = [step for step in _making(first) if step.record.status == "done"]
    return TrainingSheet(
        builds=tuple(record.build for record in taught.builds),
        moulds=tuple({record.mould.id: record.mould for record in taught.builds}.values()),
        lessons=lessons,
        mistakes=found,
        totals=totals_of(made, first.mould.area_m2),
        layers=layers_of(made),
        in_doubt=totals_in_doubt(made, confirm_below),
        cautions=cautions_for(
            kind
            for record in taught.builds
            for step in record.steps
            for name in names_of(step)
            for kind in kinds_of(name, catalogue)
        ),
        lacks=tuple(_lacks(taught, lessons)),
    )


def item_of(step: StepView) -> str:
    """Return what an act is called as something to be learnt: "mix: polyester gel coat and catalyst"."""
    return ": ".join(filter(None, (step.record.action, " and ".join(names_in(step.record)))))


# ---- lessons -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Act:
    """A row of the alignment that is taught: the steps of the builds taught from, and all that belongs to it."""

    row: Aligned
    own: tuple[StepView | None, ...]
    beside: tuple[StepView, ...]  # checks and advice that followed it, in the builds taught from
    ids: frozenset[int]  # of all steps of all builds that belong to it


def _lessons(taught: Taught, catalogue: Catalogue, confirm_below: float, found: Sequence[Mistake]) -> Iterator[Lesson]:
    acts = _acts(taught, catalogue)
    sure = taught.worked or taught.builds
    warned: set[str] = set()
    first = {id_: texts for record in taught.builds for id_, texts in first_cautions(record.steps, catalogue).items()}
    for number, act in enumerate(acts, 1):
        pairs = [(record, step) for record, step in zip(taught.builds, act.own, strict=True) if step]
        shown = _done(*pairs[0], confirm_below)
        texts = [text for _, step in pairs for text in first.get(step.id, ()) if text not in warned]
        warned.update(texts)
        keys = tuple(record.key for record, _ in pairs)
        yield Lesson(
            number=number,
            stage=_FINISHING if act.row.stage == "in use" else act.row.stage,
            item=item_of(shown.step),
            done=shown,
            voice=taught.voice(shown.step),
            steps=act.own,
            builds=keys,
            common=all(record.key in keys for record in sure),
            others=tuple(_otherwise(shown, [_done(*pair, confirm_below) for pair in pairs[1:]])),
            sayings=tuple(_sayings(taught, [step for _, step in pairs], act.beside)),
            photos=tuple(p for key in taught.keys for p in taught.photos[key] if p.step_id in act.ids),
            cautions=tuple(dict.fromkeys(texts)),
            mistakes=tuple(i for i, each in enumerate(found, 1) if act.ids & set(each.step_ids)),
        )


def _acts(taught: Taught, catalogue: Catalogue) -> list[_Act]:
    """Return the acts of the builds taught from, in the order of the first, until castings are taken."""
    count = len(taught.builds)
    wanted = {step.id for record in taught.builds for step in _making(record)}
    alignment = align(taught.every, catalogue)
    kept = [
        (row, tuple(step if step and step.id in wanted else None for step in row.steps[:count]))
        for row in alignment.rows
    ]
    kept = [(row, own) for row, own in kept if any(step and step.record.status == "done" for step in own)]
    followed = _followed([row for row, _ in kept], taught)
    return [
        _Act(
            row,
            tuple(step if step and step.record.status == "done" else None for step in own),
            tuple(step for step in followed[i] if step.id in wanted),
            frozenset({step.id for step in (*row.steps, *followed[i]) if step}),
        )
        for i, (row, own) in enumerate(kept)
    ]


def _followed(rows: Sequence[Aligned], taught: Taught) -> list[list[StepView]]:
    """Return for each row the steps that are in no row, and followed a step of it: checks, advice, plans."""
    number = {step.id: i for i, row in enumerate(rows) for step in row.steps if step}
    followed: list[list[StepView]] = [[] for _ in rows]
    for record in taught.every:
        at = 0
        for step in record.steps:
            if step.id in number:
                at = number[step.id]
            elif rows:
                followed[at].append(step)
    return followed


def _making(record: BuildRecord) -> tuple[StepView, ...]:
    """Return the steps of a build until the first casting was taken from it."""
    pulled = next((i for i, step in enumerate(record.steps) if _is_pull(step)), len(record.steps))
    return record.steps[:pulled]


def _is_pull(step: StepView) -> bool:
    return step.record.action == "pull" and step.record.status == "done"


def _done(record: BuildRecord, step: StepView, confirm_below: float) -> Done:
    asked = queries(step, confirm_below)
    told = tuple(row for row in rows(step.record) if row.label not in SPOKEN)
    return Done(record.key, step, told, asked.doubtful, asked.flags)


def _otherwise(shown: Done, others: Sequence[Done]) -> Iterator[Done]:
    """Yield how other builds did it, with only the rows that differ from the one shown."""
    told = {row.label: _words(row) for row in shown.rows}
    for other in others:
        differing = tuple(r for r in other.rows if r.label in COMPARED and _words(r) != told.get(r.label))
        if differing:
            yield Done(other.build_key, other.step, differing, other.doubtful, other.flags)


def _words(row: Row) -> list[tuple[str, str]]:
    return sorted((value.amount, value.text) for value in row.values)


def _sayings(taught: Taught, steps: Sequence[StepView], beside: Sequence[StepView]) -> Iterator[Saying]:
    """Yield what makers said of an act: cues, reasons, warnings, advice, and what they saw; each wording once."""
    told: set[str] = set()
    for step in (*steps, *beside):
        for saying in _sayings_of(taught, step):
            plain = saying.voice.text.casefold().strip(" .,")
            if plain not in told:
                told.add(plain)
                yield saying


def _sayings_of(taught: Taught, step: StepView) -> Iterator[Saying]:
    record = step.record
    if record.status == "advised":
        yield Saying(ADVICE, taught.voice(step))
    if record.status != "done":
        return
    for kind, phrases in ((CUE, record.cues), (REASON, record.reasons), (WARNING, record.warnings)):
        for phrase in phrases:
            yield Saying(kind, taught.saying(phrase.text, phrase.evidence, step))
    if record.observations:
        yield Saying(SEEN, taught.voice(step))


def _lacks(taught: Taught, lessons: Sequence[Lesson]) -> Iterator[str]:
    """Yield what the sheet cannot tell."""
    failed = [record.build.name for record in taught.builds if record.build.outcome == "failed"]
    if failed:
        yield f"{' and '.join(failed)} failed: learn from what went wrong, do not repeat it."
    unknown = [r.build.name for r in taught.builds if r.build.outcome in ("under way", "given up")]
    if unknown:
        yield f"{' and '.join(unknown)}: not known to have worked."
    if not lessons:
        yield "No step that was done is recorded."
    elif not any(lesson.sayings for lesson in lessons):
        yield "No cue, reason or warning was said."
    if not any(taught.photos[key] for key in taught.keys):
        yield "No photo was taken."
