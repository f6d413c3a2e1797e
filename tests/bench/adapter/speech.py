"""Speak the sentences and keep what the model's encoder makes of them: `python -m tests.bench.adapter.speech FOLDER`.

Everyday sentences are spoken three times. Voices vary in pace and pitch, and speak in shop noise as often as not. Those
that measure hearing (the cast `check` of tests/bench/read/voices.py) are not among them, but for the one neural voice
that there is.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np

from journal.capture.recording import decode
from journal.hear.decode import FULL_WINDOW_S, SAMPLE_RATE, Recogniser
from journal.hear.speech import cut_windows, find_speech
from journal.hear.weights import find_weights
from samples.make_notes import Samples, mix, neural_voice, read_wav, resample, speak_flite, write_opus
from tests.bench.adapter.sentences import Sentence, everyday, sentences
from tests.bench.read.corpus import CORPUS
from tests.bench.score import load_notes

NOISES_DB = (None, None, 20.0, 15.0, 10.0, 10.0, 5.0)
BRITISH = ("en-gb", "en-gb-x-rp", "en-gb+m1", "en-gb+m3", "en-gb+f1", "en-gb+f4", "en-gb-x-gbclan")
AMERICAN = ("en-us", "en-us", "en-us+m1", "en-us+m3", "en-us+f1", "en-us+f4")
# Seconds of silence after the note, of which hearing gives seven: with four the encoder is quicker and hears alike.
PADS_S = (7.0, 4.0, 4.0, 4.0)
EVERYDAY_VOICES = 3


def main(folder: Path) -> None:
    """Write one FOLDER/NUMBER.npz a sentence: features [frames, width], text, seconds where speech begins and ends."""
    folder.mkdir(parents=True, exist_ok=True)
    recogniser = Recogniser(str(find_weights("base", folder / "weights").folder))
    said = list(enumerate([*sentences(load_notes(CORPUS / "work.jsonl")), *EVERYDAY_VOICES * tuple(everyday())]))
    random.Random(11).shuffle(said)
    for number, sentence in said:
        path = folder / f"{number:05d}.npz"
        if not path.exists():
            _keep(path, recogniser, sentence, random.Random(number * 7919 + 1))


def _keep(path: Path, recogniser: Recogniser, sentence: Sentence, rng: random.Random) -> None:
    sound = _through_opus(mix(speak(sentence, rng), rng.choice(NOISES_DB), rng.getrandbits(31)))
    windows = cut_windows(find_speech(sound), len(sound) / SAMPLE_RATE)
    if len(windows) != 1:  # where its words are cut in two is not known
        return
    part = sound[int(windows[0].start_s * SAMPLE_RATE) : int(windows[0].end_s * SAMPLE_RATE)]
    seconds = len(part) / SAMPLE_RATE
    window_s = FULL_WINDOW_S if rng.random() < 0.05 else seconds + rng.choice(PADS_S)
    features = np.asarray(recogniser.encode(np.ascontiguousarray(part), window_s).features)[0]
    speech = find_speech(part)
    ends = (speech[0].start_s, speech[-1].end_s) if speech else (0.0, seconds)
    np.savez(path, features=features.astype(np.float16), text=sentence.text, note=sentence.note, speech=ends)


def speak(sentence: Sentence, rng: random.Random) -> Samples:
    """Return the sentence in one of the voices, 16 kHz mono."""
    share = rng.random()
    if share < 0.42:
        return _pitched(_neural(sentence.text, rng), rng, 0.16 if rng.random() < 0.4 else 0.0)
    if share < 0.70:
        voice = rng.choice(("awb", "awb", "slt", "rms") if sentence.british else ("slt", "slt", "rms", "rms", "awb"))
        return _pitched(speak_flite(sentence.text, voice), rng, 0.12 if rng.random() < 0.6 else 0.0)
    if share < 0.78:
        return _pitched(_festival(sentence.text), rng, 0.1)
    return _espeak(sentence.text, rng.choice(BRITISH if sentence.british else AMERICAN), rng)


def _neural(text: str, rng: random.Random) -> Samples:
    from piper import SynthesisConfig

    manner = SynthesisConfig(
        length_scale=rng.uniform(0.85, 1.2), noise_scale=rng.uniform(0.5, 0.9), noise_w_scale=rng.uniform(0.6, 1.0)
    )
    chunks = list(neural_voice().synthesize(text, manner))
    return resample(np.concatenate([chunk.audio_float_array for chunk in chunks]), chunks[0].sample_rate)


def _espeak(text: str, voice: str, rng: random.Random) -> Samples:
    pace, pitch = str(rng.randint(135, 180)), str(rng.randint(35, 65))
    with tempfile.NamedTemporaryFile(suffix=".wav") as file:
        subprocess.run(["espeak-ng", "-v", voice, "-s", pace, "-p", pitch, "-w", file.name, text], check=True)
        return resample(*read_wav(Path(file.name).read_bytes()))


def _festival(text: str) -> Samples:
    with tempfile.TemporaryDirectory() as folder:
        said, sound = Path(folder, "said.txt"), Path(folder, "said.wav")
        said.write_text(text, encoding="utf-8")
        command = ["text2wave", "-eval", "(voice_ked_diphone)", "-o", str(sound), str(said)]
        subprocess.run(command, check=True, capture_output=True)
        return resample(*read_wav(sound.read_bytes()))


def _pitched(sound: Samples, rng: random.Random, most: float) -> Samples:
    """Return the sound played faster or slower by up to `most`, pitch and all: another throat."""
    length = int(len(sound) / (1 + rng.uniform(-most, most)))
    at = np.linspace(0, len(sound) - 1, length)
    return np.interp(at, np.arange(len(sound)), sound).astype(np.float32)


def _through_opus(sound: Samples) -> Samples:
    with tempfile.NamedTemporaryFile(suffix=".opus") as file:
        write_opus(Path(file.name), sound, {})
        return decode(Path(file.name))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
