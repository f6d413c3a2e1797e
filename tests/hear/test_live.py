"""A note heard while it is spoken."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from journal.capture.recording import decode
from journal.hear.decode import SAMPLE_RATE
from journal.hear.ears import Ears
from journal.hear.live import SETTLED_S, Floor, LiveNote, joined, quick_hearing
from journal.record import Transcript, Word

NOTE = "notes/niche-3-03.opus"  # 300 g of epoxy gel coat, 87 g of hardener


@pytest.fixture(scope="module")
def ears(weights: Path, tmp_path_factory: pytest.TempPathFactory) -> Ears:
    return Ears(tmp_path_factory.mktemp("ears"), str(weights), 2)


def test_a_note_is_heard_as_it_comes_in(ears: Ears, sample: Callable[[str], bytes]) -> None:
    samples = decode(sample(NOTE))
    note = LiveNote(ears, before=samples[: SAMPLE_RATE // 2])
    half = len(samples) // 2
    note.add(samples[SAMPLE_RATE // 2 : half])
    first = note.hear()
    note.add(samples[half:])
    last = note.hear()
    assert "three hundred" in last.transcript.text
    assert "eighty-seven" in last.transcript.text
    assert first.until_s == pytest.approx(half / SAMPLE_RATE)
    assert last.until_s == pytest.approx(len(samples) / SAMPLE_RATE)
    for word in last.transcript.words:
        assert last.transcript.text[slice(*word.chars)] == word.text
        assert 0 <= word.start_s <= word.end_s <= last.until_s + 0.1


def test_a_long_stretch_is_heard_once(ears: Ears, sample: Callable[[str], bytes]) -> None:
    samples = decode(sample(NOTE))
    note = LiveNote(ears)
    while note.length_s <= SETTLED_S:
        note.add(samples)
    before = note.hear().transcript
    note.add(np.zeros(2 * SAMPLE_RATE, np.float32))
    note.add(samples)
    after = note.hear().transcript
    assert after.text.startswith(before.text)  # the settled part stands
    assert after.words[: len(before.words)] == before.words
    assert after.words[-1].start_s > before.words[-1].end_s
    assert after.text[slice(*after.words[-1].chars)] == after.words[-1].text


def test_silence_is_an_empty_hearing(ears: Ears) -> None:
    assert quick_hearing(ears, np.zeros(2 * SAMPLE_RATE, np.float32)).text == ""


def test_an_empty_stretch_shifts_the_seconds_of_the_next() -> None:
    word = Word("Waxed.", (0, 6), 0.5, 1.0, 0.9)
    whole = joined([Transcript("", duration_s=2.0), Transcript("Waxed.", (word,), duration_s=1.5)])
    assert (whole.text, whole.duration_s) == ("Waxed.", 3.5)
    assert (whole.words[0].start_s, whole.words[0].chars) == (2.5, (0, 6))


def test_what_can_wait_waits_for_the_floor() -> None:
    floor = Floor()
    floor.take("one")
    floor.take("two")
    floor.leave("one")
    assert not floor.wait(0.01)
    threading.Timer(0.05, floor.leave, ("two",)).start()
    assert floor.wait(10)
