"""The shop's other sums, each from what a bench writes down to figures with their names and units.

Every sum is a function of plain numbers and of short text ("60@8 80@4"); what is missing or out of range raises
TradeError naming the field. The formulas and their sources are in mix, cure and laminate.
"""

from __future__ import annotations

from dataclasses import dataclass

from journal.trade import cure, laminate, mix
from journal.trade.limits import TradeError, positive, within
from journal.trade.notation import ratio_of

HOUR_S = 3600


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a sum: its name, its value, and the unit of that ("g", "ml", "h", "degC", "percent", "")."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Worked:
    """A sum worked out: its figures in the order to read them, and what is to be kept in mind."""

    figures: tuple[Figure, ...]
    remarks: tuple[str, ...] = ()


def batches(
    total_g: float, largest_g: float, pot_life_min: float | None = None, g_per_min: float | None = None
) -> Worked:
    """Split a total into equal batches that are safe in one pot and laid within the pot life."""
    pot_life = None if pot_life_min is None else pot_life_min * 60
    speed = None if g_per_min is None else g_per_min / 60
    split = mix.batches(total_g, largest_g, pot_life, speed)
    limit = () if split.limited_by == "none" else (f"the {split.limited_by} sets the size",)
    figures = (Figure("batches", split.count, ""), Figure("each", split.each_g, "g"))
    return Worked(figures, (*limit, "a deep pot heats up: pour it out shallow or use it at once"))


def stoichiometry(eew: float, ahew: float, epoxy_g: float = 100.0) -> Worked:
    """Work out the hardener of an epoxy from the equivalent weights on the two data sheets, g per equivalent."""
    per_hundred = mix.hardener_per_hundred(ahew, eew)
    weighing = mix.weigh(ratio_of(f"100:{per_hundred:.6f}"), epoxy_g)
    figures = (
        Figure("hardener per 100 g of epoxy", per_hundred, "g"),
        Figure("epoxy", weighing.exact[0], "g"),
        Figure("hardener", weighing.exact[1], "g"),
    )
    return Worked(figures, ("the ratio on the maker's sheet comes first where it differs",))


def blend(parts: str, ahew: float) -> Worked:
    """Work out the hardener of a blend of epoxies written as GRAMS@EEW, with spaces between; GRAMS@0 is a filler."""
    pairs = [_pair("parts", text) for text in parts.split()]
    if not pairs:
        raise TradeError("parts", "needs one GRAMS@EEW or more, like 80@189 10@183, and 10@0 for a filler")
    total = sum(grams for grams, _ in pairs)
    eew = mix.blend_equivalent([(grams, each or None) for grams, each in pairs])
    return Worked((Figure("epoxide equivalent weight", eew, "g"), *stoichiometry(eew, ahew, total).figures))


def additions(main_g: float, percents: str) -> Worked:
    """Work out additions (peroxide, thickener, pigment) to a main part, percents by weight with spaces between."""
    try:
        shares = [float(text) for text in percents.split()]
    except ValueError:
        raise TradeError("percents", f"must be numbers with spaces between, like 2 0.5, got {percents!r}") from None
    if not shares:
        raise TradeError("percents", "needs one or more, like 2 0.5")
    grams = [mix.addition(main_g, share) for share in shares]
    figures = [Figure(f"{share:g} %", each, "g") for share, each in zip(shares, grams, strict=True)]
    return Worked((*figures, Figure("together", main_g + sum(grams), "g")), ("percent by weight of the main part",))


def film(area_m2: float, wet_mm: float, density: float, waste_percent: float = 0.0) -> Worked:
    """Work out the gel coat of an area from its wet film thickness and its density, g/ml."""
    gsm = laminate.gel_coat_gsm(wet_mm, density)
    grams = positive("area", area_m2) * gsm * (1 + within("waste", waste_percent, 0, 100) / 100)
    return Worked((Figure("to put on", grams, "g"), Figure("a square metre", gsm, "g")))


