"""Everyday verbs, and verbs of the trade that name an act only among certain things: put, take, get, run, set."""

from __future__ import annotations

SENSES = """
size: > @none
box: +off|off > wall; @mould|mould & away|up & shelf|store > store; +it|+up|+in|+round|in|around|up > wall; > @none
fold: together & !@fabric > mix; @filler > thicken; @pigment > tint; @fabric > laminate; @resin|@second|@rubber > mix;
    > @none
kick: @oven|oven > post-cure; +off & @resin|@gel|@batch > mix; overnight|@night > cure; @second > mix; > @none
gel: +up|+the|+it|+both|+that > brush
skip: > apply
omit: > apply
bother: @release|@seal|@fabric|@gel|@filler|coat|layer > apply; > @none
miss: @release|@seal|@fabric|@gel|@filler|@second|@pigment|coat|layer > apply
forget: @release|@seal|@fabric|@gel|@filler|@second|@pigment|coat|layer > apply
tape: @fault > repair; @bag|@bagging > press; @damage > repair; > @none
suck: +air > @none; down|doon & !@rubber & !@batch > press; air|@bag|@vac|@vacuum > degas
melt: @clay|@putty|@gel|@seal > fill
hit: @grit|sander > sand; > apply
stand: @duration|+to > wait; > @none
cook: overnight|@night|lamps|lamp > cure; hours|@duration & @temperature > post-cure;
    @temperature & @duration > post-cure; oven|@oven|blanket > post-cure; > @none
watch: gauge|needle|dial|thermometer|@vacuum > check; > @none
look: clock|watch|phone|wrong > @none; +it|+her|+him|+them & over > check;
    +at|+over|+round|+around|+in|+underneath|+under|+inside > check; > @none
see: +if|+how|+whether > check; > @none
file: off|down|back|edge|@grit|smooth|flush|@flash > sand; > @none
knock: all & coin|over|solid|hollow > check; off|out|free|loose|open|through & @mould|plug|pattern|mallet > demould;
    flash|@flash & off > trim; back|down|flat|nibs|runs|dags|high|@grit > sand; off & flash > trim;
    up|together & @resin|@gel|@batch|@plaster|@putty|@rubber > mix; out|off|free|loose|open > demould
epoxy: +in|+the|+on > fit
crack: line|feed|inlet|valve|clamp > wet out; open|off|apart|+it > demould; > @none
ease: out|off|free|apart|open > demould
lift: @mould & !onto & !on & !over & !back & !bench > demould; out|off|away|free > demould; > @none
split: +it|+the & half|pots|cups|buckets|batches|@batch > @none;
    +the|+it|+them|+mould|+mold|open|apart|halves|@mould > demould; > @none
separate: @mould|halves|@part|it|them > demould; > @none
break: out & @cast|@part > demould; out|open|apart|free & @mould|it|halves|half|case|jacket > demould
strike: flush|level|lath|straightedge|straight > trim; > @none
save: @weight|@resin|@gel|@rubber|@batch|@fabric & !record|note > store; > @none
reserve: @weight|@resin|@gel|@rubber|@batch > store; > @none
strip: wax|@release|@seal > clean; @mould|@part|out|off > demould
peel: +away|+back & sock|glove|off > demould; back & look|see|check > check; @release > clean; @rubber > demould;
    mould|mold|off|out|back|@part > demould
snap: off|broke > @none; +it|+them|+her & from|sides|angles > photograph;
    photo|picture|pic|pics|photos|pictures|shot|+the|+a|+each|+every > photograph
line: +up > fit; @fabric & +the|+it > laminate; > @none
pull: @vacuum|@vac|vacuum & @rubber|@batch & !@bag & !bag > degas; @vacuum|@vac|vacuum|bag|@bag|bar|mbar|hg > press;
    number|no|# > pull; cast|casting|castings|casts & !off > pull;
    first|second|third|another & +the & one & !off > pull; +any|+another & !off > pull; +a & yet & !off > pull;
    more & !off & !@vac & !@vacuum > pull;
    +down & @vacuum|bag > press;
    +back|+together|+over > @none; @fabric & tight|over|down > laminate; @part|@mould|@pattern|off|out|apart > demould;
    > @none
draw: @vacuum|@vac|vacuum|bag|@bag|+down > press; > @none
take: @press|gloves|mask|lid|masking|sheet & off > @none;
    +the & half & off|out & !inch|mil|mm & !@grit > demould; video|videos|footage|film > photograph;
    +it|+her|+them & out|off & !@photo & !@duration > demould; +me|+us & @duration & !out|off > @none;
    oven|blanket & to|up & @temperature|@duration > post-cure;
    +it|+her|+them|+up & @temperature & @duration > post-cure;
    +out & !@photo & !photo > demould; jigsaw|router|scribe > trim;
    @photo > photograph; photo|photos|picture|pictures|pic|pics|shot|shots|snap|snaps > photograph;
    cast|casts|casting|castings > pull; copy|copies & out|off > pull;
    reading|readings|measurement|measurements|temperature|look > check;
    flash|excess|@flash|edge|edges & off|back > trim; @grit|sander|sandpaper > sand; @mould|apart > demould;
    out|off|from & mould|mold|@part|@mould|plug|pattern > demould; back|down & coat|filler > sand
get: +a|+another & coat|coats > apply; +a & polish|buff > polish; +a & sand|rub > sand; +a & wash|wipe|clean > clean;
    +a & trim > trim; @resin & through & @fabric > wet out;
    up & @temperature & @duration > post-cure; snap|snaps|shots > photograph;
    crud|muck|grease|dirt & off > clean;
    +that|+it & on & !@fabric & !off > brush; photo|photos|picture|pictures|pic|shot > photograph;
    cast|casts|casting|castings & out|off > pull; @oven|oven > post-cure;
    @weight & @rubber|@resin|@second|@gel|@plaster & !on > weigh;
    @fabric|@release|@seal|@gel|coat|coats|layer|layers|skin & on|down|in|over|into > apply;
    out|off & @mould|mould|mold|plug|pattern|wedges|her > demould; out|off & +it|+them|+her|+the|+one > demould;
    open|apart > demould; bag|vacuum|@press & on|under|down > press; @insert & in|on > fit
put: +away > store; =release & !away & !store > release;
    drop|dash|touch|squirt|percent|% & black|white|red|blue|green|yellow|brown|grey|colour|pigment > tint;
    aside|by & @duration|overnight|@night & !@fabric > wait; +aside|+by|aside > store;
    acetone|thinners|solvent & !@resin > clean; hole|holes & through|in > drill; @oven|oven|hotbox > post-cure;
    @damage & @gel|@putty|patch > repair; patch > repair; @brushes & on|into|over|round > brush;
    scale|scales|@scale > weigh; @vac & @rubber|@batch|chamber & !bag > degas; vacuum|bag|@bag|@bagging > press;
    @gap & @putty|@filler|@resin|@gel|@clay|@rope > fill; @keep > store; +it|+them & away > store;
    away & @mould > store; fillet|fillets|radius > fill; =release > release; wall|dam|flange|fence|@wall|@split > wall;
    hole|holes|vent|vents|@hole > drill; @fabric > laminate; @insert > fit; @filler|@second|@pigment > apply;
    @weight & bucket|cup|pot|jug|tub & @resin|@rubber|@gel|@plaster|@water > weigh; @press > press; > apply
stick: =core > fit; acetone|thinners|solvent & !@resin > clean; @insert & !broken|snapped|@damage > fit;
    @damage|broken & back|on > repair; back & on|together > repair;
    back|together & +it|+them|+that & on|together > repair; needle|pin > repair;
    @damage & together|back|@resin|@rubber > repair; @press > press; @oven|oven|hotbox|box > post-cure; @keep > store;
    @insert > fit; @second|@filler|@fabric|@release|@gel|@pigment|coat|layer|layers > apply
chuck: acetone|thinners|solvent & !@resin > clean; @oven|oven > post-cure;
    @second|@filler|@fabric|@release|@gel|@pigment|coat|layer|layers > apply
sling: acetone|thinners|solvent & !@resin > clean; @oven|oven > post-cure; @keep|away > store; > apply
bung: @oven|oven > post-cure; @keep|away > store; > apply
whack: @oven|oven > post-cure; @keep|away > store; > apply
bang: @oven|oven > post-cure; @keep|away > store; > apply
slap: > apply
slop: > apply
lob: @oven|oven > post-cure; @keep|away > store; > apply
throw: acetone|thinners|solvent & !@resin > clean; @oven|oven > post-cure; @keep|away > store; > apply
drop: acetone|thinners|solvent & !@resin > clean; @insert > fit; @damage & @gel|@resin > repair;
    @second|@filler|@pigment|@fabric > apply; @temperature > @none
dump: acetone|thinners|solvent & !@resin > clean; > apply
toss: @oven|oven > post-cure; @keep|away > store; > apply
apply: > apply
use: @second & @weight & !on > mix; @weight & @resin & !@second > laminate; @weight & @resin > laminate;
    @second|@filler|@fabric|@release|@gel|@seal|@putty|@pigment > apply; > @none
add: @water & !@resin & !@rubber > mix; > apply
run: +off & another|more|couple|dozen|copies > pull; @fault & @rubber|@resin|@plaster|@gel|@putty > repair;
    paddle|whisk|mixer & !@fabric > mix; chopper|chop > spray;
    fence|wall|dam|@wall & !@putty > wall;
    @rubber|@resin|@plaster & in|into & !@brushes > pour; jigsaw|multitool|trimmer > trim; torch|coin > check;
    @vac > press; bead|fillet > fill; tape & @bag > press; @roller > roll; finger|fingers & putty|fillet > fill;
    wheel|saw|router|cutter|blade|grinder|multitool & @flash|flange|round|along|around > trim;
    sander|sandpaper|@grit > sand; off & @cast > pull; @cast > pull
work: stipple|stippling|stippler|bristle|bristles & air|bubbles|bubble > stipple; wedges|wedge > demould;
    @pigment & into > tint; compounds|gloss > polish; @roller & @air|out > roll;
    out & bubbles|air > roll; @gap & @putty|@filler > fill; @fabric > laminate; @gel > brush; @putty > fill
lean: @roller > roll
go: +on|+over & @bag|bag & !@fabric > press; +under & @vacuum|@vac > degas;
    torch|light|lamp & round|around|over|with > check; stippler & over|round > stipple;
    straight|to & @fabric|@gel & straight > apply; @oven|oven & in|into > post-cure;
    @gap & @putty|@filler|@resin|@gel|@clay > fill; @second|@pigment|@filler & in|into > apply;
    tack|rag|cloth|wipe & over|round|with > clean; wax & over|round|on > release; @roller > roll;
    brush|stipple|stippling & over|round|around > stipple; @grit|sander|sandpaper > sand;
    compound|mop|polisher & over|round|with > polish;
    +on|+in|+back & @insert & !@fabric & !@layer > fit;
    +on|+over|+down|+in|+into|+onto & @fabric|@gel|@release|@seal|@putty|@rubber|@plaster > apply;
    +on|+over|+down|+in|+into|+onto & @resin|@clay|@bagging|ply|plies|@coat|@layer > apply; +on & @part > brush
come: +out & oven > post-cure; +out & at & @thickness|@length & !@cast > check;
    +out & bit|slightly|too|pink|uneven|patchy > @none;
    +out|+off|+away|+free|+apart & cast|casting|castings|number|@cast > pull;
    +out|+off|+away|+free|+apart|+loose & !@release > demould; > @none
slip: +on|+in & @fabric > laminate
dip: @fabric|+it|+them & @plaster|@resin > laminate; @fabric > laminate
smooth: @release > release; @clay > wall; @gel|@plaster|@putty > brush
bed: @clay & !@insert & !@fabric > wall; @pattern|pattern|plug & @clay > wall; @clay & centre|line|half > wall;
    @insert > fit; @fabric > laminate;
    @pattern > wall
set: =insert|=core|=hardware & in|into|on|up|along|across > fit; aside|by & @duration|overnight|@night|harden|go > wait;
    +aside|aside|+by > store; hard|up & overnight|@night > cure; @wall|@clay & @split|along|at|up|line > wall;
    @insert & in|into > fit; @oven > post-cure; > @none
make: hole|holes|vent|vents & !@putty > drill; template|templates & !@fabric > cut; +sure|+certain > @none;
    wall|dam|box|flange|fence|barrier > wall; +good|good & !sure > repair; @filler & @resin|paste|bog|putty > thicken;
    bog|paste > thicken; up & @resin|@gel|@batch|@plaster|@putty|@rubber|@second > mix; mix|batch|brew|pot|@batch > mix;
    +up > mix; photo|picture > photograph; template|templates & @fabric|cut > cut; repair > repair
prepare: @batch|@resin|@gel|@plaster > mix; @fabric > cut
do: @gap & @putty|@filler > fill; post|postcure|@postcure > post-cure; repair|patch > repair; mix|batch|brew > mix;
    stir > mix; layup|lay|lamination|laminate > laminate; wax|waxing|release > release; sanding|sand|rub > sand;
    wipe|clean|wash > clean; trim|trimming > trim; polish|buff > polish; check|test > check; pour > pour;
    cast|casts|casting|castings|pull|pulls > pull; demould|demold > demould;
    coat|coats|@coat|layer|layers|@layer|ply|plies|skin & @release|@seal|@gel|@fabric|@rubber|@plaster|@resin > apply;
    coat|coats|@coat|layer|layers|@layer|ply|plies > apply;
    @fabric|@gel|@release & flange|edge|edges|back|face|corners > apply
give: @duration & cure > cure; @duration & haze|dry|flash|soak|tack|settle|breathe|stand > wait;
    +me|+you|+us & !coat|coats|@gel > @none; cure|harden|set & to > cure; till|until > wait;
    working|life|pot > @none; vacuum > degas; stir|mix > mix; @release & !wash|off|water > release;
    wipe|clean|wash|blow|dust > clean; sand|rub|scuff|key|flat|rubdown|sanding > sand; polish|buff|shine > polish;
    roll|rolling > roll; stipple > stipple; spray > spray; check|look|tap > check; trim > trim;
    coat|coats|@coat|brush|lick|wipe & @release|@seal|@gel|@resin|@rubber|@plaster > apply; coat|coats|lick > apply;
    @night & cure|set > cure; @duration|hour|hours|minute|minutes|mins|while|another > wait;
    @release|@seal|@gel|@pigment|@filler > apply
have: +it|+her|+him|+them & apart|open > demould; @duration & bag|lamp|lamps|cover|heat > cure;
    castings|casts|casting & out|off > pull;
    off|out & her|it|them|@part & plug|pattern|mould|mold|off & !look > demould; look|feel|poke > check; stir > mix;
    clean|wipe|wash > clean; hour|hours|minute|minutes|@duration & wait|more|half > wait
leave: last & till|until > @none; +each|each > @none; +aside|aside > wait; =press|=bag & on & !cure|curing > wait;
    out|off & layer|coat|layers|coats|@fabric|@filler|@pigment & !@duration > apply; go & off > cure;
    between|coats > @none; cure|curing|overnight|@night|harden|set|weekend|gel|kick > cure; to & dry|flash|soak > wait;
    @duration|minute|minutes|hour|hours|while|till|until|tomorrow > wait;
    soak|stand|sit|flash|tack|rest|slake|tacky|green > wait; clamped|@bag > press
let: between > @none; creep|wick|seep|drink & @fabric|glass|cloth > wet out; +go & !of > demould; each > @none;
    cure|harden|set|kick|gel|overnight|@night > cure; soak & through|up & @fabric > wet out;
    soak|stand|sit|dry|flash|tack|rest|slake|go|tacky|breathe|settle|degas|be|cool|haze|@duration > wait
sit: +on|+at > @none; lamp|lamps|heater > cure; till|until|overnight|weekend > wait; @duration > wait
hold: +off & !@press > wait; @duration & @vacuum|vacuum > press; @temperature & @duration > post-cure;
    +back & @weight|@resin|@gel|@rubber|@batch > store;
    down|together|tight & weight|weights|brick|clamp|clamps|tape > press; down & with > press
keep: curing > cure; +the & in & shade|cool|dark|dry > store; @keep|box > store;
    +it|+them|+that|+her & @duration & !@vac & !@press > wait;
    +back|aside|back & @weight|@resin|@gel|@rubber|@batch|@fabric > store;
    stirring|mixing > mix
warm: oven|@duration & oven > post-cure; resin|hardener|@resin > @none
heat: oven|@oven > post-cure; @duration & mould|blanket|lamp > post-cure; > @none
draft: > @none
move: @keep|storage > store; > @none
knit: > @none
locate: @insert > fit
wrap: tape|clingfilm & tight > press; polythene|film|bubble|blanket|@keep > store; @fabric|@plaster|twice > laminate
chop: gun|chopper|skin|coat|+on > spray; @fabric > cut
tear: up|into & @fabric > cut; @fabric > cut
scrape: +down|down & bench|floor|table|tools > clean; level|flat|flush|@flash|edge|edges > trim; off|clean > clean;
    @putty|into > fill; @gel > brush
dry: between > @none; @duration|off > wait
tack: +on & !@gel > fit; +it|+the|+them & off|rag > clean
pump: @vac|@vacuum|down & @rubber|chamber > degas; down|out & @vacuum|@vac|@bag > press; > @none
initiate: @resin|@gel|@batch > mix; > @none
bulk: @fabric > laminate; @filler > thicken; +up|+out > laminate; with > thicken; > @none
load: @press > press; @filler > thicken
top: +up|+it|+them|+off & @gel & @damage > repair; +up|+it|+off > pour
shoot: @release > release; coat|coats > spray; +it|+the & @pressure > spray; +it & !photo > spray;
    photo|photos|pictures|picture|video > photograph; @second > mix;
    @gel|@release|gun|@rubber > spray; > @none
tie: up|down|together > press
double: @fabric > laminate; > @none
back: +up|+it|+them & @fabric|mat|glass > laminate; > @none
chase: @air|air|bubble|bubbles|roller > roll
kit: @fabric|glass > cut
allow: @duration > wait
rough: +up|up > sand
block: +it|+the|+down|down|back > sand
jab: @fabric|@brushes > stipple
poke: bristles|@brushes & down|into > stipple; @fabric & down|into|brush > stipple; @gap & @putty > fill; > @none
plant: @insert > fit
figure: > @none
remove: dust|wax|dirt|grease|residue|release > clean; @mould|@part & from|pattern|plug|mould|mold > demould;
    flash|@flash|excess > trim; > @none
extract: @part > demould
free: @part > demould
slide: @release > release; +out|+off|out|off & @part|@mould > demould
walk: out|off & @part > demould
ping: +off|+out|off|out > demould
wheel: @keep > store; compound|compounds|buff > polish; > @none
bubble: +wrap > store
cover: > @none
return: @keep > store
tuck: @fabric & into|in|round > laminate; > @none
lower: @insert > fit
pass: @release|@gel|@seal|@resin|coat|@coat > apply; @roller > roll; @grit > sand; > @none
hand: +sand|sanded > sand
machine: +polish|polished > polish
burn: > @none
whizz: over & @grit|sander > sand
slice: flash|@flash > trim; @fabric > cut
part: +it|+the|+them > demould
log: > @none
read: @temperature|gauge|thermometer > check; > @none
ring: +it & tap > check
sprinkle: @plaster & @water|water > mix; > @none
sift: @plaster > mix
sort: @fault|@damage|leak > repair; > @none
fish: +it|+them|+her & out > demould; > @none
bleed: > @none
haul: off|out|free|loose > demould; > @none
drag: off|out|free|loose > demould; > @none
tug: off|out|free|loose > demould; > @none
yank: off|out|free|loose > demould; > @none
wriggle: off|out|free|loose > demould; > @none
winch: off|out|free|loose > demould; > @none
coax: off|out|free|loose > demould; > @none
fall: off & me|us|you > @none; out|off|away > demould; > @none
charge: @filler > thicken
stab: @brushes > stipple; > @none
dot: @brushes > stipple; > @none
spin: hole|holes|vent > drill; > @none
unscrew: case|box|jacket|mould|@mould > demould; > @none
count: +out & @weight > weigh; > @none
trigger: @resin|@gel|@batch > mix; > @none
hose: down|off|out > clean; > @none
shutter: +it|+them|+up|+off|+round|+the & up|off|round|@wall|with > wall; > @none
surround: @clay|@wall|boards > wall; > @none
bury: half|@clay|line > wall; > @none
raise: @wall > wall; > @none
dish: +up|+out > weigh; > @none
scoop: @filler > thicken; @weight > weigh; > @none
tot: +up > weigh
whizz: +up|+it & up|paddle|minutes > mix; > @none
lash: @second > mix; @fabric|@gel|@release > apply; down > press; > @none
spike: @second > mix; > @none
stiffen: +it|+that & with > thicken; @resin|@filler|@batch|@gel|up > thicken; > @none
stain: @resin|@gel|@plaster > tint; > @none
empty: @mould|mould|mold|into > pour; > @none
feed: in|into|through & @resin|@rubber|@plaster|it > pour; > @none
lick: > @none
swipe: @release > release; acetone|cloth|rag > clean; > @none
close: @damage|bubble|hole|holes|pinholes & !@seal & @gap|angle > fill; bubble|chip|crack|pinhole > repair;
    surface|pores|grain|@seal & @seal > seal; mould|@mould|halves & up|together > fit; angle|gap|undercut|seam > fill;
    > @none
rip: off|out & @fabric|ply > @none; @fabric|bits > cut; off|out|apart & @part > demould; > @none
shear: off & @insert|@damage > @none; @fabric > cut; > @none
rest: @duration|hour|hours > wait; > @none
roast: @oven|oven|@temperature > post-cure; > @none
square: +up|+off & @flange|edge|edges|flange > trim; > @none
level: @putty|@filler > fill; @grit > sand; +off|off|straightedge > trim; > @none
punch: hole|holes > drill; > @none
glaze: > @none
recess: @insert > fit; > @none
spring: +off|+free|+out|+it|+the & off|free|out|open > demould; > @none
pluck: out|off > demould; > @none
tease: off|free|apart > demould; > @none
hammer: off|apart|out > demould; > @none
jump: +off|+out > demould; > @none
bounce: +off|+out > demould; > @none
burst: +open|+off|+free > demould; > @none
twist: out|off|free & @part|it > demould; > @none
flex: out|off|free & it|@part|@mould > demould; > @none
turn: +out & @cast|@part > demould; oven|blanket & up|to > post-cure; > @none
undo: @mould|@insert|clamps|bolts > demould; > @none
dig: out & @damage|void|bubble > repair; > @none
stitch: @damage > repair; > @none
fortify: @filler > thicken
relay: @fabric|ply|plies|layer|layers > laminate; > @none
flash: +off > wait; > @none
pick: off & @flash > trim; @clay|bits|bit & off|out > clean; > @none
drain: excess|back|bucket|@rubber|@resin|@plaster > pour; > @none
pot: @insert & in|into > fit; > @none
stay: on & harden|cure|set > cure; clamped|bag|weights|bench|flat|mould|clamps & @duration > wait; > @none
"""
