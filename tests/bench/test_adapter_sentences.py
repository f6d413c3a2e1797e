"""What the adapter of the speech weights learns from."""

from __future__ import annotations

import random
import re

import pytest

from tests.bench.adapter.sentences import everyday, in_words, is_marked, sentences, whole, with_other_numbers
from tests.bench.read.corpus import CORPUS
from tests.bench.score import load_notes
from tests.hear.conftest import recorded_prompts


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("3 coats, 20 minutes apart.", "three coats, twenty minutes apart."),
        ("0.5 mm at the lip.", "zero point five mil at the lip."),
        ("Shop's at 19°C, 55% humidity.", "Shop's at nineteen degrees, fifty-five percent humidity."),
        ("Started at 2:05.", "Started at two oh five."),
        ("Cast no. 14.", "Cast no. fourteen."),
    ],
)
def test_figures_and_units_are_written_as_they_are_said(written: str, said: str) -> None:
    assert in_words(written, random.Random(1), british=True) == said


def test_what_cannot_be_said_for_sure_is_left_out() -> None:
    assert in_words("Set A + set B @ noon.", random.Random(1), british=True) is None


@pytest.mark.parametrize("number", [7, 20, 38, 100, 105, 350, 999, 2000])
def test_a_number_is_said_in_words_alone(number: int) -> None:
    assert not re.search(r"\d", whole(number, random.Random(number), british=False))


def test_small_numbers_and_the_words_around_stay_and_others_vary() -> None:
    text = "Two coats on it, four hundred and twenty grams to sixty-three of hardener."
    varied = {with_other_numbers(text, random.Random(seed), british=True) for seed in range(20)}
    assert len(varied) > 10
    assert all(re.fullmatch(r"Two coats on it, [\w -]+ grams to [\w -]+ of hardener\.", one) for one in varied)


def test_dictation_without_marks_teaches_nothing() -> None:
    assert is_marked("Mixed it. Poured it.")
    assert not is_marked("mixed it poured it")


def test_no_sentence_comes_from_the_notes_that_measure() -> None:
    work = {note["id"] for note in load_notes(CORPUS / "work.jsonl")}
    said = list(sentences(load_notes(CORPUS / "work.jsonl")))
    assert len(said) > 2000
    assert {sentence.note for sentence in said} <= work
    assert not any(re.search(r"\d", sentence.text) for sentence in said)


def test_some_notes_begin_or_end_with_a_command() -> None:
    said = [sentence.text for sentence in sentences(load_notes(CORPUS / "work.jsonl"))]
    assert sum(text.endswith(("End note.", "Cancel that note.")) for text in said) > 20
    assert sum(text.startswith(("Note.", "New note.")) for text in said) > 20


def test_everyday_sentences_are_spoken_words_that_share_none_of_the_prompts_that_measure() -> None:
    said = [sentence.text for sentence in everyday()]
    assert len(said) == len(set(said)) > 100
    assert all(is_marked(text) and in_words(text, random.Random(1), british=True) == text for text in said)
    if not any(recorded_prompts()):
        pytest.skip("the recorded prompts are in the Debian packages asterisk-core-sounds-en and -en-g722")
    prompts = {run for prompt in recorded_prompts() for run in _runs_of_four(prompt.text)}
    assert not prompts.intersection(run for text in said for run in _runs_of_four(text))


def _runs_of_four(text: str) -> set[tuple[str, ...]]:
    words = re.findall(r"[a-z']+", text.lower())
    return {tuple(words[i : i + 4]) for i in range(len(words) - 3)}
