"""Cautions stand with the first use of a material on a build."""

from __future__ import annotations

from journal.find.first_uses import first_cautions
from journal.trade.cautions import CAUTIONS, DEFER
from tests.find.kept import CATALOGUE, after, kept, layer, use


def test_only_the_first_use_of_each_material_carries_its_cautions():
    mat = layer("chopped strand mat", 2, 450)
    steps = [
        kept(3, "laminate", at=after(hours=2), layers=(mat,)),
        kept(1, "mix", use("polyester resin", 800, "g"), use("catalyst", 8, "g")),
        kept(2, "mix", use("polyester resin", 800, "g"), use("catalyst", 8, "g"), at=after(hours=1)),
        kept(4, "laminate", at=after(hours=3), layers=(mat,)),
    ]
    found = first_cautions(steps, CATALOGUE)
    assert list(found) == [1, 3]
    assert {CAUTIONS["peroxide"], CAUTIONS["styrene"], CAUTIONS["exotherm"], DEFER} == set(found[1])
    assert found[3] == (CAUTIONS["dust"], DEFER)


def test_a_general_word_warns_of_all_it_may_mean_and_a_plan_warns_in_time():
    planned = kept(1, "mix", use("resin", 400, "g"), status="planned")
    found = first_cautions([planned, kept(2, "mix", use("epoxy putty"), status="not done")], CATALOGUE)
    assert CAUTIONS["isocyanate"] in found[1]
    assert 2 not in found
