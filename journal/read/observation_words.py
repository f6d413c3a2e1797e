"""What makers say of what they see and feel, by the kinds of the step record.

THINGS are nouns ("a few pinholes"), EVENTS are verbs ("it tore"), STATES are adjectives after a verb of being
or by themselves ("a bit tacky still"), SAYINGS are longer ("orange peel"). In a saying `*` stands for up to two words.
"""

from __future__ import annotations


def _kinds(table: dict[str, str]) -> dict[str, str]:
    return {word: kind for kind, words in table.items() for word in words.split()}


THINGS = _kinds({
    "void": "void voids cavity cavities hole holes gap gaps crater craters pit pits honeycombing",
    "pinhole": "pinhole pinholes pin-hole pin-holes pinholing porosity",
    "bubble": "bubble bubbles blister blisters airhole airholes air-pocket pip pips blowhole blowholes froth foam",
    "delamination": "delamination delam",
    "crack": "crack cracks hairline hairlines crazing fracture fractures craze split splits spidering",
    "chip": "chip chips nick nicks ding dings",
    "tear": "tear tears rip rips",
    "wrinkle": "wrinkle wrinkles crease creases alligatoring crocodiling wrinkling pucker puckering",
    "fisheye": "fisheye fisheyes fish-eye fish-eyes cissing",
    "warp": "warp warping twist bow distortion",
    "print-through": "print-through printthrough telegraphing",
    "bridging": "bridging",
    "blush": "blush blushing bloom blooming",
    "dust": "dust grit fluff hair hairs hairs lint debris dirt specks speck swarf",
    "leak": "leak leaks leakage",
    "colour": "yellowing discolouration discoloration staining streak streaks marbling",
    "exotherm": "exotherm smoke",
    "other": "run runs sag sags drip drips lump lumps dent dents scratch scratches",
})  # fmt: skip

EVENTS = _kinds({
    "bubble": "bubbled blistered bubbling blistering foamed frothed",
    "delamination": "delaminated delaminating delaminates lifted lifting debonded peeled peeling",
    "crack": "cracked cracking cracks crazed crazing fractured split splitting",
    "chip": "chipped chipping",
    "tear": "tore torn ripped tearing",
    "wrinkle": "wrinkled wrinkling puckered alligatored alligatoring crocodiled rucked creased",
    "warp": "warped warping twisted distorted bowed cupped",
    "print-through": "telegraphed telegraphing",
    "bridging": "bridged bridging bridges",
    "blush": "blushed blushing bloomed clouded",
    "stuck": "stuck sticking locked grabbed",
    "leak": "leaked leaking leaks leaky seeped weeping wept seeping",
    "exotherm": "smoked smoking exothermed overheated scorched boiled",
    "colour": "yellowed browned discoloured discolored darkened stained yellowing",
    "fisheye": "fisheyed cissed",
    "soft": "undercured",
    "other": "sagged sagging slumped slumping ran shrank shrunk drained dripped dripping drooped curdled slid",
})  # fmt: skip

STATES = _kinds({
    "tacky": "tacky sticky tack",
    "soft": "soft rubbery uncured undercured under-cured cheesy bendy gummy spongy green unset mushy squidgy",
    "blush": "milky cloudy greasy waxy hazy chalky",
    "warp": "warped twisted bowed distorted",
    "dry glass": "dry starved",
    "exotherm": "hot warm scorching roasting boiling steaming",
    "colour": "yellow brown amber streaky patchy blotchy discoloured discolored marbled",
    "dust": "dusty gritty",
    "void": "pitted honeycombed",
    "pinhole": "porous pinholed",
    "wrinkle": "wrinkly wrinkled",
    "crack": "cracked crazed brittle",
    "chip": "chipped",
    "tear": "torn",
    "stuck": "stuck",
    "bubble": "bubbly foamy frothy aerated",
    "other": "lumpy thin uneven proud gloopy runny stringy",
})  # fmt: skip

