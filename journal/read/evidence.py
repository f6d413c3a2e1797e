"""Point each value back to the words, characters and seconds that it was read from."""

from __future__ import annotations

from bisect import bisect_left

from journal.read.findings import Found, NoteWords
from journal.record import Evidence, Transcript, Word

# A word of probability 0.6 is right far more often than that where it makes a value: fitted so that of the values
# at 0.9 nine in ten are right, on spoken notes of the corpus's work part.
_OF_DOUBT = 0.35


class Witness:
    """Makes the evidence of a note's values.

    Words of a transcript are matched to tokens by their characters in the note's text, so they must
    be those of the very text that was read.
    """

    def __init__(self, words: NoteWords, text: str, transcript: Transcript | None = None) -> None:
        self._words = words
        self._text = text
        self._heard: tuple[Word, ...] = transcript.words if transcript else ()
        self._ends = [word.chars[1] for word in self._heard]

    def of(self, start: int, end: int, rule: str, confidence: float = 1.0) -> Evidence:
        """Return the evidence of a value read from the tokens [start, end).

        Confidence is the rule's own times what the probability of the least certain word leaves of it.
        """
        first_char, last_char = self._words.chars(start, end)
        spoken = self._between(first_char, last_char)
        audio = (spoken[0].start_s, spoken[-1].end_s) if spoken else None
        doubt = min((word.probability for word in spoken), default=1.0)
        heard = self._text[first_char:last_char]
        return Evidence(heard, (first_char, last_char), confidence * doubt**_OF_DOUBT, rule, audio)

    def of_found(self, *items: Found) -> Evidence:
        """Return the evidence of a value that was read from these findings together."""
        spans = [item.said or (item.start, item.end) for item in items]
        start, end = min(span[0] for span in spans), max(span[1] for span in spans)
        rule = "+".join(dict.fromkeys(item.rule for item in items))
        return self.of(start, end, rule, min(item.confidence for item in items))

    def _between(self, start: int, end: int) -> list[Word]:
        at = bisect_left(self._ends, start + 1)
        out = []
        while at < len(self._heard) and self._heard[at].chars[0] < end:
            out.append(self._heard[at])
            at += 1
        return out


def probabilities(starts: list[int], ends: list[int], transcript: Transcript | None) -> tuple[float, ...]:
    """Return the probability of each token, given the tokens' characters; 1.0 for typed notes."""
    if transcript is None or not transcript.words:
        return (1.0,) * len(starts)
    out, at, heard = [], 0, transcript.words
    for start, end in zip(starts, ends, strict=True):
        while at < len(heard) and heard[at].chars[1] <= start:
            at += 1
        here = heard[at] if at < len(heard) and heard[at].chars[0] < end else None
        out.append(here.probability if here else 1.0)
    return tuple(out)
