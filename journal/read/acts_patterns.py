"""The words that name an act of the trade.

A line of SENSES is `verb: test > action; test > action; ...`, the first test that holds wins. A test is any of
the words or families after the verb and before the next one: `back|down` are words, `@fabric` a family of
`families.py`, `+up` a word right after the verb; `a & b` needs both; an empty test always holds. `@` families
may also stand before the verb ("the gel went on"). `apply` as an action is whatever is done with the family
that was named (APPLIED).
"""

from __future__ import annotations

SENSES = """
clean: ; > clean
wipe: +on & @release > release; +on & @seal > seal; wax|pva|release|@release > release; > clean
degrease: > clean
wash: > clean
rinse: > clean
hoover: > clean
vacuum: @fabric|bag|bagged|down > press; > clean
dust: > clean
sweep: > clean
scrub: > clean
blow: off|out|clean|dust > clean; apart|air > demould; @release|@gel > spray; > clean
dewax: > clean
seal: > seal
shellac: > seal
prime: > seal
varnish: > seal
lacquer: > seal
size: > seal
wax: > release
rewax: > release
soap: > release
release: loose|easily|clean|fine > demould; > release
buff: @release > release; > polish
dam: > wall
wall: > wall
fence: > wall
shim: > wall
box: > wall
build: wall|walls|dam|flange|fence|former|box|barrier|@clay|@wall > wall; box > wall; fillet > fill; +up & @fabric > laminate; > wall
erect: > wall
weigh: > weigh
mix: @filler & !@second > thicken; @pigment & !@second > tint; > mix
stir: @filler & !@second > thicken; @pigment & !@second > tint; > mix
fold: @filler > thicken; @pigment > tint; > mix
whisk: > mix
beat: > mix
catalyse: > mix
catalyze: > mix
kick: @second > mix
blend: > mix
combine: > mix
remix: @filler & !@second > thicken; @pigment & !@second > tint; > mix
batch: > mix
knead: > mix
measure: into|@water|@resin|@second|@gel|@rubber|@plaster|@powder|@filler > weigh; > check
degas: > degas
degass: > degas
deair: > degas
evacuate: > degas
debulk: > press
thicken: > thicken
tint: > tint
colour: > tint
color: > tint
pigment: > tint
pour: > pour
decant: > pour
tip: @second > mix; @filler > thicken; > pour
drizzle: > pour
trickle: > pour
dribble: > pour
slush: > pour
flood: > pour
backfill: > fill
brush: @release > release; @seal > seal; off|dust|out & dust > clean; > brush
paint: @release > release; @seal > seal; > brush
daub: > brush
dab: @release > release; > brush
smear: @release > release; > brush
spread: @release > release; > brush
trowel: > brush
butter: > brush
skim: > brush
squeegee: @fabric > wet out; > brush
slather: @release > release; > brush
coat: @release > release; @seal > seal; > brush
recoat: @release > release; @seal > seal; > brush
gelcoat: > brush
gel: +up|+the|+it|+both|+that > brush
stipple: > stipple
spray: @release > release; @seal > seal; > spray
mist: @release > release; > spray
spritz: @release > release; > spray
press: > press
bag: > press
clamp: > press
squash: > press
squeeze: > press
push: out|off|free > demould; > press
weight: > press
fill: > fill
pack: @fabric|away|box > store; > fill
fillet: > fill
plug: > fill
putty: > fill
fair: > fill
bog: > fill
radius: > fill
laminate: > laminate
glass: +in & @insert > fit; > laminate
reglass: > laminate
roll: @clay|sausage|sausages > wall; @release > release; @gel & +on > brush; > roll
consolidate: > roll
saturate: > wet out
impregnate: > wet out
prewet: > wet out
wet: +out|+through|+it > wet out; @pattern|sandpaper|paper|+sanded|+flatted > sand; > wet out
soak: @fabric & @resin > wet out; > wait
skip: > apply
omit: > apply
miss: @release|@seal|@fabric|@gel|@filler|@second|@pigment|coat|layer > apply
forget: @release|@seal|@fabric|@gel|@filler|@second|@pigment|coat|layer > apply
tape: @bag > press
suck: air|@bag|@vac|@vacuum > degas
fix: chip|chips|crack|cracks|hole|holes|void|voids|tear|pinhole|pinholes|damage > repair; > fit
autoclave: > cure
melt: @clay|@putty|@gel|@seal > fill
ram: > fill
stuff: > fill
shove: > fill
force: > fill
hit: > apply
shake: > mix
wire: > fit
cut: back & @polish|compound > polish; back|down|flat & coat|@gel > sand; vent|vents|hole|holes > drill; flash|flashing|edge|edges|excess|flush|sprue|sprues|off > trim; > cut
snip: > cut
tailor: > cut
wait: +for & !@duration & !it|that|them > @none; > wait
stand: > wait
cure: > cure
harden: > cure
postcure: > post-cure
bake: > post-cure
cook: oven > post-cure
check: > check
inspect: > check
test: > check
examine: > check
gauge: > check
look: +at|+over|+round|+around|+like|+in|+underneath|+under|+inside > check
shine: torch|light|lamp > check
tap: insert|@insert|thread|threads > drill; > check
feel: > check
touch: anything|nothing > @none; +up > repair; > check
see: +if|+how|+whether > check
find: > check
notice: > check
spot: > check
trim: > trim
deflash: > trim
nip: > trim
sand: > sand
key: > sand
scuff: > sand
abrade: > sand
rub: @release > release; @polish > polish; > sand
flat: > sand
flatten: > sand
file: > sand
grind: > sand
linish: > sand
rasp: > sand
knock: back|down|flat|edge|edges|nibs > sand; off & flash > trim; out|off|free|loose|open|through > demould; up|together & @resin|@gel|@batch|@plaster|@putty|@rubber > mix
drill: > drill
countersink: > drill
bore: > drill
polish: > polish
burnish: > polish
compound: > polish
fit: > fit
bolt: > fit
screw: > fit
bond: tear|crack|chip > repair; > fit
embed: > fit
glue: tear|crack|chip|piece & +the & tear|crack|chip > repair; > fit
epoxy: +in|+the|+on > fit
attach: > fit
mount: > fit
weld: > fit
demould: > demould
demold: > demould
unmould: > demould
unmold: > demould
crack: open|off|apart|+it & open > demould
prise: > demould
pry: > demould
wedge: > demould
ease: out|off|free|apart|open > demould
lift: out|off|@part > demould
lever: > demould
split: +the|+it|+them|+mould|+mold|open|apart|halves|@mould > demould
separate: > demould
break: out|open|apart|free & @mould|it|halves|half|case|jacket > demould
open: tin|tins|drum|bag|bags|bottle|box|roll|can|tub|tube|sack > check; @mould|halves|it|up|case|jacket|box > demould
strip: @mould|@part|out|off > demould
peel: mould|mold|off|out|back|@part > demould
pop: @oven > post-cure; @second > mix; @fabric|@gel|@release > apply; @insert > fit; @bag > press; bubble|bubbles > check; it|them|that|this|out|off|open|free|loose|apart|@part|@mould > demould; > demould
repair: > repair
patch: > repair
mend: > repair
photograph: > photograph
snap: photo|picture|pic|pics|photos|pictures|shot > photograph
store: > store
shelve: > store
stash: > store
rack: > store
cast: > pull
recast: > pull
demoulded: > demould
knife: > brush
screed: > brush
line: +up > fit; @fabric > laminate
drape: > laminate
layup: > laminate
lay: @release > release; @clay|wall|@wall > wall; @insert > fit; +up|@fabric|layer|layers|ply|plies > laminate; @gel > brush; @bag|@bagging > press; > laminate
pull: @vacuum > press; vacuum|bag|@bag|bar|mbar|millibar|millibars|+down|inches|hg & -|vacuum > press; vacuum|bag|@bag|millibar|millibars|mbar > press; number|no|#|@cast|@num & cast > pull; @cast|number > pull; +down > press; +back|+together > @none; > demould
draw: @vacuum > press; vacuum|bag|@bag|+down > press; > check
take: photo|photos|picture|pictures|pic|pics|shot|shots|snap|snaps > photograph; @cast > pull; reading|readings|measurement|measurements|temperature|look > check; flash|excess|edge|edges|off & sander|edge > trim; +back|+down & grit|sander|coat|filler > sand; @mould|apart > demould; out & mould|mold|@part > demould
get: @weight & @rubber|@resin|@second|@gel|@plaster & !on > weigh; photo|photos|picture|pictures|pic|shot > photograph; @cast > pull; out & @mould|mould|mold|@part > demould; it|them & out|off|open|apart > demould; on & @fabric|@gel|@release|@seal|coat|coats|layer|layers > apply; @fabric|@release|@seal|coat|coats|layer|layers & on|down|in|over > apply; oven > post-cure; bag|vacuum & on|under|down > press
put: patch > repair; undercut|undercuts|gap|gaps|hole|holes|void|voids|recess|recesses|hollow|cavity & @putty|@filler|@resin|@gel|@clay > fill; @oven|oven > post-cure; vacuum|bag|@bag|@bagging > press; chamber & vacuum|pot > degas; scale|scales > weigh; shelf|away|rack|cupboard|store|container & away|shelf|rack|cupboard|store|box > store; fillet|fillets > fill; wall|dam|fence|@wall > wall; @insert > fit; hole|holes|vent|vents > drill; > apply
stick: needle|pin|syringe > repair; @oven|oven > post-cure; shelf|rack|cupboard > store; @insert > fit; @second|@filler|@fabric|@release|@gel|@pigment|coat|layer|layers > apply
chuck: @oven|oven > post-cure; @second|@filler|@fabric|@release|@gel|@pigment|coat|layer|layers > apply
sling: @oven|oven > post-cure; > apply
bung: @oven|oven > post-cure; > apply
whack: @oven|oven > post-cure; > apply
bang: @oven|oven > post-cure; > apply
slap: > apply
slop: > apply
lob: @oven|oven > post-cure; > apply
throw: @oven|oven > post-cure; > apply
drop: @insert > fit; @second|@filler|@pigment|@fabric > apply; @temperature > @none
dump: > apply
toss: @oven|oven > post-cure; > apply
apply: > apply
use: @weight & @resin > laminate; @second|@filler|@fabric|@release|@gel|@seal|@resin|@putty > apply
add: > apply
whip: up & @resin|@batch|@gel|@plaster > mix
run: vacuum|pump > press; bead|fillet > fill; tape & @bag > press; roller > roll; finger|fingers & putty|fillet > fill; over & roller > roll
work: @fabric|@gel > apply; into|in & putty|@putty > fill
go: undercut|undercuts|gap|gaps|hole|holes|void|voids|recess|recesses|hollow|cavity & @putty|@filler|@resin|@gel|@clay > fill; oven & in|into > post-cure; on|over|down|in|into|onto & @fabric|@gel|@release|@seal|@putty|@filler|@second|@pigment|@rubber|@plaster|@resin|@clay|@bagging > apply; +on|+down|+over & coat|coats|layer|layers|ply|plies|@coat|@layer > apply; roller|paddle > roll; over|round|around & brush|stipple > stipple; sander|grit|sandpaper|@grit > sand; round|over & wax > release
come: +out|+off|+away|+free|+apart & @cast > pull; +out|+off|+away|+free|+apart|+loose & @mould|@part|@bag|@start > demould
slip: +on|+in & @fabric > laminate
dip: @fabric > laminate
smooth: @release > release; @clay > wall; @gel|@plaster|@putty > brush
tamp: > press
bed: @insert > fit; @fabric > laminate
set: @insert|@clay & in > fit; oven > post-cure; wall|dam > wall; aside > wait
make: wall|dam|box|flange|fence|barrier > wall; good|repair > repair; up & @resin|@gel|@batch|@plaster|@putty|@rubber|@second > mix; mix|batch|brew|pot & @resin|@gel|@batch|@plaster|@putty|@rubber|@second > mix; @batch > mix; +up > mix; photo|picture > photograph; template|templates|pattern|patterns & @fabric > cut
prepare: @batch|@resin|@gel|@plaster > mix; @fabric > cut
do: post|postcure|@postcure > post-cure; repair|patch > repair; mix|batch|@batch > mix; stir > mix; layup|lay|lamination|laminate > laminate; wax|waxing|release > release; sanding|sand|rub > sand; wipe|clean|wash > clean; trim|trimming > trim; polish > polish; check|test > check; pour > pour; @cast > pull; demould|demold > demould; layer|layers|coat|coats|@coat|@layer & @release|@seal|@gel|@fabric|@rubber|@plaster|@resin > apply; coat|coats|@coat|layer|layers|@layer|ply|plies > apply; skin & @gel > apply
give: vacuum > degas; stir|mix > mix; wipe|clean|wash|blow|hoover|dust > clean; sand|rub|scuff|key|flat > sand; polish|buff|shine > polish; roll|rolling > roll; stipple > stipple; spray > spray; check|look > check; trim > trim; soak & in > wait; coat|coats|brush|lick > apply; hour|hours|minute|minutes|mins|while|night > wait; > apply
have: off|out & her|it|them|@part & plug|pattern|mould|mold|off > demould; look|feel > check; stir > mix
leave: between|coats > @none; cure|curing|overnight|@night|harden|set|weekend|gel|kick > cure; soak|stand|sit|dry|flash|tack|@duration|minute|minutes|hour|hours|while|bit|be|till|until|tomorrow|rest|slake|tacky|green > wait; clamped|@bag > press
let: cure|harden|set|kick|gel|overnight|@night|up & set > cure; soak|stand|sit|dry|flash|tack|rest|slake|go|tacky|breathe|settle|degas|be|cool|@duration > wait
sit: @duration > wait
hold: @duration & vacuum|bar > press; @temperature & @duration > post-cure
keep: stirring|mixing > mix
ramp: > post-cure
warm: oven|@duration & oven > post-cure; resin|hardener|@resin > @none
heat: oven > post-cure
draft: > @none
move: shelf|rack|store > store
hang: > store
knit: > @none
chamfer: > trim
shave: > trim
pare: > trim
rout: > trim
router: > trim
dress: > trim
saw: > trim
plane: > trim
clip: +on|@insert > fit; > fit
locate: @insert > fit
install: > fit
insert: > fit
reinforce: @fabric > laminate; > fit
brace: > fit
stack: @fabric > laminate; > store
wrap: @fabric > laminate; > store
infuse: > wet out
inject: > fill
syringe: > fill
chop: @fabric > cut
tear: @fabric > cut
scrape: off|clean > clean; @putty|into > fill; @gel > brush
dry: @duration|off > wait
slake: > wait
"""

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
    ("bagging", "press"),
    ("bag", "press"),
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
)

