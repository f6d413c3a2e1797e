"""Materials named in a note: by name, by a general word, as part A or B, or unknown in a material's place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from journal.read import materials_patterns as patterns
from journal.read.findings import Findings, Found, MaterialSaid, NoteWords
from journal.read.lexicon import JOINERS, Entry, Match, plain_names
from journal.read.parts import with_parts
from journal.read.unit_words import COUNTED

NAMED, GENERAL, IN_VERB, DOUBTFUL, UNKNOWN = 0.95, 0.9, 0.85, 0.4, 0.7


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the materials of the note, kind "material", longest names first and without overlap.

    Names that here mean something else ("water level", "rubber gloves") are left out; those that are
    likely a verb ("wax the flange") are given with confidence 0.4. Reads the amounts found so
    far: an unknown noun after one, or after "coats of", is a material by the words said (`known` False);
    and the repairs by sound, which are given in place of the plain names that they cover, flags kept.
    """
    met = plain_names(words.lower, words.catalogue)
    named = [item for match in _families_joined(met, words) if (item := _named(match, words, found))]
    named = with_parts(words, found, _with_repairs([*named, *_in_verbs(words)], found))
    named = _specified(named, words)
    taken = {token for item in named for token in range(item.start, item.end)}
    unknown = (_unknown(words, at, confidence, taken) for at, confidence in _slots(words, found))
    return sorted([*named, *(item for item in unknown if item)], key=lambda item: item.start)


def _specified(named: list[Found], words: NoteWords) -> list[Found]:
    """Return general words as the one material that the note has named before: "polyester trial: 250 g resin"."""
    out: list[Found] = []
    for item in named:
        value = item.value
        if value.general and value.misheard is None:
            meant = {material.name for material in words.catalogue.meant_by(value.name)}
            told = {o.value.name: o for o in out if o.value.name in meant and o.confidence >= IN_VERB}
            if len(told) == 1 and _same_breath(words, next(iter(told.values())), item):
                value = replace(value, name=next(iter(told)), general=False)
        out.append(replace(item, value=value))
    return out


def _same_breath(words: NoteWords, first: Found, second: Found) -> bool:
    """Whether a heading names what follows: "polyester trial: 250 g resin", "latex, four coats of the rubber"."""
    between = words.lower[first.end : second.start]
    return ":" in between and len(between) <= patterns.HEADING and not {".", ";"} & set(between)


def _families_joined(met: tuple[Match, ...], words: NoteWords) -> list[Match]:
    """Join what is said of one material in two pieces.

    A family and a general word after it ("polyester tooling gel coat" is polyester gel coat); one
    material named twice in a row ("0/90 biax").
    """
    joined: list[Match] = []
    for match in met:
        before = joined[-1] if joined else None
        if before is None:
            joined.append(match)
            continue
        entry = _family_member(before, match, words) if match.entry.general else None
        if entry is None and match.entry.general and before.entry.general and before.end == match.start:
            entry = _family_member(match, before, words)  # "resin urethane"
        if before.end == match.start and before.entry.name == match.entry.name:
            entry = match.entry
        if before.end == match.start and before.entry.general and not match.entry.general:
            entry = _family_member(match, before, words)  # "gel coat epoxy"
        if entry is not None:
            joined[-1] = Match(before.start, match.end, entry)
        else:
            joined.append(match)
    return joined


def _family_member(family: Match, general: Match, words: NoteWords) -> Entry | None:
    between = words.lower[min(family.end, general.end) : max(family.start, general.start)]
    if len(between) > 2 or not all(word in patterns.BETWEEN or word in JOINERS for word in between):
        return None
    said = " ".join(words.lower[family.start : family.end])
    material = words.catalogue.get(f"{said} {general.entry.name}")
    return None if material is None else replace(general.entry, name=material.name, general=False)


def _named(match: Match, words: NoteWords, found: Findings) -> Found | None:
    if _means_something_else(match, words, found):
        return None
    entry = match.entry
    value = MaterialSaid(entry.name, known=True, general=entry.general)
    confidence, rule = (GENERAL, "materials.general") if entry.general else (NAMED, "materials.name")
    if _is_verb(match, words):
        confidence, rule = DOUBTFUL, "materials.verb"
    return Found("material", match.start, match.end, value, rule, confidence)


def _means_something_else(match: Match, words: NoteWords, found: Findings) -> bool:
    """Whether the words around make it no material: "water level", "wiped with a cloth", "the shop cat"."""
    first, last = words.lower[match.start], words.lower[match.end - 1]
    before, after = _word(words, match.start - 1), _word(words, match.end)
    if after in JOINERS:
        after = _word(words, match.end + 1)
    if after in patterns.TOOLS or after in patterns.MADE_OF or after in patterns.NOT_BEFORE.get(last, ()):
        return True
    if before in patterns.NOT_AFTER.get(first, ()):
        return True
    if first in patterns.RAGS and before == "a" and _word(words, match.start - 2) == "with":
        return True
    return match.end - match.start == 1 and _lacks_company(match, words, found, before, after)


