"""Praise of the work, as makers say it in passing; the same words in other talk praise nothing."""

import pytest

from tests.read.telling import told

PRAISED = [
    ("Flatted it with eight hundred and the face is true now.", "true"),
    ("Second coat's on and it looks awesome.", "looks awesome"),
    ("Fixed it and it's holding fine.", "holding fine"),
    ("Edges are fine.", "fine"),
    ("Corners are all good.", "all good"),
    ("The surface is otherwise excellent.", "otherwise excellent"),
    ("Cast 2 out, flat as a pancake.", "flat as a pancake"),
    ("Number 12, clean as you like.", "clean as you like"),
    ("Four coats of wax on, she's slick as.", "slick as"),
    ("The model lifted out easy.", "lifted out easy"),
    ("It's like glass now.", "like glass"),
    ("The clay comes out like butter.", "comes out like butter"),
    ("Popped the shell at two, no damage.", "no damage"),
    ("Off she came, not a mark on her.", "not a mark"),
    ("Came away no bother.", "no bother"),
    ("Nothing left behind in the mould.", "Nothing left behind"),
    ("Rolled hard, no air.", "no air"),
    ("Cast 9 out at ten past four, lovely.", "lovely"),
    ("Boss two is out, crisp throughout.", "crisp"),
    ("Popped it off the blank, real clean.", "real clean"),
    ("Demoulded the hatch, pretty good.", "pretty good"),
    ("Nice clean edge on pull 5.", "Nice clean edge"),
    ("Cast 3 has good edges.", "good edges"),
    ("Firm now, so I trimmed it.", "Firm"),
    ("Touch dry at half two.", "Touch dry"),
]

TALK = [
    "Okay, good, so next job is the wax.",
    "Right, lovely day out there, two coats of wax on the transom.",
    "Great, mixed 400 grams of resin with 100 of hardener.",
    "That's fine, I'll wax it tomorrow.",
    "It's fine to leave it overnight.",
    "I gave it a nice even coat of PVA.",
    "Used a clean brush and a clean pot.",
    "Wiped it clean with acetone.",
    "Had a good look round.",
    "Stirred it nice and slow.",
    "It popped straight off.",
    "You want the edge nice and sharp.",
    "The ornament is too fine for the roller.",
    "Added ten grams of black pigment, no, strike that, white pigment.",
]


@pytest.mark.parametrize(("said", "praise"), PRAISED)
def test_praise_of_the_work_is_an_observation(said: str, praise: str):
    assert [(item.value.kind, item.value.text) for item in told(said, "observation")] == [("good", praise)]


@pytest.mark.parametrize("said", TALK)
def test_the_same_words_in_talk_praise_nothing(said: str):
    assert told(said, "observation") == []