# Nouns that name an act by themselves in a note without a verb ("layup done at ten", "post-cure at sixty").
NOUNS = {
    "layup": "laminate", "lay - up": "laminate", "lay up": "laminate", "lamination": "laminate", "demould": "demould",
    "demold": "demould", "post - cure": "post-cure", "post cure": "post-cure", "postcure": "post-cure",
    "degas": "degas", "trimming": "trim", "sanding": "sand", "polishing": "polish", "waxing": "release",
    "off it came": "demould", "out it came": "demould", "off she came": "demould", "back on the shelf": "store",
    "on the rack": "store", "in with the whisk": "mix", "in with the paddle": "mix", "barcol": "check",
    "shore": "check", "durometer": "check",
}  # fmt: skip

# Irregular forms: past, participle, and others that the rules of spelling do not give.
IRREGULAR = {
    "lay": "laid layed lain", "put": "put", "cut": "cut", "cast": "cast casted", "pour": "poured", "spread": "spread",
    "set": "set", "get": "got gotten", "go": "went gone", "come": "came", "take": "took taken", "give": "gave given",
    "make": "made", "forget": "forgot forgotten", "do": "did done does", "leave": "left", "let": "let",  "hold": "held", "keep": "kept", "stick": "stuck",
    "throw": "threw thrown", "run": "ran run", "draw": "drew drawn", "break": "broke broken", "build": "built",
    "fit": "fit", "grind": "ground", "sweep": "swept", "stand": "stood", "sit": "sat", "split": "split",
    "wet": "wet", "see": "saw seen", "find": "found", "feel": "felt", "have": "had has having", "shine": "shone",
    "sling": "slung", "hang": "hung", "tear": "tore torn", "beat": "beat beaten", "blow": "blew blown", "stick up": "",
    "degas": "degassed degassing degasses", "bed": "bedded", "saw": "sawed sawn", "weigh": "weighed", "spray": "sprayed",
    "bind": "bound", "fix": "fixed", "press": "pressed", "dry": "dried", "apply": "applied", "shellac": "shellacked shellacking",
    "chuck": "chucked", "demold": "demolded", "rout": "routed", "size": "sized",
}  # fmt: skip

# Verbs whose forms are never nouns: they need no look at what stands around them.
PLAIN_VERBS = frozenset(
    "weigh pour thicken build put lay take get make do give have leave let keep go come apply use add chuck sling bung "
    "lob whack slap throw toss dump catalyse catalyze degas degass demould demold unmould unmold erect decant inspect "
    "examine".split()
)
