"""What was unusual about a build: each trait names its factor, says it in words, and points to its steps. Pure.

A build is judged against limits (the catalogue's, published rules) and against what is usual in the builds that it
is compared with. A trait that passes a limit or a tolerance is `beyond`; others are mere differences.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from journal.review.measures import ANYWHERE, TISSUE, Dose, Measures
from journal.review.usual import Usual, coldest, dampest, most_of, resin_per_gsm
from journal.trade.climate import AirLimits, limits_for
from journal.trade.material import Catalogue, Material

LITTLE_SECOND, MUCH_SECOND = "little hardener or catalyst", "much hardener or catalyst"
COLD, HOT, DAMP = "cold shop", "hot shop", "damp shop"
TOO_EARLY, TOO_LATE = "coat too early", "coat too late"
EARLY_DEMOULD = "early demould"
THIN_GLASS, HEAVY_FIRST = "thin laminate", "heavy first glass"
LITTLE_RESIN, MUCH_RESIN = "little resin for the glass", "much resin for the glass"
THIN_GEL, THICK_GEL = "thin gel coat", "thick gel coat"
FEW_COATS = "few coats"
MISSING = "missing step"
LARGE_BATCH = "large batch"
LOT, HAND = "lot", "hand"
FACTORS = (
    LITTLE_SECOND, MUCH_SECOND, COLD, HOT, DAMP, TOO_EARLY, TOO_LATE, EARLY_DEMOULD, THIN_GLASS, HEAVY_FIRST,
    LITTLE_RESIN, MUCH_RESIN, THIN_GEL, THICK_GEL, FEW_COATS, MISSING, LARGE_BATCH, LOT, HAND,
)  # fmt: skip

USUAL_TOLERANCE = 10.0  # percent, where the catalogue gives none: common practice, no published source
PUBLISHED_LEAST_C = AirLimits().least_c  # a classification society's rules for FRP, as in trade.climate
DAMP_FROM = 70.0  # percent: the upper end that the same society recommends
DAMPER, COLDER = 15.0, 4.0  # percent and degC off the usual that are worth a word: our choice
THIN_BELOW, THICK_ABOVE = 0.8, 1.35  # shares of the usual that are beyond chance in weighing: our choice
FEW = 0.75  # the share of the usual coats that is few: our choice
HEAVIEST_FIRST = 450.0  # g/m2 next to gel coat: a classification society's rules for FRP ships
USUALLY_DONE = 0.6  # the share of builds that makes a step a usual one: our choice


@dataclass(frozen=True, slots=True)
class Trait:
    """One unusual thing about a build. `subject` is the material, act, lot or hand; `size` 0 to 1 how far it goes.

    `step_ids` are the steps that show it (none where something is missing), `doubts` what is queried in them.
    """

    factor: str
    subject: str
    words: str
    size: float
    step_ids: tuple[int, ...] = ()
    doubts: tuple[str, ...] = ()
    beyond: bool = True

    @property
    def name(self) -> str:
        """The factor with its subject, as it is counted over builds."""
        return f"{self.factor}: {self.subject}" if self.subject else self.factor


def traits_of(measured: Measures, usual: Usual, catalogue: Catalogue) -> tuple[Trait, ...]:
    """Return what was unusual about a build, judged by limits and by what is usual."""
    return tuple(trait for find in _FINDERS for trait in find(measured, usual, catalogue))


# ---- the mix ---------------------------------------------------------------------------------------------


def _doses(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    """Yield each kind of batch that was furthest off its ratio, to either side."""
    worst: dict[tuple[str, str], Trait] = {}
    for dose in measured.doses:
        trait = _off(dose, usual, catalogue)
        if trait is not None:
            key = (trait.factor, trait.subject)
            worst[key] = _joined(worst[key], trait) if key in worst else trait
    yield from worst.values()


def _joined(one: Trait, other: Trait) -> Trait:
    """Return the larger of two like traits, with the steps of both."""
    larger = max(one, other, key=lambda trait: trait.size)
    ids = tuple(dict.fromkeys((*one.step_ids, *other.step_ids)))
    doubts = tuple(dict.fromkeys((*one.doubts, *other.doubts)))
    return Trait(larger.factor, larger.subject, larger.words, larger.size, ids, doubts, larger.beyond)


def _off(dose: Dose, usual: Usual, catalogue: Catalogue) -> Trait | None:
    norm, source = _norm(dose, usual, catalogue)
    if norm is None or norm <= 0:
        return None
    material = catalogue.get(dose.material)
    tolerance = (material.tolerance_percent if material else None) or USUAL_TOLERANCE
    percent = 100 * (dose.per_hundred.value / norm - 1)
    if abs(percent) <= tolerance:
        return None
    value, side = f"{dose.per_hundred.value:.3g}", "under" if percent < 0 else "over"
    off = f"{abs(percent):.0f} % {side} {source} {norm:.3g}"
    words = f"{dose.second} at {value} per 100 of {dose.material} by weight, {off}"
    return Trait(
        factor=LITTLE_SECOND if percent < 0 else MUCH_SECOND,
        subject=dose.material,
        words=words,
        size=min(1.0, abs(percent) / (5 * tolerance)),
        step_ids=dose.per_hundred.step_ids,
        doubts=dose.per_hundred.doubts,
    )


def _norm(dose: Dose, usual: Usual, catalogue: Catalogue) -> tuple[float | None, str]:
    """Return parts per hundred to judge by: what the other builds took, else the catalogue's, else what was said."""
    if (dose.material, dose.second) in usual.doses:
        return usual.doses[dose.material, dose.second], usual.whose
    material = catalogue.get(dose.material)
    by_catalogue = per_hundred_of(material) if material is not None else None
    if by_catalogue is not None:
        return by_catalogue, "the catalogue's"
    return dose.said, "the said"


