"""One scan for phrases that a marker word opens: reasons, cues and warnings differ in rules and ends only."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from journal.read.findings import Found, NoteWords
from journal.read.phrase_ends import phrase

Opening = tuple[int, int, str] | None
"""Where a phrase starts, where its own words begin, and the rule; or None where the marker opens nothing."""

Rule = Callable[[NoteWords, int], Opening]


def opened_phrases(
    words: NoteWords,
    kind: str,
    rules: Mapping[str, Rule],
    barred: Sequence[Found],
    end_of: Callable[[NoteWords, int, int, str], int],
) -> list[Found]:
    """Return the phrases of the kind, none overlapping: one look-up of `rules` a word.

    `barred` are findings in which no phrase opens. `end_of(words, start, body, rule)` tells where the opened
    phrase ends; an end at or before its start drops it.
    """
    found: list[Found] = []
    end = 0
    for at, word in enumerate(words.lower):
        rule = rules.get(word)
        if rule is None or at < end or any(item.start <= at < item.end for item in barred):
            continue
        opening = rule(words, at)
        if opening is None or opening[0] < end:
            continue
        start, body, name = opening
        close = end_of(words, start, body, name)
        if close > start:
            found.append(phrase(words, kind, start, close, f"{kind}s.{name}"))
            end = close
    return found
