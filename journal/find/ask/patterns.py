"""How questions are worded, in order: the first that fits tells what is asked.

They are tried on the question's words with numbers as digits, materials under their catalogue's names, and small
words of politeness left out (see `question.plain_words`).
"""

from __future__ import annotations

import re

PATTERNS: dict[str, tuple[str, ...]] = {
    "climate": (
        r"dew point",
        r"\btoo (?:\w+ )?(?:cold|damp|humid|wet|hot|warm|cool|moist)\b",
        r"(?:fit|ok|okay|safe|warm enough|dry enough) to (?:work|laminate|spray|lay|gel|brush|mix)",
        r"(?:air|weather|conditions|shop) (?:ok|okay|fit|right|good)",
        r"condensation",
        r"^(?:can|may|should) (?:i|we) (?:start|begin|work)\b",
    ),
    "cautions": (
        r"\b(?:gloves?|masks?|respirator|goggles|caution|cautions|careful|hazards?|dangers?|dangerous|ppe|"
        r"safety)\b",
    ),
    "stoichiometry": (
        r"\b(?:eew|ahew|e e w|a h e w|stoichiometr\w*)\b",
        r"equivalent weights?",
        r"\b(?:epoxide|epoxy|hydrogen|amine) equivalent",
    ),
    "voids": (
        r"\bvoid (?:content|fraction|volume|percent)",
        r"\b(?:how many|percent(?:age)?(?: of)?) voids\b.*\d",
    ),
    "cost": (
        r"\b(?:costs?|price|prices|worth of)\b",
        r"how much (?:money|did .* cost)",
    ),
    "ramp": (
        r"\bramp\b",
        r"\bdegrees (?:an|a|per|each|every) hour\b",
    ),
    "casting": (
        r"how much .*\b(?:to fill|fills|for a casting|to cast|casting of)\b.*\d",
        r"what (?:will|would|does) .*\b(?:casting|mould)\b.* weigh",
        r"\bhow (?:heavy|much .* weigh)\b.*\b(?:litres?|ml|millilit)",
    ),
    "who": (
        r"^(?:and )?who(?:'s|se)?\b",
    ),
    "check mix": (
        r"(?:is (?:that|it|this|(?:the|my|our) (?:last )?(?:mix|batch))|am i|are we) "
        r"(?:right|ok|okay|off|wrong|short|over|enough|within|near enough|"
        r"good)",
        r"how (?:far|much) (?:am i |are we |is (?:it|that|this) )?(?:off|out)\b",
        r"how much more\b",
        r"(?:put|set) (?:it|that) right",
        r"what (?:do|should) i add",
        r"top (?:it )?up",
        r"how much (?:do|should) i add",
        r"\bcorrect (?:it|that|the mix)",
    ),
    "batches": (
        r"how many (?:\w+ )?(?:batches|pots|mixes|goes|buckets)",
        r"split .*batch",
        r"(?:size of (?:a |each )?|how (?:big|large|much) (?:\w+ ){0,3})batch",
        r"(?:biggest|largest|most) (?:\w+ )?(?:batch|pot|mix|in one|at once|i can mix)",
        r"how much (?:can i|may i|at) .*(?:at once|one go|one pot)",
    ),
    "plaster": (
        r"how much (?:water|plaster)",
        r"water (?:for|to|do)\b.*plaster",
        r"plaster (?:for|to|goes)\b.*water",
        r"consistency",
    ),
    "thickness": (
        r"how thick\b.*\b(?:layers?|ply|plies|mat|cloth|roving|tissue)",
        r"thickness of",
    ),
    "layers resin": (
        r"how much .*\b(?:layers?|ply|plies|pass)\b",
        r"resin for .*\b(?:layers?|ply|plies)\b",
        r"how much .*\b(?:resin|epoxy|polyester resin)\b.*(?:square|m2|area|over the|across the)",
    ),
    "film": (
        r"how much .*gel coat.*(?:square|m2|area|cover|whole|entire|both|over|mm|millimet|for the)",
        r"gel coat for .*(?:square|m2|area)",
    ),
    "used": (
        r"how much (?!time|longer)[\w\- ]*\b(?:did|was|were|went|(?:have|has) (?:we|i|they|been|gone|it)|used|gone)\b",
    ),
    "left": (
        r"how much (?!time|longer)[\w\- ]*\bleft$",
        r"how much [\w\- ]*\b(?:left|still) (?:in the (?:tin|drum|tub)|on the shelf)",
    ),
    "total": (
        r"\btotal\b",
        r"\bplus\b",
        r"all together",
        r"altogether",
        r"all up",
        r"add up to",
        r"come to",
        r"combined",
        r"in all\b",
        r"sum of",
        r"of each\b",
    ),
    "percent": (
        r"(?:what|which|how many) (?:percent|percentage)",
        r"percent(?:age)? (?:did|was|have|of catalyst|catalyst)",
        r"\d (?:percent|%) (?:of|on|for|in|to)\b",
        r"percent .*how much",
    ),
    "main": (
        r"how much (?:part a|a|eh|ay|the a|resin|main part|gel coat|epoxy gel coat|polyester gel coat|"
        r"laminating epoxy|polyester resin) .*(?:(?:part b|b|be|bee|hardener|catalyst|second part|part two|"
        r"other part|water))\b",
        r"\d+ (?:grams |g )?(?:of )?(?:hardener|catalyst|part b)\b.*how much (?:epoxy|resin|gel coat|laminating)",
        r"what .* (?:goes|go) with .*(?:part b|b|be|bee|hardener|catalyst|second part|part two|other part|"
        r"water)",
    ),
    "second": (
        r"how (?:much|many grams of|many) (?:of )?(?:the )?(?:part b|b|be|bee|hardener|catalyst|second part|"
        r"part two|other part|water)\b",
        r"what (?:do i|should i|goes) (?:add|in|put).*\d",
        r"(?:hardener|catalyst|part b|\bb) (?:for|to|do i|goes|with|on)\b",
        r"weigh .*(?:hardener|catalyst|part b|\bb\b)",
        r"\bhow much (?:do i|should i|to) (?:weigh|add|put)",
    ),
    "when": (
        r"^(?:and |so |what (?:time|day|date) )?when (?:did|was|were|had|have)\b",
        r"what (?:time|day|date) (?:did|was|were)",
        r"^how long ago",
        r"when .*\b(?:did we|did i|did they)",
    ),
    "gel": (
        r"(?:until|till|before|when|will|does|is|has) .*\b(?:gel(?! coat)|gels|gelled|kicks?|go off|goes off|"
        r"going off|set up)\b",
        r"\bgel time\b",
    ),
    "cure age": (
        r"how long .*\b(?:curing|cured|cure for|been|sat|sitting|standing|stood)\b",
        r"how old",
        r"age of",
        r"how far (?:through|along).*cure",
        r"cure age",
    ),
    "full cure": (
        r"full(?:y)? (?:cure|cured|hard|strength)",
        r"completely cured",
        r"cured right through",
        r"final cure",
        r"post cure due",
    ),
    "tack": (
        r"\btack",
        r"\bsticky",
        r"\btouch dry",
    ),
    "demould": (
        r"(?:when|can|could|how long|how soon|ready|is it|time to|may|earliest|long|what time|"
        r"should).*\b(?:come out|come off|demould|demoulded|pop(?: it)?|open(?: it)?|pull it|take it out|out "
        r"of the mould|strip)\b",
    ),
    "recoat": (
        r"(?:when|can|how long|how soon|ready|time|what time|may|should|late|early|soon|inside|window|still|"
        r"is it).*\b(?:next|another|second|third|fourth|more|recoat|recoating|over ?coat|coat|window|lay ?up|"
        r"laminate|go over|put on|glass)\b",
        r"recoat",
        r"\bwindow\b",
    ),
    "pot": (
        r"\bpot\b",
        r"pot life",
        r"working (?:life|time)",
        r"how (?:long|much time|many minutes|much longer).*(?:left|got|have|go|mix|batch|remain)",
        r"minutes left",
        r"time left",
        r"still (?:usable|good|workable)",
    ),
    "release coats": (
        r"how many (?:coats?|layers?|passes) of (?:release wax|wax|pva|release|sealer|shellac|semi)",
        r"(?:release wax|wax|shellac|sealer|pva release|semi-permanent release) coats",
        r"how many (?:times )?.*\b(?:waxed|waxes|wax)\b",
    ),
    "layer on": (
        r"(?:what|which|how many) (?:layers?|coats?|ply|plies|number)",
        r"how many .*(?:layers|coats|plies)",
        r"(?:layer|coat) (?:are we|am i|number)",
        r"where (?:are we|am i|have we got)",
    ),
    "pulls": (
        r"how many (?:\w+ )?(?:pulls?|castings?|casts?|copies|pieces|parts)",
        r"(?:last|latest) (?:pull|cast|casting)",
        r"pull (?:number|count)",
        r"number of (?:pulls|castings|casts)",
        r"times .*\b(?:cast|pulled)",
    ),
    "flagged": (
        r"\bflag",
        r"(?:anything|what) .*\b(?:should|to|must|need to) (?:i |we )?check",
        r"\bquer(?:y|ies)",
        r"to (?:be )?check",
        r"doubt",
        r"unconfirmed",
        r"looks? (?:wrong|odd|off)",
        r"does ?n.t add up",
        r"(?:need|needs) checking",
        r"suspicious",
        r"not sure",
    ),
    "short": (
        r"\bshort\b",
        r"\border\b",
        r"\bbuy\b",
        r"run(?:ning)? (?:out|low)",
        r"enough .*(?:left|for the|for another|next|to do)",
        r"on the shelf",
        r"what(?:'s| is)? left (?:of|in)\b",
        r"in stock",
        r"how much .*\bleft\b",
        r"use[- ]by",
        r"out of date",
        r"need for (?:the )?(?:next|another)",
    ),
    "lot": (
        r"\b(?:which|what) (?:\w+ )?(?:lot|tin|drum|batch number)",
        r"\blot (?:number|of|did|was|are)",
    ),
    "ratio": (
        r"\bratio\b",
        r"how did (?:we|i|they) mix",
        r"what .*\bto what\b",
        r"mixed? (?:it )?at what",
        r"parts of",
    ),
    "conditions": (
        r"(?:what|how) (?:'s |is |was |were )?(?:the )?(?:\w+ )?(?:temperature|temp|humidity|warm|cold|hot|"
        r"damp)",
        r"(?:temperature|humidity|degrees) .*(?:was|is|did)",
        r"what was the shop",
    ),
    "between": (
        r"how long (?:between|did|was|were|do (?:we|i) leave)",
        r"time between",
        r"what .*(?:wait|gap)\b",
        r"how long .*\bapart",
    ),
    "planned": (
        r"what(?:'s| is| was| do (?:we|i) do| am i doing| are we doing|)? (?:\w+ )*(?:next|planned|to do|"
        r"plan)\b",
        r"what should (?:we|i) do",
    ),
    "outcome": (
        r"how did .*(?:turn out|go\b|come out|do\b)",
        r"did (?:it|that|the last|niche|the).*work",
        r"what happened (?:to|with)",
        r"why did .*(?:fail|go wrong)",
        r"outcome",
    ),
    "faults": (
        r"what (?:'s|is|was|went|has gone|did).*wrong",
        r"\bfaults?\b",
        r"\bproblems?\b",
        r"any (?:voids?|pinholes?|bubbles?|cracks?|chips?)",
        r"defects?",
    ),
    "reason": (
        r"^why\b",
    ),
    "warnings": (
        r"\b(?:watch out|warn|warning|warned|never|mind)\b",
        r"what .*(?:avoid|not do|should ?n.t)",
    ),
    "place": (
        r"(?:what|which|whats|what's|anything)\b.*\b(?:put|on|went|laid|lay|brushed|use|used|go|goes|done|did|"
        r"do|fill|filled|at|in|under)\b",
    ),
}  # fmt: skip

