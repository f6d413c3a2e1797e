"""The hearing: a quick look at every window, and a second, dearer look where the first is in doubt."""

from __future__ import annotations

import re
import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from journal.hear.decode import FULL_WINDOW_S, SAMPLE_RATE, Encoded, How, Hypothesis, Recogniser, Samples
from journal.hear.speech import Span, cut_windows, find_speech, snap
from journal.hear.weights import find_weights
from journal.record import Alternative, Transcript, Word

# Below these a hearing is looked at again: the average over its tokens, and its weakest word.
SURE_LOG_PROBABILITY = -0.35
SURE_WORD = 0.5
MAX_ALTERNATIVES = 12

QUICK = How()
NEAR = How(beam=5, hypotheses=5, source="short window, beam")
WIDE = How(beam=5, hypotheses=3, source="full window, beam")
LOOSE = How(beam=1, hypotheses=5, temperature=0.6, source="full window, sampled")


@dataclass(frozen=True, slots=True)
class _Heard:
    """One hypothesis with its words, in seconds of the recording."""

    hypothesis: Hypothesis
    words: tuple[Word, ...]


@dataclass(frozen=True, slots=True)
class _Window:
    """What was made of one window: the hearing that is believed, others, and what is doubtful."""

    best: _Heard
    others: tuple[_Heard, ...]
    doubts: tuple[str, ...]


class Ears:
    """Hears recordings. The model is loaded at the first one and then kept; safe to share between threads."""

    def __init__(self, data_dir: Path, weights: str = "", threads: int = 0) -> None:
        """Take settings: where joined weights are kept, which weights, how many threads (0: all cores)."""
        self._data_dir, self._choice, self._threads = data_dir, weights, threads
        self._lock = threading.Lock()
        self._loaded: tuple[Recogniser, str] | None = None

    def load(self) -> tuple[Recogniser, str]:
        """Return the recogniser and its model's name, loading it if need be; WeightsError when it cannot."""
        with self._lock:
            if self._loaded is None:
                weights = find_weights(self._choice, self._data_dir)
                self._loaded = Recogniser(str(weights.folder), self._threads), weights.name
            return self._loaded

    def hear(
        self,
        samples: Samples,
        glossary: Sequence[str] = (),
        progress: Callable[[float], None] | None = None,
    ) -> Transcript:
        """Return what is said in 16 kHz mono float32 sound; an empty text when nobody speaks.

        `glossary` is the shop's vocabulary, the most telling first; only a second look at a doubtful
        window uses it. `progress` is called with the share that is done, 0 to 1. Raises WeightsError.
        """
        recogniser, model = self.load()
        samples = np.ascontiguousarray(samples, dtype=np.float32)
        duration_s = len(samples) / SAMPLE_RATE
        speech = find_speech(samples)
        windows = []
        for span in cut_windows(speech, duration_s):
            listener = _Listener(recogniser, samples, span, speech, ", ".join(glossary))
            windows.append(listener.listen())
            if progress:
                progress(span.end_s / duration_s)
        if progress:
            progress(1.0)
        return _transcript([window for window in windows if window], duration_s, model)


class _Listener:
    """Listens to one window of a recording."""

    def __init__(
        self, recogniser: Recogniser, samples: Samples, span: Span, speech: Sequence[Span], expect: str
    ) -> None:
        self._recogniser, self._span, self._speech, self._expect = recogniser, span, speech, expect
        self._samples = samples[int(span.start_s * SAMPLE_RATE) : int(span.end_s * SAMPLE_RATE)]

    def listen(self) -> _Window | None:
        """Return what is heard in the window, or None when nobody speaks."""
        near = self._recogniser.encode(self._samples)
        [first] = self._recogniser.decode(near, QUICK)
        best = self._placed(near, first)
        doubts = _doubts(best)
        if not doubts:
            return _Window(best, (), ())
        wide = self._recogniser.encode(self._samples, FULL_WINDOW_S)
        looks = [(near, h) for h in self._recogniser.decode(near, NEAR)]
        looks += [(wide, h) for h in self._recogniser.decode(wide, WIDE)]
        if self._expect:
            told = replace(WIDE, expect=self._expect, source="full window, beam, glossary")
            looks += [(wide, h) for h in self._recogniser.decode(wide, told)]
        if first.wrongs():
            looks += [(wide, h) for h in self._recogniser.decode(wide, LOOSE)]
        others = tuple(self._placed(encoded, h) for encoded, h in _distinct(looks))
        best = _believed(best, others)
        if best.hypothesis.is_silence:
            return None
        return _Window(best, others, _doubts(best))

    def _placed(self, encoded: Encoded, hypothesis: Hypothesis) -> _Heard:
        offset = self._span.start_s
        words = (
            replace(word, start_s=word.start_s + offset, end_s=word.end_s + offset)
            for word in self._recogniser.words(encoded, hypothesis)
        )
        return _Heard(hypothesis, snap(tuple(words), self._speech))


def _doubts(heard: _Heard) -> tuple[str, ...]:
    unsure = [f"unsure of {word.text!r}" for word in heard.words if word.probability < SURE_WORD]
    low = heard.hypothesis.log_probability < SURE_LOG_PROBABILITY
    return (*heard.hypothesis.wrongs(), *(["unsure of the whole"] if low else []), *unsure)


def _distinct(looks: Sequence[tuple[Encoded, Hypothesis]]) -> Iterator[tuple[Encoded, Hypothesis]]:
    """Yield the hypotheses that differ in more than capitals and full stops."""
    seen = {()}
    for encoded, hypothesis in looks:
        said = tuple(re.findall(r"[\w.]*\w", hypothesis.text.lower()))
        if said not in seen:
            seen.add(said)
            yield encoded, hypothesis


def _believed(first: _Heard, others: Sequence[_Heard]) -> _Heard:
    """Return the first hearing unless it looks wrong; then the likeliest that does not."""
    if not first.hypothesis.wrongs():
        return first
    return min((first, *others), key=lambda h: (len(h.hypothesis.wrongs()), -h.hypothesis.log_probability))


def _transcript(windows: Sequence[_Window], duration_s: float, model: str) -> Transcript:
    best = [window.best for window in windows]
    text, words, log_probability = _joined(best)
    alternatives = []
    for index, window in enumerate(windows):
        for other in window.others:
            other_text, other_words, other_log = _joined([*best[:index], other, *best[index + 1 :]])
            if other_text != text:
                alternatives.append(Alternative(other_text, other_words, other_log, other.hypothesis.source))
    alternatives.sort(key=lambda alternative: -alternative.log_probability)
    doubts = tuple(doubt for window in windows for doubt in window.doubts)
    return Transcript(text, words, tuple(alternatives[:MAX_ALTERNATIVES]), log_probability, duration_s, model, doubts)


def _joined(hearings: Sequence[_Heard]) -> tuple[str, tuple[Word, ...], float]:
    """Return text, words and average log probability of hearings that follow each other."""
    text, words = "", []
    for heard in hearings:
        text += " " if text else ""
        shift = len(text)
        text += heard.hypothesis.text
        words += [replace(w, chars=(w.chars[0] + shift, w.chars[1] + shift)) for w in heard.words]
    tokens = sum(len(heard.hypothesis.tokens) for heard in hearings)
    total = sum(heard.hypothesis.log_probability * len(heard.hypothesis.tokens) for heard in hearings)
    return text, tuple(words), total / tokens if tokens else 0.0
