"""The open microphone of one bench: sound in, turns and first readings out. Nothing here is kept.

The recording comes by its own way (`keep.arriving`) and is heard and read anew when it is whole; what is said here is
for the speaker at the bench, at once.
"""

from __future__ import annotations

import math
from collections import deque
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from journal import flow
from journal.hear.live import LiveNote
from journal.hear.voice import HELD_S, Turn, Turns, VoiceDetector
from journal.obey import commanded
from journal.read.commands import Command, rest_of
from journal.record import NoteText, Step, Transcript, Word
from journal.shop import Shop

SAMPLE_RATE = 16_000
BEFORE_S = 1.0  # kept before speech is told, so that its first word is whole


@dataclass(frozen=True, slots=True)
class FirstReading:
    """What was heard and read so far of the note that is being spoken: the `number`-th on this microphone.

    `until_s` counts the seconds of the note that it covers. `answer` is what a question is answered with.
    """

    number: int
    text: str
    until_s: float
    steps: tuple[Step, ...]
    commands: tuple[Command, ...]
    answer: str = ""


class OpenMicrophone:
    """One bench's microphone. `feed` takes sound on one thread; `read` may run on another meanwhile."""

    def __init__(self, shop: Shop, build_key: str) -> None:
        """Take the shop and the build that is worked on. Raises NotKept."""
        self._shop, self._build = shop, shop.store.build(build_key)
        self._detector, self._turns = VoiceDetector(), Turns()
        self._before: deque[NDArray[np.float32]] = deque()
        self._note: LiveNote | None = None
        self.number = 0

    @property
    def speaking(self) -> bool:
        """Whether a note is being spoken."""
        return self._turns.speaking

    @property
    def paused(self) -> bool:
        """Whether nobody speaks at the moment in a note, or it is over."""
        return self._turns.paused or not self._turns.speaking

    def feed(self, sound: bytes) -> list[Turn]:
        """Take 16 kHz mono 16-bit little-endian sound; return the turns in it."""
        samples = np.frombuffer(sound[: len(sound) // 2 * 2], "<i2").astype(np.float32) * np.float32(1 / 32768)
        if self._note is not None and self.speaking:
            self._note.add(samples)
        else:
            self._keep_before(samples)
        turns = [turn for p in self._detector.feed(samples) for turn in self._turns.feed(p)]
        if any(turn.kind == "begin" for turn in turns):
            self._open()
        if turns and turns[-1].kind == "end":
            self._shop.floor.leave(self)
        return turns

    def _keep_before(self, samples: NDArray[np.float32]) -> None:
        self._before.append(samples)
        while sum(map(len, self._before)) - len(self._before[0]) >= BEFORE_S * SAMPLE_RATE:
            self._before.popleft()

    def _open(self) -> None:
        before = np.concatenate([np.zeros(0, np.float32), *self._before])
        self._note = LiveNote(self._shop.ears, before)
        self._before.clear()
        self.number += 1
        self._shop.floor.take(self)

    def begin(self) -> None:
        """Begin a note by hand; only `finish` ends it."""
        if not self.speaking:
            self._turns.begin(math.inf)
            self._open()

    def hold(self) -> None:
        """Let pauses be longer: the speaker said that there is a note, and will say when it ends."""
        self._turns.end_after_s = max(self._turns.end_after_s, HELD_S)

    def finish(self) -> None:
        """End the note by hand."""
        self._turns.finish()

    def reset(self) -> None:
        """Forget what came in: the page itself was speaking, or is gone."""
        self._shop.floor.leave(self)
        self._turns.finish()
        self._detector.reset()
        self._before.clear()

    def read(self) -> FirstReading | None:
        """Hear and read what was spoken so far; None before the first note. Raises WeightsError."""
        note, number = self._note, self.number
        if note is None:
            return None
        heard = note.hear()
        transcript = heard.transcript
        text = NoteText(transcript.text, self._shop.now(), self._shop.settings.locale, transcript)
        commands = commanded(self._shop, text)
        own = rest_of(text, commands)
        memory = flow.memory_of(self._shop, self._build.id)
        steps = () if own is None else flow.read_only(self._shop, own, memory).steps
        asked = any(command.kind == "ask" for command in commands)
        if not self.speaking:
            self._shop.floor.leave(self)
        answer = flow.ask(self._shop, transcript.text, self._build.id).text if asked else ""
        return FirstReading(number, transcript.text, heard.until_s, steps, commands, answer)


def warm(shop: Shop) -> None:
    """Load what hears and reads, so that the first note does not wait. Raises WeightsError."""
    shop.ears.load()
    shop.ears.hear(np.zeros(SAMPLE_RATE, np.float32))
    VoiceDetector().feed(np.zeros(512, np.float32))
    words = (Word("Waxed.", (0, 6), 0.0, 1.0, 0.6),)
    flow.read_only(shop, NoteText("Waxed.", transcript=Transcript("Waxed.", words)))
