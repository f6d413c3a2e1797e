"""The words of places: parts of moulds and pieces, sides, the words that join them, and what is no place.

Parts stand in three sets. A part of PARTS is a place wherever it stands as a noun; one of COMMON_PARTS is
an everyday word ("back", "end", "half"), a place only with an article, a side or a preposition before it;
one of WHOLES is a thing that has places ("mould", "shell"), a place only after "of" or with a side.
"""

from __future__ import annotations


def _with_plurals(names: str) -> frozenset[str]:
    words = set(names.split())
    for word in list(words):
        words.add(
            word[:-1] + "ies"
            if word.endswith("y") and word[-2] not in "aeiou"
            else word + ("es" if word.endswith(("s", "x", "ch", "sh")) else "s")
        )
    return frozenset(words)


PARTS = _with_plurals(
    # moulds
    "flange undercut overhang spigot rebate seam sprue riser runner outlet inlet cavity parting"
    " joggle register locator mortise mortice tenon lug tab boss bosses gusset stiffener keyway"
    # edges and hollows
    " edge rim lip corner rib ridge groove channel flute crease crevice recess hollow pocket notch slot dimple cove"
    " chamfer bevel step return shoulder waist hinge tip apex arris outline perimeter quirk nook cranny"
    # architecture
    " cornice moulding molding architrave frieze dentil modillion corbel bracket capital column pilaster"
    " plinth pedestal keystone arch archway soffit spandrel baluster balustrade finial cartouche"
    " rosette roundel medallion boss patera beading astragal ogee scotia torus fascia coffer dado"
    " skirting abacus volute entablature mullion"
    # ornament
    " scroll acanthus leaf leaves petal flower bud berry berries stem stalk tendril vine swag garland festoon wreath"
    " bow drapery fold curl shell scallop fan plume urn vase shield crest crown lion mask cherub"
    " gadroon reed lettering letter numeral filigree lattice fretwork strapwork sepal"
    # vessels
    " spout handle foot-ring footring"
    # bodies
    " nose ear brow eyebrow cheek chin forehead jaw beard mane paw claw talon wing beak horn antler hoof"
    " snout nostril eyelid eyebrow lip whisker fang tooth teeth tongue toe heel ankle knee calf thigh"
    " elbow wrist knuckle fingertip collar cuff sleeve hem lapel belt buckle sandal toenail shoulder torso"
    " hip fin tail brim cusp molar gum gums"
    # vehicles and hulls
    " nosecone bilge topside hub spoke cockpit nacelle spinner winglet cowl cowling duct intake"
    " diffuser tailgate grille jawline kneecap shin temple"
    " footwell armrest coaming dome visor louvre louver endplate cleat swage"
    " flank midline trough"
    " hull keel transom deck gunwale bow stern chine strake bulkhead bonnet fender bumper sill wheelarch drain"
) - {"reeds", "fans", "step", "steps", "bow", "boss", "mask", "masks", "return", "returns", "runner", "runners"} | {
    "undersides", "underside", "face",
}  # fmt: skip

COMMON_PARTS = _with_plurals(
    "bead half side end back front top bottom middle centre center inside outside base face head neck foot eye"
    " mouth throat hand arm leg finger body belly chest spine root gate vent hole line area region section"
    " spot part piece surface step return boss runner bow mask floor roof key detail profile radius"
    " curve bend point level third quarter join joint split bridge port seat lid socket web fillet ribbon feather flame"
) | {"feet", "halves"}  # fmt: skip

WHOLES = _with_plurals(
    "mould mold board niche shell casting cast pattern master plug jacket case piece part panel pan box tub tray tool"
    " tooling former original statue bust figure frame bath basin bowl door window wall"
)

SIDES = frozenset(
    "left right top bottom front back rear upper lower inner outer inside outside near far middle centre"
    " center central side lefthand righthand hand left-hand right-hand opposite north south east west"
    " leading trailing outermost innermost underside topmost distal proximal medial lateral anterior posterior port"
    " starboard aft fore forward inboard outboard offside nearside".split()
)
MODIFIERS = SIDES | frozenset(
    "first second third fourth last other both big small little large long short deep shallow tight sharp"
    " fine thin thick wide narrow high low main whole entire vertical horizontal flat curved round"
    " straight outside parting split pour pouring bolt vent air bleed filler registration return joint"
    " mating back bottom mould mold seam clay plaster male female raised sunken rolled turned carved"
    " undercut same own".split()
)
LINE_PARTS = frozenset(
    "split parting mould mold seam joint join centre center mating glue shut bond water half way halfway sheer swage"
    " feature style belt hair jaw load waist".split()
)
HOLE_PARTS = frozenset(
    "pour pouring bolt vent air filler bleed drain screw dowel fixing sprue breather spigot key tap"
    " limber tiller".split()
)
SURFACE_PARTS = SIDES | frozenset(
    "flat curved sloping vertical horizontal thin thick open"
    " lowest highest deepest thinnest thickest high low deep tight mould mold mating tool show".split()
)

