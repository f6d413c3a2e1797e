"""The words near a place that belong to the same clause."""

from __future__ import annotations

from collections.abc import Callable

STOPS = frozenset({".", ";", "?", "!", "then", "but"})
ENDS = frozenset({".", ";", "?", "!"})
_FILLERS = frozenset({"like", "um", "uh", "er", "erm", "say", "well", "maybe"})
SOFT_STOPS = frozenset({",", "and", "-"})


def sentence(texts: tuple[str, ...], start: int, end: int, reach: int) -> tuple[str, ...]:
    """Return the words of the sentence within `reach` pieces either side of [start, end)."""
    first = start
    while first > max(0, start - reach) and texts[first - 1] not in ENDS:
        first -= 1
    last = end
    while last < min(len(texts), end + reach) and texts[last] not in ENDS:
        last += 1
    return texts[first:last]


def nearest(
    texts: tuple[str, ...], start: int, end: int, meaning: Callable[[int], str | None], reach: int
) -> str | None:
    """Return the meaning nearest to the pieces [start, end), where `meaning` gives that of a piece or None.

    Looks back and ahead within the clause and prefers what went before; a comma or "and" counts as two words more.
    """
    behind = _walk(texts, range(start - 1, -1, -1), meaning, reach)
    ahead = _walk(texts, range(end, len(texts)), meaning, reach)
    if behind is None or (ahead is not None and ahead[1] < behind[1]):
        return ahead[0] if ahead else None
    return behind[0]


def _walk(
    texts: tuple[str, ...], places: range, meaning: Callable[[int], str | None], reach: int
) -> tuple[str, int] | None:
    distance = 0
    for place in places:
        text = texts[place]
        if text in STOPS:
            return None
        filled = not _FILLERS.isdisjoint(texts[max(0, place - 1) : place + 2])
        distance += 3 if text in SOFT_STOPS and not filled else 1
        if distance > reach:
            return None
        found = meaning(place)
        if found is not None:
            return found, distance
    return None
