"""Families of things on the bench: what a material, or a plain word, is to the act that is done with it."""

from __future__ import annotations

from journal.read.findings import Findings, NoteWords

BY_NAME: dict[str, str] = {
    name: family
    for family, names in {
        "resin": "laminating epoxy|polyester resin|vinyl ester resin|urethane resin|resin|epoxy|polyester",
        "gel": "epoxy gel coat|polyester gel coat|gel coat",
        "rubber": "urethane rubber|platinum silicone|tin silicone|latex|silicone|rubber",
        "plaster": "gypsum plaster|hard gypsum|plaster",
        "putty": "epoxy putty|fairing compound|putty",
        "second": "hardener|catalyst|accelerator",
        "filler": "fumed silica|microballoons|milled fibre|chopped strands|filler",
        "pigment": "pigment",
        "fabric": "chopped strand mat|woven roving|glass cloth|biaxial glass|surface tissue|carbon cloth|"
        "bulker mat|burlap|glass|prepreg",
        "release": "release wax|pva release|semi-permanent release|petroleum jelly|silicone release spray|wax|soap|"
        "release agent",
        "seal": "shellac|sealer",
        "clay": "oil clay|water clay|clay",
        "solvent": "acetone|alcohol",
        "water": "water",
        "bagging": "peel ply|bleeder cloth",
        "bag": "vacuum bag",
        "hardware": "plywood|steel tube|foam board",
    }.items()
    for name in names.split("|")
}

# A catalogue's `kind` is free text: the first of these words in it tells the family.
_BY_KIND = (
    ("gel coat", "gel"), ("putty", "putty"), ("fairing", "putty"), ("hardener", "second"), ("catalyst", "second"),
    ("accelerator", "second"), ("second", "second"), ("release", "release"), ("wax", "release"), ("seal", "seal"),
    ("silicone", "rubber"), ("rubber", "rubber"), ("latex", "rubber"), ("plaster", "plaster"), ("gypsum", "plaster"),
    ("fabric", "fabric"), ("glass", "fabric"), ("cloth", "fabric"), ("reinforce", "fabric"), ("fibre", "filler"),
    ("filler", "filler"), ("colour", "pigment"), ("pigment", "pigment"), ("clay", "clay"), ("solvent", "solvent"),
    ("resin", "resin"), ("bag", "bagging"),
)  # fmt: skip

WORDS: dict[str, str] = {
    word: family
    for family, words in {
        "gap": "undercut undercuts gap gaps void voids recess recesses hollow hollows cavity ear ears corner corners",
        "hole": "hole holes",
        "damage": "blowhole blowholes chip chips crack cracks tear tears rip split pinhole pinholes blister blisters "
        "ding dings gouge damage",
        "flash": "flash flashing excess sprue sprues overhang dags flush",
        "brushes": "brush brushes",
        "roller": "roller rollers buster paddle",
        "scale": "scale scales balance",
        "split": "split parting centreline centerline",
        "rope": "rope roving",
        "pattern": "pattern plug master original model",
        "coat": "coat coats pass passes",
        "layer": "layer layers ply plies skin",
        "bag": "bag bags",
        "oven": "oven cooker hotbox autoclave clave blanket",
        "vac": "vacuum vac pump chamber",
        "mould": "mould mold moulds molds halves case jacket",
        "part": "part parts piece pieces one it them",
        "cast": "cast casting castings casts pull pulls",
        "photo": "photo photos picture pictures pic pics shot snap",
        "insert": "insert inserts bolt bolts frame frames hinge hinges handle handles lug lugs dowel dowels bush "
        "bushes bushing bushings nut nuts stud studs thread threads bracket brackets hardware tube batten battens pin "
        "pins rod rods rebar armature locators locator wingnuts casters castors feet eyebolts toggles latch latches",
        "wall": "cottle cottles wall walls dam dams fence fences shims shim former formers barrier",
        "batch": "batch batches mix pot pots brew cup bucket lot",
        "grit": "grit sandpaper wet-and-dry sander abrasive 36 40 60 80 100 120 150 180 220 240 320 400 "
        "600 800 1000 1200 1500 2000",
        "night": "overnight night weekend",
        "postcure": "postcure post-cure",
        "keep": "shelf shelves rack racks racking store stores storeroom cupboard fridge freezer crate crates loft "
        "pallet drawer cabinet cabinets locker lockers",
        "press": "weights bricks sandbags clamps clamp weight brick sandbag straps strap",
        "core": "core cores stringer stringers bulkhead bulkheads stiffener stiffeners lath laths",
        "powder": "powder",
        "polish": "polish compound cutting",
    }.items()
    for word in words.split()
}
WORDS |= {
    "varnish": "seal",
    "thinners": "solvent",
    "meths": "solvent",
    "balloons": "filler",
    "silica": "filler",
    "strands": "filler",
}
WORDS |= {"primer": "seal", "thixo": "filler", "thixotropic": "filler"}
WORDS |= {"scrim": "fabric", "gauze": "fabric", "muslin": "fabric", "bandage": "fabric", "peroxide": "second"}
WORDS |= {"soap": "release", "beeswax": "release", "talc": "release", "lacquer": "seal"}
WORDS |= {"plastilina": "clay"}
WORDS |= {"release": "release", "gel": "gel", "hessian": "fabric", "mats": "fabric"}

