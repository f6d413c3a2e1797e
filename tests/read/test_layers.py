"""Layers and coats in notes, with the catalogue that Mouldbook ships."""

import pytest

from tests.read.naming import found_in, layers_in, note
from tests.read.reading import laid, steps

CSM, ROVING, BIAX, TISSUE, CLOTH = (
    "chopped strand mat", "woven roving", "biaxial glass", "surface tissue", "glass cloth",
)  # fmt: skip


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Two layers of 450 chopped strand mat.", [(CSM, 2, 450, False)]),
        ("Two layers of 450 gram mat.", [(CSM, 2, 450, False)]),
        (
            "one tissue, two 450 csm and a woven roving",
            [(TISSUE, 1, None, False), (CSM, 2, 450, False), (ROVING, 1, None, False)],
        ),
        ("another layer of the 600 biax", [(BIAX, 1, 600, False)]),
        ("two of 300 mat then one 600 roving", [(CSM, 2, 300, False), (ROVING, 1, 600, False)]),
        ("a layer of tissue over the scroll", [(TISSUE, 1, None, False)]),
        ("a double layer of biax", [(BIAX, 2, None, False)]),
        ("a couple of layers of mat", [(CSM, 2, None, False)]),
        ("450 csm, two layers", [(CSM, 2, 450, False)]),
        ("450 csm over the flange", [(CSM, None, 450, False)]),
        ("two layers of four fifty chopped strand, one of three hundred", [(CSM, 2, 450, False), (CSM, 1, 300, False)]),
        (
            "two 300 mats, a 600 woven, another 300",
            [(CSM, 2, 300, False), (ROVING, 1, 600, False), (CSM, 1, 300, False)],
        ),
        ("two layers of biaxial glass, 600 gram", [(BIAX, 2, 600, False)]),
        (
            "1 layer glass cloth 160 g, then 4 layers biaxial glass 600 g",
            [(CLOTH, 1, 160, False), (BIAX, 4, 600, False)],
        ),
        ("four coats of latex, and tomorrow four more", [("latex", 4, None, True), ("latex", 4, None, True)]),
        ("four coats of latex, four more minutes", [("latex", 4, None, True)]),
        ("a light mist of silicone release spray", []),
        (
            "two layers of glass cloth at 200, then six of biaxial at 600",
            [(CLOTH, 2, 200, False), (BIAX, 6, 600, False)],
        ),
        ("one layer of woven roving at eight", [("woven roving", 1, None, False)]),
        ("going to wait four hours between the gel and the first mat", []),
        ("going to spray the gel coat", []),
        ("wet out the mat on a sheet of cardboard", []),
        ("the dog is asleep on the drop cloth", []),
        ("six hundred gram biax, two off, on the stringers", [(BIAX, 2, 600, False)]),
        ("after that one thin coat of wax", [("wax", 1, None, True)]),
        ("one very light coat of wax", [("wax", 1, None, True)]),
        ("sprayed the wax, two mist coats and one wet one", [("wax", 3, None, True)]),
        ("five pots of gel coat and two layers of 450 csm, another 300 grams of resin", [(CSM, 2, 450, False)]),
        ("one of the 600 biax", [(BIAX, 1, 600, False)]),
        ("three plies of 600 biax", [(BIAX, 3, 600, False)]),
        ("hessian dipped in plaster, two layers", [("burlap", 2, None, False)]),
        ("cut eight pieces of 450 mat and four of tissue", [(CSM, None, 450, False)]),
        ("two more layers", [(None, 2, None, False)]),
        ("two layers of peel ply", [("peel ply", 2, None, False)]),
        # listed one after another, by "x", by tallies, by plurals
        (
            "tissue x 1, 3 x 300 csm, 1 x 800 WR",
            [(TISSUE, 1, None, False), (CSM, 3, 300, False), (ROVING, 1, 800, False)],
        ),
        ("2 nos. glass cloth, 1 no. carbon", [(CLOTH, 2, None, False), ("carbon cloth", 1, None, False)]),
        ("4 off 300 csm", [(CSM, 4, 300, False)]),
        ("one of tissue and two of three hundred", [(TISSUE, 1, None, False), (None, 2, 300, False)]),
        ("one tissue then two six hundreds of mat", [(TISSUE, 1, None, False)]),
        ("mat first, then two 450s", [(None, 2, 450, False)]),
        ("a tissue and three four fifties", [(TISSUE, 1, None, False), (None, 3, 450, False)]),
        ("biax 600 x 2", [(BIAX, 2, 600, False)]),
        # the count or the weight said after the fabric
        ("400 biax, single layer, over the hatch", [(BIAX, 1, 400, False)]),
        ("tissue's down, one, then rolled", [(TISSUE, 1, None, False)]),
        ("biax, four of it, on the keel", [(BIAX, 4, None, False)]),
        # plies by their numbers
        ("layer two was 200 gsm glass cloth", [(CLOTH, 1, 200, False)]),
        ("carbon plies 2 thru 5 on", [("carbon cloth", 4, None, False)]),
        ("carbon plies 7, 8 down", [("carbon cloth", 2, None, False)]),
        ("8 ply carbon 300 gsm", [("carbon cloth", 8, 300, False)]),
        ("another two of the heavy mat", [(CSM, 2, None, False)]),
        ("two plies of 1808 biax", [(BIAX, 2, None, False)]),
    ],
)
def test_layers_have_their_fabric_count_and_weight(text: str, expected: list[object]):
    assert layers_in(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("three coats of wax", [("wax", 3, None, True)]),
        ("two thin even coats of PVA", [("pva release", 2, None, True)]),
        ("two gel coats", [("gel coat", 2, None, True)]),
        ("second coat of shellac on", [("shellac", 1, None, True)]),
        ("a coat of the epoxy gel coat", [("epoxy gel coat", 1, None, True)]),
        ("two coats of primer", [("primer", 2, None, True)]),
        ("put on a skin coat of the epoxy", [("laminating epoxy", 1, None, True)]),
        ("one spray of PVA over the wax", [("pva release", 1, None, True)]),
        ("two coats of wax and one of PVA", [("wax", 2, None, True), ("pva release", 1, None, True)]),
        ("two coats of wax, then 30 of hardener", [("wax", 2, None, True)]),
        ("gave it another coat", [(None, 1, None, True)]),
        ("coat of sealer, then wax", [("sealer", 1, None, True)]),
        ("two detail coats of latex", [("latex", 2, None, True)]),
        ("brushed shellac over the clay, two coats", [("shellac", 2, None, True)]),
        ("sealer on, coats three.", [("sealer", 3, None, True)]),
        ("shellac, coats: 4", [("shellac", 4, None, True)]),
        ("gun's on, black gel coat, two passes", [("gel coat", 2, None, True)]),
        ("6 x semi-perm wipes", [("semi-permanent release", 6, None, True)]),
        ("latex is on its fourth coat", [("latex", 1, None, True)]),
        ("a mist of PVA", []),
        ("two mists of PVA", [("pva release", 2, None, True)]),
        ("that's the seventh coat of latex on", [("latex", 1, None, True)]),
        ("fifteen coats of latex over three days", [("latex", 15, None, True)]),
    ],
)
def test_coats_are_counted_for_the_material(text: str, expected: list[object]):
    assert layers_in(text) == expected


