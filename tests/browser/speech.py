"""Speech for the microphone of a browser: spoken by a neural voice, with quiet or shop noise between."""

from __future__ import annotations

import wave
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from playwright.sync_api import Page

from samples.make_notes import RATE, shop_noise, speak_lead

Samples = NDArray[np.float32]
Microphone = Callable[..., Page]  # of sounds: gives a page whose microphone plays them once, after `lead_s` of quiet
LEAD_S = 5.0  # it plays from the moment it is opened: the page gets ready to hear meanwhile
TAIL_S = 8.0
HUSH = 0.0008  # of an empty shop, full scale 1


def spoken(text: str) -> Samples:
    """Return a text as it is spoken, at the rate of the samples."""
    return speak_lead(text)


def quiet(seconds: float) -> Samples:
    """Return the sound of an empty shop."""
    random = np.random.default_rng(1)
    return (HUSH * random.standard_normal(int(seconds * RATE))).astype(np.float32)


def noise(seconds: float, loud: float, seed: int = 1) -> Samples:
    """Return shop noise: fans, hum and hammer blows; `loud` is its root mean square, full scale 1."""
    return (loud * shop_noise(int(seconds * RATE), seed)).astype(np.float32)


def loudness(samples: Samples) -> float:
    """Return the root mean square of some sound."""
    return float(np.sqrt(np.mean(samples**2)))


def length(*parts: Samples) -> float:
    """Return how long some sounds last, in seconds."""
    return sum(map(len, parts)) / RATE


def write_wav(path: Path, parts: Sequence[Samples]) -> None:
    """Write sounds one after the other."""
    sound = np.concatenate(parts)
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes((np.clip(sound, -1, 1) * 32767).astype("<i2").tobytes())
