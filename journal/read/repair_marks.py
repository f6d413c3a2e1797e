"""Where a speaker corrects himself: "no", "sorry", "scratch that", between the wrong words and the right ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from journal.read.findings import NoteWords

# What a speaker says between the wrong word and the right one; longest first.
_MARKS: tuple[tuple[str, ...], ...] = tuple(
    sorted(
        (
            tuple(phrase.split())
            for phrase in (
                "no|nope|sorry|i mean|make that|make it|or rather|rather|correction|scratch that|strike that|"
                "scrap that|delete that|ignore that|forget that|cancel that|i tell a lie|tell a lie|my mistake|"
                "that 's wrong|thats wrong|that is wrong|hang on|hold on|wait|no wait|actually|whoops|oops|"
                "nah|naw|no no|scratch all that|scratch the lot|scratch all of that|forget all that|ignore all that|"
                "i meant|well actually|not that|excuse me|beg your pardon|let me correct that|er no|um no|my bad"
            ).split("|")
        ),
        key=len,
        reverse=True,
    )
)
_FIRST = frozenset(mark[0] for mark in _MARKS)
_BETWEEN = frozenset(
    ", . - – — : uh um er erm well oh it 's it's was were is that the a about so ah hm just be should read".split()
)
_STRIKES = frozenset((verb, "that") for verb in "scratch strike scrap delete ignore forget cancel".split()) | {
    ("scratch", "all", "that"), ("scratch", "the", "lot"), ("scratch", "all", "of", "that"), ("forget", "all", "that"),
    ("ignore", "all", "that"),
}  # fmt: skip
_PAUSES = frozenset("er erm uh um".split())


@dataclass(frozen=True, slots=True)
class Mark:
    """The tokens [start, end) of a run of correcting words; the right words start at `end`.

    `strikes` for "scratch that"; `pause` for a bare "er", which corrects only what is said alike again.
    """

    start: int
    end: int
    strikes: bool
    pause: bool = False


def marks(words: NoteWords) -> Iterator[Mark]:
    """Yield each run of correcting words."""
    lower, i = words.lower, 0
    while i < len(lower):
        if lower[i] in _PAUSES and lower[i + 1 : i + 2] != ("no",):
            end = next((j for j in range(i, len(lower)) if lower[j] not in _PAUSES and lower[j] != ","), len(lower))
            if not any(lower[end : end + len(m)] == m for m in _MARKS):
                yield Mark(i, end, strikes=False, pause=True)
            i = end
            continue
        if lower[i] not in _FIRST:
            i += 1
            continue
        end, strikes = i, False
        while end < len(lower):
            mark = next((m for m in _MARKS if lower[end : end + len(m)] == m), None)
            if mark is None and (lower[end] not in _BETWEEN or end == i):
                break
            strikes = strikes or mark in _STRIKES
            end += len(mark) if mark else 1
        if end > i:
            yield Mark(i, end, strikes)
        i = max(end, i + 1)