ARTICLES = frozenset("the a an this that these those its my your his her our their".split())
COUNTS = frozenset("both all each every either other another one two three four five six some".split())

KEPT_BEFORE = frozenset(
    "under underneath beneath behind between around round inside above below beside near by".split()
)
"""Prepositions that change which place is meant, and so stay in the phrase."""
PLACED_BY = KEPT_BEFORE | frozenset(
    "on onto in into over along across at off from to against through of upon up down".split()
)
JOINS = frozenset("of by near on in at under underneath behind around round between inside below above beside".split())
FRAMES = frozenset(
    "in onto under underneath beneath behind around round along across inside on into at by near beside for off"
    " through over".split()
)
"""Prepositions after which any noun with an article is a place, unless NO_PLACES has it."""

CONTAINERS = frozenset(
    "pot bucket cup oven fridge freezer kettle bench table board tray bag bin drum tin can bottle jug"
    " bowl barrel pail shelf rack shop workshop room shed van floor pallet drawer cupboard trolley jar"
    " building yard day job week sink hook peg stand trestle trestles sawhorses rafters gantry crane hoist truck garage"
    " studio kitchen cooker stove hotplate booth tent cabinet loft cellar basement wall desk".split()
)
STUFF = frozenset(
    # materials, coats and hardware
    "resin gel coat epoxy silicone plaster rubber wax glass mat cloth tissue roving layer layers ply"
    " plies coats water clay putty filler hardener catalyst mix batch paint pva shellac foam fabric fibres"
    " fibers fibre weave surface bulker tube bar rod bolt nail screw wire string tape".split()
)
NO_PLACES = (
    CONTAINERS
    | STUFF
    | frozenset(
        # tools
        "thermometer radiator scale scales brush roller paddle stick knife gun glove gloves hand hands finger fingers"
        " hose pump gauge chamber heater lamp light fan blanket cloth rag floor shop workshop room shed van"
        " trolley pallet drawer box cupboard press clamp clamps machine mixer drill compressor hopper nozzle"
        " cart wedge wedges loom saw sander vise vice scraper bandsaw jigsaw router lathe calliper callipers"
        " caliper dial gauge camera phone tablet infrared"
        " concrete grass carpet cardboard paper newspaper plastic polythene skip kettle radio tap timer"
        # time and talk
        " end day morning afternoon evening night week weekend time moment minute minutes hour hours job way"
        " whole side clock phone list sheet note notes label radio book computer screen internet other others"
        " outside same next last first second third one ones thing things stuff lot rest bit while sun cold"
        " heat dark damp shade air weather heating house go run dot mark spot money problem safe sly cheap"
        " scene verge average point plan idea process case event future photo picture video notebook catalogue"
        " sun rain order turn middle centre meanwhile beginning start past past meantime instructions"
        " datasheet data tds corner-shop pattern mould mold piece casting cast part master original pull"
        " vacuum pressure temperature humidity cure ratio weight volume percent size colour color edges world"
        " place layup lay-up monday tuesday wednesday thursday friday saturday sunday bust sculpt sculpture statue"
        " minute second summer winter spring post mail web internet tin label can comb"
        " dial meter ruler stopwatch snow backer".split()
    )
)
CAST_IN = frozenset("rubber silicone plaster latex gypsum glass laminate".split())
"""What a mould or a piece is made of and called by: "the rim of the rubber"."""
IDIOMS = (
    ("straight", "edge"), ("to", "the", "brim"),
    ("on", "the", "other", "hand"), ("at", "the", "end"), ("in", "the", "end"), ("by", "hand"), ("by", "eye"),
    ("keep", "an", "eye"), ("on", "the", "face", "of", "it"), ("at", "the", "back", "of", "my", "mind"),
    ("off", "the", "top", "of", "my", "head"), ("to", "the", "hand"), ("by", "the", "way"), ("to", "the", "touch"),
    ("on", "the", "one", "hand"), ("back", "to", "back"), ("from", "top", "to", "bottom"), ("cutting", "edge"),
    ("in", "one", "piece"), ("part", "a"), ("part", "b"), ("on", "the", "safe", "side"), ("top", "up"),
    ("second", "hand"),
    ("step", "by", "step"),
    ("to", "one", "side"), ("on", "one", "side"), ("in", "front", "of"),
)  # fmt: skip
NOT_AFTER = frozenset(
    "coat coats bolt bolts tape screw screws clamp clamps former formers board material mask cover paper"
    " gun wax paint waste model models mould moulds mold"
    " molds plug plugs comb cloth brush roller bar hour day time gram grams minute minutes hours"
    " days".split()
)
"""A part before one of these names no place but a thing ("flange bolts", "edge tape")."""
ALL_PARTS = PARTS | COMMON_PARTS | WHOLES
OPENING = ALL_PARTS | FRAMES
"""Words from which a place may be read."""
SIDED = MODIFIERS | PARTS | COUNTS
SURFACED = SURFACE_PARTS | COUNTS | PARTS | {"first", "second", "last"}
PLACED = PLACED_BY | ARTICLES
