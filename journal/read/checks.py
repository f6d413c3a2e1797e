"""What a careful foreman would query in a step, and what the weights themselves say."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from journal.read.families import BY_NAME, MAIN
from journal.read.findings import Found, RatioSaid
from journal.read.hearing.alike_numbers import settled
from journal.record import Flag, MaterialUse, Ratio, Step
from journal.trade.material import Catalogue, Material
from journal.trade.mix import MixRatio

DEFAULT_TOLERANCE_PERCENT = 5.0
_PLACE_RANGE_C = {"shop": (-10, 50), "oven": (15, 260), "resin": (0, 200), "mould": (-10, 200), None: (-20, 260)}
FAR_PERCENT = 50.0  # a stated ratio this far off the catalogue's is another product, or misheard: common practice
_ALSO_USUAL = {"silicone": ((10.0, 1.0), (20.0, 1.0))}  # beside the catalogue's: common practice, no published source
_GSM = (15, 2500)  # from surface tissue to the heaviest bulker mats: common practice, no published source
_MOST_LAYERS = 40
_LEAST_POST_CURE_C = 30  # a hot shop is as warm: common practice, no published source
_LEAST_DEGASSING_MBAR = 600  # degassing is done near a full vacuum: common practice, no published source
SURE = 0.85  # below this a bound value is queried


def derived(step: Step) -> Step:
    """Return the step with the ratio of its two weights where none was said."""
    pair = _pair(step)
    if step.ratio is not None or pair is None or step.action not in ("weigh", "mix"):
        return step
    main, second = pair
    if main.unit != second.unit or main.unit not in ("g", "ml") or not main.amount or second.amount is None:
        return step
    parts = (Fraction(100), 100 * second.amount / main.amount)
    ratio = Ratio(parts, main.evidence, "weight" if main.unit == "g" else "volume", derived=True)
    return replace(step, ratio=ratio)


def _pair(step: Step) -> tuple[MaterialUse, MaterialUse] | None:
    """Return the main and the second part of a mix where there is one of each with an amount."""
    weighed = [use for use in step.materials if use.amount is not None and use.unit in ("g", "ml", None)]
    second = [use for use in weighed if use.part == "B" or BY_NAME.get(use.name) == "second"]
    main = [use for use in weighed if use not in second and (use.part == "A" or BY_NAME.get(use.name, "resin") in MAIN)]
    return (main[0], second[0]) if len(main) == 1 and len(second) == 1 else None


@dataclass(frozen=True, slots=True)
class Said:
    """What checks need of the words: run-together ratios, the word before a weight, and whether it was spoken."""

    run_together: list[Found]
    word_before: Callable[[MaterialUse], str]
    spoken: bool = False


def checked(step: Step, catalogue: Catalogue, said: Said) -> Step:
    """Return the step with its numbers settled and with the flags that they call for."""
    step = _settle_run_together(step, catalogue, said.run_together)
    step = _settle_weights(step, catalogue, said)
    return derived(replace(step, flags=tuple(dict.fromkeys((*step.flags, *queries(step, catalogue))))))


def queries(step: Step, catalogue: Catalogue) -> tuple[Flag, ...]:
    """Return what a foreman would query in the numbers of a step as it stands, however it came about."""
    ratio = _ratio_flags(step, catalogue) or far_ratio(step, catalogue)
    numbers = (*ratio, *_amount_flags(step, catalogue), *_condition_flags(step), *_layer_flags(step))
    return (*numbers, *_unsure_flags(step, catalogue))


def _unsure_flags(step: Step, catalogue: Catalogue) -> list[Flag]:
    """Query amounts and layers whose binding is not certain: of those under SURE, one in six was wrong on new notes.

    Two weights that meet the ratio bear each other out.
    """
    mix = _weighing(step, catalogue)
    borne_out = mix.pair if mix is not None and mix.agrees else ()
    unsure = (use for use in step.materials if use.amount is not None and use.evidence.confidence < SURE)
    weighed = [use for use in unsure if use not in borne_out]
    laid = [layer for layer in step.layers if layer.evidence.confidence < SURE]
    return [
        *(
            Flag("amount", f'unsure of {float(use.amount or 0):g} for {use.name}, heard "{use.evidence.heard}"')
            for use in weighed
        ),
        *(Flag("layers", f'unsure of the layers of {layer.name}, heard "{layer.evidence.heard}"') for layer in laid),
    ]


def _layer_flags(step: Step) -> list[Flag]:
    """Query areal weights that no fabric has, and more layers than anybody lays at once."""
    heavy = [x for x in step.layers if x.gsm is not None and not _GSM[0] <= x.gsm <= _GSM[1]]
    many = [x for x in step.layers if x.count is not None and x.count > _MOST_LAYERS]
    return [
        *(Flag("layers", f"{float(x.gsm or 0):g} g/m² is out of range for {x.name or 'a fabric'}") for x in heavy),
        *(Flag("layers", f"{float(x.count or 0):g} layers of {x.name or 'it'} at once are unlikely") for x in many),
    ]


def splits(digits: str) -> list[tuple[Fraction, Fraction]]:
    """Return the ways in which two numbers may have been run together: "125" as 100 and 25, or 1 and 25."""
    out = []
    for first in ("100", "10", "1", "50", "2", "3", "4", "5"):
        heads = {first, first[0]} if first in ("100",) else {first}
        for head in heads:
            rest = digits[len(head) :]
            if digits.startswith(head) and rest and not rest.startswith("0"):
                out.append((Fraction(first), Fraction(rest)))
    for i, digit in enumerate(digits[1:-1], 1):
        if digit == "2" and digits[i + 1] != "0":  # "to" heard as a 2: "four to one" as 421
            out.append((Fraction(digits[:i]), Fraction(digits[i + 1 :])))
    return out


def _settle_run_together(step: Step, catalogue: Catalogue, said: list[Found]) -> Step:
    if step.ratio is not None or not said:
        return step
    item = said[0]
    value: RatioSaid = item.value
    digits = value.run_together or ""
    choices = splits(digits)
    wanted = _wanted_percents(step, catalogue)
    agreeing = {c[1] / c[0] for c in choices for w in wanted if abs(c[1] / c[0] * 100 / w - 1) <= Fraction(3, 100)}
    evidence = step.evidence
    if len(agreeing) == 1:
        parts = next(c for c in choices if c[1] / c[0] in agreeing)
        flag = Flag("ratio", f'heard "{digits}", read as {float(parts[0]):g} to {float(parts[1]):g}')
        return replace(step, ratio=Ratio(parts, evidence, value.by), flags=(*step.flags, flag))
    return replace(step, flags=(*step.flags, Flag("ratio", f'"{digits}" may be two numbers run together')))


def _wanted_percents(step: Step, catalogue: Catalogue) -> list[Fraction]:
    """Return the second part in percent of the main one, by the weights or else by the catalogue."""
    pair = _pair(step)
    if pair and pair[0].amount and pair[1].amount:
        return [100 * pair[1].amount / pair[0].amount]
    out = []
    for use in step.materials:
        material = catalogue.get(use.name)
        if material and len(material.ratio) > 1:
            out.append(Fraction(material.ratio[1]) * 100 / Fraction(material.ratio[0]))
    return out


def _settle_weights(step: Step, catalogue: Catalogue, said: Said) -> Step:
    """Return the step with a misheard weight repaired, where the ratio and the sound leave one reading."""
    pair = _pair(step)
    if pair is None or not _ratio_flags(step, catalogue):
        return step
    wanted, _, _ = _stated(step, catalogue.get(pair[0].name))
    return settled(step, pair, wanted, said.word_before, said.spoken) if wanted else step


@dataclass(frozen=True, slots=True)
class _Weighing:
    """The two weights of a mix beside the ratio that is wanted, as parts per hundred; `tolerance` in percent."""

    pair: tuple[MaterialUse, MaterialUse]
    have: float
    wanted: float
    source: str
    tolerance: float

    @property
    def off(self) -> float:
        return (self.have / self.wanted - 1) * 100

    @property
    def agrees(self) -> bool:
        return abs(self.off) <= self.tolerance


def _weighing(step: Step, catalogue: Catalogue) -> _Weighing | None:
    """Return the weights of a mix beside its ratio, stated or the catalogue's; None where either is not known."""
    pair = _pair(step)
    if pair is None or pair[0].unit != pair[1].unit:
        return None
    main, second, material = pair[0].amount, pair[1].amount, catalogue.get(pair[0].name)
    wanted, source, by = _stated(step, material)
    if not main or not second or wanted is None or (by == "volume") != (pair[0].unit == "ml"):
        return None
    tolerance = (material.tolerance_percent if material else None) or DEFAULT_TOLERANCE_PERCENT
    return _Weighing(pair, float(100 * second / main), float(100 * wanted), source, tolerance)


