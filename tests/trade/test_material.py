from journal.trade.material import Catalogue, Material, ShopWord, catalogue_of

EPOXY = Material("laminating epoxy", "epoxy resin", synonyms=("epoxy",), general=("resin",))
POLYESTER = Material("polyester resin", "polyester resin", synonyms=("poly", "epoxy"), general=("resin",))
MAT = Material("chopped strand mat", "glass fabric", synonyms=("CSM",), general=("glass",))


def test_a_material_is_got_by_name_or_synonym_whatever_the_case_and_spaces():
    catalogue = catalogue_of((EPOXY, MAT))
    assert catalogue.get("Laminating  Epoxy") is EPOXY
    assert catalogue.get("csm") is MAT
    assert catalogue.get("walnut dust") is None


def test_of_two_materials_with_one_synonym_the_first_keeps_it():
    assert catalogue_of((EPOXY, POLYESTER)).get("epoxy") is EPOXY


def test_a_name_wins_over_a_synonym_of_another():
    other = Material("epoxy", "resin")
    assert catalogue_of((EPOXY, other)).get("epoxy") is other


def test_a_general_word_stands_for_each_material_that_names_it():
    catalogue = catalogue_of((EPOXY, POLYESTER, MAT), general_words=(ShopWord("resin", ("goo",)),))
    assert catalogue.meant_by("Resin") == (EPOXY, POLYESTER)
    assert catalogue.meant_by("putty") == ()


def test_general_words_without_an_entry_of_their_own_are_added():
    catalogue = catalogue_of((EPOXY, MAT), general_words=(ShopWord("resin", ("goo",)),))
    assert catalogue.general_words == (ShopWord("resin", ("goo",)), ShopWord("glass"))


def test_only_reinforcement_is_a_fabric():
    assert MAT.is_fabric
    assert not EPOXY.is_fabric


def test_catalogues_can_be_kept_by_identity():
    one, other = catalogue_of((EPOXY,)), catalogue_of((EPOXY,))
    assert {one: 1, other: 2}[one] == 1
    assert Catalogue().get("epoxy") is None
