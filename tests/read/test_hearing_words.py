"""Each heard word is as sure as the looks that agree on it, and is spelled as makers would."""

from __future__ import annotations

import pytest

from journal.read.hearing.agreed import agreed
from journal.read.hearing.lattice import Way, Weights, by_hearings
from journal.read.hearing.mend import Change, Rewriting, heard_pieces
from journal.read.hearing.spelled import respelled
from journal.record import Alternative, Transcript, Word


def words_of(text: str, probability: float, begin_s: float = 0.0) -> tuple[Word, ...]:
    out, at = [], 0
    for n, word in enumerate(text.split()):
        start = text.index(word, at)
        at = start + len(word)
        out.append(Word(word, (start, at), begin_s + 0.4 * n, begin_s + 0.4 * n + 0.25, probability))
    return tuple(out)


def hearing(text: str, probability: float = 0.6, look: str = "beam") -> Alternative:
    return Alternative(text, words_of(text, probability), -0.3, look)


def transcript(text: str, probability: float, *others: Alternative) -> Transcript:
    return Transcript(text, words_of(text, probability), others, -0.3)


def probabilities(heard: Transcript | Alternative) -> dict[str, float]:
    return {word.text: word.probability for word in heard.words}


def test_a_word_that_all_looks_heard_is_surer_than_a_probable_one_that_none_other_did() -> None:
    others = (hearing("mixed 450 grams", 0.5, "beam"), hearing("mixed 450 grams", 0.4, "full window"))
    now = agreed(transcript("mixed 150 grams", 0.9, *others))
    assert probabilities(now)["150"] < 0.5 < 0.9 < probabilities(now)["mixed"]
    assert probabilities(now.alternatives[0])["450"] > probabilities(now)["150"]


def test_hearings_of_one_look_have_one_vote() -> None:
    beam = [hearing(f"mixed 450 {end}", 0.5, "beam") for end in ("grams", "drums", "rams")]
    two = agreed(transcript("mixed 150 grams", 0.6, *beam, hearing("mixed 150 grams", 0.5, "full window")))
    one = agreed(transcript("mixed 150 grams", 0.6, *beam))
    assert probabilities(two)["150"] > 0.5 > probabilities(one)["150"]


def test_a_stretch_that_was_heard_once_keeps_its_probabilities() -> None:
    assert agreed(transcript("mixed 150 grams", 0.7)) == transcript("mixed 150 grams", 0.7)
    # The other hearing is of the second stretch; its first words are the same hearing and not another.
    first, second, other = words_of("mixed it", 0.7), words_of("poured it", 0.6, 5.0), words_of("board it", 0.5, 5.0)
    moved = [
        tuple(Word(w.text, (w.chars[0] + 9, w.chars[1] + 9), w.start_s, w.end_s, w.probability) for w in words)
        for words in (second, other)
    ]
    heard = Transcript(
        "mixed it poured it",
        first + moved[0],
        (Alternative("mixed it board it", first + moved[1], -0.3, "beam"),),
        -0.3,
    )
    now = agreed(heard).words
    assert [word.probability for word in now[:2]] == [0.7, 0.7]
    assert now[2].probability < 0.5


