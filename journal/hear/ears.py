"""The hearing: a quick look at every window, and a second, dearer look where the first is in doubt."""

from __future__ import annotations

import math
import re
import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from journal.hear.decode import FULL_WINDOW_S, SAMPLE_RATE, Encoded, How, Hypothesis, Recogniser, Samples
from journal.hear.speech import Span, cut_windows, find_speech, snap
from journal.hear.weights import find_weights
from journal.record import Alternative, Transcript, Word

# A hearing with a word less probable than the first is looked at again (on recorded human prompts that is
# six in ten, and the better of two hearings has an eighth fewer word errors); the second makes a doubt.
SURE_WORD, DOUBTFUL_WORD = 0.65, 0.5
# Below this a word is as good as lost, and the full window, which the model was trained on, is believed.
LOST_WORD = 0.3
# How much of what was said before a window is given to the beam that hears it: names and figures go on alike.
# A greedy search given it leaves sentences out.
BEFORE_CHARS = 400
# Speech that goes on this long after the last word was left out.
LEFT_OUT_S = 1.0
# Each hearing costs an alignment; the likeliest few of a beam hold nearly all that differs.
KEPT_PER_LOOK = 3

QUICK = How()
# How makers speak. It holds no figure: a number that stands in the prompt could be heard where nobody said it. On the
# demo's 44 notes it gives 9.4 % word errors, against 9.7 % with an example full of figures.
EXAMPLE = (
    "Shop's at degrees, humidity percent. Coats of shellac on the plug, minutes between coats. Coats of wax, then "
    "sprayed the PVA. Weighed grams of laminating epoxy, part A, and of hardener, part B, by weight. Degassed the "
    "silicone, millibars. Thickened with fumed silica and milled fibre. Brushed the gel coat on, tack free. Laid up "
    "layers of gram mat and biax, wet out and rolled. Catalysed the polyester, percent MEKP. Post-cured. Demoulded "
    "it, pulled the cast. Pinholes along the flange, a void under the left scroll."
)
BEAM = How(beam=5, hypotheses=5, timestamps=False, source="beam")
TOLD = How(beam=5, hypotheses=5, timestamps=False, source="beam, glossary")
SHOWN = How(beam=5, hypotheses=5, timestamps=False, source="beam, example", expect=EXAMPLE)
WIDE = How(beam=5, hypotheses=5, source="full window, beam")


@dataclass(frozen=True, slots=True)
class _Heard:
    """One hypothesis with its words, in seconds of the recording, and what looks wrong with it."""

    hypothesis: Hypothesis
    words: tuple[Word, ...]
    wrongs: tuple[str, ...]

    @property
    def score(self) -> float:
        """The average log probability of its words, on one scale for all ways to decode."""
        logs = [math.log(max(word.probability, 1e-4)) for word in self.words]
        return sum(logs) / len(logs) if logs else -math.inf

    @property
    def weakest(self) -> float:
        """The probability of its least probable word, 0 to 1."""
        return min((word.probability for word in self.words), default=0.0)


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
        windows: list[_Window] = []
        for span in cut_windows(speech, duration_s):
            listener = _Listener(recogniser, samples, span, speech, glossary)
            before = windows[-1].best.hypothesis.text if windows else ""
            if window := listener.listen(before):
                windows.append(window)
            if progress:
                progress(span.end_s / duration_s)
        if progress:
            progress(1.0)
        return _transcript(windows, duration_s, model)

    def weigh(
        self, samples: Samples, heard: Transcript, changes: Sequence[tuple[tuple[int, int], str]]
    ) -> list[float | None]:
        """Return by how many nats the sound is likelier with each change than with the words kept.

        A change is (characters [start, end) of the text heard, what may have been said there); None where those
        are not within one window. `samples` are those that were heard. Raises WeightsError.
        """
        recogniser, _ = self.load()
        samples = np.ascontiguousarray(samples, dtype=np.float32)
        out: list[float | None] = [None] * len(changes)
        for span in cut_windows(find_speech(samples), len(samples) / SAMPLE_RATE):
            words = [w for w in heard.words if span.start_s <= (w.start_s + w.end_s) / 2 < span.end_s]
            first, last = (words[0].chars[0], words[-1].chars[1]) if words else (0, 0)
            inside = [at for at, ((start, end), _) in enumerate(changes) if first <= start < end <= last]
            if not inside:
                continue
            encoded = recogniser.encode(samples[int(span.start_s * SAMPLE_RATE) : int(span.end_s * SAMPLE_RATE)])
            kept = recogniser.log_likelihood(encoded, heard.text[first:last])
            for at in inside:
                (start, end), new = changes[at]
                text = heard.text[first:start] + new + heard.text[end:last]
                out[at] = recogniser.log_likelihood(encoded, text) - kept
        return out


