"""Which unit stands at a place, in the maker's dialect."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from journal.read.built_up import is_built_up, is_measured_wall
from journal.read.nearby import sentence
from journal.read.pieces import Pieces
from journal.read.unit_words import (
    ABBREVIATIONS,
    AFTER_DIGITS,
    AFTER_HOURS,
    AFTER_IN,
    BY_FIRST,
    COUNTED,
    DIALECT,
    FABRIC,
    GLUED_ONLY,
    MAT,
    NOT_BETWEEN,
    PLURALS,
)
from journal.trade.quantity import UNITS, Unit

_THICKNESS = frozenset({"thick", "thickness", "film", "wet", "gauge", "build", "gage", "deep"})
_FILM = frozenset({"wet", "film", "gauge", "gage", "comb", "gel", "build", "coat", "coats"})
_SHAPES = frozenset(
    {"trim", "trimmed", "flange", "flanges", "wide", "high", "long", "overlap", "overlaps", "overlapped", "lip", "edge",
     "gap", "clear", "warped", "bowed", "hole", "holes", "drill", "drilled", "apart", "radius",
     "proud", "lap", "laps", "wall", "square", "centres"}
)  # fmt: skip
_BOARDS = frozenset({"ply", "plywood", "board", "mdf", "acrylic", "steel", "sheet", "foam", "tube", "bar", "rod"})
_ANGLE_AFTER = frozenset(
    {"angle", "angles", "turn", "bend", "corner", "chamfer", "elbow", "bevel", "bias", "to", "apart", "draft",
     "draught", "off", "round"}
)  # fmt: skip
_ANGLE_BEFORE = frozenset({"rotated", "turned", "angle", "rotate", "turn", "±", "tilted", "bias"})
_LIQUID = frozenset(
    "resin hardener catalyst cat peroxide mekp silicone rubber latex water acetone alcohol pigment epoxy polyester "
    "part mix mixed cup cups syringe pot jug bucket pour poured each a b urethane thinners wax pva shellac sealer "
    "styrene plaster accelerator volume litre litres".split()
)
_LEAST_SPELLED_DEGREES = 15  # "sixty C"; "five c" is no temperature
_COATS = frozenset("coat coats gel gelcoat sprayed brushed passes film comb".split())
_SECONDS = frozenset("catalyst cat peroxide mekp hardener pigment accelerator paste".split())
_LINKS = frozenset("to about at on roughly around".split())
_MOST_BUILT_MM = 60
_MOST_MM = 3  # "half a mil of gel" is a thickness
_MIL_GB_LEAST_THOU = 5


@dataclass(frozen=True, slots=True)
class UnitSaid:
    """A unit in the pieces up to `end`. `said` is its words; `why` tells of a doubt about it."""

    unit: Unit
    end: int
    said: str
    confidence: float = 1.0
    why: str | None = None


def unit_at(pieces: Pieces, at: int, value: Fraction, locale: str, near: int) -> UnitSaid | None:
    """Return the unit at the piece for a number of this value that starts at piece `near`, or None."""
    texts = pieces.texts
    if at >= len(texts):
        return None
    for tail, name in BY_FIRST.get(texts[at], ()):
        end = at + 1 + len(tail)
        if texts[at + 1 : end] == tail:
            if not tail and not _stands(pieces, at, value, near):
                return None
            return _resolve(texts, name, at, end, value, locale, near)
    return _counted(texts, at, value)


def _stands(pieces: Pieces, at: int, value: Fraction, near: int) -> bool:
    """Whether a short or common word is a unit here ("6 in wide", "20 c", "sixty C", not "two in the pot")."""
    text = pieces.texts[at]
    if text not in ABBREVIATIONS:
        return True
    digits = pieces.texts[at - 1][-1:].isdecimal() or pieces.texts[at - 1] in "½¼¾⅓⅔⅛⅜⅝⅞°"
    if text in ("c", "f") and not digits:
        return value >= _LEAST_SPELLED_DEGREES
    if text in GLUED_ONLY:
        together = pieces.tokens[at - 1] == pieces.tokens[at]
        return digits and (together or _is_apart(pieces.texts, at))
    return digits or (text not in AFTER_DIGITS and at > near and pieces.texts[at - 1] not in ("a", "an", "of"))


def _is_apart(texts: tuple[str, ...], at: int) -> bool:
    """Whether a letter apart from its digits is a unit: "6 in wide", "2 h at 40", "for 180 s"."""
    after = texts[at + 1] if at + 1 < len(texts) else ""
    if texts[at] == "in":
        return after in AFTER_IN
    if texts[at] == "s":
        return texts[at - 2 : at - 1] in (("for",), ("after",), ("about",))
    return after in AFTER_HOURS


_NUMBERED = tuple((word,) for word in "coat layer ply half batch pot one pull cast casting".split())


def _resolve(
    texts: tuple[str, ...], name: str, at: int, end: int, value: Fraction, locale: str, near: int
) -> UnitSaid | None:
    said = " ".join(texts[at:end])
    if texts[at:end] == ("second",) and texts[end : end + 1] in _NUMBERED:
        return None  # "at nine, second coat at ten"
    if name == "mil":
        return _mil(texts, end, said, value, locale, near)
    if name == "degrees":
        return _degrees(texts, end, said, value, locale, near)
    if name == "parts" and texts[at] == "part" and value != 1:
        return None
    if name in ("g", "oz", "kg"):
        areal = _areal(texts, name, end)
        if areal is not None:
            return UnitSaid(areal[0], areal[1], " ".join(texts[at : areal[1]]))
    dialect = DIALECT.get(locale, DIALECT["en-GB"])
    return UnitSaid(UNITS[dialect.get(name, name)], end, said)


def _areal(texts: tuple[str, ...], name: str, end: int) -> tuple[Unit, int] | None:
    """grams per square metre, oz/yd2 said out."""
    if end >= len(texts) or texts[end] not in ("per", "/", "a"):
        return None
    for tail, area in BY_FIRST.get(texts[end + 1] if end + 1 < len(texts) else "", ()):
        stop = end + 2 + len(tail)
        unit = UNITS.get(f"{name}/{({'sq foot': 'ft2', 'sq yard': 'yd2'}).get(area, area)}")
        if unit is not None and texts[end + 2 : stop] == tail:
            return unit, stop
    return None


def _mil(texts: tuple[str, ...], end: int, said: str, value: Fraction, locale: str, near: int) -> UnitSaid | None:
    """Millilitres, millimetres or thousandths of an inch: speech says "mil" for all three."""
    after = texts[end] if end < len(texts) else ""
    around = set(texts[max(0, near - 4) : near]) | set(texts[end : end + 4])
    if after in _BOARDS or (after != "of" and around & _SHAPES):
        return UnitSaid(UNITS["mm"], end, said, 0.8)
    thick = bool(around & _THICKNESS) or (value <= _MOST_MM and "gel" in texts[end : end + 3])
    thick = thick or (after != "of" and _is_laid(texts, value, near, end))
    if locale == "en-US":
        if after == "of" and not thick and not set(texts[end : end + 4]) & {"gel", "wax", "coating"}:
            return UnitSaid(UNITS["ml"], end, said, 0.7, f"{said} may mean ml or thousandths of an inch")
        return UnitSaid(UNITS["thou"], end, said, 0.8)
    if not thick and (after == "of" or not _LIQUID.isdisjoint(sentence(texts, near, end, 16))):
        return UnitSaid(UNITS["ml"], end, said, 0.85)
    if not thick:
        return UnitSaid(UNITS["mm"], end, said, 0.6, f"{said} may mean ml or mm")
    film = around & _FILM and not _is_laid(texts, value, near, end)
    name = "thou" if value >= _MIL_GB_LEAST_THOU and film else "mm"
    return UnitSaid(UNITS[name], end, said, 0.6, f"{said} may mean mm or thousandths of an inch")


def _is_laid(texts: tuple[str, ...], value: Fraction, near: int, end: int) -> bool:
    """Whether it says how thick something was laid: "slushed to five mil", "three coats, 0.8 of a mil all up"."""
    linked = not _LINKS.isdisjoint(texts[max(0, near - 2) : near])
    walls = is_measured_wall(texts, near, end, sentence(texts, near, end, 14))
    if (linked or walls) and value <= _MOST_BUILT_MM and is_built_up(texts, near, end):
        return True
    coats = not _COATS.isdisjoint(sentence(texts, near, near, 10))
    return value <= _MOST_MM and coats and _SECONDS.isdisjoint(texts[max(0, near - 3) : end + 2])


def _degrees(texts: tuple[str, ...], end: int, said: str, value: Fraction, locale: str, near: int) -> UnitSaid | None:
    after = texts[end] if end < len(texts) else ""
    laid = value in (45, 90) and not FABRIC.isdisjoint(texts[max(0, near - 8) : near])
    if laid or after in _ANGLE_AFTER or after in FABRIC or set(texts[max(0, near - 3) : near]) & _ANGLE_BEFORE:
        return None
    # Bare degrees: the record's settled reading for a shop in the United States.
    fahrenheit = locale == "en-US" and value >= 45
    return UnitSaid(UNITS["degF" if fahrenheit else "degC"], end, said, 0.9)


def _counted(texts: tuple[str, ...], at: int, value: Fraction) -> UnitSaid | None:
    """Pots, brushes, drops: by the count, with at most one word between ("three mixing pots")."""
    word = texts[at]
    if word in COUNTED:
        if word in PLURALS or texts[at + 1 : at + 2] == ("of",) or (value == 1 and word != "can"):
            return UnitSaid(UNITS["count"], at + 1, COUNTED[word])
        return None
    if at + 1 < len(texts) and texts[at + 1] in PLURALS and word.isalpha():
        if word in NOT_BETWEEN or word in BY_FIRST or word in FABRIC:
            return None
        return UnitSaid(UNITS["count"], at + 2, COUNTED[texts[at + 1]], 0.8)
    return None


def fabric_weight(texts: tuple[str, ...], end: int, unit: Unit) -> Unit | None:
    """Return the areal unit when the weight just said is a fabric's ("450 gram mat", "10 ounce cloth").

    Mat goes by the square foot, cloth by the square yard (common practice, no published source).
    """
    near = texts[end : end + 2]
    if not near or near[0] == "of":
        return None
    at = 1 if near[0] in ("-", "weight", "e") else 0
    if at >= len(near) or near[at] not in FABRIC:
        return None
    if unit.name == "g":
        return UNITS["g/m2"]
    if unit.name != "oz":
        return None
    mat = set(texts[end : end + 3]) & MAT
    return UNITS["oz/ft2" if mat else "oz/yd2"]
