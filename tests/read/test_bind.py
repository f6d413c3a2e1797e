"""Facts bound to the act and the material they were said of."""

import pytest

from tests.read.reading import RECORDED, flagged, laid, steps, weighed

RESIN_AND_HARDENER = [("resin", 400, "g"), ("hardener", 112, "g")]


@pytest.mark.parametrize(
    "said",
    [
        "mixed 400 grams of resin and 112 grams of hardener",
        "mixed resin 400 grams, hardener 112 grams",
        "mixed resin 400 grams hardener 112 grams",
        "mixed 400 grams resin 112 grams hardener",
        "Resin: 400 g. Hardener: 112 g. Mixed.",
        "mixed 400 grams of resin with 112 of hardener",
        "resin four hundred, hardener one hundred and twelve, all grams",
        "400 grams of the resin, then 112 of hardener, stirred",
    ],
)
def test_each_weight_goes_to_its_material(said: str) -> None:
    found = steps(said)
    assert [use for step in found for use in weighed(step)] == RESIN_AND_HARDENER
    assert {step.action for step in found} == {"mix"}


def test_a_bare_number_before_the_second_part_is_the_main_material() -> None:
    (step,) = steps("Mixed laminating epoxy, 400 and 112 hardener, grams.")
    assert weighed(step) == [("laminating epoxy", 400, "g"), ("hardener", 112, "g")]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Mixed a kilo four of polyester resin with thirty of catalyst.",
         [("polyester resin", 1400, "g"), ("catalyst", 30, "g")]),
        ("Weighed three and a bit kilos of hard gypsum.", [("hard gypsum", 3000, "g")]),
        ("Mixed hard gypsum with water, 3 kilos to 900 grams.", [("hard gypsum", 3000, "g"), ("water", 900, "g")]),
        ("Weighed 500 grams each side of the platinum silicone.", [("platinum silicone", 500, "g")] * 2),
        ("Added 20 grams each of black and white pigment.", [("pigment", 20, "g")] * 2),
        ("A 25 kilo bag of gypsum plaster into 15 litres of water.",
         [("gypsum plaster", 25000, "g"), ("water", 15000, "ml")]),
        ("Catalysed the polyester resin at 1.5 percent.", [("catalyst", 1.5, "percent")]),
        ("Torqued the bolts to 20 newton metres.", []),
        ("Fitted two steel tubes across the back.", [("steel tube", 2, "count")]),
        ("Fitted 600 mm of steel tube.", [("steel tube", 600, "mm")]),
        ("Mixed 400 to 112 grams epoxy.", [("laminating epoxy", 400, "g"), ("hardener", 112, "g")]),
        ("Weighed tin silicone lot 0713: 850 g, catalyst 42.5 g.",
         [("tin silicone", 850, "g"), ("catalyst", 42.5, "g")]),
        ("Mixed the urethane rubber, 100 A to 90 B by weight, 500 grams and 450.",
         [("urethane rubber", 500, "g"), ("urethane rubber", 450, "g")]),
        ("Should've been 30 grams of hardener and I put in 20 grams of hardener.", [("hardener", 20, "g")]),
        ("Repaired it with hard gypsum, two hundred grams to sixty of water.",
         [("hard gypsum", 200, "g"), ("water", 60, "g")]),
        ("Mixed 500 grams of ten silicone with 50 of catalyst.", [("tin silicone", 500, "g"), ("catalyst", 50, "g")]),
        ("Mixed 500 grams of polyester gel coat with catalyst 10 g. Stirred well.",
         [("polyester gel coat", 500, "g"), ("catalyst", 10, "g")]),
        ("Mixed 2 kilos of polyester resin, catalysed at 1.8 percent, which is 36 grams of catalyst.",
         [("polyester resin", 2000, "g"), ("catalyst", 36, "g")]),
    ],
)  # fmt: skip
def test_amounts_go_where_the_words_put_them(said: str, expected: list[object]) -> None:
    (step,) = steps(said)
    assert weighed(step) == expected


def test_a_small_bare_number_beside_grams_is_in_doubt() -> None:
    (step,) = steps("Mixed 1.25 of laminating epoxy and 350 grams of hardener.")
    assert "unit" in flagged(step)


