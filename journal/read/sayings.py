"""Find sayings that name an act by several words together."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from journal.read.acts_phrases import PHRASES
from journal.read.families import WORDS
from journal.read.findings import NoteWords
from journal.read.grammar import STOPS
from journal.read.senses import forms_of, verb_forms

_GAP = 4
_OPENERS = frozenset("then and , so now next right ok okay but also - – : just we i 've 's".split())
_TAGS = {"VBD": "ed", "VBN": "ed", "VBG": "ing"}
_THINGS = frozenset("splash print face wax trim seal glass bag clay tape brush pump torch patch".split())
_DESCRIBING = frozenset("DT CD JJ PRP$ NN NNS".split())
_CUTS = STOPS | {",", ":", "then"}


@dataclass(frozen=True, slots=True)
class _Part:
    """One word of a saying: the words that it may be, the families that it may be of, or a gap before it."""

    words: frozenset[str]
    families: frozenset[str]
    gap: bool


@dataclass(frozen=True, slots=True)
class _Saying:
    """An act and its words in order; `opens` is True where the first must open a clause."""

    action: str
    parts: tuple[_Part, ...]
    opens: bool


@dataclass(frozen=True, slots=True)
class Said:
    """The tokens [start, end) that name an act, and the form of the verb among them ("" where there is none)."""

    start: int
    end: int
    action: str
    form: str


def _part(text: str, gap: bool) -> _Part:
    either = text.split("|")
    words = {word for word in either if word[0] not in "~@"}
    words |= {surface for word in either if word[0] == "~" for surface, _ in forms_of(word[1:])}
    return _Part(frozenset(words), frozenset(word[1:] for word in either if word[0] == "@"), gap)


def _saying(action: str, text: str) -> _Saying:
    parts, gap = [], False
    for piece in text.removeprefix("^").split():
        if piece != "..":
            parts.append(_part(piece, gap))
        gap = piece == ".."
    return _Saying(action, tuple(parts), text.startswith("^"))


@cache
def _by_first_word() -> dict[str, tuple[_Saying, ...]]:
    """Return the sayings by each word, or "@family", that may open them."""
    out: dict[str, list[_Saying]] = {}
    for line in filter(None, PHRASES.replace("\n   ", "").splitlines()):
        action, _, rest = line.partition(": ")
        for text in filter(None, (saying.strip() for saying in rest.split(";"))):
            saying = _saying(action, text)
            for word in saying.parts[0].words | {f"@{family}" for family in saying.parts[0].families}:
                out.setdefault(word, []).append(saying)
    return {word: tuple(sayings) for word, sayings in out.items()}


def _end(words: NoteWords, families: dict[int, set[str]], saying: _Saying, start: int) -> int | None:
    """Return the token after the saying where it stands from `start`, or None."""
    at = start + 1
    for part in saying.parts[1:]:
        for i in range(at, min(at + (_GAP if part.gap else 0) + 1, len(words.lower))):
            if words.lower[i] in part.words or not part.families.isdisjoint(families.get(i, ())):
                at = i + 1
                break
            if words.lower[i] in _CUTS:
                return None
        else:
            return None
    return at


def _form(words: NoteWords, start: int, end: int) -> str:
    """Return the form of the saying's verb; a plain form tells only where it opens the saying ("run a fillet")."""
    if "'d" in words.lower[start:end]:
        return "ed"
    known = verb_forms()
    forms = [known.get(words.lower[i], ("", _TAGS.get(words.tags[i], "")))[1] for i in range(start, end)]
    told = next((form for form in forms if form in ("ed", "ing")), "")
    plain = forms[0] == "base" and words.tags[start][0] == "V" and words.lower[start] not in WORDS
    return told or ("base" if plain and words.lower[start] not in _THINGS else "")


def _is_led_to(words: NoteWords, i: int) -> bool:
    """Tell whether the thing at `i` opens a clause but for what counts or describes it: "two strips of MAT down"."""
    known = verb_forms()
    while i and (words.tags[i - 1] in _DESCRIBING or words.lower[i - 1] == "of"):
        if known.get(words.lower[i - 1], ("", ""))[1] == "ed":
            return False
        i -= 1
    return i == 0 or words.lower[i - 1] in STOPS or words.lower[i - 1] in _OPENERS


def sayings(words: NoteWords, marks: list[tuple[int, str]]) -> list[Said]:
    """Return the sayings of a note that are told as acts, in order, the longest where they overlap."""
    known = _by_first_word()
    families: dict[int, set[str]] = {}
    out: list[Said] = []
    for token, family in marks:
        families.setdefault(token, set()).add(family)
    at = 0
    for i, word in enumerate(words.lower):
        if i < at or (word not in known and i not in families):
            continue
        openers = (word, *(f"@{family}" for family in families.get(i, ())))
        if known.keys().isdisjoint(openers):
            continue
        opens = i == 0 or words.lower[i - 1] in STOPS or words.lower[i - 1] in _OPENERS
        leads = opens or _is_led_to(words, i)
        ends = [
            (end, saying.action)
            for opener in openers
            for saying in known.get(opener, ())
            if (opens or not saying.opens)
            and (opener == word or leads)
            and (end := _end(words, families, saying, i)) is not None
        ]
        if ends:
            at, action = max(ends)
            out.append(Said(i, at, action, _form(words, i, at)))
    return out
