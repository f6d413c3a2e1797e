"""What was misheard: words that sound like the shop's names and terms.

First the mishearings that the catalogue lists (`heard_as`); then, around unusual words and in the places
where only a material can stand, names that sound and look alike.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from spacy.lang.en.stop_words import STOP_WORDS

from journal.read import materials_patterns as patterns
from journal.read.findings import Findings, Found, MaterialSaid, NoteWords, TermHeard
from journal.read.lexicon import JOINERS, Match, matches, plain_names
from journal.read.ordinary import is_english, is_of, is_ordinary
from journal.read.sound_index import SoundIndex, Target, bounds_of, closest, sound_index
from journal.record import Flag

LISTED, ALIKE = 0.8, 0.55
DOUBTED = 0.5
MOST_WORDS = 4
LAYER_WORDS = frozenset({"layer", "layers", "ply", "plies"})


class _Scored(NamedTuple):
    """A name that could stand for the tokens [start, end), with its score (0 to 200)."""

    score: float
    start: int
    end: int
    target: Target
    least: float

    @property
    def confidence(self) -> float:
        return ALIKE + 0.2 * (self.score - self.least) / (200 - self.least)


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
    measured = found.of("number", "amount", "areal")
    taken = {at for item in (*out, *measured) for at in range(item.start, item.end)}
    out.extend(_alike(words, found, plain, taken))
    repairs = sorted((_with_family(item, words, plain) for item in out), key=lambda item: item.start)
    return _joined(repairs, words)


def _joined(repairs: list[Found], words: NoteWords) -> list[Found]:
    """Return the repairs in order, a family and a general name side by side as one: "poly ester jail coat"."""
    out: list[Found] = []
    for item in repairs:
        last = out[-1] if out and out[-1].end == item.start else None
        both = _named_together(last, item, words) if last else None
        if last is not None and both is not None:
            sure = min(last.confidence, item.confidence)
            out[-1] = _repair(last.start, item.end, both, False, sure, item.rule, words)
        else:
            out.append(item)
    return out


def _named_together(first: Found, second: Found, words: NoteWords) -> str | None:
    """Return the catalogue's name that two repairs make, or None."""
    one, two = first.value, second.value
    if not (isinstance(one, MaterialSaid) and isinstance(two, MaterialSaid) and two.general):
        return None
    material = words.catalogue.get(f"{one.name.split()[0]} {two.name}")
    return material.name if material else None


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
    flag = Flag("materials", f'heard "{heard}", read as {name}')
    return Found("sound", start, end, value, rule, confidence, (flag,))


def _with_family(item: Found, words: NoteWords, plain: tuple[Match, ...]) -> Found:
    """Take in the family or the general word heard plainly beside: "epoxy jell coat", "earthane rubber"."""
    value = item.value
    if not isinstance(value, MaterialSaid):
        return item
    beside = _with_a_word(item, words)
    if beside is not None:
        return beside
    after = next((name for name in plain if name.start == item.end and name.entry.general), None)
    if after is not None and value.name.endswith(" " + after.entry.name):  # "biaxle glass"
        return _repair(item.start, after.end, value.name, False, item.confidence, item.rule, words)
    for name in plain if value.general else ():
        if name.end == item.start:
            said, start, end = f"{words.doc[name.start : name.end].text} {value.name}", name.start, item.end
        elif name.start == item.end and name.entry.general:
            said, start, end = f"{value.name} {name.entry.name}", item.start, name.end
        else:
            continue
        material = words.catalogue.get(said)
        if material is not None:
            return _repair(start, end, material.name, False, item.confidence, item.rule, words)
    return item


