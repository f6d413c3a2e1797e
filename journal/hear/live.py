"""A note heard while it is spoken: at each pause, by one quick look, so that at its end little is left to be heard.

What is heard so serves the speaker's eyes and ears at once. The note that is kept is heard anew from its recording,
as a whole, with a second look where the first is in doubt (`ears`).
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from journal.hear.decode import SAMPLE_RATE, Samples
from journal.hear.ears import DOUBTFUL_WORD, QUICK, Ears
from journal.hear.speech import Span, cut_windows, find_speech, snap
from journal.record import Transcript, Word

# A stretch longer than this that ends in a pause is heard once and for all: what is left at the end is short.
SETTLED_S = 7.0


class Floor:
    """Who has the floor: while somebody speaks, what can wait lets the ears be. Safe to share between threads."""

    def __init__(self) -> None:
        self._speakers: set[int] = set()
        self._changed = threading.Condition()

    def take(self, speaker: object) -> None:
        """Say that a speaker has begun."""
        with self._changed:
            self._speakers.add(id(speaker))

    def leave(self, speaker: object) -> None:
        """Say that a speaker is done, and has been heard."""
        with self._changed:
            self._speakers.discard(id(speaker))
            self._changed.notify_all()

    def wait(self, most_s: float) -> bool:
        """Wait until nobody speaks, but no longer than this; return whether it is so."""
        with self._changed:
            return self._changed.wait_for(lambda: not self._speakers, most_s)


@dataclass(frozen=True, slots=True)
class LiveHearing:
    """What was heard so far, and how many seconds of the note it covers."""

    transcript: Transcript
    until_s: float


class LiveNote:
    """One note while it is spoken. `add` and `hear` may be called from different threads, each from one at a time."""

    def __init__(self, ears: Ears, before: Samples | None = None) -> None:
        """Take the ears, and the sound just before the note (16 kHz mono)."""
        self._ears = ears
        self._pieces: list[Samples] = [] if before is None else [before]
        self._settled: list[Transcript] = []
        self._settled_at = 0  # samples that are heard once and for all

    def add(self, samples: Samples) -> None:
        """Take the next piece of sound."""
        self._pieces.append(samples)

    @property
    def length_s(self) -> float:
        """The seconds of sound so far."""
        return sum(len(piece) for piece in list(self._pieces)) / SAMPLE_RATE

    def hear(self) -> LiveHearing:
        """Hear what came in so far; best at a pause. Raises WeightsError."""
        sound = np.concatenate([np.zeros(0, np.float32), *self._pieces])
        tail = sound[self._settled_at :]
        heard = quick_hearing(self._ears, tail)
        whole = joined([*self._settled, heard])
        if len(tail) > SETTLED_S * SAMPLE_RATE:
            self._settled.append(heard)
            self._settled_at = len(sound)
        return LiveHearing(whole, len(sound) / SAMPLE_RATE)


def quick_hearing(ears: Ears, samples: Samples) -> Transcript:
    """Return what one look at each window hears in 16 kHz mono sound. Raises WeightsError."""
    _, model = ears.load()
    duration_s = len(samples) / SAMPLE_RATE
    speech = find_speech(samples)
    windows = [_window(ears, samples, span, speech) for span in cut_windows(speech, duration_s)]
    text, words = "", []
    for said, heard in windows:
        text += " " if text and said else ""
        shift = len(text)
        text += said
        words += [replace(word, chars=(word.chars[0] + shift, word.chars[1] + shift)) for word in heard]
    doubts = tuple(f"unsure of {word.text!r}" for word in words if word.probability < DOUBTFUL_WORD)
    return Transcript(text, tuple(words), (), 0.0, duration_s, f"{model}, at once", doubts)


def _window(ears: Ears, samples: Samples, span: Span, speech: Sequence[Span]) -> tuple[str, tuple[Word, ...]]:
    recogniser, _ = ears.load()
    sound = np.ascontiguousarray(samples[int(span.start_s * SAMPLE_RATE) : int(span.end_s * SAMPLE_RATE)])
    encoded = recogniser.encode(sound)
    [best] = recogniser.decode(encoded, QUICK)
    if best.is_silence:
        return "", ()
    words = [
        replace(word, start_s=word.start_s + span.start_s, end_s=word.end_s + span.start_s)
        for word in recogniser.words(encoded, best)
    ]
    return best.text, snap(words, [s for s in speech if s.start_s < span.end_s and s.end_s > span.start_s])


def joined(parts: Sequence[Transcript]) -> Transcript:
    """Return transcripts of stretches that follow each other as one; other hearings stay with a single one only."""
    if len(parts) == 1:
        return parts[0]
    text, words, at_s = "", [], 0.0
    for part in parts:
        text += " " if text and part.text else ""
        shift = len(text)
        text += part.text
        words += [
            replace(
                word,
                chars=(word.chars[0] + shift, word.chars[1] + shift),
                start_s=word.start_s + at_s,
                end_s=word.end_s + at_s,
            )
            for word in part.words
        ]
        at_s += part.duration_s
    doubts = tuple(doubt for part in parts for doubt in part.doubts)
    likelihood = min((part.log_probability for part in parts if part.text), default=0.0)
    return Transcript(text, tuple(words), (), likelihood, at_s, parts[-1].model, doubts)
