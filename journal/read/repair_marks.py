"""Where a speaker corrects himself: "no", "sorry", "scratch that", between the wrong words and the right ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from journal.read.findings import NoteWords
from journal.read.number_words import SMALL

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
                "i meant|well actually|not that|other way round|other way around|other way about|the other way round|"
                "the other way around|the other way about|vice versa|wrong way round|leave that|excuse me|"
                "beg your pardon|let me correct that|er no|um no|my bad"
            ).split("|")
        ),
        key=len,
        reverse=True,
    )
)
_BY_FIRST = {first: tuple(mark for mark in _MARKS if mark[0] == first) for first in {mark[0] for mark in _MARKS}}
_BETWEEN = frozenset(
    ", . - – — : uh um er erm well oh it 's it's was were is that the a about so ah hm just be should read".split()
)
_STRIKES = frozenset((verb, "that") for verb in "scratch strike scrap delete ignore forget cancel".split()) | {
    ("scratch", "all", "that"), ("scratch", "the", "lot"), ("scratch", "all", "of", "that"), ("forget", "all", "that"),
    ("ignore", "all", "that"),
}  # fmt: skip
_DENIED, _SAID = 6, 12
_LIMITS = tuple(
    (word,)
    for word in "more less fewer longer later sooner faster slower quicker hotter warmer colder higher lower thicker "
    "thinner bigger wider heavier further earlier greater".split()
)
_LEFT = tuple((word,) for word in "alone for till til until to on in be overnight as at an a there while".split())
_LISTING = (("and",), ("then",), ("with",), ("plus",))  # "two layers of cloth and then um four of mat"
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
            listing = lower[max(0, i - 1) : i] in _LISTING
            if _mark_at(lower, end) is None and not listing:
                yield Mark(i, end, strikes=False, pause=True)
            i = end
            continue
        if lower[i] not in _BY_FIRST or _is_tally(lower, i):
            i += 1
            continue
        end, strikes = _run(lower, i)
        if end > i:
            yield Mark(i, end, strikes)
        i = max(end, i + 1)


def _mark_at(lower: tuple[str, ...], at: int) -> tuple[str, ...] | None:
    """Return the longest correcting words from a token on, or None."""
    first = lower[at] if at < len(lower) else ""
    return next((m for m in _BY_FIRST.get(first, ()) if lower[at : at + len(m)] == m), None)


def _is_tally(lower: tuple[str, ...], at: int) -> bool:
    """Whether "no." counts: "2 nos. glass cloth, 1 no. carbon"."""
    before = lower[at - 1] if at else ""
    return lower[at : at + 2] == ("no", ".") and (before.isdecimal() or before in SMALL)


def _run(lower: tuple[str, ...], start: int) -> tuple[int, bool]:
    """Return where a run of correcting words ends, and whether it strikes what went before."""
    end, strikes = start, False
    while end < len(lower):
        mark = _mark_at(lower, end)
        if (mark is None and (lower[end] not in _BETWEEN or end == start)) or _is_no_mark(lower, end, mark):
            break
        strikes = strikes or mark in _STRIKES
        end += len(mark) if mark else 1
    return _past_denied(lower, start, end), strikes


def _is_no_mark(lower: tuple[str, ...], at: int, mark: tuple[str, ...] | None) -> bool:
    """Tell whether the words correct nothing: "NO more than fifteen minutes", "I'll LEAVE THAT till one o'clock"."""
    after = lower[at + len(mark) : at + len(mark) + 1] if mark else ()
    return (mark == ("no",) and after in _LIMITS) or (mark == ("leave", "that") and after in _LEFT)


def _past_denied(lower: tuple[str, ...], start: int, end: int) -> int:
    """Return the place behind what is denied by its name: "shellac, no, not shellac, the sealer"."""
    if lower[end : end + 1] != ("not",) or start == end:
        return end
    close = next((i for i in range(end + 1, min(end + _DENIED, len(lower))) if lower[i] in (",", ".", "but")), None)
    told = close is not None and set(lower[end + 1 : close]) - _BETWEEN <= set(lower[max(0, start - _SAID) : start])
    if close is None or not told:
        return end
    while close < len(lower) and (lower[close] in _BETWEEN or lower[close] == "but"):
        close += 1
    return close
