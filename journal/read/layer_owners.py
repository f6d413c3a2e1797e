"""What layers and coats are of: the fabric or the material said before or after their count."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from journal.read.families import family_of
from journal.read.findings import Found, MaterialSaid
from journal.read.layer_counts import Counts
from journal.read.layers_patterns import (
    LOOSE,
    NEAR,
    NOT_COATED,
    REACH,
    STITCHED,
    STYLES,
    UNDER,
)
from journal.read.lexicon import JOINERS


class Owners(Counts):
    """The fabrics and coatings of one note's layers."""

    def fabric_after(self, at: int) -> tuple[Found | None, Fraction | None, int]:
        """The weight and fabric after "layers of": either may be missing. Returns (material, gsm, end)."""
        end, gsm = at, None
        if self.is_numbered(at):
            at += 1
        while (
            at < len(self.lower) and (self.lower[at] in LOOSE or self.lower[at] in JOINERS) and at not in self.material
        ):
            at += 1
        style = self.number.get(at)
        stitched = None
        if style is not None and style.value.low in STYLES:
            at = end = style.end
            said = MaterialSaid(STITCHED, known=True)
            stitched = Found("material", style.start, style.end, said, "layers.style", 0.8)
        if at in self.areal:
            gsm = self.areal[at].value.gsm
            at = end = self.areal[at].end
        elif (bare := self.bare_weight(at)) is not None and at != end:
            gsm, at = bare
            end = at
        while at < len(self.lower) and self.lower[at] in ("of", "the", "weight") and at not in self.material:
            at += 1
        item = self.material.get(at)
        if item is not None and gsm is None and self.is_fabric(item):
            gsm, end = self.weight_after(item.end, counted=True)
            return item, gsm, end
        return (item, gsm, item.end) if item is not None else (stitched, gsm, end)

    def owner_before(self, start: int, coat: bool) -> Found | None:
        """The material that a count after it belongs to: "mat, two layers", "hessian dipped in plaster, two layers"."""
        at = start
        while at and self.lower[at - 1] in (",", "-", "x", "in"):
            at -= 1
        beside = self.material_end.get(at)
        if beside is not None and coat:
            return self.coating(beside)
        if beside is None or self.is_fabric(beside):
            return beside
        near = [m for m in self.material.values() if at - NEAR <= m.end <= at and self.is_fabric(m)]
        return near[-1] if near else None

    def coated(self, at: int, coat: bool) -> Found | None:
        """The one material of the sentence that a coat can be of: "gun's on, black gel coat, two passes"."""
        start = at
        while start and self.lower[start - 1] not in (".", ";") and at - start < REACH:
            start -= 1
        said = [m for m in self.material.values() if start <= m.start and m.end <= at]
        families = {family_of(m.value.name, self.words) for m in said}
        if not coat or len({m.value.name for m in said}) != 1 or families & NOT_COATED:
            return None
        return None if "fabric" in families and not self.sprayed else replace(said[-1], start=at, end=at)

    def coating(self, beside: Found) -> Found:
        """Return what was put on, where the material beside is what it was put on: "shellac over the clay"."""
        at = beside.start
        while at and self.lower[at - 1] in ("the", "a", "my", "our", "that", "all"):
            at -= 1
        if at == 0 or self.lower[at - 1] not in UNDER:
            return beside
        near = [m for m in self.material.values() if at - NEAR <= m.start and m.end < at]
        put = [m for m in near if not {",", "and", "then"} & set(self.lower[m.end : at])]
        return put[-1] if put and family_of(put[-1].value.name, self.words) != "fabric" else beside