def per_hundred_of(material: Material) -> float | None:
    """Return the catalogue's parts of the second part per hundred of a material, by weight; None if it has none."""
    if len(material.ratio) < 2:
        return None
    plain = 100 * material.ratio[1] / material.ratio[0]
    if material.ratio_by != "volume":
        return plain
    if material.density and material.density_second:
        return plain * material.density_second / material.density
    return None


def _batches(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    for material, weight in measured.batches:
        most = material.largest_batch_g
        if most is not None and weight.value > most:
            words = f"{weight.value:g} g of {material.name} in one pot, more than the catalogue's {most:g} g"
            yield Trait(
                LARGE_BATCH, material.name, words, min(1.0, weight.value / most - 1), weight.step_ids, weight.doubts
            )


# ---- the air -----------------------------------------------------------------------------------------------


def _air(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    limits = [limits_for(material) for material in measured.reacting] or [AirLimits()]
    least, most = max(limit.least_c for limit in limits), min(limit.most_c for limit in limits)
    damp = min(limit.humidity_most for limit in limits)
    yield from _cold(measured, usual, least)
    hot = max(measured.temperatures, key=lambda reading: reading.value, default=None)
    if hot is not None and hot.value > most:
        words = f"shop at {hot.value:g} degC, above the {most:g} degC of the catalogue"
        yield Trait(HOT, "", words, min(1.0, (hot.value - most) / 6), hot.step_ids, hot.doubts)
    wet = dampest(measured)
    if wet is None:
        return
    damper = usual.humidity is not None and wet.value > DAMP_FROM and wet.value - usual.humidity >= DAMPER
    if wet.value > damp or damper:
        against = f", {usual.whose} {usual.humidity:g} %" if usual.humidity is not None else ""
        words = f"humidity {wet.value:g} %, {f'above {damp:g} %' if wet.value > damp else 'near the limit'}{against}"
        size = min(1.0, (wet.value - DAMP_FROM) / 20)
        yield Trait(DAMP, "", words, size, wet.step_ids, wet.doubts, beyond=wet.value > damp)


def _cold(measured: Measures, usual: Usual, least: float) -> Iterator[Trait]:
    cold = coldest(measured)
    if cold is None:
        return
    colder = usual.temperature is not None and usual.temperature - cold.value >= COLDER
    if not (cold.value < least or (cold.value < PUBLISHED_LEAST_C and colder)):
        return
    chilly = [reading for reading in measured.temperatures if reading.value < PUBLISHED_LEAST_C]
    values = sorted({reading.value for reading in chilly})
    span = f"{values[0]:g}" if len(values) == 1 else f"{values[0]:g} to {values[-1]:g}"
    against = f", {usual.whose} {usual.temperature:g}" if usual.temperature is not None else ""
    limit = least if cold.value < least else PUBLISHED_LEAST_C
    yield Trait(
        factor=COLD,
        subject="",
        words=f"shop at {span} degC, below {limit:g} degC{against}",
        size=min(1.0, (PUBLISHED_LEAST_C - cold.value) / 6),
        step_ids=tuple(dict.fromkeys(step_id for reading in chilly for step_id in reading.step_ids)),
        doubts=tuple(dict.fromkeys(why for reading in chilly for why in reading.doubts)),
        beyond=cold.value < least,
    )


# ---- windows and cure ----------------------------------------------------------------------------------------


def _windows(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    worst: dict[tuple[str, str], Trait] = {}
    for outside in measured.outside:
        clock = outside.below
        end = clock.window.opens if outside.state == "early" else clock.window.closes
        whole = (end or clock.window.opens) - clock.started_at
        hours = outside.missed_by.total_seconds() / 3600
        size = min(1.0, outside.missed_by / whole) if whole else 0.0
        rule = "as said" if clock.source == "said" else f"by the catalogue, {clock.rule}"
        words = f"the coat on {clock.material} went on {hours:.1f} h too {outside.state} ({rule})"
        factor = TOO_EARLY if outside.state == "early" else TOO_LATE
        trait = Trait(factor, clock.material, words, size, (outside.step_id, outside.below_id), clock.doubts)
        key = (factor, clock.material)
        worst[key] = _joined(worst[key], trait) if key in worst else trait
    yield from worst.values()
    short = measured.short_cure
    if short is not None and short.value > 0:
        words = f"opened with {100 * short.value:.0f} % of the catalogue's time to demould still to run"
        yield Trait(EARLY_DEMOULD, "", words, min(1.0, short.value), short.step_ids, short.doubts)


# ---- layers and coats -----------------------------------------------------------------------------------------


def _glass(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    thin = [
        (value.value / usual.glass[place], place, value)
        for place, value in measured.glass.items()
        if usual.glass.get(place)
    ]
    if not thin and measured.glass and usual.glass:  # no place in common: the thickest of each
        most = most_of(measured.glass)
        assert most is not None
        thin = [(most.value / max(usual.glass.values()), ANYWHERE, most)]
    if not measured.unweighed and thin and min(thin)[0] < THIN_BELOW:
        share, place, value = min(thin)
        where = f" on the {place}" if place else ""
        words = f"{value.value:g} g/m2 of glass{where}, {100 * share:.0f} % of {usual.whose}"
        yield Trait(THIN_GLASS, "", words, min(1.0, (1 - share) / 0.5), value.step_ids, value.doubts)
    first = measured.first_glass
    if first is not None and first.value > HEAVIEST_FIRST:
        words = f"{first.value:g} g/m2 next to the gel coat; ship rules take {HEAVIEST_FIRST:g} g/m2 at most"
        yield Trait(HEAVY_FIRST, "", words, min(1.0, first.value / HEAVIEST_FIRST - 0.5), first.step_ids, first.doubts)


def _resin(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    own = resin_per_gsm(measured)
    if own is None or not usual.resin_per_gsm or measured.resin_g is None or measured.unweighed:
        return
    share = round(own / usual.resin_per_gsm, 6)  # 80 % of the usual is not below it
    if THIN_BELOW <= share <= THICK_ABOVE:
        return
    factor = LITTLE_RESIN if share < 1 else MUCH_RESIN
    words = f"resin for the glass at {100 * share:.0f} % of {usual.whose}"
    yield Trait(factor, "", words, min(1.0, abs(1 - share)), measured.resin_g.step_ids, measured.resin_g.doubts)


def _coats(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    for name, value in measured.coats.items():
        expected = usual.coats.get(name)
        material = catalogue.get(name)
        if expected is None or value.value > FEW * expected or material is None:
            continue
        factor = THIN_GEL if "gel coat" in material.kind else FEW_COATS
        words = f"{_coats_said(value.value)} of {name}, {usual.whose} {expected:g}"
        yield Trait(factor, name, words, min(1.0, 1 - value.value / expected), value.step_ids, value.doubts)
    gel = measured.gel_g
    if gel is not None and usual.gel_g and not THIN_BELOW <= round(gel.value / usual.gel_g, 6) <= THICK_ABOVE:
        share = gel.value / usual.gel_g
        words = f"{gel.value:g} g of gel coat, {100 * share:.0f} % of {usual.whose}"
        factor = THIN_GEL if share < 1 else THICK_GEL
        yield Trait(factor, "by weight", words, min(1.0, abs(1 - share)), gel.step_ids, gel.doubts)


def _coats_said(count: float) -> str:
    return f"{count:g} coat{'' if count == 1 else 's'}"


# ---- steps, lots and hands ---------------------------------------------------------------------------------------


def _missing(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    """Yield the usual steps that are not recorded, and those that were said to be left out."""
    told = set()
    for (act, name), ids in measured.undone.items():
        if (act, name) not in measured.made:
            told.add((act, name))
            yield Trait(MISSING, _step_said(act, name), f"{_step_said(act, name)}: said to be left out", 0.7, ids)
    acts = {act for act, _ in measured.made}
    for (act, name), share in usual.made.items():
        if share < USUALLY_DONE or (act, name) in measured.made or (act, name) in told:
            continue
        if name is not None and act not in acts and usual.made.get((act, None), 0.0) >= USUALLY_DONE:
            continue  # the whole act is missing, and is told once
        if name is not None and _replaced(act, name, measured):
            continue
        said = _step_said(act, name)
        yield Trait(MISSING, said, f"{said}: not recorded, but in {_share_said(share, usual)}", 0.5)


def _replaced(act: str, name: str, measured: Measures) -> bool:
    """Return whether another material did the work: a sealer for a sealer, cloth for mat; nothing does a tissue's."""
    others = [other for made, other in measured.made if made == act and other is not None]
    if act == "seal":
        return bool(others)
    return act == "laminate" and name != TISSUE and any(other != TISSUE for other in others)


def _step_said(act: str, name: str | None) -> str:
    return act if name is None else f"{act} with {name}"


def _share_said(share: float, usual: Usual) -> str:
    return "the other build" if usual.builds == 1 else f"{100 * share:.0f} % of {usual.builds} builds"


def _lots(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    for (name, number), ids in measured.lots.items():
        yield Trait(LOT, f"{number} of {name}", f"lot {number} of {name}", 0.4, ids)


def _hands(measured: Measures, usual: Usual, catalogue: Catalogue) -> Iterator[Trait]:
    for (stage, hand), ids in measured.hands.items():
        yield Trait(HAND, f"{hand}, {stage}", f"{hand} at {stage}", 0.2, ids)


_Finder = Callable[[Measures, Usual, Catalogue], Iterator[Trait]]
_FINDERS: tuple[_Finder, ...] = (
    _doses, _batches, _air, _windows, _glass, _resin, _coats, _missing, _lots, _hands,
)  # fmt: skip
