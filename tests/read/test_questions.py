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


AFTER = [
    ("where did we put the second batch", ["where did we put the second batch"]),
    ("Right, when did I start the cure?", ["when did I start the cure"]),
    ("do you remember what lot we used", ["do you remember what lot we used"]),
    ("is it ready to pull yet", ["is it ready to pull yet"]),
    ("we should be all right, shouldn't we?", []),
    ("is that right, no, two hundred", ["is that right"]),
    ("how I do it is brush it thin", []),
    ("what's the ratio on the gel coat?", ["what's the ratio on the gel coat"]),
    ("who did the flange on the last one?", ["who did the flange on the last one"]),
    ("have we got enough mat for the other half", ["have we got enough mat for the other half"]),
    ("which was fine", []),
    ("mixed 200 grams, how much hardener is that", ["how much hardener is that"]),
    ("Waxed it? No. Sealed it.", ["Waxed it"]),
    ("could you write down that I used lot 4471", []),
    ("will do the flange tomorrow", []),
    ("show me what went into the left scroll", ["show me what went into the left scroll"]),
]  # fmt: skip


LATER = [
    ("what do I do if it's still tacky tomorrow", ["what do I do if it's still tacky tomorrow"]),
    ("how thick is the gel coat meant to be?", ["how thick is the gel coat meant to be"]),
    ("so yeah that's what we did", []),
    ("has the apprentice waxed it", ["has the apprentice waxed it"]),
    ("am I past the recoat window", ["am I past the recoat window"]),
    ("do the flange next", []),
    ("why did the last one stick", ["why did the last one stick"]),
    ("what a mess", []),
    ("can't see any pinholes", []),
    ("how many pulls has it had", ["how many pulls has it had"]),
]  # fmt: skip


ASKED_BY_THEIR_END_OR_DOUBT = [
    ("Is 60 percent too damp for epoxy, do you think?", ["Is 60 percent too damp for epoxy, do you think"]),
    ("Can polyester go over epoxy, or not?", ["Can polyester go over epoxy, or not"]),
    ("that gel still tacky or what", ["that gel still tacky or what"]),
    ("Was 22 in there, wasn't it?", []),
    ("not sure if we waxed the back half", ["not sure if we waxed the back half"]),
    ("I can't remember whether I sealed it so I gave it another coat", ["I can't remember whether I sealed it"]),
    ("what if I put the glass on tomorrow", ["what if I put the glass on tomorrow"]),
    ("see if it's cured by four", []),
    ("I think two percent is right", []),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), BEFORE + AFTER + LATER + ASKED_BY_THEIR_END_OR_DOUBT)
def test_questions_are_told_from_statements(said: str, expected: list[str]) -> None:
    assert texts(said, "question") == expected
