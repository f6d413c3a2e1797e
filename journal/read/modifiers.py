"""Words beside a number that make it rough, or a limit."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from journal.read.number_words import STARTERS

_PHRASES = {
    "rough": (
        "about", "around", "roughly", "approximately", "approx", "nearly", "almost", "circa", "maybe", "say",
        "near enough", "something like", "just under", "just over", "a bit over", "a bit under", "a little over",
        "a little under", "just shy of", "getting on for", "close to", "more or less", "somewhere around", "probably",
        "nigh on", "~", "call it", "a shade over", "a shade under",
    ),
    "least": (
        "at least", "no less than", "not less than", "never less than", "minimum", "minimum of", "more than", "over",
        "above", "upwards of", "longer than", "no fewer than", "at the very least", "not under", "no sooner than",
        "at the least", "well over", "past",
    ),
    "most": (
        "at most", "at the most", "up to", "no more than", "not more than", "never more than", "no longer than",
        "not longer than", "never longer than", "maximum", "maximum of", "max", "max of", "under", "less than",
        "below", "inside", "inside of", "within", "fewer than", "not over", "never over", "shorter than",
        "not exceeding", "don't exceed", "well under",
    ),
}  # fmt: skip
_AFTER_PHRASES = {
    "rough": ("or so", "or thereabouts", "roughly", "approx", "approximately", "give or take", "more or less", "ish"),
    "least": (
        "or more",
        "or longer",
        "minimum",
        "at least",
        "at the very least",
        "and up",
        "or over",
        "at the least",
        "or above",
    ),
    "most": ("or less", "max", "maximum", "tops", "at most", "at the most", "at the very most", "or under", "or below"),
}

Phrase = tuple[tuple[str, ...], str]
_COUNTING = STARTERS - {"a", "an", "o"}


def _table(phrases: dict[str, tuple[str, ...]], key: int) -> dict[str, tuple[Phrase, ...]]:
    table: dict[str, list[Phrase]] = {}
    for effect, texts in phrases.items():
        for text in texts:
            words = tuple(text.split())
            table.setdefault(words[key], []).append((words, effect))
    return {word: tuple(sorted(found, key=lambda p: -len(p[0]))) for word, found in table.items()}


_BY_LAST = _table(_PHRASES, -1)
_BY_FIRST = _table(_AFTER_PHRASES, 0)
_SKIPPED = frozenset({"a", "another", "good", "full", "further", "the", "an", "only", "between", "of", "~"})
# "Don't go over six hours between coats".
_GOING = frozenset({("go", "over"), ("go", "past"), ("go", "beyond"), ("going", "over"), ("going", "past")})
_NOT_ACROSS_THE = frozenset({"over", "above", "under", "below"})
# "rolled over 2 m2": the place of the act, not a limit.
_PLACED = frozenset(
    {"brushed", "poured", "rolled", "spread", "laid", "put", "went", "go", "goes", "sprayed", "brush", "pour", "roll",
     "left", "turn", "turned", "fold", "folded", "coat", "coats", "glass", "mat", "resin", "stirred"}
)  # fmt: skip
# "A drop of 5 mbar over ten minutes", "ramped it up over two hours": while it lasts.
_DURING = frozenset(
    {"test", "drop", "dropped", "lost", "loss", "leak", "leaked", "rise", "rose", "ramp", "ramped", "ramping"}
)  # fmt: skip
_COATED = frozenset({"coats", "layers", "plies"})  # "fifteen coats of latex over three days"
# "don't mix more than 400": an upper limit.
_NEGATIONS = frozenset({"n't", "not", "never", "don't", "dont", "won't", "without", "can't"})
_TURNED = frozenset({"than", "over", "above", "under", "below", "past"})
_ENDS = frozenset({".", ";", "?", "!", "then", "and", "but"})
_AFTER_NUMBER = frozenset({"odd", "ish", "something", "plus"})


class Modified(NamedTuple):
    """How a number stands: its place with the words about it, whether rough, and its limit."""

    start: int
    end: int
    rough: bool = False
    bound: str | None = None


def before(texts: tuple[str, ...], start: int) -> Modified:
    """Return the words before a number that belong to it ("at least another", "about")."""
    rough, bound, at, first = False, None, start, start
    for _ in range(3):
        found = _ending(texts, at)
        if found is None and at > 0 and texts[at - 1] in _SKIPPED:
            found = _ending(texts, at - 1)
            if found and texts[at - 1] == "the" and found[0][-1] in _NOT_ACROSS_THE:
                found = None
            at -= found is not None
        if found is None:
            led = texts[max(0, at - 6) : at]
            going = led[-2:] in _GOING and not _NEGATIONS.isdisjoint(led)
            if going or (led[-1:] == ("after",) and ("never" in led or ("do", "n't") in pairwise(led))):
                bound = "most"  # "don't recoat after twelve hours"
            break
        words, effect = found
        at = first = at - len(words)
        rough = rough or effect == "rough"
        if words[-1] in _TURNED and _NEGATIONS & set(texts[max(0, at - 6) : at]):
            effect = {"least": "most", "most": "least"}[effect]
        bound = bound if effect == "rough" else effect
    return Modified(first, start, rough, bound)


def _ending(texts: tuple[str, ...], at: int) -> Phrase | None:
    for words, effect in _BY_LAST.get(texts[at - 1] if at > 0 else "", ()):
        if texts[max(0, at - len(words)) : at] == words:
            placed = words[-1] in ("over", "under") and at >= 2 and texts[at - 2] in _PLACED
            placed = placed or (words == ("over",) and not _COATED.isdisjoint(texts[max(0, at - 6) : at - 1]))
            placed = placed or (words == ("over",) and not _DURING.isdisjoint(texts[max(0, at - 6) : at - 1]))
            return None if placed and len(words) == 1 else (words, effect)
    return None


def after_number(texts: tuple[str, ...], end: int) -> int:
    """Return the place after "odd", "-ish" and the like between a number and its unit, or `end`."""
    if texts[end : end + 3] == ("and", "a", "bit"):
        return end + 3  # "three and a bit kilos"
    at = end + 1 if end < len(texts) and texts[end] == "-" else end
    return at + 1 if at < len(texts) and texts[at] in _AFTER_NUMBER else end


def after(texts: tuple[str, ...], end: int) -> Modified:
    """Return the words after a quantity that belong to it ("or so", "minimum", "at least")."""
    start = end + 1 if end + 1 < len(texts) and texts[end] == "," else end
    for words, effect in _BY_FIRST.get(texts[start] if start < len(texts) else "", ()):
        stop = start + len(words)
        if texts[start:stop] == words and not _limits_the_next(texts, start, stop):
            return Modified(end, stop, effect == "rough", None if effect == "rough" else effect)
    return Modified(end, end, bound=_limit_at_the_end(texts, end))


def _limit_at_the_end(texts: tuple[str, ...], end: int) -> str | None:
    """Read "24 hours before it's demoulded, at least.": a limit that closes the sentence."""
    for at in range(end, min(end + 8, len(texts))):
        text = texts[at]
        if text in _ENDS or text in _COUNTING or text[0].isdecimal():
            return None
        for words, effect in _BY_FIRST.get(text, ()) if text == "at" else ():
            stop = at + len(words)
            if texts[at:stop] == words and effect != "rough" and (stop == len(texts) or texts[stop] in (".", ",", ";")):
                return None if _limits_the_next(texts, at, stop + 1) else effect
    return None


def _limits_the_next(texts: tuple[str, ...], start: int, stop: int) -> bool:
    """Whether a limit belongs to what comes after: "300 g, at least 20 minutes"."""
    if texts[start] not in ("at", "roughly", "approx", "approximately", "max", "maximum", "minimum"):
        return False
    following = texts[stop] if stop < len(texts) else ""
    return following[:1].isdecimal() or following == "of" or (following in STARTERS and following not in ("a", "o"))
