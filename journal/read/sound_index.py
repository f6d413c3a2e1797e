"""A catalogue's names as they sound: metaphone codes worked out once, and the closest to what was heard."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import jellyfish
from rapidfuzz import fuzz, process

from journal.read.lexicon import Lexicon, compiled, squash
from journal.trade.material import Catalogue, Material, ShopWord

MOST_COMPARED = 6
# The shorter the code, the more words share it: so much more alike than its bounds a name has to be.
SHORT_CODE = {3: 12, 4: 8, 5: 4}


@dataclass(frozen=True, slots=True)
class Bounds:
    """How alike a name has to be: percent of its sound, of its spelling, and both added up.

    Names with fewer letters or a shorter code than given are not compared: they are like too much.
    """

    sound: float
    spelling: float
    both: float
    letters: int
    code: int


# Tuned on notes spoken by two synthetic voices in noise; tests/read/test_sounds.py measures two others.
ANYWHERE = Bounds(sound=75, spelling=60, both=150, letters=5, code=4)
REAL_WORDS = Bounds(sound=80, spelling=60, both=174, letters=5, code=4)
IN_PLACE = Bounds(sound=80, spelling=40, both=140, letters=4, code=3)
REAL_WORDS_IN_PLACE = Bounds(sound=95, spelling=40, both=140, letters=4, code=3)


@dataclass(frozen=True, slots=True)
class Target:
    """One name of the catalogue as it is spelled and sounds; `words` are those of its spelling."""

    letters: str
    code: str
    name: str
    general: bool
    kind: str
    words: frozenset[str]


@dataclass(frozen=True, slots=True)
class Targets:
    """Targets with their codes in a list beside them, as the comparison wants them."""

    items: tuple[Target, ...]
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class SoundIndex:
    """A catalogue's listed mishearings, its names and terms, its materials, and its fabrics alone."""

    listed: Lexicon
    terms: frozenset[str]
    anywhere: Targets
    materials: Targets
    fabrics: Targets
    shop_words: frozenset[str]


def sound_of(letters: str) -> str:
    """Return the metaphone code of letters without spaces; all vowels it starts with count as one."""
    code = str(jellyfish.metaphone(letters)).replace(" ", "")
    return "A" + code[1:] if code[:1] in ("E", "I", "O", "U") else code


@lru_cache(maxsize=8)
def sound_index(catalogue: Catalogue) -> SoundIndex:
    """Return the catalogue's sounds; worked out once a catalogue."""
    targets = tuple(_targets(catalogue))
    materials = [t for t in targets if t.kind != "term"]
    entries: list[Material | ShopWord] = [*catalogue.materials, *catalogue.general_words, *catalogue.terms]
    spellings = (spelling for entry in entries for spelling in (entry.name, *entry.synonyms))
    return SoundIndex(
        compiled(_listed(catalogue)),
        frozenset(term.name for term in catalogue.terms),
        _fit(targets, ANYWHERE),
        _fit(materials, IN_PLACE),
        _fit([t for t in materials if t.kind == "fabric"], IN_PLACE),
        frozenset(word for spelling in spellings for word in _words(spelling)),
    )


def _listed(catalogue: Catalogue) -> Iterator[tuple[str, str, bool, bool]]:
    for material in catalogue.materials:
        for heard in material.heard_as:
            yield heard, material.name, False, material.is_fabric
    for word in (*catalogue.general_words, *catalogue.terms):
        for heard in word.heard_as:
            yield heard, word.name, word in catalogue.general_words, False


def _targets(catalogue: Catalogue) -> Iterator[Target]:
    named: list[tuple[Material | ShopWord, bool, str]] = [
        *((material, False, "fabric" if material.is_fabric else "material") for material in catalogue.materials),
        *((word, True, "material") for word in catalogue.general_words),
        *((term, False, "term") for term in catalogue.terms),
    ]
    seen = set()
    for entry, general, kind in named:
        for spelling in (entry.name, *entry.synonyms):
            letters = squash(spelling.casefold())
            if letters not in seen and letters.isalpha():
                seen.add(letters)
                yield Target(letters, sound_of(letters), entry.name, general, kind, _words(spelling))


def _words(spelling: str) -> frozenset[str]:
    return frozenset(spelling.casefold().replace("-", " ").split())


def _fit(targets: tuple[Target, ...] | list[Target], bounds: Bounds) -> Targets:
    items = tuple(t for t in targets if len(t.letters) >= bounds.letters and len(t.code) >= bounds.code)
    return Targets(items, tuple(t.code for t in items))


def bounds_of(place: str, real: bool) -> Bounds:
    """Return how alike a name has to be in a place, for real words or not."""
    if place:
        return REAL_WORDS_IN_PLACE if real else IN_PLACE
    return REAL_WORDS if real else ANYWHERE


@lru_cache(maxsize=50_000)
def closest(
    index: SoundIndex, letters: str, place: str = "", within: frozenset[str] = frozenset(), real: bool = False
) -> tuple[float, Target] | None:
    """Return the name that sounds and looks most like the letters, with its score (0 to 200), or None.

    `place` is "fabric" or "material" where only such a thing can stand, else "". `within` are words plainly
    heard among the letters: the name has to hold them. `real` asks for more, since every word heard is a
    word of English.
    """
    bounds = bounds_of(place, real)
    if len(letters) < bounds.letters - 1:
        return None
    targets = {"": index.anywhere, "material": index.materials, "fabric": index.fabrics}[place]
    best: tuple[float, Target] | None = None
    for _, sound, at in process.extract(
        sound_of(letters), targets.codes, scorer=fuzz.ratio, score_cutoff=bounds.sound, limit=MOST_COMPARED
    ):
        target = targets.items[at]
        spelling = fuzz.ratio(letters, target.letters, score_cutoff=bounds.spelling)
        score = sound + spelling if spelling and within <= target.words else 0.0
        if score >= bounds.both + SHORT_CODE.get(len(target.code), 0) * (not place) and (
            best is None or score > best[0]
        ):
            best = score, target
    return best