class _Listener:
    """Listens to one window of a recording."""

    def __init__(
        self, recogniser: Recogniser, samples: Samples, span: Span, speech: Sequence[Span], glossary: Sequence[str]
    ) -> None:
        self._recogniser, self._span, self._glossary = recogniser, span, glossary
        self._speech = [s for s in speech if s.start_s < span.end_s and s.end_s > span.start_s]
        self._samples = samples[int(span.start_s * SAMPLE_RATE) : int(span.end_s * SAMPLE_RATE)]

    def listen(self, before: str) -> _Window | None:
        """Return what is heard in the window, or None when nobody speaks; `before` is what was said before."""
        near = self._recogniser.encode(self._samples)
        [first] = self._look(near, QUICK)
        if not first.wrongs and first.weakest >= SURE_WORD:
            return _Window(first, (), ())
        others = self._look(near, replace(BEAM, expect=before[-BEFORE_CHARS:]))
        told = self._look_with_shop_words(near, (first, *others))
        wide = self._look_wide() if first.wrongs or first.weakest < LOST_WORD else ()
        others = (*others, *wide)
        # One look may take a mumble for silence; all of them do not.
        voiced = [heard for heard in (first, *others) if not heard.hypothesis.is_silence]
        if not voiced:
            return None
        lost = first.weakest < LOST_WORD and wide[0] in voiced and not wide[0].wrongs
        best = _with_shop_words(wide[0] if lost else _likeliest(voiced), told, self._glossary)
        return _Window(best, _distinct(best, (*told, first, *others)), _doubts(best))

    def _look_with_shop_words(self, encoded: Encoded, heard: Sequence[_Heard]) -> tuple[_Heard, ...]:
        """Return hearings in the light of how makers speak and of the glossary, or none where no maker speaks.

        Being told can harm other words, and costs: only a window that holds a word of the shop is heard so.
        """
        if not any(_shop_words(one, self._glossary) for one in heard):
            return ()
        told = replace(TOLD, expect=", ".join(self._glossary))
        return self._look(encoded, SHOWN) + self._look(encoded, told)

    def _look_wide(self) -> tuple[_Heard, ...]:
        return self._look(self._recogniser.encode(self._samples, FULL_WINDOW_S), WIDE)

    def _look(self, encoded: Encoded, how: How) -> tuple[_Heard, ...]:
        found: dict[tuple[str, ...], Hypothesis] = {}
        for hypothesis in self._recogniser.decode(encoded, how):
            found.setdefault(_said(hypothesis.text), hypothesis)
        return tuple(self._placed(encoded, h) for h in list(found.values())[:KEPT_PER_LOOK])

    def _placed(self, encoded: Encoded, hypothesis: Hypothesis) -> _Heard:
        offset = self._span.start_s
        words = snap(
            [
                replace(word, start_s=word.start_s + offset, end_s=word.end_s + offset)
                for word in self._recogniser.words(encoded, hypothesis)
            ],
            self._speech,
        )
        left_out_s = self._speech[-1].end_s - (words[-1].end_s if words else self._span.start_s)
        left_out = ("leaves out the end",) if left_out_s > LEFT_OUT_S else ()
        return _Heard(hypothesis, words, (*hypothesis.wrongs(), *left_out))


def _said(text: str) -> tuple[str, ...]:
    """Return the words of a text, so that capitals and full stops make no difference."""
    return tuple(re.findall(r"[\w.]*\w", text.lower()))


def _likeliest(hearings: Sequence[_Heard]) -> _Heard:
    """Return the hearing with the fewest signs of being wrong, and of those the most probable."""
    return min(hearings, key=lambda heard: (len(heard.wrongs), -heard.score))


def _with_shop_words(best: _Heard, told: Sequence[_Heard], glossary: Sequence[str]) -> _Heard:
    """Return the most probable hearing that was told the shop's words, if it hears as many of them, and any."""
    least = max(1, _shop_words(best, glossary))
    sound = [heard for heard in told if not heard.wrongs and _shop_words(heard, glossary) >= least]
    return max(sound, key=lambda heard: heard.score, default=best)


def _shop_words(heard: _Heard, glossary: Sequence[str]) -> int:
    """Return how many different words of the glossary a hearing has."""
    vocabulary = {word for term in glossary for word in _said(term) if len(word) > 2}
    return len(vocabulary.intersection(_said(heard.hypothesis.text)))


def _doubts(heard: _Heard) -> tuple[str, ...]:
    unsure = [f"unsure of {word.text!r}" for word in heard.words if word.probability < DOUBTFUL_WORD]
    return (*heard.wrongs, *unsure)


def _distinct(best: _Heard, others: Sequence[_Heard]) -> tuple[_Heard, ...]:
    """Return the hearings that say something else than `best`, each once."""
    found: dict[tuple[str, ...], _Heard] = {}
    for heard in others:
        found.setdefault(_said(heard.hypothesis.text), heard)
    found.pop(_said(best.hypothesis.text), None)
    return tuple(heard for said, heard in found.items() if said)


def _transcript(windows: Sequence[_Window], duration_s: float, model: str) -> Transcript:
    best = [window.best for window in windows]
    text, words, log_probability = _joined(best)
    alternatives = []
    for index, window in enumerate(windows):
        for other in window.others:
            other_text, other_words, other_log = _joined([*best[:index], other, *best[index + 1 :]])
            if other_text != text:
                alternatives.append(Alternative(other_text, other_words, other_log, other.hypothesis.source))
    doubts = tuple(doubt for window in windows for doubt in window.doubts)
    return Transcript(text, words, tuple(alternatives), log_probability, duration_s, model, doubts)


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
