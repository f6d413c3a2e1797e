from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from journal.hear.decode import SAMPLE_RATE
from journal.hear.speech import MARGIN_S, MAX_WINDOW_S, Span, cut_windows, find_speech, snap
from journal.record import Word
from tests.hear.conftest import Prompt


def test_speech_is_found_where_it_is(prompts: dict[str, Prompt]) -> None:
    quiet = np.zeros(4 * SAMPLE_RATE, dtype=np.float32)
    prompt = prompts["agent-alreadyon"].samples
    spans = find_speech(np.concatenate([quiet, prompt, quiet]))
    assert spans[0].start_s == pytest.approx(4, abs=0.3)
    assert spans[-1].end_s == pytest.approx(4 + len(prompt) / SAMPLE_RATE, abs=0.5)


def test_a_short_note_is_one_window_with_a_margin() -> None:
    speech = (Span(2.0, 3.0), Span(3.5, 5.0))
    assert cut_windows(speech, 9.0) == (Span(2.0 - MARGIN_S, 5.0 + MARGIN_S),)


def test_no_speech_needs_no_window() -> None:
    assert cut_windows((), 30.0) == ()


def test_long_speech_is_cut_at_silences_into_windows_that_hold_all_of_it_once() -> None:
    speech = tuple(Span(float(i * 5), i * 5 + 4.6) for i in range(40))
    windows = cut_windows(speech, 200.0)
    assert len(windows) > 7
    assert all(window.length_s <= MAX_WINDOW_S for window in windows)
    for span in speech:
        assert sum(w.start_s <= span.start_s and span.end_s <= w.end_s for w in windows) == 1
    for earlier, later in pairwise(windows):
        assert earlier.end_s <= later.start_s


def test_a_long_pause_is_not_encoded() -> None:
    windows = cut_windows((Span(1.0, 3.0), Span(60.0, 62.0)), 65.0)
    assert [round(window.start_s, 1) for window in windows] == [0.4, 59.4]


def test_a_word_stretched_over_a_pause_is_cut_back_to_its_speech() -> None:
    word = Word("resin", (0, 5), 0.2, 4.4, 0.9)
    [snapped] = snap([word], (Span(0.0, 0.5), Span(4.0, 6.0)))
    assert (snapped.start_s, snapped.end_s) == (4.0, 4.4)


def test_a_word_outside_all_speech_keeps_its_time() -> None:
    word = Word("resin", (0, 5), 1.0, 1.5, 0.9)
    assert snap([word], (Span(3.0, 4.0),)) == (word,)
