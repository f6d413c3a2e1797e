"""Materials as the shop knows them, and the catalogue that holds them."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Material:
    """One material of the catalogue. Fields that the shop has not filled in are empty or None.

    `kind` is a family ("epoxy resin", "silicone", "glass fabric" ...); `general` the general words that
    may stand for it ("resin"); `heard_as` what speech-to-text makes of its names. `ratio` gives the
    parts main : second, `ratio_by` weight or volume, `second_part` the name of what goes in as part B,
    `tolerance_percent` how far a weighing may be off. `pot_life_s` is for 100 g at 25 degC;
    `recoat_s` (earliest, latest) seconds; `density` and `density_second` g/ml; `gsm` the areal weights
    it is sold in, g/m2; `amount_range_g` the (least, most) grams that a bench would plausibly weigh;
    `cure_s` seconds to demould; `temperature_range_c` (least, most) degC that it may be worked at.
    """

    name: str
    kind: str
    synonyms: tuple[str, ...] = ()
    heard_as: tuple[str, ...] = ()
    general: tuple[str, ...] = ()
    second_part: str | None = None
    ratio: tuple[float, ...] = ()
    ratio_by: str | None = None
    tolerance_percent: float | None = None
    pot_life_s: float | None = None
    gel_s: float | None = None
    recoat_s: tuple[float, float] | None = None
    cure_s: float | None = None
    activation_energy_kj: float | None = None
    density: float | None = None
    density_second: float | None = None
    gsm: tuple[float, ...] = ()
    amount_range_g: tuple[float, float] | None = None
    percent_range: tuple[float, float] | None = None
    temperature_range_c: tuple[float, float] | None = None
    humidity_most_percent: float | None = None
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The shop's materials by name, and the general words that stand for several of them."""

    materials: tuple[Material, ...] = ()
    by_name: dict[str, Material] = field(default_factory=dict)

    def get(self, name: str) -> Material | None:
        """Return the material of that name or synonym, or None."""
        return self.by_name.get(" ".join(name.casefold().split()))


def catalogue_of(materials: tuple[Material, ...]) -> Catalogue:
    """Return a catalogue that finds each material by its name and synonyms; names win over synonyms."""
    by_name: dict[str, Material] = {}
    for material in materials:
        for synonym in material.synonyms:
            by_name.setdefault(" ".join(synonym.casefold().split()), material)
    by_name |= {" ".join(m.name.casefold().split()): m for m in materials}
    return Catalogue(materials, by_name)