INTENTS = tuple((name, re.compile("|".join(patterns))) for name, patterns in PATTERNS.items())

POLITE = re.compile(
    r"\b(?:please|hey|ok so|okay so|right so|so then|tell me|can you tell me|could you tell me|do you know|remind me|"
    r"mouldbook|i wonder|i want to know|again|now then|just|actually|um|er|erm|uh|quick question)\b"
)
EARLIER = re.compile(
    r"\b(?:last build|previous build|build before|one before|last one|on the last|the time before|previous one)\b"
)
AHEAD = re.compile(r"\b(?:next build|another (?:one|mould|build|niche|paw))\b")
DAYS_AGO = {"today": 0, "this morning": 0, "this afternoon": 0, "yesterday": 1, "last night": 1}
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
WORD_NUMBERS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}
GENERAL_ACTS = {
    "seal": ("seal",), "wax": ("release",), "release": ("release",), "gel": ("brush", "spray"),
    "mould": ("demould",), "demould": ("demould",), "pop": ("demould",), "cast": ("pull",), "pull": ("pull",),
    "laid": ("laminate",), "lay": ("laminate",), "lamin": ("laminate",), "glass": ("laminate",), "fill": ("fill",),
    "mix": ("mix",), "weigh": ("weigh", "mix"), "brush": ("brush",), "spray": ("spray", "release"), "pour": ("pour",),
    "post": ("post-cure",), "degas": ("degas",), "fit": ("fit",), "frame": ("fit",), "thick": ("thicken",),
    "wall": ("wall",), "start": (), "begin": (), "begun": (), "soak": ("wait", "soak"), "roll": ("roll",),
    "sand": ("sand",), "trim": ("trim",), "clean": ("clean",), "repair": ("repair",), "cure": ("cure", "post-cure"),
    "wet": ("wet out",), "check": ("check",), "tack": ("check", "wait"),
}  # fmt: skip