def _lacks_company(match: Match, words: NoteWords, found: Findings, before: str, after: str) -> bool:
    """Whether a short name lacks what would make it a material: "the cat", "6 ply carbon"."""
    first = words.lower[match.start]
    if first == "ply":  # plywood is said by its thickness
        return any(number.end == match.start for number in found.of("number"))
    needed = patterns.NEEDED_BEFORE.get(first)
    if needed is None or before in needed or after in patterns.NEEDED_AFTER.get(first, ()):
        return False
    if first in ("cat", "gel") and (after[:1].isdecimal() or any(n.start == match.end for n in found.of("number"))):
        return False  # "resin 1200, cat 18"
    if first == "bag":
        return not _is_bagging(words, found)  # "a 25 kilo bag of plaster"
    return not any(item.end == match.start for item in found.of("amount", "areal"))


def _is_bagging(words: NoteWords, found: Findings) -> bool:
    """Whether the note speaks of a vacuum, or of what goes under a vacuum bag."""
    if any(item.value.kind == "vacuum" for item in found.of("condition")):
        return True
    return any(match.entry.name in patterns.BAGGING for match in plain_names(words.lower, words.catalogue))


def _in_verbs(words: NoteWords) -> Iterator[Found]:
    """Yield the materials that verbs say: "waxed the rim" is wax."""
    for at, word in enumerate(words.lower):
        name = patterns.VERB_FORMS.get(word)
        if name is not None and _word(words, at - 1) not in ("vacuum", "vac"):
            general = words.catalogue.get(name) is None
            value = MaterialSaid(name, known=True, general=general)
            yield Found("material", at, at + 1, value, "materials.in-verb", IN_VERB)


def _word(words: NoteWords, at: int) -> str:
    return words.lower[at] if 0 <= at < len(words.lower) else ""


def _is_verb(match: Match, words: NoteWords) -> bool:
    """Whether a name of one word is an act with an object: "wax the flange"."""
    at = match.start
    if match.end - at > 1 or words.lower[at] not in patterns.VERBS:
        return False
    if _word(words, at - 1) in ("to", "'ll") and _word(words, at + 1) in (
        "",
        ".",
        ",",
        ";",
        "and",
        "it",
        "today",
        "tomorrow",
    ):
        return words.tags[at].startswith("VB")  # "tacky, so we're right to glass"
    if _word(words, at + 1) not in patterns.OBJECTS:
        return False
    return words.tags[at].startswith("VB") or _word(words, at - 1) in patterns.VERB_AFTER


def _with_repairs(named: list[Found], found: Findings) -> list[Found]:
    """Put the materials repaired by sound in place of the plain names that they cover."""
    repairs = [item for item in found.of("sound") if isinstance(item.value, MaterialSaid)]
    kept = [n for n in named if not any(r.start < n.end and n.start < r.end for r in repairs)]
    made = [replace(item, kind="material") for item in repairs]
    return sorted([*kept, *made], key=lambda item: item.start)


def _slots(words: NoteWords, found: Findings) -> Iterator[tuple[int, float]]:
    """Yield where a material would stand, with the confidence of a name there: "200 grams of", "two coats of"."""
    size = len(words.lower)
    for amount in found.of("amount"):
        unit, at = amount.value.unit, amount.end
        has_of = at < size and words.lower[at] == "of"
        if has_of and unit in ("g", "ml", "percent", None):
            yield at + 1, UNKNOWN
        elif unit in ("g", "ml", "percent"):
            yield at, UNKNOWN - 0.1
    for at in range(size - 2):
        if words.lower[at] in patterns.LAID and words.lower[at + 1] == "of":
            yield at + 2, UNKNOWN


def _unknown(words: NoteWords, at: int, confidence: float, taken: set[int]) -> Found | None:
    """Return the noun that starts here as a material by the words said: "walnut dust"."""
    size = len(words.lower)
    while at < size and words.lower[at] in patterns.ARTICLES:
        at += 1
    end = at
    while end < min(size, at + 4) and _may_name(words, end, taken):
        end += 1
    while end > at and not words.tags[end - 1].startswith("NN"):
        end -= 1
    if end == at or end in taken or words.lower[end - 1] in patterns.NOT_MATERIAL or words.lower[end - 1] in COUNTED:
        return None
    if confidence < UNKNOWN and _is_done(words, at):
        return None
    name = " ".join(words.lower[at:end]).replace(" - ", "-")
    if name in patterns.COLOURS and words.lower[at - 1] == "of":
        return Found("material", at, end, MaterialSaid("pigment", known=True), "materials.colour", confidence)
    return Found("material", at, end, MaterialSaid(name, known=False), "materials.unknown", confidence)


def _is_done(words: NoteWords, at: int) -> bool:
    """Whether a new sentence or an act follows an amount: "catalyst 10 g. Brushed 1 coat", "112 g mixed well"."""
    return words.lower[at - 1].endswith(".") or words.lower[at].endswith(("ed", "ing"))


def _may_name(words: NoteWords, at: int, taken: set[int]) -> bool:
    word = words.lower[at]
    if at in taken or not (word.isalpha() or word in JOINERS):
        return False
    return word in JOINERS or words.tags[at].startswith(patterns.MATTER)
