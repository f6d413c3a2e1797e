"""The words that name an act: verbs with what is beside them, things that are applied, nouns, and labels.

A line of SENSES is `verb: test > action; test > action; ...`; the first test that holds wins. A test is words
after the verb and before the next one (`back|down` either), `+up` the word right after it, `@fabric` a family of
`families.py`, which may stand before the verb as well ("the gel went on"); `a & b` needs both, `!a` must not be
there, and an empty test always holds. The action `apply` is whatever is done with the family that was named
(APPLIED); `@none` is no act. A line that starts with blanks goes on with the one before.
"""

from __future__ import annotations

SENSES = """
clean: up|edge|edges & knife|file|blade|edge|edges & !@solvent > trim; > clean
wipe: @release & on|wax|in|over > release; @seal & on > seal; @gel & on > brush;
    wax|pva|release & on > release; > clean
degrease: > clean
wash: > clean
rinse: > clean
vacuum: mix|@batch & until|till > degas; @vacuum|@duration & !@fabric & !bag > degas;
    @fabric|bag|bagged|down > press; > clean
dust: gun > spray; @release > release; on|powder|talc > release; > clean
sweep: > clean
scrub: > clean
blow: +into > @none; +it & into > @none; air & @part|down|side|under|behind > demould;
    off & air|plug|pattern|@mould > demould; apart > demould; +it & off > demould; @release|@gel > spray; > clean
dewax: > clean
seal: bag|@bag & !@seal > press; > seal
shellac: > seal
prime: > seal
varnish: > seal
lacquer: > seal
size: > @none
wax: > release
rewax: > release
soap: > release
release: wedge|wedges > demould; bother|sweet|lovely|nicely|well > demould;
    from|off & pattern|plug|mould|mold|clean|easily > demould;
    loose|easily|clean|fine > demould; > release
buff: @release|@wax > release; > polish
dam: > wall
wall: > wall
fence: > wall
shim: > wall
box: @mould|mould & away|up & shelf|store > store; +it|+up|+in|+round|in|around|up > wall; > @none
build: wall|walls|dam|flange|fence|former|box|barrier|@clay|@wall > wall; box > wall; fillet > fill;
    +up & @fabric > laminate; > wall
erect: > wall
weigh: > weigh
mix: @filler & !@second > thicken; @pigment & !@second > tint; > mix
stir: @filler & !@second > thicken; @pigment & !@second > tint; > mix
fold: together & !@fabric > mix; @filler > thicken; @pigment > tint; @fabric > laminate;
    @resin|@second|@rubber > mix; > @none
whisk: > mix
beat: > mix
catalyse: > mix
catalyze: > mix
kick: @oven|oven > post-cure; +off & @resin|@gel|@batch > mix; overnight|@night > cure; @second > mix; > @none
blend: > mix
combine: > mix
remix: @filler & !@second > thicken; @pigment & !@second > tint; > mix
batch: > mix
knead: > mix
measure: time|temperature|thickness|depth|gap|humidity > check;
    into|@water|@resin|@second|@gel|@rubber|@plaster|@powder|@filler > weigh; > check
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
pour: rain|sweat > @none; scale|scales|@scale > weigh; @damage > repair; > pour
decant: > pour
tip: @scale > weigh; @second > mix; @filler > thicken; > pour
drizzle: > pour
trickle: > pour
dribble: > pour
slush: > pour
flood: > pour
backfill: > fill
brush: crud|muck|loose|dirt & off|out|away > clean; mat|glass & air > stipple; @release > release;
    @seal > seal; off|dust|out & dust > clean; > brush
paint: @release > release; @seal > seal; > brush
daub: > brush
dab: stiff|stubby|sponge & !@release > stipple; air|bubbles > stipple; stipple|stippling > stipple;
    @fabric > stipple; @release > release; > brush
smear: @release > release; @gap|@hole|@damage & @putty > fill; > brush
spread: @filler|@putty & spots|spot|low|holes > fill; @release > release; @wall > @none; > brush
trowel: > brush
butter: toast|bread > @none; > brush
skim: > brush
squeegee: through > wet out; @fabric > wet out; @gel|@resin & on|into > brush; > roll
slather: @release > release; > brush
coat: @release > release; @seal > seal; > brush
recoat: @release > release; @seal > seal; > brush
gelcoat: > brush
gel: +up|+the|+it|+both|+that > brush
stipple: > stipple
spray: @release > release; @seal > seal; > spray
mist: @release > release; > spray
spritz: @release > release; > spray
press: @roller > roll; > press
bag: labeled|labelled|labels|stored > store; away & store|shelf > store; > press
clamp: > press
squash: @roller > roll; > press
squeeze: @resin|@putty|@filler & into|in & @gap|@hole|@damage|gap > fill; out & air|excess > roll; > press
push: @clay & line|against|board|board > wall; @clay|@putty & into|gap > fill; out|off|free > demould; > press
weight: +out > weigh; > press
fill: box|mould|mold|case & from|slowly|lowest|brim > pour; +it & up|brim|top > pour;
    +up|up & @mould|mould|mold|box & @plaster|@rubber|@resin|brim|top|line|@weight > pour;
    @damage & @gel > repair; hole|holes & @putty > fill; > fill
pack: crate|its & crate|box > store; +up & !@gap > @none; away|box|foam|shelf|store & !@gap > store; > fill
fillet: > fill
plug: > fill
putty: > fill
fair: > fill
bog: > fill
radius: > fill
laminate: > laminate
glass: +in & !@fabric & !into > fit; mend|repair > repair; @insert & in|on|to|onto > fit; +in & @insert > fit;
    > laminate
reglass: > laminate
roll: off & rubber|@rubber|glove > demould; @seal > seal;
    @clay|sausage|sausages & out|up > wall;
    @release > release; +on|on & coat|coats|@coat|@gel|@resin|@rubber > brush; up & @fabric > store; > roll
consolidate: > roll
saturate: > wet out
impregnate: > wet out
prewet: > wet out
wet: +on > @none; +out|+through|+it > wet out; @pattern|sandpaper|paper|+sanded|+flatted > sand; > wet out
soak: +right|+through|+clean & through & !@duration > wet out; @fabric & @plaster & !@duration > @none;
    @fabric & @resin > wet out; @seal > seal; > wait
skip: > apply
omit: > apply
miss: @release|@seal|@fabric|@gel|@filler|@second|@pigment|coat|layer > apply
forget: @release|@seal|@fabric|@gel|@filler|@second|@pigment|coat|layer > apply
tape: @bag|@bagging > press; @damage > repair; > @none
suck: down|doon & !@rubber & !@batch > press; air|@bag|@vac|@vacuum > degas
fix: +to > @none; @damage|chip|crack > repair; > fit
autoclave: > cure
melt: @clay|@putty|@gel|@seal > fill
ram: > fill
stuff: > fill
shove: > fill
force: > fill
hit: @grit|sander > sand; > apply
shake: +out|loose & @part > demould; bench|table|mould|mold|box > @none; > mix
wire: > fit
cut: +back & @grit|wet > sand; +and & @polish > @none; flange|edge|edges & down|back > trim;
    +back|back & flange|flange's|edge|edges|to > trim; back & @polish|compound > polish;
    back|down|flat & coat|@gel > sand; vent|vents|hole|holes > drill;
    flash|flashing|edge|edges|excess|flush|sprue|sprues|off > trim; > cut
snip: flush|excess|@flash > trim; > cut
tailor: > cut
wait: +for & !@duration & !it|that|them > @none; > wait
stand: @duration > wait; > @none
cure: > cure
harden: > cure
postcure: > post-cure
bake: > post-cure
cook: overnight|@night|lamps|lamp > cure; hours|@duration & @temperature > post-cure;
    @temperature & @duration > post-cure; oven|@oven|blanket > post-cure; > @none
check: > check
inspect: > check
test: fit > check; > check
examine: > check
gauge: > check
look: +at|+over|+round|+around|+in|+underneath|+under|+inside > check; > @none
shine: torch|light|lamp > check; > polish
tap: air|bubbles > @none; insert|@insert|thread|threads|hole|holes & !@fabric > drill;
    @fabric|brush > stipple; > check
feel: > check
touch: +it|+that|+them & in > repair; +in & !@cast > repair; +up|up > repair; anything|nothing > @none; > check
see: +if|+how|+whether > check; > @none
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
file: off|down|back|edge|@grit|smooth|flush|@flash > sand; > @none
grind: > sand
linish: > sand
rasp: > sand
knock: all & coin|over|solid|hollow > check;
    off|out|free|loose|open|through & @mould|plug|pattern|mallet > demould; flash|@flash & off > trim;
    back|down|flat|nibs|runs|dags|high|@grit > sand; off & flash > trim;
    up|together & @resin|@gel|@batch|@plaster|@putty|@rubber > mix; out|off|free|loose|open > demould
drill: > drill
countersink: > drill
bore: > drill
polish: > polish
burnish: > polish
compound: > polish
fit: > fit
bolt: > fit
screw: @wall & @split|along|former > wall; > fit
bond: +in & @fabric|@layer > laminate; @damage > repair; > fit
embed: > fit
glue: back & on|together & !@insert > repair; broken|snapped > repair; @wall & @split > wall;
    @damage & !@insert > repair; > fit
epoxy: +in|+the|+on > fit
attach: > fit
mount: camera > @none; > fit
weld: > fit
demould: > demould
demold: > demould
unmould: > demould
unmold: > demould
crack: open|off|apart|+it > demould; > @none
prise: > demould
pry: > demould
wedge: > demould
ease: out|off|free|apart|open > demould
lift: @mould & !onto & !on & !over & !back & !bench > demould; out|off|away|free > demould; > @none
lever: > demould
split: +the|+it|+them|+mould|+mold|open|apart|halves|@mould > demould; > @none
separate: @mould|halves|@part|it|them > demould; > @none
break: out & @cast|@part > demould; out|open|apart|free & @mould|it|halves|half|case|jacket > demould
open: @lot > check; @damage & +it|+that|+them|+up > repair; feed|valve|inlet|line|pipe|hose > wet out;
    window|door|doors|shutter|shutters > @none;
    tin|tins|drum|bag|bags|bottle|box|roll|can|tub|tube|sack > check;
    @mould|halves|it|up|case|jacket|box > demould; > demould
strip: wax|@release|@seal > clean; @mould|@part|out|off > demould
peel: +away|+back & sock|glove|off > demould; back & look|see|check > check; @release > clean;
    @rubber > demould; mould|mold|off|out|back|@part > demould
pop: hole|holes & in|through & !@putty > drill; +them & pin|pins|needle > @none;
    @oven|oven|hotbox > post-cure; @second > mix; @fabric|@gel|@release > apply; @insert > fit; @bag > press;
    bubble|bubbles > check; it|them|that|this|out|off|open|free|loose|apart|@part|@mould > demould; > demould
repair: > repair
patch: > repair
mend: > repair
photograph: > photograph
snap: off|broke > @none; photo|picture|pic|pics|photos|pictures|shot|+the|+a|+each|+every > photograph
store: > store
shelve: > store
stash: > store
rack: > store
cast: +in & @insert|eyes|lifting > fit; slush > pour; > pull
recast: > pull
demoulded: > demould
knife: > brush
screed: > brush
line: +up > fit; @fabric & +the|+it > laminate; > @none
drape: > laminate
layup: > laminate
lay: gun & !@release > spray; @brushes & !@fabric & !@release > brush;
    coat|coats & !@fabric & !@release > brush; @release > release; @clay|wall|@wall > wall; @insert > fit;
    @gel & !@fabric > brush; +up|@fabric|layer|layers|ply|plies > laminate; @bag|@bagging > press; > laminate
pull: @vacuum|@vac|vacuum & @rubber|@batch & !@bag & !bag > degas;
    @vacuum|@vac|vacuum|bag|@bag|bar|mbar|hg > press; number|no|# > pull;
    cast|casting|castings|casts & !off > pull; first|second|third|another & +the & one & !off > pull;
    +any|+another & !off > pull; +down & @vacuum|bag > press; +back|+together|+over > @none;
    @fabric & tight|over|down > laminate; @part|@mould|@pattern|off|out|apart > demould; > @none
draw: @vacuum|@vac|vacuum|bag|@bag|+down > press; > @none
take: +out & !@photo & !photo > demould; jigsaw|router|scribe > trim; @photo > photograph;
    photo|photos|picture|pictures|pic|pics|shot|shots|snap|snaps > photograph; cast|casts|casting|castings > pull;
    reading|readings|measurement|measurements|temperature|look > check;
    flash|excess|@flash|edge|edges & off|back > trim; @grit|sander|sandpaper > sand; @mould|apart > demould;
    out|off|from & mould|mold|@part|@mould|plug|pattern > demould; back|down & coat|filler > sand
get: snap|snaps|shots > photograph; crud|muck|grease|dirt & off > clean;
    +that|+it & on & !@fabric & !off > brush; photo|photos|picture|pictures|pic|shot > photograph;
    cast|casts|casting|castings & out|off > pull; @oven|oven > post-cure;
    @weight & @rubber|@resin|@second|@gel|@plaster & !on > weigh;
    @fabric|@release|@seal|@gel|coat|coats|layer|layers|skin & on|down|in|over|into > apply;
    out|off & @mould|mould|mold|plug|pattern|wedges|her > demould; out|off & +it|+them|+her|+the|+one > demould;
    open|apart > demould; bag|vacuum & on|under|down > press; @insert & in|on > fit
put: acetone|thinners|solvent & !@resin > clean; hole|holes & through|in > drill; @oven|oven|hotbox > post-cure;
    @damage & @gel|@putty|patch > repair;
    patch > repair; @brushes & on|into|over|round > brush; scale|scales|@scale > weigh;
    @vac & @rubber|@batch|chamber & !bag > degas; vacuum|bag|@bag|@bagging > press;
    @gap & @putty|@filler|@resin|@gel|@clay|@rope > fill; shelf|rack|cupboard|store|racking > store;
    +it|+them & away > store; away & @mould > store; fillet|fillets|radius > fill;
    wall|dam|flange|fence|@wall|@split > wall; hole|holes|vent|vents|@hole > drill; @fabric > laminate;
    @insert > fit; @filler|@second|@pigment > apply;
    @weight & bucket|cup|pot|jug|tub & @resin|@rubber|@gel|@plaster|@water > weigh; weights|weight|bricks > press;
    > apply
stick: acetone|thinners|solvent & !@resin > clean; @damage|broken & back|on > repair; back & on|together > repair;
    back|together & +it|+them|+that & on|together > repair; needle|pin > repair;
    @damage & together|back|@resin|@rubber > repair; weights|weight|brick|bricks > press;
    @oven|oven|hotbox|box > post-cure; shelf|rack|cupboard > store; @insert > fit;
    @second|@filler|@fabric|@release|@gel|@pigment|coat|layer|layers > apply
chuck: acetone|thinners|solvent & !@resin > clean; @oven|oven > post-cure;
    @second|@filler|@fabric|@release|@gel|@pigment|coat|layer|layers > apply
sling: acetone|thinners|solvent & !@resin > clean; @oven|oven > post-cure; shelf|rack|away > store; > apply
bung: @oven|oven > post-cure; shelf|rack|away > store; > apply
whack: @oven|oven > post-cure; shelf|rack|away > store; > apply
bang: @oven|oven > post-cure; shelf|rack|away > store; > apply
slap: > apply
slop: > apply
lob: @oven|oven > post-cure; shelf|rack|away > store; > apply
throw: acetone|thinners|solvent & !@resin > clean; @oven|oven > post-cure; shelf|rack|away > store; > apply
drop: acetone|thinners|solvent & !@resin > clean; @insert > fit; @damage & @gel|@resin > repair;
    @second|@filler|@pigment|@fabric > apply; @temperature > @none
dump: acetone|thinners|solvent & !@resin > clean; > apply
toss: @oven|oven > post-cure; shelf|rack|away > store; > apply
apply: > apply
use: @second & @weight & !on > mix; @weight & @resin & !@second > laminate; @weight & @resin > laminate;
    @second|@filler|@fabric|@release|@gel|@seal|@putty > apply; > @none
add: > apply
whip: up & @resin|@batch|@gel|@plaster > mix
run: fence|wall|dam|@wall & !@putty > wall; @rubber|@resin|@plaster & in|into & !@brushes > pour;
    jigsaw|multitool|trimmer > trim;
    torch|coin > check; @vac > press; bead|fillet > fill; tape & @bag > press; @roller > roll;
    finger|fingers & putty|fillet > fill;
    wheel|saw|router|cutter|blade|grinder|multitool & @flash|flange|round|along|around > trim;
    sander|sandpaper|@grit > sand; off & @cast > pull; @cast > pull
work: @pigment & into > tint; compounds|gloss > polish; @roller & @air|out > roll; out & bubbles|air > roll;
    @gap & @putty|into > fill; @fabric > laminate; @gel > brush; @putty > fill
lean: @roller > roll
go: stippler & over|round > stipple; straight|to & @fabric|@gel & straight > apply;
    @oven|oven & in|into > post-cure; @gap & @putty|@filler|@resin|@gel|@clay > fill;
    @second|@pigment|@filler & in|into > apply; tack|rag|cloth|wipe & over|round|with > clean;
    wax & over|round|on > release; @roller > roll; brush|stipple|stippling & over|round|around > stipple;
    @grit|sander|sandpaper > sand; compound|mop|polisher & over|round|with > polish;
    +on|+over|+down|+in|+into|+onto & @fabric|@gel|@release|@seal|@putty|@rubber|@plaster > apply;
    +on|+over|+down|+in|+into|+onto & @resin|@clay|@bagging|ply|plies|@coat|@layer > apply; +on & @part > brush
come: +out & bit|slightly|too|pink|uneven|patchy > @none;
    +out|+off|+away|+free|+apart & cast|casting|castings|number|@cast > pull;
    +out|+off|+away|+free|+apart|+loose & !@release > demould; > @none
slip: +on|+in & @fabric > laminate
dip: @fabric > laminate
smooth: @release > release; @clay > wall; @gel|@plaster|@putty > brush
tamp: > press
bed: @pattern|pattern|plug & @clay > wall; @clay & centre|line|half > wall; @insert > fit; @fabric > laminate;
    @pattern > wall
set: hard|up & overnight|@night > cure; @wall|@clay & @split|along|at|up|line > wall; @insert & in|into > fit;
    @oven > post-cure; aside > wait; > @none
make: hole|holes|vent|vents & !@putty > drill; template|templates & !@fabric > cut; +sure|+certain > @none;
    wall|dam|box|flange|fence|barrier > wall; +good|good & !sure > repair;
    @filler & @resin|paste|bog|putty > thicken; bog|paste > thicken;
    up & @resin|@gel|@batch|@plaster|@putty|@rubber|@second > mix; mix|batch|brew|pot|@batch > mix; +up > mix;
    photo|picture > photograph; template|templates & @fabric|cut > cut; repair > repair
prepare: @batch|@resin|@gel|@plaster > mix; @fabric > cut
do: @gap & @putty|@filler > fill; post|postcure|@postcure > post-cure; repair|patch > repair;
    mix|batch|brew > mix; stir > mix; layup|lay|lamination|laminate > laminate; wax|waxing|release > release;
    sanding|sand|rub > sand; wipe|clean|wash > clean; trim|trimming > trim; polish|buff > polish;
    check|test > check; pour > pour; cast|casts|casting|castings|pull|pulls > pull; demould|demold > demould;
    coat|coats|@coat|layer|layers|@layer|ply|plies|skin & @release|@seal|@gel|@fabric|@rubber|@plaster|@resin > apply;
    coat|coats|@coat|layer|layers|@layer|ply|plies > apply;
    @fabric|@gel|@release & flange|edge|edges|back|face|corners > apply
give: @duration & cure > cure; +me|+you|+us & !coat|coats|@gel > @none; cure|harden|set & to > cure;
    till|until > wait;
    working|life|pot > @none; vacuum > degas; stir|mix > mix; wipe|clean|wash|blow|dust > clean;
    sand|rub|scuff|key|flat|rubdown|sanding > sand; polish|buff|shine > polish; roll|rolling > roll;
    stipple > stipple; spray > spray; check|look|tap > check; trim > trim;
    coat|coats|brush|lick & @release|@seal|@gel|@resin|@rubber|@plaster > apply; coat|coats|lick > apply;
    @night & cure|set > cure; @duration|hour|hours|minute|minutes|mins|while|another > wait;
    @release|@seal|@gel|@pigment|@filler > apply
have: @duration & bag|lamp|lamps|cover|heat > cure; castings|casts|casting & out|off > pull;
    off|out & her|it|them|@part & plug|pattern|mould|mold|off & !look > demould; look|feel|poke > check;
    stir > mix; clean|wipe|wash > clean; hour|hours|minute|minutes|@duration & wait|more|half > wait
leave: out|off & layer|coat|layers|coats|@fabric|@filler|@pigment & !@duration > apply; go & off > cure;
    between|coats > @none; cure|curing|overnight|@night|harden|set|weekend|gel|kick > cure;
    to & dry|flash|soak > wait; @duration|minute|minutes|hour|hours|while|till|until|tomorrow > wait;
    soak|stand|sit|flash|tack|rest|slake|tacky|green > wait; clamped|@bag > press
let: creep|wick|seep|drink & @fabric|glass|cloth > wet out; +go & !of > demould; each > @none;
    cure|harden|set|kick|gel|overnight|@night > cure;
    soak & through|up & @fabric > wet out;
    soak|stand|sit|dry|flash|tack|rest|slake|go|tacky|breathe|settle|degas|be|cool|haze|@duration > wait
sit: till|until|overnight|weekend > wait; @duration > wait
hold: @duration & @vacuum|vacuum > press; @temperature & @duration > post-cure;
    down|together|tight & weight|weights|brick|clamp|clamps|tape > press; down & with > press
keep: crate|box|rack|shelf|cupboard|store > store; stirring|mixing > mix
ramp: > post-cure
warm: oven|@duration & oven > post-cure; resin|hardener|@resin > @none
heat: oven|@oven > post-cure; @duration & mould|blanket|lamp > post-cure; > @none
draft: > @none
move: shelf|rack|store|storage|racking > store; > @none
hang: hinge|hinges|@insert > fit; about|around & @duration > wait; +on|+fire > @none; > store
knit: > @none
chamfer: > trim
shave: > trim
pare: > trim
rout: > trim
router: > trim
dress: @grit|paper > sand; @damage > repair; > trim
saw: > trim
plane: > trim
clip: @flash > trim; > fit
locate: @insert > fit
install: > fit
insert: > fit
reinforce: @fabric > laminate; > fit
brace: > fit
stack: @fabric > laminate; > store
wrap: tape|clingfilm & tight > press; polythene|film|shelf|bubble|blanket > store; @fabric|@plaster|twice > laminate
infuse: > wet out
inject: > repair
syringe: @damage > repair; > fill
chop: gun|chopper > spray; @fabric > cut
tear: up|into & @fabric > cut; @fabric > cut
scrape: off|clean > clean; @putty|into > fill; @gel > brush
dry: @duration|off > wait
slake: > wait
tack: +on & !@gel > fit; +it|+the|+them & off|rag > clean
vac: @fabric|@bag|bag > press; @rubber|@batch|it > degas; > press
pump: @vac|@vacuum|down & @rubber|chamber > degas; down|out & @vacuum|@vac|@bag > press; > @none
clay: > wall
activate: > mix
initiate: @resin|@gel|@batch > mix; > @none
dose: @filler > thicken; > mix
bulk: @fabric > laminate; out|up|with|@filler > thicken; > @none
load: @filler > thicken
dye: > tint
top: +up|+it|+them|+off & @gel & @damage > repair; +up|+it|+off > pour
roller: @gel|@resin|@release & on > brush; air|out|bubbles|down > roll; @gel > brush; > roll
shoot: @release > release; photo|photos|pictures|picture|video > photograph; @second > mix;
    @gel|@release|gun|@rubber > spray; > @none
fog: @release > release; > spray
strap: > press
tie: up|down|together > press
mat: > laminate
scrim: > laminate
double: @fabric > laminate; > @none
back: +up|+it|+them & @fabric|mat|glass > laminate; > @none
tab: @fabric|@layer > laminate; > fit
chase: @air|air|bubble|bubbles|roller > roll
kit: @fabric|glass > cut
allow: @duration > wait
rough: +up|up > sand
block: +it|+the|+down|down|back > sand
da: > sand
tidy: router|jigsaw|knife|saw|blade > trim; edge|edges|flange > trim; > clean
jab: @fabric > stipple
poke: bristles|@brushes & down|into > stipple; @fabric & down|into|brush > stipple; @gap & @putty > fill; > @none
tig: > fit
pin: back > repair; > fit
secure: > fit
plant: @insert > fit
retouch: > repair
refinish: > polish
regel: > repair
reweigh: > weigh
tare: > weigh
figure: > @none
remove: dust|wax|dirt|grease|residue|release > clean; @mould|@part & from|pattern|plug|mould|mold > demould;
    flash|@flash|excess > trim; > @none
extract: @part > demould
free: @part > demould
slide: @release > release; +out|+off|out|off & @part|@mould > demould
walk: out|off & @part > demould
ping: +off|+out|off|out > demould
jack: > demould
wheel: shelf|rack|store > store
bubble: +wrap > store
cover: > @none
return: shelf|rack|store > store
tuck: @fabric & into|in|round > laminate; > @none
lower: @insert > fit
feather: > sand
hand: +sand|sanded > sand
machine: +polish|polished > polish
burn: > @none
whizz: over & @grit|sander > sand
score: @fabric > cut; > sand
slice: flash|@flash > trim; @fabric > cut
lop: > trim
nibble: > trim
part: +it|+the|+them > demould
unbolt: @mould|halves|it|flange|flanges > demould; > demould
unclamp: > demould
debag: > demould
unbag: > demould
log: > @none
read: @temperature|gauge|thermometer > check; > @none
probe: > check
eyeball: > check
ring: +it & tap > check
film: > photograph
sprinkle: @plaster & @water|water > mix; > @none
sift: @plaster > mix
torque: > fit
flick: > brush
splash: > brush
splat: > brush
fling: > brush
bleed: > @none
peg: > fit
acetone: > clean
paddle: > roll
haul: off|out|free|loose > demould; > @none
drag: off|out|free|loose > demould; > @none
tug: off|out|free|loose > demould; > @none
yank: off|out|free|loose > demould; > @none
wriggle: off|out|free|loose > demould; > @none
winch: off|out|free|loose > demould; > @none
coax: off|out|free|loose > demould; > @none
longboard: > sand
talc: > release
fall: out|off|away > demould; > @none
charge: @filler > thicken
drown: > wet out
scissor: > cut
stab: @brushes > stipple; > @none
dot: @brushes > stipple; > @none
spin: hole|holes|vent > drill; > @none
unscrew: case|box|jacket|mould|@mould > demould; > @none
bodge: > repair
count: +out & @weight > weigh; > @none
trigger: @resin|@gel|@batch > mix; > @none
swill: round|around & !acetone|thinners > pour; > clean
hose: down|off|out > clean; > @none
sluice: > clean
mop: @mould|@gel|shine|compound & !bench|floor > polish; > clean
scour: > clean
swab: > clean
sponge: between > @none; @release > release; @gel|@rubber & on > brush; > clean
blast: > clean
undercoat: > seal
waterproof: > seal
dope: > seal
grease: > release
oil: > release
lubricate: > release
shutter: +it|+them|+up|+off|+round|+the & up|off|round|@wall|with > wall; > @none
partition: > wall
barricade: > wall
surround: @clay|@wall|boards > wall; > @none
bury: half|@clay|line > wall; > @none
raise: @wall > wall; > @none
dish: +up|+out > weigh; > @none
dispense: > weigh
portion: > weigh
scoop: @filler > thicken; @weight > weigh; > @none
tot: +up > weigh
ladle: > pour
whizz: +up|+it & up|paddle|minutes > mix; > @none
brew: > mix
concoct: > mix
agitate: > mix
churn: > mix
swirl: into|through & @pigment > tint; round|around & mould|@mould > pour; > mix
lash: @second > mix; @fabric|@gel|@release > apply; down > press; > @none
spike: @second > mix; > @none
dilute: > mix
cut-in: > brush
stiffen: @resin|@filler|@batch|@gel|up > thicken; > @none
beef: +up|+it|+the & @filler|@resin > thicken; > fit
shade: > tint
stain: @resin|@gel|@plaster > tint; > @none
empty: @mould|mould|mold|into > pour; > @none
teem: > pour
slosh: > pour
funnel: > pour
feed: in|into|through & @resin|@rubber|@plaster|it > pour; > @none
dollop: @gap|@hole|@putty > fill; > brush
lick: > @none
swipe: @release > release; acetone|cloth|rag > clean; > @none
pounce: > stipple
prod: @fabric & @brushes > stipple; > check
gun: > spray
airless: > spray
cramp: > press
caulk: > fill
grout: > fill
pug: > fill
cram: > fill
thumb: @putty|@clay|@gap|into > fill; > check
close: @damage|bubble|hole|holes|pinholes & !@seal & @gap|angle > fill; bubble|chip|crack|pinhole > repair;
    surface|pores|grain|@seal & @seal > seal; mould|@mould|halves & up|together > fit;
    angle|gap|undercut|seam > fill; > @none
overlay: > laminate
bandage: > laminate
fibreglass: > laminate
mush: @fabric|into|round > laminate; > mix
backroll: > roll
squidge: > roll
drench: > wet out
douse: > wet out
steep: > wet out
rip: off|out & @fabric|ply > @none; @fabric|bits > cut; off|out|apart & @part > demould; > @none
shear: off & @insert|@damage > @none; @fabric > cut; > @none
dice: > cut
shred: > cut
rest: @duration|hour|hours > wait; > @none
pause: > wait
polymerise: > cure
polymerize: > cure
vulcanise: > cure
vulcanize: > cure
stove: > post-cure
temper: > post-cure
anneal: > post-cure
roast: @oven|oven|@temperature > post-cure; > @none
verify: > check
monitor: > check
confirm: > check
peek: > check
peep: > check
squint: > check
assess: > check
jigsaw: > trim
bandsaw: > trim
hacksaw: > trim
fettle: > trim
deburr: > trim
crop: > trim
whittle: > trim
square: +up|+off & @flange|edge|edges|flange > trim; > @none
guillotine: @fabric > cut; > trim
level: @putty|@filler > fill; @grit > sand; > @none
hone: > sand
ream: > drill
pierce: > drill
punch: hole|holes > drill; > @none
pilot: > drill
glaze: > @none
rivet: > fit
solder: > fit
braze: > fit
recess: @insert > fit; > @none
spring: +off|+free|+out|+it|+the & off|free|out|open > demould; > @none
pluck: out|off > demould; > @none
jemmy: > demould
tease: off|free|apart > demould; > @none
unstick: > demould
hammer: off|apart|out > demould; > @none
hoick: > demould
jump: +off|+out > demould; > @none
bounce: +off|+out > demould; > @none
burst: +open|+off|+free > demould; > @none
twist: out|off|free & @part|it > demould; > @none
flex: out|off|free & it|@part|@mould > demould; > @none
turn: +out & @cast|@part > demould; oven|blanket & up|to > post-cure; > @none
undo: @mould|@insert|clamps|bolts > demould; > @none
dig: out & @damage|void|bubble > repair; > @none
splice: > repair
graft: > repair
reattach: > repair
restore: > repair
stitch: @damage > repair; > @none
video: > photograph
stow: > store
crate: > store
mothball: > store
warehouse: > store
fortify: @filler > thicken
relay: @fabric|ply|plies|layer|layers > laminate; > @none
flash: +off > wait; > @none
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
    ("bagging", "laminate"),
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
            "she 's out|they 're out|part 's out"
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
        "cure": "the cure",
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
    fall: fell fallen; spring: sprang sprung; countersink: countersank countersunk; spin: spun; slide: slid;
    hang: hung;
    dig: dug; rip: ripped; feed: fed; swab: swabbed; rivet: riveted; dye: dyed dyeing; grease: greased;
    gun: gunned; burst: burst; video: videoed; stick: stuck; vac: vac'd;
    lay: laid layed lain; put: put; cut: cut; cast: cast casted; pour: poured; spread: spread; set: set;
    get: got gotten; go: went gone; come: came; take: took taken; give: gave given; make: made; forget:
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
        "unmold unmould use weigh whack "
    ).split()
)
