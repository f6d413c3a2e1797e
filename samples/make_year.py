"""A year of an invented shop as step records: 200 builds, about 6,000 notes, and causes of failure planted on request.

All of it is invented, and drawn from a seed: the same seed gives the same year. `make_year` gives the records by
themselves; run as a program it keeps them in a folder of their own:

    python -m samples.make_year FOLDER [SEED]
"""

from __future__ import annotations

import random
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from pathlib import Path

from journal.keep.views import BuildView, MouldView, NewMould, NewNote, Outcome, StepView
from journal.record import Condition, MaterialUse, Ratio, Step
from journal.review.builds import BuildRecord, build_record
from journal.settings import Settings
from journal.shop import Shop
from samples import year_words as words

BUILDS, MOULDS, CAUSES = 200, 24, 4
FIRST_DAY = datetime(2025, 1, 6, 8, 0, tzinfo=UTC)
HANDS = ("lead maker", "second maker", "apprentice")
PLACES = ("left scroll", "right scroll", "flange", "crown", "hinge")
FAULT_RATE = 0.03  # of each kind of fault, for no reason at all
PLANTED_RATE = 0.6  # of the planted fault, where its cause is
OTHER_CAUSE_SHARE = 0.09  # of builds that have any one of the quirks below


@dataclass(frozen=True, slots=True)
class Plant:
    """A cause that can be planted: a quirk of a build, the fault that it brings, the name it should be found by."""

    quirk: str
    fault: str
    factor: str


PLANTS = (
    Plant("little catalyst", "soft", "little hardener or catalyst"),
    Plant("early coat", "wrinkle", "coat too early"),
    Plant("late glass", "delamination", "coat too late"),
    Plant("no filling", "void", "missing step: fill"),
    Plant("bad lot", "crack", "lot: P7"),
    Plant("damp", "blush", "damp shop"),
    Plant("cold", "tacky", "cold shop"),
    Plant("thin glass", "warp", "thin laminate"),
    Plant("early opening", "print-through", "early demould"),
    Plant("little wax", "stuck", "few coats: release wax"),
    Plant("apprentice laying", "dry glass", "hand: apprentice, laminating"),
)
QUIRKS = tuple(plant.quirk for plant in PLANTS if plant.quirk not in ("bad lot", "apprentice laying"))
FAULTS = tuple(plant.fault for plant in PLANTS)


@dataclass(frozen=True, slots=True)
class SpokenNote:
    """One note of the year: when and by whom it was said, its words, and the steps in them."""

    at: datetime
    who: str
    text: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class MadeBuild:
    """One build of the year, with what was odd about it and how it turned out."""

    key: str
    mould: int
    started_at: datetime
    notes: tuple[SpokenNote, ...]
    quirks: frozenset[str]
    faults: tuple[str, ...]
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Year:
    """A year: its builds, and the causes that were planted (none when it was made without)."""

    builds: tuple[MadeBuild, ...]
    planted: tuple[Plant, ...]


def make_year(seed: int, planted: bool = True, builds: int = BUILDS, strength: float = PLANTED_RATE) -> Year:
    """Return the year of this seed; with `planted`, four causes drawn from PLANTS bring about their faults.

    `strength` is the share of the builds with a planted cause that get its fault.
    """
    chance = random.Random(seed)
    plants = tuple(chance.sample(PLANTS, CAUSES)) if planted else ()
    days = sorted(chance.randrange(350) for _ in range(builds))
    made, numbers = [], dict.fromkeys(range(MOULDS), 0)
    for day in days:
        mould = chance.randrange(MOULDS)
        numbers[mould] += 1
        made.append(_make_build(chance, f"mould-{mould + 1}-{numbers[mould]}", mould, day, (plants, strength)))
    return Year(tuple(made), plants)


_Planted = tuple[Sequence[Plant], float]  # what was planted, and how strongly


# ---- one build -----------------------------------------------------------------------------------------------


