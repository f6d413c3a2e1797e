"""What earlier notes of a build make of general words, pronouns, "same again" and "half that"."""

import pytest

from journal.read.recall import EMPTY, remember
from tests.read.reading import build, flagged, laid, steps, weighed

MIXED = "Mixed 400 grams of laminating epoxy with 112 of hardener, 100 to 28 by weight, shop's at twenty."
LOTS = [("laminating epoxy", "4471"), ("hardener", "2210")]


def test_a_general_word_is_the_one_such_material_in_use() -> None:
    (step,) = build(MIXED, "Mixed another 200 grams of resin with 56 of hardener.")
    assert weighed(step) == [("laminating epoxy", 200, "g"), ("hardener", 56, "g")]


def test_a_general_word_with_two_such_materials_stays_general() -> None:
    (step,) = build(MIXED, "Mixed 100 grams of polyester resin with 2 percent catalyst.", "Weighed 50 grams of resin.")
    assert weighed(step) == [("resin", 50, "g")]


def test_a_general_word_alone_stays_general() -> None:
    (step,) = steps("Weighed 50 grams of resin.")
    assert weighed(step) == [("resin", 50, "g")]


def test_of_that_is_the_material_before() -> None:
    (step,) = build(MIXED, "mixed another 200 grams of that with 56 of hardener")
    assert weighed(step)[0] == ("laminating epoxy", 200, "g")


def test_same_again_copies_the_mix_but_not_the_conditions() -> None:
    (step,) = build(MIXED, "Same again.")
    assert (step.action, weighed(step)) == ("mix", [("laminating epoxy", 400, "g"), ("hardener", 112, "g")])
    assert step.ratio is not None
    assert [float(part) for part in step.ratio.parts] == [100, 28]
    assert step.conditions == ()


def test_half_that_halves_the_amounts() -> None:
    (step,) = build(MIXED, "Another mix, half that.")
    assert weighed(step) == [("laminating epoxy", 200, "g"), ("hardener", 56, "g")]


def test_half_of_one_material_scales_that_one_alone() -> None:
    tinted = "Mixed 400 grams of laminating epoxy with 112 of hardener and 2 percent pigment."
    (step,) = build(tinted, "Next time I'll use half that pigment.")
    assert weighed(step) == [("pigment", 1, "percent")]
    (step,) = build(MIXED, "Mixed the same again, but with half the hardener.")
    assert weighed(step) == [("laminating epoxy", 400, "g"), ("hardener", 56, "g")]
    assert step.ratio is None or step.ratio.derived


def test_a_batch_made_again_with_less_of_one_part_is_a_mix() -> None:
    tinted = "Mixed 500 grams of polyester resin with 2 percent catalyst and 10 grams of black pigment."
    for said, pigment in (("Mixed the same again, half the pigment.", [5]), ("Same again with no pigment.", [])):
        (step,) = build(tinted, said)
        assert (step.action, step.status) == ("mix", "done")
        assert [use.amount for use in step.materials if use.name == "pigment"] == pigment


def test_half_of_a_part_that_was_never_weighed_copies_nothing() -> None:
    (step,) = build("Mixed 200 grams of A and 50 of B of urethane resin.", "Next time I'm putting in half the pigment.")
    assert (step.action, step.status, weighed(step)) == ("tint", "planned", [])
    assert [flag.field for flag in step.flags] == ["materials"]


def test_half_of_a_batch_just_made_is_a_batch_of_its_own() -> None:
    first, second = build("Mixed 900 grams of polyester resin with 18 of catalyst, then half that for the flange.")
    assert weighed(first) == [("polyester resin", 900, "g"), ("catalyst", 18, "g")]
    assert weighed(second) == [("polyester resin", 450, "g"), ("catalyst", 9, "g")]


@pytest.mark.parametrize(
    ("said", "lots"),
    [
        ("Mixed 400 grams of laminating epoxy with 112 of hardener. Resin lot 4471, hardener lot 2210.", LOTS),
        ("Mixed 400 grams of laminating epoxy with 112 of hardener, resin lot 4471, hardener lot 2210.", LOTS),
        ("Resin lot 4471, hardener lot 2210.", [("resin", "4471"), ("hardener", "2210")]),
    ],
)
def test_each_lot_is_of_the_material_that_it_was_said_of(said: str, lots: list[object]) -> None:
    (step,) = build(said)
    assert [(use.name, use.lot) for use in step.materials] == lots