def plaster(plaster_g: float, consistency: float) -> Worked:
    """Work out the water of a plaster at its consistency, grams of water to 100 g of plaster."""
    water = mix.plaster_water(plaster_g, consistency)
    figures = (Figure("water", water, "g"), Figure("together", plaster_g + water, "g"))
    return Worked(figures, ("plaster into water, and let it soak before stirring",))


def casting(volume_ml: float, density: float | None, ratio: str = "", waste_percent: float = 0.0) -> Worked:
    """Work out what a casting of this volume weighs, and what to weigh for it by a ratio if one is given."""
    total = mix.casting_mass(volume_ml, density, waste_percent)
    figures = [Figure("weight", mix.casting_mass(volume_ml, density), "g"), Figure("to mix", total, "g")]
    if ratio:
        weights = mix.weigh_from_total(ratio_of(ratio), total).exact
        figures += [Figure(letter, grams, "g") for letter, grams in zip("ABCDEF", weights, strict=False)]
    return Worked(tuple(figures))


def cost(parts: str) -> Worked:
    """Add up a cost written as KILOGRAMS@PRICE, with spaces between, in the currency of the prices."""
    pairs = [_pair("parts", text) for text in parts.split()]
    if not pairs:
        raise TradeError("parts", "needs one KILOGRAMS@PRICE or more, like 1.2@6.50")
    return Worked((Figure("cost", laminate.cost(pairs), ""), Figure("weight", sum(kg for kg, _ in pairs), "kg")))


def voids(
    measured_density: float,
    glass_percent: float,
    resin_density: float | None = None,
    glass_density: float | None = None,
) -> Worked:
    """Work out the voids of a laminate from its density and its glass content, percent by weight (ASTM D2734)."""
    resin = laminate.POLYESTER_DENSITY if resin_density is None else resin_density
    glass = laminate.E_GLASS_DENSITY if glass_density is None else glass_density
    theoretical = laminate.theoretical_density(100 - within("glass percent", glass_percent, 1, 99), resin, glass)
    figures = (
        Figure("voids", laminate.void_content(theoretical, measured_density), "percent"),
        Figure("density without voids", theoretical, "g/ml"),
    )
    return Worked(figures)


def ramp(start_c: float, holds: str, c_per_hour: float) -> Worked:
    """Work out a post-cure programme: holds written as DEGC@HOURS, with spaces between, heated at this rate."""
    steps = [_pair("holds", text) for text in holds.split()]
    if not steps:
        raise TradeError("holds", "needs one DEGC@HOURS or more, like 60@8 80@4")
    points = cure.post_cure_ramp(start_c, [(degc, hours * HOUR_S) for degc, hours in steps], c_per_hour)
    figures = [Figure(f"at {point.seconds / HOUR_S:.1f} h", point.degc, "degC") for point in points]
    whole = Figure("the whole programme", points[-1].seconds / HOUR_S, "h")
    return Worked((whole, *figures), ("let it cool in the oven before it is opened",))


def cure_age(log: str, energy_kj: float | None = None, reference_c: float = cure.QUOTED_AT_C) -> Worked:
    """Work out the age of a cure as hours at the reference temperature, from HOURS@DEGC with spaces between.

    Without an activation energy each stretch counts by the rule that 10 degC more halve the time.
    """
    stretches = [_pair("log", text) for text in log.split()]
    if not stretches:
        raise TradeError("log", "needs one HOURS@DEGC or more, like 12@18 6@25")
    spans = [(hours * HOUR_S, degc) for hours, degc in stretches]
    age = cure.aged(spans, energy_kj, reference_c)
    figures = (
        Figure(f"age at {reference_c:g} degC", age.seconds / HOUR_S, "h"),
        Figure("by the clock", sum(hours for hours, _ in stretches), "h"),
    )
    return Worked(figures, (f"by {age.rule}",))


def _pair(field: str, text: str) -> tuple[float, float]:
    try:
        first, second = (float(number) for number in text.split("@"))
    except ValueError:
        raise TradeError(field, f"must be pairs like 60@8 with spaces between, got {text!r}") from None
    return first, second
