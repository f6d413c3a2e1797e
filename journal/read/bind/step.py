"""Turn a draft into a step: its facts bound, converted and pointed back to the words."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from journal.read.bind.draft import Draft
from journal.read.bind.infer import is_gel_time, is_pot_life, is_tack_time
from journal.read.bind.layers import is_no_layer, layers_of
from journal.read.bind.uses import Use, bind
from journal.read.checks import splits
from journal.read.evidence import Witness
from journal.read.families import family_of
from journal.read.findings import Amount, Findings, Found, MaterialSaid, Moment, NoteWords, RatioSaid, TermHeard
from journal.read.moments import resolve
from journal.record import (
    TIMING_KINDS,
    ClockTime,
    Condition,
    Flag,
    Layer,
    MaterialUse,
    Observation,
    Phrase,
    Ratio,
    Step,
    Timing,
)

PRONOUN = ""
SECOND = "second part"
_TIMING_OF = {"mix": "mix", "thicken": "mix", "tint": "mix", "wait": "wait", "cure": "cure", "post-cure": "post-cure",
              "demould": "demould"}  # fmt: skip
_AHEAD = frozenset("'ll will should ready due be needs need must has have".split())
_SOAKS = frozenset("soak soaked soaking slake slaked slaking steep steeped".split())
_MASS = frozenset({"g", "ml"})
_FABRIC_OUNCES_G = 100
_NOT_THINGS = frozenset(
    "mil mils mm millimetre inch inches times halves half sides side hours hour minutes minute coats grit".split()
)
_LIMITS = frozenset("above over under below than beyond exceeding".split())
_ADDED = frozenset({"second", "filler", "pigment"})
_EQUAL = ("of each", "each of", "the same of", "same of", "equal amount", "same amount of")
_CARRIES = frozenset({"g", "ml"})
_WEIGHED = frozenset({"weigh", "mix", "thicken", "tint", "pour", "degas"})


@dataclass(slots=True)
class Binder:
    """Binds the drafts of one note."""

    words: NoteWords
    found: Findings
    witness: Witness
    flags: list[Flag] = field(default_factory=list)

    def step(self, draft: Draft) -> Step:
        """Return the draft's step; general words and pronouns are left for the memory to resolve."""
        self.flags = []
        take_lone_ratio(draft)
        layers, used = layers_of(self.words, draft)
        uses = self._uses(draft, used)
        head = draft.acts[0] if draft.acts else None
        first, last = (head.start, head.end) if head else (draft.start, draft.end)
        coats = self._coat_materials(layers, uses)
        return Step(
            action=draft.action,
            status=draft.status,
            evidence=self.witness.of(first, last, draft.rule, draft.confidence),
            materials=tuple(self._materials(draft, uses) + coats + self._hardware(draft)),
            ratio=self._ratio(draft),
            layers=tuple(self._layer(item) for item in layers),
            timings=tuple(
                self._timing(draft, item) for item in draft.of("duration") if not self._is_from_now(draft, item)
            ),
            clock=self._clock(draft),
            conditions=self._conditions(draft),
            places=self._phrases(draft, "place"),
            reasons=self._phrases(draft, "reason"),
            cues=self._phrases(draft, "cue"),
            warnings=self._phrases(draft, "warning"),
            observations=tuple(
                Observation(item.value.kind, item.value.text, self._evidence(item)) for item in draft.of("observation")
            ),
            flags=tuple(dict.fromkeys(self.flags)),
            pull=self._pull(draft) if draft.action == "pull" else None,
            who=next((item.value.text for item in draft.of("who")), None),
        )

    def _evidence(self, item: Found) -> Any:
        self.flags.extend(item.flags)
        return self.witness.of_found(item)

    # ---- materials and amounts -------------------------------------------------------------------------

    def _uses(self, draft: Draft, used: set[int]) -> list[Use]:
        materials = [m for m in draft.of("material") if m.start not in used and not self._told(m)]
        amounts = [a for a in draft.of("amount") if self._is_amount(a, used)]
        if draft.action not in _WEIGHED:
            amounts = [a for a in amounts if a.value.unit is not None]
        uses = self._share_out(draft, bind(self.words, materials, amounts))
        return self._in_equal_parts(draft, uses)

    def _in_equal_parts(self, draft: Draft, uses: list[Use]) -> list[Use]:
        """Give the second part what the main has: "6 ounces of each, A and B", "250 of A and the same of B"."""
        said = " ".join(self.words.lower[draft.start : draft.end])
        weighed = [use for use in uses if use.amount is not None and use.amount.value.unit in _MASS]
        if len(weighed) != 1 or not any(phrase in said for phrase in _EQUAL):
            return uses
        amount, idle = weighed[0].amount, [use for use in uses if use.amount is None and use.material is not None]
        idle = [use for use in idle if self._is_mixed(use)]
        rest = [use for use in uses if use not in idle and use is not weighed[0]]
        named = [use.material for use in ([weighed[0]] if weighed[0].material else []) + idle if use.material]
        parts = [item for item in named if item.value.part or self._is_second(item)] or named
        if len(parts) < 2:
            parts = named
        there = self.words.lower[draft.start : draft.end]
        if len(parts) == 1 and "a" in there and "b" in there:
            parts = [replace(parts[0], value=replace(parts[0].value, part=letter)) for letter in ("A", "B")]
        return rest + [Use(item, amount) for item in parts]

    def _told(self, item: Found) -> bool:
        """Tell whether the words belong to a warning, a reason or a question rather than to the act."""
        return any(self.found.at(kind, item.start) for kind in ("warning", "reason", "question"))

    def _is_amount(self, item: Found, used: set[int]) -> bool:
        value: Amount = item.value
        return (
            item.start not in used
            and not self._in_layer(item)
            and not (value.unit == "count" and item.rule == "amounts.article-unit")
            and not self._is_limit(item)
            and not self.found.at("lot", item.start)
            and value.bound != "most"
            and value.unit not in ("mm", "m2")
            and not self._told(item)
        )

    def _is_limit(self, item: Found) -> bool:
        before = self.words.lower[max(0, item.start - 1) : item.start]
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
        if len(named) == len(idle) == 1:
            joined_use = Use(idle[0].material, named[0].amount)
            return [joined_use if use is named[0] else use for use in uses if use is not idle[0]]
        shares = [use for use in uses if use.material is None and use.amount and use.amount.value.unit == "percent"]
        added = [use for use in idle if use.material and family_of(use.material.value.name, self.words) in _ADDED]
        if len(shares) == len(added) == 1:
            whole = Use(added[0].material, shares[0].amount)
            return [whole if use is shares[0] else use for use in uses if use is not added[0]]
        if draft.action not in _WEIGHED:
            return uses
        lone = [use for use in uses if use.material is None and use.pronoun is None]
        given = [use.material for use in uses if use.material is not None and use.amount is not None]
        if any(self._is_second(item) for item in given):
            idle = [use for use in idle if use.material and not self._is_second(use.material)]
        elif given:
            idle = [use for use in idle if use.material and self._is_second(use.material)]
        joined = {}
        for use, named in zip(lone, idle, strict=False):
            joined[id(use)] = Use(named.material, use.amount)
        gone = {id(named) for named, _ in zip(idle, lone, strict=False)}
        out = [joined.get(id(use), use) for use in uses if id(use) not in gone]
        return [self._second_of(out, use) for use in out]

    def _second_of(self, uses: list[Use], use: Use) -> Use:
        """Return the lone amount after a main material's as the second part's: "tin silicone, 480 and 24"."""
        if use.material is not None or use.amount is None or use.pronoun is not None:
            return use
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

    def _is_second(self, item: Found) -> bool:
        return item.value.part == "B" or family_of(item.value.name, self.words) == "second"

    def _is_mixed(self, use: Use) -> bool:
        family = family_of(use.material.value.name, self.words) if use.material else None
        return family is None or family not in ("fabric", "release", "bagging", "seal", "hardware")

    def _materials(self, draft: Draft, uses: list[Use]) -> list[MaterialUse]:
        unit = self._carried_unit(draft)
        out: list[MaterialUse] = []
        for use in uses:
            made = self._material(use, unit)
            if made is not None and not (made.amount is None and any(made.name == m.name for m in out)):
                out = [m for m in out if not (m.amount is None and m.name == made.name and m.part == made.part)]
                out.append(made)
        lots = [item for item in draft.of("lot")]
        return self._with_lots(out, lots)

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
            name = SECOND
        amount: Amount | None = use.amount.value if use.amount else None
        if amount is None:
            return MaterialUse(name, evidence, said.part if said else None)
        unit, by = (amount.unit, Fraction(1)) if amount.unit else carried
        if unit is None:
            self.flags.append(Flag("unit", f"no unit was said for {float(amount.low):g}"))
        most = amount.high * by if amount.high != amount.low else None
        return MaterialUse(name, evidence, said.part if said else None, amount.low * by, most, unit)

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
        return use.amount.value.unit is not None or use.pronoun is not None or more or self._among_weights(use)

    def _is_for_fabric(self, item: Found) -> bool:
        """Tell whether a weight may be a fabric's: ounces with "and a half", or a weight among layers."""
        light = item.value.said_unit in ("ounce", "ounces", "oz") and item.value.low < _FABRIC_OUNCES_G
        return light or bool(self.found.of("layer") and not self.found.of("ratio"))

    def _among_weights(self, use: Use) -> bool:
        """Tell whether the bare number stands in a list of weights: "240 and 69"."""
        return use.amount is not None and self.words.lower[use.amount.end : use.amount.end + 1] == ("and",)

    def _carried_unit(self, draft: Draft) -> tuple[str | None, Fraction]:
        """Return the unit that amounts without one take, and how much of it one of what was said is.

        "33 ounces of resin and 11 of hardener": the 11 are ounces too, not grams.
        """
        for items in (draft.of("amount"), self.found.of("amount")):
            for item in items:
                if item.value.unit in _CARRIES:
                    said = [n.value.low for n in self.found.of("number") if item.start <= n.start < item.end]
                    return item.value.unit, item.value.low / said[0] if len(said) == 1 and said[0] else Fraction(1)
        there = set(self.words.lower)
        if there & {"grams", "gram", "grammes"}:
            return "g", Fraction(1)
        return ("ml" if there & {"millilitres", "milliliters", "mls", "mil"} else None), Fraction(1)

    def _with_lots(self, uses: list[MaterialUse], lots: list[Found]) -> list[MaterialUse]:
        for lot in lots:
            char = self.words.doc[lot.start].idx
            before = [i for i, use in enumerate(uses) if use.evidence.chars[0] <= char]
            at = before[-1] if before else (0 if uses else None)
            if at is not None:
                use = uses[at]
                self.flags.extend(lot.flags)
                uses[at] = MaterialUse(use.name, use.evidence, use.part, use.amount, use.amount_most, use.unit,
                                       lot.value.text)  # fmt: skip
        return uses

    def _coat_materials(self, layers: list[Found], uses: list[Use]) -> list[MaterialUse]:
        named = {use.material.value.name for use in uses if use.material}
        return [
            MaterialUse(item.value.name, self.witness.of_found(item))
            for item in layers
            if item.value.coat and item.value.name and item.value.name not in named
        ]

    def _hardware(self, draft: Draft) -> list[MaterialUse]:
        """Return counted things by the words said: "fitted two threaded inserts", "three strips of peel ply"."""
        if draft.action == "cut":
            return self._cut_pieces(draft)
        if draft.action not in ("fit", "clean", "store"):
            return []
        kinds = ("amount", "condition", "duration", "moment", "layer", "lot", "ratio")
        out = []
        for item in draft.of("number"):
            taken = any(
                (x := self.found.at(k, item.start)) and not (k == "amount" and x.value.unit in (None, "count"))
                for k in kinds
            )
            end = item.end
            while end < draft.end and self.words.tags[end] in ("JJ", "VBN", "NN", "NNS", "NNP", "HYPH"):
                end += 1
            plural = end > item.end and self.words.tags[end - 1] in ("NNS", "NN")
            tail = self.words.lower[end : end + 1]
            if (
                taken
                or not plural
                or item.value.ordinal
                or tail == ("of",)
                or self.words.lower[item.end] in _NOT_THINGS
            ):
                continue
            name = " ".join(self.words.lower[item.end : end])
            evidence = self.witness.of(item.start, end, "bind.things", item.confidence)
            out.append(MaterialUse(name, evidence, None, item.value.low, None, "count"))
        return out

    def _cut_pieces(self, draft: Draft) -> list[MaterialUse]:
        out = []
        for item in draft.of("material"):
            for number in draft.of("number"):
                gap = self.words.lower[number.end : item.start]
                if 0 < len(gap) <= 3 and gap[-1] == "of" and family_of(item.value.name, self.words) != "fabric":
                    evidence = self.witness.of(number.start, item.end, "bind.pieces", item.confidence)
                    out.append(MaterialUse(item.value.name, evidence, None, number.value.low, None, "count"))
        return out

    # ---- the other facts -------------------------------------------------------------------------------

    def _ratio(self, draft: Draft) -> Ratio | None:
        said = [r for r in draft.of("ratio") if not self._is_time(draft, r)]
        if not said:
            return None
        item = next((r for r in said if r.value.run_together is None), said[0])
        if item.value.run_together is not None:
            return None
        return Ratio(item.value.parts, self._evidence(item), item.value.by)

    def _layer(self, item: Found) -> Layer:
        flags = tuple(Flag("layers", f.why) if f.field == "materials" else f for f in item.flags)
        evidence = self._evidence(item if item.value.coat else replace(item, flags=flags))
        return Layer(item.value.name or PRONOUN, evidence, item.value.count, item.value.gsm)

    def _timing(self, draft: Draft, item: Found) -> Timing:
        kind = item.value.hint or _TIMING_OF.get(draft.action, "work")
        span = self.words.lower[draft.start : draft.end]
        if item.value.hint is None and draft.action == "check":
            told = (("pot life", is_pot_life), ("gel", is_gel_time), ("tack", is_tack_time))
            kind = next((name for name, is_told in told if is_told(span)), kind)
        heard = next((t for t in draft.of("sound") if isinstance(t.value, TermHeard)), None)
        if heard is not None and heard.value.term in TIMING_KINDS and item.value.hint is None:
            kind = heard.value.term
            self.flags.append(Flag("timings", f'heard "{heard.value.heard}", read as {kind}'))
        if kind == "wait" and _SOAKS & set(self.words.lower[draft.start : draft.end]):
            kind = "soak"
        return Timing(kind, item.value.least, item.value.most, self._evidence(item))

    def _clock(self, draft: Draft) -> tuple[ClockTime, ...]:
        recorded = self.words.recorded_at
        if recorded is None:
            return ()
        out = []
        for item in draft.of("duration"):
            if draft.status == "planned" and self._is_from_now(draft, item):
                ahead = Moment(offset_s=item.value.least or item.value.most)
                out.append(ClockTime("start", resolve(ahead, recorded, "planned"), self._evidence(item)))
        for item in draft.of("moment"):
            if any(
                r.start < item.end and item.start < r.end and not self._is_time(draft, r) for r in draft.of("ratio")
            ):
                continue
            moment, kind = item.value, item.value.hint or "start"
            if kind == "end" and draft.action == "check" and not draft.said:
                moment, kind = replace(moment, hint="due"), "due"
            if kind == "due" and draft.status == "done" and self._is_past(draft, item):
                moment, kind = replace(moment, hint="end"), "end"
            out.append(ClockTime(kind, resolve(moment, recorded, draft.status), self._evidence(item)))
        return tuple(out)

    def _is_from_now(self, draft: Draft, item: Found) -> bool:
        """Tell whether a duration is a point ahead: "going to start the mat in twenty minutes"."""
        if item.rule == "durations.overnight" and draft.action == "check" and item.value.hint is None:
            return True  # "dropped to 55 overnight" says when
        lead = self.words.lower[max(0, item.start - 2) : item.start]
        return draft.status == "planned" and "in" in lead and item.value.hint != "demould"

    def _is_time(self, draft: Draft, item: Found) -> bool:
        """Tell whether "ten to two" is a time of day here: weights that agree make it a ratio."""
        if not any(m.start < item.end and item.start < m.end for m in draft.of("moment")):
            return False
        weights = [a.value.low for a in draft.of("amount") if a.value.low]
        if len(weights) == 2 and len(item.value.parts) == 2:
            wanted = item.value.parts[1] / item.value.parts[0]
            return abs(weights[1] / weights[0] / wanted - 1) > Fraction(1, 10)
        return True

    def _is_past(self, draft: Draft, item: Found) -> bool:
        """Tell whether "by" a time is told of the past: "tacky by 10:25", not "ready by six"."""
        start = max(draft.start, item.start - 8)
        span = self.words.lower[start : item.start]
        told = (
            draft.said
            or draft.of("observation")
            or any(t in ("VBD", "VBN") for t in self.words.tags[start : item.start])
        )
        return bool(told) and span[-1:] == ("by",) and _AHEAD.isdisjoint(span)

    def _conditions(self, draft: Draft) -> tuple[Condition, ...]:
        return tuple(
            Condition(item.value.kind, item.value.value, item.value.unit, self._evidence(item), item.value.of)
            for item in draft.of("condition")
            if not self._told(item)
        )

    def _phrases(self, draft: Draft, kind: str) -> tuple[Phrase, ...]:
        return tuple(Phrase(item.value.text, self._evidence(item)) for item in draft.of(kind))

    def _pull(self, draft: Draft) -> int | None:
        numbers = [n for n in draft.of("number") if n.value.low == n.value.high and n.value.low.denominator == 1]
        around = set("cast casting castings pull pulled number no no. # shot".split())
        for item in numbers:
            near = set(self.words.lower[max(0, item.start - 3) : item.start]) | set(
                self.words.lower[item.end : item.end + 1]
            )
            if near & around and not any(self.found.at(k, item.start) for k in ("amount", "duration", "moment")):
                return int(item.value.low)
        return None


def take_lone_ratio(draft: Draft) -> None:
    """Take a bare number after two weights as a ratio run together, where it can be split so: "so 128"."""
    weights = [a for a in draft.of("amount") if a.value.unit in _MASS]
    for clause in draft.clauses:
        for item in list(clause.of("amount")):
            value = item.value
            whole = value.unit is None and value.low == value.high and value.low.denominator == 1
            if len(weights) < 1 or draft.of("ratio") or not whole or value.low < 110 or item.start < weights[-1].end:
                continue
            pair = [a.value.low for a in draft.of("amount") if a is not item][:2]
            digits = str(int(value.low))
            if len(pair) == 2 and any(
                abs(b / a / (pair[1] / pair[0]) - 1) < Fraction(3, 100) for a, b in splits(digits)
            ):
                said = RatioSaid((), None, digits)
                clause.facts["amount"].remove(item)
                clause.facts.setdefault("ratio", []).append(replace(item, kind="ratio", value=said))


def scaled(amount: Fraction | None, by: Fraction) -> Fraction | None:
    """Return the amount times a factor, or None."""
    return None if amount is None else amount * by
