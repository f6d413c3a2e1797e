from __future__ import annotations

from dataclasses import replace

import pytest

from journal.hear.decode import SAMPLE_RATE, How, Hypothesis, place_words, repeats
from journal.hear.ears import Ears
from tests.hear.conftest import Prompt

GOOD = Hypothesis("Mixed the resin.", (1, 2, 3), -0.3, 0.1, False, "test")


def aligned(*words: str) -> list[dict[str, object]]:
    return [{"word": w, "start": i, "end": i + 1, "probability": 0.9} for i, w in enumerate(words)]


def test_words_are_placed_at_their_own_characters_though_they_come_twice() -> None:
    text = "Two, no, two coats."
    words = place_words(text, aligned(" Two,", " no,", " two", "", " coats."))
    assert [word.text for word in words] == ["Two,", "no,", "two", "coats."]
    assert [text[slice(*word.chars)] for word in words] == ["Two,", "no,", "two", "coats."]
    assert words[2].chars == (9, 12)


@pytest.mark.parametrize(
    "text",
    [
        "press one to press one to press one to exit",
        "the resin " * 12,
    ],
)
def test_going_round_in_circles_is_seen(text: str) -> None:
    assert repeats(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Two layers of four fifty, and two layers of four fifty on the flange.",
        "No, no, no.",
        "Weigh a hundred, a hundred and ten, a hundred and twenty of the same batch.",
    ],
)
def test_saying_something_again_is_no_circle(text: str) -> None:
    assert not repeats(text)


def test_a_good_hearing_has_nothing_wrong_with_it() -> None:
    assert GOOD.wrongs() == ()


@pytest.mark.parametrize(
    ("changed", "wrong"),
    [
        (replace(GOOD, log_probability=-1.2), "low probability"),
        (replace(GOOD, text="the resin " * 12), "repeats itself"),
        (replace(GOOD, text="Lot number 4, 4, 7, 1."), "figures one by one"),
        (replace(GOOD, text="Mixed 5-0-0 of resin."), "figures one by one"),
        (replace(GOOD, capped=True), "more words than fit the time"),
    ],
)
def test_each_sign_of_a_wrong_hearing_is_named(changed: Hypothesis, wrong: str) -> None:
    assert changed.wrongs() == (wrong,)


@pytest.mark.parametrize("text", ["Mixed 420 with 118, 100 to 28.", "Coats 1, 2 and 3.", "It is 1.5, 2.5 or 3.5 mm."])
def test_figures_that_belong_apart_are_not_wrong(text: str) -> None:
    assert replace(GOOD, text=text).wrongs() == ()


def test_silence_is_believed_only_with_a_low_probability() -> None:
    assert replace(GOOD, no_speech_probability=0.9, log_probability=-1.5).is_silence
    assert not replace(GOOD, no_speech_probability=0.9).is_silence
    assert replace(GOOD, text=" ... ").is_silence


def test_the_short_window_and_the_full_one_hear_the_same_clear_prompt(ears: Ears, prompts: dict[str, Prompt]) -> None:
    recogniser = ears.load()[0]
    samples = prompts["agent-alreadyon"].samples
    short = recogniser.encode(samples)
    full = recogniser.encode(samples, 30.0)
    assert short.duration_s == full.duration_s == pytest.approx(len(samples) / SAMPLE_RATE)
    texts = {recogniser.decode(encoded, How())[0].text for encoded in (short, full)}
    assert len({text.lower().replace(",", "") for text in texts}) == 1


def test_tokens_are_capped_by_the_length_of_the_sound(ears: Ears, prompts: dict[str, Prompt]) -> None:
    recogniser = ears.load()[0]
    encoded = replace(recogniser.encode(prompts["conf-adminmenu-18"].samples), duration_s=0.5)
    [hypothesis] = recogniser.decode(encoded, How())
    assert hypothesis.capped
    assert "more words than fit the time" in hypothesis.wrongs()


def test_a_beam_gives_its_hypotheses_best_first(ears: Ears, prompts: dict[str, Prompt]) -> None:
    recogniser = ears.load()[0]
    encoded = recogniser.encode(prompts["vm-rec-name"].samples)
    hypotheses = recogniser.decode(encoded, How(beam=4, hypotheses=4, timestamps=False))
    assert len(hypotheses) == 4
    scores = [hypothesis.log_probability for hypothesis in hypotheses]
    assert scores[0] == max(scores)
