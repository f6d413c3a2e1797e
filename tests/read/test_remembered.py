"""Old stories: what is told of other days and other people is no step of this build."""

import pytest

from tests.read.telling import texts

STORIES = [
    ("My old boss used to laugh at me for that, and I can still hear him.",
     "My old boss used to laugh at me for that, and I can still hear him"),
    ("My grandmother made tamales the same way.", "My grandmother made tamales the same way"),
    ("We used to brush three coats, but I put four on this one.", "We used to brush three coats,"),
    ("my granddad used to pour it in one go and I poured it in two", "my granddad used to pour it in one go and"),
    ("Years ago I cracked a mould that way. Waxed it four times.", "Years ago I cracked a mould that way"),
    ("Had one explode on me in the nineties.", "Had one explode on me in the nineties"),
    ("Remember the last one, that refused to open.", "Remember the last one, that refused to open"),
    ("Last year we had one go soft so I added a bit more catalyst.", "Last year we had one go soft"),
    ("When I was an apprentice I dropped a bucket of gel coat.",
     "When I was an apprentice I dropped a bucket of gel coat"),
]  # fmt: skip


@pytest.mark.parametrize(("said", "story"), STORIES)
def test_a_story_runs_to_where_the_talk_comes_back(said: str, story: str):
    assert texts(said, "remembered") == [story]


@pytest.mark.parametrize(
    "said",
    [
        "My father always said wax it every pull.",
        "My dad poured the second half this morning.",
        "Remember to wax the flange.",
        "Sealed it with the shellac we used to build the wall.",
        "Sprayed the PVA twenty minutes ago.",
        "The tin's been open since the back end of last year.",
        "Last one left half an hour.",
    ],
)
def test_advice_and_this_build_are_no_story(said: str):
    assert texts(said, "remembered") == []
