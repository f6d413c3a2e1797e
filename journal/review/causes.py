"""Faults and their usual causes: what could bring each about, how commonly, and who says so.

`PRESS`: published in the trade press on gel coat and laminate faults. `RULES`: a classification society's rules for
fibre-reinforced plastic ships. `PRACTICE`: common practice, no published source. A cause listed here could have
brought a fault about; only the mould can tell whether it did.
"""

from __future__ import annotations

from dataclasses import dataclass

from journal.review.traits import (
    COLD,
    DAMP,
    EARLY_DEMOULD,
    FEW_COATS,
    HAND,
    HEAVY_FIRST,
    HOT,
    LARGE_BATCH,
    LITTLE_RESIN,
    LITTLE_SECOND,
    LOT,
    MISSING,
    MUCH_RESIN,
    MUCH_SECOND,
    THICK_GEL,
    THIN_GEL,
    THIN_GLASS,
    TOO_EARLY,
    TOO_LATE,
)

PRESS = "published, trade press"
RULES = "published, ship classification rules"
PRACTICE = "common practice, no published source"


@dataclass(frozen=True, slots=True)
class Cause:
    """A usual cause of a fault. `weight` 3 is a first suspect, 2 a usual one, 1 a possible one.

    `subjects` narrows a missing step to these acts; empty, any subject counts.
    """

    factor: str
    weight: float
    why: str
    source: str
    subjects: tuple[str, ...] = ()

    def bears_on(self, factor: str, subject: str) -> bool:
        """Return whether a difference of this factor and subject is this cause."""
        return self.factor == factor and (not self.subjects or subject.partition(" with ")[0] in self.subjects)


