"""Words become terms; names with synonyms stay together; slips are forgiven."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.find.terms import Term, forgiving, terms_of

SYNONYMS = {"gel coat": ("gelcoat",), "mat": ("chopped strand mat", "csm")}


def test_each_word_is_a_term() -> None:
    assert terms_of("soft  rim", {}) == [Term(("soft",)), Term(("rim",))]


def test_a_name_of_several_words_is_one_term_with_its_synonyms() -> None:
    assert terms_of("soft Gel Coat on mat", SYNONYMS) == [
        Term(("soft",)), Term(("Gel Coat", "gelcoat")), Term(("on",)),
        Term(("mat", "chopped strand mat", "csm")),
    ]  # fmt: skip


def test_quoted_words_stand_together() -> None:
    assert terms_of('"left scroll" void', {}) == [Term(("left scroll",)), Term(("void",))]


@pytest.mark.parametrize("text", ["", '"', '""', "?!*", '" - "', "\0", "( )"])
def test_marks_alone_are_no_terms(text: str) -> None:
    assert terms_of(text, {}) == []


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("flnage", "flange"), ("undercutt", "undercut"), ("hardner", "hardener"), ("scrol", "scroll")],
)
def test_a_slip_finds_the_word_that_was_meant(typed: str, meant: str) -> None:
    [term] = forgiving([Term((typed,))], ["flange", "undercut", "hardener", "scroll", "resin"])
    assert meant in term.phrases
    assert "resin" not in term.phrases


def test_a_number_is_never_taken_for_another_one() -> None:
    assert forgiving([Term(("4417",))], ["4471"]) == [Term(("4417",))]


def test_a_word_may_go_on() -> None:
    [term] = forgiving([Term(("lami",))], [])
    assert term.prefix


@given(st.text(max_size=60), st.lists(st.text(max_size=8), max_size=5))
def test_any_text_makes_terms_that_hold_a_word(text: str, vocabulary: list[str]) -> None:
    for term in forgiving(terms_of(text, SYNONYMS), vocabulary):
        assert any(letter.isalnum() for letter in term.phrases[0])
