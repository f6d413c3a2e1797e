from __future__ import annotations

import re
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from journal.hear.decode import SAMPLE_RATE, Samples
from journal.hear.ears import Ears
from journal.hear.weights import WeightsError
from tests.hear.conftest import Prompt

Say = Callable[[str], Samples]


def words_of(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+", text.lower())


def quiet(seconds: float) -> Samples:
    return np.zeros(int(seconds * SAMPLE_RATE), dtype=np.float32)


def test_a_recorded_prompt_is_heard_word_for_word(ears: Ears, prompts: dict[str, Prompt]) -> None:
    prompt = prompts["agent-alreadyon"]
    transcript = ears.hear(prompt.samples)
    assert words_of(transcript.text) == words_of(prompt.text)
    assert transcript.model == "tiny.en"
    assert transcript.duration_s == pytest.approx(len(prompt.samples) / SAMPLE_RATE)


def test_words_cut_exactly_their_characters_and_follow_each_other_in_time(
    ears: Ears, prompts: dict[str, Prompt]
) -> None:
    transcript = ears.hear(prompts["agent-alreadyon"].samples)
    assert " ".join(word.text for word in transcript.words) == transcript.text
    for word in transcript.words:
        assert transcript.text[slice(*word.chars)] == word.text
        assert 0 <= word.start_s <= word.end_s <= transcript.duration_s
        assert 0 < word.probability <= 1
    starts = [word.start_s for word in transcript.words]
    assert starts == sorted(starts)


def test_word_times_point_at_the_speech_and_not_at_the_silence_before_it(ears: Ears, say: Say) -> None:
    sound = np.concatenate([quiet(3), say("Mix the resin with the hardener."), quiet(2)])
    words = ears.hear(sound).words
    assert 2.7 < words[0].start_s < 3.6
    assert words[-1].end_s < transcript_end(sound) - 1.5


def transcript_end(sound: Samples) -> float:
    return len(sound) / SAMPLE_RATE


def test_silence_gives_an_empty_transcript(ears: Ears) -> None:
    transcript = ears.hear(quiet(5))
    assert (transcript.text, transcript.words, transcript.alternatives) == ("", (), ())
    assert transcript.duration_s == 5


@pytest.mark.parametrize("seconds", [0, 0.001, 0.1])
def test_a_recording_too_short_for_a_word_gives_an_empty_transcript(ears: Ears, seconds: float) -> None:
    assert ears.hear(quiet(seconds)).text == ""


@pytest.mark.parametrize("level", [0.001, 0.01, 0.1, 0.5])
def test_white_noise_gives_an_empty_transcript(ears: Ears, level: float) -> None:
    noise = np.random.default_rng(7).standard_normal(8 * SAMPLE_RATE) * level
    assert ears.hear(noise.clip(-1, 1).astype(np.float32)).text == ""


def test_mains_hum_and_knocks_give_an_empty_transcript(ears: Ears) -> None:
    time = np.arange(8 * SAMPLE_RATE) / SAMPLE_RATE
    hum = 0.3 * np.sin(2 * np.pi * 50 * time)
    random = np.random.default_rng(3)
    for start in random.integers(0, 7 * SAMPLE_RATE, 12):
        hum[start : start + 800] += random.standard_normal(800) * np.exp(-np.arange(800) / 100)
    assert ears.hear(hum.clip(-1, 1).astype(np.float32)).text == ""


def test_a_long_note_is_heard_in_order_over_its_windows(ears: Ears, prompts: dict[str, Prompt]) -> None:
    names = ["agent-alreadyon", "conf-adminmenu-18", "vm-rec-name", "cannot-complete-as-dialed"]
    sound = np.concatenate([part for name in names for part in (prompts[name].samples, quiet(1.2))])
    seen: list[float] = []
    transcript = ears.hear(sound, progress=seen.append)
    heard = words_of(transcript.text)
    landmarks = [heard.index(word) for word in ("logged", "conference", "tone", "completed")]
    assert landmarks == sorted(landmarks)
    assert seen == sorted(seen)
    assert seen[-1] == 1.0
    assert len(seen) > 2
    assert transcript.words[-1].text.lower().startswith("dial")
    assert transcript_end(sound) - 2.5 < transcript.words[-1].end_s < transcript_end(sound) - 1


def test_a_pause_of_a_minute_does_not_shift_the_times_after_it(ears: Ears, say: Say) -> None:
    sound = np.concatenate([say("Mixed the first batch."), quiet(60), say("The gel coat is tacky.")])
    transcript = ears.hear(sound)
    assert "first batch" in transcript.text
    assert transcript.words[-1].start_s > 62


def test_doubtful_speech_brings_other_hearings_with_words_of_their_own(ears: Ears, say: Say) -> None:
    speech = say("Four twenty of resin.")
    noise = np.random.default_rng(5).standard_normal(len(speech)) * 0.005
    sound = (speech + noise).astype(np.float32)
    transcript = ears.hear(sound, glossary=("resin", "hardener", "gel coat"))
    assert transcript.doubts
    assert transcript.alternatives
    for alternative in transcript.alternatives:
        assert alternative.text != transcript.text
        assert all(alternative.text[slice(*word.chars)] == word.text for word in alternative.words)
        assert alternative.source
    assert len({alternative.text for alternative in transcript.alternatives}) == len(transcript.alternatives)


def test_the_shops_words_do_not_change_speech_that_has_none_of_them(ears: Ears, prompts: dict[str, Prompt]) -> None:
    glossary = ("laminating epoxy", "hardener", "fumed silica", "chopped strand mat", "release wax")
    for name in ("vm-rec-name", "privacy-prompt", "conf-userwilljoin"):
        samples = prompts[name].samples
        assert ears.hear(samples, glossary).text == ears.hear(samples).text


def test_the_sound_tells_what_was_said_from_what_sounds_like_it(ears: Ears, say: Say) -> None:
    sound = np.concatenate([quiet(1), say("We left the gel coat for forty minutes before the second coat.")])
    heard = ears.hear(sound)
    start = heard.text.index("40")
    [fourteen, ten, nothing] = ears.weigh(
        sound, heard, [((start, start + 2), "14"), ((start, start + 2), "10"), ((900, 904), "never")]
    )
    assert nothing is None
    assert fourteen is not None
    assert ten is not None
    assert ten < fourteen < 0
    # The same change taken back is worth as much.
    other = replace(heard, text=heard.text[:start] + "14" + heard.text[start + 2 :])
    [forty] = ears.weigh(sound, other, [((start, start + 2), "40")])
    assert forty == pytest.approx(-fourteen, abs=0.05)


def test_each_window_of_a_long_note_is_asked_about_its_own_words(ears: Ears, say: Say) -> None:
    said = say("The pot life of this resin is forty minutes.")
    sound = np.concatenate([said, quiet(12), said])
    heard = ears.hear(sound)
    places = [match.start() for match in re.finditer("40", heard.text)]
    assert len(places) == 2
    first, second = ears.weigh(sound, heard, [((at, at + 2), "14") for at in places])
    assert first is not None
    assert second is not None
    assert max(first, second) < 0


def test_two_threads_share_one_model(ears: Ears, prompts: dict[str, Prompt]) -> None:
    sounds = [prompts[name].samples for name in ("conf-getpin", "vm-rec-name")] * 2
    alone = [ears.hear(sound).text for sound in sounds]
    with ThreadPoolExecutor(2) as pool:
        assert [transcript.text for transcript in pool.map(ears.hear, sounds)] == alone
    assert ears.load()[0] is ears.load()[0]


def test_missing_weights_are_an_error_only_when_something_is_heard(tmp_path: Path) -> None:
    ears = Ears(tmp_path, weights=str(tmp_path))
    with pytest.raises(WeightsError):
        ears.hear(quiet(1))
