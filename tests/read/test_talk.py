"""How likely words follow each other, by notes that makers wrote."""

from __future__ import annotations

import math

import pytest

from journal.read.hearing.talk import EDGE, Talk

NOTES = ("coats of wax on the plug", "coats of wax on the flange", "layers of mat on the flange", "the catalyst")


@pytest.mark.parametrize("before", [(EDGE, EDGE), ("of", "wax"), ("wax", "on"), ("never", "heard")])
def test_known_and_unknown_words_share_one_probability(before: tuple[str, str]) -> None:
    talk = Talk(NOTES)
    known = sum(math.exp(talk.log_probability(*before, word)) for word in (*talk.words, EDGE))
    assert 0.5 < known < 1


def test_a_word_that_follows_many_is_likelier_after_a_new_one_than_a_word_that_is_said_as_often_after_one() -> None:
    talk = Talk([*NOTES, "red catalyst", "new catalyst", "old catalyst"])
    assert talk.log_probability("a", "blue", "catalyst") > talk.log_probability("a", "blue", "wax") > math.log(1e-3)


def test_rows_that_were_said_are_likelier_than_their_words_alone() -> None:
    talk = Talk(NOTES)
    assert talk.log_probability("coats", "of", "wax") > talk.log_probability("layers", "of", "wax")
    assert talk.log_probability("layers", "of", "resin") > talk.log_probability("layers", "of", "rezzin")
