"""The questions that a shop asks of its past, put to what is kept: compare builds, look at all of them, trace."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from journal.keep.store import Store
from journal.keep.views import FieldError, NotKept
from journal.review.builds import BuildRecord, load, load_all
from journal.review.explain import Explanation, explain
from journal.review.factors import Pattern, factors
from journal.review.life import Lasting, MouldLife, lasting, life_of, verdict
from journal.review.trace import Trace, lot_key, trace_batch, trace_lot, trace_material, trace_pull
from journal.trade.material import Catalogue

ENOUGH_TO_COUNT = 3  # below that there is nothing to count
MOST_COMPARED = 12  # side by side; more are counted, not read


@dataclass(frozen=True, slots=True)
class Cited:
    """A step that something rests on: where it is, when it was, its act, and what was said in its note."""

    step_id: int
    note_id: int
    build_key: str
    at: datetime
    act: str
    words: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """Builds held against each other: an explanation for each that failed (else for the first), and what goes together.

    `cited` are the steps that the explanations point to; `pattern` is None for fewer than three builds.
    """

    explanations: tuple[Explanation, ...]
    pattern: Pattern | None
    cited: tuple[Cited, ...]

    def cite(self, step_ids: Iterable[int]) -> list[Cited]:
        """Return the cited steps of these ids, in their order."""
        known = {each.step_id: each for each in self.cited}
        return [known[step_id] for step_id in step_ids if step_id in known]


def compare(store: Store, catalogue: Catalogue, build_keys: Sequence[str | int]) -> Comparison:
    """Hold builds against each other; one alone is held against the builds of its mould that worked.

    Raises NotKept for an unknown build, FieldError when there is nothing to compare with.
    """
    records = list({record.key: record for key in build_keys for record in [load(store, key)]}.values())
    if len(records) == 1:
        own = records[0].build
        alike = [b.key for b in store.builds(own.mould_id) if b.outcome == "worked" and b.key != own.key]
        if not alike:
            raise FieldError("builds", f"no other build of {own.mould_name} is known to have worked: name one as well")
        records += [load(store, key) for key in alike[-MOST_COMPARED + 1 :]]
    if not 2 <= len(records) <= MOST_COMPARED:
        raise FieldError("builds", f"name 2 to {MOST_COMPARED} builds to compare; there are {len(records)}")
    failed = [record for record in records if record.build.outcome == "failed"]
    subjects = failed if 0 < len(failed) < len(records) else records[:1]
    sound = [record for record in records if record not in subjects]
    explanations = tuple(explain(record, sound, catalogue) for record in subjects)
    pattern = factors(records, catalogue) if len(records) >= ENOUGH_TO_COUNT else None
    return Comparison(explanations, pattern, _cited(records, explanations))


def patterns(store: Store, catalogue: Catalogue) -> Pattern:
    """Return what goes with each kind of fault over all builds of the shop."""
    return factors(load_all(store), catalogue)


@dataclass(frozen=True, slots=True)
class Lives:
    """The lives of a shop's moulds, how long those of each recipe last, and whether one lasts longer than the rest."""

    moulds: tuple[MouldLife, ...]
    recipes: tuple[Lasting, ...]
    verdict: str


def lives(store: Store, catalogue: Catalogue, mould_key: str | int | None = None) -> Lives:
    """Return the lives of one mould's builds or of all, and which recipe lasts longest. Raises NotKept."""
    found = tuple(life_of(record, catalogue) for record in load_all(store, mould_key))
    return Lives(found, lasting(found), verdict(found))


def _cited(records: Iterable[BuildRecord], explanations: Iterable[Explanation]) -> tuple[Cited, ...]:
    wanted: set[int] = set()
    for each in explanations:
        for difference in (*each.others, *(d for likely in each.likely for d in likely.differences)):
            wanted |= {*difference.step_ids, *difference.against_ids}
        wanted |= {fault.step_id for fault in (*each.faults, *each.signs)}
        wanted |= {step_id for row in each.rows for step_id in row.step_ids if step_id is not None}
    return tuple(
        Cited(step.id, step.note_id, record.key, step.act_at, step.record.action, record.words.get(step.note_id, ""))
        for record in records
        for step in record.steps
        if step.id in wanted
    )


# ---- tracing -----------------------------------------------------------------------------------------------

_OF_PULL = re.compile(r"(?P<of>.+?)\s+(?:pull|cast)\s+(?:number\s+)?(?P<number>\d+)", re.IGNORECASE)
_PULL_AT = re.compile(r"(?:pull|cast)\s+(?:at\s+)?step\s+(?P<step>\d+)", re.IGNORECASE)
_BATCH = re.compile(r"(?:batch|step)\s+(?P<step>\d+)", re.IGNORECASE)


def trace(store: Store, catalogue: Catalogue, what: str) -> Trace:
    """Trace a lot ("4471"), a material ("polyester resin"), a batch ("batch 31") or a pull ("niche pull 2").

    A lot, batch or material is followed forwards to moulds and pulls, a pull back to its lots. Raises NotKept
    with what there is instead.
    """
    asked = " ".join(what.split())
    if not asked:
        raise FieldError("what", "is empty: name a lot, a material, a batch (batch 31) or a pull (niche pull 2)")
    records = load_all(store)
    found = _traced(records, re.sub(r"^lot\s+(?:number\s+)?", "", asked, flags=re.IGNORECASE), catalogue)
    if not found.found:
        raise NotKept(f"nothing is kept of {asked!r}{_instead(records, asked)}")
    return found


def _traced(records: Sequence[BuildRecord], asked: str, catalogue: Catalogue) -> Trace:
    if at := _PULL_AT.fullmatch(asked):
        return trace_pull(records, int(at["step"]))
    if pull := _OF_PULL.fullmatch(asked):
        return trace_pull(records, _pull_step(records, pull["of"], int(pull["number"])))
    if batch := _BATCH.fullmatch(asked):
        return trace_batch(records, int(batch["step"]), catalogue)
    found = trace_lot(records, asked, catalogue)
    return found if found.found else trace_material(records, asked, catalogue)


def _pull_step(records: Iterable[BuildRecord], of: str, number: int) -> int:
    """Return the step of a pull of a build or mould, by its number. Raises NotKept."""
    named = of.casefold()
    numbers = []
    for record in records:
        if named in (record.key, record.build.name.casefold(), record.mould.key, record.mould.name.casefold()):
            for step in record.done:
                if step.record.action == "pull" and step.record.pull is not None:
                    numbers.append(step.record.pull)
                    if step.record.pull == number:
                        return step.id
    there = f"; there are {', '.join(map(str, sorted(numbers)))}" if numbers else "; no numbered pull is kept of it"
    raise NotKept(f"there is no pull {number} of {of}{there}")


def _instead(records: Iterable[BuildRecord], asked: str) -> str:
    lots = {use.lot for r in records for step in r.done for use in step.record.materials if use.lot}
    by_key = {lot_key(lot): lot for lot in lots}
    close = difflib.get_close_matches(lot_key(asked), list(by_key), n=3, cutoff=0.5)
    if close:
        return f"; did you mean lot {' or '.join(by_key[key] for key in close)}?"
    return "; no lot number has been said yet" if not lots else "; mouldbook shelf lists the lots"
