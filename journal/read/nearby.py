"""The words near a place that belong to the same clause."""

from __future__ import annotations

from collections.abc import Container, Mapping

STOPS = frozenset({".", ";", "?", "!", "then", "but"})
ENDS = frozenset({".", ";", "?", "!"})
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
    texts: tuple[str, ...], start: int, end: int, cues: Mapping[str, str], reach: int, skip: Container[int] = ()
) -> tuple[str, int] | None:
    """Return the meaning of the cue nearest to the pieces [start, end), and its distance.

    Looks back first, then ahead, within the clause; a comma or "and" counts as two words more.
    """
    behind = _walk(texts, range(start - 1, -1, -1), cues, reach, skip)
    ahead = _walk(texts, range(end, len(texts)), cues, reach, skip)
    if behind is None or (ahead is not None and ahead[1] < behind[1]):
        return ahead
    return behind


def _walk(
    texts: tuple[str, ...], places: range, cues: Mapping[str, str], reach: int, skip: Container[int]
) -> tuple[str, int] | None:
    distance = 0
    for place in places:
        text = texts[place]
        if text in STOPS:
            return None
        distance += 3 if text in SOFT_STOPS else 1
        if distance > reach:
            return None
        if text in cues and place not in skip:
            return cues[text], distance
    return None
