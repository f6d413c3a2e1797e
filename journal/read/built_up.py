"""Words that say how thick something was laid ("sprayed to 10 mm") or which way it was measured ("two inches high").

Pure, of the words around a number alone: units and sizes both ask.
"""

from __future__ import annotations

from itertools import pairwise

from journal.read.nearby import ENDS, sentence

_BUILT_UP = frozenset(
    "sprayed spread spreading trowelled troweled layers layered plies slushed slush slushing web shell skin buttered "
    "smeared plastered skimmed daubed screeded gunned plastering trowelling built build building".split()
)
_ACROSS = frozenset(
    "wide long apart high tall across diameter radius square overlap centres height above below off from away clear "
    "proud either".split()
)
_TRIMMED = frozenset("cut trim trimmed strip strips flange overlap overlapped overlapping from hole holes".split())
_WALLS = frozenset({"wall", "walls", "section", "laminate", "skin", "shell"})
_MEASURED = frozenset("measured measures measuring calliper caliper callipers calipers vernier micrometer".split())
_DAMS = frozenset("clay foam board plywood dam fence high built cottle box gap hole crack slot".split())
_THERE = (("at",), ("on",), ("in",), ("everywhere",), ("over",), (".",), (",",), ("thick",), ())
_THE = frozenset("the his her its".split())
_WHOSE = tuple((word,) for word in _THE)


def is_across(texts: tuple[str, ...], start: int, end: int) -> bool:
    """Whether a word says what way it was measured: "wide", "off the skin", but not "across the back"."""
    return any(
        text in _ACROSS and not (text == "across" and texts[at + 1 : at + 2] in _WHOSE)
        for at, text in enumerate(texts[start:end], start)
    )


def is_built_up(texts: tuple[str, ...], start: int, end: int) -> bool:
    """Whether it says how thick something was laid: "sprayed to 10 mm", "three layers, about half an inch"."""
    said = sentence(texts, start, end, 14)
    across = is_across(texts, end, end + 2) or texts[end : end + 1] == ("of",)
    if not across and is_measured_wall(texts, start, end, said):
        return True
    wall = "wall" in texts[max(0, start - 6) : start] and "clay" in said
    cut = _TRIMMED.intersection(said) or any(pair[0] not in _THE and pair[1] == "back" for pair in pairwise(said))
    return not (across or wall or cut) and not _BUILT_UP.isdisjoint(said)


def is_measured_wall(texts: tuple[str, ...], start: int, end: int, said: tuple[str, ...]) -> bool:
    """Whether it is how thick a wall came out: "wall's about 5 mm", "measured it, 4.2 mil at the flange"."""
    first = start
    while first > max(0, start - 6) and texts[first - 1] not in ENDS:
        first -= 1
    led = texts[first:start]
    if not _DAMS.isdisjoint(said) or not _TRIMMED.isdisjoint(led):
        return False
    if not _MEASURED.isdisjoint(led) and texts[end : end + 1] in _THERE:
        return True
    led = led[-4:]
    return not _WALLS.isdisjoint(led) and not {"'s", "s", "is", "are", "at", "was", "about"}.isdisjoint(led)
