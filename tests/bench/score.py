"""Score predicted step records against labelled notes.

    python -m tests.bench.score LABELLED.jsonl PREDICTED.jsonl [--misses N]

LABELLED lines are those of tests/corpus, PREDICTED lines {"id", "steps"}; a missing id and a line with
an error count as no steps. Definitions:

facets        values pooled over a note's steps, paired one to one, closest first; tests/bench/values.py
              says what matches. Scored by precision, recall and F1 = 2 hits / (labelled + predicted).
facts F1      F1 over the facets of FACTS together.
steps exact   share of labelled steps that pair with a predicted step that agrees in every facet of EXACT.
notes exact   share of notes whose steps all pair so, with no predicted step left over; also by tag.
silent wrong  predicted values of the facets in EXCUSES that match nothing labelled in their note, on a
              step without a flag on such a field: the worst failure of all.
reliability   of the predicted values in a bin of confidence, the share that is right.
sound repairs flags that say what was heard: right where the label has such a flag on that field too.
"""

from __future__ import annotations

import argparse
import json
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from tests.bench.facets import FACETS, Facet, Row, values

FACTS = ("amounts", "ratio", "layers", "timings", "clock", "conditions", "actions")
EXACT = ("actions", "amounts", "ratio", "layers", "timings")
# A flag on a field that starts so keeps a wrong value of the facet from being silent.
EXCUSES = {
    "amounts": ("amount", "unit", "materials"),
    "ratio": ("ratio",),
    "layers": ("layers", "materials"),
    "timings": ("timings",),
    "conditions": ("conditions",),
}
T = TypeVar("T")

RATED = ("amounts", "ratio", "layers", "timing_kinds", "clock", "conditions", "actions")
CONFIDENCE_BINS = (0.0, 0.5, 0.7, 0.8, 0.85, 0.9, 0.95, 1.0)


@dataclass(slots=True)
class Counts:
    """How many values were labelled, predicted, and both."""

    labelled: int = 0
    predicted: int = 0
    hits: int = 0

    def add(self, labelled: int, predicted: int, hits: int) -> None:
        self.labelled += labelled
        self.predicted += predicted
        self.hits += hits

    @property
    def precision(self) -> float | None:
        return self.hits / self.predicted if self.predicted else None

    @property
    def recall(self) -> float | None:
        return self.hits / self.labelled if self.labelled else None

    @property
    def f1(self) -> float | None:
        total = self.labelled + self.predicted
        return 2 * self.hits / total if total else None


@dataclass(slots=True)
class Share:
    """`count` of `of`."""

    count: int = 0
    of: int = 0

    def add(self, count: int, of: int = 1) -> None:
        self.count += count
        self.of += of

    @property
    def share(self) -> float | None:
        return self.count / self.of if self.of else None


@dataclass(slots=True)
class Scores:
    """Everything counted over a set of notes."""

    facets: dict[str, Counts] = field(default_factory=lambda: {name: Counts() for name in FACETS})
    steps_exact: Share = field(default_factory=Share)
    notes_exact: Share = field(default_factory=Share)
    tags: dict[str, Share] = field(default_factory=lambda: defaultdict(Share))
    silent: dict[str, Share] = field(default_factory=lambda: {name: Share() for name in EXCUSES})
    reliability: dict[float, Share] = field(default_factory=lambda: {low: Share() for low in CONFIDENCE_BINS})
    repairs: Counts = field(default_factory=Counts)
    misses: list[Row] = field(default_factory=list)

    @property
    def facts(self) -> Counts:
        total = Counts()
        for name in FACTS:
            counts = self.facets[name]
            total.add(counts.labelled, counts.predicted, counts.hits)
        return total

    @property
    def silent_wrong(self) -> Share:
        return Share(sum(s.count for s in self.silent.values()), sum(s.of for s in self.silent.values()))


def pair(labelled: Sequence[T], predicted: Sequence[T], gap: Callable[[T, T], float | None]) -> dict[int, int]:
    """Return which labelled item pairs with which predicted one, one to one, closest first."""
    close = sorted(
        (apart, i, j)
        for i, one in enumerate(labelled)
        for j, other in enumerate(predicted)
        if (apart := gap(one, other)) is not None
    )
    pairs: dict[int, int] = {}
    taken = set()
    for _, i, j in close:
        if i not in pairs and j not in taken:
            pairs[i] = j
            taken.add(j)
    return pairs


def matched(labelled: Sequence[tuple[Any, Row]], predicted: Sequence[tuple[Any, Row]]) -> dict[int, int]:
    """Return the pairs of a facet's values."""
    return pair([v for v, _ in labelled], [v for v, _ in predicted], lambda one, other: one.gap(other))


def step_gap(labelled: Row, predicted: Row) -> float | None:
    """Return 0 for two steps that agree in every facet of EXACT."""
    for name in EXACT:
        one, other = FACETS[name].read(labelled), FACETS[name].read(predicted)
        if not len(one) == len(other) == len(matched(one, other)):
            return None
    return 0.0


def flagged_fields(step: Row) -> list[str]:
    """Return the fields that a step flags."""
    return [value.words[0] or "" for value, _ in FACETS["flags"].read(step)]


def heard_otherwise(steps: Iterable[Row]) -> set[str]:
    """Return the fields with a flag that tells what was heard, as `heard "jell coat"`."""
    flags = [row for step in steps for _, row in FACETS["flags"].read(step)]
    return {str(row["field"]) for row in flags if str(row.get("why", "")).startswith('heard "')}