def test_pouring_half_of_it_weighs_nothing() -> None:
    (step,) = build(MIXED, "Poured half of that into the flange.")
    assert [use.amount for use in step.materials] in ([], [None])


def test_the_same_again_in_another_count_keeps_fabric_and_weight() -> None:
    (step,) = build("Two layers of 450 gram mat on the left.", "Same again on the flange, three layers this time.")
    assert laid(step) == [("chopped strand mat", 3, 450)]


def test_same_again_for_layers_copies_the_layers() -> None:
    (step,) = build("Two layers of 450 gram mat on the left scroll.", "Same again on the right scroll.")
    assert (step.action, laid(step)) == ("laminate", [("chopped strand mat", 2, 450)])
    assert [place.text for place in step.places] == ["right scroll"]


def test_same_again_with_nothing_before_is_no_step() -> None:
    assert steps("Same again.") == ()


def test_a_copy_without_unit_stays_in_doubt() -> None:
    (step,) = build("Mixed 400 of laminating epoxy with 112 of hardener.", "Same again.")
    assert "unit" in flagged(step)


def test_notes_lend_no_unit() -> None:
    (step,) = build(MIXED, "Mixed 200 of resin with 56 of hardener.")
    assert {unit for _, _, unit in weighed(step)} == {None}


def test_of_each_is_of_the_parts_of_the_latest_mix() -> None:
    (step,) = build(
        "Mixed 500 mils of A and 500 mils of B of the urethane rubber.", "Same again, but 400 mils of each."
    )
    assert [(use.part, use.amount, use.unit) for use in step.materials] == [("A", 400, "ml"), ("B", 400, "ml")]


def test_same_again_with_another_amount_leaves_the_other_parts_open() -> None:
    (step,) = build(MIXED, "Same again but 300 grams.")
    assert weighed(step) == [("laminating epoxy", 300, "g")]
    assert "amount" in flagged(step)


def test_what_is_left_out_of_the_same_again_is_not_copied() -> None:
    mixed = "Mixed urethane resin, 200 grams of A and 200 grams of B, with 1 percent pigment."
    first, *_ = build(mixed, "Mixed the same again but left out the pigment.")
    assert {use.name for use in first.materials if use.amount is not None} == {"urethane resin"}


def test_layers_laid_after_cutting_are_of_what_was_cut() -> None:
    cut, laminate = steps("Cut eight pieces of six ounce glass cloth. Laid up four layers on the front half.")
    assert (laid(cut), laid(laminate)) == ([("glass cloth", 8, 203)], [("glass cloth", 4, 203)])


def test_the_same_mat_has_the_weight_it_had() -> None:
    (step,) = build("Two layers of ounce and a half mat.", "Three plies of the same mat on the back.")
    assert laid(step) == [("chopped strand mat", 3, 458)]
    (step,) = build("Two layers of ounce and a half mat.", "Three plies of mat on the back.")
    assert laid(step) == [("chopped strand mat", 3, None)]


def test_gypsum_alone_and_the_same_water_are_those_in_use() -> None:
    (step,) = build(
        "Mixed 3 kilos of hard gypsum with 900 grams of water.", "Mixed 2 kilos of gypsum to the same water."
    )
    assert weighed(step) == [("hard gypsum", 2000, "g"), ("water", 900, "g")]


def test_a_memory_is_rebuilt_from_kept_steps() -> None:
    first = steps(MIXED)
    memory = remember(EMPTY, first)
    (step,) = steps("Same again.", memory)
    assert weighed(step) == weighed(first[0])


def test_what_was_only_advised_is_not_in_use() -> None:
    (step,) = build("You should always weigh 100 grams of polyester resin first.", "Weighed 50 grams of resin.")
    assert weighed(step) == [("resin", 50, "g")]
