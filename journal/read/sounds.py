"""What was misheard: words that sound like the shop's names and terms.

First the mishearings that the catalogue lists (`heard_as`), then, around unusual words only, names that
sound and look alike. Sound is compared by metaphone code of the letters without spaces.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import jellyfish
from rapidfuzz import fuzz

from journal.read import materials_patterns as patterns
from journal.read.findings import Findings, Found, MaterialSaid, NoteWords, TermHeard
from journal.read.lexicon import JOINERS, Lexicon, Match, compiled, matches, plain_names, squash
from journal.read.ordinary import is_ordinary
from journal.record import Flag
from journal.trade.material import Catalogue, Material, ShopWord

LISTED = 0.8
LEAST_SOUND, LEAST_SPELLING, LEAST_BOTH = 80.0, 60.0, 156.0
LEAST_LETTERS, LEAST_CODE = 5, 4
DOUBTED = 0.5
MOST_WORDS = 4


@dataclass(frozen=True, slots=True)
class _Target:
    letters: str
    code: str
    name: str
    general: bool
    term: bool


@dataclass(frozen=True, slots=True, eq=False)
class SoundIndex:
    """A catalogue's mishearings: those listed, and its names by the first letter of their sound."""

    listed: Lexicon
    terms: frozenset[str]
    by_key: dict[str, tuple[_Target, ...]]
    shop_words: frozenset[str]


def _listed(catalogue: Catalogue) -> Iterator[tuple[str, str, bool, bool]]:
    for material in catalogue.materials:
        for heard in material.heard_as:
            yield heard, material.name, False, material.is_fabric
    for word in (*catalogue.general_words, *catalogue.terms):
        for heard in word.heard_as:
            yield heard, word.name, word in catalogue.general_words, False


def _targets(catalogue: Catalogue) -> Iterator[_Target]:
    named: list[tuple[Material | ShopWord, bool, bool]] = [
        *((material, False, False) for material in catalogue.materials),
        *((word, True, False) for word in catalogue.general_words),
        *((term, False, True) for term in catalogue.terms),
    ]
    seen = set()
    for entry, general, term in named:
        for spelling in (entry.name, *entry.synonyms):
            letters = squash(spelling.casefold())
            code = jellyfish.metaphone(letters).replace(" ", "")
            if letters in seen or len(letters) < LEAST_LETTERS or len(code) < LEAST_CODE:
                continue
            seen.add(letters)
            yield _Target(letters, code, entry.name, general, term)


