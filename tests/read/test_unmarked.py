"""Sentences in words that run on without a mark."""

import pytest

from journal.record import NoteText
from tests.read.reading import reader, steps

# Each line has a bar where a sentence opens.
SAID = """
gel coat cured overnight | touched it on the flange with a knuckle and it was hardly tacky
after about two hours the gel coat was tacky | i mixed 800 grams of laminating epoxy with 224 of hardener
wiped the whole of the plug down with plenty of acetone | five coats of release wax
mixed half a gallon of polyester resin with one percent catalyst | two layers of chopped strand mat
wetting it out until all of it has gone properly dark | pot life is about twenty minutes
release wax on all of the rudder mould but not the flange | shop's at twenty four today
brushed the whole of the first coat on with a chip brush | don't load it or you trap air
sanded it back with six hundred and a lot of water | i'll wax it after my tea
pull number three came out with a chip on the left foot | cast number four came out clean
don't pull it until the latex is amber all over or it tears | i am washing the mould with water now
the resin started to gel at fourteen minutes in that heat | one dry patch was there at the handle side
it was hard work all the way down to the skirt | the boys have given it three coats of wax
three coats of latex on the face and two more on the corners | you want to leave it alone till it's gone cold
i opened it at nine and it came off the plug lovely | one little chip at the corner of the lip
the colour's a bit warm next to her other hand | next time i'll use half that pigment
so the platinum silicone is one to one and i weighed ten ounces of a and ten of b on the little scale
hot life on that one was ten minutes and the rest of the pot went hard in the bucket
i mixed the plaster and soaked the burlap in it and it took three bags of the stuff
the boss was not happy with the edge because the boy poured it in one go from the top
mixed it with the new resin that the lads brought in from the other shop this morning
i gave the pattern of the left hand four coats of release wax over the afternoon
"""


@pytest.mark.parametrize("said", SAID.strip().splitlines())
def test_a_sentence_opens_where_the_trade_would_take_breath(said: str) -> None:
    text = said.replace("| ", "")
    words = reader().words(NoteText(text))
    assert (
        " ".join("|" if mark.isspace() else mark for mark in (token.text for token in words.doc))
        .replace(" '", "'")
        .replace(" n't", "n't")
        == said
    )
    assert words.doc.text == text


def test_marked_notes_are_left_as_they_are() -> None:
    said = "Mixed it well. Brushed it on. Left it alone for an hour, then brushed on another coat of the same."
    assert not any(token.is_space for token in reader().words(NoteText(said)).doc)


def test_the_acts_of_a_dictated_breath_are_told_apart_and_point_to_their_words() -> None:
    said = (
        "mixed half a gallon of polyester resin with one and a quarter percent catalyst one layer of mat first "
        "rolled it till the white was gone don't ever mix more than a gallon at once it'll smoke on you"
    )
    told = steps(said)
    assert [(step.action, step.status) for step in told] == [
        ("mix", "done"), ("laminate", "done"), ("roll", "done"), ("mix", "advised"),
    ]  # fmt: skip
    for step in told:
        start, end = step.evidence.chars
        assert said[start:end] == step.evidence.heard
