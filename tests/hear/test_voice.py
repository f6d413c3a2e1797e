"""When somebody begins and stops speaking, while the sound comes in."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from journal.capture.recording import decode
from journal.hear.decode import SAMPLE_RATE, Samples
from journal.hear.speech import find_speech
from journal.hear.voice import END_S, FRAME_S, HELD_S, Turn, Turns, VoiceDetector

NOTE = "notes/niche-2-04.opus"


def turns_in(probabilities: list[float], turns: Turns | None = None) -> list[Turn]:
    turns = turns or Turns()
    return [turn for probability in probabilities for turn in turns.feed(probability)]


def frames(seconds: float, probability: float) -> list[float]:
    return [probability] * round(seconds / FRAME_S)


def test_a_note_begins_pauses_and_ends() -> None:
    found = turns_in(frames(1, 0) + frames(2, 0.9) + frames(0.6, 0.1) + frames(1, 0.9) + frames(3, 0))
    assert [turn.kind for turn in found] == ["begin", "pause", "resume", "pause", "end"]
    begin, pause, _, _, end = (turn.at_s for turn in found)
    assert begin == pytest.approx(1, abs=0.1)
    assert pause == pytest.approx(3, abs=0.1)
    assert end == pytest.approx(4.6, abs=0.1)


def test_a_bang_is_no_note_and_a_click_in_a_pause_does_not_take_it_back() -> None:
    assert turns_in(frames(1, 0) + frames(0.12, 0.95) + frames(2, 0)) == []
    found = turns_in(frames(1, 0.9) + frames(0.5, 0) + [0.9] + frames(2, 0))
    assert [turn.kind for turn in found] == ["begin", "pause", "end"]


def test_a_held_note_bears_longer_pauses() -> None:
    turns = Turns()
    turns_in(frames(1, 0.9), turns)
    turns.end_after_s = HELD_S
    assert "end" not in [turn.kind for turn in turns_in(frames(HELD_S - 1, 0), turns)]
    assert [turn.kind for turn in turns_in(frames(2, 0), turns)] == ["end"]
    assert turns.end_after_s == END_S  # of the next one


def test_a_note_begun_by_hand_ends_by_hand() -> None:
    turns = Turns()
    turns.begin(float("inf"))
    assert [turn.kind for turn in turns_in(frames(30, 0), turns)] == ["pause"]
    turns.finish()
    assert turns_in(frames(3, 0), turns) == []


def test_the_detector_tells_the_same_in_pieces_as_at_once(sample: Callable[[str], bytes]) -> None:
    samples = decode(sample(NOTE))
    whole = VoiceDetector().feed(samples)
    detector, pieces = VoiceDetector(), []
    for at in range(0, len(samples), 700):
        pieces += detector.feed(samples[at : at + 700])
    assert pieces == pytest.approx(whole)
    detector.reset()
    assert detector.feed(samples[:5120]) == pytest.approx(whole[:10])


def test_speech_is_found_where_the_offline_pass_finds_it(sample: Callable[[str], bytes]) -> None:
    rest = np.zeros(SAMPLE_RATE, np.float32)
    samples: Samples = np.concatenate([rest, decode(sample(NOTE)), np.zeros(3 * SAMPLE_RATE, np.float32)])
    found = turns_in(VoiceDetector().feed(samples))
    spans = find_speech(samples)
    assert found[0].at_s == pytest.approx(spans[0].start_s, abs=0.4)
    assert found[-1].kind == "end"
    assert found[-1].at_s == pytest.approx(spans[-1].end_s, abs=0.4)


def test_noise_is_no_speech() -> None:
    random = np.random.default_rng(4)
    noise = (0.05 * random.standard_normal(60 * SAMPLE_RATE)).astype(np.float32)
    noise[::SAMPLE_RATE] = 0.9  # and a bang a second
    assert turns_in(VoiceDetector().feed(noise)) == []
