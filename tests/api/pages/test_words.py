"""The words of a note are cut without losing a letter, whatever the hearing says of them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from api.pages.words import pieces
from journal.record import Word


def word(start: int, end: int) -> Word:
    return Word("", (start, end), float(start), float(end), 0.9)


def test_words_and_what_stands_between_them_are_told_apart() -> None:
    cut = pieces("Two coats.", [word(0, 3), word(4, 9)])
    assert [(piece.text, piece.word is not None) for piece in cut] == [
        ("Two", True), (" ", False), ("coats", True), (".", False),
    ]  # fmt: skip


@given(st.text(max_size=30), st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), max_size=8))
def test_joined_again_the_pieces_are_the_text(text: str, spans: list[tuple[int, int]]) -> None:
    cut = pieces(text, [word(start, end) for start, end in spans])
    assert "".join(piece.text for piece in cut) == text
