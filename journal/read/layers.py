"""Layers of fabric, and coats of anything brushed or sprayed, with their count and areal weight."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from journal.read.families import family_of
from journal.read.findings import Amount, Areal, Findings, Found, LayerSaid, MaterialSaid, NoteWords, Number
from journal.read.layers_patterns import (
    AWAITED,
    COAT_WORDS,
    COUNTS,
    DIRT,
    GUN_WORDS,
    IS,
    LAYER_WORDS,
    LEAST_CROSSED,
    LEAST_GSM,
    LEAST_HEAVY,
    LIGHT,
    LOOSE,
    MOST_COATS,
    MOST_GSM,
    MOST_GUESSED,
    MOST_LAYERS,
    MOST_LOOSE,
    NEAR,
    NO_LAYER,
    NOT_COATED,
    NOT_LAID_AFTER,
    ONE,
    OPENERS,
    ORDINALS,
    PIECES,
    REACH,
    SKIPPED,
    SPOKEN_OF,
    SPRAY_WORDS,
    STYLES,
    TALLIES,
    TIMES,
    UNDER,
)
from journal.read.lexicon import JOINERS, lexicon_of
from journal.record import Flag

_OF_THEM = (("of", ","), ("of", "."), ("of", "them"), ("of", "em"), ("of", "it"), ("of", "those"), ("of", "'em"))


@dataclass(frozen=True, slots=True)
class _Piece:
    """What was said of one layer so far: its tokens and values."""

    start: int
    end: int
    count: Fraction | None = None
    certain: float = 0.9


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
        item = item or laid.elided(at, out)
        if item is not None and item.start >= done:
            out.append(item)
            done = item.end
    return out


class _Laid:
    """One note's findings, by the token where they start or end."""

    def __init__(self, words: NoteWords, found: Findings) -> None:
        self.words, self.lower = words, words.lower
        self.material = {m.start: m for m in found.of("material")}
        self.inside = {t for m in self.material.values() for t in range(m.start, m.end)}
        self.material_end = {m.end: m for m in self.material.values()}
        self.areal = {a.start: a for a in found.of("areal")}
        self.areal_end = {a.end: a for a in found.of("areal")}
        self.number_end = {n.end: n for n in found.of("number")}
        self.number = {n.start: n for n in found.of("number")}
        self.weighed_end = {a.end for a in found.of("amount") if a.value.unit not in (None, "count")}
        # "300 gram" before a fabric is its weight; where the fabric was misheard it was taken for an amount.
        self.gram_end = {a.end: a for a in found.of("amount") if self.lower[a.end - 1] == "gram"}
        self.rate_end = self.weighed_end | {d.end for d in found.of("duration")}
        self.unit_start = {a.start for a in found.of("amount") if a.value.unit is not None}
        self.sprayed = any(word.startswith("spray") or word in GUN_WORDS for word in self.lower)

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
        piece = self._count_before(at) or self._opening(at) or self._numbered(at)
        if piece is None and (at == 0 or self.lower[at - 1] in NOT_LAID_AFTER):
            return None
        if piece is not None and self._is_awaited(piece):
            return None
        if piece is None and coat and self.lower[max(0, at - 4) : at + 1].count("for"):
            return None  # "mixed 14 ounces for the print coat"
        piece = piece or _Piece(at, at + 1, None, 0.6)
        name, gsm, end = self._fabric_after(max(at + 1, piece.end))
        start, flags = piece.start, name.flags if name else ()
        if coat and name is not None and name.value.name in DIRT:
            return None
        if name is None and gsm is None:
            owner = self.material_end.get(at) or self._owner_before(start, coat) or self._coated(start, coat)
            if piece.count is None and owner is not None and owner.end == at:
                piece = self._count_right_before(owner.start) or piece
            if owner is not None and not coat and family_of(owner.value.name, self.words) in NO_LAYER:
                return None
            if owner is not None:
                name, start, flags = owner, min(start, owner.start), owner.flags
                gsm, start = self._weight_before(start)
        if name is None and gsm is None and piece.count is None:
            return None
        return _found(start, end, name, piece, gsm, coat, flags)

    def _opening(self, at: int) -> _Piece | None:
        """One, where nothing is said before: "coat of shellac, then spray of PVA"."""
        described = at > 0 and self._is_loose(at - 1, at) and self.lower[at - 1] not in ("a", "an", "the", "of")
        before = at - described
        opens = (self.lower[before - 1] if before else "") in OPENERS
        single = self.lower[at + 1 : at + 2] == ("of",) and not self.lower[at].endswith("s")
        return _Piece(at, at + 1, Fraction(1), 0.86) if opens and single else None

    def _numbered(self, at: int) -> _Piece | None:
        """One, where it is numbered ("layer one was 200 gram cloth"); the count said after: "sealer, coats two"."""
        after = at + 1 + (self.lower[at + 1 : at + 2] in ((":",), ("-",), ("=",)))
        number = self.number.get(after)
        if number is None or number.value.low > MOST_LAYERS:
            return None
        if self.lower[at] in ("plies", "layers", "coats") and (several := self._named_one_by_one(after)) is not None:
            return _Piece(at, several[1], several[0], 0.75)
        if self.lower[at].endswith("s"):
            ends = number.end >= len(self.lower) or self.lower[number.end] in OPENERS
            return _Piece(at, number.end, number.value.low, 0.86) if ends and number.rule != "numbers.range" else None
        named = number.rule == "numbers.name" and self.lower[number.end : number.end + 1] != ("of",)
        return _Piece(at, number.end, Fraction(1), 0.86) if named else None

    def _named_one_by_one(self, at: int) -> tuple[Fraction, int] | None:
        """How many are named, and where that ends: "plies 1 thru 4", "layers three and four", "plies 5, 6"."""
        first = self.number[at].value
        if first.low != first.high:
            return first.high - first.low + 1, self.number[at].end
        last, end = first.low, self.number[at].end
        while self.lower[end : end + 1] and self.lower[end] in ("to", "thru", "through", "-", ",", "and", "&"):
            number = self.number.get(end + 1)
            steps = number.value.low - last if number is not None else Fraction(0)
            if number is None or steps < 1 or (steps > 1 and self.lower[end] in (",", "and", "&")):
                break
            last, end = number.value.low, number.end
        return (last - first.low + 1, end) if last > first.low else None

    def _is_awaited(self, piece: _Piece) -> bool:
        """Whether one coat is spoken of and not laid: "for the second coat", "it's due its next coat"."""
        if piece.count != 1 or piece.start == 0:
            return False
        before = self.lower[max(0, piece.start - 2) : piece.start]
        return before[-1] in AWAITED or (before[-1] in ("the", "a", "its", "another") and before[0] in AWAITED)

    def fabric(self, at: int) -> Found | None:
        """A fabric with its count or weight before it: "one tissue", "two 450 csm", "450 mat", "two gel coats"."""
        item = self.material.get(at)
        if item is None:
            return None
        coat = self.lower[item.end - 1] in COAT_WORDS
        if not coat and not self._is_fabric(item):
            return None
        gsm, start = self._weight_before(at)
        if self._is_weighed(start):
            return None
        piece = self._count_right_before(start)
        if piece is not None and not coat and piece.count is not None and piece.count > MOST_GUESSED:
            return None  # "1808 biax": a style, no count
        after = self._count_after(item.end) if piece is None and not coat else None
        crossed = (
            self._weight_and_count(item.end) if piece is None and after is None and gsm is None and not coat else None
        )
        if crossed is not None:
            gsm, after = crossed
        if piece is None and after is None and (gsm is None or coat):
            return None
        piece = piece or after or _Piece(start, at, None)
        end = after.end if after is not None else item.end
        if gsm is None and not coat:
            gsm, end = self._weight_after(end)
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
        weight = self._bare_weight(count.end + 1)
        if weight is None or weight[0] < LEAST_CROSSED or weight[1] in self.unit_start:
            return None
        item = self.material.get(weight[1])
        if item is not None and self._is_fabric(item):
            piece = _Piece(at, count.end, count.value.low)
            return _found(at, item.end, item, piece, weight[0], False, item.flags)
        fabric = self.material.get(weight[1])
        named = fabric is not None and self._is_fabric(fabric)
        value = LayerSaid(fabric.value.name if fabric and named else None, count.value.low, weight[0])
        return Found("layer", at, fabric.end if fabric and named else weight[1], value, "layers.crossed", 0.75)

    def elided(self, at: int, before: list[Found]) -> Found | None:
        """A count alone after a layer that said the rest: "one of three hundred", "another 300", "1 of PVA"."""
        count = self._count_starting(at)
        if count is not None and self._is_plural(count.end):
            return self._of_weight(at, count, count.end, before)
        if count is not None and (cloth := self._after_more(count.end)) in self.areal and cloth > count.end:
            return self._of_weight(at, count, cloth, before)
        if not before and not (count is not None and at in self.material_end):
            return None
        last: LayerSaid = before[-1].value if before else LayerSaid(None, None, None)
        if count is None or self.lower[count.end : count.end + 1] != ("of",):
            return self._another(at, before)
        item = self.material.get(count.end + 1)
        few = count.count is not None and count.count <= MOST_COATS
        if last.coat and few and item is not None and not self._is_fabric(item):
            return _found(at, item.end, item, count, None, True, item.flags)
        return self._of_weight(at, count, count.end + 1, before)

    def _after_more(self, at: int) -> int:
        """The place after "more of the": "two more of the ounce and a half"."""
        while at < len(self.lower) and self.lower[at] in ("more", "of", "the"):
            at += 1
        return at

    def _another(self, at: int, before: list[Found]) -> Found | None:
        if self.lower[at] not in ("another", "a"):
            return None
        return self._of_weight(at, _Piece(at, at + 1, Fraction(1)), at + 1, before)

    def _of_weight(self, at: int, count: _Piece, after: int, before: list[Found]) -> Found | None:
        """Return the layer whose weight alone is said, of the last fabric of that weight, else of the last."""
        areal, bare = self.areal.get(after), self._bare_weight(after)
        gsm, end = (areal.value.gsm, areal.end) if areal is not None else bare or (None, after)
        if gsm is None or end in self.material or after in self.unit_start:
            return None
        last = next((item for item in reversed(before) if item.value.gsm == gsm), before[-1] if before else None)
        beside = self.material_end.get(at)
        if last is None and beside is not None and self._is_fabric(beside):
            return _found(beside.start, end, beside, count, gsm, False, beside.flags)
        if areal is None and (last is None or last.value.coat or (last.value.gsm is None and gsm < LEAST_CROSSED)):
            return None
        # "One of tissue, two of 300": the 300 is no tissue, and which fabric it is was not said.
        if last is None or last.value.gsm is None or (last.value.name in LIGHT and gsm >= LEAST_HEAVY):
            return Found("layer", at, end, LayerSaid(None, count.count, gsm), "layers.elided", 0.6)
        value = LayerSaid(last.value.name, count.count, gsm)
        return Found("layer", at, end, value, "layers.elided", 0.65, last.flags)

    def _is_plural(self, at: int) -> bool:
        """Whether a weight is counted by its plural: "two 450s", "two four fifties"."""
        areal = self.areal.get(at)
        if areal is None:
            return False
        return self.lower[areal.end : areal.end + 1] == ("s",) or self.lower[areal.end - 1].endswith("ties")

    def _weight_and_count(self, at: int) -> tuple[Fraction, _Piece] | None:
        """The weight and then the count said after the fabric: "biax 450 x 2"."""
        weight = self._bare_weight(at)
        if weight is None or weight[0] < LEAST_CROSSED or TIMES.isdisjoint(self.lower[weight[1] : weight[1] + 1]):
            return None
        count = self._count_after(weight[1])
        return None if count is None else (weight[0], count)

    def _count_after(self, at: int) -> _Piece | None:
        """The count of layers said after the fabric: "450 mat, two layers", "hessian x 2"."""
        crossed, first = False, at
        while at < len(self.lower) and at - first < NEAR and self.lower[at] in SKIPPED:
            crossed = crossed or self.lower[at] in TIMES
            at += 1
        count = self._count_starting(at)
        if count is None:
            return None
        if crossed and count.count is not None and count.count <= MOST_LAYERS and count.end not in self.material:
            return _Piece(at, count.end, count.count)
        closed = count.end >= len(self.lower) or self.lower[count.end] in (",", ".", ";")
        if closed and self.lower[at - 1] == "," and count.count is not None and count.count <= MOST_LAYERS:
            return _Piece(at, count.end, count.count, 0.75)  # "tissue's down, one, then ..."
        if self.lower[count.end : count.end + 2] in _OF_THEM:
            return _Piece(at, count.end + 1, count.count)
        if LAYER_WORDS.isdisjoint(self.lower[count.end : count.end + 1]):
            return None
        if self.lower[count.end + 1 : count.end + 2] == ("of",):
            return None
        return _Piece(at, count.end + 1, count.count)

    def _count_starting(self, at: int) -> _Piece | None:
        number = self.number.get(at)
        if number is not None:
            return None if number.value.ordinal else _counted(number)
        if self.lower[at : at + 1] in (("one",), ("single",), ("double",), ("triple",)):
            return _Piece(at, at + 1, Fraction(COUNTS.get(self.lower[at], 1)))
        return None

    def _is_fabric(self, item: Found) -> bool:
        value: MaterialSaid = item.value
        entry = lexicon_of(self.words.catalogue).fabrics
        return value.name in entry

    def _is_weighed(self, start: int) -> bool:
        """Whether an amount stands before: "300 grams of mat"."""
        at = start
        while at and self.lower[at - 1] in ("of", "the"):
            at -= 1
        return at in self.weighed_end

    def _count_before(self, at: int) -> _Piece | None:
        """The count before a layer's word, over loose words between: "two thin coats", "another layer"."""
        for back in range(at, max(-1, at - MOST_LOOSE - 1), -1):
            piece = self._count_ending(back)
            if piece is not None:
                return _Piece(piece.start, at + 1, piece.count, piece.certain)
            if back == 0 or not self._is_loose(back - 1, at):
                return None
        return None

    def _is_loose(self, at: int, word: int) -> bool:
        """Whether a word may stand between a count and its layers; before a coat any one that describes it may."""
        if self.lower[at] in LOOSE or self.lower[at] in JOINERS or self._is_tally(at + 1):
            return True
        tag = self.words.tags[at] if self.words.tags else ""
        return at == word - 1 and self.lower[word] in ("coat", "coats") and tag in ("JJ", "NN", "NNP", "VBN", "VBG")

    def _count_right_before(self, at: int) -> _Piece | None:
        """The count right before a fabric or its weight, or before "of the" between: "two of the 600 biax"."""
        piece = self._count_ending(at)
        while piece is None and at and (self.lower[at - 1] in TALLIES or self._is_described(at)):
            at -= 1
            piece = self._count_ending(at)
            if piece is not None and not PIECES.isdisjoint(self.lower[max(0, at - NEAR) : at]):
                return None  # "eight pieces of 450 mat and four of tissue"
        return piece

    def _is_described(self, at: int) -> bool:
        """Whether one adjective stands between a count and a fabric: "two more of the heavy mat", "three fresh mats"."""
        tags = self.words.tags
        if tags and tags[at - 1] == "JJ" and at not in self.areal_end and at - 1 not in self.inside:
            return self.lower[at - 1].isalpha() and self.lower[at - 1] not in COUNTS and at in self.material
        return self._is_tally(at)

    def _is_tally(self, at: int) -> bool:
        """Whether "nos." or "no." stands before, with a number before it."""
        stop = self.lower[at - 1] == "." and self.lower[at - 2 : at - 1] in (("nos",), ("no",))
        tally = self.lower[at - 1] in ("no", "nos") and self.lower[at : at + 1] == (".",)
        return (stop and at > 2 and at - 2 in self.number_end) or (tally and at - 1 in self.number_end)

    def _count_ending(self, at: int) -> _Piece | None:
        word = self.lower[at - 1] if at else ""
        if word in ORDINALS:
            spoken_of = SPOKEN_OF.intersection(self.lower[max(0, at - 5) : at - 1])
            return None if spoken_of else _Piece(at - 1, at, Fraction(1), 0.86)
        number = self.number_end.get(at)
        if number is not None and at not in self.areal_end:
            return _counted(number)
        if word in COUNTS:
            start = at - 2 if at > 1 and self.lower[at - 2] == "a" else at - 1
            return _Piece(start, at, Fraction(COUNTS[word]))
        if word == "one" and self.lower[at - 2 : at - 1] in (("this",), ("that",), ("the",)):
            return None
        if word == "last" and self.lower[at : at + 1] == ("of",):
            return None  # "the last of the mat"
        if word in ONE and at - 1 not in self.rate_end:  # "20 minutes a coat" counts no coat
            return _Piece(at - 1, at, Fraction(1), 0.85)
        return None

    def _fabric_after(self, at: int) -> tuple[Found | None, Fraction | None, int]:
        """The weight and fabric after "layers of": either may be missing. Returns (material, gsm, end)."""
        end, gsm = at, None
        if self._is_numbered(at):
            at += 1
        while (
            at < len(self.lower) and (self.lower[at] in LOOSE or self.lower[at] in JOINERS) and at not in self.material
        ):
            at += 1
        style = self.number.get(at)
        if style is not None and style.value.low in STYLES:
            at = end = style.end
        if at in self.areal:
            gsm = self.areal[at].value.gsm
            at = end = self.areal[at].end
        elif (bare := self._bare_weight(at)) is not None and at != end:
            gsm, at = bare
            end = at
        while at < len(self.lower) and self.lower[at] in ("of", "the", "weight") and at not in self.material:
            at += 1
        item = self.material.get(at)
        if item is not None and gsm is None and self._is_fabric(item):
            gsm, end = self._weight_after(item.end)
            return item, gsm, end
        return (item, gsm, item.end) if item is not None else (None, gsm, end)

    def _is_numbered(self, at: int) -> bool:
        """Whether "layer one", "the first layer" goes on with what it is: "is", "was", a colon."""
        if self.lower[at : at + 1] == () or self.lower[at] not in IS:
            return False
        return self.number_end.get(at) is not None or (at > 1 and self.lower[at - 2] in ORDINALS)

    def _weight_after(self, at: int) -> tuple[Fraction | None, int]:
        """The areal weight said after a fabric: "biaxial glass, 600 gram"."""
        start = at + 1 if self.lower[at : at + 1] in ((",",), ("(",)) else at
        areal, gram = self.areal.get(start), next((a for a in self.gram_end.values() if a.start == start), None)
        if areal is not None and areal.end not in self.material:
            return areal.value.gsm, areal.end
        if gram is not None and gram.end not in self.material and _is_weight(gram.value):
            return gram.value.low, gram.end
        return None, at

    def _bare_weight(self, at: int) -> tuple[Fraction, int] | None:
        number = self.number.get(at)
        if number is None or not _is_weight(number.value):
            return None
        return number.value.low, number.end

    def _weight_before(self, at: int) -> tuple[Fraction | None, int]:
        """The areal weight right before a fabric; a bare number is grams per square metre."""
        areal = self.areal_end.get(at)
        if areal is not None:
            value: Areal = areal.value
            return value.gsm, areal.start
        number = self.number_end.get(at) or self.gram_end.get(at)
        if number is not None and _is_weight(number.value):
            return number.value.low, number.start
        return None, at

    def _owner_before(self, start: int, coat: bool) -> Found | None:
        """The material that a count after it belongs to: "mat, two layers", "hessian dipped in plaster, two layers"."""
        at = start
        while at and self.lower[at - 1] in (",", "-", "x", "in"):
            at -= 1
        beside = self.material_end.get(at)
        if beside is not None and coat:
            return self._coating(beside)
        if beside is None or self._is_fabric(beside):
            return beside
        near = [m for m in self.material.values() if at - NEAR <= m.end <= at and self._is_fabric(m)]
        return near[-1] if near else None

    def _coated(self, at: int, coat: bool) -> Found | None:
        """The one material of the sentence that a coat can be of: "gun's on, black gel coat, two passes"."""
        start = at
        while start and self.lower[start - 1] not in (".", ";") and at - start < REACH:
            start -= 1
        said = [m for m in self.material.values() if start <= m.start and m.end <= at]
        families = {family_of(m.value.name, self.words) for m in said}
        if not coat or len({m.value.name for m in said}) != 1 or families & NOT_COATED:
            return None
        return None if "fabric" in families and not self.sprayed else replace(said[-1], start=at, end=at)

    def _coating(self, beside: Found) -> Found:
        """Return what was put on, where the material beside is what it was put on: "shellac over the clay"."""
        at = beside.start
        while at and self.lower[at - 1] in ("the", "a", "my", "our", "that", "all"):
            at -= 1
        if at == 0 or self.lower[at - 1] not in UNDER:
            return beside
        put = [m for m in self.material.values() if at - NEAR <= m.start and m.end < at]
        return put[-1] if put and family_of(put[-1].value.name, self.words) != "fabric" else beside


def _is_weight(number: Number | Amount) -> bool:
    ordinal = isinstance(number, Number) and number.ordinal
    sold = LEAST_GSM <= number.low <= MOST_GSM and number.low not in STYLES
    return number.low == number.high and not ordinal and sold


def _counted(number: Found) -> _Piece:
    value = number.value
    if value.low != value.high:
        return _Piece(number.start, number.end, value.high, 0.5)
    return _Piece(number.start, number.end, value.low)


def _found(
    start: int, end: int, name: Found | None, piece: _Piece, gsm: Fraction | None, coat: bool, flags: tuple[Flag, ...]
) -> Found:
    value = LayerSaid(name.value.name if name else None, piece.count, gsm, coat)
    confidence = min(piece.certain, name.confidence if name else 0.8)
    rule = "layers.coats" if coat else "layers.fabric" if name else "layers.count"
    return Found("layer", min(start, piece.start), max(end, piece.end), value, rule, confidence, flags)
