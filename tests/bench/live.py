"""The open microphone measured: end of speech to card, false starts in shop noise, notes missed in it.

Run: .venv/bin/python -m tests.bench.live [--notes 30] [--minutes 10] [--missed 50]

Sound goes through the detector and the ears as fast as they take it; time is counted as it would pass in the shop: a
note's sound lasts as long as it lasts, a hearing begins when the detector tells a pause and no other one is running,
and takes what it took here. The card comes when the hearing that covers the end of the note is done.
"""

from __future__ import annotations

import argparse
import os
import statistics
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.signal import resample_poly

from api.pages.bench import card_html, first_card
from journal import flow
from journal.capture.recording import decode
from journal.hear.voice import END_S, FRAME, FRAME_S, Turn, Turns, VoiceDetector
from journal.live import OpenMicrophone, warm
from journal.settings import Settings
from journal.shop import Shop
from samples import make_notes

Samples = NDArray[np.float32]
RATE = 16_000
NOTES = Path(__file__).parents[2] / "samples" / "notes"
NEAR_TEN_S = 9.0


def sample_notes() -> list[Samples]:
    return [decode(path.read_bytes()) for path in sorted(NOTES.glob("*.opus"))]


def longest(notes: list[Samples], count: int) -> list[Samples]:
    """Return the notes nearest to ten seconds and over."""
    return sorted(notes, key=lambda note: abs(len(note) / RATE - NEAR_TEN_S))[:count]


def shop_noise(length: int, seed: int) -> Samples:
    up = make_notes.RATE // RATE
    return resample_poly(make_notes.shop_noise(length * up, seed), 1, up).astype(np.float32)[:length]


def quiet(seconds: float) -> Samples:
    return (0.0005 * np.random.default_rng(1).standard_normal(int(seconds * RATE))).astype(np.float32)


def to_card(shop: Shop, build: str, note: Samples) -> tuple[float, float] | None:
    """Return seconds from the end of speech to the card, and processor time of the last hearing; None when missed."""
    microphone = OpenMicrophone(shop, build)
    sound = np.concatenate([quiet(1.5), note, quiet(END_S + 1)])
    free_at, card_at, spoken_until, work = 0.0, 0.0, 0.0, 0.0
    for at in range(0, len(sound), FRAME * 2):
        piece = (np.clip(sound[at : at + FRAME * 2], -1, 1) * 32767).astype("<i2").tobytes()
        now = (at + FRAME * 2) / RATE
        for turn in microphone.feed(piece):
            if turn.kind == "pause":
                spoken_until = turn.at_s
                began, began_work = time.perf_counter(), time.process_time()
                first = microphone.read()
                if first is not None:
                    card_html(first_card(shop, first), "live")
                work = time.process_time() - began_work
                free_at = card_at = max(now, free_at) + time.perf_counter() - began
            elif turn.kind == "end":
                return card_at - spoken_until, work
    return None


def noises(minutes: float) -> Iterator[tuple[str, Samples]]:
    """Give kinds of shop noise, each for so many minutes."""
    random = np.random.default_rng(7)
    length = int(minutes * 60 * RATE)
    yield "fans, hum, hammer blows", 0.1 * shop_noise(length, 7)
    white = random.standard_normal(length)
    brown = np.cumsum(white)
    brown -= np.convolve(brown, np.ones(2400) / 2400, mode="same")
    yield "brown noise (extraction)", (0.1 * brown / brown.std()).astype(np.float32)
    yield "white noise (air line)", (0.1 * white).astype(np.float32)
    yield "grinder in bursts", _grinder(length, random)
    yield "an empty shop", quiet(minutes * 60)


def _grinder(length: int, random: np.random.Generator) -> Samples:
    """A harmonic whine of 180 to 260 Hz whose pitch sags under load, with hiss, on for 2 to 8 s at a time."""
    sound = np.zeros(length)
    at = 0
    while at < length:
        burst = min(int(random.uniform(2, 8) * RATE), length - at)
        t = np.arange(burst) / RATE
        pitch = random.uniform(180, 260) * (1 + 0.08 * np.sin(2 * np.pi * random.uniform(0.2, 0.8) * t))
        phase = 2 * np.pi * np.cumsum(pitch) / RATE
        whine = sum(np.sin(k * phase) / k for k in range(1, 12))
        edge = np.minimum(1, np.minimum(t, t[::-1]) / 0.15)
        sound[at : at + burst] = edge * (0.6 * whine + 0.5 * random.standard_normal(burst))
        at += burst + int(random.uniform(1, 5) * RATE)
    return (0.15 * sound / sound.std()).astype(np.float32)


def turns_in(sound: Samples) -> list[Turn]:
    detector, turns = VoiceDetector(), Turns()
    return [turn for probability in detector.feed(sound) for turn in turns.feed(probability)]


def missed(notes: list[Samples], count: int, snr_db: float) -> tuple[int, int, int]:
    """Return notes missed, notes cut in two or more, and notes whose beginning the second before misses."""
    lost = cut = late = 0
    for number in range(count):
        note = notes[number % len(notes)]
        loud = float(np.sqrt(np.mean(note**2)))
        sound = np.concatenate([quiet(3), note, quiet(3)])
        sound = sound + shop_noise(len(sound), 100 + number) * loud / 10 ** (snr_db / 20)
        begins = [turn for turn in turns_in(sound.astype(np.float32)) if turn.kind == "begin"]
        clean = [turn for turn in turns_in(np.concatenate([quiet(3), note, quiet(3)])) if turn.kind == "begin"]
        lost += not begins
        cut += len(begins) > len(clean)
        late += bool(begins and clean and begins[0].at_s > clean[0].at_s + 0.7)
    return lost, cut, late


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--notes", type=int, default=30)
    asked.add_argument("--minutes", type=float, default=10)
    asked.add_argument("--missed", type=int, default=50)
    given = asked.parse_args()
    notes = sample_notes()
    with tempfile.TemporaryDirectory() as folder:
        shop = Shop.open(Settings(data_dir=Path(folder), hear_threads=2))
        build = flow.ensure_build(shop, "niche", "niche-9").key
        warm(shop)
        chosen = longest(notes, given.notes)
        print(
            f"{len(chosen)} notes of {min(map(len, chosen)) / RATE:.1f} to {max(map(len, chosen)) / RATE:.1f} s,",
            end=" ",
        )
        print(f"load of the machine {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
        found = [times for note in chosen if (times := to_card(shop, build, note)) is not None]
        waits, work = [wait for wait, _ in found], [work for _, work in found]
        print(
            f"end of speech to card: median {statistics.median(waits):.2f} s, worst {max(waits):.2f} s of {len(found)}"
        )
        print(f"  processor time of the last hearing: median {statistics.median(work):.2f} s, worst {max(work):.2f} s")
        shop.close()
    print(f"a note ends after {END_S:g} s of silence; a frame is {FRAME_S * 1000:g} ms")
    for name, noise in noises(given.minutes):
        starts = sum(turn.kind == "begin" for turn in turns_in(noise))
        print(f"false starts, {name}: {starts} in {given.minutes:g} min, {starts * 60 / given.minutes:.1f} an hour")
    for snr_db in (10, 5):
        lost, cut, late = missed(notes, given.missed, snr_db)
        print(
            f"at {snr_db} dB: {lost} of {given.missed} notes missed, {cut} cut in more parts than in quiet,"
            f" {late} begun too late"
        )


if __name__ == "__main__":
    main()
