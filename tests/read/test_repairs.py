"""Self-repair: the last word counts."""

import pytest

from tests.read.reading import flagged, laid, steps, weighed


@pytest.mark.parametrize(
    ("said", "grams"),
    [
        ("Weighed three hundred, no, three twenty grams of laminating epoxy.", 320),
        ("Weighed 300, sorry, 320 grams of laminating epoxy.", 320),
        ("Weighed 300 grams of laminating epoxy, make that 320.", 320),
        ("Weighed 300 grams, I mean 320 grams, of laminating epoxy.", 320),
        ("Weighed 300 grams of laminating epoxy, scratch that, 320.", 320),
        ("weighed out three hundred or rather three twenty grams of laminating epoxy", 320),
    ],
)
def test_a_corrected_weight_takes_the_place_of_the_first(said: str, grams: float) -> None:
    (step,) = steps(said)
    assert weighed(step) == [("laminating epoxy", grams, "g")]


def test_a_bare_correction_is_in_the_unit_of_what_it_corrects() -> None:
    (step,) = steps("Weighed 12 ounces, no, 14, of polyester resin.")
    ((_, grams, unit),) = weighed(step)
    assert unit == "g"
    assert grams == pytest.approx(14 * 28.349523125)


def test_a_pair_is_corrected_in_order() -> None:
    (step,) = steps("mixed 200 grams of epoxy gel coat with 30 of hardener, no, 220 and 33")
    assert weighed(step) == [("epoxy gel coat", 220, "g"), ("hardener", 33, "g")]


def test_a_corrected_time_stands() -> None:
    (step,) = steps("Mixed it for two minutes, no, three minutes.")
    assert [(t.least, t.most) for t in step.timings] == [(180, 180)]


def test_a_corrected_weight_of_a_layer_stands() -> None:
    (step,) = steps("Laid up one layer of 225 gram mat, or rather 300 gram.")
    assert laid(step) == [("chopped strand mat", 1, 300)]


def test_scratch_that_drops_the_statement_before_it() -> None:
    assert steps("Brushed the gel coat on the flange. Scratch that.") == ()


def test_no_as_a_mere_word_corrects_nothing() -> None:
    (step,) = steps("Mixed 400 grams of laminating epoxy with 112 of hardener, one colour, no streaks.")
    assert weighed(step) == [("laminating epoxy", 400, "g"), ("hardener", 112, "g")]
    assert flagged(step) == set()


def test_the_evidence_of_a_correction_is_the_right_words() -> None:
    text = "Weighed 300, sorry, 320 grams of laminating epoxy."
    (step,) = steps(text)
    start, end = step.materials[0].evidence.chars
    assert "320" in text[start:end]
    assert step.materials[0].evidence.heard == text[start:end]


@pytest.mark.parametrize(
    ("said", "amounts"),
    [
        ("Platinum silicone, 300 grams of A, 300 of B, no, make that 350 of each.", [350, 350]),
        ("weighed 500 grams of A and 500 of B. Correction. 500 grams of A and 50 of B.", [500, 50]),
        ("a kilo of polyester resin and ten grams of catalyst, ten no twelve", [1000, 12]),
        ("3 percent catalyst, er, 2 percent, in a kilo of polyester resin", [2, 1000]),
        ("a kilo of polyester resin, two percent catalyst, no, make that one and a half", [1000, 1.5]),
        ("200 grams of A, er, 200 grams of B", [200, 200]),
        ("weighed 400 grams of epoxy, uh, 112 grams of hardener", [400, 112]),
    ],
)
def test_each_amount_takes_the_place_of_what_it_corrects(said: str, amounts: list[float]) -> None:
    (step,) = steps(said)
    assert [amount for _, amount, _ in weighed(step)] == amounts


def test_a_corrected_hour_is_an_hour() -> None:
    (step,) = steps("poured the silicone at ten, no, eleven")
    assert [clock.at.hour for clock in step.clock] == [11]
    assert weighed(step) == []