def _ratio_flags(step: Step, catalogue: Catalogue) -> list[Flag]:
    mix = _weighing(step, catalogue)
    if mix is None or mix.agrees:
        return []
    said = " to ".join(f"{float(use.amount or 0):g}" for use in mix.pair)
    side = "over" if mix.off > 0 else "under"
    why = f"{said} is 100 to {mix.have:.3g}, {abs(mix.off):.0f} % {side} {mix.source} 100 to {mix.wanted:.4g}"
    return [Flag("ratio", why)]


def far_ratio(step: Step, catalogue: Catalogue) -> list[Flag]:
    """Query a stated ratio of two parts that is far off all that is usual for its material; at most one flag.

    Where the catalogue has no ratio, the usual percentage of the second part stands in. A general word ("gel coat")
    is queried only where the ratio is far off all that it may stand for.
    """
    ratio = step.ratio
    if ratio is None or ratio.derived or len(ratio.parts) != 2:
        return []
    parts = tuple(float(part) for part in ratio.parts)
    found = [off for m in _mains(step, catalogue) if (off := _off_usual(parts, ratio.by, m, catalogue)) is not None]
    if not found:
        return []
    percent, usual = min(found, key=lambda off: abs(off[0]))
    if abs(percent) <= FAR_PERCENT:
        return []
    said = f"{parts[0]:g} to {parts[1]:g}{f' by {ratio.by}' if ratio.by else ''}"
    return [Flag("ratio", f"{said} is {abs(percent):.0f} % {'over' if percent > 0 else 'under'} {usual}")]


