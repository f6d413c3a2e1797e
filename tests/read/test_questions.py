"""Questions are no steps: they are found so that nothing in them is recorded."""

import pytest

from tests.read.telling import texts

BEFORE = [
    ("how much hardener for 420", ["how much hardener for 420"]),
    ("How much hardener for 420?", ["How much hardener for 420"]),
    ("what did we put on the left scroll last time", ["what did we put on the left scroll last time"]),
    ("did I wax the flange", ["did I wax the flange"]),
    ("Can you tell me when it gels?", ["Can you tell me when it gels"]),
    ("looks good, doesn't it?", []),
    ("mixed 300 of resin. Is that right? Poured it on.", ["Is that right"]),
    ("what I did was lay two layers", []),
    ("when it's tacky brush the second coat", []),
    ("did the flange and the nose", []),
    ("okay so how long before I can lay the next coat", ["how long before I can lay the next coat"]),
    ("which lot of resin was that", ["which lot of resin was that"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE)
def test_questions_are_told_from_statements(said: str, expected: list[str]) -> None:
    assert texts(said, "question") == expected
