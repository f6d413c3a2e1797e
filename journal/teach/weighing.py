"""Questions that ask to weigh a batch by the ratio that a build used. Pure.

Only ratios that nobody queries are asked for, from builds that worked, and only such as the material bears: a
number that could be wrong is not taught.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from journal.find.coats import Mixed, mixes
from journal.keep.views import StepView
from journal.record import Ratio
from journal.review.queries import queries
from journal.review.values import number
from journal.teach.question import Question
from journal.teach.taught import Taught
from journal.trade.material import Catalogue, Material

USUAL_TOLERANCE = 2.0  # percent, where the catalogue gives none: the close end of what shops hold, common practice
_SHARES = (Fraction(1, 2), Fraction(3, 4), Fraction(5, 4), Fraction(3, 2))  # of the batch that was mixed


@dataclass(frozen=True, slots=True)
class _Dose:
    """A batch with the ratio of its second part to its main one, by weight or by volume."""

    step: StepView
    material: Material
    second: str
    main_parts: Fraction
    second_parts: Fraction
    by: str
    mixed: Fraction
    said: str


def weigh_questions(taught: Taught, catalogue: Catalogue, confirm_below: float, chance: Random) -> Iterator[Question]:
    """Yield a question for each kind of batch whose ratio is beyond doubt."""
    asked: set[tuple[str, str]] = set()
    for record in taught.worked:
        for batch in mixes([step for step in record.making if not step.withdrawn], catalogue):
            dose = _dose(batch, confirm_below)
            if dose is None or (dose.material.name, dose.second) in asked or not _borne(dose):
                continue
            asked.add((dose.material.name, dose.second))
            yield _question(taught, dose, chance)


def _dose(batch: Mixed, confirm_below: float) -> _Dose | None:
    """Return the ratio of a batch; None when it is not said, or any number that it rests on is in doubt."""
    record, doubts = batch.step.record, queries(batch.step, confirm_below)
    asked = any(flag.field in ("ratio", "amount", "unit", "materials") for flag in doubts.flags)
    unsure = any(field == "ratio" or field.startswith("materials.") for field in doubts.doubtful)
    if asked or unsure or not batch.main.amount or batch.main.unit not in ("g", "ml"):
        return None
    second = batch.second.name if batch.second else batch.material.second_part
    parts = _parts(batch, record.ratio)
    if parts is None or second is None:
        return None
    if second == batch.material.name:
        second = f"part B of {second}"
    return _Dose(batch.step, batch.material, second, *parts, batch.main.amount, _said(record.ratio))


def _parts(batch: Mixed, ratio: Ratio | None) -> tuple[Fraction, Fraction, str] | None:
    """Return the parts of main and second, and by what they are measured."""
    if ratio is not None and len(ratio.parts) == 2:
        by = ratio.by or batch.material.ratio_by
        unit = {"weight": "g", "volume": "ml"}.get(by or "")
        return (ratio.parts[0], ratio.parts[1], by) if by and unit == batch.main.unit else None
    if ratio is None and batch.second and batch.second.unit == "percent" and batch.second.amount:
        return (Fraction(100), batch.second.amount, "weight") if batch.main.unit == "g" else None
    return None


def _said(ratio: Ratio | None) -> str:
    if ratio is None:
        return "said in percent"
    return "worked out from what was weighed" if ratio.derived else "as said"


def _borne(dose: _Dose) -> bool:
    """Return whether the ratio is within what the catalogue bears; where it gives none, what worked is believed."""
    known = dose.material.ratio
    if len(known) != 2 or dose.material.ratio_by != dose.by or not known[0]:
        return True
    wanted = known[1] / known[0]
    off = abs(float(dose.second_parts / dose.main_parts) / wanted - 1)
    return 100 * off <= (dose.material.tolerance_percent or USUAL_TOLERANCE) + 1e-9


def _question(taught: Taught, dose: _Dose, chance: Random) -> Question:
    unit = "g" if dose.by == "weight" else "ml"
    main = _another_batch(dose, chance)
    amount = main * dose.second_parts / dose.main_parts
    tolerance = dose.material.tolerance_percent or USUAL_TOLERANCE
    whose = "what the catalogue bears" if dose.material.tolerance_percent else "common practice where nothing is said"
    ratio = f"{number(dose.main_parts)} : {number(dose.second_parts)} by {dose.by}"
    sum_ = f"{number(main)} × {number(dose.second_parts)} / {number(dose.main_parts)} = {number(amount)} {unit}"
    build = dose.step.build_key
    return Question(
        key=f"weigh-{dose.step.id}",
        kind="weigh",
        asked=f"{build} used {dose.material.name} with {dose.second}. How many {unit} of {dose.second} go to "
        f"{number(main)} {unit} of {dose.material.name}?",
        reason=f"{build} mixed {ratio} ({dose.said}), so {sum_}. Within {tolerance:g} % counts: {whose}.",
        evidence=(taught.voice(dose.step),),
        amount=float(amount),
        unit=unit,
        tolerance_percent=tolerance,
    )


def _another_batch(dose: _Dose, chance: Random) -> Fraction:
    """Return an amount of the main part that is not the one mixed, within what is safe in one pot."""
    most = Fraction(dose.material.largest_batch_g) if dose.material.largest_batch_g else None
    shares = [share for share in _SHARES if most is None or share * dose.mixed <= most] or [_SHARES[0]]
    amount = chance.choice(shares) * dose.mixed
    rounded = Fraction(round(amount / 10) * 10)
    return rounded if rounded not in (0, dose.mixed) else amount