def _mains(step: Step, catalogue: Catalogue) -> list[Material]:
    """Return what the main part of a mix may be: one material, or those of a general word that take its second part."""
    seconds = {use.name for use in step.materials if BY_NAME.get(use.name) == "second"}
    for use in step.materials:
        if use.part != "B" and use.name not in seconds and BY_NAME.get(use.name, "resin") in MAIN:
            own = catalogue.get(use.name)
            meant = (own,) if own else catalogue.meant_by(use.name)
            return [m for m in meant if not seconds or m.second_part in seconds or m is own]
    return []


def _off_usual(
    parts: tuple[float, ...], by: str | None, material: Material, catalogue: Catalogue
) -> tuple[float, str] | None:
    """Return by how many percent a ratio is off the nearest usual one, and that one in words; None if none is known."""
    if not material.ratio:
        second = catalogue.get(material.second_part or "")
        if second is None or second.percent_range is None or by == "volume":
            return None
        least, most = second.percent_range
        share = 100 * parts[1] / parts[0]
        nearest = min(max(share, least), most)
        return 100 * (share / nearest - 1), f"the usual {least:g} to {most:g} percent of {second.name}"
    if len(material.ratio) != 2:
        return None
    densities = tuple(d for d in (material.density, material.density_second) if d is not None)
    known = densities if len(densities) == 2 else ()
    offs = []
    for usual in (material.ratio, *_ALSO_USUAL.get(material.kind, ())):
        whose = "the catalogue's" if usual == material.ratio else "the usual"
        usual_by = material.ratio_by or by or "weight"
        pair = (MixRatio(parts, by or usual_by, known), MixRatio(usual, usual_by, known))
        if pair[0].by != pair[1].by and not known:
            continue
        said, wanted = (
            (r.parts[1] / r.parts[0] for r in pair) if pair[0].by == pair[1].by else (r.per_hundred()[0] for r in pair)
        )
        offs.append((100 * (said / wanted - 1), f"{whose} {usual[0]:g} to {usual[1]:g}"))
    return min(offs, key=lambda off: abs(off[0]), default=None)


def _stated(step: Step, material: Material | None) -> tuple[Fraction | None, str, str | None]:
    if step.ratio and not step.ratio.derived and len(step.ratio.parts) == 2:
        return step.ratio.parts[1] / step.ratio.parts[0], "the stated", step.ratio.by
    if material and len(material.ratio) == 2:
        return Fraction(material.ratio[1]) / Fraction(material.ratio[0]), "the catalogue's", material.ratio_by
    return None, "", None


def _amount_flags(step: Step, catalogue: Catalogue) -> list[Flag]:
    out = []
    for use in step.materials:
        material = catalogue.get(use.name)
        if use.amount is None or material is None or step.status == "advised":
            continue
        limits = material.amount_range_g if use.unit in ("g", "ml") else None
        if use.unit == "percent":
            limits = material.percent_range
        if limits and not limits[0] <= use.amount <= limits[1]:
            out.append(Flag("amount", f"{float(use.amount):g} {use.unit} of {use.name} is out of its usual range"))
    return out


def _condition_flags(step: Step) -> list[Flag]:
    out = []
    for item in step.conditions:
        if item.kind == "temperature":
            least, most = _PLACE_RANGE_C.get(item.of, (-20, 260))
            cold = step.action == "post-cure" and item.of in (None, "oven") and item.value < _LEAST_POST_CURE_C
            if cold:
                out.append(Flag("conditions", f"{float(item.value):.0f} degC is no heat for a post-cure"))
            elif not least <= item.value <= most:
                out.append(Flag("conditions", f"{float(item.value):.0f} degC is absurd for the {item.of or 'shop'}"))
        elif item.kind == "humidity" and not 0 < item.value <= 100:
            out.append(Flag("conditions", f"{float(item.value):g} percent is no humidity"))
        elif item.kind == "vacuum" and item.value > 1050:
            out.append(Flag("conditions", f"{float(item.value):.0f} mbar below atmosphere cannot be"))
        elif item.kind == "vacuum" and step.action == "degas" and item.value < _LEAST_DEGASSING_MBAR:
            out.append(Flag("conditions", f"{float(item.value):.0f} mbar below atmosphere hardly degasses anything"))
    return out
