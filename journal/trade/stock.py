"""What is left on the shelf: lots opened, used and due. Weights are grams."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from journal.trade.limits import TradeError, within


@dataclass(frozen=True, slots=True)
class LotStock:
    """One lot on the shelf: the material, its part (A, B or None), what it held when new and what was used."""

    material: str
    lot: str
    held_g: float
    used_g: float = 0.0
    use_by: date | None = None
    part: str | None = None

    @property
    def left_g(self) -> float:
        """Grams left; below 0 when more was logged than the lot held."""
        return self.held_g - self.used_g


@dataclass(frozen=True, slots=True)
class Shortage:
    """A material of which the next build needs more than is left and in date."""

    material: str
    needed_g: float
    left_g: float

    @property
    def short_g(self) -> float:
        """Grams to buy."""
        return self.needed_g - self.left_g


def objections(lot: LotStock, today: date) -> tuple[str, ...]:
    """Return what speaks against using a lot today: past its date, used up, more used than it held."""
    out = []
    if lot.use_by is not None and today > lot.use_by:
        out.append(f"lot {lot.lot} of {lot.material} is past its use-by date {lot.use_by.isoformat()}")
    if lot.left_g < 0:
        out.append(f"{-lot.left_g:g} g more of lot {lot.lot} was logged than it held")
    elif lot.left_g == 0:
        out.append(f"lot {lot.lot} of {lot.material} is used up")
    return tuple(out)


def shortages(needed_g: Mapping[str, float], lots: Iterable[LotStock], today: date) -> tuple[Shortage, ...]:
    """Return what is short for a build, lots past their date not counted, in the order of `needed_g`."""
    left: dict[str, float] = {}
    for lot in lots:
        within("held", lot.held_g, 0, 1e7)
        if lot.use_by is None or today <= lot.use_by:
            left[lot.material] = left.get(lot.material, 0.0) + max(0.0, lot.left_g)
    for material, grams in needed_g.items():
        if grams < 0:
            raise TradeError(material, f"needed must be 0 or more, got {grams:g}")
    return tuple(
        Shortage(material, grams, left.get(material, 0.0))
        for material, grams in needed_g.items()
        if grams > left.get(material, 0.0)
    )
