"""Verbs of building a mould: walls, presses, fills, layers, what is fitted and what is mended."""

from __future__ import annotations

SENSES = """
dam: > wall
wall: > wall
fence: > wall
shim: > wall
build: @fault & up|back > repair; wall|walls|dam|flange|fence|former|box|barrier|@clay|@wall > wall; box > wall;
    fillet > fill; +up & @fabric > laminate; > wall
erect: > wall
debulk: > press
backfill: > fill
squeegee: through > wet out; @fabric > wet out; @gel|@resin & on|into > brush; > roll
press: =fabric|=layer & in|into|on|onto|down > laminate; @roller > roll; > press
bag: +off|+down|+on|+up & off > @none; labeled|labelled|labels|stored > store; away & store|shelf > store; > press
clamp: > press
squash: @roller > roll; > press
squeeze: +it|+that|+some & into|in & @gap|@hole|@damage|gap > fill;
    @resin|@putty|@filler & into|in & @gap|@hole|@damage|gap > fill; out & air|excess > roll; > press
push: =wall & in|into|over|along > wall; @clay & line|against|board|board > wall; @clay|@putty & into|gap > fill;
    out|off|free > demould; > press
weight: +out > weigh; > press
fill: spout|riser|risers & up|to > pour; box|mould|mold|case & from|slowly|lowest|brim > pour;
    +it & up|brim|top > pour; +up|up & @mould|mould|mold|box & @plaster|@rubber|@resin|brim|top|line|@weight > pour;
    > fill
pack: crate|its & crate|box > store; @clay & up|under|round|around|along & !@gap > wall; +up & !@gap > @none;
    away|box|foam|shelf|store & !@gap > store; > fill
fillet: > fill
plug: @damage|@fault & @rubber|@gel|@resin > repair; > fill
putty: > fill
fair: board|longboard|file|sander|@grit & !@putty & !@filler > sand; > fill
bog: > fill
radius: > fill
laminate: > laminate
glass: =insert|=core & in|on|to|onto|down > fit; +in & !@fabric & !into > fit; mend|repair > repair;
    @insert & in|on|to|onto > fit; +in & @insert > fit; > laminate
reglass: > laminate
roll: =fabric|=layer & on|onto > laminate; +back & @keep > @none; off & rubber|@rubber|glove|sock|skin|latex > demould;
    @seal > seal;
    @clay|sausage|sausages & out|up > wall; @release > release; +on|on & coat|coats|@coat|@gel|@resin|@rubber > brush;
    up & @fabric > store; > roll
consolidate: > roll
saturate: > wet out
impregnate: > wet out
prewet: > wet out
wet: +on|+thickness|+film|+edge|+day > @none; +out|+through|+it > wet out;
    @pattern|sandpaper|paper|+sanded|+flatted > sand; > wet out
fix: +to > @none; @fault|@damage|leak|leaks > repair; > fit
ram: > fill
stuff: > fill
shove: > fill
force: > fill
wire: > fit
cut: +back|back & percent|@second > mix;
    multitool|jigsaw|grinder|router & round|around|off > trim; back & @grit|wet > sand; +and & @polish > @none;
    flange|edge|edges & down|back > trim; +back|back & flange|flange's|edge|edges|to > trim;
    back & @polish|compound > polish; back|down|flat & coat|@gel > sand; vent|vents|hole|holes > drill;
    flash|flashing|edge|edges|excess|flush|sprue|sprues|off > trim; > cut
snip: flush|excess|@flash > trim; > cut
tailor: > cut
fit: > fit
bolt: > fit
screw: @wall & for|as|around|round > wall; boards|board & !@insert > wall; @wall & @split|along|former|formers > wall;
    +down|press & press|vice|vise > press; > fit
bond: +in & @fabric|@layer > laminate; @damage > repair; > fit
embed: > fit
glue: +that|+it & back > repair; box|boards|@wall & round|around|up > wall; back & on|together & !@insert > repair;
    broken|snapped > repair;
    @wall & @split > wall; @damage|@fault & !@insert > repair; > fit
attach: > fit
mount: camera > @none; > fit
weld: > fit
repair: > repair
patch: > repair
mend: > repair
drape: > laminate
layup: > laminate
lay: +up & on > laminate; spatula|trowel & !@fabric > brush; =insert|=core > fit; gun & !@release > spray;
    @brushes & !@fabric & !@release > brush; coat|coats & !@fabric & !@release > brush; @release > release;
    @clay|wall|@wall & !@fabric > wall; @insert & !@fabric & !@layer & !@bagging > fit; @gel & !@fabric > brush;
    +up|@fabric|layer|layers|ply|plies > laminate; @bag|@bagging > press; > laminate
tamp: > press
clip: @flash > trim; > fit
install: > fit
insert: > fit
reinforce: @fabric > laminate; > fit
brace: > fit
infuse: > wet out
inject: behind > repair; =fault|=damage|@damage & !@mould > repair; > pour
syringe: @damage > repair; > fill
vac: @fabric|@bag|bag > press; @rubber|@batch|it > degas; > press
clay: > wall
roller: @gel|@resin|@release & on > brush; air|out|bubbles|down > roll; @gel > brush; > roll
strap: > press
mat: > laminate
scrim: =insert|=core > fit; > laminate
tab: @fabric|@layer > laminate; > fit
tig: > fit
pin: back > repair; > fit
secure: > fit
retouch: > repair
regel: > repair
torque: > fit
peg: > fit
paddle: > roll
drown: > wet out
scissor: > cut
bodge: > repair
partition: > wall
barricade: > wall
beef: +up|+it|+the & @filler|@resin > thicken; > fit
cramp: > press
caulk: > fill
grout: > fill
pug: > fill
cram: > fill
overlay: > laminate
bandage: > laminate
fibreglass: > laminate
backroll: > roll
squidge: > roll
drench: > wet out
douse: > wet out
steep: > wet out
dice: > cut
shred: > cut
rivet: > fit
solder: > fit
braze: > fit
splice: > repair
graft: > repair
reattach: > repair
restore: > repair
"""