def test_weights_said_after_both_names_go_in_order() -> None:
    (step,) = steps("Laminating epoxy lot 4471, hardener lot 9902. 800 grams and 224.")
    assert weighed(step) == [("laminating epoxy", 800, "g"), ("hardener", 224, "g")]


def test_a_unit_carries_with_its_size() -> None:
    (step,) = steps("Mixed 33 ounces of laminating epoxy and 9 of hardener.")
    ounce = 28.349523125
    assert [grams for _, grams, _ in weighed(step)] == pytest.approx([33 * ounce, 9 * ounce])


def test_no_unit_anywhere_is_flagged_and_left_out() -> None:
    (step,) = steps("Mixed 400 of laminating epoxy with 112 of hardener.")
    assert weighed(step) == [("laminating epoxy", 400, None), ("hardener", 112, None)]
    assert "unit" in flagged(step)


def test_parts_keep_their_letter() -> None:
    (step,) = steps("Weighed 650 grams of platinum silicone part A and 65 grams of part B.")
    assert [(m.name, m.part) for m in step.materials] == [("platinum silicone", "A"), ("platinum silicone", "B")]


def test_a_percentage_is_of_what_is_added() -> None:
    (step,) = steps("Catalysed a kilo of polyester resin at two percent.")
    assert weighed(step) == [("polyester resin", 1000, "g"), ("catalyst", 2, "percent")]


def test_an_upper_limit_is_no_amount() -> None:
    (step,) = steps("Never mix more than 400 grams at once.")
    assert weighed(step) == []
    assert [w.text for w in step.warnings] == ["Never mix more than 400 grams at once"]
    assert step.status == "advised"


def test_several_layers_in_one_breath_are_one_step() -> None:
    (step,) = steps("Laid up one layer of 300 gram mat, then two of 450.")
    assert laid(step) == [("chopped strand mat", 1, 300), ("chopped strand mat", 2, 450)]


def test_one_extra_somewhere_is_one_more_of_the_same() -> None:
    (step,) = steps("Laid three layers of six ounce glass cloth, one extra at the keel.")
    assert [layer.count for layer in step.layers] == [3, 1]


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Gel's gone tacky, it's taken an hour and a half.", "tack"),
        ("Tacky but not transferring at forty-five minutes.", "tack"),
        ("Still tacky after two hours.", "wait"),
        ("It wasn't tacky after two hours.", "wait"),
        ("An hour later it was tack free.", "tack"),
        ("The window is two to six hours.", "wait"),
        ("The plaster set in twenty minutes.", "gel"),
        ("Leave it a full hour before you strip it.", "wait"),
    ],
)
def test_what_a_time_was_of_is_told_by_what_was_seen(said: str, kind: str) -> None:
    assert [timing.kind for step in steps(said) for timing in step.timings] == [kind]


def test_what_is_under_way_ends_in_time_to_come() -> None:
    (step,) = steps("I'm leaving it till five.")
    assert step.clock[0].kind == "end"
    assert step.clock[0].at > RECORDED


def test_what_was_started_began_before_though_its_end_is_to_come() -> None:
    (step,) = steps("Started the post-cure at 10:30, due out at 18:30.")
    assert [(one.kind, one.at > RECORDED) for one in step.clock] == [("start", False), ("due", True)]


def test_a_clipped_of_is_of() -> None:
    (step,) = steps("Mixed 300 gram o' laminating epoxy an' 84 o' hardener.")
    assert [(use.name, use.amount, use.unit) for use in step.materials] == [
        ("laminating epoxy", 300, "g"),
        ("hardener", 84, "g"),
    ]


def test_a_count_alone_repeats_the_layer_before_it() -> None:
    (step,) = steps("Four coats of release wax on the face, and two on the flange.")
    assert laid(step) == [("release wax", 4, None), ("release wax", 2, None)]


def test_different_release_agents_are_steps_of_their_own() -> None:
    found = steps("Five coats of release wax, then two coats of PVA.")
    assert [laid(step) for step in found] == [[("release wax", 5, None)], [("pva release", 2, None)]]