@dataclass(slots=True)
class _Bench:
    """A build while it is made: the time on the wall, the notes so far, and what the build is like."""

    chance: random.Random
    at: datetime
    epoxy: bool
    quirks: frozenset[str]
    degc: float
    humidity: int
    hands: dict[str, str]
    lots: dict[str, str]
    notes: list[SpokenNote] = field(default_factory=list)

    def wait(self, hours: float, spread: float = 0.1) -> None:
        self.at += timedelta(hours=hours * self.chance.uniform(1 - spread, 1 + spread))

    def next_morning(self, days: int = 1) -> None:
        morning = self.at.replace(hour=8, minute=self.chance.randrange(10, 50), second=0, microsecond=0)
        self.at = morning + timedelta(days=days)

    def say(self, stage: str, *said: words.Said) -> None:
        text, steps = "", []
        for each in said:
            steps.append(words.moved(each.step, len(text)))
            text += each.text + " "
        self.notes.append(SpokenNote(self.at, self.hands[stage], text.strip(), tuple(steps)))


def _make_build(chance: random.Random, key: str, mould: int, day: int, planted: _Planted) -> MadeBuild:
    started = FIRST_DAY + timedelta(days=day, minutes=chance.randrange(60))
    quirks = frozenset(quirk for quirk in QUIRKS if chance.random() < OTHER_CAUSE_SHARE)
    bench = _Bench(
        chance, started, mould % 3 == 2, quirks,
        degc=float(chance.randrange(11, 14) if "cold" in quirks else chance.randrange(18, 24)),
        humidity=chance.randrange(84, 92) if "damp" in quirks else chance.randrange(45, 70),
        hands={stage: chance.choice(HANDS) for stage in ("preparing", "gel coat", "laminating", "opening")},
        lots={letter: f"{letter}{1 + (day + 9 * i) // 30}" for i, letter in enumerate("GPCH")},
    )  # fmt: skip
    _prepare(bench)
    _gel_coats(bench)
    _fill_undercuts(bench)
    _lay_glass(bench, mould)
    found = _faults(chance, bench, planted)
    _open(bench, found)
    failed = bool(found) and chance.random() < 0.7
    if not failed:
        _pulls(bench)
    return MadeBuild(key, mould, started, tuple(bench.notes), quirks, found, "failed" if failed else "worked")


def _faults(chance: random.Random, bench: _Bench, planted: _Planted) -> tuple[str, ...]:
    plants, strength = planted
    odd = set(bench.quirks)
    if bench.lots["P"] == "P7" and not bench.epoxy:
        odd.add("bad lot")
    if bench.hands["laminating"] == "apprentice":
        odd.add("apprentice laying")
    caused = [p.fault for p in plants if p.quirk in odd and chance.random() < strength]
    return tuple(dict.fromkeys([*caused, *(kind for kind in FAULTS if chance.random() < FAULT_RATE)]))


def _prepare(bench: _Bench) -> None:
    bench.say("preparing", _air(bench))
    bench.wait(0.4)
    bench.say("preparing", words.act("Cleaned", "clean", "the pattern with acetone", "acetone"))
    bench.wait(0.5)
    bench.say("preparing", words.coated("Sealed it with", "seal", "shellac", bench.chance.choice((2, 2, 3)), 30))
    bench.wait(1.2)
    waxed = 2 if "little wax" in bench.quirks else bench.chance.choice((4, 5, 5))
    bench.say("preparing", words.coated("Put on", "release", "release wax", waxed, 15))
    bench.wait(0.8)
    bench.say("preparing", words.act("Sprayed", "release", "the pva release on top", "pva release"))
    bench.wait(1.0)
    bench.say("preparing", words.act("Looked", "check", "it over, dry all round"))


def _gel_coats(bench: _Bench) -> None:
    main, second = ("epoxy gel coat", "hardener") if bench.epoxy else ("polyester gel coat", "catalyst")
    bench.wait(0.3)
    bench.say("gel coat", _mixed(bench, main, second, bench.chance.randrange(55, 75) * 10, "G", gel=True))
    bench.wait(0.15)
    place = bench.chance.choice(PLACES)
    bench.say("gel coat", words.brushed("Brushed", main, place))
    warm = 2.0 ** ((20 - bench.degc) / 10)  # the colder, the longer to tacky
    bench.wait(0.3 if "early coat" in bench.quirks else (1.7 if bench.epoxy else 2.2) * warm)
    bench.say("gel coat", words.act("Checked", "check", "the gel coat, it does not come off on the glove", main))
    bench.say("gel coat", _mixed(bench, main, second, bench.chance.randrange(55, 75) * 10, "G", gel=True))
    bench.wait(0.15)
    bench.say("gel coat", words.brushed("Brushed", main, place))