@pytest.mark.parametrize(
    ("heard", "meant", "is_change"),
    [
        ("3rd of a gallon of polyester", "third of a gallon of polyester", False),
        ("the 3rd of May", "the 3rd of May", False),
        ("poured resin at 11.05 from the top", "poured resin at 11:05 from the top", False),
        ("vacuum at 0.85 bar", "vacuum at 0.85 bar", False),
        ("catalysed at 1.50 %", "catalysed at 1.50 %", False),
        ("30 mill of catalyst", "30 mil of catalyst", False),
        ("30mm of catalyst", "30 ml of catalyst", True),
        ("80mm on catalyst", "80 ml of catalyst", True),
        ("3 mm of plaster", "3 mm of plaster", False),
        ("4km on polyester gel coat", "4 kilos of polyester gel coat", True),
        ("2 km of road", "2 km of road", False),
        ("0.8 of the mill all up", "0.8 of the mil all up", False),
        ("2 of the mill hands", "2 of the mill hands", False),
        ("1 layer of 255mm, rolled hard", "1 layer of 255 mat, rolled hard", True),
        ("a layer of 3mm ply", "a layer of 3mm ply", False),
        ("2 layers of bulker mat, for 800 biaxial glass", "2 layers of bulker mat, four of 800 biaxial glass", True),
        ("2 layers of mat, for 800 people", "2 layers of mat, for 800 people", False),
        ("been on an hour, and ten it's tacky", "been on an hour and ten it's tacky", True),
        ("an hour, and it's tacky", "an hour, and it's tacky", False),
        ("120 drums of resin", "120 grams of resin", True),
        ("2 drums of resin", "2 drums of resin", False),
        ("mixed 1-2-1 by weight", "mixed 1 to 1 by weight", True),
        ("kilo in a half of polyester", "kilo and a half of polyester", True),
        ("cut it in half", "cut it in half", False),
        ("sawed 2 in half the long way", "sawed 2 in half the long way", False),
        ("part be of the rubber", "part b of the rubber", False),
        ("this part be careful", "this part be careful", False),
        ("14 ounces be of silicone", "14 ounces b of silicone", False),
        ("10 grams of the bee, stirred", "10 grams of the b, stirred", False),
        ("200 g be careful", "200 g be careful", False),
        ("Humidities around 35%", "humidity's around 35%", False),
        ("the shops around the corner sell mat", "the shops around the corner sell mat", False),
        ("shops at 19", "shop's at 19", False),
        ("no three 20 grams of laminating epoxy", "no 320 grams of laminating epoxy", True),
        ("100 three 20 grams of resin", "100 three 20 grams of resin", False),
        ("417-ounce biax and 110 ounce cloth", "4 17-ounce biax and 1 10 ounce cloth", True),
        ("2450 gram chopped strand mat", "2 450 gram chopped strand mat", True),
        ("17-ounce biax", "17-ounce biax", False),
        ("450 gram mat", "450 gram mat", False),
        ("1200 gram biaxial glass", "1200 gram biaxial glass", False),
        ("417 ounces of glass beads", "417 ounces of glass beads", False),
    ],
)
def test_a_hearing_is_spelled_as_makers_would(heard: str, meant: str, is_change: bool) -> None:
    now = respelled(hearing(heard))
    assert (now.hearing.text, bool(now.changes)) == (meant, is_change)
    assert all(now.hearing.text[slice(*word.chars)] == word.text for word in now.hearing.words)


def test_a_word_mended_behind_a_hyphen_stands_by_itself() -> None:
    text = Rewriting("in half-announce of it", words_of("in half-announce of it", 0.5))
    text.keep(8)
    text.replace(16, Way(2, 3, ("an", "ounce"), 0.0, 0.5, "hearing"), (0.4, 0.8))
    text.keep(22)
    assert text.text == "in half an ounce of it"
    assert all(text.text[slice(*word.chars)] == word.text for word in text.words)


def test_changes_before_keep_their_place() -> None:
    said = hearing("coats of wax, 3rd of a gallon of resin")
    at = said.text.index("resin")
    now = respelled(said, [Change("codes", "coats", (0, 5)), Change("remin", "resin", (at, at + 5))])
    assert [now.hearing.text[slice(*change.chars)] for change in now.changes] == ["coats", "resin"]


def test_a_number_is_never_mended_into_one_that_is_far_less_likely() -> None:
    heard, other = (heard_pieces(text, words_of(text, p)) for text, p in (("mixed 2 kg", 0.88), ("mixed 12 kg", 0.1)))
    assert not list(by_hearings(heard, [("beam", other)], Weights()))