def score(notes: Iterable[Row], predicted: dict[str, list[Row]]) -> Scores:
    """Return the scores of predicted steps, by note id, against labelled notes."""
    scores = Scores()
    for note in notes:
        _score_note(scores, note, predicted.get(str(note["id"]), []))
    return scores


def _score_note(scores: Scores, note: Row, steps: list[Row]) -> None:
    labelled = note["gold"]
    for name, facet in FACETS.items():
        _score_facet(scores, facet, labelled, steps)
        if name in EXCUSES:
            _count_silent(scores.silent[name], facet, labelled, steps)
    wanted, got = heard_otherwise(labelled), heard_otherwise(steps)
    scores.repairs.add(len(wanted), len(got), len(wanted & got))
    pairs = pair(labelled, steps, step_gap)
    exact = len(pairs) == len(labelled) == len(steps)
    scores.steps_exact.add(len(pairs), len(labelled))
    scores.notes_exact.add(exact)
    for tag in note.get("tags") or []:
        scores.tags[tag].add(exact)
    if not exact:
        scores.misses.append(
            {
                "id": note["id"],
                "text": note.get("text"),
                "labelled": [step for i, step in enumerate(labelled) if i not in pairs],
                "predicted": [step for j, step in enumerate(steps) if j not in pairs.values()],
            }
        )


def _score_facet(scores: Scores, facet: Facet, labelled: list[Row], steps: list[Row]) -> None:
    wanted, got = values(labelled, facet), values(steps, facet)
    pairs = matched(wanted, got)
    scores.facets[facet.name].add(len(wanted), len(got), len(pairs))
    if facet.name in RATED:
        right = set(pairs.values())
        for index, (_, row) in enumerate(got):
            if isinstance(confidence := row.get("confidence"), int | float):
                low = max((edge for edge in CONFIDENCE_BINS if edge <= confidence), default=0.0)
                scores.reliability[low].add(index in right)


def _count_silent(silent: Share, facet: Facet, labelled: list[Row], steps: list[Row]) -> None:
    known = [value for value, _ in values(labelled, facet)]
    for step in steps:
        flagged = any(name.startswith(EXCUSES[facet.name]) for name in flagged_fields(step))
        for value, _ in facet.read(step):
            silent.add(not flagged and all(one.gap(value) is None for one in known))


# ---- files and printing ---------------------------------------------------------------------------------


def load_notes(path: Path) -> list[Row]:
    """Return the labelled notes of a file; ValueError when an id stands twice."""
    notes = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]
    ids = [str(note["id"]) for note in notes]
    twice = sorted({one for one in ids if ids.count(one) > 1})
    if twice:
        raise ValueError(f"{path}: these ids stand twice: {', '.join(twice)}")
    return notes


def load_predicted(path: Path) -> dict[str, list[Row]]:
    """Return predicted steps by note id; lines that cannot be read, or tell of an error, hold none."""
    out: dict[str, list[Row]] = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        try:
            row = json.loads(line)
            key, steps = str(row["id"]), row.get("steps")
        except (ValueError, KeyError, TypeError, AttributeError):
            continue
        usable = isinstance(steps, list) and not row.get("error")
        out[key] = [step if isinstance(step, dict) else {} for step in steps] if usable else []
    return out


def _cell(share: float | None) -> str:
    return f"{'-' if share is None else format(share, '.3f'):>8}"


def _facet_line(name: str, counts: Counts) -> str:
    shares = "".join(map(_cell, (counts.precision, counts.recall, counts.f1)))
    return f"{name:<16}{counts.labelled:>8}{counts.predicted:>10}{counts.hits:>7}{shares}"


def _share_line(name: str, share: Share) -> str:
    return f"{name:<34}{share.count:>6} of {share.of:>6}{_cell(share.share)}"


def table(scores: Scores) -> str:
    """Return all that was counted, for people."""
    out = [f"{'facet':<16}{'labelled':>8}{'predicted':>10}{'hits':>7}{'prec':>8}{'recall':>8}{'F1':>8}"]
    out += [_facet_line(name, counts) for name, counts in scores.facets.items()]
    out += [_facet_line("facts F1", scores.facts), _facet_line("sound repairs", scores.repairs), ""]
    out += [_share_line("steps exact", scores.steps_exact), _share_line("notes exact", scores.notes_exact)]
    out += [_share_line("silent wrong", scores.silent_wrong)]
    out += [_share_line(f"  silent {name}", share) for name, share in scores.silent.items()]
    out += [_share_line(f"  right at confidence {low:.2f} up", share) for low, share in scores.reliability.items()]
    out += [_share_line(f"  exact, {tag}", scores.tags[tag]) for tag in sorted(scores.tags)]
    return "\n".join(out)


def main() -> None:
    parser = argparse.ArgumentParser(description="Score predicted step records against labelled notes.")
    parser.add_argument("labelled", type=Path)
    parser.add_argument("predicted", type=Path)
    parser.add_argument("--misses", type=int, default=0, help="show the first N notes that are not exact")
    args = parser.parse_args()
    scores = score(load_notes(args.labelled), load_predicted(args.predicted))
    print(table(scores))
    for miss in scores.misses[: args.misses]:
        print(json.dumps(miss, ensure_ascii=False, indent=1))


if __name__ == "__main__":
    main()