def _fill_undercuts(bench: _Bench) -> None:
    main = "laminating epoxy" if bench.epoxy else "polyester resin"
    warm = 2.0 ** ((20 - bench.degc) / 10)
    if "late glass" in bench.quirks:
        bench.next_morning(4)
    elif bench.epoxy:
        bench.wait(1.7 * warm)
    else:
        bench.next_morning()
    bench.say("laminating", _air(bench))
    if "no filling" not in bench.quirks:
        bench.wait(0.2)
        bench.say(
            "laminating", words.act("Filled", "fill", "the undercuts with resin and milled fibre", main, "milled fibre")
        )
    bench.wait(0.2)


def _lay_glass(bench: _Bench, mould: int) -> None:
    main, second = ("laminating epoxy", "hardener") if bench.epoxy else ("polyester resin", "catalyst")
    heavy = 1 if "thin glass" in bench.quirks else 2
    stacks: list[list[tuple[str, int, int]]] = [
        [("surface tissue", 1, 30), ("chopped strand mat", 1, 300)],
        [("chopped strand mat", heavy, 450)],
        [("chopped strand mat", heavy, 450)],
    ]
    for stack in stacks:
        grams = round(2.5 * sum(count * gsm for _, count, gsm in stack) / 10) * 10
        bench.say("laminating", _mixed(bench, main, second, grams, "P"))
        bench.wait(0.1)
        bench.say("laminating", words.laid(stack))
        bench.wait(0.3)
        bench.say("laminating", words.act("Rolled", "roll", "it out until there was no white in the glass"))
        bench.wait(0.5)
    bench.say("laminating", words.act("Fitted", "fit", "the steel tube frame", "steel tube"))
    bench.wait(1.0)
    bench.say("laminating", words.act("Trimmed", "trim", "the flange while it was green"))
    bench.say("laminating", words.act("Left", "cure", "it to cure"), _air(bench))


def _open(bench: _Bench, found: Iterable[str]) -> None:
    cold = bench.degc < 16
    bench.next_morning(1 if "early opening" in bench.quirks else 5 if cold else 4)
    place = bench.chance.choice(PLACES)
    seen = [words.seen(kind, place) for kind in found] or [words.seen("good", place)]
    bench.say("opening", words.act("Popped", "demould", "it this morning"), *seen)


def _pulls(bench: _Bench) -> None:
    bench.next_morning()
    bench.say("opening", words.act("Post cured", "post-cure", "it at fifty degrees for six hours"))
    for number in range(1, bench.chance.randrange(2, 6)):
        bench.next_morning(bench.chance.randrange(2, 9))
        bench.say("opening", words.coated("Put on", "release", "release wax", 1, 15))
        bench.wait(3)
        pull = words.act("Cast", "pull", f"number {number} came out")
        bench.say("opening", replace(pull, step=replace(pull.step, pull=number)))
        bench.say("opening", words.act("Looked", "check", "the mould over, nothing to mend"))


# ---- what is said, with the words that each value comes from -----------------------------------------------------


def _mixed(bench: _Bench, main: str, second: str, grams: int, letter: str, gel: bool = False) -> words.Said:
    per_hundred = {"epoxy gel coat": 15.0, "laminating epoxy": 28.0}.get(main, 2.0)
    if gel and "little catalyst" in bench.quirks:
        per_hundred *= 0.5
    added = round(grams * per_hundred / 100 * bench.chance.uniform(0.97, 1.03), 1)
    lot, other = f"{'E' if bench.epoxy else ''}{bench.lots[letter]}", bench.lots["H" if bench.epoxy else "C"]
    first = f"{grams} grams of {main} lot {lot}"
    with_it = f"{added:g} grams of {second} lot {other}"
    text = f"Mixed {first} with {with_it}."
    uses = (
        MaterialUse(main, words.evidence_of(text, first), amount=Fraction(grams), unit="g", lot=lot),
        MaterialUse(second, words.evidence_of(text, with_it), amount=Fraction(str(added)), unit="g", lot=other),
    )
    parts = (Fraction(100), 100 * Fraction(str(added)) / grams)
    ratio = Ratio(parts, words.evidence_of(text, f"{first} with {with_it}"), "weight", derived=True)
    return words.Said(text, Step("mix", "done", words.evidence_of(text, "Mixed"), uses, ratio))


