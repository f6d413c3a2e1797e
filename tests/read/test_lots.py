import pytest

from tests.read.naming import found_in, note


def lots(text: str) -> list[str]:
    return [item.value.text for item in found_in(note(text)).of("lot")]


@pytest.mark.parametrize(
    ("text", "lot"),
    [
        ("laminating epoxy lot 4471", "4471"),
        ("lot number on the A bucket is 2207", "2207"),
        ("batch number 22 B of hardener", "22B"),
        ("batch number 22B of hardener", "22B"),
        ("lot number four four seven one", "4471"),
        ("lot forty four seventy one", "4471"),
        ("lot double four seven one", "4471"),
        ("lot oh nine two three", "0923"),
        ("resin from lot A17", "A17"),
        ("lot alpha seventeen", "A17"),
        ("lot A17-3 of the resin", "A17-3"),
        ("lot B dash 117", "B-117"),
        ("the tin marked 0923", "0923"),
        ("the drum labelled B 205", "B205"),
        ("Lot is 4471.", "4471"),
        ("lot no. 4471", "4471"),
        ("batch 2271 of the resin", "2271"),
        ("Batch code on the silicone reads one nine oh four.", "1904"),
        ("The tin says 0926, expires next March.", "0926"),
        ("New drum, it's got 55-201 B on the lid.", "55-201B"),
        ("batch number G as in golf, 4 5 1", "G451"),
        ("Part A lot 19872.", "19872"),
    ],
)
def test_a_lot_is_kept_as_it_is_printed(text: str, lot: str):
    assert lots(text) == [lot]


# Speech-to-text writes spelled digits with commas or hyphens.
@pytest.mark.parametrize("text", ["lot 4,471", "lot 4-4-7-1", "lot 4 4 7 1", "lot 44 71"])
def test_the_signs_of_hearing_are_not_the_lots(text: str):
    assert lots(text) == ["4471"]


@pytest.mark.parametrize(
    ("text", "lot"),
    [
        ("lot 4471 200 grams", "4471"),
        ("lot 4471, 200 grams", "4471"),
        ("from lot A17 400 grams of resin", "A17"),
        ("lot 22 B two layers of mat", "22B"),
    ],
)
def test_an_amount_after_the_lot_is_not_taken_into_it(text: str, lot: str):
    assert lots(text) == [lot]


@pytest.mark.parametrize(
    "text",
    [
        "Used a lot of resin.",
        "A lot, 20 minutes at least.",
        "Mixed batch two of the gel coat.",
        "Another batch of 200 grams.",
        "Marked 40 millimetres from the edge.",
        "The whole lot is cured.",
    ],
)
def test_what_is_no_lot_is_left_alone(text: str):
    assert lots(text) == []


def test_a_joined_lot_is_a_little_less_sure_than_a_printed_one():
    (spoken,) = found_in(note("lot four four seven one")).of("lot")
    (printed,) = found_in(note("lot 4471")).of("lot")
    assert spoken.confidence < printed.confidence
