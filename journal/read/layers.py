"""Layers of fabric, and coats of anything brushed or sprayed, with their count and areal weight."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.read.families import family_of
from journal.read.findings import Findings, Found, LayerSaid, NoteWords
from journal.read.layer_counts import Piece
from journal.read.layer_owners import Owners
from journal.read.layers_patterns import (
    COAT_WORDS,
    DIRT,
    LAYER_WORDS,
    LEAST_CROSSED,
    LEAST_HEAVY,
    LIGHT,
    LOOSE,
    MISTS,
    MORE_CLOSED,
    MOST_COATS,
    MOST_GUESSED,
    NO_LAYER,
    NOT_LAID_AFTER,
    ORDINALS,
    SHEETS,
    SLIGHT,
    SOLD,
    SPRAY_WORDS,
)
from journal.record import Flag


def find(words: NoteWords, found: Findings) -> list[Found]:
    """Return the layers of the note, kind "layer": {name, count, gsm}, `coat` for coats.

    Reads the numbers, amounts, areal weights and materials found so far. A count or an areal weight
    that was not said is None; so is the name of layers whose fabric was not said. A fabric weighed as a
    batch ("300 grams of mat") is no layer.
    """
    laid = _Laid(words, found)
    out: list[Found] = []
    done = 0
    for at, word in enumerate(words.lower):
        if at < done:
            continue
        item = laid.crossed(at) or (laid.worded(at) if laid.is_word(at, word) else laid.fabric(at))
        item = item or laid.more(at, out) or laid.elided(at, out)
        item = item and _of_the_same(words.lower, _of_that_weight(item, out), out)
        if item is not None and item.start >= done:
            out.append(item)
            done = item.end
    return out


def _of_that_weight(item: Found, before: list[Found]) -> Found:
    """Return layers whose weight alone was said as those of the fabric that had it: "another layer of the 10 ounce"."""
    value: LayerSaid = item.value
    if value.name is not None or value.gsm is None or value.coat:
        return item
    same = next((other for other in reversed(before) if other.value.gsm == value.gsm and other.value.name), None)
    return item if same is None else replace(item, value=replace(value, name=same.value.name))


def _of_the_same(lower: tuple[str, ...], item: Found, before: list[Found]) -> Found:
    """Return layers of what was laid before, in its weight: "two layers of the 300 ... and four layers OF IT"."""
    value: LayerSaid = item.value
    of = lower[item.end - 1 : item.end + 2] if lower[item.end - 1] == "of" else lower[item.end : item.end + 3]
    same = of[:2] in (("of", "it"), ("of", "that"), ("of", "them")) or of[:3] == ("of", "the", "same")
    last = next((other for other in reversed(before) if other.value.name and not other.value.coat), None)
    if not same or last is None or value.coat or value.gsm is not None:
        return item
    return replace(item, value=replace(value, name=last.value.name, gsm=last.value.gsm))


class _Laid(Owners):
    """Reads the layers of one note at a token."""

    def is_word(self, at: int, word: str) -> bool:
        """Whether layers, coats or sprayed coats are counted by this word."""
        if word in SPRAY_WORDS:
            return self.lower[at + 1 : at + 2] == ("of",) or self.sprayed
        return word in LAYER_WORDS or word in COAT_WORDS

    def worded(self, at: int) -> Found | None:
        """Layers by the word: "two layers of 450 mat", "three coats of wax", "a double layer", "mat, two layers"."""
        if at in self.inside or self.lower[at + 1 : at + 2] in (("coat",), ("coats",)):
            return None
        coat = self.lower[at] not in LAYER_WORDS
        piece = self.count_before(at) or self.opening(at) or self.numbered(at)
        if self.lower[at] == "skin" and at and self.lower[at - 1] in ORDINALS:
            return None  # "second skin": several layers
        if self._is_only_spoken_of(at, piece, coat) or (piece is None and self.lower[at] in SPRAY_WORDS):
            return None  # "going to SPRAY the gel coat"
        piece = self._with_one_more(piece or Piece(at, at + 1, None, 0.6), at, coat)
        name, gsm, end = self.fabric_after(max(at + 1, piece.end))
        if name is None and gsm is None:
            if self.lower[at] in SHEETS and self.lower[at + 1 : at + 2] == ("of",):
                return None  # "a sheet of cardboard"
            return self._named_before(at, piece, end, coat)
        if coat and name is not None and name.value.name in DIRT:
            return None
        return _found(piece.start, end, name, piece, gsm, coat, name.flags if name else ())

    def _with_one_more(self, piece: Piece, at: int, coat: bool) -> Piece:
        """Return the count with one more of another kind: "two mist coats and one wet one"."""
        lower = self.lower[at + 1 : at + 5]
        more = coat and lower[:2] == ("and", "one") and lower[3:] == ("one",) and lower[2] in LOOSE
        return replace(piece, count=piece.count + 1) if more and piece.count is not None else piece

    def _is_only_spoken_of(self, at: int, piece: Piece | None, coat: bool) -> bool:
        """Whether nothing is laid here: "between coats", "for the second coat", "14 ounces for the print coat"."""
        led = self.lower[max(0, at - 2) : at]
        small = led[-1:] in (("a",), ("an",)) or (led[-1:] != () and led[-1] in SLIGHT and led[0] in ("a", "an", "one"))
        if self.lower[at] in MISTS and small:
            return True  # "a mist of PVA", "only a small mist": not counted in coats
        if piece is not None:
            return self.is_awaited(piece)
        back = at - 1 - (self.lower[at - 1] in ("the", "each"))
        between = self.lower[at - 1] in NOT_LAID_AFTER or self.lower[back] in NOT_LAID_AFTER
        return at == 0 or between or (coat and "for" in self.lower[max(0, at - 4) : at])

    def _named_before(self, at: int, piece: Piece, end: int, coat: bool) -> Found | None:
        """Layers of what was said before: "mat, two layers", "5 x semi-perm wipes"; of nothing, when only counted."""
        owner = self.material_end.get(at) or self.owner_before(piece.start, coat) or self.coated(piece.start, coat)
        if owner is None:
            return None if piece.count is None else _found(piece.start, end, None, piece, None, coat, ())
        if piece.count is None and owner.end == at:
            piece = self.count_right_before(owner.start) or piece
        if not coat and family_of(owner.value.name, self.words) in NO_LAYER:
            return None
        gsm, start = self.weight_before(min(piece.start, owner.start))
        return _found(start, end, owner, piece, gsm, coat, owner.flags)

    def fabric(self, at: int) -> Found | None:
        """A fabric with its count or weight before it: "one tissue", "two 450 csm", "450 mat", "two gel coats"."""
        item = self.material.get(at)
        if item is None:
            return None
        coat = self.lower[item.end - 1] in COAT_WORDS
        if not coat and not self.is_fabric(item):
            return None
        gsm, start = self.weight_before(at)
        if self.is_weighed(start):
            return None
        piece = self.count_right_before(start)
        if piece is not None and not coat and piece.count is not None and piece.count > MOST_GUESSED:
            return None  # "1808 biax": a style, no count
        after = self.count_after(item.end) if piece is None and not coat else None
        crossed = (
            self.weight_and_count(item.end) if piece is None and after is None and gsm is None and not coat else None
        )
        if crossed is not None:
            gsm, after = crossed
        if piece is None and after is None and (gsm is None or coat):
            return None
        piece = piece or after or Piece(start, at, None)
        end = after.end if after is not None else item.end
        if gsm is None and not coat:
            gsm, end = self.weight_after(end)
        return _found(min(start, piece.start), end, item, piece, None if coat else gsm, coat, item.flags)

    def crossed(self, at: int) -> Found | None:
        """A count times a weight: "2 x 450", "3 x 300 mat"."""
        count = self.number.get(at)
        if (
            count is None
            or count.value.low > MOST_COATS
            or self.lower[count.end : count.end + 1] not in (("x",), ("×",))
        ):
            return None
        weight = self.bare_weight(count.end + 1)
        if weight is None or weight[0] < LEAST_CROSSED or weight[1] in self.unit_start:
            return None
        item = self.material.get(weight[1])
        if item is not None and self.is_fabric(item):
            piece = Piece(at, count.end, count.value.low)
            return _found(at, item.end, item, piece, weight[0], False, item.flags)
        fabric = self.material.get(weight[1])
        named = fabric is not None and self.is_fabric(fabric)
        value = LayerSaid(fabric.value.name if fabric and named else None, count.value.low, weight[0])
        return Found("layer", at, fabric.end if fabric and named else weight[1], value, "layers.crossed", 0.75)

    def elided(self, at: int, before: list[Found]) -> Found | None:
        """A count alone after a layer that said the rest: "one of three hundred", "another 300", "1 of PVA"."""
        count = self.count_starting(at)
        if count is not None and self.is_plural(count.end):
            return self._of_weight(at, count, count.end, before)
        if count is not None and (cloth := self.after_more(count.end)) in self.areal and cloth > count.end:
            return self._of_weight(at, count, cloth, before)
        if count is not None and (cloth_at := self._sold_after(count, before)) is not None:
            return self._of_weight(at, count, cloth_at, before)
        if not before and not (count is not None and at in self.material_end):
            return None
        last: LayerSaid = before[-1].value if before else LayerSaid(None, None, None)
        if count is None or self.lower[count.end : count.end + 1] != ("of",):
            return self._another(at, before)
        if self.lower[count.end + 1 : count.end + 2] == ("the",):
            return self._of_weight(at, count, count.end + 2, before)
        item = self.material.get(count.end + 1)
        few = count.count is not None and count.count <= MOST_COATS
        if last.coat and few and item is not None and not self.is_fabric(item):
            return _found(at, item.end, item, count, None, True, item.flags)
        return self._of_weight(at, count, count.end + 1, before)

    def _sold_after(self, count: Piece, before: list[Found]) -> int | None:
        """Where the weight of a fabric stands that a count of a list is of: "two 300", "one more 450 over the ends"."""
        if not before or before[-1].value.coat:
            return None
        if self._is_listed(count):
            return count.end
        cloth = self.after_more(count.end)
        weight = self.bare_weight(cloth)
        return cloth if cloth > count.end and weight is not None and weight[0] in SOLD else None

    def _is_listed(self, count: Piece) -> bool:
        """Whether a small count and a weight that fabrics are sold in close a piece of a list: "..., two 300, ..."."""
        weight = self.bare_weight(count.end)
        few = count.count is not None and count.count <= MOST_COATS
        closed = weight is not None and self.lower[weight[1] : weight[1] + 1] in (
            (),
            (",",),
            (".",),
            ("and",),
            ("then",),
        )
        return few and closed and weight is not None and weight[0] in SOLD

    def more(self, at: int, before: list[Found]) -> Found | None:
        """So many more of the coats told before: "brushed four coats of latex ... tomorrow four more"."""
        last = before[-1].value if before and "more" in self.lower[at + 1 : at + 4] else None
        count = self.count_starting(at) if last is not None and last.coat and last.name else None
        if last is None or count is None or count.count is None or count.count > MOST_COATS:
            return None
        after = self.lower[count.end : count.end + 2]
        if after[:1] != ("more",) or (len(after) > 1 and after[1] not in MORE_CLOSED):
            return None
        value = LayerSaid(last.name, count.count, None, True)
        return Found("layer", at, count.end + 1, value, "layers.more", 0.86, before[-1].flags)

    def _another(self, at: int, before: list[Found]) -> Found | None:
        if self.lower[at] not in ("another", "a"):
            return None
        if before and before[-1].value.coat and self.lower[at + 2 : at + 3] == ("one",) and self.lower[at + 1] in LOOSE:
            value = LayerSaid(before[-1].value.name, Fraction(1), None, True)  # "two mist coats, then a wet one"
            return Found("layer", at, at + 3, value, "layers.elided", 0.86, before[-1].flags)
        after = at + 1
        while self.lower[at] == "another" and self.lower[after : after + 1] in (("of",), ("the",)):
            after += 1
        return self._of_weight(at, Piece(at, at + 1, Fraction(1)), after, before)

    def _of_weight(self, at: int, count: Piece, after: int, before: list[Found]) -> Found | None:
        """Return the layer whose weight alone is said, of the last fabric of that weight, else of the last."""
        areal, bare = self.areal.get(after), self.bare_weight(after)
        gsm, end = (areal.value.gsm, areal.end) if areal is not None else bare or (None, after)
        if gsm is None or end in self.material or after in self.unit_start:
            return None
        last = next((item for item in reversed(before) if item.value.gsm == gsm), before[-1] if before else None)
        beside = self.material_end.get(at)
        if last is None and beside is not None and self.is_fabric(beside):
            return _found(beside.start, end, beside, count, gsm, False, beside.flags)
        if areal is None and (last is None or last.value.coat or (last.value.gsm is None and gsm < LEAST_CROSSED)):
            return None
        # "One of tissue, two of 300": the 300 is no tissue, and which fabric it is was not said.
        if last is None or last.value.gsm is None or (last.value.name in LIGHT and gsm >= LEAST_HEAVY):
            return Found("layer", at, end, LayerSaid(None, count.count, gsm), "layers.elided", 0.6)
        value = LayerSaid(last.value.name, count.count, gsm)
        return Found("layer", at, end, value, "layers.elided", 0.65, last.flags)


def _found(
    start: int, end: int, name: Found | None, piece: Piece, gsm: Fraction | None, coat: bool, flags: tuple[Flag, ...]
) -> Found:
    value = LayerSaid(name.value.name if name else None, piece.count, gsm, coat)
    confidence = min(piece.certain, name.confidence if name else 0.8)
    rule = "layers.coats" if coat else "layers.fabric" if name else "layers.count"
    return Found("layer", min(start, piece.start), max(end, piece.end), value, rule, confidence, flags)
