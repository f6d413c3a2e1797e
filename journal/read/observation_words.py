"""What makers say of what they see and feel, by the kinds of the step record.

THINGS are nouns ("a few pinholes"), EVENTS are verbs ("it tore"), STATES are adjectives after a verb of being
or by themselves ("a bit tacky still"). Longer sayings stand in `observation_sayings.py`.
"""

from __future__ import annotations


def _kinds(table: dict[str, str]) -> dict[str, str]:
    return {word: kind for kind, words in table.items() for word in words.split()}


THINGS = _kinds({
    "void": "void voids cavity hole holes gap gaps crater craters pit pits honeycombing",
    "pinhole": "pinhole pinholes pin-hole pin-holes pinholing porosity",
    "bubble": "bubble bubbles blister blisters airhole airholes air-pocket pip pips blowhole blowholes froth foam",
    "delamination": "delamination delam delaminating lifting",
    "crack": "crack cracks hairline hairlines crazing cracking fracture fractures craze split splits spidering",
    "chip": "chip chips chipping nick nicks ding dings",
    "tear": "tear tears tearing rip rips",
    "wrinkle": "wrinkle wrinkles crease creases alligatoring crocodiling wrinkling pucker puckering",
    "fisheye": "fisheye fisheyes fish-eye fish-eyes cissing",
    "warp": "warp warping curling twist bow distortion ripple ripples waviness",
    "print-through": "print-through printthrough telegraphing",
    "bridging": "bridging bridge bridges",
    "blush": "blush blushing bloom blooming",
    "dust": "dust grit fluff hair hairs hairs lint debris fly bug moth bristle bristles dirt specks speck swarf",
    "leak": "leak leaks leakage leaking weeping hiss",
    "colour": "yellowing discolouration discoloration staining streak streaks marbling tinge",
    "exotherm": "exotherm smoke",
    "other": "run runs sag sags drip drips lump lumps dent dents scratch scratches scuff scuffs dint dints",
})  # fmt: skip

EVENTS = _kinds({
    "bubble": "bubbled blistered bubbling blistering foamed frothed",
    "delamination": "separated delaminated delaminating delaminates lifted lifting debonded peeled peeling",
    "crack": "cracked cracking cracks crazed crazing cracking fractured split splitting",
    "chip": "chipped chipping crumbled snapped",
    "tear": "tore torn ripped tearing frayed fraying perished perishing",
    "wrinkle": "wrinkled wrinkling puckered alligatored alligatoring crocodiled rucked creased",
    "warp": "warped warping curled curling twisted distorted bowed cupped buckled rippled",
    "print-through": "telegraphed telegraphing",
    "bridging": "bridged bridging bridges",
    "blush": "blushed blushing bloomed clouded",
    "stuck": "stuck sticking locked grabbed",
    "leak": "leaked leaking leaks leaky seeped weeping wept seeping",
    "exotherm": "smoked smoking exothermed overheated scorched boiled",
    "colour": "yellowed browned discoloured discolored darkened stained yellowing",
    "fisheye": "fisheyed cissed beaded",
    "soft": "undercured",
    "other": "sagged sagging slumped slumping ran shrank shrunk drained dripped dripping drooped curdled slid pooled"
    " puddled",
})  # fmt: skip

BEGUN = _kinds({
    "tear": "tear rip fray perish",
    "crack": "crack craze split",
    "chip": "chip crumble flake",
    "delamination": "lift peel separate delaminate",
    "bubble": "bubble blister foam froth",
    "warp": "warp twist curl bow distort buckle",
    "colour": "yellow brown darken discolour discolor fade",
    "stuck": "stick grab bind",
    "leak": "leak weep seep",
    "wrinkle": "wrinkle pucker",
    "exotherm": "smoke overheat boil steam",
    "print-through": "print telegraph",
    "blush": "blush bloom cloud",
    "soft": "soften",
    "other": "sag slump run drip shrink wear droop slide slip",
})  # fmt: skip
"""Verbs after "starting to": "the edge is starting to fray"."""
BEGINNING = frozenset("start starts started starting begin begins began begun beginning".split())

STATES = _kinds({
    "tacky": "tacky sticky claggy clarty gluey",
    "soft": "soft rubbery uncured undercured under-cured cheesy bendy gummy spongy green unset mushy squidgy"
    " squishy floppy",
    "blush": "milky cloudy greasy waxy hazy chalky",
    "warp": "warped twisted bowed distorted wavy rippled ripply dished buckled",
    "dry glass": "dry starved",
    "exotherm": "hot warm scorching roasting boiling steaming",
    "colour": "yellow brown amber streaky patchy blotchy discoloured discolored marbled grey"
    " gray pink darker dark lighter pale orange greyish pinkish yellowish mottled",
    "dust": "dusty gritty",
    "void": "pitted honeycombed",
    "pinhole": "porous pinholed",
    "wrinkle": "wrinkly wrinkled",
    "crack": "cracked crazed brittle",
    "chip": "chipped",
    "tear": "torn",
    "bubble": "bubbly foamy frothy aerated",
    "good": "hard",
    "other": "lumpy thin uneven proud gloopy runny stringy rough crumbly powdery grainy bumpy"
    " ragged furry swollen dented scuffed misaligned lopsided gouged",
})  # fmt: skip

UNDONE = _kinds({
    "soft": "cured cure set hard gelled gel kicked kick gone go hardened harden",
    "dry glass": "wet wetted saturated",
    "stuck": "release released come budge shift",
})  # fmt: skip
"""What is a fault when denied ("didn't cure", "not quite wetted out", "wouldn't budge")."""
UNDONE_THEN = frozenset("off out properly yet through fully right up at all again loose apart away".split())