def test_a_fabric_is_corrected_by_its_name() -> None:
    (step,) = steps("one of biax four hundred no hang on biax was six hundred")
    assert laid(step)[0] == ("biaxial glass", 1, 600)


def test_all_of_a_sentence_is_struck() -> None:
    found = steps("Waxed the flange and polished it, scratch all that, I brushed gel coat on the flange.")
    assert [step.action for step in found] == ["brush"]


def test_no_before_a_thing_says_that_it_is_wanting() -> None:
    found = steps("Four coats of wax, no PVA.")
    assert (found[0].status, [use.name for use in found[0].materials]) == ("done", ["wax"])


@pytest.mark.parametrize(
    ("said", "layers"),
    [
        ("Sealed it with three coats of shellac, no, not shellac, the sealer.", [("sealer", 3, None)]),
        ("Two coats of release wax, no, sorry, PVA.", [("pva release", 2, None)]),
        ("Laid two layers of chopped strand mat, no, glass cloth, over the nose.", [("glass cloth", 2, None)]),
        (
            "Sprayed the silicone release, two coats, scratch that, I only did one coat.",
            [("silicone release spray", 1, None)],
        ),
        ("Put two layers of tissue over the ribs, scratch that, one layer.", [("surface tissue", 1, None)]),
    ],
)
def test_a_corrected_name_is_that_of_its_layers(said: str, layers: list[tuple[str, int, None]]) -> None:
    assert [one for step in steps(said) for one in laid(step)] == layers


@pytest.mark.parametrize(
    "said",
    [
        "Urethane resin, mixed ninety grams of A and a hundred of B, no, other way round, a hundred A and ninety B.",
        "Mixed urethane resin, 90 grams of A and 100 grams of B, no wait, the other way round.",
        "Mixed urethane resin, 90 grams of A and 100 of B, other way about.",
    ],
)
def test_a_whole_mix_is_told_the_other_way_round(said: str) -> None:
    (step,) = steps(said)
    assert {(use.part, use.amount, use.unit) for use in step.materials} == {("A", 100, "g"), ("B", 90, "g")}


@pytest.mark.parametrize(
    ("said", "millimetres"),
    [
        ("A clay wall two inches high, no, three.", 76.2),
        ("Sprayed it twenty thou wet. Scratch that, twenty two on the gauge.", 0.5588),
        ("Built a wall 40 mm high, no, leave that, 50.", 50),
        ("Cut the flange back to 60 mm. No, I cut it back to 50.", 50),
    ],
)
def test_a_corrected_size_is_in_the_unit_said_before(said: str, millimetres: float) -> None:
    (step,) = steps(said)
    assert [float(c.value) for c in step.conditions] == [pytest.approx(millimetres)]


def test_a_corrected_temperature_is_still_that_of_the_shop() -> None:
    (step,) = steps("Shop was 18, no, 19 degrees.")
    assert [(c.value, c.of) for c in step.conditions] == [(19, "shop")]


def test_a_tally_corrects_nothing() -> None:
    (step,) = steps("Layup: 2 nos. glass cloth, 1 no. carbon 200 gsm.")
    assert laid(step) == [("glass cloth", 2, None), ("carbon cloth", 1, 200)]


def test_a_pause_in_a_list_corrects_nothing() -> None:
    (step,) = steps("Put on two layers of glass cloth 200 gram and then um 4 layers of 450 biaxial glass.")
    assert laid(step) == [("glass cloth", 2, 200), ("biaxial glass", 4, 450)]


def test_a_limit_and_what_is_left_alone_correct_nothing() -> None:
    mixed = steps("Kicked it with two percent catalyst, and that gives me no more than fifteen minutes.")[0]
    assert [use.amount for use in mixed.materials] == [2]
    sealed = steps("I've given it two coats of shellac, and I'll leave that till one o'clock.")[0]
    assert laid(sealed) == [("shellac", 2, None)]


def test_a_limit_with_no_corrects_nothing():
    (step,) = steps("Post-cure is six hours at sixty degrees, ramp no faster than ten degrees an hour.")
    assert [float(condition.value) for condition in step.conditions] == [60]
