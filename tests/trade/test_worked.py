"""The sums of a bench against the published values that their formulas are checked by, and their refusals."""

from __future__ import annotations

import pytest

from journal.trade import worked
from journal.trade.limits import TradeError


def values(made: worked.Worked) -> dict[str, float]:
    return {figure.name: figure.value for figure in made.figures}


def test_hardener_by_equivalent_weights_as_published():
    # Polimeros (SciELO), "Characterization of DGEBA/aliphatic polyamines", abstract: 14.7 per hundred
    made = values(worked.stoichiometry(187, 27.5, 300))
    assert made["hardener per 100 g of epoxy"] == pytest.approx(14.706, abs=0.001)
    assert made["hardener"] == pytest.approx(3 * 14.706, abs=0.003)


def test_the_hardener_of_a_blend_with_a_filler():
    # a supplier's general guide to blends, calculated: 209.24 g/eq, with AHEW 43 20.55 to the hundred
    made = values(worked.blend("80@189 10@183 10@0", 43))
    assert made["epoxide equivalent weight"] == pytest.approx(209.24, abs=0.01)
    assert made["hardener"] == pytest.approx(20.55, abs=0.005)


def test_additions_in_percent_of_the_main_part():
    made = values(worked.additions(700, "2 0.5"))
    assert made == {"2 %": pytest.approx(14), "0.5 %": pytest.approx(3.5), "together": pytest.approx(717.5)}


def test_gel_coat_by_its_film():
    # 0.5 mm at 1.2 g/ml is 600 g/m2 (calculated; 0.4 to 0.6 mm wet is common practice)
    made = values(worked.film(1.4, 0.5, 1.2, waste_percent=5))
    assert made == {"to put on": pytest.approx(882), "a square metre": pytest.approx(600)}


def test_voids_of_a_worked_laminate():
    # ASTM D2734, calculated: resin 70 %, D 1.2, d 2.56, measured 1.40 gives T 1.4275 and V 1.93 %
    made = values(worked.voids(1.40, 30, 1.2, 2.56))
    assert made["voids"] == pytest.approx(1.93, abs=0.005)
    assert made["density without voids"] == pytest.approx(1.4275, abs=0.0005)


def test_a_week_at_30_degrees_is_eleven_days_at_20():
    # the maturity method (ASTM C1074) with Q 33.5 kJ/mol, calculated
    made = values(worked.cure_age("168@30", 33.5, 20))
    assert made["age at 20 degC"] / 24 == pytest.approx(11.02, abs=0.005)
    assert made["by the clock"] == 168


def test_without_an_activation_energy_ten_degrees_halve_the_time():
    # common practice, no published source
    made = worked.cure_age("6@15 6@35", reference_c=25)
    assert values(made)["age at 25 degC"] == pytest.approx(6 / 2 + 6 * 2)
    assert made.remarks == ("by halving per 10 degC",)


def test_a_post_cure_reaches_and_leaves_each_temperature():
    made = worked.ramp(20, "60@8 80@4", 10)
    assert made.figures[0] == worked.Figure("the whole programme", 18.0, "h")
    assert [(figure.name, figure.value) for figure in made.figures[1:]] == [
        ("at 0.0 h", 20), ("at 4.0 h", 60), ("at 12.0 h", 60), ("at 14.0 h", 80), ("at 18.0 h", 80),
    ]  # fmt: skip


def test_batches_are_no_larger_than_one_pot_bears_or_can_be_laid():
    assert values(worked.batches(5000, 1200)) == {"batches": 5, "each": 1000}
    made = worked.batches(5000, 1200, pot_life_min=20, g_per_min=40)
    assert values(made) == {"batches": 7, "each": pytest.approx(5000 / 7)}
    assert made.remarks[0] == "the pot life sets the size"


def test_plaster_takes_water_by_its_consistency():
    # ASTM C472 gives the consistency as ml of water to 100 g of plaster
    assert values(worked.plaster(1000, 70)) == {"water": 700, "together": 1700}


def test_a_casting_by_volume_and_what_to_weigh_for_it():
    made = values(worked.casting(2400, 1.1, "100:10", waste_percent=5))
    assert made["weight"] == pytest.approx(2640)
    assert made["to mix"] == pytest.approx(2772)
    assert (made["A"], made["B"]) == (pytest.approx(2520), pytest.approx(252))


def test_a_cost_adds_up():
    assert values(worked.cost("1.2@6.50 0.3@14")) == {"cost": pytest.approx(12.0), "weight": pytest.approx(1.5)}


@pytest.mark.parametrize(
    ("refused", "field"),
    [
        (lambda: worked.batches(0, 1200), "total"),
        (lambda: worked.batches(5000, -1), "largest batch"),
        (lambda: worked.stoichiometry(0, 20), "EEW"),
        (lambda: worked.blend("", 43), "parts"),
        (lambda: worked.blend("80@189", 0), "AHEW"),
        (lambda: worked.additions(700, "two"), "percents"),
        (lambda: worked.additions(700, ""), "percents"),
        (lambda: worked.additions(-7, "2"), "main weight"),
        (lambda: worked.film(0, 0.5, 1.2), "area"),
        (lambda: worked.film(1, 50, 1.2), "wet film"),
        (lambda: worked.film(1, 0.5, 1.2, 200), "waste"),
        (lambda: worked.plaster(1000, 5), "consistency"),
        (lambda: worked.casting(2400, None), "density"),
        (lambda: worked.casting(2400, 1.1, "100"), "ratio"),
        (lambda: worked.cost("1.2"), "parts"),
        (lambda: worked.cost(" "), "parts"),
        (lambda: worked.voids(1.9, 30), "measured density"),
        (lambda: worked.voids(1.4, 0), "glass percent"),
        (lambda: worked.ramp(20, "sixty", 10), "holds"),
        (lambda: worked.ramp(20, "60@8", 0), "rate"),
        (lambda: worked.ramp(20, "600@8", 10), "hold temperature"),
        (lambda: worked.cure_age(""), "log"),
        (lambda: worked.cure_age("6@400"), "temperature"),
    ],
)
def test_bad_input_names_the_field(refused, field):
    with pytest.raises(TradeError) as error:
        refused()
    assert error.value.field == field
