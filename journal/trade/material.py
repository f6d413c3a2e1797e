"""Materials as the shop knows them, and the catalogue that holds them."""

from __future__ import annotations

from dataclasses import dataclass, field

from journal.trade.limits import TradeError

KINDS = {
    "epoxy resin": "two-part epoxy that is poured, laminated or cast",
    "epoxy gel coat": "thickened epoxy for the face of a mould",
    "epoxy putty": "kneadable or trowelled two-part epoxy",
    "polyester resin": "unsaturated polyester, cured with a peroxide",
    "polyester gel coat": "unsaturated polyester or vinyl ester for the face of a mould",
    "vinyl ester resin": "vinyl ester, cured with a peroxide",
    "urethane resin": "rigid two-part urethane",
    "urethane rubber": "flexible two-part urethane",
    "silicone": "silicone rubber for moulds",
    "latex": "natural or synthetic latex, air drying",
    "plaster": "gypsum that sets with water",
    "resin": "a resin of no family named above",
    "hardener": "part B of an epoxy or urethane",
    "catalyst": "peroxide, or part B of a silicone",
    "accelerator": "promoter for a peroxide cure",
    "filler": "powder, fibre or ready-made paste that thickens or fills",
    "pigment": "colour paste or powder",
    "glass fabric": "glass reinforcement sold by areal weight",
    "other fabric": "any other reinforcement sold by areal weight, and bulkers",
    "release": "release agent",
    "sealer": "what closes the pores of a pattern",
    "clay": "modelling clay for walls, fillets and patterns",
    "solvent": "solvent or thinner",
    "supply": "any other thing that a bench uses up",
}
REACTIVE_KINDS = frozenset(
    {
        "epoxy resin", "epoxy gel coat", "epoxy putty", "polyester resin", "polyester gel coat", "vinyl ester resin",
        "urethane resin", "urethane rubber", "silicone", "resin",
    }
)  # fmt: skip
FABRIC_KINDS = frozenset({"glass fabric", "other fabric"})
CAUTIONS = ("skin sensitiser", "peroxide", "styrene", "isocyanate", "dust", "exotherm", "solvent")


@dataclass(frozen=True, slots=True)
class Material:
    """One material of the catalogue. Fields that the shop has not filled in are empty or None.

    `kind` is a family of KINDS; `general` the general words that
    may stand for it ("resin"); `heard_as` what speech-to-text makes of its names. `ratio` gives the
    parts main : second, `ratio_by` weight or volume, `second_part` the name of what goes in as part B,
    `tolerance_percent` how far a weighing may be off. `pot_life_s` is for 100 g at 25 degC;
    `recoat_s` (earliest, latest) seconds; `density` and `density_second` g/ml; `gsm` the areal weights
    it is sold in, g/m2; `amount_range_g` the (least, most) grams that a bench would plausibly weigh;
    `percent_range` (least, most) percent by weight of what it is added to; `cure_s` seconds to demould;
    `tack_free_s` and `full_cure_s` seconds to those, like all times at 25 degC; `largest_batch_g` the most that is
    safe in one pot; `resin_to_glass` grams of resin that a gram of this fabric takes;
    `temperature_range_c` (least, most) degC that it may be worked at; `cautions` keys of CAUTIONS.
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
    tack_free_s: float | None = None
    cure_s: float | None = None
    full_cure_s: float | None = None
    largest_batch_g: float | None = None
    resin_to_glass: float | None = None
    activation_energy_kj: float | None = None
    density: float | None = None
    density_second: float | None = None
    gsm: tuple[float, ...] = ()
    amount_range_g: tuple[float, float] | None = None
    percent_range: tuple[float, float] | None = None
    temperature_range_c: tuple[float, float] | None = None
    humidity_most_percent: float | None = None
    dew_margin_c: float | None = None
    cautions: tuple[str, ...] = ()

    @property
    def reacts(self) -> bool:
        """Whether it sets by a reaction that warmth hastens, so that its times shift with temperature."""
        return self.kind in REACTIVE_KINDS

    @property
    def is_fabric(self) -> bool:
        """Whether it is laid in layers and sold by areal weight."""
        return self.kind in FABRIC_KINDS


@dataclass(frozen=True, slots=True)
class ShopWord:
    """A word of the shop that names no single material: a general word ("resin") or a term ("pot life")."""

    name: str
    synonyms: tuple[str, ...] = ()
    heard_as: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Catalogue:
    """The shop's materials by name, the general words that stand for several of them, and its terms.

    Catalogues compare and hash by identity, so that what is worked out from one is kept beside it.
    """

    materials: tuple[Material, ...] = ()
    by_name: dict[str, Material] = field(default_factory=dict)
    general_words: tuple[ShopWord, ...] = ()
    terms: tuple[ShopWord, ...] = ()
    _by_general_word: dict[str, tuple[Material, ...]] = field(default_factory=dict)

    def get(self, name: str) -> Material | None:
        """Return the material of that name or synonym, or None."""
        return self.by_name.get(name_key(name))

    def meant_by(self, general_word: str) -> tuple[Material, ...]:
        """Return the materials that a general word ("resin") may stand for."""
        key = name_key(general_word)
        if key not in self._by_general_word:
            self._by_general_word[key] = tuple(m for m in self.materials if key in map(name_key, m.general))
        return self._by_general_word[key]


def material_named(catalogue: Catalogue, name: str) -> Material:
    """Return the catalogue's material of that name or synonym. Raises TradeError for a name it does not hold."""
    found = catalogue.get(name)
    if found is None:
        raise TradeError("material", f"{name!r} is not in the catalogue")
    return found


def name_key(name: str) -> str:
    """Return a name as catalogues compare it: case and runs of space do not count."""
    return " ".join(name.casefold().split())


def catalogue_of(
    materials: tuple[Material, ...],
    general_words: tuple[ShopWord, ...] = (),
    terms: tuple[ShopWord, ...] = (),
) -> Catalogue:
    """Return a catalogue that finds each material by its name and synonyms; names win over synonyms.

    Of two materials with one synonym the first keeps it. General words that a material names and
    that have no entry of their own are added.
    """
    by_name: dict[str, Material] = {}
    for material in materials:
        for synonym in material.synonyms:
            by_name.setdefault(name_key(synonym), material)
    by_name |= {name_key(m.name): m for m in materials}
    listed = {word.name: word for word in general_words}
    for word in (name_key(general) for material in materials for general in material.general):
        listed.setdefault(word, ShopWord(word))
    return Catalogue(materials, by_name, tuple(listed.values()), terms)
