"""Sixty searches over an invented year: is a build that fits among the first three, and how does plain full text do?

    python -m tests.bench.search

What fits is told from the records of the year by `fitting`, not by the search. Plain full text is the same index
asked for any of the words, ranked by bm25 of SQLite's FTS5, builds in the order of their best hit.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import text

from journal import flow
from journal.settings import Settings
from journal.shop import Shop
from samples.make_year import MadeBuild, Year, keep_year, make_year

SEARCHES = Path(__file__).resolve().parents[1] / "corpus" / "searches.jsonl"
SEED, BUILDS, FIRST = 4, 90, 3
YEAR_END = datetime(2025, 12, 31, 17, 0, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Asked:
    """One search: its words, what a build must have to fit, and the keys that each way put first."""

    words: str
    wanted: dict[str, Any]
    fitting: frozenset[str]
    ours: tuple[str, ...]
    plain: tuple[str, ...]

    def right(self, keys: tuple[str, ...]) -> bool:
        """Tell whether one of the first three fits."""
        return not self.fitting.isdisjoint(keys[:FIRST])


def fits(build: MadeBuild, wanted: dict[str, Any]) -> bool:
    """Tell from its records whether a build has all that is wanted."""
    return all(_CHECKS[name](build, value) for name, value in wanted.items())


def _uses(build: MadeBuild) -> list[Any]:
    return [use for note in build.notes for step in note.steps for use in step.materials]


def _steps(build: MadeBuild) -> list[Any]:
    return [step for note in build.notes for step in note.steps]


def _degrees(build: MadeBuild) -> list[float]:
    return [float(c.value) for step in _steps(build) for c in step.conditions if c.kind == "temperature"]


def _shares(build: MadeBuild, main: str) -> list[float]:
    mixes = [step for step in _steps(build) if step.ratio and any(use.name == main for use in step.materials)]
    return [float(100 * step.ratio.parts[1] / step.ratio.parts[0]) for step in mixes]


def _weighs(build: MadeBuild, name: str, least: float | None, most: float | None) -> bool:
    grams = [float(use.amount) for use in _uses(build) if use.amount is not None and re.search(name, use.name)]
    return any((least is None or each >= least) and (most is None or each <= most) for each in grams)


_CHECKS: dict[str, Callable[[MadeBuild, Any], bool]] = {
    "material": lambda build, name: any(use.name == name for use in _uses(build)),
    "any_material": lambda build, names: any(use.name in names for use in _uses(build)),
    "layer": lambda build, name: any(layer.name == name for step in _steps(build) for layer in step.layers),
    "action": lambda build, name: any(step.action == name for step in _steps(build)),
    "outcome": lambda build, outcome: build.outcome == outcome,
    "fault": lambda build, kind: kind in build.faults,
    "place": lambda build, place: any(p.text == place for step in _steps(build) for p in step.places),
    "month": lambda build, month: any(note.at.month == month for note in build.notes),
    "degc_most": lambda build, most: any(each <= most for each in _degrees(build)),
    "degc_least": lambda build, least: any(each >= least for each in _degrees(build)),
    "coats": lambda build, said: any(
        layer.name == said[0] and layer.count == said[1] for step in _steps(build) for layer in step.layers
    ),
    "share": lambda build, said: any(said[1] <= each <= said[2] for each in _shares(build, said[0])),
    "grams": lambda build, said: _weighs(build, *said),
    "lot": lambda build, lot: any(use.lot == lot for use in _uses(build)),
    "pull": lambda build, number: any(step.pull == number for step in _steps(build)),
}


def plain_keys(shop: Shop, words: str) -> tuple[str, ...]:
    """Return the keys of builds by plain full text: any of the words, bm25."""
    asked = " OR ".join(f'"{word}"' for word in re.findall(r"\w+", words))
    line = text(
        "SELECT b.key FROM search_text t JOIN search_entry e ON e.id = t.rowid JOIN build b ON b.id = e.build_id"
        " WHERE search_text MATCH :asked ORDER BY bm25(search_text) LIMIT 400"
    )
    with shop.store.reading() as session:
        return tuple(dict.fromkeys(session.scalars(line, {"asked": asked})))


def asked_all(shop: Shop, year: Year) -> list[Asked]:
    """Return every search with what each way puts first."""
    out = []
    for line in SEARCHES.read_text(encoding="utf-8").splitlines():
        each = json.loads(line)
        fitting = frozenset(build.key for build in year.builds if fits(build, each["wanted"]))
        ours = tuple(hit.build.key for hit in flow.find(shop, each["q"]).recipes)
        out.append(Asked(each["q"], each["wanted"], fitting, ours, plain_keys(shop, each["q"])))
    return out


def year_shop(folder: Path) -> tuple[Shop, Year]:
    """Return a shop with the year kept in it; the year is that of seed 4, its first 90 builds."""
    settings = Settings(data_dir=folder, timezone="UTC")
    shop, year = Shop(settings, lambda: YEAR_END), make_year(SEED, builds=BUILDS)
    keep_year(shop, year)
    return shop, year


def main() -> None:
    """Print each search that one way got wrong, and the counts."""
    with tempfile.TemporaryDirectory() as folder:
        shop, year = year_shop(Path(folder))
        try:
            asked = asked_all(shop, year)
        finally:
            shop.close()
    for each in asked:
        if not each.right(each.ours):
            print(f"not among the first three: {each.words} ({len(each.fitting)} builds fit)")
    print(f"searches: {len(asked)}, with a build that fits: {sum(bool(each.fitting) for each in asked)}")
    print(f"right among the first three: {sum(each.right(each.ours) for each in asked)}")
    print(f"plain full text: {sum(each.right(each.plain) for each in asked)}")


if __name__ == "__main__":
    main()
