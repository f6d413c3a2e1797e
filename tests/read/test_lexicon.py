from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from journal.read.lexicon import both_spellings, compiled, lexicon_of, matches, plain_names
from journal.read.ordinary import is_english, is_ordinary
from journal.trade.material import Material, catalogue_of
from tests.read.naming import ORDER, found_in, note, shipped

LEXICON = compiled(
    [("gel coat", "gel coat", True, False), ("CSM", "mat", False, True), ("mould wax", "wax", False, False)]
)


def met(text: str) -> list[str]:
    return [match.entry.name for match in matches(tuple(text.lower().split()), LEXICON)]


def test_spaces_and_hyphens_in_a_name_do_not_count():
    assert met("gelcoat / gel - coat / gel coats") == ["gel coat"] * 3


def test_letters_may_be_spelled_out():
    assert met("c s m") == ["mat"]


def test_a_name_is_not_put_together_from_pieces_of_other_words():
    assert met("angel coat ; ge lcoat ; cs m") == []


def test_both_sides_of_the_atlantic_are_one_name():
    assert met("mold wax and mould wax") == ["wax", "wax"]
    assert list(both_spellings("milled fibre")) == ["milled fibre", "milled fiber"]


def test_the_longest_name_wins():
    lexicon = compiled([("epoxy", "a", False, False), ("epoxy gel coat", "b", False, False)])
    assert [m.entry.name for m in matches(("epoxy", "gel", "coat", "epoxy"), lexicon)] == ["b", "a"]


def test_the_lexicon_of_a_catalogue_is_worked_out_once():
    catalogue = catalogue_of((Material("bronze powder", "filler"),))
    assert lexicon_of(catalogue) is lexicon_of(catalogue)
    assert [m.entry.name for m in plain_names(("bronze", "powders"), catalogue)] == ["bronze powder"]


def test_the_endings_of_known_words_are_known():
    assert all(map(is_ordinary, ("trimmed", "edges", "slower", "carried", "the", "7")))
    assert not is_ordinary("acantholysis")
    assert is_english("termination")
    assert not is_english("fewmed")


WORDS = st.sampled_from(
    "a b A B of the part side lot batch no . , - / 's gel coat coats layer layers two 450 4471 gram grams g biax by "
    "axe mat tin marked double four twenty one percent hardener for epoxy silicone wax in x dash plies ½ £ 0/90".split()
)


@settings(max_examples=150, deadline=None)
@given(st.lists(WORDS, max_size=14).map(" ".join))
def test_any_words_are_read_without_error_and_findings_stay_inside(text: str):
    words = note(text, shipped())
    size = len(words.lower)
    found = found_in(words)
    kinds = ("sound", "material", "layer", "lot")
    assert len(ORDER) == len(kinds)
    for item in found.of(*kinds):
        assert 0 <= item.start < item.end <= size
        assert 0 < item.confidence <= 1
    for kind in ("material", "layer", "lot"):
        items = found.of(kind)
        assert all(a.end <= b.start for a, b in pairwise(items)), [(i.start, i.end) for i in items]
