"""Whether a length is how thick something was laid, or how long, high or far apart something is."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from journal.read.built_up import is_across, is_built_up
from journal.read.measures import Measure
from journal.read.nearby import nearest, sentence
from journal.read.pressures import LOST, Made
from journal.read.warmth import IT

_THICK = frozenset(
    "thick thickness film wet build gauge skin deep coat coats sprayed gel comb laminate measures".split()
)
# Boards and cores are said by their thickness; tools, bolts and sections by their size, which is no fact of a step.
_BOARDS = frozenset("ply plywood board mdf acrylic sheet foam core balsa honeycomb melamine".split())
_SIZED_TOOLS = frozenset(
    {"brush", "brushes", "roller", "rollers", "chip", "nozzle", "bolt", "bolts", "bit", "drill", "screw", "screws",
     "tube", "steel", "paddle", "disc", "pad", "tape", "hose", "pipe", "box", "washer", "washers",
     "dowel", "dowels", "chopped", "strands", "putty", "bar"}
)  # fmt: skip
_NO_FILM = frozenset("deviation tolerance hole holes drill drilled vised bolt bolts pin pins gap crack "
                     "warped warp bowed twist twisted step proud lifted shrunk shrinkage out".split())  # fmt: skip
_COATS = frozenset({"coat", "coats", "skin", "laid"})
# "An inch of plaster over the lot": how thick it lies.
_LAID_ON = frozenset(
    "rubber silicone plaster latex gel gelcoat resin foam epoxy putty filler paste glass laminate wax clay concrete "
    "cement gypsum urethane fairing compound mat balsa core".split()
)
_MOST_LAID_MM, _MOST_FILM_MM = 60, 100
_DRAWN = frozenset("sucked vacuum degas degassed degassing pump chamber bag pulled air".split())
_VACUUM = _DRAWN | frozenset("pulling vac gauge bagged drew draw pull mercury".split())
_GAUGES = frozenset({"gauge", "gage", "vacuum"})
_THIN_MM, _THIN_REACH = 3, 10  # a coat or a skin: nothing else in the shop is said to be so thin
_FAR_OFF, _LEAST_FAR_MM = (("up",), ("away",)), 1000
_MOST_MILS = 200  # a fifth of an inch
_MOST_AGAIN_MM = 30  # "thickness 4.2 mm at the crown, 3.6 mm at the skirt"
_MBAR_PER_INCH = Fraction("33.86389")  # of mercury; NIST SP 811, Appendix B.8


def of_length(texts: tuple[str, ...], one: Measure) -> Made | None:
    """Return the kind and the value (mm; mbar for inches of a vacuum gauge) of a measured length; None for a tool's."""
    size = (one.low + one.high) / 2
    following = texts[one.end : one.end + 3]
    named = following[1:] if following[:1] == ("-",) else following
    if _BOARDS & set(named[:2]) and "of" not in named[:2]:
        if one.unit.name == "thou" and size < 1:
            return "thickness", size / one.unit.factor, "no board is so thin in thousandths: taken for mm"
        return "thickness", size, None  # "12 millimetre foam core", "18 mil ply"
    if texts[one.end : one.end + 1] in _FAR_OFF and size >= _LEAST_FAR_MM:
        return None  # "it's going twelve metres up"
    if _SIZED_TOOLS & set(named[:1]) or (one.unit.name == "inch" and _is_loss_of_vacuum(texts, one)):
        return None
    if one.unit.name == "inch" and _is_vacuum_gauge(texts, one):
        return "vacuum", abs(size) / one.unit.factor * _MBAR_PER_INCH, None
    doubt = "so many thousandths of an inch are no film: millilitres, perhaps" if _is_no_film(one) else None
    return ("thickness" if _is_thickness(texts, one, size) else "length"), size, doubt


def _is_no_film(one: Measure) -> bool:
    """Whether a figure of mils is too great for any coat: "six hundred mil total"."""
    return one.unit.name == "thou" and one.high / one.unit.factor >= _MOST_MILS


def _is_loss_of_vacuum(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether inches say how far a gauge fell: "pulled 29 inches on it, LOST HALF AN INCH in ten minutes"."""
    lost = not LOST.isdisjoint(texts[max(0, one.start - 3) : one.start])
    return lost and not _VACUUM.isdisjoint(sentence(texts, one.start, one.start, 14))


def _is_thickness(texts: tuple[str, ...], one: Measure, size: Fraction) -> bool:
    if texts[one.end : one.end + 1] == ("thick",):
        return True
    if is_across(texts, one.end, one.end + 1):
        return False  # "two inches high", "half an inch off the skin"
    if size <= _MOST_AGAIN_MM and "thickness" in sentence(texts, one.start, one.end, 14):
        return True
    if _NO_FILM & set(texts[max(0, one.start - 6) : one.end + 6]):
        return False
    laid = _is_grown(texts, one) or is_built_up(texts, one.start, one.end) or _is_laid_on(texts, one)
    if one.unit.name in ("micron", "thou") or size <= 1 or (size <= _MOST_LAID_MM and laid):
        return True
    return size <= _MOST_FILM_MM and _near(texts, one, _THICK, _THIN_REACH if size <= _THIN_MM else 3)


def _is_laid_on(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it is how much of a stuff lies there: "20 mm of foam on the back", "an inch of plaster over the lot"."""
    following = texts[one.end : one.end + 4]
    return following[:1] == ("of",) and not _LAID_ON.isdisjoint(following[1:])


def _is_grown(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether it says how thick coats have come to be: "two more coats, it's a good quarter inch over the nose now"."""
    led = texts[max(0, one.core - 5) : one.core]  # "up to" before it included
    said = any(pair in IT for pair in pairwise(led)) or led[-2:] in (("up", "to"), ("now", "at"))
    before = sentence(texts, one.start, one.start, 30)
    stuff = not _COATS.isdisjoint(before) or (led[-2:] == ("up", "to") and not _LAID_ON.isdisjoint(before))
    return said and stuff and not is_across(texts, one.end, one.end + 2)


def _is_vacuum_gauge(texts: tuple[str, ...], one: Measure) -> bool:
    """Whether inches are of mercury: below zero, or large beside a word of vacuum."""
    inches = (one.low + one.high) / 2 / one.unit.factor
    read = 0 < inches < 10 and _near(texts, one, _GAUGES, 3)
    drawn = 20 <= inches <= 30 and not _DRAWN.isdisjoint(sentence(texts, one.start, one.start, 16))
    if drawn and texts[max(0, one.start - 1) : one.start] == ("at",):
        return True  # "sucked the air out of it, six minutes at twenty-nine inches"
    return inches < 0 or read or (10 <= inches <= 30 and _near(texts, one, _VACUUM, 8))


def _near(texts: tuple[str, ...], one: Measure, cues: frozenset[str], reach: int) -> bool:
    return nearest(texts, one.start, one.end, lambda at: texts[at] if texts[at] in cues else None, reach) is not None