# A tin or a hand could be behind any fault: looked at last, and never without the others.
ANY_FAULT = (
    Cause(LOT, 1.0, "a bad or old tin shows in every mould that it went into", PRACTICE),
    Cause(HAND, 0.5, "hands differ in what they find enough", PRACTICE),
)
_SLOW = (
    Cause(LITTLE_SECOND, 3.0, "too little of the second part leaves resin that never cures", PRESS),
    Cause(COLD, 3.0, "cold slows the cure and can stop it", PRESS),
    Cause(DAMP, 2.0, "moisture holds back the cure of the surface", PRESS),
    Cause(MUCH_SECOND, 2.0, "far too much of the second part cures badly", PRACTICE),
    Cause(EARLY_DEMOULD, 1.0, "what is opened before it has cured is soft", PRACTICE),
)
_GAS = (
    Cause(MISSING, 3.0, "air that is not drawn out stays in the rubber or resin", PRACTICE, ("degas",)),
    Cause(DAMP, 2.0, "wet air leaves pinholes", PRESS),
    Cause(THICK_GEL, 2.0, "heavy passes hold their air", PRESS),
    Cause(MISSING, 2.0, "glass that is not rolled keeps its air", PRESS, ("roll",)),
)
_RELEASE_MISSING = ("release",)
CAUSES: dict[str, tuple[Cause, ...]] = {
    "soft": _SLOW,
    "tacky": _SLOW,
    "wrinkle": (
        Cause(TOO_EARLY, 3.0, "a coat laid on before the one below has cured swells and wrinkles it", PRESS),
        Cause(THIN_GEL, 3.0, "a thin coat cures badly and is attacked by the next", PRESS),
        Cause(LITTLE_SECOND, 2.0, "an undercured coat is attacked by the next", PRESS),
        Cause(COLD, 2.0, "cold leaves the coat undercured when the next goes on", PRESS),
    ),
    "void": (
        Cause(MISSING, 3.0, "undercuts that are not filled leave air behind the glass", PRESS, ("fill",)),
        Cause(MISSING, 3.0, "glass that is not rolled keeps its air", PRESS, ("roll",)),
        Cause(LITTLE_RESIN, 1.0, "dry glass holds air", PRACTICE),
    ),
    "delamination": (
        Cause(TOO_LATE, 3.0, "a coat that has cured too far gives the next no bond", PRESS),
        Cause(LITTLE_RESIN, 3.0, "dry glass does not bond", PRESS),
        Cause(MISSING, 2.0, "dirt between layers parts them", PRESS, ("clean",)),
    ),
    "pinhole": _GAS,
    "bubble": _GAS,
    "fisheye": (Cause(MISSING, 3.0, "a surface that is not clean repels the coat", PRESS, ("clean",)),),
    "crack": (
        Cause(THICK_GEL, 3.0, "thick gel coat cracks", PRESS),
        Cause(MUCH_RESIN, 3.0, "a laminate rich in resin is brittle", PRESS),
        Cause(EARLY_DEMOULD, 2.0, "opened early, it is strained before it is strong", PRESS),
        Cause(THIN_GLASS, 2.0, "a thin laminate flexes and its face cracks", PRACTICE),
        Cause(MUCH_SECOND, 1.0, "a hot cure leaves stress", PRACTICE),
    ),
    "print-through": (
        Cause(EARLY_DEMOULD, 3.0, "resin that goes on shrinking after opening shows the glass", PRACTICE),
        Cause(HEAVY_FIRST, 3.0, "heavy glass next to the gel coat shows through", RULES),
        Cause(LARGE_BATCH, 2.0, "heat of a large batch shrinks the face on to the glass", PRACTICE),
        Cause(THIN_GEL, 1.0, "thin gel coat hides less", PRACTICE),
    ),
    "warp": (
        Cause(EARLY_DEMOULD, 3.0, "opened before it is hard, it creeps", PRACTICE),
        Cause(THIN_GLASS, 2.0, "a thin or uneven laminate pulls itself out of shape", PRACTICE),
        Cause(MISSING, 1.0, "an unsupported shell moves", PRACTICE, ("fit",)),
    ),
    "stuck": (
        Cause(FEW_COATS, 3.0, "too few coats of release or sealer leave bare spots", PRACTICE),
        Cause(MISSING, 3.0, "without release agent resin bonds to the pattern", PRACTICE, _RELEASE_MISSING),
        Cause(TOO_EARLY, 2.0, "release agent that has not dried is dissolved", PRACTICE),
        Cause(MISSING, 2.0, "an open pattern takes the resin in", PRACTICE, ("seal",)),
    ),
    "tear": (
        Cause(FEW_COATS, 2.0, "too few coats of release make it hold", PRACTICE),
        Cause(EARLY_DEMOULD, 2.0, "what is not yet cured tears", PRACTICE),
        Cause(LITTLE_SECOND, 2.0, "undercured material is weak", PRACTICE),
        Cause(MISSING, 2.0, "without release agent it holds", PRACTICE, _RELEASE_MISSING),
        Cause(COLD, 1.5, "cold leaves it undercured and weak", PRACTICE),
        Cause(THIN_GLASS, 1.0, "a thin laminate gives way", PRACTICE),
    ),
    "chip": (
        Cause(THIN_GEL, 2.0, "a thin face chips", PRACTICE),
        Cause(THICK_GEL, 2.0, "a thick face is brittle", PRACTICE),
        Cause(MISSING, 1.0, "an edge with a hollow behind it breaks", PRACTICE, ("fill",)),
    ),
    "dry glass": (
        Cause(LITTLE_RESIN, 3.0, "too little resin for the glass leaves it dry", PRACTICE),
        Cause(MISSING, 2.0, "glass that is not rolled is not wetted through", PRACTICE, ("roll",)),
    ),
    "bridging": (
        Cause(MISSING, 3.0, "glass spans a hollow that was not filled", PRACTICE, ("fill",)),
        Cause(HEAVY_FIRST, 2.0, "heavy mat does not follow a tight shape", PRACTICE),
    ),
    "blush": (
        Cause(DAMP, 3.0, "moisture settles on a surface near the dew point", PRACTICE),
        Cause(COLD, 2.0, "a cold surface is nearer to the dew point", PRACTICE),
    ),
    "exotherm": (
        Cause(LARGE_BATCH, 3.0, "a large pot heats itself", PRACTICE),
        Cause(MUCH_SECOND, 3.0, "more of the second part heats more", PRACTICE),
        Cause(HOT, 2.0, "warm air leaves the heat in", PRACTICE),
    ),
    "dust": (Cause(MISSING, 2.0, "what is not cleaned off is cast in", PRACTICE, ("clean",)),),
    "leak": (Cause(MISSING, 3.0, "without a wall it runs out", PRACTICE, ("wall",)),),
    "colour": (Cause(MUCH_SECOND, 1.0, "much of the second part discolours", PRACTICE),),
}  # fmt: skip


def causes_of(kind: str) -> tuple[Cause, ...]:
    """Return the usual causes of a kind of fault, the first suspects first; for an unknown kind, those of any."""
    return (*sorted(CAUSES.get(kind, ()), key=lambda cause: -cause.weight), *ANY_FAULT)


def usual_cause(kind: str, factor: str, subject: str) -> Cause | None:
    """Return the entry of the table that makes this factor a usual cause of this kind of fault, or None."""
    return next((cause for cause in CAUSES.get(kind, ()) if cause.bears_on(factor, subject)), None)
