"""Sound in, hypotheses out: the acoustic model, with windows as short as the note.

faster-whisper pads every window to 30 s before it encodes; most notes are a few seconds long, so
encoding the note and a short pad through the CTranslate2 model that it holds takes a fraction of
the time. Nothing here decides which hypothesis to believe: `ears` does.
"""

from __future__ import annotations

import math
import re
import zlib
from dataclasses import dataclass
from typing import Any

import numpy as np
from faster_whisper import WhisperModel
from faster_whisper.tokenizer import Tokenizer
from faster_whisper.transcribe import get_ctranslate2_storage, get_suppressed_tokens, merge_punctuations
from numpy.typing import NDArray

from journal.record import Word

SAMPLE_RATE = 16_000
FRAMES_PER_SECOND = 100
FULL_WINDOW_S = 30.0
# With 4 s the encoder is quicker still, but hears a little worse than in its full window; with 7 s it does not.
PAD_S = 7.0
# Fast English runs to about six syllables a second, and a token holds at least one most of the time.
TOKENS_PER_SECOND = 9
SPARE_TOKENS = 12
MOST_TOKENS = 224
# Half of Whisper's context, as in faster-whisper, is 223.
MAX_EXPECTED_TOKENS = 190
# As in faster-whisper's own defaults.
MAX_COMPRESSION = 2.4
MIN_LOG_PROBABILITY = -1.0
MAX_NO_SPEECH = 0.6
# A token less probable than this is as good as impossible.
LEAST_PROBABILITY = 1e-6
# "1, 2, 3, 4" or "5-0-0": a number that was read out figure by figure, or several; nobody can tell.
FIGURES_APART = re.compile(r"\b\d(?:[ ,-]{1,2}\d\b){2,}")

Samples = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class How:
    """How to decode: beam width, number of hypotheses, words to expect.

    Timestamps keep a greedy search in step with a short window; beams without them differ in words
    and not merely in times.
    """

    beam: int = 1
    hypotheses: int = 1
    expect: str = ""
    timestamps: bool = True
    source: str = "short window"