def _air(bench: _Bench) -> words.Said:
    degc, humidity = bench.degc + bench.chance.choice((-1, 0, 1)), bench.humidity + bench.chance.choice((-2, 0, 2))
    warm, damp = f"{degc:g} degrees", f"humidity {humidity} percent"
    text = f"Shop's at {warm}, {damp}."
    conditions = (
        Condition("temperature", Fraction(int(degc)), "degC", words.evidence_of(text, warm), "shop"),
        Condition("humidity", Fraction(humidity), "percent", words.evidence_of(text, damp)),
    )
    return words.Said(text, Step("check", "done", words.evidence_of(text, "Shop's at"), conditions=conditions))


# ---- as records, and kept ------------------------------------------------------------------------------------------


def records_of(year: Year) -> list[BuildRecord]:
    """Return the year as reviews take it in, without a database."""
    records, step_id, note_id = [], 0, 0
    for number, made in enumerate(year.builds, 1):
        views, hands = [], {}
        for note in made.notes:
            note_id += 1
            hands[note_id] = note.who
            for position, step in enumerate(note.steps):
                step_id += 1
                views.append(_view(made, number, (step_id, note_id, position), note.at, step))
        records.append(build_record(_build_view(made, number), _mould_view(made.mould), views, hands))
    return records


def _view(made: MadeBuild, number: int, ids: tuple[int, int, int], at: datetime, step: Step) -> StepView:
    step_id, note_id, position = ids
    return StepView(
        step_id, note_id, number, made.key, position, at, at, step, {}, {}, False, None, None, False
    )  # fmt: skip


def _build_view(made: MadeBuild, number: int) -> BuildView:
    mould = _mould_view(made.mould)
    return BuildView(
        number, made.key, made.key, mould.id, mould.key, mould.name, made.started_at, "", made.outcome,
        ", ".join(made.faults), made.notes[-1].at, "lead maker", len(made.notes),
    )  # fmt: skip


def _mould_view(mould: int) -> MouldView:
    return MouldView(mould + 1, f"mould-{mould + 1}", f"Mould {mould + 1}", "", 1, "", 1.0, "", "in use")


def keep_year(shop: Shop, year: Year) -> None:
    """Put the year into a shop, as typed notes with their steps."""
    for mould in sorted({made.mould for made in year.builds}):
        shop.store.add_mould(NewMould(f"Mould {mould + 1}", "Invented", area_m2=1.0), FIRST_DAY)
    for made in year.builds:
        build = shop.store.add_build(f"Mould {made.mould + 1}", made.started_at, made.key)
        for note in made.notes:
            kept, _ = shop.store.add_note(build.id, NewNote(note.at, text=note.text, who=note.who))
            shop.store.keep_steps(kept.id, note.steps, "made up", note.at)
        shop.store.set_outcome(build.id, made.outcome, ", ".join(made.faults), "lead maker", made.notes[-1].at)


def main() -> None:
    """Keep a year in a folder, and say what was planted in it."""
    if len(sys.argv) not in (2, 3):
        sys.exit("use: python -m samples.make_year FOLDER [SEED]")
    year = make_year(int(sys.argv[2]) if len(sys.argv) == 3 else 1)
    shop = Shop.open(Settings(data_dir=Path(sys.argv[1])))
    try:
        keep_year(shop, year)
    finally:
        shop.close()
    notes = sum(len(made.notes) for made in year.builds)
    planted = "; ".join(f"{plant.quirk} brings {plant.fault}" for plant in year.planted)
    print(f"{len(year.builds)} builds, {notes} notes. Planted: {planted}.")


if __name__ == "__main__":
    main()