@lru_cache(maxsize=8)
def sound_index(catalogue: Catalogue) -> SoundIndex:
    """Return the catalogue's mishearings; worked out once a catalogue."""
    by_key: dict[str, list[_Target]] = {}
    for target in _targets(catalogue):
        by_key.setdefault(target.code[0], []).append(target)
    entries: list[Material | ShopWord] = [*catalogue.materials, *catalogue.general_words, *catalogue.terms]
    spellings = (spelling for entry in entries for spelling in (entry.name, *entry.synonyms))
    shop_words = {word for spelling in spellings for word in spelling.casefold().replace("-", " ").split()}
    return SoundIndex(
        compiled(_listed(catalogue)),
        frozenset(term.name for term in catalogue.terms),
        {key: tuple(targets) for key, targets in by_key.items()},
        frozenset(shop_words),
    )


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the repairs by sound, kind "sound": MaterialSaid with `misheard` set, or TermHeard.

    Material repairs carry a flag on `materials`; a term's repair is flagged by whoever uses it, on the
    field where the value lands. A repair that covers a plain name ("polyester jell coat") is meant to
    replace it. Names that were plainly heard, and numbers found so far, are never touched.
    """
    index = sound_index(words.catalogue)
    plain = plain_names(words.lower, words.catalogue)
    listed = [m for m in matches(words.lower, index.listed) if _stands(m, words, found, plain)]
    out = [_repair(m.start, m.end, m.entry.name, m.entry.general, LISTED, "sounds.listed", words) for m in listed]
    spans = [(x.start, x.end) for x in (*out, *found.of("number"))] + [(x.start, x.end) for x in plain]
    taken = {at for start, end in spans for at in range(start, end)}
    out.extend(_alike(words, index, taken))
    return sorted((_with_family(item, words, plain) for item in out), key=lambda item: item.start)


def _stands(match: Match, words: NoteWords, found: Findings, plain: tuple[Match, ...]) -> bool:
    """Whether a listed mishearing is one here.

    A plain name that is as long wins. One ordinary word ("matt") needs a material's place before it.
    """
    if any(name.start <= match.start and name.end >= match.end for name in plain):
        return False
    word = words.lower[match.start]
    if match.end - match.start > 1 or not is_ordinary(word):
        return True
    if words.lower[match.end : match.end + 1] and words.lower[match.end] in patterns.NOT_BEFORE.get(word, ()):
        return False
    before = words.lower[match.start - 1] if match.start else ""
    return before == "of" or any(item.end == match.start for item in found.of("amount", "areal", "number"))


def _repair(start: int, end: int, name: str, general: bool, confidence: float, rule: str, words: NoteWords) -> Found:
    heard = words.doc[start:end].text
    if name in sound_index(words.catalogue).terms:
        return Found("sound", start, end, TermHeard(name, heard), rule, confidence)
    value = MaterialSaid(name, known=True, general=general, misheard=heard)
    return Found("sound", start, end, value, rule, confidence, (_flag(value),))


def _flag(value: MaterialSaid) -> Flag:
    return Flag("materials", f'heard "{value.misheard}", read as {value.name}')


def _with_family(item: Found, words: NoteWords, plain: tuple[Match, ...]) -> Found:
    """Take in the family heard plainly before a misheard general word: "epoxy jell coat"."""
    value = item.value
    before = next((name for name in plain if name.end == item.start), None)
    if before is None or not isinstance(value, MaterialSaid) or not value.general:
        return item
    said = words.doc[before.start : before.end].text
    material = words.catalogue.get(f"{said} {value.name}")
    if material is None:
        return item
    value = MaterialSaid(material.name, known=True, misheard=words.doc[before.start : item.end].text)
    return Found("sound", before.start, item.end, value, item.rule, item.confidence, (_flag(value),))


def _alike(words: NoteWords, index: SoundIndex, taken: set[int]) -> Iterator[Found]:
    """Yield the repairs of unusual words by sound and spelling, the best window of each."""
    done = -1
    for at, word in enumerate(words.lower):
        if at <= done or at in taken or not _unusual(at, word, words, index):
            continue
        best = max(_windows(words, index, at, taken), default=None, key=lambda scored: scored[0])
        if best is not None:
            score, start, end, target = best
            confidence = 0.55 + 0.2 * (score - LEAST_BOTH) / (200 - LEAST_BOTH)
            yield _repair(start, end, target.name, target.general, confidence, "sounds.alike", words)
            done = end - 1


def _unusual(at: int, word: str, words: NoteWords, index: SoundIndex) -> bool:
    if words.probabilities and words.probabilities[at] < DOUBTED and word.isalpha():
        return True
    return not is_ordinary(word) and word not in index.shop_words


def _windows(
    words: NoteWords, index: SoundIndex, at: int, taken: set[int]
) -> Iterator[tuple[float, int, int, _Target]]:
    size = len(words.lower)
    for start in range(max(0, at - MOST_WORDS + 1), at + 1):
        for end in range(at + 1, min(size, start + MOST_WORDS) + 1):
            inside = range(start, end)
            if taken.isdisjoint(inside) and all(words.lower[i].isalpha() or words.lower[i] in JOINERS for i in inside):
                letters = "".join(words.lower[i] for i in inside if words.lower[i] not in JOINERS)
                scored = _closest(index, letters)
                if scored is not None:
                    yield scored[0], start, end, scored[1]


@lru_cache(maxsize=50_000)
def _closest(index: SoundIndex, letters: str) -> tuple[float, _Target] | None:
    """Return the name that sounds and looks most like the letters, with its score (0 to 200), or None."""
    if len(letters) < LEAST_LETTERS - 1:
        return None
    code = jellyfish.metaphone(letters).replace(" ", "")
    best: tuple[float, _Target] | None = None
    for target in index.by_key.get(code[:1], ()):
        if abs(len(target.code) - len(code)) > 2:
            continue
        sound = fuzz.ratio(code, target.code, score_cutoff=LEAST_SOUND)
        spelling = fuzz.ratio(letters, target.letters, score_cutoff=LEAST_SPELLING) if sound else 0.0
        score = sound + spelling
        if spelling and score >= LEAST_BOTH and (best is None or score > best[0]):
            best = score, target
    return best
