"""What a catalogue's names look like among the words of a note: one scan, longest name first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from journal.trade.material import Catalogue

JOINERS = frozenset({"-", "–", "‑", "/"})
"""Tokens that a name may be written with or without ("gel-coat")."""

_DIALECTS = (
    ("fibre", "fiber"), ("mould", "mold"), ("colour", "color"), ("grey", "gray"), ("catalys", "catalyz"),
    ("modelling", "modeling"), ("sulphur", "sulfur"),
)  # fmt: skip
# "Plies" are layers, never plywood.
_NO_PLURAL = ("glass", "water", "carbon", "cat", "ply", "gel", "bag", "woven")


@dataclass(frozen=True, slots=True)
class Entry:
    """A name as the record writes it. `breaks` are the letters of its squashed form after which a word ends."""

    name: str
    general: bool
    breaks: frozenset[int]
    fabric: bool = False


class Match(NamedTuple):
    """An entry met in the tokens [start, end)."""

    start: int
    end: int
    entry: Entry


@dataclass(frozen=True, slots=True)
class Lexicon:
    """Names by their letters alone, every beginning of one, so that a scan stops early, and which are fabrics."""

    entries: dict[str, Entry]
    beginnings: frozenset[str]
    fabrics: frozenset[str] = frozenset()


def squash(text: str) -> str:
    """Return the letters and digits of the text, in lower case; a slash between digits ("0/90") is kept."""
    if text.isalnum():
        return text
    letters = "".join(c for c in text.casefold() if c.isalnum())
    return text if letters.isdigit() and "/" in text[1:-1] else letters


def _plurals(text: str) -> Iterator[str]:
    if text.endswith(_NO_PLURAL):
        return
    if text.endswith("y") and text[-2:-1] not in "aeiou":
        yield text[:-1] + "ies"
    elif text.endswith(("s", "x", "ch", "sh")):
        yield text + "es"
    else:
        yield text + "s"


def both_spellings(text: str) -> Iterator[str]:
    """Yield a lower-case text as it is, and as the other side of the Atlantic spells it."""
    yield text
    for british, american in _DIALECTS:
        if british in text:
            yield text.replace(british, american)
        elif american in text:
            yield text.replace(american, british)


def _breaks(name: str) -> frozenset[int]:
    ends, length = [], 0
    for word in name.replace("-", " ").replace("'", " ").split():
        length += len(squash(word))
        ends.append(length)
    return frozenset(ends[:-1])


def _spellings(catalogue: Catalogue) -> Iterator[tuple[str, str, bool, bool]]:
    """Yield (spelling, name, general, fabric), the spellings that win first."""
    for material in catalogue.materials:
        yield material.name, material.name, False, material.is_fabric
    for word in catalogue.general_words:
        fabric = any(m.is_fabric for m in catalogue.meant_by(word.name))
        for spelling in (word.name, *word.synonyms):
            yield spelling, word.name, True, fabric
    for material in catalogue.materials:
        for spelling in material.synonyms:
            yield spelling, material.name, False, material.is_fabric


def compiled(spellings: Iterable[tuple[str, str, bool, bool]]) -> Lexicon:
    """Return a lexicon of (spelling, name, general, fabric); of two with the same letters the first wins."""
    entries: dict[str, Entry] = {}
    plurals: dict[str, Entry] = {}
    for said, name, general, fabric in spellings:
        for spelling in both_spellings(said.casefold()):
            letters, breaks = squash(spelling), _breaks(spelling)
            known = entries.get(letters)
            if known is None:
                entries[letters] = Entry(name, general, breaks, fabric)
            elif known.name == name:
                entries[letters] = replace(known, breaks=known.breaks | breaks)
            for plural in _plurals(letters):
                plurals.setdefault(plural, entries[letters])
    entries = plurals | entries
    beginnings = frozenset(letters[:n] for letters in entries for n in range(1, len(letters) + 1))
    return Lexicon(entries, beginnings, frozenset(e.name for e in entries.values() if e.fabric))


@lru_cache(maxsize=8)
def lexicon_of(catalogue: Catalogue) -> Lexicon:
    """Return the catalogue's lexicon; worked out once a catalogue."""
    return compiled(_spellings(catalogue))


def _longest(lower: tuple[str, ...], start: int, lexicon: Lexicon) -> Match | None:
    ends: list[int] = []
    letters, best, spelled = "", None, True
    for at in range(start, len(lower)):
        word = lower[at]
        if word in JOINERS and letters:
            continue
        part = word if word.isalnum() else squash(word)
        if not part:
            break
        letters += part
        if letters not in lexicon.beginnings:
            break
        spelled = spelled and len(part) == 1
        entry = lexicon.entries.get(letters)
        if entry is not None and (spelled or entry.breaks.issuperset(ends)):
            best = Match(start, at + 1, entry)
        ends.append(len(letters))
    return best


def matches(lower: tuple[str, ...], lexicon: Lexicon) -> list[Match]:
    """Return the names met in the tokens, longest first from the left, without overlap."""
    found: list[Match] = []
    done, beginnings = 0, lexicon.beginnings
    for at, word in enumerate(lower):
        if at < done or (word.isalnum() and word not in beginnings):
            continue
        match = _longest(lower, at, lexicon)
        if match is not None:
            found.append(match)
            done = match.end
    return found


@lru_cache(maxsize=64)
def plain_names(lower: tuple[str, ...], catalogue: Catalogue) -> tuple[Match, ...]:
    """Return the catalogue's names met in the tokens; kept for the concerns that read the same note."""
    return tuple(matches(lower, lexicon_of(catalogue)))
