"""What an answer is worked out from: the build asked about, its mould's other builds, its clocks, the shelf."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from journal.find.ask.question import Question
from journal.find.clock import BuildClocks
from journal.find.clocks import build_clocks, ended
from journal.find.coats import Mixed, in_order, mixes
from journal.find.shelf import Tin, shelf
from journal.keep.store import Store
from journal.keep.views import BuildView, MouldView, NotKept, PullView, StepView
from journal.trade.material import Catalogue, Material


@dataclass(frozen=True, slots=True)
class Answer:
    """A short sentence fit for reading aloud, and how it came about.

    `why` says by which numbers and rules; `lacks` what is missing, "" when the question was answered;
    `numbers` the values by name, unrounded, with units in the names; `evidence` the ids of the steps it rests on.
    """

    text: str
    why: str = ""
    lacks: str = ""
    numbers: dict[str, float] = field(default_factory=dict)
    evidence: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class OneBuild:
    """A build with its steps as they stand, in the order they were spoken, and who spoke each note."""

    view: BuildView
    steps: tuple[StepView, ...]
    speakers: dict[int, str]


@dataclass(frozen=True, slots=True)
class Facts:
    """Everything that answers are worked out from, as it stands `now`."""

    now: datetime
    catalogue: Catalogue
    mould: MouldView
    build: OneBuild
    earlier: tuple[OneBuild, ...]
    pulls: tuple[PullView, ...]
    tins: tuple[Tin, ...]
    clocks: BuildClocks
    understand: Callable[[str], Question]

    @property
    def done(self) -> list[StepView]:
        """The steps done until now on the build asked about, in the order of the acts."""
        return in_order(self.build.steps, self.now)

    @property
    def known(self) -> list[StepView]:
        """All that was said until now on the build, done or not."""
        return [step for step in self.build.steps if step.recorded_at <= self.now]

    @property
    def batches(self) -> list[Mixed]:
        """The batches mixed until now on the build."""
        return mixes(self.done, self.catalogue)

    def material(self, name: str | None) -> Material | None:
        """Return the catalogue's entry."""
        return self.catalogue.get(name) if name else None

    def meant(self, names: Iterable[str]) -> tuple[Material, ...]:
        """Return the materials that names may stand for, a general word for those in use here before all others."""
        found: list[Material] = []
        for name in names:
            meant = self.catalogue.meant_by(name)
            own = self.catalogue.get(name)
            used = [m for m in meant if m.name in self.used_names]
            found += used or ([own] if own else list(meant))
        return tuple(dict.fromkeys(found))

    @property
    def used_names(self) -> frozenset[str]:
        """The names of all materials and layers of the build's steps, planned ones included."""
        records = [step.record for step in self.known]
        layers = {layer.name for record in records for layer in record.layers}
        return frozenset(layers | {use.name for record in records for use in record.materials})

    def who(self, step: StepView) -> str | None:
        """Return who did a step: who was named in it, else who spoke the note."""
        named = step.record.who
        if named and named.casefold() not in ("i", "we", "me", "myself"):
            return named
        for build in (self.build, *self.earlier):
            if step.note_id in build.speakers:
                return build.speakers[step.note_id]
        return None


def gather(
    store: Store, catalogue: Catalogue, build: BuildView, now: datetime, understand: Callable[[str], Question]
) -> Facts:
    """Return the facts of a build; its mould's other builds come latest first."""
    others = [other for other in store.builds(build.mould_id) if other.id != build.id and other.started_at <= now]
    builds = [_one_build(store, view) for view in (build, *reversed(others))]
    return Facts(
        now=now,
        catalogue=catalogue,
        mould=store.mould(build.mould_id),
        build=builds[0],
        earlier=tuple(builds[1:]),
        pulls=tuple(pull for pull in store.pulls(build.mould_id) if pull.at <= now),
        tins=tins_of(store, catalogue, now),
        clocks=build_clocks(build, builds[0].steps, catalogue, now),
        understand=understand,
    )


def tins_of(store: Store, catalogue: Catalogue, now: datetime) -> tuple[Tin, ...]:
    """Return every lot stated or spoken of, with what the steps of all builds used of it."""
    lots = store.lots()
    steps = [step for build in store.builds() for step in store.steps(build.id)] if lots else []
    return shelf(lots, steps, catalogue, now.date())


def _one_build(store: Store, view: BuildView) -> OneBuild:
    speakers = {note.id: note.who for note in store.notes(view.id) if note.who}
    return OneBuild(view, tuple(store.steps(view.id)), speakers)


def build_meant(store: Store, plain: str, build_key: str | int | None, now: datetime) -> BuildView:
    """Return the build that a question is about.

    One named in it ("niche 2", "the paw"), else `build_key`, else the build under way with the latest note, else
    the build with the latest note. Raises NotKept when there is no build at all.
    """
    builds = [build for build in store.builds() if build.started_at <= now]
    named = _named(builds, plain)
    if named is not None:
        return named
    if build_key is not None:
        return store.build(build_key)
    if not builds:
        raise NotKept("there is no build yet: mouldbook add BUILD FILE... --mould NAME makes one")
    under_way = [build for build in builds if not ended(build, now)]
    latest = {build.id: _latest_note(store, build, now) for build in under_way or builds}
    return max(under_way or builds, key=lambda build: latest[build.id])


def _named(builds: Sequence[BuildView], plain: str) -> BuildView | None:
    plain = re.sub(r"\w+", lambda word: _CARDINALS.get(word[0], word[0]), plain)
    for build in builds:
        if re.search(rf"\b{'[- ]+'.join(map(re.escape, build.key.split('-')))}\b", plain):
            return build
    for build in reversed(builds):
        ordinal = re.search(rf"\b(first|second|third|fourth|fifth) {re.escape(build.mould_key)}\b", plain)
        of_mould = [each for each in builds if each.mould_id == build.mould_id]
        if ordinal and (number := _ORDINALS[ordinal[1]]) <= len(of_mould):
            return of_mould[number - 1]
        if re.search(rf"\b{re.escape(build.mould_key)}\b", plain) and len({each.mould_id for each in builds}) > 1:
            return of_mould[-1]
    return None


_CARDINALS = {word: str(n) for n, word in enumerate("one two three four five six seven eight nine ten".split(), 1)}
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}


def _latest_note(store: Store, build: BuildView, now: datetime) -> datetime:
    return max((n.recorded_at for n in store.notes(build.id) if n.recorded_at <= now), default=build.started_at)
