"""A hundred questions over the demo workshop, each answered right or declined with the reason.

The answers are worked out by hand from the words spoken (samples/spoken.toml) and the catalogue. Thirty of the
questions ("unseen") were written before any of them was tried; 27 of these were answered as labelled then.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from journal import flow
from tests.find.typed_workshop import Clock, typed_workshop

QUESTIONS = [
    json.loads(line)
    for line in Path(__file__).resolve().parents[1].joinpath("corpus/questions.jsonl").read_text().splitlines()
]


@pytest.fixture(scope="module")
def clock():
    return Clock("2026-11-24T16:30:00+00:00")


@pytest.fixture(scope="module")
def shop(tmp_path_factory, clock):
    opened = typed_workshop(tmp_path_factory.mktemp("workshop"), clock)
    yield opened
    opened.close()


@pytest.mark.parametrize("asked", QUESTIONS, ids=lambda asked: asked["ask"])
def test_a_question_is_answered_right_or_declined_with_the_reason(shop, clock, asked):
    clock.at = type(clock)(asked["at"]).at
    answer = flow.ask(shop, asked["ask"], asked.get("build"))
    assert [words for words in asked["says"] if words.casefold() not in answer.text.casefold()] == [], answer.text
    for name, value in asked.get("numbers", {}).items():
        assert answer.numbers[name] == pytest.approx(value, rel=0.006), answer.text
    assert bool(answer.lacks) == asked.get("lacks", False), answer


def test_there_are_a_hundred_and_thirty_of_them_were_unseen():
    assert len(QUESTIONS) == len({(asked["ask"], asked["at"], asked.get("build")) for asked in QUESTIONS}) == 100
    assert sum(asked.get("unseen", False) for asked in QUESTIONS) == 30


def test_every_answer_is_short_and_names_the_steps_it_rests_on(shop, clock):
    for asked in QUESTIONS:
        clock.at = type(clock)(asked["at"]).at
        answer = flow.ask(shop, asked["ask"], asked.get("build"))
        assert len(answer.text) < 260, answer.text
        assert answer.text[0].isupper() or answer.text[0].isdigit()
        assert answer.text.endswith((".", "?")), answer.text
        for step_id in answer.evidence:
            assert shop.store.step(step_id).record


def test_without_a_build_the_one_under_way_with_the_latest_note_is_meant(shop, clock):
    clock.at = Clock("2026-11-24T16:30:00+00:00").at
    assert "laminating epoxy" in flow.ask(shop, "how much hardener for 100").text
    clock.at = Clock("2026-06-01T12:00:00+01:00").at
    assert "platinum silicone" in flow.ask(shop, "what ratio did we use").text


@pytest.mark.parametrize(
    ("text", "words"), [("", "text: is empty"), ("  ", "text: is empty"), ("how much " * 101, "200 at most")]
)
def test_a_question_that_is_none_is_refused_by_name(shop, text, words):
    with pytest.raises(flow.FieldError, match=words):
        flow.ask(shop, text)


def test_a_build_that_is_not_there_is_refused(shop):
    with pytest.raises(flow.NotKept, match="niche-77"):
        flow.ask(shop, "how much B for 420", "niche-77")


@pytest.mark.parametrize("text", ["how much B for 0", "how much hardener for minus 5 grams", "two percent of 0"])
def test_an_amount_that_no_bench_has_is_declined_with_the_limit(shop, clock, text):
    clock.at = Clock("2026-11-24T16:30:00+00:00").at
    answer = flow.ask(shop, text)
    assert "must be more than 0" in answer.lacks or answer.numbers.get("main", 1) > 0