SAYINGS: dict[str, str] = {
    # exotherm
    "got * hot": "exotherm", "getting * hot": "exotherm", "gone * hot": "exotherm", "went * hot": "exotherm",
    "got * warm": "exotherm", "getting * warm": "exotherm", "warm to the hand": "exotherm",
    "warm to the touch": "exotherm", "hot to the touch": "exotherm", "cooked off": "exotherm", "cooked in the pot": "exotherm",
    "too hot to hold": "exotherm", "too hot to touch": "exotherm", "kicked off * hot": "exotherm", "melted the cup": "exotherm",
    "melted the pot": "exotherm", "started smoking": "exotherm", "started to smoke": "exotherm", "went off like a": "exotherm",
    "cooked": "exotherm", "smoked": "exotherm",
    # wrinkle, fisheye
    "orange peel": "fisheye", "fish eyes": "fisheye", "fish eye": "fisheye", "separated on the wax": "fisheye",
    "crawled": "fisheye", "beaded up": "fisheye", "pulled into beads": "fisheye", "crocodile skin": "wrinkle", "elephant skin": "wrinkle",
    # bridging, delamination
    "pulled away": "bridging", "pulling away": "bridging", "pulled off the corner": "bridging", "sprung back": "bridging",
    "springing back": "bridging", "spanned": "bridging", "came apart": "delamination", "coming apart": "delamination",
    "come apart": "delamination", "lifted off": "delamination", "peeled off": "delamination", "sounds hollow": "delamination",
    "sounded hollow": "delamination", "let go": "delamination", "pre-release": "delamination", "pre-released": "delamination",
    "sound hollow": "delamination", "sounding hollow": "delamination",
    # print-through
    "print through": "print-through", "printing through": "print-through", "printed through": "print-through",
    "weave showing": "print-through", "see the weave printing through": "print-through", "see the weave coming through": "print-through", "see the weave": "print-through", "see the glass through": "print-through",
    "print - through": "print-through", "weave printing through": "print-through", "weave has printed": "print-through",
    "weave coming through": "print-through", "see the biax": "print-through", "mat showing through": "print-through",
    # dry glass
    "dry glass": "dry glass", "dry fibre": "dry glass", "dry fibres": "dry glass", "dry fibers": "dry glass", "dry mat": "dry glass",
    "white patch": "dry glass", "white patches": "dry glass", "white spots": "dry glass", "white spot": "dry glass",
    "dry spot": "dry glass", "dry spots": "dry glass", "dry patch": "dry glass", "dry patches": "dry glass",
    "dry bit": "dry glass", "dry bits": "dry glass", "dry area": "dry glass", "dry areas": "dry glass",
    "still white": "dry glass", "not wet out": "dry glass", "not wetted out": "dry glass",
    # tacky, soft
    "soft spot": "soft", "soft spots": "soft", "soft patch": "soft", "soft patches": "soft", "hasn't gone off": "soft", "not gone off": "soft",
    "has n't gone off": "soft", "has n't cured": "soft", "did n't cure": "soft", "did n't go off": "soft", "not cured": "soft",
    "has n't set": "soft", "did n't set": "soft", "has n't kicked": "soft", "not set": "soft", "not gone off yet": "soft",
    "never went off": "soft", "never cured": "soft", "never set": "soft", "never kicked": "soft", "still wet": "soft",
    "dents with": "soft", "can dent it": "soft", "tacky spot": "tacky", "tacky patch": "tacky", "sticky patch": "tacky",
    "sticky patches": "tacky", "grabs the glove": "tacky", "sticks to the glove": "tacky",
    "does not come off on the glove": "tacky", "does n't come off on the glove": "tacky",
    # blush, colour
    "greasy film": "blush", "waxy film": "blush", "white bloom": "blush", "gone milky": "blush", "gone cloudy": "blush",
    "gone white": "blush", "went milky": "blush", "went white": "blush", "went cloudy": "blush", "gone yellow": "colour",
    "went yellow": "colour", "gone brown": "colour", "went brown": "colour", "went off colour": "colour", "off colour": "colour",
    "turned yellow": "colour", "turned brown": "colour", "turned milky": "blush", "turned white": "blush", "turned amber": "colour",
    "sweating": "blush", "colour's off": "colour", "wrong colour": "colour",
    # air
    "pips of air": "bubble", "pip of air": "bubble", "air bubble": "bubble", "air bubbles": "bubble", "trapped air": "bubble",
    "air pocket": "void", "air pockets": "void", "air hole": "void", "air holes": "void", "air trapped": "bubble",
    "air in": "bubble", "bit of air": "bubble", "bits of air": "bubble", "pocket of air": "void", "pockets of air": "void", "air under": "void",
    "blow hole": "bubble", "blow holes": "bubble", "pin holes": "pinhole", "pin hole": "pinhole", "resin rich": "other",
    "resin starved": "dry glass", "see daylight": "void", "missed a bit": "void", "did n't fill": "void", "not filled": "void",
    # stuck, leak, warp, tear
    "stuck fast": "stuck", "would n't come": "stuck", "wo n't come": "stuck", "would n't release": "stuck",
    "would n't budge": "stuck", "wo n't budge": "stuck", "wo n't release": "stuck", "hung up": "stuck", "did n't release": "stuck",
    "had to pry": "stuck", "had to be pried": "stuck", "lost vacuum": "leak", "losing vacuum": "leak", "dropping vacuum": "leak",
    "hissing": "leak", "came through the seam": "leak", "out of true": "warp", "out of shape": "warp", "out of flat": "warp",
    "pulled a chunk": "tear", "pulled a piece": "tear", "pulled off a": "tear", "broke off": "chip", "snapped off": "chip",
    "knocked off": "chip", "bit missing": "chip", "broke": "crack", "spider cracks": "crack",
    "stress cracks": "crack", "star crack": "crack", "star cracks": "crack",
    # good
    "off clean": "good", "clean as a whistle": "good", "came out clean": "good", "like a dream": "good", "a treat": "good",
    "one colour , no streaks": "good", "one colour": "good", "one color": "good", "spot on": "good", "happy with": "good",
    "no problem": "good", "no problems": "good", "no issues": "good", "no trouble": "good", "like glass": "good",
    "dead flat": "good", "sounds solid": "good", "sounded solid": "good", "tack free": "good", "tack - free": "good",
    "fully cured": "good", "rock hard": "good", "nice and even": "good", "nice and smooth": "good", "nice and flat": "good",
    "nice and clean": "good", "nice and runny": "good", "nice and hard": "good", "nice and clear": "good",
    "holding vacuum": "good", "holding steady": "good", "every detail": "good", "all the detail": "good", "good to go": "good",
    "good as new": "good", "crystal clear": "good", "set hard": "good", "gone hard": "good", "gone off hard": "good", "gone off nice": "good",
    "gone off nicely": "good", "sharp as": "good", "did n't stick": "good", "wet out nicely": "good", "laid down nicely": "good",
}  # fmt: skip

