"""Materials and their parts in notes, with the catalogue that Mouldbook ships."""

import pytest

from tests.read.naming import materials_in, names, note


def said(text: str) -> list[tuple[str, str | None]]:
    return [(item.value.name, item.value.part) for item in materials_in(text) if item.confidence >= 0.5]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Brushed the gelcoat on.", ["gel coat"]),
        ("Brushed the gel-coat on.", ["gel coat"]),
        ("Brushed the gel coat on.", ["gel coat"]),
        ("Two gel coats, both resins and three putties", ["gel coat", "resin", "putty"]),
        ("a litre of UPR and two percent MEKP", ["polyester resin", "catalyst"]),
        ("250 grams of gel, got the gel on", ["gel coat", "gel coat"]),
        ("the gel time was long and it started to gel", []),
        ("waxed the rim and shellacked the board", ["wax", "shellac"]),
        ("bleeder, then bagged it", ["bleeder cloth", "vacuum bag"]),
        ("a plastic bag of mats", ["chopped strand mat"]),
        ("carbon cloth, 4 plies, 0/90 and 45s", ["carbon cloth"]),
        ("two percent cat in the resin", ["catalyst", "resin"]),
        ("a layer of cloth", ["glass cloth"]),
        ("450 C S M over the flange", ["chopped strand mat"]),
        ("0/90 biax then zero ninety again", ["biaxial glass", "biaxial glass"]),
        ("micro balloons and fumed-silica", ["microballoons", "fumed silica"]),
        ("semi permanent release, semi-permanent, semiperm", ["semi-permanent release"] * 3),
        ("chopped strand mat, then loose chopped strands", ["chopped strand mat", "chopped strands"]),
        ("polyester tooling gel coat", ["polyester gel coat"]),
        ("black polyester gel-coat", ["polyester gel coat"]),
        ("plaster of Paris in hot water", ["gypsum plaster", "water"]),
        ("hessian scrim dipped in plaster", ["burlap", "plaster"]),
        ("milled fiber from milled fibres", ["milled fibre", "milled fibre"]),
        ("peel-ply and the bleeder", ["peel ply", "bleeder cloth"]),
    ],
)
def test_a_name_is_found_however_it_is_written(text: str, expected: list[str]):
    assert names(text) == expected


@pytest.mark.parametrize(
    "word", ["resin", "gel coat", "glass", "putty", "silicone", "plaster", "wax", "filler", "rubber"]
)
def test_a_general_word_stands_for_itself(word: str):
    (item,) = materials_in(f"Put the {word} by the sink.")
    assert (item.value.name, item.value.general, item.value.known) == (word, True, True)


@pytest.mark.parametrize(
    "text",
    [
        "The water level in the trap is fine.",
        "It came out smooth like glass.",
        "It has a mat finish, the other a matt finish.",
        "Put your rubber gloves on and find the putty knife.",
        "The corner is resin-rich and the glass transition is low.",
        "Wiped it with a clean cloth and tissue paper.",
        "Wiped it off with a cloth.",
        "Sealed the plaster pattern and lifted the silicone mould.",
        "The cat knocked the pot over.",
        "It was 20 C at two o'clock.",
        "Met Val at the plaster room.",
        "The lot is 4545 and the pot life is short.",
        "Sam and Pat went home at ten.",
    ],
)
def test_what_only_sounds_like_a_material_is_left_alone(text: str):
    assert names(text) == []


@pytest.mark.parametrize(
    "text", ["Wax the flange.", "Fairing the edge now.", "Then wax it again.", "We shellac the pattern twice."]
)
def test_a_name_used_as_a_verb_is_doubtful(text: str):
    (item,) = materials_in(text)
    assert item.confidence < 0.5
    assert item.rule == "materials.verb"


def test_the_same_word_as_a_noun_is_not_doubtful():
    (item,) = materials_in("Three coats of wax on the flange.")
    assert item.confidence >= 0.9


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("400 grams of laminating epoxy part A", [("laminating epoxy", "A")]),
        ("part B of the silicone", [("silicone", "B")]),
        ("the silicone, part-B", [("silicone", "B")]),
        ("100 grams of the gel coat B side", [("gel coat", "B")]),
        ("component A of the platinum silicone", [("platinum silicone", "A")]),
        ("platinum silicone, A and B", [("platinum silicone", "A"), ("platinum silicone", "B")]),
        (
            "100 grams of part A and 28 grams of part B of the laminating epoxy.",
            [("laminating epoxy", "A"), ("laminating epoxy", "B")],
        ),
        ("Mixed the gel coat, part A 200, part B 30.", [("gel coat", "A"), ("gel coat", "B")]),
        (
            "laminating epoxy, 100 of A to 28 of B.",
            [("laminating epoxy", None), ("laminating epoxy", "A"), ("laminating epoxy", "B")],
        ),
        (
            "epoxy, 100 of a to 28 of b",
            [("laminating epoxy", None), ("laminating epoxy", "A"), ("laminating epoxy", "B")],
        ),
    ],
)
def test_a_part_keeps_the_name_of_its_material(text: str, expected: list[tuple[str, str | None]]):
    assert said(text) == expected


def test_a_part_of_nothing_named_is_left_to_whoever_knows_the_build():
    a, b = materials_in("Weighed 100 of A and 28 of B.")
    assert [(x.value.name, x.value.part, x.value.known, x.value.general) for x in (a, b)] == [
        ("part a", "A", False, True),
        ("part b", "B", False, True),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "Laid up the B half and the A side of the mould.",
        "Sanded the B side.",
        "A bucket, a brush and a roller.",
        "Plan B is to wait.",
        "Part of it is a mess.",
        "It is a grade A finish.",
    ],
)
def test_a_letter_of_the_mould_or_an_article_is_no_part(text: str):
    assert materials_in(text) == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("70 grams of hardener", [("hardener", None)]),
        ("hardener for the gel coat", [("hardener", None)]),
        ("gel coat hardener", [("hardener", None)]),
        ("catalyst for the tin silicone", [("catalyst", None)]),
        ("silicone catalyst", [("catalyst", None)]),
        ("slow hardener", [("hardener", None)]),
        ("resin to hardener", [("resin", None), ("hardener", None)]),
        ("added hardener to the gel coat", [("hardener", None), ("gel coat", None)]),
    ],
)
def test_a_second_part_is_named_for_itself(text: str, expected: list[tuple[str, str | None]]):
    assert said(text) == expected


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Stirred in 200 grams of walnut dust.", "walnut dust"),
        ("Stirred in 200 grams of the ground slate and left it.", "ground slate"),
        ("5 percent bronze powder went in.", "bronze powder"),
        ("Two coats of primer on the pattern.", "primer"),
        ("A layer of cling-film over it.", "cling-film"),
    ],
)
def test_an_unknown_noun_in_a_materials_place_is_named_as_said(text: str, name: str):
    (item,) = materials_in(text)
    assert (item.value.name, item.value.known, item.rule) == (name, False, "materials.unknown")
    assert item.confidence < 0.8


@pytest.mark.parametrize(
    "text",
    [
        "80 percent humidity in the shop.",
        "200 grams of it went in.",
        "Poured 200 grams of the mix over the nose.",
        "Forty minutes of work.",
        "Two coats of the same.",
        "300 grams left over.",
    ],
)
def test_what_is_no_material_is_not_made_one(text: str):
    assert materials_in(text) == []


def test_findings_point_at_the_words():
    text = "Mixed 400 grams of the epoxy gel-coat part B today."
    (item,) = materials_in(text)
    assert note(text).doc[item.start : item.end].text == "epoxy gel-coat part B"
