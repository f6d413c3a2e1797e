import re

import pytest

from journal.read.catalogue import CatalogueError, catalogue_from_toml, glossary
from journal.read.lexicon import lexicon_of
from journal.trade.material import CAUTIONS, KINDS
from tests.read.naming import materials_in, names, note, repaired, shipped, shipped_text

# The names that every catalogue starts with, from the contract of a step record.
NAMES = """
laminating epoxy, epoxy gel coat, epoxy putty, polyester resin, polyester gel coat, vinyl ester resin, urethane resin,
urethane rubber, platinum silicone, tin silicone, latex, gypsum plaster, hard gypsum, fairing compound, hardener,
catalyst, accelerator, fumed silica, microballoons, milled fibre, chopped strands, pigment, chopped strand mat,
woven roving, glass cloth, biaxial glass, surface tissue, carbon cloth, bulker mat, burlap, release wax, pva release,
semi-permanent release, shellac, sealer, petroleum jelly, silicone release spray, oil clay, water clay, acetone,
alcohol, water, plywood, steel tube, foam board, peel ply, bleeder cloth, vacuum bag
"""
GENERAL = "resin, gel coat, glass, putty, silicone, plaster, wax, filler, rubber"
MARINE = '"marine filler" = { kind = "filler", general = ["filler"], heard_as = ["marine fella"] }'


def listed(text: str) -> list[str]:
    return [name.strip() for name in text.replace("\n", " ").split(",")]


def test_the_shipped_catalogue_holds_every_name_of_the_contract():
    assert [name for name in listed(NAMES) if shipped().get(name) is None or shipped().get(name).name != name] == []


def test_the_shipped_catalogue_holds_every_general_word_with_what_it_stands_for():
    assert [word for word in listed(GENERAL) if not shipped().meant_by(word)] == []


@pytest.mark.parametrize("name", listed(NAMES))
def test_each_name_is_read_as_itself(name: str):
    assert names(f"We need the {name} today.") == [name]


def test_every_synonym_is_read_as_its_material():
    wrong = {}
    for material in shipped().materials:
        for synonym in material.synonyms:
            entry = lexicon_of(shipped()).entries.get("".join(c for c in synonym.casefold() if c.isalnum()))
            if synonym != "0/90" and (entry is None or entry.name != material.name):
                wrong[synonym] = entry and entry.name
    assert wrong == {}


def test_the_typical_values_of_the_shipped_catalogue_hang_together():
    for material in shipped().materials:
        assert material.kind in KINDS
        assert set(material.cautions) <= set(CAUTIONS)
        assert material.second_part is None or shipped().get(material.second_part) is not None, material.name
        assert not material.ratio or material.second_part, material.name
        assert not material.heard_as or material.name not in material.heard_as


def test_every_kind_and_field_is_explained_in_the_shipped_file():
    head = re.sub(r"\n#\s*", " ", shipped_text().split("[")[0] + shipped_text().split("# ----")[0])
    missing = [kind for kind in (*KINDS, "general word", "term", *CAUTIONS) if kind not in head]
    assert missing == []


def test_one_line_is_enough_for_a_material_of_the_shop():
    catalogue = catalogue_from_toml(shipped_text(), MARINE)
    assert names("filled it with 200 grams of marine filler", catalogue) == ["marine filler"]
    assert repaired(note("200 grams of marine fella", catalogue)) == ["marine filler"]
    assert "marine filler" in glossary(catalogue)
    assert catalogue.get("marine filler") in catalogue.meant_by("filler")


def test_a_later_text_adds_words_and_replaces_values():
    shop = '"laminating epoxy" = { synonyms = ["the slow stuff"], ratio = [100, 30], pot_life_s = 3600 }'
    epoxy = catalogue_from_toml(shipped_text(), shop).get("the slow stuff")
    assert epoxy.name == "laminating epoxy"
    assert "epoxy resin" in epoxy.synonyms
    assert (epoxy.ratio, epoxy.pot_life_s, epoxy.density) == ((100.0, 30.0), 3600.0, 1.15)


def test_a_later_text_takes_a_synonym_from_an_earlier_one():
    shop = '"shop epoxy" = { kind = "epoxy resin", synonyms = ["epoxy"] }'
    catalogue = catalogue_from_toml(shipped_text(), shop)
    assert catalogue.get("epoxy").name == "shop epoxy"
    assert names("100 grams of epoxy", catalogue) == ["shop epoxy"]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ('"x" = { kind = "fillr" }', ['"x"', '"kind"', 'did you mean "filler"?']),
        ('"x" = { general = ["filler"] }', ['"x"', '"kind"', "is missing", "epoxy resin"]),
        ('"x" = { kind = "filler", heard = ["y"] }', ['"heard"', "is not a field", 'did you mean "heard_as"?']),
        (
            '"x" = { kind = "filler", synonyms = "y" }',
            ['"synonyms"', "not a list of texts", 'synonyms = ["...", "..."]'],
        ),
        ('"x" = { kind = "resin", ratio = [100] }', ['"ratio"', "two parts or more", "ratio = [100, 28]"]),
        ('"x" = { kind = "resin", ratio = [100, -1] }', ['"ratio"', "above 0"]),
        ('"x" = { kind = "resin", ratio_by = "eye" }', ['"ratio_by"', "neither weight nor volume"]),
        (
            '"x" = { kind = "resin", percent_range = [3, 1] }',
            ['"percent_range"', "is not a range", "least and the most"],
        ),
        ('"x" = { kind = "resin", pot_life_s = "20 min" }', ['"pot_life_s"', "is not a number above 0"]),
        ('"x" = { kind = "resin", density = true }', ['"density"', "is not a number above 0"]),
        ('"x" = { kind = "resin", cautions = ["fumes"] }', ['"cautions"', '"fumes" is not known', "styrene"]),
        ('"x" = { kind = "term", ratio = [1, 1] }', ['"ratio"', "does not belong to a term"]),
        ('"x" = "filler"', ['"x"', "is not a table"]),
        ("x = [,", ["not valid TOML", "line 1"]),
        (
            '"x" = { kind = "resin", synonyms = ["z"] }\n"y" = { kind = "resin", synonyms = ["Z"] }',
            ['"Z"', 'synonym of "x" too', "take it out"],
        ),
    ],
)
def test_a_bad_entry_is_refused_with_its_name_its_field_and_what_to_do(text: str, parts: list[str]):
    with pytest.raises(CatalogueError) as refused:
        catalogue_from_toml(text)
    assert [part for part in parts if part not in str(refused.value)] == []


def test_the_glossary_puts_first_what_hearing_gets_wrong():
    words = glossary(catalogue_from_toml('"water" = { kind = "supply" }', MARINE, '"pot life" = { kind = "term" }'))
    assert words == ("marine filler", "water", "pot life", "filler")


def test_the_glossary_gives_abbreviations_as_they_are_written():
    assert {"CSM", "PVA", "MEKP", "pot life", "chopped strand mat"} <= set(glossary(shipped()))


def test_a_term_is_no_material():
    assert materials_in("the pot life of the flange") == []