BEING = frozenset(
    "'s is are was were be been being feels felt feel looks looked look went gone going got getting"
    " stayed stays sitting still bit slightly quite very really pretty too little touch dead nice and all again"
    " turned turning came seems seemed a now never somewhat fairly rather mostly kinda kind sort of wee tad"
    " gotten gey awful terribly".split()
)
QUANTITIES = frozenset(
    "a an one two three four five few couple some several many lots little tiny small big large bit bits"
    " of odd single minor fine nasty hairline deep long bad slight loads load another more trapped surface"
    " spider stress dozen huge horrible wee 2 3 4 5 6 numerous occasional any air pea sized the".split()
)
ATTRIBUTE_OF = frozenset("spot spots patch patches area areas bit bits edge edges corner corners".split())
HYPOTHETICAL = frozenset(
    "worry worried 'd if might could would will 'll can may wo avoid prevent stop stops watch"
    " beware risk should want wants wanna unless until till when before check checking looking"
    " look in-case lest let helps keep keeps makes gives causes gon going usually always sometimes get".split()
)
WORKED_OUT = frozenset(
    "pop popped popping roll rolled rolling chase chased work worked working degas degassed knock knocked"
    " tap tapped break broke burst get got prick pricked brush brushed blow blew squeeze squeezed stipple"
    " stippled vibrate vibrated wipe wiped clean cleaned vacuum drill drilled drilling punch bored"
    " cut marked coax coaxed stir stirred push pushed draw drew bring brought pull pulled stopped fixed"
    " sorted plugged mended make sand sanded seal sealed glue glued fill filled patch patched repair"
    " repaired needle".split()
)
MENDED = frozenset(
    "stopped fixed fix sorted plugged mended glue glued fill filled patch patched repair repaired sand sanded".split()
)
"""Verbs of WORKED_OUT after which a fault that is counted is news: "filled two pinholes"."""
DENYING = frozenset("did does has have had is was were are would wo could ca 's still".split())
HELPERS = frozenset({"'s", "is", "are", "was", "were", "be", "been"})
PLACING = frozenset(
    "on in under at along by near behind around round over across inside underneath beneath between all"
    " of from off out the a to up down away back open through right straight clean".split()
)
PARTICLES = frozenset("up off away down out through apart back over badly slightly".split())
OF_MANY_THINGS = frozenset({"other", "dust", "void", "warp", "exotherm", "bridging"})
"""Kinds whose nouns name much else ("hole", "run", "bridge") and so need a number or an adjective before them."""
ALWAYS_NAMED = frozenset({"void", "voids", "dust", "grit", "lint", "smoke", "bridging", "warping"})
DENIABLE = frozenset(
    "damage drama dramas bother fuss trouble troubles problem problems issue issues fault faults complaints tack"
    " tackiness stickiness air mark marks blemish blemishes defect defects flaw flaws shrinkage distortion movement"
    " residue drop loss losses hassle drag white flash breakage breakages".split()
)
"""Nouns that name a fault only where it is denied: "no damage", "not a mark on it"."""
OF_AMOUNT = frozenset("speck specks drip drips lump lumps run hair hairs".split())
"""Nouns that measure what they are "of": "a speck of black pigment"."""
MADE = frozenset({"hole", "holes", "gap", "gaps"})
"""What makers also make: holes to drill, gaps to leave."""
OF_STUFF = frozenset({"foam", "froth"})
"""Faults only by a little or some of them; else they are materials."""
GOOD_LIKENESS = frozenset("glass mirror silk satin marble bell new rock stone iron charm dream".split())
BAD_LIKENESS = frozenset(
    "treacle cheese butter jelly toffee porridge custard soup snot sandpaper sponge gum leather putty toothpaste"
    " honey concrete molasses tar glue rubber water mud clay cardboard biscuit chalk".split()
)
CLEARED = frozenset("off out removed swept wiped blown vacuumed brushed hoovered cleared gone washed".split())
ON_AN_OBJECT = frozenset({"tore", "cracked", "chipped", "bridged"})
VAGUE_EVENTS = frozenset("separated split lifted peeled ran drained stained slid boiled twisted locked grabbed".split())
VAGUE_STATES = frozenset(
    "hot warm scorching roasting boiling steaming lumpy thin uneven proud gloopy runny stringy dry"
    " starved soft yellow brown amber green rubbery chalky rough floppy".split()
)
TINTS = frozenset("grey gray pink darker dark lighter pale orange".split())
"""Colours that a thing may have of itself; a fault where it turned to them: "come out a bit pink"."""
TINTED = frozenset(
    "shade tad touch bit too gone went turned little slightly kinda sort than came come turning going".split()
)
_BATCH = frozenset("batch pot resin mix cup it laminate lot bucket".split())
_POORLY = frozenset("bit too little patchy looks looked".split())
OF_THE_BATCH = dict.fromkeys(("hot", "warm"), _BATCH) | dict.fromkeys(("dry", "thin", "proud", "runny"), _POORLY)
"""What must be said before a vague word for it to be of the work."""
WARMING_UP = frozenset("quite pretty rather fairly proper properly bloody fierce awful awfully mighty damn".split())
"""What strengthens "hot" and "warm" where a batch or a part is named, not just "it"."""
_WARMED = _BATCH - {"it"} | frozenset("mould mold part socket jacket plaster rubber silicone bag skin".split())
WARMED = dict.fromkeys(("hot", "warm"), _WARMED)
OF_THE_AIR = frozenset("here today outside out shop workshop shed garage room barn tonight morning afternoon".split())
"""What tells after "hot" or "warm" that the weather is meant."""
WARMING = frozenset("got getting gets going went bit very really too little patchy looks looked".split())
OF_THE_WORK = frozenset(
    "still bit too gone went going little slightly turned is 's was feels felt quite looks stayed are"
    " were very got".split()
)
