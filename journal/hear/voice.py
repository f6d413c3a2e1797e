"""When somebody begins and stops speaking, told while the sound comes in.

The voice activity detector is Silero's, as it ships with faster-whisper, run frame by frame with its state carried
on. What its probabilities mean for a note (`Turns`) is pure.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from faster_whisper.vad import get_vad_model

from journal.hear.decode import SAMPLE_RATE, Samples

FRAME = 512  # samples, fixed by the detector
FRAME_S = FRAME / SAMPLE_RATE
_CONTEXT = 64  # samples of the frame before, which the detector looks at again

SPEECH, SILENCE = 0.5, 0.35  # between the two nothing changes
BEGINS_FRAMES, OF_FRAMES = 6, 8  # about a fifth of a second of speech: a dropped spanner is shorter
PAUSE_S = 0.32
END_S = 1.2  # makers pause between the clauses of a note, seldom for longer
HELD_S = 8.0  # after a spoken "note", until "end note"

Kind = Literal["begin", "pause", "resume", "end"]


@dataclass(frozen=True, slots=True)
class Turn:
    """A change in who speaks: its kind, and when, in seconds of sound since the detector was made.

    `at_s` is where the speech itself began or stopped, which is a little before it could be told.
    """

    kind: Kind
    at_s: float


class VoiceDetector:
    """Gives the probability of speech in each frame of a stream of 16 kHz mono sound. Not for several threads."""

    def __init__(self) -> None:
        self._session = get_vad_model().session
        self.reset()

    def reset(self) -> None:
        """Forget what was heard."""
        self._h = np.zeros((1, 1, 128), np.float32)
        self._c = np.zeros((1, 1, 128), np.float32)
        self._before = np.zeros(_CONTEXT, np.float32)
        self._rest = np.zeros(0, np.float32)

    def feed(self, samples: Samples) -> list[float]:
        """Return the probabilities of the frames that are whole now, 0 to 1."""
        sound = np.concatenate([self._rest, samples])
        whole = len(sound) // FRAME
        self._rest = sound[whole * FRAME :]
        return [self._probability(sound[i * FRAME : (i + 1) * FRAME]) for i in range(whole)]

    def _probability(self, frame: Samples) -> float:
        given = np.concatenate([self._before, frame])[np.newaxis]
        self._before = frame[-_CONTEXT:]
        out, self._h, self._c = self._session.run(None, {"input": given, "h": self._h, "c": self._c})
        return float(out.reshape(-1)[-1])


class Turns:
    """Tells the turns of one speaker from probabilities of speech, one a frame. Pure."""

    def __init__(self) -> None:
        self.end_after_s = END_S
        self.speaking = False  # a note is being spoken, pauses included
        self._recent: deque[bool] = deque(maxlen=OF_FRAMES)
        self._at = 0  # frames so far
        self._last = 0  # the frame after the last one with speech
        self._paused = False

    @property
    def paused(self) -> bool:
        """Whether a note is under way and nobody speaks at the moment."""
        return self.speaking and self._paused

    def begin(self, end_after_s: float) -> None:
        """Begin a note by hand; it ends after so much silence."""
        self.speaking, self._paused, self._last = True, False, self._at
        self.end_after_s = end_after_s

    def finish(self) -> None:
        """End the note by hand."""
        self.speaking, self._paused = False, False
        self.end_after_s = END_S
        self._recent.clear()

    def feed(self, probability: float) -> Iterator[Turn]:
        """Take the next frame; give the turns that it makes."""
        self._at += 1
        self._recent.append(probability >= SPEECH)
        spoken = sum(self._recent) >= BEGINS_FRAMES if not self.speaking else probability >= SPEECH
        if not self.speaking:
            if spoken:
                self.begin(END_S)
                yield Turn("begin", (self._at - len(self._recent)) * FRAME_S)
            return
        if spoken:
            self._last = self._at
            if self._paused and sum(self._recent) >= OF_FRAMES // 4:  # a click does not take the pause back
                self._paused = False
                yield Turn("resume", self._at * FRAME_S)
        yield from self._silent(probability)

    def _silent(self, probability: float) -> Iterator[Turn]:
        silent_s = (self._at - self._last) * FRAME_S
        stopped_s = self._last * FRAME_S
        if not self._paused and silent_s >= PAUSE_S and probability < SILENCE:
            self._paused = True
            yield Turn("pause", stopped_s)
        if silent_s >= self.end_after_s:
            self.finish()
            yield Turn("end", stopped_s)
