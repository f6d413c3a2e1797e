"""A recipe scaled: ratios kept, doubts kept, and what does not follow the size left as it was with the reason."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.find.planned_step import planned_from_json, planned_to_json
from journal.find.recipe import Recipe
from journal.find.scale import Scaled, Wanted, scaled
from journal.keep.views import BuildView, MouldView, StepView
from journal.record import Flag, Ratio
from journal.trade.limits import TradeError
from journal.trade.material import Material, catalogue_of
from tests.find.kept import AT, CATALOGUE, kept, layer, use
from tests.keep.made import evidence

BUILD = BuildView(1, "build-1", "build-1", 1, "niche", "Niche", AT, "", "worked", "", AT, None)
MOULD = MouldView(1, "niche", "Niche", "", 1, "", 1.4, "", "in use")


def recipe_of(*steps: StepView, area_m2: float | None = 1.4) -> Recipe:
    return Recipe(BUILD, replace(MOULD, area_m2=area_m2), steps, (), (), (), (), ())


def scale(*steps: StepView, catalogue=CATALOGUE, **wanted: float) -> Scaled:
    return scaled(recipe_of(*steps), Wanted(**wanted), catalogue, 0.7)


def gel(main: float = 700, second: float = 14, number: int = 1, **more) -> StepView:
    return kept(number, "mix", use("polyester gel coat", main, "g"), use("catalyst", second, "g"), **more)


def amounts(made: Scaled, step: int = 0) -> list[float | None]:
    return [each.amount for each in made.steps[step].uses]


def test_a_mix_follows_the_area_and_keeps_its_ratio() -> None:
    made = scale(gel(), area_m2=0.7)
    assert (made.scale.by, made.scale.factor) == ("area", 0.5)
    assert amounts(made) == [350, 7]
    assert [each.was for each in made.steps[0].uses] == [700, 14]
    assert not made.not_scaled
    assert not made.doubts


def test_amounts_are_rounded_to_what_the_scale_shows() -> None:
    assert amounts(scale(gel(), times=0.9, resolution_g=1)) == [630, 13]
    assert amounts(scale(gel(), times=0.1234, resolution_g=0.01)) == [86.38, 1.73]


def test_a_scale_too_coarse_for_the_ratio_is_said() -> None:
    (step,) = scale(gel(), times=0.25, resolution_g=1).steps
    assert step.doubts == ("a scale that shows 1 g puts this +14.3 % off the ratio: use a finer one",)
    (step,) = scale(gel(), times=0.02, resolution_g=1).steps
    assert step.doubts == ("a scale that shows 1 g cannot weigh the smallest part: use a finer one",)


def test_a_mix_larger_than_was_ever_in_one_pot_is_split() -> None:
    (step,) = scale(gel(), area_m2=2.8).steps
    assert step.batches == 2
    assert [each.amount for each in step.uses] == [1400, 28]
    assert step.mind == (
        "2 pots of 714 g: no more than 714 g of polyester gel coat was mixed in one pot for the recipe, and the "
        "catalogue states no largest safe batch",
    )


def test_the_largest_safe_batch_of_the_catalogue_splits_even_what_was_mixed_at_once() -> None:
    small = Material("casting resin", "epoxy resin", largest_batch_g=300)
    known = catalogue_of((small, Material("hardener", "hardener")))
    mixed = kept(1, "mix", use("casting resin", 500, "g"), use("hardener", 100, "g"))
    (step,) = scale(mixed, catalogue=known, times=2).steps
    assert step.batches == 4
    assert "no more than 300 g of casting resin is safe in one pot, by the catalogue" in step.mind[0]


def test_what_was_queried_stays_queried_and_what_was_heard_in_doubt_too() -> None:
    queried = gel(flags=(Flag("amount", "70 or 17 of catalyst"),))
    made = scale(queried, times=2)
    assert made.steps[0].doubts == ("70 or 17 of catalyst",)
    unsure = replace(use("catalyst", 14, "g"), evidence=evidence("fourteen", confidence=0.41))
    made = scale(kept(1, "mix", use("polyester gel coat", 700, "g"), unsure), times=2)
    assert "41% confidence" in made.steps[0].uses[1].doubts[0]
    assert made.doubts == 1


def test_what_a_person_confirmed_is_in_doubt_no_more() -> None:
    queried = replace(gel(flags=(Flag("amount", "70 or 17 of catalyst"),)), confirmed_at=AT)
    assert not scale(queried, times=2).doubts


@pytest.mark.parametrize(
    ("step", "wanted", "why"),
    [
        (kept(1, "mix", use("polyester resin", 500)), {"times": 2}, "no unit"),
        (kept(1, "fit", use("steel tube", 3, "count")), {"times": 2}, "counted"),
        (kept(1, "fill", use("epoxy putty", 200, "g")), {"area_m2": 2.8}, "undercuts"),
        (kept(1, "mix", use("platinum silicone", 1000, "g")), {"area_m2": 2.8}, "follows the volume"),
    ],
)
def test_what_does_not_follow_the_size_is_left_and_said(step: StepView, wanted: dict, why: str) -> None:
    made = scale(step, **wanted)
    assert made.steps[0].uses[0].amount == made.steps[0].uses[0].was
    assert why in made.steps[0].uses[0].kept_why
    assert why in made.not_scaled[0]


def test_shares_layers_and_thicknesses_are_the_same_for_any_size() -> None:
    made = scale(
        kept(1, "tint", use("pigment", 5, "percent")),
        kept(2, "laminate", layers=(layer("chopped strand mat", 2, 450),)),
        area_m2=2.8,
    )
    assert amounts(made) == [5]
    assert made.steps[1].layers[0].count == 2
    assert not made.not_scaled


def test_a_casting_follows_its_volume() -> None:
    poured = kept(1, "mix", use("platinum silicone", 1100, "g"))  # 1.1 g/ml in the catalogue
    made = scale(poured, gel(number=2), volume_ml=500)
    assert made.scale.was == pytest.approx(1000)
    assert amounts(made) == [550]
    assert amounts(made, 1) == [700, 14]
    assert "coats and layers follow the area" in made.not_scaled[0]


@pytest.mark.parametrize(
    ("wanted", "why"),
    [
        ({"area_m2": 1, "times": 2}, "one of"),
        ({"times": 0}, "more than 0"),
        ({"area_m2": -1}, "more than 0"),
        ({"volume_ml": 100}, "nothing that is poured was weighed"),
        ({"times": 2, "resolution_g": -1}, "between 0 and 1000"),
    ],
)
def test_what_cannot_be_scaled_is_refused(wanted: dict, why: str) -> None:
    with pytest.raises(TradeError, match=why):
        scale(gel(), **wanted)


def test_an_area_that_is_not_stated_is_asked_for() -> None:
    with pytest.raises(TradeError, match="not stated"):
        scaled(recipe_of(gel(), area_m2=None), Wanted(area_m2=1), CATALOGUE, 0.7)


def test_a_plan_ends_before_the_first_pull_and_leaves_repairs_and_bare_checks_out() -> None:
    steps = [
        kept(number, action, **more)
        for number, (action, more) in enumerate(
            (
                ("check", {}), ("seal", {}), ("release", {"status": "planned"}), ("demould", {}), ("repair", {}),
                ("post-cure", {}), ("pull", {}), ("release", {}),
            ),
            1,
        )
    ]  # fmt: skip
    assert [step.action for step in scale(*steps).steps] == ["seal", "demould", "post-cure"]


@given(main=st.integers(50, 5000), share=st.floats(1, 50), times=st.floats(0.2, 20))
def test_no_rounding_moves_a_ratio_further_than_is_said(main: int, share: float, times: float) -> None:
    second = Fraction(str(round(main * share / 100, 1)))
    mixed = kept(1, "mix", use("laminating epoxy", main, "g"), use("hardener", float(second), "g"))
    (step,) = scale(mixed, times=times, resolution_g=0.5).steps
    first, other = (each.amount or 0 for each in step.uses)
    off = abs(100 * (other / first) / (100 * float(second) / main) - 1) if first else 1
    assert off <= 0.051 or step.doubts
    assert sum((first, other)) / step.batches <= (main + float(second)) * 1.01 + 1


def test_a_planned_step_comes_back_from_its_json() -> None:
    step = gel(ratio=Ratio((Fraction(100), Fraction(2)), evidence("ratio")), layers=(layer("tissue"),))
    (planned,) = scale(step, times=2).steps
    assert planned_from_json(planned_to_json(planned)) == planned
