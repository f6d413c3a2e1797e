from datetime import date

import pytest

from journal.trade.cautions import CAUTIONS, DEFER, cautions_for, first_uses
from journal.trade.stock import LotStock, Shortage, objections, shortages

TODAY = date(2026, 5, 4)


def test_a_lot_past_its_date_or_overdrawn_is_objected_to():
    assert "past its use-by" in objections(LotStock("polyester resin", "4471", 5000, 0, date(2026, 5, 3)), TODAY)[0]
    assert objections(LotStock("polyester resin", "4471", 5000, 0, TODAY), TODAY) == ()
    assert "used up" in objections(LotStock("hardener", "B2", 500, 500), TODAY)[0]
    assert "50 g more" in objections(LotStock("hardener", "B2", 500, 550), TODAY)[0]


def test_what_is_short_counts_only_lots_in_date():
    lots = [
        LotStock("polyester resin", "1", 5000, 4000),
        LotStock("polyester resin", "2", 5000, 0, date(2026, 1, 1)),
        LotStock("catalyst", "3", 500),
    ]
    found = shortages({"polyester resin": 3000, "catalyst": 60, "surface tissue": 10}, lots, TODAY)
    assert found == (Shortage("polyester resin", 3000, 1000), Shortage("surface tissue", 10, 0))
    assert found[0].short_g == 2000


def test_every_caution_defers_to_the_data_sheet():
    assert cautions_for(["peroxide", "styrene"])[-1] == DEFER
    assert len(cautions_for(["styrene", "styrene"])) == 2
    assert cautions_for([]) == ()
    with pytest.raises(KeyError, match="no caution"):
        cautions_for(["moonlight"])
    assert "accelerator" in CAUTIONS["peroxide"]


def test_cautions_stand_with_the_first_use_of_each_material_only():
    kinds = {"laminating epoxy": ("skin sensitiser", "exotherm"), "glass cloth": ("dust",), "oil clay": ()}
    shown = first_uses(
        [(1, ["oil clay"]), (2, ["laminating epoxy", "laminating epoxy"]), (3, ["laminating epoxy", "glass cloth"])],
        kinds,
    )
    assert shown == {
        2: (CAUTIONS["skin sensitiser"], CAUTIONS["exotherm"], DEFER),
        3: (CAUTIONS["dust"], DEFER),
    }
    assert first_uses([], kinds) == {}