_MEASURED = ("amount", "condition", "duration", "areal", "ratio", "lot", "moment")
_CLOSED = ((), (".",), (",",), ("and",), ("after",))
ORDER = frozenset("first second third fourth fifth next last final other".split())
MAIN = frozenset({"resin", "gel", "rubber", "plaster", "putty"})


def family_of(name: str, words: NoteWords) -> str | None:
    """Return the family of a record's material name, by name or else by its kind in the catalogue."""
    family = BY_NAME.get(name)
    if family is not None:
        return family
    material = words.catalogue.get(name)
    kind = material.kind.casefold() if material else ""
    return next((family for word, family in _BY_KIND if word in kind), None)


def marks(words: NoteWords, found: Findings) -> list[tuple[int, str]]:
    """Return (token, family) of every thing named in the note, in the order of the text."""
    said = [item for item in found.of(*_MEASURED) if getattr(item.value, "unit", "s")]
    measured = {i for item in said for i in range(item.start, item.end)}
    out = [
        (i, WORDS[word])
        for i, word in enumerate(words.lower)
        if word in WORDS and not (word.isdigit() and i in measured)
    ]
    for item in found.of("material"):
        family = family_of(item.value.name, words)
        if item.value.part == "B":
            family = "second"
        if family:
            out.append((item.start, family))
    out += [(i, "coat") for i in _coats_by_order(words, found)]
    out += [(item.start, "lot") for item in found.of("lot")]
    out += [(i, "postcure") for i, word in enumerate(words.lower) if word == "post" and _cures(words.lower, i + 1)]
    out += [(item.start, item.kind) for item in found.of("duration", "moment")]
    out += [(item.start, "weight") for item in found.of("amount") if item.value.unit in ("g", "ml")]
    out += [(item.start, item.value.kind) for item in found.of("condition")]
    out += [(item.start, "fabric") for item in found.of("areal", "layer") if not _is_coat(item.value)]
    told = {i for item in found.of("reason", "cue", "warning", "question") for i in range(item.start, item.end)}
    acts_told = {i for item in found.of("warning") for i in range(item.start, item.end)}
    return sorted((token, family) for token, family in out if token not in told or token in acts_told)


def _coats_by_order(words: NoteWords, found: Findings) -> list[int]:
    """Return the tokens of "one" that stand for a coat told of before: "two coats on, THE NEXT ONE goes on at four"."""
    coats = [item.end for item in found.of("layer") if _is_coat(item.value)]
    first = min(coats, default=len(words.lower))
    return [
        i for i in range(first, len(words.lower))
        if (words.lower[i] == "one" and words.lower[i - 1] in ORDER)
        or (words.lower[i] == "another" and words.lower[i + 1 : i + 2] in _CLOSED)
    ]  # fmt: skip


def _cures(lower: tuple[str, ...], at: int) -> bool:
    return (lower[at + 1 : at + 2] if lower[at : at + 1] == ("-",) else lower[at : at + 1]) in (("cure",), ("curing",))


def _is_coat(value: object) -> bool:
    return bool(getattr(value, "coat", False))
