"""Part A and part B: which material a part belongs to, and second parts named with their resin."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from journal.read import materials_patterns as patterns
from journal.read.findings import Findings, Found, MaterialSaid, NoteWords
from journal.trade.material import Catalogue

BESIDE, ELSEWHERE, ALONE, PLACE = 0.92, 0.7, 0.5, 0.4
_SECOND_KINDS = frozenset({"hardener", "catalyst", "accelerator"})
# The tokenizer leaves the full stop on a letter that ends a sentence.
_LETTERS = frozenset({"a", "b", "a.", "b."})


@dataclass(frozen=True, slots=True)
class _PartSaid:
    start: int
    end: int
    letter: str
    certain: bool


def with_parts(words: NoteWords, found: Findings, named: list[Found]) -> list[Found]:
    """Return the materials with what is said of their parts taken in.

    "Part B of the silicone" is silicone with part B; "the B" alone takes the two-part material named
    nearest in the note, else it is named by its words ("part b", general, not known) for whoever knows the build.
    "Hardener for the gel coat" and "gel coat hardener" are hardener.
    """
    named = _second_parts(words, named)
    parts = list(_parts(words, found, named))
    if not parts:
        return named
    out, used = [], set()
    for part in parts:
        owner = _owner_beside(words, part, named)
        if owner is not None:
            used.add(id(owner))
        out.append(_bound(part, owner, words, named))
    return sorted([*out, *(item for item in named if id(item) not in used)], key=lambda item: item.start)


def _second_parts(words: NoteWords, named: list[Found]) -> list[Found]:
    """Take the resin that a hardener or catalyst is said to be for into the second part's own finding."""
    out: list[Found] = []
    for item in named:
        before = out[-1] if out else None
        if before is not None and _is_second(before, words.catalogue) and _is_for(words, before.end, item.start):
            out[-1] = before.moved(before.start, item.end)
        elif before is not None and before.end == item.start and _is_second(item, words.catalogue):
            out[-1] = item.moved(before.start, item.end)
        else:
            out.append(item)
    return out


def _is_for(words: NoteWords, start: int, end: int) -> bool:
    between = words.lower[start:end]
    return between[:1] == ("for",) and all(word in patterns.ARTICLES for word in between[1:])


def _is_second(item: Found, catalogue: Catalogue) -> bool:
    material = catalogue.get(item.value.name)
    return material is not None and material.kind in _SECOND_KINDS


def _parts(words: NoteWords, found: Findings, named: list[Found]) -> Iterator[_PartSaid]:
    taken = {token for item in named for token in range(item.start, item.end)}
    last: _PartSaid | None = None
    for at, word in enumerate(words.lower):
        if word not in _LETTERS or at in taken or (last is not None and at < last.end):
            continue
        part = _worded(words, found, at, named) or _bare(words, found, at, last, named)
        if part is not None and (last is None or part.start >= last.end):
            yield part
            last = part


def _worded(words: NoteWords, found: Findings, at: int, named: list[Found]) -> _PartSaid | None:
    """Part B, part-B, side B, component B; B side, the A part."""
    lower, letter = words.lower, words.lower[at][0].upper()
    before = at - 2 if at > 1 and lower[at - 1] == "-" else at - 1
    if before >= 0 and lower[before] in patterns.PART_WORDS and not _is_article(words, at):
        return _sided(words, found, _PartSaid(before, at + 1, letter, True), lower[before], named)
    after = at + 2 if lower[at + 1 : at + 2] == ("-",) else at + 1
    if after < len(lower) and lower[after] in patterns.PART_WORDS:
        sure = letter == "B" or (words.doc[at].text == "A" and at > 0) or (at > 0 and lower[at - 1] == "the")
        part = _PartSaid(at, after + 1, letter, True)
        return _sided(words, found, part, lower[after], named) if sure else None
    return None


def _sided(words: NoteWords, found: Findings, part: _PartSaid, word: str, named: list[Found]) -> _PartSaid | None:
    """Take "the B side" for part B only where something is weighed: a mould has sides too."""
    if word != "side":
        return part
    if _owner_beside(words, part, named) is not None:
        return part
    amounts = found.of("amount")
    if words.lower[part.end : part.end + 1] == ("of",) or not amounts:
        return None
    near = any(-1 <= part.start - item.end <= 3 or -1 <= item.start - part.end <= 2 for item in amounts)
    return replace(part, certain=near)