def test_waiting_is_a_step_of_its_own_and_time_between_coats_is_not() -> None:
    sprayed = steps("Two coats of PVA. Left it twenty minutes to dry.")
    assert [(s.action, [t.kind for t in s.timings]) for s in sprayed] == [("release", []), ("wait", ["wait"])]
    (sealed,) = steps("Three coats of shellac, twenty minutes between coats.")
    assert [(t.kind, t.least) for t in sealed.timings] == [("wait", 1200)]


def test_facts_of_the_shop_go_with_the_act_and_alone_are_a_check() -> None:
    (brushed,) = steps("Brushed the gel coat on, shop's at nineteen.")
    assert [float(c.value) for c in brushed.conditions] == [19]
    (alone,) = steps("Shop's at nineteen.")
    assert (alone.action, float(alone.conditions[0].value)) == ("check", 19)


def test_an_outcome_belongs_to_its_act() -> None:
    (step,) = steps("Demoulded it at nine o'clock. It came off clean, with one small tear on the lip.")
    assert step.action == "demould"
    assert {o.kind for o in step.observations} == {"good", "tear"}
    assert [c.kind for c in step.clock] == ["start"]


def test_a_time_said_by_a_done_act_is_when_it_ended() -> None:
    (planned,) = steps("It should be ready to demould by ten tomorrow.")
    assert [(c.kind, c.at.isoformat()) for c in planned.clock] == [("due", "2026-05-05T10:00:00+01:00")]


def test_counted_things_are_kept_by_their_words() -> None:
    (step,) = steps("Fitted four captive nuts.")
    assert weighed(step) == [("captive nuts", 4, "count")]


def test_plain_mat_is_named_by_its_weight_and_flagged() -> None:
    (step,) = steps("Laid up three layers of 450.")
    assert laid(step) == [("chopped strand mat", 3, 450)]
    assert "layers" in flagged(step)


def test_the_stages_of_a_post_cure_are_steps_of_their_own() -> None:
    found = steps("Post cured it 6 hours at 40 degrees, then 4 hours at 80 degrees.")
    assert [(s.action, float(s.timings[0].least or 0)) for s in found] == [("post-cure", 21600), ("post-cure", 14400)]


def test_a_pull_keeps_its_mix_and_its_layers() -> None:
    (step,) = steps("First cast in hard gypsum, 100 to 50 by weight, with one layer of 300 mat inside.")
    assert step.action == "pull"
    assert step.ratio is not None
    assert laid(step) == [("chopped strand mat", 1, 300)]


@pytest.mark.parametrize(
    ("said", "acts"),
    [
        ("Mixed 300 grams of epoxy gel coat with 45 of hardener, pot life's 20 minutes.", ["mix"]),
        ("Waxed the flange. Pot life was only 11 minutes.", ["release", "check"]),
        ("Lot 7714's all gone, starting on lot 7730.", ["check"]),
        ("New tin of wax, lot 88.", ["check"]),
        ("The last of the pot went fierce hot.", ["check"]),
        ("did the eyelids with a tiny brush", ["brush"]),
    ],
)
def test_facts_and_things_tell_their_act(said: str, acts: list[str]) -> None:
    assert [step.action for step in steps(said)] == acts


@pytest.mark.parametrize(
    ("said", "acts"),
    [
        ("Washed the inside down with water. There's a chip out of the left eyelid.", ["clean", "check"]),
        ("Popped it off the plug. There's a chip out of the left eyelid.", ["demould"]),
        ("Sprayed the gel coat on, and it went off in about 18 minutes.", ["spray", "check"]),
        ("Brushed the gel coat on, should be tacky in 45 minutes.", ["brush"]),
    ],
)
def test_a_fault_found_or_a_time_to_gel_is_a_check_of_its_own(said: str, acts: list[str]) -> None:
    assert [step.action for step in steps(said)] == acts


def test_the_catalyst_goes_with_the_resin_that_another_act_weighed() -> None:
    (step,) = steps("Wet it all out with 3 kilos of polyester resin and 45 grams of catalyst.")
    assert weighed(step) == [("polyester resin", 3000, "g"), ("catalyst", 45, "g")]