@dataclass(frozen=True, slots=True)
class Encoded:
    """An encoded window: CTranslate2's features, and the length of the sound in it in seconds."""

    features: Any
    duration_s: float


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One hearing of one window. `log_probability` is the average per token."""

    text: str
    tokens: tuple[int, ...]
    log_probability: float
    no_speech_probability: float
    capped: bool
    source: str

    def wrongs(self) -> tuple[str, ...]:
        """Return what looks wrong with it as a hearing: empty when nothing does."""
        signs = (
            (self.log_probability < MIN_LOG_PROBABILITY, "low probability"),
            (repeats(self.text), "repeats itself"),
            (bool(FIGURES_APART.search(self.text)), "figures one by one"),
            (self.capped, "more words than fit the time"),
        )
        return tuple(sign for is_so, sign in signs if is_so)

    @property
    def is_silence(self) -> bool:
        """Whether the model itself says that nobody spoke (the published rule of Whisper)."""
        silent = self.no_speech_probability > MAX_NO_SPEECH and self.log_probability < MIN_LOG_PROBABILITY
        return silent or not re.search(r"\w", self.text)


class Recogniser:
    """A loaded Whisper model that hears English. Safe to share between threads."""

    def __init__(self, folder: str, threads: int = 0) -> None:
        """Load the model in `folder` (CTranslate2 format); `threads` 0 takes all cores."""
        self._model = WhisperModel(folder, device="auto", compute_type="auto", cpu_threads=threads)
        self._tokenizer = Tokenizer(
            self._model.hf_tokenizer, self._model.model.is_multilingual, task="transcribe", language="en"
        )
        self._suppressed = list(get_suppressed_tokens(self._tokenizer, [-1]))

    def encode(self, samples: Samples, window_s: float | None = None) -> Encoded:
        """Encode up to 30 s of 16 kHz mono sound in a window of `window_s` (None: its length + 7 s)."""
        duration_s = len(samples) / SAMPLE_RATE
        window_s = min(FULL_WINDOW_S, duration_s + PAD_S) if window_s is None else window_s
        # The encoder's two convolutions halve the frames: keep the count even.
        frames = int(window_s * FRAMES_PER_SECOND) // 2 * 2
        features = self._model.feature_extractor(samples)[:, :-1][:, :frames]
        padded = np.pad(features, ((0, 0), (0, frames - features.shape[1])))
        encoded = self._model.model.encode(get_ctranslate2_storage(padded[np.newaxis]), to_cpu=False)
        return Encoded(encoded, duration_s)

    def decode(self, encoded: Encoded, how: How) -> tuple[Hypothesis, ...]:
        """Return hypotheses, best first, with at most as many tokens as fit the sound's length."""
        prompt = self._prompt(how)
        cap = min(int(SPARE_TOKENS + TOKENS_PER_SECOND * encoded.duration_s), MOST_TOKENS)
        result = self._model.model.generate(
            encoded.features,
            [prompt],
            beam_size=how.beam,
            num_hypotheses=how.hypotheses,
            # CTranslate2 stops after half of max_length, or what the prompt leaves of it if that is less.
            max_length=max(2 * cap, cap + len(prompt)),
            return_scores=True,
            return_no_speech_prob=True,
            suppress_tokens=self._suppressed,
            no_repeat_ngram_size=0 if how.timestamps else 4,
        )[0]
        return tuple(
            self._hypothesis(tokens, score, result.no_speech_prob, cap, how.source)
            for tokens, score in zip(result.sequences_ids, result.scores, strict=True)
        )

    def words(self, encoded: Encoded, hypothesis: Hypothesis) -> tuple[Word, ...]:
        """Return the hypothesis's words with their place in its text, seconds in the window, probability."""
        spoken = [token for token in hypothesis.tokens if token < self._tokenizer.eot]
        if not spoken:
            return ()
        frames = int(encoded.duration_s * FRAMES_PER_SECOND)
        [alignment] = self._model.find_alignment(self._tokenizer, [spoken], encoded.features, frames)
        merge_punctuations(alignment, "\"'“¿([{-", "\"'.。,，!！?？:：”)]}、")
        return place_words(hypothesis.text, alignment)

    def log_likelihood(self, encoded: Encoded, text: str) -> float:
        """Return how likely a text is for the sound, as the natural log of its probability (forced decoding)."""
        tokens = self._tokenizer.encode(" " + text)
        frames = int(encoded.duration_s * FRAMES_PER_SECOND)
        [aligned] = self._model.model.align(encoded.features, self._tokenizer.sot_sequence, [tokens], frames)
        return sum(math.log(max(probability, LEAST_PROBABILITY)) for probability in aligned.text_token_probs)

    def _prompt(self, how: How) -> list[int]:
        start = list(self._tokenizer.sot_sequence)
        if not how.timestamps:
            start.append(self._tokenizer.no_timestamps)
        if how.expect:
            start = [self._tokenizer.sot_prev, *self._tokenizer.encode(" " + how.expect)[:MAX_EXPECTED_TOKENS], *start]
        return start

    def _hypothesis(self, tokens: list[int], score: float, no_speech: float, cap: int, source: str) -> Hypothesis:
        # The score is the average over the tokens; faster-whisper counts the end token as well.
        average = score * len(tokens) / (len(tokens) + 1)
        text = self._tokenizer.decode(tokens).strip()
        return Hypothesis(text, tuple(tokens), average, no_speech, len(tokens) >= cap, source)


def place_words(text: str, alignment: list[dict[str, Any]]) -> tuple[Word, ...]:
    """Return faster-whisper's aligned words as Words whose `chars` cut exactly them from `text`."""
    words, at = [], 0
    for piece in alignment:
        heard = piece["word"].strip()
        start = text.find(heard, at) if heard else -1
        if start < 0:
            continue
        at = start + len(heard)
        words.append(Word(heard, (start, at), float(piece["start"]), float(piece["end"]), float(piece["probability"])))
    return tuple(words)


def repeats(text: str) -> bool:
    """Whether a hearing goes round in circles: it compresses too well, or says four words thrice in a row."""
    raw = text.encode()
    if len(raw) / len(zlib.compress(raw)) > MAX_COMPRESSION:
        return True
    words = re.findall(r"\w+", text.lower())
    return any(
        words[i : i + n] == words[i + n : i + 2 * n] == words[i + 2 * n : i + 3 * n]
        for n in (2, 3, 4, 5, 6, 7, 8)
        for i in range(len(words) - 3 * n + 1)
    )
