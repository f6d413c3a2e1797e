"""What is new in a document to a shop that may have something already. Pure: two documents in, a plan out.

What is there stays as it is. A thing (a mould, a build, a note with its hearings, readings and steps, a photo with
its pins, a lot, a test, a sign-off) is taken in whole with its history, or not at all; one that is there and differs
is told as a conflict.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from journal.keep.exchange.document import Row
from journal.keep.exchange.nouns import BY_NAME, CHANGED, NOUNS, Noun

_SINGULAR = {noun: singular for singular, noun in CHANGED.items()}
_NAMED_BY = ("name", "key", "number", "item", "apprentice")
# Fields that hold ids inside, and the names that they go by there.
_HOLDING_IDS = {"training_tests": ("answers",), "plans": ("steps",)}
_POINTING = {"note_id": "notes", "step_id": "steps", "step_ids": "steps", "photos": "photos"}
_STATES = ("before", "after")
Identity = tuple[Any, ...]


@dataclass(slots=True)
class Plan:
    """What to add, by noun, with ids as they will be; how many things were the same; and what is in conflict."""

    new: dict[str, list[Row]] = field(default_factory=lambda: {noun.name: [] for noun in NOUNS})
    same: Counter[str] = field(default_factory=Counter)
    conflicts: list[str] = field(default_factory=list)


class Side:
    """A document with what is looked up in it."""

    def __init__(self, document: Mapping[str, Any]) -> None:
        self.rows: dict[str, dict[int, Row]] = {
            noun.name: {row["id"]: row for row in document[noun.name]} for noun in NOUNS
        }
        self.owned: dict[tuple[str, int], list[tuple[Noun, Row]]] = defaultdict(list)
        self.history: dict[tuple[str, int], list[Row]] = defaultdict(list)
        for noun in NOUNS:
            if noun.owner is not None:
                owner = noun.field(noun.owner).refers
                for row in document[noun.name]:
                    self.owned[owner or "", row[noun.owner]].append((noun, row))
        for change in document["changes"]:
            self.history[CHANGED[change["noun"]], change["noun_id"]].append(change)
        self._identities: dict[tuple[str, int], Identity] = {}

    @cached_property
    def by_identity(self) -> dict[str, dict[Identity, Row]]:
        """The rows of each noun by what makes them the same thing."""
        return {
            noun.name: {self.identity(noun, row): row for row in self.rows[noun.name].values()}
            for noun in NOUNS
            if noun.key
        }

    def identity(self, noun: Noun, row: Row) -> Identity:
        """Return what makes a row the same thing in any document."""
        known = self._identities.get((noun.name, row["id"]))
        if known is None:
            known = tuple(self.resolved(noun, name, row) for name in noun.key)
            self._identities[noun.name, row["id"]] = known
        return known

    def resolved(self, noun: Noun, name: str, row: Row) -> Any:
        """Return the value of a field; of one that points to a row, the identity of that."""
        refers = noun.field(name).refers
        if refers is None or row[name] is None:
            return row[name]
        return self.identity(BY_NAME[refers], self.rows[refers][row[name]])

    def portrait(self, noun: Noun, row: Row) -> dict[str, Any]:
        """Return all that is said of a thing, without the ids of this document: equal portraits, same thing."""
        facts = {each.name: self.resolved(noun, each.name, row) for each in noun.fields if each.name != "id"}
        for name in _HOLDING_IDS.get(noun.name, ()):
            facts[name] = _swapped(row[name], self._identity_of)
        parts: dict[str, list[tuple[str, Any]]] = defaultdict(list)
        for part, owned in self.owned.get((noun.name, row["id"]), ()):
            parts[part.name].append((repr(self.identity(part, owned)), self.portrait(part, owned)))
        facts |= {name: sorted(found, key=lambda each: each[0]) for name, found in parts.items()}
        told = self.history.get((noun.name, row["id"]), ())
        facts["history"] = [self._portrait_of_change(change) for change in told]
        return facts

    def _portrait_of_change(self, change: Row) -> Row:
        facts = {name: value for name, value in change.items() if name not in ("id", "noun_id")}
        return facts | {name: _swapped(facts[name], self._identity_of, _points_to(change)) for name in _STATES}

    def _identity_of(self, name: str, id_: int) -> Any:
        row = self.rows[name].get(id_)
        return id_ if row is None else self.identity(BY_NAME[name], row)


def plan(file: Mapping[str, Any], here: Mapping[str, Any]) -> Plan:
    """Return what a document adds to what is here."""
    return _Merger(Side(file), Side(here)).run()


class _Merger:
    """One merge under way: `ids` gives the id that each row of the file has, or will have, here."""

    def __init__(self, file: Side, here: Side) -> None:
        self.file, self.here = file, here
        self.plan = Plan()
        self.changes: list[Row] = []
        self.ids: dict[str, dict[int, int]] = {noun.name: {} for noun in NOUNS}
        self.refused: set[tuple[str, int]] = set()
        self.used = {noun.name: set(here.rows[noun.name]) for noun in NOUNS}
        self.next = {noun.name: 1 + max((*here.rows[noun.name], *file.rows[noun.name]), default=0) for noun in NOUNS}
        self.client_keys = {
            name: {row["client_key"] for row in here.rows[name].values() if row["client_key"]}
            for name in ("notes", "photos")
        }

    def run(self) -> Plan:
        for noun in NOUNS:
            if noun.owner is None and noun.key:
                for row in self.file.rows[noun.name].values():
                    self._take(noun, row)
        self.plan.new["changes"] = self._moved_changes()
        for rows in self.plan.new.values():
            rows.sort(key=lambda row: row["id"])
        return self.plan

    def _take(self, noun: Noun, row: Row) -> None:
        missing = self._missing_parent(noun, row)
        if missing:
            self._refuse(noun, row, f"left out, because {missing} was not brought in")
            return
        there = self.here.by_identity[noun.name].get(self.file.identity(noun, row))
        if there is None:
            self._take_new(noun, row)
            return
        self._map(noun, row, there)
        ours, theirs = self.here.portrait(noun, there), self.file.portrait(noun, row)
        if ours == theirs:
            self.plan.same[noun.name] += 1
            return
        differing = [name for name in (ours | theirs) if ours.get(name) != theirs.get(name)]
        if set(differing) & set(noun.defining):
            self._refuse(noun, row, f"another one of that name is here ({', '.join(differing)}): rename one of them")
        else:
            self._tell(noun, row, f"differs from the one here in {', '.join(differing)}; the one here stays as it is")

    def _missing_parent(self, noun: Noun, row: Row) -> str:
        for part, one in self._whole(noun, row):
            for each in part.fields:
                if each.refers and (each.refers, one[each.name]) in self.refused:
                    return self._label(BY_NAME[each.refers], self.file.rows[each.refers][one[each.name]])
        return ""

    def _take_new(self, noun: Noun, row: Row) -> None:
        key = row.get("client_key")
        if key is not None and key in self.client_keys[noun.name]:
            self._refuse(noun, row, f"its client_key {key!r} belongs to something else here")
            return
        for part, one in self._whole(noun, row):
            self.ids[part.name][one["id"]] = self._free_id(part.name, one["id"])
        for part, one in self._whole(noun, row):
            self.plan.new[part.name].append(self._moved(part, one))
            self.changes += self.file.history[part.name, one["id"]]

    def _whole(self, noun: Noun, row: Row) -> Iterator[tuple[Noun, Row]]:
        yield noun, row
        for part, owned in self.file.owned.get((noun.name, row["id"]), ()):
            yield from self._whole(part, owned)

    def _free_id(self, name: str, wanted: int) -> int:
        """Return the row's own id where it is free: what is written on paper still holds."""
        id_ = wanted
        if wanted in self.used[name] or wanted < 1:
            id_, self.next[name] = self.next[name], self.next[name] + 1
        self.used[name].add(id_)
        return id_

    def _moved(self, noun: Noun, row: Row) -> Row:
        moved: Row = {"id": self.ids[noun.name][row["id"]]}
        for each in noun.fields:
            if each.name != "id":
                points = each.refers is not None and row[each.name] is not None
                moved[each.name] = self.ids[each.refers or ""][row[each.name]] if points else row[each.name]
        for name in _HOLDING_IDS.get(noun.name, ()):
            moved[name] = _swapped(row[name], self._id_here)
        return moved

    def _moved_changes(self) -> list[Row]:
        """Return the history of what is new. Its numbers are its order: all keep theirs, or all are counted on."""
        told = sorted(self.changes, key=lambda change: change["id"])
        free = not any(change["id"] in self.used["changes"] for change in told)
        ids = [change["id"] if free else self.next["changes"] + i for i, change in enumerate(told)]
        return [self._moved_change(change, id_) for id_, change in zip(ids, told, strict=True)]

    def _moved_change(self, change: Row, id_: int) -> Row:
        states = {name: _swapped(change[name], self._id_here, _points_to(change)) for name in _STATES}
        of = self.ids[CHANGED[change["noun"]]][change["noun_id"]]
        return change | states | {"id": id_, "noun_id": of}

    def _id_here(self, name: str, id_: int) -> int:
        return self.ids[name].get(id_, id_)

    def _map(self, noun: Noun, row: Row, there: Row) -> None:
        """Remember the ids of a thing that is here, and of its parts, for what points to them."""
        self.ids[noun.name][row["id"]] = there["id"]
        for part, owned in self.file.owned.get((noun.name, row["id"]), ()):
            match = self.here.by_identity[part.name].get(self.file.identity(part, owned))
            if match is not None:
                self._map(part, owned, match)
            else:
                self.refused.add((part.name, owned["id"]))

    def _refuse(self, noun: Noun, row: Row, why: str) -> None:
        for part, one in self._whole(noun, row):
            self.refused.add((part.name, one["id"]))
        self._tell(noun, row, why)

    def _tell(self, noun: Noun, row: Row, why: str) -> None:
        self.plan.conflicts.append(f"{self._label(noun, row)}: {why}")

    def _label(self, noun: Noun, row: Row) -> str:
        name = next((str(row[name]) for name in _NAMED_BY if row.get(name)), str(row["id"]))
        build = self.file.rows["builds"].get(row.get("build_id") or 0)
        of = f" of {build['key']}" if build else ""
        return f"{_SINGULAR.get(noun.name, noun.name[:-1].replace('_', ' '))} {name}{of}"


def _swapped(value: Any, swap: Callable[[str, int], Any], of: str = "") -> Any:
    """Return a JSON value in which the ids of notes, steps and photos are swapped for something else."""
    if isinstance(value, dict):
        return {key: _swapped(item, swap, _POINTING.get(key, "")) for key, item in value.items()}
    if isinstance(value, list):
        return [_swapped(item, swap, of) for item in value]
    return swap(of, value) if of and isinstance(value, int) and not isinstance(value, bool) else value


def _points_to(change: Row) -> str:
    """Return the noun whose id a change holds as its value by itself, or ""."""
    named = change["what"].startswith("photo ") or change["what"] == "reference photo"
    return "photos" if named else ""
