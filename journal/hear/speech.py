"""Where in a recording somebody speaks, and how to cut a long one into windows at its silences.

The voice activity detector is Silero's, as it ships with faster-whisper.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from faster_whisper.vad import VadOptions, get_speech_timestamps

from journal.hear.decode import SAMPLE_RATE, Samples
from journal.record import Word

# The full window is 30 s: this leaves the end of the speech clear of the end of the window.
MAX_WINDOW_S = 26.0
# A longer pause than this costs more to encode than a new window does with its pad.
MAX_PAUSE_S = 4.0
# Kept around speech: breath and soft consonants that the detector does not count.
MARGIN_S = 0.6
MIN_SPEECH_S = 0.25

_DETECTOR = VadOptions(
    threshold=0.4,
    min_speech_duration_ms=150,
    min_silence_duration_ms=300,
    speech_pad_ms=80,
    max_speech_duration_s=MAX_WINDOW_S - 2 * MARGIN_S,
)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a recording, in seconds."""

    start_s: float
    end_s: float

    @property
    def length_s(self) -> float:
        """The length in seconds."""
        return self.end_s - self.start_s


def find_speech(samples: Samples) -> tuple[Span, ...]:
    """Return the stretches of 16 kHz mono sound in which somebody speaks; none for silence and noise."""
    if len(samples) < MIN_SPEECH_S * SAMPLE_RATE:
        return ()
    found = get_speech_timestamps(samples, _DETECTOR)
    spans = tuple(Span(one["start"] / SAMPLE_RATE, one["end"] / SAMPLE_RATE) for one in found)
    return spans if sum(span.length_s for span in spans) >= MIN_SPEECH_S else ()


def cut_windows(speech: Sequence[Span], duration_s: float) -> tuple[Span, ...]:
    """Return windows of at most 26 s that hold all the speech, in order, cut at silences."""
    windows = list(_joined(speech))
    edges = [
        0.0,
        *((a.end_s + b.start_s) / 2 for a, b in pairwise(windows)),
        duration_s,
    ]
    return tuple(
        Span(max(low, window.start_s - MARGIN_S), min(high, window.end_s + MARGIN_S))
        for window, (low, high) in zip(windows, pairwise(edges), strict=False)
    )


def _joined(speech: Sequence[Span]) -> Iterator[Span]:
    window = None
    for span in speech:
        if window is None:
            window = span
            continue
        pause_s = span.start_s - window.end_s
        if pause_s > MAX_PAUSE_S or span.end_s - window.start_s + 2 * MARGIN_S > MAX_WINDOW_S:
            yield window
            window = span
        else:
            window = Span(window.start_s, span.end_s)
    if window is not None:
        yield window


def snap(words: Sequence[Word], speech: Sequence[Span]) -> tuple[Word, ...]:
    """Return the words with times cut back to the speech that they overlap most.

    Whisper's alignment stretches the first word after a pause over the pause.
    """
    return tuple(_snapped(word, speech) for word in words)


def _snapped(word: Word, speech: Sequence[Span]) -> Word:
    def overlap(span: Span) -> float:
        return min(span.end_s, word.end_s) - max(span.start_s, word.start_s)

    best = max(speech, key=overlap, default=None)
    if best is None or overlap(best) <= 0:
        return word
    return replace(word, start_s=max(word.start_s, best.start_s), end_s=min(word.end_s, best.end_s))