# 1.5 oz/ft2 is 457.73 g/m2 and 10 oz/yd2 339.06 g/m2 by NIST SP 811's ounce, foot and yard; that mat is
# sold by the square foot and cloth by the square yard is common practice, no published source.
def test_ounces_of_mat_are_per_square_foot_and_of_cloth_per_square_yard():
    text = "two layers of 1.5 ounce mat and one of 10 ounce cloth"
    assert layers_in(text, locale="en-US") == [(CSM, 2, 457.73, False), (CLOTH, 1, 339.06, False)]


@pytest.mark.parametrize(
    "text",
    [
        "Weighed 300 grams of mat.",
        "Ten minutes between coats.",
        "Wait twenty minutes a coat.",
        "Forty minutes between the first and second coat.",
        "The mat is on the shelf.",
        "Brushed the gel coat on.",
        "The resin is laminating epoxy.",
        "Mixed half that for the second coat.",
        "It's due its next coat by one.",
        "Ready for another coat of wax.",
        "There's a coat of dust on the bench.",
        "Mixed 300 grams of silicone for the print coat.",
        "Pigment skin colour 2%.",
    ],
)
def test_what_is_not_laid_is_no_layer(text: str):
    assert layers_in(text) == []


def test_a_size_is_no_count_and_a_style_number_no_weight():
    assert [count for _, count, _, _ in layers_in("another 10 mil coat of gel coat")] == [1]
    assert layers_in("two layers of 1708 on the hull") == [(BIAX, 2, None, False)]


def test_a_weight_said_alone_is_of_the_fabric_that_had_it():
    text = "a layer of 10 ounce cloth, one of ounce and a half mat, then another layer of the 10 ounce"
    assert layers_in(text) == [(CLOTH, 1, 339.06, False), (CSM, 1, 457.73, False), (CLOTH, 1, 339.06, False)]
    assert layers_in("two of 450 mat, then three of the 450")[-1] == (CSM, 3, 450, False)


def test_a_weight_that_was_not_said_is_never_guessed():
    assert layers_in("two layers of csm") == [(CSM, 2, None, False)]


def test_a_misheard_fabric_after_its_weight_is_laid_by_that_weight():
    assert layers_in("300 gram bikes on the flange") == [(BIAX, None, 300, False)]


def test_a_misheard_fabric_is_laid_and_flagged():
    words = note("two layers of 450 by axe on the flange")
    (item,) = found_in(words).of("layer")
    assert (item.value.name, item.value.count, item.value.gsm) == (BIAX, 2, 450)
    assert [flag.field for flag in item.flags] == ["materials"]
    assert words.doc[item.start : item.end].text == "two layers of 450 by axe"


def test_layers_of_it_are_of_the_fabric_and_weight_before():
    text = "Two layers of the 300 chopped strand mat on the sides, and four layers of it on the base."
    (step,) = steps(text)
    assert laid(step) == [("chopped strand mat", 2, 300), ("chopped strand mat", 4, 300)]