def _is_article(words: NoteWords, at: int) -> bool:
    """Whether "part a" is the article of what follows ("in part a question of")."""
    after = words.tags[at + 1] if at + 1 < len(words.tags) else ""
    return words.doc[at].text == "a" and after.startswith(("NN", "JJ"))


def _bare(words: NoteWords, found: Findings, at: int, last: _PartSaid | None, named: list[Found]) -> _PartSaid | None:
    """A letter alone where a material would stand: "70 of B", "the B", "epoxy A", "A and B"."""
    lower, text = words.lower, words.doc[at].text.rstrip(".")
    after = lower[at + 1] if at + 1 < len(lower) else ""
    if (
        (text == "a" and not _is_letter_a(words, at))
        or after in patterns.PLACES_AFTER
        or (after == "." and text == "A" and not at)
    ):
        return None
    before = lower[at - 1] if at else ""
    follows = (
        before in ("of", "the")
        or any(item.end == at for item in (*named, *found.of("amount")))
        or (last is not None and 0 < at - last.end <= 2 and before in ("and", "to", "with", "plus"))
        or (text in ("A", "B") and _is_weighed_pair(words, found, at))
        or (text == "A" and lower[at + 1 : at + 3] in (("and", "b"), ("to", "b"), ("with", "b"), ("plus", "b")))
    )
    return _PartSaid(at, at + 1, text.upper(), True) if follows else None


def _is_weighed_pair(words: NoteWords, found: Findings, at: int) -> bool:
    """Whether this letter and the other one each stand before a number: "A one twenty, B one twenty"."""
    starts = {item.start for item in found.of("number", "amount")}
    other = "b" if words.lower[at] == "a" else "a"
    return _leads_to(words, at, starts) and any(
        w == other and _leads_to(words, i, starts) for i, w in enumerate(words.lower)
    )


def _leads_to(words: NoteWords, at: int, starts: set[int]) -> bool:
    """Whether a number stands after the token: "A 212", "A is 212", "B: 59"."""
    return at + 1 in starts or (at + 2 in starts and words.lower[at + 1] in ("is", "'s", "was", ":", "=", "at"))


def _is_letter_a(words: NoteWords, at: int) -> bool:
    """Whether a small "a" is the part ("100 of a to 28 of b") and no article."""
    after = words.lower[at + 1 : at + 2]
    listed = words.tags[at + 1 : at + 2] == ("CD",) and ("of", "b") in pairwise(words.lower)
    closed = after in (("to",), ("and",), ("with",), (",",), (".",), ())
    return words.lower[at - 1 : at] == ("of",) and (closed or listed)


def _owner_beside(words: NoteWords, part: _PartSaid, named: list[Found]) -> Found | None:
    for item in named:
        if item.end <= part.start:
            between = words.lower[item.end : part.start]
            if between in ((), (",",), ("'s",), ("the",), (",", "the"), ("-",)) and _has_parts(item, words.catalogue):
                return item
        elif item.start >= part.end:
            between = words.lower[part.end : item.start]
            if between[:1] in (("of",), ("for",)) and all(word in patterns.ARTICLES for word in between[1:]):
                return item
    return None


def _has_parts(item: Found, catalogue: Catalogue) -> bool:
    value: MaterialSaid = item.value
    candidates = catalogue.meant_by(value.name) if value.general else (catalogue.get(value.name),)
    return any(material is not None and material.second_part is not None for material in candidates)


def _bound(part: _PartSaid, owner: Found | None, words: NoteWords, named: list[Found]) -> Found:
    if owner is not None:
        start, end = min(part.start, owner.start), max(part.end, owner.end)
        value = replace(owner.value, part=part.letter)
        confidence = min(owner.confidence, BESIDE) if part.certain else PLACE
        return Found("material", start, end, value, "materials.part", confidence, owner.flags)
    near = _nearest(part, [item for item in named if _has_parts(item, words.catalogue)])
    if near is not None:
        confidence = ELSEWHERE if part.certain else PLACE
        value = replace(near.value, part=part.letter)
        return Found("material", part.start, part.end, value, "materials.part-elsewhere", confidence, near.flags)
    value = MaterialSaid(f"part {part.letter.lower()}", known=False, general=True, part=part.letter)
    return Found("material", part.start, part.end, value, "materials.part-alone", ALONE if part.certain else PLACE)


def _nearest(part: _PartSaid, candidates: list[Found]) -> Found | None:
    before = [item for item in candidates if item.end <= part.start]
    return before[-1] if before else next(iter(candidates), None)
