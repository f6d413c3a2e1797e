"""What is told in words holds for any words: the concerns never fail, and every phrase lies in its note."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from spacy.tokens import Doc
from spacy.vocab import Vocab

from journal.read.findings import Findings, NoteWords
from journal.trade.material import Catalogue
from tests.read.telling import ORDER

WORDS = (
    "so that to stop or you it else because until till when once as soon should look like do n't never make sure watch"
    " keep away no more than thicker the a left scroll flange under of half A back side how much did I we apprentice"
    " and but not got hot tacky bubbles cracked came out lovely any one in case due for strength 's 'll is was be"
    " if while before , . ? - next then just most at in on off cured gone good lion nice good. reason which otherwise"
    " since see customer wants mind careful take easy try not wear always would sure ease said Jo me"
).split()
TAGS = "NN NNS NNP JJ JJR RB VB VBD VBN VBG VBZ VBP MD IN DT PRP PRP$ TO CC CD , . POS RP WRB UH".split()


@given(st.lists(st.tuples(st.sampled_from(WORDS), st.sampled_from(TAGS)), max_size=14))
@settings(max_examples=400, deadline=None)
def test_any_words_with_any_tags_give_phrases_of_the_note(tagged: list[tuple[str, str]]) -> None:
    said, tags = [word for word, _ in tagged], [tag for _, tag in tagged]
    doc = Doc(Vocab(), words=said, tags=tags, lemmas=[word.lower() for word in said])
    words, found = NoteWords(doc, tuple(word.lower() for word in said), Catalogue(), tags=tuple(tags)), Findings()
    for concern in ORDER:
        found.add(concern.find(words, found))
    for item in found:
        assert 0 <= item.start < item.end <= len(said)
        assert item.value.text == doc[item.start : item.end].text


@pytest.mark.parametrize("concern", ORDER)
def test_no_words_tell_nothing(concern: object) -> None:
    words = NoteWords(Doc(Vocab(), words=[]), (), Catalogue())
    assert concern.find(words, Findings()) == []  # type: ignore[attr-defined]


def test_the_phrases_of_one_concern_never_overlap() -> None:
    said = "don't rush it or you'll tear it so take it slow because the edge is thin until it pops".split()
    doc = Doc(Vocab(), words=said, tags=["VB"] * len(said), lemmas=said)
    words, found = NoteWords(doc, tuple(said), Catalogue(), tags=("VB",) * len(said)), Findings()
    for concern in ORDER:
        found.add(concern.find(words, found))
        for kind in found.by_kind:
            items = found.of(kind)
            assert all(a.end <= b.start for a, b in pairwise(items))
