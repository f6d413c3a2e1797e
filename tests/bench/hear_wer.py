"""Our hearing against plain faster-whisper: word error rate and time, on recorded human speech.

`python -m tests.bench.hear_wer [weights]` hears every prompt of Debian's asterisk-core-sounds-en
(16 kHz, g722) of two seconds or longer with both, note by note in turn, with the same weights,
compute type and threads. Word errors are counted by jiwer after Whisper's own English normaliser
(package whisper-normalizer, as published by OpenAI with Whisper). Exit status 1 when our word
error rate is higher or our time is more than half.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import jiwer
from faster_whisper import WhisperModel
from whisper_normalizer.english import EnglishTextNormalizer

from journal.hear.decode import SAMPLE_RATE, Samples
from journal.hear.ears import Ears
from journal.hear.weights import find_weights
from tests.hear.conftest import Prompt, recorded_prompts

MIN_SECONDS = 2.0
MIN_PROMPTS = 120
MAX_TIME_SHARE = 0.5
# The shop's vocabulary is at hand in every hearing, as in use, though the prompts speak of telephones.
GLOSSARY = (
    "laminating epoxy", "epoxy gel coat", "hardener", "catalyst", "fumed silica", "microballoons",
    "chopped strand mat", "biaxial glass", "surface tissue", "release wax", "pva release", "silicone",
)  # fmt: skip


class Contender:
    """A way to hear, its texts and the time it took, in seconds."""

    def __init__(self, name: str, hear: Callable[[Samples], str]) -> None:
        self.name, self._hear = name, hear
        self.texts: list[str] = []
        self.seconds = 0.0

    def take(self, prompt: Prompt) -> None:
        """Hear one prompt."""
        start = time.perf_counter()
        text = self._hear(prompt.samples)
        self.seconds += time.perf_counter() - start
        self.texts.append(text)


def main(choice: str = "") -> int:
    prompts = [p for p in recorded_prompts() if is_fair(p)]
    if len(prompts) < MIN_PROMPTS:
        print(f"Only {len(prompts)} prompts: install asterisk-core-sounds-en and asterisk-core-sounds-en-g722.")
        return 1
    with TemporaryDirectory() as folder:
        weights = find_weights(choice, Path(folder))
        ears = Ears(Path(folder), choice)
        plain = WhisperModel(str(weights.folder), compute_type="auto")
        contenders = (
            Contender("plain faster-whisper", lambda x: " ".join(s.text for s in plain.transcribe(x)[0])),
            Contender("our hearing", lambda x: ears.hear(x, GLOSSARY).text),
        )
        for contender in contenders:  # loading is not timed
            contender.take(prompts[0])
            contender.seconds, contender.texts = 0.0, []
        for index, prompt in enumerate(prompts):
            for contender in contenders if index % 2 else contenders[::-1]:
                contender.take(prompt)
    return report(prompts, contenders, weights.name)


def is_fair(prompt: Prompt) -> bool:
    """Whether it is long enough, and its transcript spells out what is said (the keys * and # it does not)."""
    return len(prompt.samples) >= MIN_SECONDS * SAMPLE_RATE and not set("*#") & set(prompt.text)


def report(prompts: list[Prompt], contenders: tuple[Contender, Contender], model: str) -> int:
    normal = EnglishTextNormalizer()
    truth = [normal(prompt.text.replace("...", " ")) for prompt in prompts]
    audio_s = sum(len(prompt.samples) for prompt in prompts) / SAMPLE_RATE
    print(f"{len(prompts)} prompts, {audio_s:.0f} s, weights {model}")
    print(f"{'':22}{'WER':>8}{'wrong':>8}{'left out':>10}{'put in':>8}{'time':>8}{'of audio':>10}")
    rates = []
    for contender in contenders:
        words = jiwer.process_words(truth, [normal(text.replace("...", " ")) for text in contender.texts])
        rates.append(words.wer)
        print(
            f"{contender.name:22}{words.wer:8.2%}{words.substitutions:8}{words.deletions:10}"
            f"{words.insertions:8}{contender.seconds:7.1f}s{contender.seconds / audio_s:10.3f}"
        )
    share = contenders[1].seconds / contenders[0].seconds
    print(f"our time is {share:.2f} of plain; our WER less plain's is {rates[1] - rates[0]:+.2%}")
    return 0 if rates[1] <= rates[0] and share <= MAX_TIME_SHARE else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
