"""The words of units, as said, typed and misheard. Values are names in `journal.trade.quantity.UNITS`,
or one of the words that need a dialect or their surroundings: pint, quart, gallon, fl oz, mil, degrees."""

from __future__ import annotations

SPELLED: dict[str, str] = {
    "g": "g", "gm gms gram grams gramme grammes": "g",
    "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes": "kg",
    "kay-gee kay-gees": "kg", "mg milligram milligrams": "mg",
    "oz ozs ounce ounces": "oz", "lb lbs pound pounds": "lb",
    "ml mls millilitre millilitres milliliter milliliters cc ccs cubic-centimetres cubic-centimeters cubic-cm": "ml",
    "cl centilitre centilitres": "cl", "l litre litres liter liters": "l",
    "fl-oz fl-ozs floz fluid-ounce fluid-ounces fluid-oz": "fl oz",
    "pint pints pt pts": "pint", "quart quarts qt qts": "quart", "gallon gallons gal gals": "gallon",
    "us-pint us-pints american-pint american-pints": "us pint",
    "us-quart us-quarts american-quart american-quarts": "us quart",
    "us-gallon us-gallons american-gallon american-gallons": "us gallon",
    "us-fl-oz us-fluid-ounce us-fluid-ounces": "us fl oz",
    "imperial-pint imperial-pints uk-pint uk-pints": "imperial pint",
    "imperial-quart imperial-quarts": "imperial quart",
    "imperial-gallon imperial-gallons uk-gallon uk-gallons": "imperial gallon",
    "imperial-fl-oz imperial-fluid-ounces": "imperial fl oz",
    "mm mms millimetre millimetres millimeter millimeters": "mm",
    "cm cms centimetre centimetres centimeter centimeters": "cm", "m metre metres meter meters": "m",
    "micron microns um µm μm micrometre micrometres micrometers": "micron",
    "thou thous thousandth-of-an-inch thousandths-of-an-inch thousandth thousandths": "thou", "mil mils": "mil",
    "in inch inches \"": "inch", "ft foot feet": "foot", "yd yds yard yards": "yard",
    "m2 m² sqm sq-m sq-metre sq-metres square-m square-metre square-metres square-meter square-meters "
    "metre-squared metres-squared meter-squared meters-squared metres-sq": "m2",
    "mm2 mm² square-mm square-millimetres square-millimeters sq-mm": "mm2",
    "cm2 cm² square-cm square-centimetres square-centimeters sq-cm": "cm2",
    "ft2 ft² sqft sq-ft sq-feet sq-foot square-ft square-foot square-feet foot-squared feet-squared": "sq foot",
    "in2 in² sq-in sq-inch sq-inches square-inch square-inches": "sq inch",
    "yd2 yd² sq-yd sq-yard sq-yards square-yard square-yards": "sq yard",
    "gsm gsms g-s-m gee-ess-em": "g/m2",
    "s sec secs second seconds": "second", "min mins minute minutes minuets": "minute",
    "h hr hrs hour hours": "hour", "day days": "day", "week weeks": "week",
    "degrees degree deg degs °": "degrees",
    "degrees-c degree-c deg-c degs-c °-c degrees-celsius degree-celsius degrees-centigrade degree-centigrade "
    "deg-celsius celsius centigrade c degc": "degC",
    "degrees-f degree-f deg-f degs-f °-f degrees-fahrenheit degree-fahrenheit fahrenheit f degf": "degF",
    "mbar mbars millibar millibars milli-bar milli-bars mb": "mbar", "bar bars": "bar",
    "psi p-s-i pounds-per-square-inch pound-per-square-inch": "psi",
    "inhg inches-of-mercury inch-of-mercury inches-mercury inches-of-hg in-hg inches-of-vacuum inches-of-vac "
    "inches-vacuum inch-of-vacuum": "inHg",
    "kpa kilopascal kilopascals": "kPa", "pa pascal pascals": "pascal",
    "% percent percents per-cent pct": "percent", "part parts": "parts",
}  # fmt: skip

# The longest first: "square metres" before "square m".
Tail = tuple[tuple[str, ...], str]
BY_FIRST: dict[str, tuple[Tail, ...]] = {}
for _spellings, _unit in SPELLED.items():
    for _spelling in _spellings.split():
        _first, *_tail = _spelling.split("-")
        BY_FIRST[_first] = tuple(
            sorted([*BY_FIRST.get(_first, ()), (tuple(_tail), _unit)], key=lambda tail: -len(tail[0]))
        )

# Letters that are units only next to digits: 400 g, 2h, but not "a g".
ABBREVIATIONS = frozenset('g l m s h c f " in pa mb ft pt gal min sec no % ° mg cl'.split())
# After digits only: "20 C", but "five c" is no temperature.
AFTER_DIGITS = frozenset('c f m l s h in pa mb "'.split())
# Written against their digits: "30s", "2h", "6in". With a space they are other words.
GLUED_ONLY = frozenset({"s", "h", "in"})
AFTER_HOURS = frozenset(
    {"", "at", ".", ",", ";", "and", "then", "between", "for", "under", "in", "apart", "later", "to"}
)
AFTER_IN = frozenset({"wide", "long", "brush", "roller", "thick", "by", "x", "deep", "across", "diameter", "square"})

DIALECT = {
    "en-GB": {"pint": "imperial pint", "quart": "imperial quart", "gallon": "imperial gallon",
              "fl oz": "imperial fl oz"},
    "en-US": {"pint": "us pint", "quart": "us quart", "gallon": "us gallon", "fl oz": "us fl oz"},
}  # fmt: skip

_CONTAINERS = (
    "pot brush bag tin drop spoon spoonful teaspoon tablespoon teaspoonful tablespoonful pump sheet bucket cup cupful "
    "roll tube scoop tub can drum syringe cartridge bottle board stick dollop squirt blob "
    "pail jug keg carton jar capful rag roller bolt screw clamp cube pack packet sachet sack box pigtail"
).split()
COUNTED = {word: word for word in _CONTAINERS} | {
    word + ("es" if word.endswith(("sh", "ch", "x")) else "s"): word for word in _CONTAINERS
}
# "A squirt of pigment" measures nothing.
VAGUE = frozenset({"squirt", "dollop", "blob", "capful", "drop", "stick", "rag", "brush"})
PLURALS = frozenset(COUNTED) - frozenset(_CONTAINERS)
# Words that never stand between a number and what it counts ("three mixing pots").
NOT_BETWEEN = frozenset(
    "of and or the a an in on into to for with over from by at per is was then , . ; : ? ! - / ( ) more no that this "
    "coat coats layer layers parts part".split()
)

MAT = frozenset("mat mats matting csm chopped chop strand tissue tissues veil powder emulsion".split())
CLOTH = frozenset(
    "cloth cloths roving rovings twill weave woven biax biaxial biaxials biaxle fabric fabrics glass plain satin tape "
    "carbon triax quad quadraxial unidirectional combo combi combination fibreglass fiberglass stitched peel".split()
)
FABRIC = MAT | CLOTH
LAYERS = frozenset({"layer", "layers", "ply", "plies", "lay", "sheet", "sheets"})
