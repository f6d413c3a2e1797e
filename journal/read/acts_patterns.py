"""The words beside the verbs that name an act: what applying a thing is called, nouns, labels, odd forms."""

from __future__ import annotations

# What applying a thing is called, by its family; earlier families win.
APPLIED: tuple[tuple[str, str], ...] = (
    ("postcure", "post-cure"),
    ("fabric", "laminate"),
    ("filler", "thicken"),
    ("pigment", "tint"),
    ("second", "mix"),
    ("release", "release"),
    ("seal", "seal"),
    ("putty", "fill"),
    ("bag", "press"),
    ("bagging", "laminate"),
    ("clay", "wall"),
    ("wall", "wall"),
    ("gel", "brush"),
    ("insert", "fit"),
    ("layer", "laminate"),
    ("coat", "brush"),
    ("plaster", "pour"),
    ("rubber", "pour"),
    ("resin", "brush"),
    ("solvent", "clean"),
    ("vac", "degas"),
)

# Phrases that name an act in a clause without a verb of the trade: "layup done at ten", "jacket off".
NOUNS: dict[str, str] = {
    phrase: action
    for action, phrases in {
        "roll": "roller over",
        "laminate": "layup|lay - up|lay up|lamination",
        "demould": (
            "demould|demold|off the plug|off the pattern|out of the mould|out of the mold|it 's off|she 's off|"
            "due out|jacket off|box off|bag off|off it came|out it came|off she came|it 's out|"
            "she 's out|they 're out|part 's out|that 's out|that 's off"
        ),
        "post-cure": "post - cure|post cure|postcure|oven off|oven on|hot box|hotbox|in the oven",
        "degas": "degas|in the chamber|vacuum chamber|under vacuum",
        "trim": "trimming",
        "sand": "sanding|rub down",
        "polish": "polishing",
        "release": "waxing|wax 's on",
        "photograph": "photo documentation|on camera|photograph taken|photo taken|picture of|photo of|pictures taken|"
        "photos taken",
        "brush": "gel 's on|gel is on|gel on|gel coat 's on",
        "cure": "the cure|cure started|cure 's on|cure on|cure begun|cure starts",
        "store": "back on the shelf|on the rack|in the store|on the shelf|in the rack",
        "mix": "in with the whisk|in with the paddle|drill mixer",
        "check": "barcol|touch dry|tack free|shore|durometer",
        "clean": "wipe|tack rag|tack cloth|good clean",
        "wall": "clay wall",
        "spray": "airless|spray gun|cup gun",
        "drill": "holes through|holes in",
        "fill": "fillet in|fillets in",
        "press": "debulk|bag down|bag on|bag 's on",
        "weigh": "on the scale",
        "fit": "bolted up",
    }.items()
    for phrase in phrases.split("|")
}

# Labels that open a line of a log: "Release: semi-permanent, three wipes", "Post-cure: 8 h at 60".
LABELS: dict[str, str] = {
    label: action
    for action, labels in {
        "release": "release|wax",
        "seal": "seal|sealer",
        "mix": "mix|batch",
        "laminate": "layup|lay - up|laminate|glass",
        "post-cure": "post - cure|postcure",
        "cure": "cure",
        "demould": "demould|demold",
        "brush": "gel coat|gelcoat|gel",
        "pour": "pour",
        "trim": "trim",
        "sand": "sand",
        "polish": "polish",
        "degas": "degas",
        "press": "bag",
        "clean": "clean|prep",
        "pull": "cast|pull",
        "repair": "repair",
        "check": "check",
        "wall": "wall|flange",
    }.items()
    for label in labels.split("|")
}

# Forms that the rules of spelling do not give.
IRREGULAR: dict[str, str] = {
    verb.strip(): forms
    for verb, _, forms in (
        entry.partition(":")
        for entry in """
    strike: struck; fall: fell fallen;
    spring: sprang sprung; countersink: countersank countersunk; spin: spun; slide: slid;
    hang: hung;
    dig: dug; rip: ripped; feed: fed; swab: swabbed; rivet: riveted; dye: dyed dyeing; grease: greased;
    gun: gunned; burst: burst; video: videoed; stick: stuck; vac: vac'd;
    lay: laid layed lain; put: put; cut: cut; cast: cast casted; pour: poured; spread: spread; set: set;
    get: got gotten; go: went gone goes; come: came; take: took taken; give: gave given; make: made; forget:
    forgot forgotten; do: did done does; leave: left; let: let; hold: held; keep: kept; stick: stuck; throw:
    threw thrown; run: ran run; draw: drew drawn; break: broke broken; build: built; fit: fit; grind:
    ground; sweep: swept; stand: stood; sit: sat; split: split; wet: wet; see: saw seen; find: found; feel:
    felt; have: had has having; shine: shone; shoot: shot; ring: rang rung; hit: hit; read: read; vac:
    vacced vacked vaccing vacking vacs; da: da'd; sling: slung; hang: hung; tear: tore torn; beat: beat
    beaten; blow: blew blown; degas: degassed degassing degasses; bed: bedded; saw: sawed sawn; weigh:
    weighed; spray: sprayed; bind: bound; fix: fixed; press: pressed; dry: dried; apply: applied; shellac:
    shellacked shellacking; chuck: chucked; demold: demolded; rout: routed; size: sized
        """.split(";")
    )
}

# Verbs whose forms are never nouns: they need no look at what stands around them.
PLAIN_VERBS = frozenset(
    (
        "add apply bung catalyse catalyze chuck come decant degas degass demold demould do dump erect "
        "examine get give go have inspect keep lay leave let lob make put slap sling take thicken throw toss "
        "spread unmold unmould use weigh "
    ).split()
)