GOOD = frozenset(
    "lovely perfect perfectly beautiful beautifully nice nicely clean cleanly great good well brilliant brilliantly mint"
    " sweet solid smooth glossy tidy crisp sharp even flawless flawlessly easy easily neatly neat fine flat clear bright"
    " alright okay gorgeous superb spotless".split()
)
STRONG_GOOD = frozenset(
    "lovely perfect beautiful great brilliant mint crisp flawless gorgeous superb spotless good glossy solid".split()
)
CAME = frozenset(
    "came come comes coming turned turns went gone looks look looked looking popped released pulled feels felt parted"
    " lifted demoulded demolded opened separated".split()
)
CAME_WITH = frozenset("out off on down away up apart over really very pretty nice and all so quite absolutely dead back real"
                      " first time a bit of the mould pattern mold it still just".split())  # fmt: skip
BEING = frozenset(
    "'s ’s is are was were be been being feels felt feel looks looked look went gone going got getting stayed stays still"
    " bit slightly quite very really pretty too little touch dead nice and all again turned turning came seems seemed"
    " a now never somewhat fairly rather mostly".split()
)
QUANTITIES = frozenset(
    "a an one two three four five few couple some several many lots little tiny small big large bit bits of odd single"
    " minor fine nasty hairline deep long bad slight loads load another more trapped surface spider stress dozen huge"
    " horrible wee 2 3 4 5 6 numerous occasional air pea sized the".split()
)
ATTRIBUTE_OF = frozenset("spot spots patch patches area areas bit bits edge edges corner corners".split())
HYPOTHETICAL = frozenset(
    "if might could would will 'll ’ll can may wo avoid prevent stop stops watch beware risk should want wants wanna"
    " unless until till when before without check checking looking look in-case lest let helps keep keeps gon going"
    " usually always sometimes get".split()
)
WORKED_OUT = frozenset(
    "pop popped popping roll rolled rolling chase chased work worked working degas degassed knock knocked tap tapped"
    " break broke burst get got prick pricked brush brushed blow blew squeeze squeezed stipple stippled vibrate vibrated"
    " wipe wiped clean cleaned hoover vacuum drill drilled drilling punch bored cut marked coax coaxed stir stirred push"
    " pushed draw drew bring brought pull pulled make sand sanded seal sealed".split()
)
