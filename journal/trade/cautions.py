"""The usual cautions by what a material is. They never replace the safety data sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

DEFER = "Follow the material's safety data sheet, local rules and, where they ask for it, licensed practice."

CAUTIONS = {
    # HSE research report RR79: epoxy resins, hardeners and diluents sensitise skin
    "skin sensitiser": "Can sensitise skin for life: nitrile or butyl gloves as the sheet says, no skin contact.",
    # peroxide and accelerator: Practical Action technical brief KnO-100378, page 10
    "peroxide": "Peroxide harms eyes: wear goggles. Never bring it together with accelerator: it can explode.",
    # OSHA chemical sampling information CH_268200: 100 ppm, NIOSH 50 ppm
    "styrene": "Styrene vapour: extract the air at the work or wear the mask that the sheet names; no flames.",
    # HSE research report RR1199
    "isocyanate": "Isocyanate can cause asthma: no spraying or heating without the supplied air the sheet asks for.",
    # OSHA chemical sampling information CH_242120 on glass dust
    "dust": "Dust harms lungs and skin: wet-sand or extract it, and wear a mask.",
    # common practice, no published source
    "exotherm": "A deep pot of mixed resin can smoke and burn: mix small, pour it out thin, never leave it full.",
    # common practice, no published source
    "solvent": "Solvent vapour burns and makes dizzy: fresh air, no flames, rags into a closed metal bin.",
}


def cautions_for(kinds: Iterable[str]) -> tuple[str, ...]:
    """Return the texts for these kinds of danger, each once, in the order of CAUTIONS, and whom to follow.

    Raises KeyError for a kind that CAUTIONS does not hold. Empty in, empty out.
    """
    wanted = set(kinds)
    if unknown := wanted - CAUTIONS.keys():
        raise KeyError(f"no caution is written for: {', '.join(sorted(unknown))}")
    texts = tuple(text for kind, text in CAUTIONS.items() if kind in wanted)
    return (*texts, DEFER) if texts else ()


def first_uses(
    steps: Iterable[tuple[int, Iterable[str]]], kinds_of: Mapping[str, Sequence[str]]
) -> dict[int, tuple[str, ...]]:
    """Return the cautions to show with the steps in which a material is first used on a build.

    `steps` are (id, names of the materials used) in the order of the acts, `kinds_of` the kinds of danger of
    each material. Steps that bring in nothing dangerous are not in the answer.
    """
    used: set[str] = set()
    shown: dict[int, tuple[str, ...]] = {}
    for step_id, names in steps:
        new = [name for name in dict.fromkeys(names) if name not in used]
        used.update(new)
        if texts := cautions_for(kind for name in new for kind in kinds_of.get(name, ())):
            shown[step_id] = texts
    return shown
