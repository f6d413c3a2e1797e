"""Say which amounts of a draft are of which material, those that were said apart from it among them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from journal.read.bind.draft import Draft
from journal.read.bind.layers import is_no_layer
from journal.read.bind.uses import Use, bind
from journal.read.families import MAIN, family_of
from journal.read.findings import Amount, Findings, Found, MaterialSaid, NoteWords
from journal.read.materials_patterns import COLOURS
from journal.read.sames import EACH
from journal.record import Flag

SECOND = "second part"
"""Stands for the second part of the main material in use: "tin silicone, 480 and 24"."""

WEIGHED = frozenset({"weigh", "mix", "thicken", "tint", "pour", "degas"})
PRONOUN = ""
"""Stands for what a pronoun means, or what an amount alone is of: the main material in use."""
MASS = frozenset({"g", "ml"})
_SHARED = MASS | {None}
_MANY_LONE = 3
_WEIGHS = frozenset("'s is was weighs weighed at about in came comes out just over under nearly only".split())
_THINGS = frozenset("casting cast castings copy mould mold moulding piece".split())
_NEAR = 6
_MEANT = ("'ve been", "should have been", "meant to be", "supposed to be", "instead of", "instead of the")
_LIMITS = frozenset("above over under below than beyond exceeding".split())
_TOTALS = frozenset(("all up|all told|all in|in total|in all|total|altogether|combined|overall|the lot").split("|"))
_TOTAL = (("total",), ("altogether",), ("combined",), ("overall",))
_UNITS_AFTER = (("grams",), ("grammes",), ("kilos",), ("millilitres",), ("ounces",))
_ADDED = frozenset({"second", "filler", "pigment"})
_A_SIDE = (("a", "side"), ("per", "side"), ("each", "side"))
_EQUAL = ("of each", "each of", "the same of", "same of", "equal amount", "same amount of")


@dataclass(frozen=True, slots=True)
class Weights:
    """Binds the amounts of a note's drafts."""

    words: NoteWords
    found: Findings

    def uses(self, draft: Draft, used: set[int]) -> list[Use]:
        """Return the draft's materials and amounts, bound; `used` are tokens that layers have taken."""
        materials = [m for m in draft.of("material") if m.start not in used and not told(self.found, m)]
        amounts = [a for a in draft.of("amount") if self._is_amount(a, used)]
        if draft.action not in WEIGHED:
            weighed = any(a.value.unit in MASS for a in amounts)
            amounts = [a for a in amounts if a.value.unit is not None or (weighed and self._is_of(materials, a))]
        totals = [a for a in amounts if self._is_total(draft, materials, a)]
        parts = [a for a in amounts if a not in totals]
        uses = self._share_out(draft, _doubted(self._in_two(bind(self.words, materials, parts))))
        return _of_the_whole(self._as_parts(draft, self._in_equal_parts(draft, uses)), totals)

    def _as_parts(self, draft: Draft, uses: list[Use]) -> list[Use]:
        """Give two weights the letters of their ratio: "urethane resin, 100 A to 90 B, 500 grams and 450"."""
        weighed = [use for use in uses if use.material and use.amount and use.amount.value.unit in _SHARED]
        if len(weighed) != 2 or not any(self._is_lettered(ratio) for ratio in draft.of("ratio")):
            return uses
        main, second = (use.material for use in weighed)
        if main is None or second is None or main.value.part or second.rule != "bind.second-part":
            return uses
        parts = [replace(main.value, part=letter) for letter in ("A", "B")]
        named = {
            id(use): Use(replace(use.material, value=part), use.amount)
            for use, part in zip(weighed, parts, strict=True)
            if use.material
        }
        return [named.get(id(use), use) for use in uses]

    def _is_lettered(self, ratio: Found) -> bool:
        said = self.words.lower[ratio.start : ratio.end + 1]
        return "b" in said and "a" in said

    def _is_of(self, materials: list[Found], item: Found) -> bool:
        """Tell whether a bare amount is said of a material: "two hundred grams to sixty of water"."""
        of = self.words.lower[item.end : item.end + 1] == ("of",)
        return of and any(material.start == item.end + 1 for material in materials)

    def _in_two(self, uses: list[Use]) -> list[Use]:
        """Give a main material the first of two amounts, and the other to its second part: "400 to 112 grams epoxy"."""
        for first, second in pairwise(uses):
            a, b = first.amount, second.amount
            if first.material is not None or second.material is None or a is None or b is None:
                continue
            together = self.words.lower[a.end : b.start] == ("to",) and a.value.unit is None and b.value.unit in MASS
            if together and a.value.low > b.value.low and family_of(second.material.value.name, self.words) in MAIN:
                flag = Flag("amount", "two amounts and one material were said")
                lent = replace(a, value=replace(a.value, unit=b.value.unit), flags=(*a.flags, flag))
                said = MaterialSaid(SECOND, known=False)
                other = Use(Found("material", b.start, b.end, said, "bind.second-part", 0.7), b)
                pair = [Use(second.material, lent), other]
                return [x for use in uses for x in ([] if use is first else pair if use is second else [use])]
        return uses

    def _is_total(self, draft: Draft, materials: list[Found], item: Found) -> bool:
        """Tell whether the amount is of a mix of several parts: "ten parts A, three parts B, 500 grams all told"."""
        after, behind = (self.words.lower[item.end + n : item.end + n + 2] for n in (0, 2))
        in_grams = behind[:1] in _UNITS_AFTER  # "150, all in grams"
        told = (" ".join(after) in _TOTALS and not in_grams) or after[:1] in _TOTAL
        led = self.words.lower[max(0, item.start - 2) : item.start] in (("total", "of"), ("altogether", ","))
        led = led and not any(0 < item.start - other.end <= _NEAR for other in draft.of("amount"))
        several = len(draft.of("ratio")) > 0 or len({(m.value.name, m.value.part) for m in materials}) > 1
        return (told or led) and several and item.value.unit in (None, "g", "ml")

    def _in_equal_parts(self, draft: Draft, uses: list[Use]) -> list[Use]:
        """Give the second part what the main has: "6 ounces of each, A and B", "250 of A and the same of B"."""
        said = " ".join(self.words.lower[draft.start : draft.end])
        weighed = [use for use in uses if use.amount is not None and use.amount.value.unit in _SHARED]
        if len(weighed) != 1 or not (self._is_of_each(weighed[0]) or any(phrase in said for phrase in _EQUAL)):
            return uses
        amount, idle = weighed[0].amount, [use for use in uses if use.amount is None and use.material is not None]
        idle = [use for use in idle if self._is_mixed(use)]
        rest = [use for use in uses if use not in idle and use is not weighed[0]]
        named = [use.material for use in ([weighed[0]] if weighed[0].material else []) + idle if use.material]
        sides = amount is not None and self.words.lower[amount.end : amount.end + 2] in _A_SIDE
        named = named[:1] if sides else named
        if not named and amount is not None:
            return rest + self._of_parts_in_use(amount, ("A", "B") if sides else ())
        parts = [item for item in named if item.value.part or self._is_second(item)] or named
        if len(parts) < 2:
            parts = named
        if not parts:
            return uses
        if len(parts) == 1 and amount is not None and self._is_of_two_colours(amount, parts[0]):
            return [*rest, Use(parts[0], amount), Use(parts[0], amount)]
        there = self.words.lower[draft.start : draft.end]
        if len(parts) == 1 and amount is not None and self._has_equal_parts(draft, amount, parts[0]):
            flag = Flag("amount", "said of each: taken for both parts")
            parts = [replace(parts[0], flags=(*parts[0].flags, flag))]
            sides = True
        if len(parts) == 1 and (sides or ("a" in there and "b" in there)):
            parts = [replace(parts[0], value=replace(parts[0].value, part=letter)) for letter in ("A", "B")]
        return rest + [Use(item, amount) for item in parts]

    def _is_of_two_colours(self, amount: Found, material: Found) -> bool:
        """Tell whether two of one kind were added: "20 each of black and white pigment"."""
        between = self.words.lower[amount.end : material.end]
        return "and" in between and len(COLOURS.intersection(between)) > 1

    def _has_equal_parts(self, draft: Draft, amount: Found, material: Found) -> bool:
        """Tell whether "300 grams each" is of both parts of a material that is mixed one to one."""
        known = self.words.catalogue.get(material.value.name)
        several = any(item.end <= amount.start for item in draft.of("number") if item.value.low > 1)
        each = self.words.lower[amount.end : amount.end + 1] in (("each",), ("apiece",))
        one_to_one = known is not None and known.ratio and set(known.ratio) == {1.0}
        return bool(each and one_to_one and not several and draft.action in ("mix", "weigh"))

    def _of_parts_in_use(self, amount: Found, letters: tuple[str, ...]) -> list[Use]:
        """Return the amount as that of each part of what is in use: "400 grams a side", "400 mils of each"."""
        said = [MaterialSaid(PRONOUN, known=False, part=letter) for letter in letters] or [
            MaterialSaid(EACH, known=False)
        ]
        return [Use(Found("material", amount.start, amount.end, one, "bind.each", 0.86), amount) for one in said]

    def _is_of_each(self, use: Use) -> bool:
        if use.amount is None:
            return False
        after = self.words.lower[use.amount.end : use.amount.end + 2]
        return after[:1] in (("each",), ("apiece",)) or after in _A_SIDE

    def _is_amount(self, item: Found, used: set[int]) -> bool:
        value: Amount = item.value
        return (
            item.start not in used
            and not self._in_layer(item)
            and not (value.unit == "count" and item.rule == "amounts.article-unit")
            and not self._is_limit(item)
            and not self._is_of_a_thing(item)
            and not self._is_only_meant(item)
            and not self._in_a_name(item)
            and not self.found.at("lot", item.start)
            and value.bound != "most"
            and value.unit not in ("mm", "m2")
            and not told(self.found, item)
        )

    def _is_of_a_thing(self, item: Found) -> bool:
        """Tell whether a thing was weighed, not a material: "casting's 2.3 kilos", "the mould weighs 14 kilos"."""
        at = item.start - 1
        while at > 0 and self.words.lower[at] in _WEIGHS:
            at -= 1
        return at < item.start - 1 and self.words.lower[at] in _THINGS

    def _is_only_meant(self, item: Found) -> bool:
        """Tell whether it was not used: "should've been 30 grams of hardener", "instead of 400 grams I mixed 250"."""
        led = " ".join(self.words.lower[max(0, item.start - 4) : item.start])
        return any(led.endswith(phrase) for phrase in _MEANT)

    def _in_a_name(self, item: Found) -> bool:
        """Tell whether the number is part of a name that was misheard: "ten silicone" for tin silicone."""
        named = self.found.at("material", item.start)
        return named is not None and named.value.misheard is not None and item.end <= named.end

    def _is_limit(self, item: Found) -> bool:
        before = self.words.lower[max(0, item.start - 1) : item.start + 1]
        return "anything" in self.words.lower and not _LIMITS.isdisjoint(before)

    def _in_layer(self, item: Found) -> bool:
        layer = self.found.at("layer", item.start)
        return layer is not None and not is_no_layer(self.words, layer)

    def _share_out(self, draft: Draft, uses: list[Use]) -> list[Use]:
        """Give amounts without a material to the main and the second part, in the order that mixes are said in.

        "Laminating epoxy lot 4471, hardener lot 9902: 800 grams and 232"; "tin silicone, 480 and 24".
        """
        idle = [use for use in uses if use.material is not None and use.amount is None and self._is_mixed(use)]
        named = [use for use in uses if use.pronoun is not None]
        mains = [use for use in idle if use.material and not self._is_second(use.material)]
        mains = [use for use in mains if not self._is_additive(use)]
        idle = mains if len(named) == len(mains) == 1 else idle
        if len(named) == len(idle) == 1 and not self._is_additive(idle[0]):
            joined_use = Use(idle[0].material, named[0].amount)
            return [joined_use if use is named[0] else use for use in uses if use is not idle[0]]
        shares = [use for use in uses if use.material is None and use.amount and use.amount.value.unit == "percent"]
        added = [use for use in idle if use.material and family_of(use.material.value.name, self.words) in _ADDED]
        if len(shares) == len(added) == 1:
            whole = Use(added[0].material, shares[0].amount)
            return [whole if use is shares[0] else use for use in uses if use is not added[0]]
        if draft.action not in WEIGHED:
            return uses
        lone = [use for use in uses if use.material is None and use.pronoun is None and use not in shares]
        given = [use.material for use in uses if use.material is not None and use.amount is not None]
        if any(self._is_second(item) for item in given):
            idle = [use for use in idle if use.material and not self._is_second(use.material)]
        elif given:
            idle = [use for use in idle if use.material and self._is_second(use.material)]
        joined = {id(use): Use(owner.material, use.amount) for use, owner in zip(lone, idle, strict=False)}
        gone = {id(owner) for owner, _ in zip(idle, lone, strict=False)}
        out = [joined.get(id(use), use) for use in uses if id(use) not in gone]
        return [self._second_of(out, use) for use in out]

    def _second_of(self, uses: list[Use], use: Use) -> Use:
        """Return the lone amount after a main material's as the second part's: "tin silicone, 480 and 24"."""
        if use.material is not None or use.amount is None or use.pronoun is not None:
            return use
        before = self.words.lower[max(0, use.amount.start - 2) : use.amount.start]
        if before in (("catalysed", "with"), ("catalyzed", "with")):
            said = MaterialSaid(SECOND, known=False)
            return Use(Found("material", use.amount.start, use.amount.end, said, "bind.second-part", 0.88), use.amount)
        at = uses.index(use)
        first = uses[at - 1] if at else None
        seconds = [u for u in uses if u.material is not None and self._is_second(u.material)]
        if (
            first is None
            or first.amount is None
            or seconds
            or self.words.lower[use.amount.start - 1] not in ("and", "with", "to", ",")
        ):
            return use
        said = MaterialSaid(SECOND, known=False)
        return Use(Found("material", use.amount.start, use.amount.end, said, "bind.second-part", 0.7), use.amount)

    def _is_additive(self, use: Use) -> bool:
        return use.material is not None and family_of(use.material.value.name, self.words) in _ADDED

    def _is_second(self, item: Found) -> bool:
        return item.value.part == "B" or family_of(item.value.name, self.words) in ("second", "water")

    def _is_mixed(self, use: Use) -> bool:
        family = family_of(use.material.value.name, self.words) if use.material else None
        return family is None or family not in ("fabric", "release", "bagging", "seal", "hardware")


def _of_the_whole(uses: list[Use], totals: list[Found]) -> list[Use]:
    """Leave what the whole batch came to off its parts, and say so."""
    for total in totals:
        first = next((use for use in uses if use.material is not None), None)
        if first is not None and first.material is not None:
            flag = Flag("amount", f"{float(total.value.low):g} {total.value.unit or ''} was said of the whole batch")
            flagged = replace(first.material, flags=(*first.material.flags, flag))
            uses = [replace(use, material=flagged) if use is first else use for use in uses]
    return uses


def _doubted(uses: list[Use]) -> list[Use]:
    """Flag three weights and more with no material named: whose each is only their order tells."""
    lone = [use for use in uses if use.material is None and use.pronoun is None]
    if len(lone) < len(uses) or len(lone) < _MANY_LONE:
        return uses
    flag = Flag("materials", f"{len(lone)} amounts and no material were said")
    return [Use(None, replace(use.amount, flags=(*use.amount.flags, flag))) for use in lone if use.amount]


def told(found: Findings, item: Found) -> bool:
    """Tell whether the words belong to a warning, a reason or a question rather than to the act."""
    return any(found.at(kind, item.start) for kind in ("warning", "reason", "question"))