def _with_a_word(item: Found, words: NoteWords) -> Found | None:
    """Return the repair with a plain word of its name beside it, or None: "carb on CLOTH", "TIN silly cone"."""
    value = item.value
    name = value.name.split()
    if len(name) > 1 and words.lower[item.end : item.end + 1] == (name[-1],):
        return _repair(item.start, item.end + 1, value.name, value.general, item.confidence, item.rule, words)
    if not value.general or not item.start:
        return None
    kind = words.catalogue.get(f"{words.lower[item.start - 1]} {value.name}")
    return _repair(item.start - 1, item.end, kind.name, False, item.confidence, item.rule, words) if kind else None


def _alike(words: NoteWords, found: Findings, plain: tuple[Match, ...], taken: set[int]) -> Iterator[Found]:
    """Yield repairs by sound and spelling of unusual words, and of any word where only a material can stand."""
    index = sound_index(words.catalogue)
    heard = {at for match in plain for at in range(match.start, match.end)}
    places = _places(words, found)
    done = 0
    for at, word in enumerate(words.lower):
        if at < done or at in taken or at in heard:
            continue
        if at in places:
            spans = [(at, end) for end in range(at + 1, at + 4)]
        elif _unusual(at, word, words, index):
            spans = [(s, e) for s in range(at - MOST_WORDS + 1, at + 1) for e in range(at + 1, s + MOST_WORDS + 1)]
        else:
            continue
        scored = (_scored(words, index, span, places.get(at, ""), taken, heard) for span in spans)
        best = max((s for s in scored if s is not None), default=None, key=lambda s: s.score)
        if best is not None and best.start >= done:
            target = best.target
            yield _repair(best.start, best.end, target.name, target.general, best.confidence, "sounds.alike", words)
            done = best.end


def _places(words: NoteWords, found: Findings) -> dict[int, str]:
    """Return the tokens where only a fabric or a material can stand: "layers of 450 ...", "200 grams of ..."."""
    places = {item.end: "fabric" for item in found.of("areal")}
    # "A 300 gram ..." is a fabric of that weight.
    places |= {item.end: "fabric" for item in found.of("amount") if words.lower[item.end - 1] == "gram"}
    ends = {item.end for item in found.of("amount") if item.value.unit in ("g", "ml", "percent")}
    for at, word in enumerate(words.lower[:-2]):
        if words.lower[at + 1] == "of" and (word in LAYER_WORDS or word in ("coat", "coats") or at + 1 in ends):
            after = at + 3 if words.lower[at + 2] in patterns.ARTICLES else at + 2
            places.setdefault(after, "fabric" if word in LAYER_WORDS else "material")
    return places


def _unusual(at: int, word: str, words: NoteWords, index: SoundIndex) -> bool:
    if word.isalpha() and _doubted(words, range(at, at + 1)):
        return True
    return not is_ordinary(word) and not _is_of_the_shop(word, index)


@lru_cache(maxsize=20_000)
def _is_of_the_shop(word: str, index: SoundIndex) -> bool:
    return is_of(word, index.shop_words)


def _doubted(words: NoteWords, tokens: range) -> bool:
    """Whether the hearing doubted one of the words."""
    return bool(words.probabilities) and min(words.probabilities[at] for at in tokens) < DOUBTED


def _scored(
    words: NoteWords, index: SoundIndex, span: tuple[int, int], place: str, taken: set[int], heard: set[int]
) -> _Scored | None:
    start, end = span
    if start < 0 or end > len(words.lower):
        return None
    said = [word for word in words.lower[start:end] if word not in JOINERS]
    inside = range(start, end)
    if not taken.isdisjoint(inside) or not all(word.isalpha() for word in said) or STOP_WORDS.issuperset(said):
        return None
    if any(words.lower[at] == "the" and words.tags[at - 1][0] == "V" for at in range(start + 1, end)):
        return None  # "Dave mixed the resin"
    within = frozenset(words.lower[at] for at in inside if at in heard)
    real = all(map(is_english, said)) and not _doubted(words, inside)
    best = closest(index, "".join(said), place, within, real)
    return None if best is None else _Scored(best[0], start, end, best[1], bounds_of(place, real).both)
