"""Make the materials of a step from what was bound: names, parts, amounts, units, lots, counted things."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from journal.read.bind.draft import Draft
from journal.read.bind.things import Things
from journal.read.bind.uses import Use
from journal.read.bind.weights import MASS, PRONOUN, SECOND
from journal.read.evidence import Witness
from journal.read.findings import Amount, Findings, Found, MaterialSaid, NoteWords
from journal.record import Flag, MaterialUse
from journal.trade.quantity import UNITS

_POURED = frozenset("pump pumps cup cups scoop scoops squirt squirts".split())
_MOST_COUNTED = 30
_CATALYSED = frozenset({"catalysed", "catalyzed", "catalyse", "catalyze", "catalysing", "catalyzing"})
_FABRIC_OUNCES_G = 100
_SHARE_WITHIN = Fraction(1, 10)
_FACTORS = frozenset(unit.factor for unit in UNITS.values())  # what one of a unit is
_LOT_REACH = 2  # words between a material and its lot: "the resin's lot 4471"
_KILO, _MOST_TIMES = 1000, 3
_LEAST_BARE, _MUCH = 10, 100  # "1.25 of resin and 350 grams of hardener": 1.25 kilos, perhaps


@dataclass(slots=True)
class Materials:
    """Makes the materials of one draft, and gathers the flags that they call for."""

    words: NoteWords
    found: Findings
    witness: Witness
    flags: list[Flag]
    said: bool = True

    def of(self, draft: Draft, uses: list[Use], layers: list[Found]) -> tuple[MaterialUse, ...]:
        """Return the materials of the draft: what was weighed or named, what was coated on, what was counted."""
        self.said = draft.said
        things = Things(self.words, self.found, self.witness).of(draft)
        return tuple(self._materials(draft, uses) + self._coat_materials(layers, uses) + things)

    def _materials(self, draft: Draft, uses: list[Use]) -> list[MaterialUse]:
        unit = self._carried_unit(draft)
        out: list[MaterialUse] = []
        for use in uses:
            made = self._material(use, unit)
            if made is not None and not (made.amount is None and any(made.name == m.name for m in out)):
                out = [m for m in out if not (m.amount is None and m.name == made.name and m.part == made.part)]
                out.append(made)
        return self._with_lots(_without_shares_weighed(out), draft)

    def _material(self, use: Use, carried: tuple[str | None, Fraction]) -> MaterialUse | None:
        if use.material is None and not self._may_stand_alone(use):
            return None
        said: MaterialSaid | None = use.material.value if use.material else None
        parts = [item for item in (use.material, use.amount) if item is not None]
        for item in parts:
            self.flags.extend(item.flags)
        evidence = self.witness.of_found(*parts)
        name = said.name if said else PRONOUN
        if said is None and use.amount is not None and use.amount.value.unit == "percent":
            catalysed = _CATALYSED.intersection(self.words.lower[max(0, use.amount.start - 3) : use.amount.start])
            name = "catalyst" if catalysed else SECOND
        amount: Amount | None = use.amount.value if use.amount else None
        if amount is None:
            return MaterialUse(name, evidence, said.part if said else None)
        unit, by = (amount.unit, Fraction(1)) if amount.unit else self._lent_unit(amount, *carried)
        most = amount.high * by if amount.high != amount.low else None
        return MaterialUse(name, evidence, said.part if said else None, amount.low * by, most, unit)

    def _lent_unit(self, amount: Amount, unit: str | None, by: Fraction) -> tuple[str | None, Fraction]:
        """Return the unit that an amount without one takes, and how much of it one is; flagged in doubt."""
        said = f"no unit was said for {float(amount.low):g}"
        if unit is None or (unit == "count" and amount.low > _MOST_COUNTED):
            self.flags.append(Flag("unit", said))
            return None, Fraction(1)  # "two cups of microballoons into 250 of epoxy": no cups
        heaviest = self._heaviest()
        too_heavy = by >= _KILO and amount.low * by > _MOST_TIMES * heaviest  # "1.5 kilos of silicone, 75 catalyst"
        too_light = by == 1 and amount.low < _LEAST_BARE and amount.low.denominator > 1 and heaviest >= _MUCH
        if too_heavy or too_light:
            self.flags.append(Flag("unit", f"{said}: taken as {unit}"))
        return unit, Fraction(1) if too_heavy else by

    def _may_stand_alone(self, use: Use) -> bool:
        """Tell whether an amount may be of what is in use: "another 200", "200 of that", "poured 400 grams"."""
        if use.amount is not None and use.amount.value.unit == "percent":
            return use.amount.start > 0 and self.words.lower[use.amount.start - 1] in ("at", "with", "to", "about")
        if use.amount is None or use.amount.value.unit not in (None, "g", "ml"):
            return False
        if use.amount.value.unit is not None and use.pronoun is None and self._is_for_fabric(use.amount):
            self.flags.append(
                Flag("materials", f"{float(use.amount.value.low):g} {use.amount.value.unit} of what was not said")
            )
            return False
        before = self.words.lower[max(0, use.amount.start - 3) : use.amount.start]
        more = "another" in before or "more" in (*before, *self.words.lower[use.amount.end : use.amount.end + 1])
        if use.amount.value.unit is not None and use.pronoun is None and not more and not self.said:
            self.flags.append(Flag("amount", "what it is of was not said: taken for the material in use"))
        return use.amount.value.unit is not None or use.pronoun is not None or more or self._among_weights(use)

    def _is_for_fabric(self, item: Found) -> bool:
        """Tell whether a weight may be a fabric's: ounces with "and a half", or a weight among layers."""
        light = item.value.said_unit in ("ounce", "ounces", "oz") and item.value.low < _FABRIC_OUNCES_G
        fabric = any(not layer.value.coat for layer in self.found.of("layer"))
        return light or (fabric and not self.found.of("ratio"))

    def _among_weights(self, use: Use) -> bool:
        """Tell whether the bare number stands in a list of weights: "240 and 69"."""
        return use.amount is not None and self.words.lower[use.amount.end : use.amount.end + 1] == ("and",)

    def _heaviest(self) -> Fraction:
        return max((a.value.high for a in self.found.of("amount") if a.value.unit in MASS), default=Fraction(0))

    def _carried_unit(self, draft: Draft) -> tuple[str | None, Fraction]:
        """Return the unit that amounts without one take, and how much of it one of what was said is.

        "33 ounces of resin and 11 of hardener": the 11 are ounces too, not grams.
        """
        for item in (*draft.of("amount"), *self.found.of("amount")):
            if item.value.unit in MASS or item.value.said_unit in _POURED:
                said = [n.value.low for n in self.found.of("number") if item.start <= n.start < item.end]
                by = item.value.low / said[0] if len(said) == 1 and said[0] else Fraction(1)
                return item.value.unit, by if by in _FACTORS else Fraction(1)
        there = set(self.words.lower)
        if there & {"grams", "gram", "grammes"}:
            return "g", Fraction(1)
        return ("ml" if there & {"millilitres", "milliliters", "mls", "mil"} else None), Fraction(1)

    def _with_lots(self, uses: list[MaterialUse], draft: Draft) -> list[MaterialUse]:
        for lot in draft.of("lot"):
            char = self.words.doc[lot.start].idx
            named = [m.value for m in draft.of("material") if 0 <= lot.start - m.end <= _LOT_REACH]
            own = [i for i, use in enumerate(uses) for m in named[-1:] if (use.name, use.part) == (m.name, m.part)]
            before = [i for i, use in enumerate(uses) if use.evidence.chars[0] <= char]
            at = own[0] if own else before[-1] if before else (0 if uses else None)
            if at is not None:
                self.flags.extend(lot.flags)
                uses[at] = replace(uses[at], lot=lot.value.text)
        return uses

    def _coat_materials(self, layers: list[Found], uses: list[Use]) -> list[MaterialUse]:
        named = {use.material.value.name for use in uses if use.material}
        return [
            MaterialUse(item.value.name, self.witness.of_found(item))
            for item in layers
            if item.value.coat and item.value.name and item.value.name not in named
        ]


def _without_shares_weighed(uses: list[MaterialUse]) -> list[MaterialUse]:
    """Leave out a share whose weight was said as well: "catalysed at 1.8 percent, which is 36 grams"."""
    whole = max((use.amount for use in uses if use.unit == "g" and use.amount), default=Fraction(0))
    weighed = {use.name: use.amount for use in uses if use.unit == "g" and use.amount}

    def is_weighed(use: MaterialUse) -> bool:
        grams = weighed.get(use.name) if use.unit == "percent" else None
        return bool(grams and use.amount and abs(whole * use.amount / 100 - grams) <= grams * _SHARE_WITHIN)

    return [use for use in uses if not is_weighed(use)]
